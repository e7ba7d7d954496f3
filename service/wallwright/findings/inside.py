"""Findings about what is fixed to a wall's inner face: partitions and their backing."""

from typing import Final

from wallwright.findings.kind import Kind
from wallwright.sources import COMMON_PRACTICE, OWN_RULE

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
}
