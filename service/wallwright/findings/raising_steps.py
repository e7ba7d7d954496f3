"""The texts of the steps in which a wall is raised."""

from typing import Final

import msgspec


class StepKind(msgspec.Struct, frozen=True):
    """What a step's code means: what is done, where, what to mind, and of what it tells how many there are."""

    what: str
    where: str
    caution: str = ""
    counts: str = ""


STEPS: Final[dict[str, StepKind]] = {
    "mark-plates": StepKind(
        "Lay the plates side by side and mark both from one hook of the tape.",
        "On the floor, beside where the wall will stand.",
        counts="plates",
    ),
    "cut-pieces": StepKind(
        "Cut the pieces of the cut list.",
        "At the saw.",
        "Eyes and ears covered; hold no piece that the saw can pinch.",
        counts="pieces",
    ),
    "half-saw-plate": StepKind(
        "Saw the bottom plate half through from above at both sides of every door.",
        "At the marks on the bottom plate.",
        counts="cuts",
    ),
    "frame-in-sections": StepKind(
        "Part the wall into sections, each with a stud of its own at the joint, beyond the cut list.",
        "Clear of openings.",
        counts="sections",
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
        counts="pieces of sheathing",
    ),
    "hold-with-straps-or-hinges": StepKind(
        "Hold the bottom plate with straps or hinges to the deck.",
        "Inside, near both ends and evenly between, never on the rim.",
        "The foot kicks out while hands push. No cleats on the rim under a hanging skin.",
        counts="straps or hinges",
    ),
    "hold-with-straps-or-stops": StepKind(
        "Hold the bottom plate with straps to the floor, or with stops fixed at its edge.",
        "Near both ends and evenly between.",
        "The foot kicks out while hands push; anchor bolts or toe-nails alone do not hold it.",
        counts="straps or stops",
    ),
    "hold-with-stops-clear-of-bolts": StepKind(
        "Stop the bottom plate against timbers braced on the slab, clear of the bolts.",
        "Inside the line of bolts, near both ends and evenly between.",
        "Never tilt the wall on the bolts.",
        counts="stops",
    ),
    "hang-braces": StepKind(
        "Cut braces {lengths} long and hang each by one nail.",
        "At the top of the studs named in `braces`.",
        "Have nails, level and a second hammer at hand before lifting.",
        counts="braces",
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
        counts="people",
    ),
    "lift-sections": StepKind(
        "Raise one section after another, each braced before the next, and join them stud to stud.",
        "From one end of the wall to the other, {people} people at the hardest section.",
        "Nobody under a section who does not lift, nobody in the zone; two people or more at any time.",
        counts="sections",
    ),
    "lift-sections-over-bolts": StepKind(
        "Raise one section after another clear of its bolts, lift it upright over them and let it down, brace it, and only then "
        "join it to the last one, stud to stud.",
        "From one end of the wall to the other, {people} people at the hardest section.",
        "Never lift joined sections; nobody under a section who does not lift, nobody in the zone; fingers and toes out from under "
        "the plate.",
        counts="sections",
    ),
    "lift-by-machine": StepKind(
        "Raise the wall with a crane, a forklift or wall jacks.",
        "Slung or jacked on both sides of its centre of gravity.",
        "Someone trained leads; nobody under the wall, nobody in the zone.",
        counts="machines",
    ),
    "lift-over-bolts": StepKind(
        "Lift the upright wall over the bolts and let it down on them.",
        "By the studs, knees bent, on one voice.",
        "Fingers and toes out from under the plate.",
        counts="people",
    ),
    "set-over-bolts-by-machine": StepKind(
        "Have the machine hold the upright wall over the bolts and let it down on them.",
        "Slung from the top, guided from outside its fall by lines.",
        "Nobody lifts by hand; nobody under the wall, fingers and toes out from under the plate.",
        counts="machines",
    ),
    "plumb-and-brace": StepKind(
        "Plumb the wall and fix every brace, two nails or more at each end.",
        "From {places}; where there is less room, no steeper than 60 degrees and two at each place.",
        "Hands hold the wall until the last brace is fixed: it does not stand by itself.",
        counts="braces",
    ),
    "fasten-plate": StepKind(
        "Fasten the bottom plate through the floor into what carries it.", "Clear of the doors' cuts."
    ),
    "tighten-nuts": StepKind(
        "Put washers and nuts on the bolts and tighten them.",
        "At every bolt.",
        counts="bolts",
    ),
    "tie-corners": StepKind(
        "Fasten the corner posts to one another, from bottom to top.",
        "At each end that meets a wall.",
        counts="corners",
    ),
    "lap-caps": StepKind(
        "Fix the cap plate over the walls that it laps.",
        "At each end that meets a wall.",
        counts="cap plates",
    ),
    "skin-standing": StepKind(
        "Fix the sheets that are left.",
        "From a ladder or a scaffold that stands firm.",
        "Sheets are sails: two people, and no wind.",
        counts="pieces of sheathing",
    ),
    "cut-out-doors": StepKind(
        "Saw the bottom plate out of the doors.",
        "Along the cuts begun lying.",
        counts="doors",
    ),
    "leave-braces": StepKind(
        "Leave every brace until roof and sheathing hold the top of the wall.", "", "Braces taken early are walls down."
    ),
}
