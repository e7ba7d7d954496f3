"""Findings about framing, skin, raising and buildings."""

from typing import Final

from wallwright.findings.kind import Kind
from wallwright.sources import COMMON_PRACTICE, OWN_RULE

WALL_KINDS: Final[dict[str, Kind]] = {
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
    "other-start-compared": Kind(
        "note",
        "Begun at the {end} end the sheets would come to: sheets {sheets}, pieces and legs under {least} {narrow}, added "
        "studs {studs}. As they lie: sheets {own_sheets}, pieces and legs {own_narrow}, added studs {own_studs}.",
        "The other end as the start",
        "Sheets begin at the end that was asked for, else at the end that the tape starts from.",
        "Give `sheathing.start` where the other end serves better.",
        OWN_RULE,
    ),
    "greatest-height-covered": Kind(
        "note",
        "With this under-sheet and these sheets the greatest wall that needs no strip is {most} high; courses of sheets: "
        "{courses}.",
        "Greatest height that whole sheets cover",
        "A lower wall is covered by as many whole courses of sheets as are named, without a strip above them.",
        "Take that height or less where the strip, its sheets and its blocking are to be saved.",
        OWN_RULE,
    ),
    "lap-cut-anew": Kind(
        "note",
        "Pieces ripped along their shiplap edge, which need the lap cut anew so that the next sheet closes over it: {count}.",
        "Lap cut anew",
        "A sheet that is ripped between two others loses the lap on the side that is cut.",
        "Rip the piece wider by the lap and rabbet its edge, or choose sheets whose net cover falls on the studs.",
        OWN_RULE,
    ),
    "top-course-a-strip": Kind(
        "note",
        "The top course of sheets is a strip {strip} high. A wall or an under-sheet lower by {lower} would save it.",
        "Top course a strip",
        "Whole courses of lying sheets miss the top of the face by little, so that one more course is cut.",
        "Lower the wall, or let the sheets hang less below the plate.",
        COMMON_PRACTICE,
    ),
    "reuse-proven": Kind(
        "note",
        "With offcuts reused inside the wall the sheets come to {sheets}; without, {without}. Sawn from edge to edge, each "
        "piece from its box, these pieces cannot come from fewer.",
        "Offcuts reused, as few sheets as can be",
        "A bound by area and by pieces that cannot share a sheet is as high as the count of sheets.",
        "Cut the large pieces first, and mark each piece and offcut with its number and the sheet's.",
        OWN_RULE,
    ),
    "reuse-not-proven": Kind(
        "note",
        "With offcuts reused inside the wall the sheets come to {sheets}; without, {without}. That fewer would not do is not "
        "proven: these pieces take {least} at least.",
        "Offcuts reused, not proven the fewest",
        "The pieces were laid on sheets in several orders; the bound goes by area and by pieces that cannot share a sheet.",
        "An order for this wall looks at more ways to cut its sheets.",
        OWN_RULE,
    ),
    "seams-in-line-with-corners": Kind(
        "caution",
        "Sides of openings at which sheets end, with a seam in line with the opening's corners: {count}. Cracks start there, and the "
        "pieces beside an opening are braced on their own.",
        "Seams in line with an opening's corners",
        "Rectangles beside, over and under an opening always meet in line with one of its sides.",
        "Give `sheathing.openings` as `cut-out`, so that sheets run past the corners in one piece.",
        COMMON_PRACTICE,
    ),
    "low-piece": Kind(
        "caution",
        "Pieces over the head or under the sill of an opening that are less than {least} high: {count}. They split easily and hold "
        "few fasteners.",
        "Low piece over or under an opening",
        "Sheets are pieced round the openings, and little of the face is left over a head or under a sill.",
        "Give `sheathing.openings` as `cut-out`, move the head or the sill, or change the height of the courses.",
        COMMON_PRACTICE,
    ),
    "opening-still-cut-out": Kind(
        "note",
        "Sides of openings that are cut out of the sheets all the same: {count}. Sheets end at a side only where timber over "
        "and under the opening carries both edges, or a stud for it finds room, and no strip is left too low to be fastened.",
        "Opening still cut out",
        "A seam beside an opening runs on over its head and under its sill, where it needs timber as well.",
        "Move the opening a little, so that no cripple stands within two studs of its side, or leave it cut out.",
        OWN_RULE,
    ),
    "pieces-turned": Kind(
        "caution",
        "Pieces that lie turned on their sheet, so that the panel's strength axis runs the other way on the wall: {count}.",
        "Pieces across the grain",
        "A panel is stiffer along its length, and published spans go by the way it lies; turned pieces were compared with none.",
        "Give `sheathing.grain` as `kept` where the panel's rating goes by its direction, or where its face shows.",
        OWN_RULE,
    ),
    "joints-not-staggered": Kind(
        "note",
        "Joints of lying sheets nearer than a bay to a joint in the course below: {count}.",
        "Joints not staggered",
        "Joints of one course stand at least one bay from those of the next, so that no line of joints runs through.",
        "Change the sheet's length or the spacing, or accept the joints as shown.",
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
    "footprint-in-whole-sheets": Kind(
        "note",
        "With a {side} of {less} the {walls} walls take {count} sheets each along their length, whole but for rips as narrow as "
        "the gaps; the next such {side} is {more}.",
        "Footprint in whole sheets",
        "Upright sheets stand side by side with gaps between them; at these sizes the last one is whole too.",
        "Take the smaller size where a sheet is to be saved in each wall, if openings and posts still fit.",
        OWN_RULE,
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
