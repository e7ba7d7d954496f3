"""Findings about what is fixed to a wall's inner face: partitions, a lining, and the spaces that it closes."""

from typing import Final

from wallwright.findings.kind import Kind
from wallwright.sources import COMMON_PRACTICE, FROM_MEMORY, OWN_RULE

INSIDE_KINDS: Final[dict[str, Kind]] = {
    "partition-backed": Kind(
        "note",
        "Partitions: {count}. Behind each face of a partition stands solid timber from plate to plate, {lining} outside it "
        "for the edge of a lining and {hold} inside it for the partition's end stud. Backing added: {pieces}.",
        "Backing of a partition",
        "An inside wall that ends against this one is nailed to studs behind both its faces, which give nailing for the "
        "lining in both inside corners too. Studs and kings that stand there already serve; the layout does not move.",
        "Set the backing where the marks say, its narrow face to the sheets, before the sheets are on.",
        COMMON_PRACTICE,
    ),
    "partition-plates": Kind(
        "note",
        "A partition that bears load has its top plates lapped over this wall's, or tied to them. Whether one does was not "
        "asked, and the lap is not cut out of this wall's cap plate.",
        "Plates of a bearing partition",
        "Double top plates are lapped at corners and where bearing partitions cross; a single one is tied with steel plates.",
        "Lap or tie the plates as the code in force asks.",
        OWN_RULE,
    ),
    "lining-backed": Kind(
        "note",
        "The inner face is lined: plates and studs carry it, and inside corners have {lining} of timber beside the wall met. "
        "Backing added there: {pieces}. Where the ends meet no wall that is named, no corner is known. The joints of the "
        "boards were not laid out.",
        "Nailing for a lining",
        "The edge of an inside lining is nailed in every inside corner. A post of three studs or one with a flat stud gives "
        "that nailing; a single stud at the end of a wall that runs through does not.",
        "Set the backing where the marks say. Name the walls met in `ends` where a corner is not known.",
        COMMON_PRACTICE,
    ),
    "lining-corner-bare": Kind(
        "caution",
        "At the {end} end the lining finds no timber from plate to plate for {lining} beside the wall met: {why}.",
        "Inside corner without nailing",
        "What stands there leaves no room for backing, so that the edge of the lining hangs free for a part of its height.",
        "Move the opening from the corner, or fix blocks by hand where the lining needs them.",
        COMMON_PRACTICE,
    ),
    "lining-header-back": Kind(
        "note",
        "Headers whose inner face stands back from the studs': {count}, by {short} at most. A lining has no nailing there "
        "until they are furred out.",
        "Header behind the inner face",
        "Plies of a header fill less than the wall's depth, so that the lining spans a hollow over the opening.",
        "Fur the header out on the inside, or put a spacer between its plies (`header.spacer`).",
        COMMON_PRACTICE,
    ),
    "lining-studs-compared": Kind(
        "note",
        "Studs stand {spacing} on centre; gypsum board of 1/2 in on a wall takes up to {most}.",
        "Studs behind a lining",
        "A board spans from stud to stud; thinner boards take less.",
        "Ask the maker of the board where it is not of gypsum or not 1/2 in thick.",
        FROM_MEMORY,
    ),
    "lining-studs-too-far-apart": Kind(
        "caution",
        "Studs stand {spacing} on centre; gypsum board of 1/2 in on a wall takes up to {most}.",
        "Studs too far apart for a lining",
        "A thin board bulges between studs that stand too far apart.",
        "Take a closer spacing or a thicker board.",
        FROM_MEMORY,
    ),
    "fireblocking": Kind(
        "note",
        "Lined on the inside, the spaces between studs are closed by the plates at the wall's foot and top, and by studs "
        "{spacing} on centre along it; published is: closed at floor and ceiling level, and at most every {limit} along the "
        "wall. A ceiling that hangs below the plates takes blocks at its level, and what passes through plates is sealed "
        "around; neither was asked.",
        "Fireblocking",
        "Fire climbs in spaces that are closed on both sides. Timber of 2 in nominal, as plates and studs are, cuts them off.",
        "Set blocks where a ceiling, soffit or floor meets the wall between its plates. Local codes come first.",
        OWN_RULE,
    ),
    "fireblocking-tall": Kind(
        "note",
        "Between the plates studs are up to {height} long. The published rule names no height between floor and ceiling, yet "
        "some places ask for a row of blocks in spaces taller than {limit}. None was added.",
        "Fireblocking of tall walls",
        "In tall walls a row of blocks at mid-height is often asked for, whether or not the published text does.",
        "Ask the building office; set a row of blocks of the wall's stock between the studs where it wants one.",
        FROM_MEMORY,
    ),
}
