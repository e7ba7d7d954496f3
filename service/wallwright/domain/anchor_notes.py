"""What there is to say about a wall's anchor bolts: each piece of plate beside the published distances."""

from wallwright.domain.anchors import CLEAR, Stretch, standing, stretches
from wallwright.domain.members import Anchor, Member
from wallwright.domain.wall import Wall
from wallwright.findings import Compared, Finding, Value
from wallwright.published import anchors as published

Values = tuple[tuple[str, Value], ...]


def anchor_findings(wall: Wall, members: tuple[Member, ...], anchors: tuple[Anchor, ...]) -> list[Finding]:
    """The findings on anchor bolts; none where the floor is no slab and none were given."""
    if not anchors and wall.floor.kind != "slab":
        return []
    given = bool(wall.floor.anchors)
    source = published.source(wall.rules)
    left = stretches(members)
    values: Values = (
        ("count", str(len(anchors))), ("how", "as given" if given else "placed"), ("spacing", published.SPACING),
        ("most", published.END_MOST), ("least", published.END_LEAST), ("each", str(published.LEAST_FOR_EACH_PIECE)),
        ("diameter", published.DIAMETER), ("embedment", published.EMBEDMENT), ("washer", published.WASHER_SIDE),
    )  # fmt: skip
    widest = max((_widest(_within(one, anchors)) for one in left), default=0)
    found = [Finding("anchor-bolts", "/floor", values, (), source, Compared(widest, published.SPACING, "length"))]
    found.append(Finding("lift-over-bolts", "/floor"))
    about = "/floor/anchors" if given else "/floor"
    for number, one in enumerate(left, start=1):
        found += _of_piece(wall, one, number, _within(one, anchors), about)
    for anchor in anchors:
        found += _of_bolt(wall, members, left, anchor, about)
    return found


def _within(piece: Stretch, anchors: tuple[Anchor, ...]) -> list[int]:
    return [anchor.x for anchor in anchors if piece.left <= anchor.x <= piece.right]


def _widest(places: list[int]) -> int:
    return max((b - a for a, b in zip(places, places[1:], strict=False)), default=0)


def _of_piece(wall: Wall, piece: Stretch, number: int, places: list[int], about: str) -> list[Finding]:
    """One piece of plate beside the rule: count, distances from both ends, distance from bolt to bolt."""
    source = published.source(wall.rules)
    name: Values = (("piece", str(number)), ("from", piece.left), ("to", piece.right))

    def said(code: str, value: int, limit: int, unit: str = "length") -> Finding:
        values = (*name, ("given", value if unit == "length" else str(value)))
        values += (("limit", limit if unit == "length" else str(limit)),)
        return Finding(code, about, values, (piece.plate,), source, Compared(value, limit, unit))

    found = []
    if len(places) < published.LEAST_FOR_EACH_PIECE:
        found.append(said("anchors-too-few", len(places), published.LEAST_FOR_EACH_PIECE, "bolts"))
    if not places:
        return found
    ends = (places[0] - piece.left, piece.right - places[-1])
    if max(ends) > published.END_MOST:
        found.append(said("anchor-far-from-end", max(ends), published.END_MOST))
    if min(ends) < published.END_LEAST:
        found.append(said("anchor-near-end", min(ends), published.END_LEAST))
    if _widest(places) > published.SPACING:
        found.append(said("anchors-too-far-apart", _widest(places), published.SPACING))
    return found


def _of_bolt(
    wall: Wall, members: tuple[Member, ...], left: list[Stretch], anchor: Anchor, about: str
) -> list[Finding]:  # fmt: skip
    """A bolt that comes up in a doorway, or under or beside a stud."""
    values: Values = (("bolt", anchor.id.removeprefix("anchor-")), ("at", anchor.x))
    if not any(one.left <= anchor.x <= one.right for one in left):
        return [Finding("anchor-in-doorway", about, values, (anchor.plate,))]
    clear = min((max(low - anchor.x, anchor.x - high) for low, high in standing(wall, members)), default=CLEAR)
    if clear >= CLEAR:
        return []
    near = max(clear, 0)
    beside = tuple(
        m.id for m in members
        if m.y == wall.stud_bottom and not m.role.endswith("plate") and m.x - near <= anchor.x <= m.right + near
    )  # fmt: skip
    code = "anchor-under-stud" if clear < published.DIAMETER // 2 else "anchor-beside-stud"
    values = (*values, ("clear", near), ("least", CLEAR))
    return [Finding(code, about, values, beside, compared=Compared(near, CLEAR, "length"))]
