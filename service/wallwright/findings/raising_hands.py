"""Findings about the people that raising a wall takes, and what they lift."""

from typing import Final

from wallwright.findings.kind import Kind
from wallwright.sources import COMMON_PRACTICE, OWN_RULE

HAND_KINDS: Final[dict[str, Kind]] = {
    "raise-by-machine": Kind(
        "stop",
        "The wall stands {height} high. From {limit} on a published rule has walls raised by machine, not by hand.",
        "Too high to raise by hand",
        "A tall wall weighs more, turns over with more force, and cannot be held by people once it leans past them.",
        "Have a crane, a forklift or wall jacks with someone trained to use them, or build the wall in storeys.",
        OWN_RULE,
    ),
    "hands-too-few-bare": Kind(
        "caution",
        "Raising this wall bare and whole takes {needed} people; {hands} are given. Do not try it whole with fewer.",
        "Too few hands for the bare frame",
        "By the lifting equation, by the push on the way up, or by the wall's length, more people are needed.",
        "Get more hands, or build and raise the wall in sections.",
        OWN_RULE,
    ),
    "hands-too-few-skinned": Kind(
        "caution",
        "Raising this wall skinned takes {needed} people; {hands} are given. Raise it bare and skin it standing.",
        "Too few hands for the skinned wall",
        "The sheets weigh about as much as the frame.",
        "Get more hands, or fix the sheets once the wall stands.",
        OWN_RULE,
    ),
    "no-room-for-hands": Kind(
        "caution",
        "Raising this wall bare takes {needed} people, and along it there is room for {room}.",
        "No room for so many hands",
        "Each person needs about two feet of wall.",
        "Use wall jacks or a machine, or lighter timber.",
        COMMON_PRACTICE,
    ),
    "raise-in-sections": Kind(
        "note",
        "With the hands given, build and raise the frame in {sections} sections parted clear of openings, the heaviest {weight}, "
        "{people} people for the hardest; join them where they stand, lap the cap plate over each joint, and skin them standing.",
        "Raise in sections",
        "A shorter section takes fewer hands.",
        "Part the wall at a stud that both sections get; keep openings whole.",
        COMMON_PRACTICE,
    ),
    "with-more-hands": Kind(
        "caution",
        "The {hands} people given cannot raise this wall. It takes at least {fewest}{way}. Do not begin with fewer.",
        "More hands",
        "Neither the whole wall nor any section that it may be parted into is light enough for the hands given.",
        "Get the people, or raise it by crane, forklift or wall jacks.",
        OWN_RULE,
    ),
    "opening-stays-whole": Kind(
        "caution",
        "The framing of opening {opening} is not parted from king to king: with its header it weighs {weight} and takes "
        "{people} people; {hands} are given.",
        "An opening stays whole",
        "A header, its jacks and kings stand or fall together; a wall is parted only clear of its openings.",
        "Get more hands or a machine, or lift the header in once kings and jacks stand braced.",
        OWN_RULE,
    ),
    "skin-before-raising": Kind(
        "note",
        "The hands given can raise this wall skinned: square it lying, then fix the sheets that stay within its ends.",
        "Skin before raising",
        "Sheets are squared and fastened more easily lying, and no ladder is needed.",
        "Nothing to mend.",
        COMMON_PRACTICE,
    ),
    "skin-after-raising": Kind(
        "note",
        "Raise this wall bare, with a board fixed across the studs so that it stays square, and skin it standing.",
        "Skin after raising",
        "The hands given can raise the frame, and not the sheets with it.",
        "Nothing to mend, unless more hands can be had.",
        COMMON_PRACTICE,
    ),
    "harder-on-the-way-up": Kind(
        "caution",
        "Walking in under {what}, hands push hardest near {angle} degrees with {push}, more than the first lift's "
        "{first}. Do not start what cannot be finished; follow up with poles and props.",
        "Harder on the way up",
        "A wall more than about twice as high as hands reach gets heavier as they walk in under it.",
        "Count people for the push, and have someone follow up with props.",
        COMMON_PRACTICE,
    ),
    "left-out-of-lift": Kind(
        "note",
        "Left out of the lift is what runs past an end that slides between two walls, caps and sheets, {count} in all.",
        "Left out of the lift",
        "Caps and sheets that run past a butt wall's end are fixed once it stands.",
        "Nothing to mend: their weight stands in the pieces and in the complete wall.",
        COMMON_PRACTICE,
    ),
    "treated-weighs-more": Kind(
        "note",
        "The treated plate is weighed as dry timber; fresh from the yard it can weigh twice as much. Gloves on.",
        "Treated timber weighs more",
        "Treated timber is sold wet. The plate lies on the floor while the wall is tilted, so that it adds little to the lift.",
        "Give a higher `moisture_percent` where all the timber is wet.",
        COMMON_PRACTICE,
    ),
    "siding-weight-taken": Kind(
        "note",
        "No published weight is held for siding: it is weighed as oriented strand board.",
        "Weight of siding taken",
        "Siding differs from maker to maker.",
        "Compare with the weight on the delivery note.",
        OWN_RULE,
    ),
    "lifting-equation-scope": Kind(
        "note",
        "The lifting equation is made for smooth two-handed lifts on firm ground; pushing, slippery floors and bad footing "
        "are outside it. Nobody lifts more than they can hold.",
        "What the lifting equation covers",
        "Its manual leaves out pushing, pulling, carrying, cramped room, unstable loads and fast lifts.",
        "Take more people where the footing is poor.",
        OWN_RULE,
    ),
}
