"""What the judges of a wall share: boxes and bands, reckoned apart from the service's own geometry."""

from collections.abc import Iterable

from shapely import STRtree, box
from shapely.geometry.base import BaseGeometry

from wallwright.domain.members import Member

Span = tuple[int, int]
Box = tuple[int, int, int, int, int, int]
"""x, y and z from, then x, y and z to."""

UPRIGHT_ROLES = frozenset(
    ("end-stud", "corner-stud", "field-stud", "seam-stud", "king-stud", "jack-stud", "cripple", "backing")
)


def boxes(member: Member) -> list[Box]:
    """The boxes that a member fills, a door's plate without what is cut out after raising."""
    spans = [(member.x, member.right)]
    for cut in member.cut_outs:
        spans = [part for low, high in spans for part in ((low, min(high, cut.left)), (max(low, cut.right), high))]
        spans = [(low, high) for low, high in spans if low < high]
    z, deep = member.z, member.z + member.depth
    return [(low, member.y, z, high, member.top, deep) for low, high in spans]


def overlapping(placed: list[tuple[str, Box]]) -> list[tuple[str, str]]:
    """Pairs of boxes whose interiors meet: in plan by shapely's exact predicates, in depth by intervals."""
    shapes = [box(b[0], b[1], b[3], b[4]) for _, b in placed]
    tree = STRtree(shapes)
    found = []
    for first, second in zip(*tree.query(shapes, predicate="intersects"), strict=True):
        if first >= second or shapes[first].touches(shapes[second]):
            continue
        (name, one), (other, two) = placed[first], placed[second]
        if one[2] < two[5] and two[2] < one[5]:
            found.append((name, other))
    return found


def merged(spans: Iterable[Span]) -> list[Span]:
    """Spans joined where they touch or overlap, from low to high."""
    joined: list[Span] = []
    for low, high in sorted(spans):
        if joined and low <= joined[-1][1]:
            joined[-1] = (joined[-1][0], max(high, joined[-1][1]))
        else:
            joined.append((low, high))
    return joined


def bands(levels: Iterable[int], bottom: int, top: int) -> list[Span]:
    """The heights between bottom and top in which nothing begins or ends."""
    cuts = sorted({bottom, top, *(level for level in levels if bottom < level < top)})
    return list(zip(cuts, cuts[1:], strict=False))


def empty(shape: BaseGeometry) -> bool:
    """Whether a shape has no area but the overlay's rounding: less than a grid unit's width over 1/16 in."""
    return shape.area < 30_000
