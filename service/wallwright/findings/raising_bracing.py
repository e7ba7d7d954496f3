"""Findings about wind, the zone kept clear, and the braces of a wall that stands."""

from typing import Final

from wallwright.findings.kind import Kind
from wallwright.sources import COMMON_PRACTICE, OWN_RULE

BRACING_KINDS: Final[dict[str, Kind]] = {
    "wind-while-raising": Kind(
        "caution",
        "A skinned wall is a sail. Do not raise it by hand in a wind above {skinned}, nor the bare frame above {bare}.",
        "No raising in wind",
        "In such a wind the load on the wall's face comes to half its own weight, or it blows 20 mph, 5 less than where the lifting "
        "of walls by crane is stopped.",
        "Wait for a calm hour; leave the frame lying.",
        OWN_RULE,
    ),
    "tips-standing-free": Kind(
        "caution",
        "Standing free on its plate the wall tips in a wind of {bare} bare and of {skinned} skinned: never let go before "
        "braces are fixed.",
        "Tips standing free",
        "A wall is high and its plate narrow: a breath of wind tips it.",
        "Fix the braces while hands still hold the wall.",
        OWN_RULE,
    ),
    "braces-and-site-wind": Kind(
        "caution",
        "In the site's wind of {wind} the most loaded brace would carry {force} along it: temporary braces are not made for "
        "a storm.",
        "Braces are not for the site's wind",
        "The wind that a building is made for is far above what a board and a few nails hold.",
        "Do not leave a braced wall standing into a forecast storm; close the box or lay the wall down.",
        OWN_RULE,
    ),
    "fall-zone": Kind(
        "caution",
        "Keep everyone who does not lift out of a zone {depth} deep on either side of the wall, along all of it; nobody "
        "stands under it.",
        "Fall zone",
        "A wall that goes over falls as far as it is high.",
        "Mark the zone before lifting.",
        COMMON_PRACTICE,
    ),
    "overhead-lines": Kind(
        "caution",
        "No overhead line may be nearer than {lines} to where the wall stands or lies.",
        "Overhead lines",
        "A wall on the way up, a brace or a ladder reaches further than one thinks.",
        "Have the line cut off or moved by its owner, or build elsewhere.",
        COMMON_PRACTICE,
    ),
    "no-room-for-braces": Kind(
        "caution",
        "Between the {one} wall and the {other} wall {clear} is clear, and their braces reach {both}: they would cross. Brace "
        "from outside, or inside at 60 degrees, two at each place: boards of {length}, feet {out} out.",
        "No room for the braces inside",
        "Braces at 45 degrees reach as far into the building as the wall is high.",
        "Brace from outside where there is firm ground, else steeper and doubled.",
        COMMON_PRACTICE,
    ),
    "brace-past-corner": Kind(
        "caution",
        "The {butt} wall's first brace by the {through} wall stands {at} from it, past the feet of that wall's braces. Until then "
        "only the corner holds this end: tie it to the {through} wall before hands let go.",
        "A brace past the corner",
        "Nearer to the corner it would cross the braces of the wall that stands there already.",
        "Fasten the corner posts to one another, from bottom to top, while hands still hold the wall.",
        COMMON_PRACTICE,
    ),
    "braces-cross-at-corner": Kind(
        "caution",
        "In the {corner} corner braces cross in plan: the {through} wall's {one} from the {butt} wall and the {butt} wall's "
        "{other} from the {through} wall, crossings in all: {count}, and no lawful place is clear. Brace one of these walls from "
        "outside.",
        "Braces cross in a corner",
        "Braces reach as far in as they are nailed high, so that those of two walls meet near the corner.",
        "Brace one wall from outside where there is firm ground, or use steeper braces, doubled.",
        COMMON_PRACTICE,
    ),
    "braces-stay": Kind(
        "caution",
        "Leave every brace until roof and sheathing hold the top of the wall.",
        "Braces stay",
        "Corners alone do not hold a long wall against wind.",
        "Work around them.",
        COMMON_PRACTICE,
    ),
    "not-checked-raising": Kind(
        "caution",
        "Not checked: footing, ground, the deck's strength under people and braces, gusts, nails of straps and braces, health "
        "of the people. Local codes, safety law and licensed practice come first.",
        "What was not checked about raising",
        "The service weighs and reckons; it sees neither site nor people.",
        "Someone who has raised walls leads the lift.",
        OWN_RULE,
    ),
}
