"""What is shipped to run copies: parsed, and held to what is promised of it, since no engine runs here."""

import json
import re
import tomllib
from pathlib import Path

import pytest
import yaml
from packaging.version import Version
from tests.docker.write_sbom import FILE, LOCK, locked, sbom_bytes

from wallwright.api.settings import RANGES, Settings, settings_from

DOCKER = Path(__file__).parent.parent.parent / "docker"
DOCKERFILE = (DOCKER / "Dockerfile").read_text()
COMPOSE = yaml.safe_load((DOCKER / "compose.yaml").read_text())
CLUSTER = {one["kind"]: one for one in yaml.safe_load_all((DOCKER / "kubernetes/wallwright.yaml").read_text())}
POD = CLUSTER["Deployment"]["spec"]["template"]["spec"]
CONTAINER = POD["containers"][0]


def instructions(word: str) -> list[str]:
    joined = DOCKERFILE.replace("\\\n", " ")
    return [line.split(None, 1)[1] for line in joined.splitlines() if line.startswith(f"{word} ")]


def test_the_image_is_locked_and_nobody_in_it_is_root():
    assert instructions("USER") == ["65534:65534"]
    assert len(instructions("FROM")) == 2
    assert "--require-hashes" in DOCKERFILE
    assert "--only-binary :all:" in DOCKERFILE
    assert not re.search(r"(?i)apt-get|curl|wget|ADD ", DOCKERFILE)
    for source in instructions("COPY"):
        if not source.startswith("--from"):
            for path in source.split()[:-1]:
                assert (DOCKER.parent / path).exists(), path
    (check,) = instructions("HEALTHCHECK")
    assert json.loads(check.split("CMD ")[1]) == ["python", "-m", "wallwright.api.probe", "/health"]


def test_every_file_that_the_image_takes_reaches_the_builder():
    allowed = {line[1:] for line in (DOCKER.parent / ".dockerignore").read_text().splitlines() if line.startswith("!")}
    taken = {path for source in instructions("COPY") if not source.startswith("--from") for path in source.split()[:-1]}
    assert taken == allowed


def test_the_lock_holds_every_dependency_with_hashes_and_as_asked():
    found = locked()
    assert all(one.hashes for one in found)
    versions = {one.name: one.version for one in found}
    project = tomllib.loads((DOCKER.parent / "pyproject.toml").read_text())["project"]
    for requirement in project["dependencies"]:
        name, least, most = re.fullmatch(r"([a-z0-9-]+)>=([0-9.]+),<([0-9.]+)", requirement).groups()
        numbers = [tuple(int(part) for part in text.split(".")) for text in (least, versions[name], most)]
        assert numbers[0] <= numbers[1] < numbers[2], requirement
    assert "git+" not in LOCK.read_text()


def test_the_bill_of_materials_is_the_lock():
    assert FILE.read_bytes() == sbom_bytes(), "run: python -m tests.docker.write_sbom"
    bill = json.loads(FILE.read_bytes())
    assert (bill["bomFormat"], bill["specVersion"]) == ("CycloneDX", "1.5")
    assert {(one["name"], one["version"]) for one in bill["components"]} == {
        (one.name, one.version) for one in locked()
    }
    assert all(re.fullmatch(r"pkg:pypi/[a-z0-9._-]+@[^@]+", one["purl"]) for one in bill["components"])


# First version without the fault, by the id of the advisory (PyPA's and GitHub's advisory databases, read in part; the rest from memory).
MENDED = [
    ("certifi", "2024.7.4", "CVE-2024-39689"),
    ("h11", "0.16.0", "CVE-2025-43859"),
    ("httpx", "0.23.0", "CVE-2021-41945"),
    ("idna", "3.7", "PYSEC-2024-60"),
    ("jinja2", "3.1.6", "CVE-2025-27516"),
    ("litestar", "2.8.3", "GHSA-83pv-qr33-2vcf"),
    ("markdown-it-py", "2.2.0", "CVE-2023-26302"),
    ("multipart", "1.3.1", "CVE-2026-28356"),
    ("numpy", "1.22.0", "CVE-2021-34141"),
    ("pygments", "2.15.1", "CVE-2022-40896"),
    ("pyyaml", "5.4", "CVE-2020-14343"),
    ("uvicorn", "0.11.7", "PYSEC-2020-151"),
]


@pytest.mark.parametrize(("name", "mended", "advisory"), MENDED, ids=[advisory for _, _, advisory in MENDED])
def test_no_locked_version_is_one_that_an_advisory_names(name, mended, advisory):
    versions = [Version(one.version) for one in locked() if one.name == name]
    assert versions, f"{name} is no longer locked: take out {advisory}"
    assert min(versions) >= Version(mended), f"{advisory}: lock {name} {mended} or later"


@pytest.mark.parametrize("security", [POD["securityContext"] | CONTAINER["securityContext"]], ids=["pod"])
def test_a_pod_may_do_nothing_but_serve(security):
    assert security["runAsNonRoot"]
    assert security["runAsUser"] == 65534
    assert security["readOnlyRootFilesystem"]
    assert security["allowPrivilegeEscalation"] is False
    assert security["capabilities"] == {"drop": ["ALL"]}
    assert security["seccompProfile"]["type"] == "RuntimeDefault"
    assert POD["automountServiceAccountToken"] is False
    assert POD["enableServiceLinks"] is False
    assert CLUSTER["NetworkPolicy"]["spec"]["egress"] == []


def test_probes_ask_the_right_paths_at_the_right_port():
    (port,) = CONTAINER["ports"]
    assert CONTAINER["livenessProbe"]["httpGet"] == {"path": "/health", "port": port["name"]}
    for probe in ("startupProbe", "readinessProbe"):
        assert CONTAINER[probe]["httpGet"] == {"path": "/ready", "port": port["name"]}
    arguments = CONTAINER["args"]
    assert arguments[0] == "serve"
    assert int(arguments[arguments.index("--port") + 1]) == port["containerPort"] == 8137
    assert arguments == json.loads(instructions("CMD")[0])
    assert CLUSTER["Service"]["spec"]["ports"][0]["targetPort"] == port["name"]


def test_all_parts_of_the_cluster_mean_the_same_pods():
    labels = CLUSTER["Deployment"]["spec"]["template"]["metadata"]["labels"]
    assert CLUSTER["Deployment"]["spec"]["selector"]["matchLabels"] == labels
    assert CLUSTER["Service"]["spec"]["selector"] == labels
    assert CLUSTER["PodDisruptionBudget"]["spec"]["selector"]["matchLabels"] == labels
    assert CLUSTER["NetworkPolicy"]["spec"]["podSelector"]["matchLabels"] == labels
    scaled = CLUSTER["HorizontalPodAutoscaler"]["spec"]
    assert scaled["scaleTargetRef"]["name"] == CLUSTER["Deployment"]["metadata"]["name"]
    assert (
        scaled["minReplicas"]
        == CLUSTER["Deployment"]["spec"]["replicas"]
        > CLUSTER["PodDisruptionBudget"]["spec"]["maxUnavailable"]
    )
    assert scaled["minReplicas"] < scaled["maxReplicas"]
    assert "cpu" in CONTAINER["resources"]["requests"], "scaling by processor time needs what is asked for"
    assert "memory" in CONTAINER["resources"]["limits"]


def settings_of(environment: dict[str, str]) -> Settings:
    assert all(name.removeprefix("WALLWRIGHT_").lower() in RANGES for name in environment)
    return settings_from(environment)


def test_settings_that_are_given_are_good_and_leave_time_to_end():
    pod = settings_of({one["name"]: one["value"] for one in CONTAINER["env"]})
    assert pod.linger_seconds + pod.stop_seconds < POD["terminationGracePeriodSeconds"]
    ready = CONTAINER["readinessProbe"]
    assert pod.linger_seconds >= ready["periodSeconds"] * ready["failureThreshold"]
    service = COMPOSE["services"]["wallwright"]
    compose = settings_of(service["environment"])
    assert compose.linger_seconds + compose.stop_seconds < int(service["stop_grace_period"].removesuffix("s"))


def test_compose_runs_several_copies_that_can_write_nothing_and_call_nobody():
    service = COMPOSE["services"]["wallwright"]
    assert service["deploy"]["replicas"] >= 3
    assert service["read_only"]
    assert service["user"] == "65534:65534"
    assert service["cap_drop"] == ["ALL"]
    assert service["security_opt"] == ["no-new-privileges:true"]
    assert "ports" not in service
    assert COMPOSE["networks"]["inside"]["internal"]
    proxy = COMPOSE["services"]["proxy"]
    assert all(port.startswith("127.0.0.1:") for port in proxy["ports"])
    file, place, _ = proxy["volumes"][0].split(":")
    assert (DOCKER / file).exists()
    assert place == "/usr/local/etc/haproxy/haproxy.cfg"
    assert f"{next(iter(COMPOSE['services']))}:8137" in (DOCKER / "haproxy.cfg").read_text()


@pytest.mark.parametrize("name", ["nginx.conf", "haproxy.cfg"])
def test_proxies_wait_no_longer_for_slow_callers_and_keep_connections_shorter_than_the_service(name):
    text = (DOCKER / name).read_text()
    keep = int(re.search(r"(?:keepalive_timeout|http-keep-alive) (\d+)s", text)[1])
    assert keep < 75
    # nginx names the largest body itself: the service's own limit.
    size = re.search(r"client_max_body_size (\d+)k", text)
    assert name != "nginx.conf" or int(size[1]) * 1024 == Settings().body_bytes
    assert "/metrics" in text


def test_problems_that_proxies_tell_have_the_shape_of_the_services_own():
    from wallwright.api.problems import PROBLEMS

    found = [
        json.loads(text)
        for name in ("nginx.conf", "haproxy.cfg")
        for text in re.findall(r"'(\{\"type\".*?\})'", (DOCKER / name).read_text())
    ]
    assert len(found) == 7
    for one in found:
        assert set(one) == {"type", "title", "status", "detail", "code"}
        assert one["type"] == f"/problems/{one['code']}"
        kind = PROBLEMS[one["code"]]
        assert (one["title"], one["status"]) == (kind.title, kind.status)
