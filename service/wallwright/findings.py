"""What the service has to say about a plan: findings, and faults that leave no wall to compute.

The domain makes both as data: a code and the values that its text speaks of. Texts stand in
one catalogue here, with the page that explains each code; lengths in them are grid integers
and become tape text in the caller's units where the answer is written. A text may change
within v1, a code may not.
"""

from typing import Final, Literal

import msgspec

from wallwright.sources import COMMON_PRACTICE, OWN_RULE, Source

Level = Literal["note", "caution", "stop"]
Value = int | str
"""A value in a text: an int is a length on the grid, a str is written as it stands."""


class Compared(msgspec.Struct, frozen=True, gc=False):
    """Two figures that were compared; ``unit`` is ``length`` for grid lengths, else a unit's name."""

    value: float | int
    limit: float | int
    unit: str


class Finding(msgspec.Struct, frozen=True):
    """One thing to say about a plan. ``about`` is a JSON pointer into the completed wall or building."""

    code: str
    about: str
    values: tuple[tuple[str, Value], ...] = ()
    members: tuple[str, ...] = ()
    source: Source | None = None
    compared: Compared | None = None

    @property
    def kind(self) -> "Kind":
        """The catalogue's entry for this finding's code."""
        return KINDS[self.code]


class Fault(msgspec.Struct, frozen=True):
    """Why no wall can be computed: ``pointer`` names the field, ``values`` what the text speaks of."""

    code: str
    pointer: str
    values: tuple[tuple[str, Value], ...] = ()


class PlanRefused(Exception):
    """A plan that keeps the schema and has no place in the wall; carries every fault found."""

    def __init__(self, faults: tuple[Fault, ...]) -> None:
        super().__init__(", ".join(f"{fault.pointer}: {fault.code}" for fault in faults))
        self.faults = faults


class Kind(msgspec.Struct, frozen=True):
    """What a finding's code means: its text, and the page that explains it."""

    level: Level
    text: str
    title: str
    meaning: str
    cure: str
    source: Source


class FaultKind(msgspec.Struct, frozen=True):
    """What a fault's code means: its text (given, allowed, cure) and the page that explains it."""

    text: str
    title: str
    meaning: str
    cure: str


KINDS: Final[dict[str, Kind]] = {
    "header-not-sized": Kind(
        "caution",
        "The header over {opening} ({stock}, {plies} plies) is not sized: give load, width and snow.",
        "Header not sized",
        "No load was given, so the header is the plain default that fits, compared with no table.",
        "Give `carries` (load and building width) and `site` (ground snow), or have the header sized by someone "
        "licensed to do so. A header too weak for its load can fail without warning.",
        OWN_RULE,
    ),
    "header-not-compared": Kind(
        "caution",
        "The header over {opening} ({stock}, {plies} plies) is the plain default and was compared with no span table.",
        "Header not compared",
        "A load is known, but the header was not compared with a published span table.",
        "Compare it with the span table of the code in force, or have it sized by someone licensed to do so.",
        OWN_RULE,
    ),
    "stud-slid": Kind(
        "note",
        "Off their layout line, tight against a neighbour so that no bay is wider than the spacing: {count} (see members).",
        "Stud slid off its line",
        "A stud on the layout would overlap an end stud, a king or a jack, and leaving it out would make a bay too wide.",
        "Nothing to mend: nail it to its neighbour and mark it where the plate marks say.",
        COMMON_PRACTICE,
    ),
    "spacing-misses-sheet": Kind(
        "note",
        "At {spacing} on centre no stud falls on every edge of a sheet {sheet} wide: there is none where each sheet ends.",
        "Spacing misses the sheet",
        "The sheet's width is no multiple of the stud spacing, so an upright sheet's edge misses the layout.",
        "Choose a spacing that divides the sheet's width, lay the sheets lying, or accept the rips and added studs shown.",
        COMMON_PRACTICE,
    ),
    "seam-stud-added": Kind(
        "note",
        "Studs added where a sheet's edge would lack timber behind it: {count} (see members). The layout does not move.",
        "Seam stud added",
        "A seam between two sheets falls where the layout has no stud wide enough for both edges.",
        "Set the stud where it is marked. Sheets sized for spacing, or another first sheet, may save it.",
        COMMON_PRACTICE,
    ),
    "treated-timber": Kind(
        "caution",
        "The bottom plate is pressure-treated: use coated or stainless fasteners, do not breathe its dust, "
        "and never burn its offcuts.",
        "Treated timber",
        "Preservatives corrode plain fasteners and are harmful as dust and as smoke.",
        "Wear a mask when cutting, work outdoors, take offcuts to the waste yard.",
        COMMON_PRACTICE,
    ),
    "not-checked": Kind(
        "caution",
        "Not checked: loads, bracing, tie-down of roof to wall and of the floor to the ground (a small building on "
        "blocks can slide or overturn), soil, drifting snow, ways out, smoke alarms. Local codes and licensed "
        "practice come first.",
        "What was not checked",
        "The service lays out timber and compares it with published figures where it says so. It designs nothing.",
        "Ask the local building department, and someone licensed where the law or the size asks for it.",
        OWN_RULE,
    ),
    "narrow-piece": Kind(
        "caution",
        "Pieces or legs of sheathing under {least} wide, which split easily and hold few fasteners: {count}.",
        "Narrow piece of sheathing",
        "A piece beside an end of the wall, or a leg beside an opening, is narrower than a foot.",
        "Move the opening, or change the length or the first sheet, if it can be had.",
        COMMON_PRACTICE,
    ),
    "narrow-strip-no-bracing": Kind(
        "caution",
        "Full-height strips under {least} wide, which are not counted as bracing: {count}.",
        "Strip too narrow to brace",
        "Sheathed strips under 24 in do not count as bracing panels.",
        "Leave wider lengths of wall without openings where the wall must resist wind.",
        COMMON_PRACTICE,
    ),
    "lap-meets-nothing": Kind(
        "note",
        "The sheathing runs {lap} past the {end} end and no wall is named that it meets.",
        "Lap meets nothing",
        "A lapped edge is carried by the post of the wall that it meets; none was given.",
        "Give `ends.{end}.meets`, or set the lap to 0.",
        OWN_RULE,
    ),
    "sheet-too-short": Kind(
        "note",
        "A strip {strip} high stands above the sheets. An under-sheet or a wall lower by {lower}, or a sheet that much "
        "longer, would save it.",
        "Sheet too short for the wall",
        "The face is taller than the sheet, so a strip with blocking behind its lower edge is added.",
        "Take a longer sheet, lower the wall, or let the sheets hang less below the plate.",
        COMMON_PRACTICE,
    ),
    "sheets-sized-for-spacing-save": Kind(
        "note",
        "Sheets sized for spacing would save, in added studs: {studs}; in rips: {rips}.",
        "Sized sheets would save work",
        "The gaps between full-size sheets add up, so that seams drift off the studs.",
        "Ask for sheets that are made the gap narrower than their module.",
        COMMON_PRACTICE,
    ),
    "small-change-saves-rip": Kind(
        "note",
        "The last sheet is ripped to {last}. With the wall {change} {way} its sheathing comes out in whole sheets.",
        "A small change of length would save a rip",
        "The sheathed face is near a whole number of sheets.",
        "Change the wall or the building by that much, if nothing else stands against it.",
        COMMON_PRACTICE,
    ),
    "exposed-edge": Kind(
        "caution",
        "Guard a deck edge from which one can fall, or keep clear of it, while sheets are handled and walls are lifted.",
        "Edge of a deck",
        "Handling sheets and raising walls puts people at the edge with their hands full.",
        "Guard the edge or work from the inside.",
        COMMON_PRACTICE,
    ),
    "two-people": Kind(
        "caution",
        "Raising a wall needs two people or more; brace it until roof and sheathing hold its top; keep everyone out from "
        "under it; keep clear of overhead lines by the wall's height plus 10 ft; do not raise a skinned wall in wind.",
        "Raising a wall",
        "A wall on the way up is heavy, and a skinned one is a sail.",
        "Count hands before you lift, and have the braces ready.",
        COMMON_PRACTICE,
    ),
    "after-raising": Kind(
        "note",
        "Pieces that cross an end which slides between two walls: {count}. Fix them once the wall stands.",
        "Fixed after raising",
        "A sheet that runs past the end of a wall would stop it from sliding in.",
        "Fix these pieces after the wall stands and is plumb.",
        COMMON_PRACTICE,
    ),
    "footprint-saves-rip": Kind(
        "note",
        "With the {side} {change} {way}, the sheathing of the {walls} walls comes out in whole sheets.",
        "A small change of footprint would save a rip",
        "The sheathed faces of two opposite walls are near a whole number of sheets.",
        "Change the footprint by that much, if nothing else stands against it.",
        COMMON_PRACTICE,
    ),
    "rafter-seat": Kind(
        "note",
        "The roof line is the rafters' underside: rafters are notched to a level seat {seat} wide over the walls that "
        "carry them, up to {notch} deep. Sheets of these walls are notched round rafter tails that run past them.",
        "Rafters are notched over the walls",
        "The roof line touches a low wall's top at its inner face and a high wall's at its outer face, so that the "
        "rest of the wall's top stands in the rafters' notch.",
        "Cut the notch no deeper than the code in force allows, and take a deeper rafter where it would be.",
        COMMON_PRACTICE,
    ),
    "ridge-beam-posts": Kind(
        "caution",
        "A ridge beam bears on the {walls} walls in one place each: its post, and what carries it down to the ground, "
        "is not laid out and not sized.",
        "Posts under a ridge beam",
        "A ridge beam puts half the roof's load on the two gables, as a point load.",
        "Have beam, posts and footings sized by someone licensed to do so.",
        OWN_RULE,
    ),
    "tie-cap": Kind(
        "note",
        "At the {corner} corner the cap plates do not lap: tie the top plates with a plate or strap.",
        "Corner tied by a plate",
        "Cap plates lap only where both walls are level and doubled.",
        "Fix a galvanized steel plate or strap across the joint of the top plates.",
        COMMON_PRACTICE,
    ),
}

FAULTS: Final[dict[str, FaultKind]] = {
    "length-out-of-range": FaultKind(
        "{given} is given; allowed is from {least} to {most}.",
        "Length out of range",
        "A length is outside the contract's limits.",
        "Give a length within the limits named.",
    ),
    "through-walls-not-opposite": FaultKind(
        "The through walls given are {given}; give front and back, or right and left.",
        "Through walls not opposite",
        "The walls that run past the corners are one of the two opposite pairs.",
        "Give one of the two pairs.",
    ),
    "stock-unknown": FaultKind(
        "{given} has no dressed size; give a nominal name such as 2x4, millimetres such as 38x89, "
        "or dressed inches such as 1-1/2x3-1/2.",
        "Unknown section",
        "The name is of a known form, but no section has it.",
        "Give another name, or the sizes as an object.",
    ),
    "slope-missing": FaultKind(
        "A {shape} needs its slope: give `rise` above 0, and `run` where it is not 12.",
        "Slope missing",
        "A sloped top or roof was asked for without a rise.",
        "Give `rise` and `run`, such as 3 and 12.",
    ),
    "slope-too-steep": FaultKind(
        "The slope is steeper than {most}, the steepest that is framed.",
        "Slope too steep",
        "A wall whose top is so steep is framed otherwise.",
        "Take a flatter slope.",
    ),
    "ridge-outside-wall": FaultKind(
        "The ridge is at {given}; it can be from {least} to {most}.",
        "Ridge outside the wall",
        "A gable's ridge stands over its plate, at least a stud's thickness from either end.",
        "Move the ridge, or take a rake.",
    ),
    "top-too-high": FaultKind(
        "The top reaches {given} at its highest; it can be at most {most} high there, so the height at most {height}.",
        "Top too high",
        "The wall rises past the greatest height that is framed.",
        "Lower the wall, or take a flatter slope.",
    ),
    "lying-sheets": FaultKind(
        "Lying sheets are not laid out; give direction upright.",
        "Lying sheets",
        "Sheets are laid out upright by this version.",
        "Give `sheathing.direction` as `upright`.",
    ),
    "wall-too-short": FaultKind(
        "The wall is {given} long; its end posts alone take {least}. Make it at least that long, or choose single posts.",
        "Wall too short",
        "The posts at both ends would overlap.",
        "Lengthen the wall or choose smaller posts.",
    ),
    "wall-too-low": FaultKind(
        "The wall is {given} high; its plates and the shortest stud take {least}. Make it at least that high.",
        "Wall too low",
        "There is no room for studs between the plates.",
        "Raise the wall, or take fewer plates.",
    ),
    "spacing-too-close": FaultKind(
        "The spacing is {given}; with these studs and posts it must be at least {least}.",
        "Spacing too close",
        "Studs so close would overlap one another or the posts.",
        "Widen the spacing.",
    ),
    "cap-too-short": FaultKind(
        "With the laps given, no cap plate is left. Give cap laps that leave a plate.",
        "No cap plate left",
        "The cap plate stops so far short of the ends that nothing is left of it.",
        "Give smaller negative laps.",
    ),
    "face-too-narrow": FaultKind(
        "With the laps given, no face is left to skin. Give sheathing laps that leave one.",
        "No face left to skin",
        "The sheathing stops so far short of the ends that nothing is left of it.",
        "Give smaller negative laps.",
    ),
    "opening-outside-wall": FaultKind(
        "The opening {opening} starts at {given} and does not lie within the wall; it can start anywhere from {least} to {most}.",
        "Opening outside the wall",
        "The opening reaches past an end of the plate.",
        "Move it, or make it narrower.",
    ),
    "opening-too-narrow": FaultKind(
        "The opening {opening} is {given} wide; the least is {least}.",
        "Opening too narrow",
        "The opening is narrower than a stud.",
        "Make it at least as wide as a stud is thick.",
    ),
    "opening-too-high": FaultKind(
        "The opening {opening} is {given} high and reaches into the top plates; the most is {most}, "
        "or raise the wall to {wall_height}.",
        "Opening too high",
        "The head lies above the underside of the top plates.",
        "Lower the head or raise the wall.",
    ),
    "sill-too-low": FaultKind(
        "The sill of {opening} is at {given}; it is 0 for a door, or at least {least}.",
        "Sill too low",
        "A rough sill needs room above the bottom plate.",
        "Give 0 for a door, or raise the sill.",
    ),
    "header-does-not-fit": FaultKind(
        "Over {opening} there is {room} below the plates and a {stock} header takes {deep}. The opening can be at most "
        "{most} high, or the wall at least {wall_height}.",
        "Header does not fit",
        "The header would reach into the top plates.",
        "Lower the opening's head, raise the wall, or take a shallower header.",
    ),
    "header-too-thick": FaultKind(
        "The header over {opening} ({plies} plies of {stock} and its spacer) is {given} thick; the wall's depth is {most}.",
        "Header too thick",
        "The header would stand out from the wall.",
        "Take fewer plies, a thinner spacer, or deeper studs.",
    ),
    "openings-collide": FaultKind(
        "The opening {opening} starts at {given}, inside {other}; the nearest place that is clear of it is {least}.",
        "Openings collide",
        "Two openings overlap along the wall.",
        "Move one of them.",
    ),
    "opening-too-near-end": FaultKind(
        "The opening {opening} starts at {given}, too near the end for its jacks and king; the nearest place is {nearest}.",
        "Opening too near the end",
        "Jack studs, and a king stud unless the end's post serves as one, need room beside the opening.",
        "Move the opening, or make it narrower.",
    ),
    "openings-too-near": FaultKind(
        "The opening {opening} starts at {given}, too near the one beside it for jacks and a shared king; "
        "the nearest place is {nearest}.",
        "Openings too near each other",
        "Two openings may share a king stud; each needs its own jacks.",
        "Move one of them.",
    ),
    "no-level-seam": FaultKind(
        "No level seam {given} or less above the sheets' foot finds timber behind it all along the wall. "
        "Take a longer sheet or move the openings' heads and sills.",
        "No place for a level seam",
        "The strip above the sheets would have no timber behind its lower edge.",
        "Take a sheet that covers the wall's height.",
    ),
    "footprint-too-small": FaultKind(
        "The footprint is {given} over the framing; the two walls that it lies between alone take {least}.",
        "Footprint too small",
        "No room is left for a wall between the through walls.",
        "Make the footprint larger.",
    ),
}
