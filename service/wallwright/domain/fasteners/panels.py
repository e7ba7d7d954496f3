"""Where a piece of sheathing is solid, and where its edges run; exact on the grid, careful under a slope."""

from wallwright.domain.fasteners.site import Panel, Span
from wallwright.domain.members import Point

Edge = tuple[int, int, int, bool]
"""Where an edge lies, from and to along it, and whether the panel is on its right (or above it)."""


def solid_across(panel: Panel, left: int, right: int) -> list[Span]:
    """The heights in which the panel is whole from ``left`` to ``right``."""
    return _solid(panel.loops, left, right)


def solid_along(panel: Panel, bottom: int, top: int) -> list[Span]:
    """The stretches of x in which the panel is whole from ``bottom`` to ``top``."""
    return _solid(tuple(tuple((y, x) for x, y in loop) for loop in panel.loops), bottom, top)


def _solid(loops: tuple[tuple[Point, ...], ...], low: int, high: int) -> list[Span]:
    """Spans of the second figure in which everything between two first figures is inside."""
    stops = sorted({low, high, *(u for loop in loops for u, _ in loop if low < u < high)})
    found: list[Span] | None = None
    for start, end in zip(stops, stops[1:], strict=False):
        spans = _strip(loops, start, end)
        found = spans if found is None else _both(found, spans)
    return found or []


def _strip(loops: tuple[tuple[Point, ...], ...], start: int, end: int) -> list[Span]:
    """The same between two neighbouring corners, where no side begins or ends."""
    crossings = []
    for loop in loops:
        for (u1, v1), (u2, v2) in zip(loop, (*loop[1:], loop[0]), strict=True):
            if u1 == u2 or max(u1, u2) <= start or min(u1, u2) >= end:
                continue
            at_start = v1 + (v2 - v1) * (start - u1) // (u2 - u1)
            at_end = v1 + (v2 - v1) * (end - u1) // (u2 - u1)
            crossings.append((at_start + at_end, min(at_start, at_end), max(at_start, at_end)))
    crossings.sort()
    spans = []
    for lower, upper in zip(crossings[::2], crossings[1::2], strict=False):
        if lower[2] < upper[1]:
            spans.append((lower[2], upper[1]))
    return spans


def _both(one: list[Span], other: list[Span]) -> list[Span]:
    shared = [(max(a, c), min(b, d)) for a, b in one for c, d in other]
    return sorted(span for span in shared if span[0] < span[1])


def upright_edges(panel: Panel) -> list[Edge]:
    """Every upright side of the panel, from left to right: x, from, to, and whether the panel is on its right."""
    return _edges(panel.loops)


def level_edges(panel: Panel) -> list[Edge]:
    """Every level side: y, from, to, and whether the panel is above it."""
    return _edges(tuple(tuple((y, x) for x, y in loop) for loop in panel.loops))


def _edges(loops: tuple[tuple[Point, ...], ...]) -> list[Edge]:
    found = []
    for loop in loops:
        for (u1, v1), (u2, v2) in zip(loop, (*loop[1:], loop[0]), strict=True):
            if u1 == u2 and v1 != v2:
                middle = (v1 + v2) // 2
                after = _solid(loops, u1, u1 + 2)
                found.append((u1, min(v1, v2), max(v1, v2), any(a <= middle <= b for a, b in after)))
    return sorted(found)


def sloping_edges(panel: Panel) -> list[tuple[Point, Point]]:
    """The sides of the panel's outline that are neither upright nor level."""
    outline = panel.loops[0]
    return [
        (a, b) for a, b in zip(outline, (*outline[1:], outline[0]), strict=True) if a[0] != b[0] and a[1] != b[1]
    ]  # fmt: skip
