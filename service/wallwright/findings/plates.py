"""Findings about plates and the bolts that hold them."""

from typing import Final

from wallwright.findings.kind import Kind
from wallwright.sources import COMMON_PRACTICE, OWN_RULE

PLATE_KINDS: Final[dict[str, Kind]] = {
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
}
