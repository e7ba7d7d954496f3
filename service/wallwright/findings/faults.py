"""Why a plan is refused: the text of each fault, and the page that explains it."""

from typing import Final

from wallwright.findings.figure_faults import FIGURE_FAULTS
from wallwright.findings.kind import FaultKind
from wallwright.findings.order_faults import ORDER_FAULTS

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
    "slope-reaches-too-high": FaultKind(
        "Over this length the top reaches {given}; it can be at most {most} high there, and no wall is low enough for that. "
        "With a slope of {slope} or less it can be.",
        "Slope too steep for its length",
        "A slope rises with its length, and past the greatest height that is framed even from the lowest wall.",
        "Take a flatter slope, a gable for a rake, or a shorter wall.",
    ),
    "lap-too-short": FaultKind(
        "The lap is {given} and sheets stand {gap} apart; a shiplap edge must reach under the next sheet: give at least {least}.",
        "Lap too short",
        "With a gap as wide as the lap nothing closes the joint.",
        "Give a wider lap or a smaller gap.",
    ),
    "no-lying-seam": FaultKind(
        "Between two courses of lying sheets no seam at {given} or lower finds timber behind it all along the wall. Give "
        "direction upright, or move the openings' heads and sills.",
        "No level seam for lying sheets",
        "Level edges of sheets lie on blocking, plates, headers or sills, and stand clear of the floor.",
        "Give `sheathing.direction` as `upright`, wider sheets, or less under-sheet.",
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
    "opening-too-low": FaultKind(
        "The opening {opening} stands on the floor and is {given} high; the least is {least}.",
        "Opening too low",
        "Its head lies within the bottom plates or so near them that no jack has room.",
        "Give it more height, or a sill.",
    ),
    "sill-too-low": FaultKind(
        "The sill of the opening {opening} is at {given}; it is 0 for a door, or at least {least}.",
        "Sill too low",
        "A rough sill needs room above the bottom plate.",
        "Give 0 for a door, or raise the sill.",
    ),
    "header-does-not-fit": FaultKind(
        "Over the opening {opening} there is {room} below the plates and a {stock} header takes {deep}. The opening can be at most "
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
    "plate-joint-astray": FaultKind(
        "The {plates} cannot be jointed at {given}: joints of bottom and top plates lie over the middle of a stud, or over solid timber "
        "tight under the plate, clear of door openings; no piece is under {shortest} nor longer than `plates.stock_length`; a joint "
        "of the layer above keeps {offset} from those below. Joints of plates on a slope are not given. Nearest place: {nearest}.",
        "A plate's joint has no place there",
        "Joints that are given are held to the same rules as those that the service finds.",
        "Leave `plates.joints` out and give `plates.stock_length`, and joints are found.",
    ),
    "no-plate-joint": FaultKind(
        "With plates {given} long the {plates} cannot be jointed over studs, clear of door openings and, layer from "
        "layer, {offset} apart. Stock {least} long works.",
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
    "partition-misplaced": FaultKind(
        "The partition's left face is at {given}, where it has no room with nailing on both sides, clear of corners, posts, "
        "openings with their jacks, and other partitions; the nearest place that has is {nearest}.",
        "Partition misplaced",
        "A partition ends against studs from floor to plate, with the edges of the lining on both sides of it.",
        "Move the partition, or the opening beside it.",
    ),
    "no-room-for-partition": FaultKind(
        "The partition whose left face is at {given} finds no room between corners, openings and other partitions. Leave it "
        "out, or make the wall at least {least} long.",
        "No room for the partition",
        "No stretch of the wall takes the partition with nailing on both sides.",
        "Leave it out, move the openings, or lengthen the wall.",
    ),
    "sill-too-high": FaultKind(
        "The sill of the opening {opening} is at {given}, which leaves no height between sill and head; it can be at most {most}, or the wall at "
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
    **FIGURE_FAULTS,
    **ORDER_FAULTS,
}
