"""How many random plans a property is tried on: WALLWRIGHT_EXAMPLES, 200 unless said.

A run draws the same plans every time, so that a change of the code is all that can change its outcome;
with WALLWRIGHT_FRESH set it draws new ones.

These names are no settings of the service, which refuses to start with them: once every test module has read
them they are taken out of the environment, so that no server started by a test sees them.
"""

import os

from hypothesis import HealthCheck, settings

settings.register_profile(
    "wallwright",
    max_examples=int(os.environ.get("WALLWRIGHT_EXAMPLES", "200")),
    derandomize=not os.environ.get("WALLWRIGHT_FRESH"),
    database=None,
    deadline=None,
    print_blob=True,
    suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large, HealthCheck.filter_too_much],
)
settings.load_profile("wallwright")

SIZES = ("WALLWRIGHT_EXAMPLES", "WALLWRIGHT_FRESH", "WALLWRIGHT_SCHEMA_EXAMPLES")


def pytest_collection_finish():
    for name in SIZES:
        os.environ.pop(name, None)
