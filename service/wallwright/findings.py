"""What the service has to say about a plan: findings, and faults that leave no wall to compute.

The domain makes both as data: a code and the values that its text speaks of. Texts stand in
one catalogue here, with the page that explains each code; lengths in them are grid integers
and become tape text in the caller's units where the answer is written. A text may change
within v1, a code may not.
"""

from typing import Final

import msgspec

from wallwright.kinds import Kind
from wallwright.size_kinds import SIZE_KINDS
from wallwright.sources import COMMON_PRACTICE, OWN_RULE, Source


class Offer(msgspec.Struct, frozen=True, gc=False):
    """A length that would work where a given one does not, and how far it may be rounded for a tape.

    ``least`` and ``most`` bound what works; None is no bound on that side.
    """

    value: int
    least: int | None = None
    most: int | None = None

    def moved(self, by: int) -> "Offer":
        """The same offer reckoned from another point, ``by`` to the left of the first."""
        return Offer(
            self.value + by,
            None if self.least is None else self.least + by,
            None if self.most is None else self.most + by,
        )


def at_least(length: int) -> Offer:
    """The offer of a length or anything longer; a tape text rounds up."""
    return Offer(length, least=length)


def at_most(length: int) -> Offer:
    """The offer of a length or anything shorter; a tape text rounds down."""
    return Offer(length, most=length)


Value = int | str | Offer
"""A value in a text: an int is a length on the grid, a str is written as it stands, an offer is rounded to what works."""


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
    def kind(self) -> Kind:
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
    "plates-jointed": Kind(
        "note",
        "Plates are in pieces no longer than {stock}: joints of bottom and top plate lie over the middle of a stud, "
        "or over solid timber tight under the plate, and the cap plate's at least {offset} from the joints below.",
        "Plates in pieces",
        "Plates longer than the stock are jointed. Published rules keep the joints of a double top plate apart; that "
        "each joint of the plates beside the studs has a stud behind it is common practice.",
        "Nail both sides of each cap joint as the fastening schedule of the code in force asks.",
        COMMON_PRACTICE,
    ),
    "cap-offset-below-published": Kind(
        "caution",
        "The cap plate's joints may come within {offset} of those below; the published least is {least}.",
        "Cap joints too near",
        "The offset asked for is less than the published distance between the end joints of a double top plate.",
        "Leave `plates.cap_offset` to its default, or give more.",
        OWN_RULE,
    ),
    "single-top-plate": Kind(
        "caution",
        "A single top plate is accepted only where rafters or joists stand within {near} of the studs' centres and "
        "galvanized steel plates {thick} in thick tie it: {corner_width} x {corner_length} at corners and crossing "
        "walls, {corner_nails} 8d box nails each side; {butt_width} x {butt_length} at butt joints, {butt_nails} each "
        "side. This is for {when}. Where rafters or joists stand was not checked.",
        "Single top plate",
        "Without a second top plate nothing laps at corners and joints, so steel plates tie them.",
        "Tie the plate as said, or give `plates.top` as 2.",
        OWN_RULE,
    ),
    "anchor-bolts": Kind(
        "note",
        "Anchor bolts {how}: {count}. Compared with: at most {spacing} apart, {each} at least for each piece of plate as "
        "it is left once doors are cut out, one within {most} of each end and none nearer than {least} to it. Use bolts "
        "of {diameter} at least, {embedment} into the concrete, in the middle third of the plate, each with nut and "
        "washer ({washer} square plate washers along braced wall lines in seismic D0 to D2). Not checked: uplift, the "
        "concrete, bolts' size and depth.",
        "Anchor bolts",
        "A wall on a slab is held by bolts through its bottom plate, at published distances.",
        "Mark the bolts before the concrete is poured. Local codes come first.",
        OWN_RULE,
    ),
    "lift-over-bolts": Kind(
        "caution",
        "Bolts stand up from the slab: lift the wall over them and set it down, never tilt it on them.",
        "Lift over the bolts",
        "A wall that is tilted on projecting bolts can slip off, split its plate or bend them.",
        "Raise the wall beside the bolts, or have the hands to lift it over them.",
        COMMON_PRACTICE,
    ),
    "anchors-too-few": Kind(
        "caution",
        "The piece of bottom plate from {from} to {to} has {given} anchor bolts; the published least is {limit}.",
        "Too few anchor bolts",
        "Each piece of plate, as it is left once doors are cut out, takes two bolts or more.",
        "Add a bolt, join the piece to its neighbour, or have another anchor chosen by someone licensed to do so.",
        OWN_RULE,
    ),
    "anchor-far-from-end": Kind(
        "caution",
        "The last bolt of the piece of bottom plate from {from} to {to} stands {given} from its end; the published most "
        "is {limit}.",
        "Bolt far from the plate's end",
        "A bolt stands within 12 in of each end of every piece of plate.",
        "Add a bolt nearer the end.",
        OWN_RULE,
    ),
    "anchor-near-end": Kind(
        "caution",
        "A bolt stands {given} from the end of the piece of bottom plate from {from} to {to}; the published least is "
        "{limit}.",
        "Bolt near the plate's end",
        "A bolt nearer than seven diameters to a plate's end can split it.",
        "Count on another bolt, further from the end.",
        OWN_RULE,
    ),
    "anchors-too-far-apart": Kind(
        "caution",
        "Bolts in the piece of bottom plate from {from} to {to} stand {given} apart; the published most is {limit}.",
        "Bolts too far apart",
        "Anchor bolts stand at most 6 ft apart.",
        "Add a bolt between them.",
        OWN_RULE,
    ),
    "anchor-in-doorway": Kind(
        "stop",
        "Bolt {bolt} comes up at {at}, in a doorway, where the bottom plate is cut out.",
        "Bolt in a doorway",
        "A bolt that stands up in a doorway holds nothing and trips people.",
        "Move the door, or have the bolt cut off and another set beside the opening.",
        COMMON_PRACTICE,
    ),
    "anchor-under-stud": Kind(
        "stop",
        "Bolt {bolt} comes up at {at}, under a stud or block: it cannot stand there.",
        "Bolt under a stud",
        "A stud that is cut away over a bolt and its nut carries little.",
        "Move the opening or the tape's start so that the stud clears the bolt, or set another bolt.",
        COMMON_PRACTICE,
    ),
    "anchor-beside-stud": Kind(
        "caution",
        "Bolt {bolt} at {at} stands {clear} from a stud or block; nut, washer and wrench take {least}.",
        "Bolt close to a stud",
        "Half of a 3 in plate washer is the room that is kept beside studs.",
        "Use a smaller washer where the code in force allows it, or set another bolt.",
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
    "measurements-contradict": Kind(
        "stop",
        "The lengths contradict one another by {contradiction}; the tape and its reading explain {explained}. "
        "Most likely wrong is {suspect}: it would close at {reads}. Measure again before anything is moved.",
        "Measurements contradict one another",
        "Sides and diagonals of one figure fix each other. Here they do so by more than the tape's own error.",
        "Measure all lengths again, the one named first. One contradiction cannot prove which length is wrong.",
        OWN_RULE,
    ),
    "frame-out-of-square": Kind(
        "note",
        "Shorten the {diagonal} diagonal by {by}: push the top {corner} corner to the {way} by {push}.",
        "Frame out of square",
        "The diagonals differ by more than the tolerance; half the difference is what the longer one must lose.",
        "Push along the top plate against a block until both diagonals read alike, then fix a temporary diagonal.",
        OWN_RULE,
    ),
    "opposite-sides-differ": Kind(
        "caution",
        "Opposite sides are {one} and {other}, {difference} apart: equal diagonals would not make the frame square.",
        "Opposite sides differ",
        "Equal diagonals prove a frame square only where opposite sides are equal.",
        "Cut the longer one, or find what stands between, before the frame is squared.",
        Source("NAVEDTRA 14044", "", "page 40"),
    ),
    "opposite-sides-not-measured": Kind(
        "note",
        "Top plate and right side were taken to be as bottom plate and left side: measure them too.",
        "Opposite sides not measured",
        "Equal diagonals prove a frame square only where opposite sides are equal.",
        "Give `top` and `right`.",
        Source("NAVEDTRA 14044", "", "page 40"),
    ),
    "difference-may-be-reading": Kind(
        "note",
        "The diagonals differ by {difference}, which reading the tape alone may explain.",
        "Difference within the reading",
        "Each diagonal is read only so near.",
        "Nothing to mend; read both again with the same hand and pull.",
        COMMON_PRACTICE,
    ),
    "sheet-and-diagonals-differ": Kind(
        "caution",
        "By the sheet the top stands {sheet} to the right, by the diagonals {diagonals}.",
        "Sheet and diagonals differ",
        "The sheet's corner and the diagonals say different things of the same frame.",
        "Check the sheet's corner, and that plates and end studs are straight.",
        COMMON_PRACTICE,
    ),
    "out-of-plumb": Kind(
        "note",
        "Out of plumb by {offset} in {over}; the published limit compared with is {limit}.",
        "Out of plumb",
        "The wall stands out of plumb by more than a published tolerance.",
        "Bring it back with the brace before the next wall or the roof holds it.",
        OWN_RULE,
    ),
    "brace-while-plumbing": Kind(
        "caution",
        "Never let go of a wall while a brace is loosened: one person holds or a second brace stays fixed.",
        "Bracing while plumbing",
        "A wall stands by its braces until roof and sheathing hold it.",
        "Move one brace at a time, two people or more.",
        COMMON_PRACTICE,
    ),
    "rack-with-care": Kind(
        "caution",
        "While racking keep fingers and feet clear of the plates, push and never strike a nailed joint, and fix a "
        "temporary diagonal brace before the frame is lifted.",
        "Racking a frame",
        "A frame that moves can pinch, and one that is not held goes out of square again on the way up.",
        "Push against a block; brace before lifting.",
        COMMON_PRACTICE,
    ),
    "squaring-not-checked": Kind(
        "caution",
        "Not checked: that plates and studs are straight, that the frame lies flat, that the tape is true, loads and "
        "bracing. Local codes and licensed practice come first.",
        "What was not checked in squaring",
        "Six lengths say nothing of bow and twist.",
        "Sight along the plates; see that all corners lie on one plane.",
        OWN_RULE,
    ),
    "snap-the-rectangle": Kind(
        "note",
        "Snap the wanted rectangle at the offsets given and shift the plates to its lines, not to the deck's edges.",
        "Snap the rectangle",
        "The deck is not the rectangle wanted; the best placing shares the error between its edges.",
        "Mark each corner by its two offsets, check the diagonals, then set the plates to the lines.",
        OWN_RULE,
    ),
    "deck-edge-proud": Kind(
        "caution",
        "The {edge} edge sticks out past the framing line by up to {most}, at {corner}: a sheet that hangs past it is "
        "stopped there. Trim the edge.",
        "Deck edge proud",
        "A sheet that runs down past the deck needs the edge at or inside the framing line.",
        "Trim the edge back to the line, or move the plates outwards where there is room.",
        COMMON_PRACTICE,
    ),
    "deck-edge-short": Kind(
        "note",
        "The {edge} edge lies inside the framing line by up to {most}, at {corner}: shim behind the sheet there.",
        "Deck edge short",
        "Plate and sheet stand out past the deck, with a gap behind the sheet.",
        "Shim the gap solid; where the plate lacks bearing, pad the rim out.",
        COMMON_PRACTICE,
    ),
    "deck-not-level": Kind(
        "caution",
        "The corners' heights differ by {rise}.",
        "Deck not level",
        "Walls on a deck that is not level stand out of plumb or need shims under the plate.",
        "Level the deck, or shim under the plates.",
        OWN_RULE,
    ),
    "deck-not-checked": Kind(
        "caution",
        "Not checked: that the edges are straight, the deck's framing and anchorage, soil, loads. Guard an edge from "
        "which one can fall. Local codes and licensed practice come first.",
        "What was not checked on a deck",
        "Six lengths place four corners and say nothing of what lies between.",
        "Sight along the edges; look at the framing.",
        OWN_RULE,
    ),
    **SIZE_KINDS,
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
        "The cap lap is {given}, and with the other end's nothing is left of the cap plate; here it must be at least "
        "{least}.",
        "No cap plate left",
        "The cap plate stops so far short of the ends that nothing is left of it.",
        "Give smaller negative laps.",
    ),
    "face-too-narrow": FaultKind(
        "The sheathing lap is {given}, and with the other end's no face is left to skin; here it must be at least {least}.",
        "No face left to skin",
        "The sheathing stops so far short of the ends that nothing is left of it.",
        "Give smaller negative laps.",
    ),
    "opening-outside-wall": FaultKind(
        "The opening {opening} starts at {given} and does not lie within the wall; the nearest place with room for its "
        "jacks and kings is {nearest}.",
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
        "The header over {opening} ({plies} plies of {stock} and its spacer) is {given} thick; the wall's depth is {most}. "
        "Plies that fit: {fit}.",
        "Header too thick",
        "The header would stand out from the wall.",
        "Take fewer plies, a thinner spacer, or deeper studs.",
    ),
    "openings-collide": FaultKind(
        "The opening {opening} starts at {given} and overlaps {other}; the nearest place with room for its jacks and kings "
        "is {nearest}.",
        "Openings collide",
        "Two openings overlap along the wall.",
        "Move one of them.",
    ),
    "anchor-outside-wall": FaultKind(
        "A bolt is given at {given}; the bottom plate is {most} long.",
        "Bolt outside the wall",
        "Bolts already cast are given from the plate's left end.",
        "Give the bolt's distance from the plate's left end, or leave it out.",
    ),
    "no-plate-joint": FaultKind(
        "With plates {given} long the {plates} cannot be jointed over studs, clear of door openings and, layer from "
        "layer, {offset} apart. The shortest stock that works is {least}.",
        "No place for a plate's joint",
        "Plates are jointed over the middle of a stud, and the cap plate's joints stand apart from those below it.",
        "Give a longer `plates.stock_length`, or leave it out where plates of the wall's whole length are to be had.",
    ),
    "opening-too-near-end": FaultKind(
        "The opening {opening} starts at {given}, too near the end for its jacks and king; the nearest place with room for "
        "them is {nearest}.",
        "Opening too near the end",
        "Jack studs, and a king stud unless the end's post serves as one, need room beside the opening.",
        "Move the opening, or make it narrower.",
    ),
    "openings-too-near": FaultKind(
        "The opening {opening} starts at {given}, too near {other} for jacks and a shared king; the nearest place with room "
        "for them is {nearest}.",
        "Openings too near each other",
        "Two openings may share a king stud; each needs its own jacks.",
        "Move one of them.",
    ),
    "opening-has-no-place": FaultKind(
        "The opening {opening} is {given} wide and finds no place with its jacks and kings beside the other openings; the "
        "widest that does is {most}, with its left side at {nearest}.",
        "No place for the opening",
        "Between the posts and the other openings no stretch is wide enough for the opening, its jacks and its kings.",
        "Make it narrower, move the others, or lengthen the wall.",
    ),
    "no-room-for-opening": FaultKind(
        "The opening {opening} finds no room between the posts and the other openings, however narrow. Leave it out, or make "
        "the wall at least {least} long.",
        "No room for another opening",
        "Between the posts and the other openings no stretch takes even a narrow opening with its jacks and kings.",
        "Leave it out, move the others, or lengthen the wall.",
    ),
    "sill-too-high": FaultKind(
        "The sill of {opening} is at {given}, which leaves no height between sill and head; it can be at most {most}, or the wall at "
        "least {wall_height} high.",
        "Sill too high",
        "Below the header, or below the plates, no height is left for the opening.",
        "Lower the sill or raise the wall.",
    ),
    "header-deeper-than-wall": FaultKind(
        "A {stock} header over {opening} is {deep} deep, and between the plates there is {room}. Take a shallower one, or make "
        "the wall at least {wall_height} high.",
        "Header deeper than the wall",
        "The header leaves no height for an opening.",
        "Take a shallower header or raise the wall.",
    ),
    "no-level-seam": FaultKind(
        "No level seam {given} or less above the sheets' foot finds timber behind it all along the wall. "
        "Take a sheet at least {least} long, or move the openings' heads and sills.",
        "No place for a level seam",
        "The strip above the sheets would have no timber behind its lower edge.",
        "Take a sheet that covers the wall's height.",
    ),
    "footprint-too-small": FaultKind(
        "The footprint is {given}; the walls that it lies between and the posts of those that it holds take {least}. "
        "Make it at least that.",
        "Footprint too small",
        "No room is left for a wall with its posts between the through walls.",
        "Make the footprint larger.",
    ),
    "sides-incomplete": FaultKind(
        "One of top and right is given; give both, or neither. With the other side as its opposite, give {nearest}.",
        "Sides incomplete",
        "A frame is measured on two sides or on all four.",
        "Give both `top` and `right`, or neither.",
    ),
    "sides-fit-no-frame": FaultKind(
        "The top is {given}; with these sides no frame comes near square. The bottom plate's {nearest} would.",
        "Sides fit no frame",
        "Opposite sides differ so much that no corner comes within 45 degrees of square.",
        "Measure the sides again.",
    ),
    "diagonal-impossible": FaultKind(
        "{given} is given; a frame of these sides, within 45 degrees of square, has from {least} to {most}. "
        "The nearest is {nearest}.",
        "Diagonal impossible",
        "No frame of these sides has such a diagonal.",
        "Measure the diagonal again.",
    ),
    "lengths-do-not-close": FaultKind(
        "{given} is given; with the {one} and {other} sides it must be from {least} to {most}. The nearest is {nearest}.",
        "Lengths do not close",
        "One side of a triangle is never longer than the other two, nor shorter than their difference.",
        "Measure the diagonal and both sides again.",
    ),
    "sides-cross": FaultKind(
        "{given} is given; so the {one} and {other} sides cross. {nearest}, which was given as a diagonal, would close "
        "the deck here: sides and diagonals may be swapped.",
        "Sides cross",
        "In the order given the sides of the deck cross one another.",
        "Give the lengths in order: front, right, back, left, and the diagonals apart.",
    ),
    "deck-flat": FaultKind(
        "{given} is given; so the corners lie on one line. A square corner would give {nearest}.",
        "Deck flat",
        "The lengths enclose no area.",
        "Measure the diagonals again.",
    ),
}
