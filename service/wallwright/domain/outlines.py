"""Pieces of a sheet that remain when openings are cut from a rectangle, as polygons on the grid.

Outlines run counter-clockwise from their lowest left corner. A cut wholly inside a piece is a
cut-out; one that reaches an edge is part of the outline; one that parts the piece makes two.
"""

from collections import defaultdict

import msgspec

from wallwright.domain.members import Point

Outline = tuple[Point, ...]


class Rect(msgspec.Struct, frozen=True, gc=False):
    """An upright rectangle on the grid."""

    left: int
    bottom: int
    right: int
    top: int

    def outline(self) -> Outline:
        """The rectangle as an outline."""
        return ((self.left, self.bottom), (self.right, self.bottom), (self.right, self.top), (self.left, self.top))


def remainder(whole: Rect, voids: list[Rect]) -> list[tuple[Outline, tuple[Outline, ...]]]:
    """What is left of ``whole`` once ``voids`` are cut from it: outlines, each with its cut-outs, left to right.

    The voids stand apart from one another, as a wall's openings do: two that met in a corner would share a point.
    """
    cutting = [
        void
        for void in voids
        if void.left < whole.right and void.right > whole.left and void.bottom < whole.top and void.top > whole.bottom
    ]
    if not cutting:
        return [(whole.outline(), ())]
    outers: list[Outline] = []
    holes: list[Outline] = []
    for loop in _loops(_edges(whole, cutting)):
        (outers if _double_area(loop) > 0 else holes).append(loop)
    outers.sort(key=lambda loop: (min(loop), loop))
    owned: dict[Outline, list[Outline]] = {outer: [] for outer in outers}
    for hole in sorted(holes):
        owned[_owner(hole, outers)].append(hole)
    return [(outer, tuple(owned[outer])) for outer in outers]


def _edges(whole: Rect, voids: list[Rect]) -> list[tuple[Point, Point]]:
    """The boundary, as directed edges with the solid on their left, found slab by slab between the voids' sides."""
    xs = sorted(
        {whole.left, whole.right, *(x for v in voids for x in (v.left, v.right) if whole.left < x < whole.right)}
    )
    edges: list[tuple[Point, Point]] = []
    verticals: dict[int, list[tuple[int, int, int]]] = defaultdict(list)
    for left, right in zip(xs, xs[1:], strict=False):
        cuts = [(v.bottom, v.top) for v in voids if v.left <= left and v.right >= right]
        for bottom, top in _solid(whole.bottom, whole.top, cuts):
            edges.append(((left, bottom), (right, bottom)))
            edges.append(((right, top), (left, top)))
            verticals[right].append((bottom, top, 1))
            verticals[left].append((bottom, top, -1))
    for x, sides in verticals.items():
        ys = sorted({y for bottom, top, _ in sides for y in (bottom, top)})
        for low, high in zip(ys, ys[1:], strict=False):
            # Where a cell ends and another begins, their common side is inside the piece.
            way = sum(side for bottom, top, side in sides if bottom <= low and top >= high)
            if way:
                edges.append(((x, low), (x, high)) if way > 0 else ((x, high), (x, low)))
    return edges


def _solid(bottom: int, top: int, cuts: list[tuple[int, int]]) -> list[tuple[int, int]]:
    spans = []
    for low, high in sorted(cuts):
        if low > bottom:
            spans.append((bottom, min(low, top)))
        bottom = max(bottom, high)
    if bottom < top:
        spans.append((bottom, top))
    return spans


def _loops(edges: list[tuple[Point, Point]]) -> list[Outline]:
    """Closed outlines from directed edges; where two meet in a point, the sharpest turn to the left parts them."""
    leaving: dict[Point, list[Point]] = defaultdict(list)
    for start, end in edges:
        leaving[start].append(end)
    loops = []
    while leaving:
        start = min(leaving)
        loop = [start]
        here, came = start, (0, 0)
        while True:
            ways = leaving[here]
            onward = max(ways, key=lambda end: _turn(came, here, end)) if len(ways) > 1 else ways[0]
            ways.remove(onward)
            if not ways:
                del leaving[here]
            came = (onward[0] - here[0], onward[1] - here[1])
            here = onward
            if here == start:
                break
            loop.append(here)
        loops.append(_straightened(loop))
    return loops


def _turn(came: Point, here: Point, end: Point) -> int:
    """How sharply a way turns left of the way that came."""
    way = (end[0] - here[0], end[1] - here[1])
    cross = came[0] * way[1] - came[1] * way[0]
    return (cross > 0) - (cross < 0)


def _straightened(loop: list[Point]) -> Outline:
    """The outline without points in the middle of a straight side."""
    kept = []
    for before, point, after in zip([loop[-1], *loop[:-1]], loop, [*loop[1:], loop[0]], strict=True):
        cross = (point[0] - before[0]) * (after[1] - point[1]) - (point[1] - before[1]) * (after[0] - point[0])
        if cross:
            kept.append(point)
    first = kept.index(min(kept, key=lambda point: (point[1], point[0])))
    return tuple(kept[first:] + kept[:first])


def _double_area(loop: Outline) -> int:
    return sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(loop, [*loop[1:], loop[0]], strict=True))


def _owner(hole: Outline, outers: list[Outline]) -> Outline:
    """The outline that a cut-out lies in: the smallest whose box holds it."""
    x, y = hole[0]
    around = [
        outer
        for outer in outers
        if min(p[0] for p in outer) < x < max(p[0] for p in outer)
        and min(p[1] for p in outer) < y < max(p[1] for p in outer)
    ]
    return min(around, key=_double_area)
