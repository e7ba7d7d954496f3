"""Settings by environment: refused at start when wrong, with all that is wrong; what an orchestrator sets is no setting."""

import pytest

from wallwright.api.settings import PREFIX, RANGES, BadSetting, Settings, settings_from


def test_every_setting_has_a_range_and_its_default_lies_in_it():
    assert tuple(RANGES) == Settings.__struct_fields__
    for name, (least, most) in RANGES.items():
        assert least <= getattr(Settings(), name) <= most


@pytest.mark.parametrize("name", RANGES)
def test_each_setting_at_its_limits_and_one_past(name):
    least, most = RANGES[name]
    key = PREFIX + name.upper()
    for value in (least, most):
        assert getattr(settings_from({key: str(value)}), name) == value
    for value in (str(least - 1), str(most + 1), "", " 5", "5 ", "1e3", "0x10", "٥", "5.0", "+5", "9" * 5000):
        with pytest.raises(BadSetting, match=f"{key} is .*give a whole number from {least} to {most}"):
            settings_from({key: value})


# Kubernetes, "Accessing the Service", environment variables: {SVCNAME}_SERVICE_HOST, {SVCNAME}_SERVICE_PORT and the
# variables of linked containers for a service called wallwright, or one whose name begins so.
INJECTED = {
    "WALLWRIGHT_SERVICE_HOST": "10.0.0.11",
    "WALLWRIGHT_SERVICE_PORT": "80",
    "WALLWRIGHT_SERVICE_PORT_HTTP": "80",
    "WALLWRIGHT_PORT": "tcp://10.0.0.11:80",
    "WALLWRIGHT_PORT_80_TCP": "tcp://10.0.0.11:80",
    "WALLWRIGHT_PORT_80_TCP_PROTO": "tcp",
    "WALLWRIGHT_PORT_80_TCP_PORT": "80",
    "WALLWRIGHT_PORT_80_TCP_ADDR": "10.0.0.11",
    "WALLWRIGHT_PROXY_SERVICE_HOST": "10.0.0.12",
    "WALLWRIGHT_PROXY_PORT_443_TCP": "tcp://10.0.0.12:443",
}


def test_what_an_orchestrator_sets_is_passed_over_and_can_never_be_a_setting():
    assert settings_from(INJECTED) == Settings()
    for name in RANGES:
        with pytest.raises(BadSetting):
            settings_from({PREFIX + name.upper(): "tcp://10.0.0.11:80"})


@pytest.mark.parametrize(
    "name",
    ["SPEED", "TEST_", "TEST_ANYTHING", "EXAMPLES", "SCHEMA_EXAMPLES", "FRESH", "concurrency", "Concurrency", "", "PORTS", "BODY",
     "SERVICE", "SERVICE_HOSTS"],
)  # fmt: skip
def test_any_other_name_with_the_prefix_is_refused(name):
    with pytest.raises(BadSetting, match="is no setting; known are WALLWRIGHT_BODY_BYTES"):
        settings_from({PREFIX + name: "1"})


def test_all_that_is_wrong_is_told_at_once_and_other_names_are_nobodys():
    with pytest.raises(BadSetting) as told:
        settings_from({"WALLWRIGHT_SPEED": "9", "WALLWRIGHT_THREADS": "0", "WALLWRIGHTY": "x", "PATH": "/bin"})
    assert str(told.value).count("\n") == 1
    assert settings_from({"WALLWRIGHTY": "x", "PATH": "/bin"}) == Settings()
