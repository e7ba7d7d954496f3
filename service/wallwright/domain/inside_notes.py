"""What there is to say about a wall's inner face: backing of partitions, nailing for a lining, and fireblocking."""

from wallwright.domain.members import Member
from wallwright.domain.partitions import HOLD, LINING, OPEN, corner_needs
from wallwright.domain.wall import Wall
from wallwright.findings import Compared, Finding, Value
from wallwright.lengths import INCH
from wallwright.published import plates as published

BOARD_SPAN = 24 * INCH
"""Greatest spacing of studs behind gypsum board 1/2 in thick on a wall (from memory: IRC Table R702.3.5)."""
Values = tuple[tuple[str, Value], ...]


def inside_findings(wall: Wall, members: tuple[Member, ...]) -> list[Finding]:
    """The findings on the inner face, in the order of the wall's fields."""
    found = _partitions(wall, members) if wall.partitions else []
    return found + _lining(wall, members) if wall.lining else found


def _partitions(wall: Wall, members: tuple[Member, ...]) -> list[Finding]:
    ids = tuple(
        m.id for m in members if m.role == "backing" and any(_beside(m, p.at, p.right) for p in wall.partitions)
    )
    values: Values = (
        ("count", str(len(wall.partitions))), ("lining", LINING), ("hold", HOLD), ("pieces", str(len(ids))),
    )  # fmt: skip
    return [
        Finding("partition-backed", "/partitions", values, ids),
        Finding("partition-plates", "/partitions", source=published.plates_source(wall.rules)),
    ]


def _beside(member: Member, left: int, right: int) -> bool:
    return member.x < right + LINING and member.right > left - LINING


def _lining(wall: Wall, members: tuple[Member, ...]) -> list[Finding]:
    corners = [need for need, _ in corner_needs(wall)]
    ids = tuple(m.id for m in members if m.role == "backing" and any(m.x < b and m.right > a for a, b in corners))
    found = [Finding("lining-backed", "/lining", (("lining", LINING), ("pieces", str(len(ids)))), ids)]
    for low, high in corners:
        if _bare(wall, members, low, high):
            values: Values = (
                ("end", "left" if low * 2 < wall.length else "right"), ("lining", LINING),
                ("why", "an opening's jacks or header, or the blocks of a post, stand there"),
            )  # fmt: skip
            found.append(Finding("lining-corner-bare", "/ends", values))
    back = {m.opening: wall.depth - m.z - m.depth for m in members if m.role == "header"}
    for member in members:
        if member.role == "header":
            back[member.opening] = min(back[member.opening], wall.depth - member.z - member.depth)
    hollow = {name: short for name, short in back.items() if short > 0}
    if hollow:
        values = (("count", str(len(hollow))), ("short", max(hollow.values())))
        headers = tuple(m.id for m in members if m.role == "header" and m.opening in hollow)
        found.append(Finding("lining-header-back", "/openings", values, headers))
    return [*found, _board(wall), *_fireblocking(wall, members)]


def _bare(wall: Wall, members: tuple[Member, ...], low: int, high: int) -> bool:
    """Whether a stretch of the inner face lacks timber from plate to plate by more than a gap that is left open."""
    edge = low
    standing = sorted(
        (m.x, m.right) for m in members
        if m.z + m.depth == wall.depth and m.y == wall.stud_bottom and m.role in _FULL and m.x < high and m.right > low
    )  # fmt: skip
    for left, right in [*standing, (high, high)]:
        if left - edge >= OPEN:
            return True
        edge = max(edge, right)
    return False


_FULL = frozenset(("end-stud", "corner-stud", "field-stud", "king-stud", "seam-stud", "backing"))


def _board(wall: Wall) -> Finding:
    values: Values = (("spacing", wall.spacing), ("most", BOARD_SPAN))
    code = "lining-studs-compared" if wall.spacing <= BOARD_SPAN else "lining-studs-too-far-apart"
    return Finding(code, "/spacing", values, compared=Compared(wall.spacing, BOARD_SPAN, "length"))


def _fireblocking(wall: Wall, members: tuple[Member, ...]) -> list[Finding]:
    """How plates and studs close the spaces that a lining hides, beside the published rule."""
    limit = published.FIREBLOCKING_INTERVAL
    source = published.fireblocking_source(wall.rules)
    values: Values = (("spacing", wall.spacing), ("limit", limit))
    found = [Finding("fireblocking", "/lining", values, (), source, Compared(wall.spacing, limit, "length"))]
    tallest = max(m.height for m in members if m.role in _FULL)
    if tallest > limit:
        found.append(Finding("fireblocking-tall", "/height", (("height", tallest), ("limit", limit))))
    return found
