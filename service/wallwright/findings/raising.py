"""Findings about raising walls, the texts of the steps, and what is taken for granted."""

from typing import Final

import msgspec

from wallwright.findings.kind import Kind
from wallwright.sources import COMMON_PRACTICE, FROM_MEMORY, OWN_RULE, Source

RAISING_KINDS: Final[dict[str, Kind]] = {
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
        "The {hands} people given cannot raise this wall. Raised {way} it takes {fewest} at least; whole it takes {whole}. "
        "Do not begin with fewer.",
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
    "hold-the-plate": Kind(
        "caution",
        "Hold the bottom plate before lifting: near {angle} degrees the push drives it along the floor with {thrust}, "
        "where only {bears} bear on it.",
        "The foot of the wall kicks out",
        "Hands that push a leaning wall push its foot away; friction alone does not hold it.",
        "Fix straps, hinges or stops as the answer's `restraint` says, and try them before lifting.",
        COMMON_PRACTICE,
    ),
    "restraint-by-rule": Kind(
        "caution",
        "The wall stands {height} high. From {limit} on published rules ask for cleats or straps that hold the bottom plate "
        "before hands raise it; anchor bolts or toe-nails alone are not enough.",
        "Restraint asked for by rule",
        "Two public rules ask for it, since from that height the push on the way up passes the first lift.",
        "Fix straps or hinges to the floor before lifting.",
        OWN_RULE,
    ),
    "no-cleats-under-skin": Kind(
        "caution",
        "The sheets hang past the deck's rim: hold the plate by straps or hinges to the deck while tilting, never by cleats "
        "on the rim.",
        "No cleats under a hanging skin",
        "A cleat on the rim stands in the way of the sheet's lower edge, and is torn off or stops the wall halfway.",
        "Strap or hinge the plate to the deck's top, inside the wall.",
        COMMON_PRACTICE,
    ),
    "whole-weight-over-bolts": Kind(
        "caution",
        "Stand the wall up clear of the bolts and lift it over them, all {weight} of it; never tilt a wall on bolts.",
        "Lifted over the bolts",
        "A plate that turns on projecting bolts binds, splits, and slips off them.",
        "Have the people for the whole weight, and set the plate down slowly.",
        COMMON_PRACTICE,
    ),
    "section-over-bolts": Kind(
        "caution",
        "Stand each section up clear of its bolts and lift it over them, {weight} at most, before it is joined or braced; never "
        "tilt a section on bolts.",
        "Sections lifted over the bolts",
        "Joined, the sections weigh as much as the whole wall, which the hands given cannot lift.",
        "Have the people for the heaviest section, and set each plate down slowly.",
        COMMON_PRACTICE,
    ),
    "machine-over-bolts": Kind(
        "caution",
        "The machine sets the wall down over the bolts, all {weight} of it; never tilt a wall on bolts, nor lift it over them by "
        "hand.",
        "Set over the bolts by machine",
        "What is too high or too heavy to raise by hand is not carried by hand either.",
        "Keep the wall slung until its plate lies on the slab and its braces are fixed; wall jacks alone do not lift it over.",
        COMMON_PRACTICE,
    ),
    "harder-on-the-way-up": Kind(
        "caution",
        "Walking in under the skinned wall, hands push hardest near {angle} degrees with {push}, more than the first lift's "
        "{first}. Do not start what cannot be finished; follow up with poles and props.",
        "Harder on the way up",
        "A wall more than about twice as high as hands reach gets heavier as they walk in under it.",
        "Count people for the push, and have someone follow up with props.",
        COMMON_PRACTICE,
    ),
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
        "from outside, or inside at 60 degrees, two at each place: boards of {length}, feet {out} out. Where walls meet, set "
        "the braces of one past those of the other.",
        "No room for the braces inside",
        "Braces at 45 degrees reach as far into the building as the wall is high.",
        "Brace from outside where there is firm ground, else steeper and doubled.",
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
    "left-out-of-lift": Kind(
        "note",
        "Left out of the lift, since they cross an end that slides between two walls: {count} (see members).",
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


class StepKind(msgspec.Struct, frozen=True):
    """What a step's code means: what is done, where, and what to mind."""

    what: str
    where: str
    caution: str = ""


STEPS: Final[dict[str, StepKind]] = {
    "mark-plates": StepKind(
        "Lay the plates side by side and mark both from one hook of the tape.",
        "On the floor, beside where the wall will stand.",
    ),
    "cut-pieces": StepKind(
        "Cut the pieces of the cut list.", "At the saw.", "Eyes and ears covered; hold no piece that the saw can pinch."
    ),
    "half-saw-plate": StepKind(
        "Saw the bottom plate half through from above at both sides of every door.", "At the marks on the bottom plate."
    ),
    "frame-in-sections": StepKind(
        "Part the wall into sections, each with a stud of its own at the joint, beyond the cut list.",
        "Clear of openings.",
    ),
    "fasten-frame": StepKind(
        "Lay the frame out lying and fasten it.", "Inner face down, its foot along the line on which it will stand."
    ),
    "square-frame": StepKind(
        "Square the frame by its diagonals and fix a board across the studs so that it stays square.",
        "Across the inner face, or where the first sheet will not cover it.",
    ),
    "skin-lying": StepKind(
        "Fix the sheets that stay within the wall's ends.",
        "On the outer face, lying.",
        "Nobody steps on a sheet over an opening.",
    ),
    "hold-with-straps-or-hinges": StepKind(
        "Hold the bottom plate with straps or hinges to the deck.",
        "Inside, near both ends and evenly between, never on the rim.",
        "The foot kicks out while hands push. No cleats on the rim under a hanging skin.",
    ),
    "hold-with-straps-or-stops": StepKind(
        "Hold the bottom plate with straps to the floor, or with stops fixed at its edge.",
        "Near both ends and evenly between.",
        "The foot kicks out while hands push; anchor bolts or toe-nails alone do not hold it.",
    ),
    "hold-with-stops-clear-of-bolts": StepKind(
        "Stop the bottom plate against timbers braced on the slab, clear of the bolts.",
        "Inside the line of bolts, near both ends and evenly between.",
        "Never tilt the wall on the bolts.",
    ),
    "hang-braces": StepKind(
        "Cut braces {lengths} long and hang each by one nail.",
        "At the top of the studs named in `braces`.",
        "Have nails, level and a second hammer at hand before lifting.",
    ),
    "clear-zone": StepKind(
        "Clear and mark the zone, and tell everyone who leads the lift.",
        "{depth} deep on either side, along all of the wall.",
        "No overhead line nearer than {lines}; guard the deck's edge or keep clear of it; wait while wind is above the figure given.",
    ),
    "lift-wall": StepKind(
        "Lift the top plate together, rest it on blocks, then walk the wall up under one voice.",
        "People evenly on both sides of {centre} from the plate's left end, where the weight lies.",
        "Nobody under the wall who does not lift, nobody in the zone; two people or more at any time.",
    ),
    "lift-sections": StepKind(
        "Raise one section after another, each braced before the next, and join them stud to stud.",
        "From one end of the wall to the other, {people} people at the hardest section.",
        "Nobody under a section who does not lift, nobody in the zone; two people or more at any time.",
    ),
    "lift-sections-over-bolts": StepKind(
        "Raise one section after another clear of its bolts, lift it upright over them and let it down, brace it, and only then "
        "join it to the last one, stud to stud.",
        "From one end of the wall to the other, {people} people at the hardest section.",
        "Never lift joined sections; nobody under a section who does not lift, nobody in the zone; fingers and toes out from under "
        "the plate.",
    ),
    "lift-by-machine": StepKind(
        "Raise the wall with a crane, a forklift or wall jacks.",
        "Slung or jacked on both sides of its centre of gravity.",
        "Someone trained leads; nobody under the wall, nobody in the zone.",
    ),
    "lift-over-bolts": StepKind(
        "Lift the upright wall over the bolts and let it down on them.",
        "By the studs, knees bent, on one voice.",
        "Fingers and toes out from under the plate.",
    ),
    "set-over-bolts-by-machine": StepKind(
        "Have the machine hold the upright wall over the bolts and let it down on them.",
        "Slung from the top, guided from outside its fall by lines.",
        "Nobody lifts by hand; nobody under the wall, fingers and toes out from under the plate.",
    ),
    "plumb-and-brace": StepKind(
        "Plumb the wall and fix every brace, two nails or more at each end.",
        "From {places}; where there is less room, no steeper than 60 degrees and two at each place.",
        "Hands hold the wall until the last brace is fixed: it does not stand by itself.",
    ),
    "fasten-plate": StepKind(
        "Fasten the bottom plate through the floor into what carries it.", "Clear of the doors' cuts."
    ),
    "tighten-nuts": StepKind("Put washers and nuts on the bolts and tighten them.", "At every bolt."),
    "tie-corners": StepKind(
        "Fasten the corner posts to one another, from bottom to top.", "At each end that meets a wall."
    ),
    "lap-caps": StepKind("Fix the cap plate over the walls that it laps.", "At each end that meets a wall."),
    "skin-standing": StepKind(
        "Fix the sheets that are left.",
        "From a ladder or a scaffold that stands firm.",
        "Sheets are sails: two people, and no wind.",
    ),
    "cut-out-doors": StepKind("Saw the bottom plate out of the doors.", "Along the cuts begun lying."),
    "leave-braces": StepKind(
        "Leave every brace until roof and sheathing hold the top of the wall.", "", "Braces taken early are walls down."
    ),
}


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
