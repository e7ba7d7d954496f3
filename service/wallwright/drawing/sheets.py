"""A wall that is too long for one paper goes on upon the next, at the same scale, from match line to match line.

The wall is drawn once on a canvas as wide as it needs (`paper.continued`), and cut where least is cut through. What crosses
a match line is drawn on both papers and runs a little past the line; a text stands whole on the paper where its middle lies.
"""

from bisect import bisect_left
from collections.abc import Callable, Iterator
from math import ceil
from typing import Final

import msgspec
from msgspec.structs import replace

from wallwright.drawing.dimensions import PAST, Part, Shapes
from wallwright.drawing.paper import MARGIN, View
from wallwright.drawing.scene import Area, Box, Lines, Place, Scene, Text, moved, text_box, text_width
from wallwright.lengths import INCH, MILLIMETRE, Units, tape_text

_SLACK: Final = 15.0
"""Least room of a paper that may be left free, so that a match line can be moved to where little is cut through."""
_REACH: Final = 40.0
"""How far from an even share a match line may be, in millimetres."""
_NARROW: Final = 4.0
"""What is narrower is an upright member, which a match line keeps clear of."""
_STEP: Final = {"in": INCH, "mm": 10 * MILLIMETRE}
"""Match lines stand at whole inches or centimetres."""
_DASHES: Final = (6.0, 1.0, 1.0, 1.0, 1.0, 1.0)
"""Long dash and two dots, as for adjoining work (ISO 128-2 habit): drawn and left free by turns."""


class Around(msgspec.Struct, frozen=True, gc=False):
    """What stands around the object on each paper: room to its left and right, and at the foot, in millimetres."""

    left: float
    right: float
    foot: float = 3.0


Own = Callable[[Part], Shapes]
"""What a paper has of its own: dimensions of what it shows, marks at its ends."""
Strip = Callable[[View, str], Shapes]
"""The title strip, and what else stands at its place on every paper, given which of several it is."""


def paged(
    view: View, shapes: Shapes, span: tuple[int, int], around: Around, units: Units, own: Own, strip: Strip
) -> list[Shapes]:
    """The shapes of each paper. ``span`` is where the object begins and ends in x on the grid."""
    if not view.sheet:
        return [[*shapes, *own(Part(1, 1, 0.0, view.width)), *strip(view, "")]]
    paper = replace(view, width=view.sheet)
    left, right = view.x(span[0]), view.x(span[1])
    room = view.sheet - 2 * MARGIN - around.left - around.right
    cuts = _match_lines(view, shapes, left, right, room, _STEP[units])
    edges = [0.0, *cuts, view.width]
    pages = []
    for number, (low, high) in enumerate(zip(edges, edges[1:], strict=False), 1):
        part = Part(number, len(edges) - 1, low, high)
        start, end = max(low, left), min(high, right)
        by = MARGIN + around.left + (room - (end - start)) / 2 - start
        drawn = [*_within(shapes, part), *own(part)]
        drawn += _lines_of(view, part, around.foot, units, drawn)
        page = [moved(shape, by, 0.0) for shape in drawn]
        pages.append([*page, *strip(paper, f"Sheet {number} of {part.of}")])
    return pages


def scenes(view: View, pages: list[Shapes], title: str, description: str) -> list[Scene]:
    """Papers as scenes under one title; each of several says which it is."""
    width = view.sheet or view.width
    many = len(pages) > 1
    return [
        Scene(
            width, view.height, f"{title}, sheet {number} of {len(pages)}" if many else title, description, tuple(page)
        )
        for number, page in enumerate(pages, 1)
    ]


def _match_lines(view: View, shapes: Shapes, left: float, right: float, room: float, unit: int) -> list[float]:
    """Where the canvas is cut, at whole steps from the plate's left end: near even shares, through as little as may be."""
    count = ceil((right - left) / (room - _SLACK))
    step = unit / (MILLIMETRE * view.ratio)
    cuts: list[float] = []
    start = left
    for number in range(1, count):
        target = start + (right - start) / (count - number + 1)
        low = max(target - _REACH, right - (count - number) * room)
        high = min(target + _REACH, start + room)
        crossed = sorted(_crossed(shapes, low, high))
        tried = [view.x(k * unit) for k in range(int((low - view.left) / step) + 1, int((high - view.left) / step) + 1)]
        start = min(tried, key=lambda x: (_cost(crossed, x) + abs(x - target) / 5, x))
        cuts.append(start)
    return cuts


def _crossed(shapes: Shapes, low: float, high: float) -> Iterator[tuple[float, float, float]]:
    """What lies near, from x to x, and how much a match line through it costs."""
    for shape in shapes:
        if isinstance(shape, Text):
            x1, x2 = _spread_of(shape)
            found = [(x1 - 0.5, x2 + 0.5, 200.0)]
        elif isinstance(shape, Area):
            xs = [x for x, _ in shape.points]
            x1, x2 = min(xs), max(xs)
            cost = 40.0 if x2 - x1 < _NARROW else 2.0
            found = [(x1 - 0.5, x2 + 0.5, cost), (x1 - 2.0, x1 + 2.0, 4.0), (x2 - 2.0, x2 + 2.0, 4.0)]
        elif shape.kind == "void":
            found = [(min(x1, x2), max(x1, x2), 60.0) for x1, _, x2, _ in shape.lines]
        else:
            found = [(min(x1, x2) - 0.3, max(x1, x2) + 0.3, 5.0) for x1, y1, x2, y2 in shape.lines if y1 != y2]
        yield from (one for one in found if one[1] > low and one[0] < high)


def _cost(crossed: list[tuple[float, float, float]], x: float) -> float:
    """What a match line at x cuts through; ``crossed`` is in order of where each begins."""
    return sum(cost for _, end, cost in crossed[: bisect_left(crossed, (x,))] if end > x)


def _spread_of(text: Text) -> tuple[float, float]:
    """From where to where a text reaches in x."""
    if text.turned:
        return text.x - 2.5, text.x + 0.6
    long = text_width(text.text, text.size)
    start = text.x - {"start": 0.0, "middle": long / 2, "end": long}[text.anchor]
    return start, start + long


def _within(shapes: Shapes, part: Part) -> Shapes:
    """What of the canvas one paper shows."""
    found: Shapes = []
    for shape in shapes:
        if isinstance(shape, Text):
            if part.holds(sum(_spread_of(shape)) / 2):
                found.append(shape)
        elif isinstance(shape, Area):
            found += _area_within(shape, part)
        else:
            lines = tuple(line for one in shape.lines for line in _line_within(one, part))
            if lines:
                found.append(Lines(shape.kind, lines))
    return found


def _area_within(shape: Area, part: Part) -> Shapes:
    xs = [x for x, _ in shape.points]
    if max(xs) <= part.low or min(xs) >= part.high:
        return []
    low, high = part.low - PAST, part.high + PAST
    if min(xs) >= low and max(xs) <= high:
        return [shape]
    points = _clipped(_clipped(shape.points, low, 1), high, -1)
    return [replace(shape, points=points)] if len(points) > 2 else []


def _clipped(points: tuple[Place, ...], at: float, way: int) -> tuple[Place, ...]:
    """An outline without what lies beyond an upright line at x: to the left of it (way 1) or to the right (-1)."""
    found: list[Place] = []
    for (x1, y1), (x2, y2) in zip(points, (*points[1:], points[0]), strict=True):
        inside, next_inside = (x1 - at) * way >= 0, (x2 - at) * way >= 0
        if inside:
            found.append((x1, y1))
        if inside != next_inside:
            found.append((at, y1 + (y2 - y1) * (at - x1) / (x2 - x1)))
    return tuple(found)


def _line_within(line: tuple[float, float, float, float], part: Part) -> Iterator[tuple[float, float, float, float]]:
    x1, y1, x2, y2 = line
    if x1 == x2:
        if part.holds(x1):
            yield line
        return
    if x1 > x2:
        x1, y1, x2, y2 = x2, y2, x1, y1
    if x2 <= part.low or x1 >= part.high:
        return
    low, high = max(x1, part.low - PAST), min(x2, part.high + PAST)
    slope = (y2 - y1) / (x2 - x1)
    yield low, y1 + slope * (low - x1), high, y1 + slope * (high - x1)


def _lines_of(view: View, part: Part, above: float, units: Units, drawn: Shapes) -> Shapes:
    """A paper's match lines, from the frame's top to what stands at the foot, each with its place and where the wall goes on."""
    shapes: Shapes = []
    top, foot = MARGIN + 3, view.foot_of_frame - above
    taken = [text_box(shape) for shape in drawn if isinstance(shape, Text)]
    for x, other, shown in ((part.low, part.number - 1, not part.first), (part.high, part.number + 1, not part.last)):
        if not shown:
            continue
        shapes.append(Lines("bold", tuple(_dashed(x, top, foot))))
        at = tape_text(view.along(x), units)
        line = f"match line {min(part.number, other)}, {at}"
        tried = [
            one
            for words in (f"{line} from the plate's left end; sheet {other}", f"{line}; sheet {other}")
            for one in _captions(words, x, 1 if other > part.number else -1, top, foot)
        ]
        shapes.append(next((one for one in tried if not any(_meet(text_box(one), box) for box in taken)), tried[0]))
    return shapes


def _captions(words: str, x: float, way: int, top: float, foot: float) -> Iterator[Text]:
    """Where a match line's caption may stand beside it: at the foot, at the top, between, or a little further off."""
    long = text_width(words)
    beside = x + PAST + 3.2 if way > 0 else x - PAST - 1.2
    for away in (0.0, 3.0, 5.0):
        yield Text(beside + way * away, foot - 1, words, turned=True)
        for step in range(max(1, int((foot - top - long) / 3))):
            yield Text(beside + way * away, top + long + 1 + 3.0 * step, words, turned=True)


def _meet(one: Box, other: Box) -> bool:
    return one[0] < other[2] and other[0] < one[2] and one[1] < other[3] and other[1] < one[3]


def _dashed(x: float, top: float, foot: float) -> Iterator[tuple[float, float, float, float]]:
    y = top
    while y < foot:
        for number, long in enumerate(_DASHES):
            if number % 2 == 0 and y < foot:
                yield x, y, x, min(y + long, foot)
            y += long
