"""What is taken for granted of raising walls, and the texts of its steps."""

from typing import Final

import msgspec

from wallwright.findings.raising_steps import STEPS, StepKind
from wallwright.sources import COMMON_PRACTICE, FROM_MEMORY, OWN_RULE, Source

__all__ = ["ASSUMPTIONS", "STEPS", "Assumption", "StepKind"]


class Assumption(msgspec.Struct, frozen=True):
    """What is taken for granted, and where it comes from."""

    text: str
    source: Source


ASSUMPTIONS: Final[dict[str, Assumption]] = {
    "flat-wall": Assumption("The wall is taken as flat and turns about the underside of its bottom plate.", OWN_RULE),
    "reach": Assumption(
        "Hands that walk in push at 5 ft (1524 mm) above the floor until they come back to the top.", COMMON_PRACTICE
    ),
    "edge-lift": Assumption(
        "The first lift is from 8 in (203 mm), the top plate blocked up, to 36 in (914 mm), 12 in (305 mm) before the ankles, "
        "with a fair grip, at most once in five minutes.",
        COMMON_PRACTICE,
    ),
    "even-hands": Assumption("The force is shared evenly by people spread about the centre of gravity.", OWN_RULE),
    "no-fasteners": Assumption("Fasteners, windows, doors and what is hung on the wall are not weighed.", OWN_RULE),
    "drag-skinned": Assumption("On a skinned wall the wind's pressure is taken 1.3 times.", FROM_MEMORY),
    "drag-bare": Assumption("On the members of a bare frame it is taken twice, on each for itself.", FROM_MEMORY),
    "steady-wind": Assumption(
        "The wind is steady and square to the wall, its pressure 0.00256 V x V lb per square foot with V in miles an hour.",
        Source("ASCE 7", "", "equation 26.10-1, every factor taken as 1"),
    ),
}
