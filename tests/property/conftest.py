"""How many random plans a property is tried on: WALLWRIGHT_EXAMPLES, 200 unless said.

The default run draws the same plans every time, so that a change of the code is all that can change its
outcome; a run that names its own count draws new ones.
"""

import os

from hypothesis import HealthCheck, settings

_EXAMPLES = os.environ.get("WALLWRIGHT_EXAMPLES")

settings.register_profile(
    "wallwright",
    max_examples=int(_EXAMPLES or 200),
    derandomize=_EXAMPLES is None,
    database=None,
    deadline=None,
    print_blob=True,
    suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large, HealthCheck.filter_too_much],
)
settings.load_profile("wallwright")
