"""Dimension strings outside the object, and labels on leaders that never overlap."""

from collections.abc import Callable, Iterable

from wallwright.domain.slopes import top_edge
from wallwright.domain.wall import Wall
from wallwright.drawing.paper import View
from wallwright.drawing.scene import Area, Lines, Text, spread, text_width

Shapes = list[Area | Lines | Text]
LABEL_STEP = 3.1
"""Least distance between the baselines of labels that are turned to read upwards, in millimetres."""
_TICK = 1.2


def string(view: View, stops: list[int], y: float, texts: list[str]) -> Shapes:
    """A chain of dimensions at ``y`` on paper, from stop to stop along x; a text that has no room is left out.

    A dimension of its own, not one of a chain, has its text beside it where it has no room.
    """
    xs = [view.x(stop) for stop in stops]
    lines = [(xs[0], y, xs[-1], y)]
    lines += [(x - _TICK / 2, y + _TICK / 2, x + _TICK / 2, y - _TICK / 2) for x in xs]
    lines += [(x, y - 2.5, x, y + 1) for x in xs]
    shapes: Shapes = [Lines("dim", tuple(lines))]
    for left, right, text in zip(xs, xs[1:], texts, strict=False):
        if right - left > text_width(text) + 1:
            shapes.append(Text((left + right) / 2, y - 0.8, text, "t", "middle"))
        elif len(xs) == 2:
            shapes.append(Text(right + 2, y + 0.9, text))
    return shapes


def upright(view: View, low: int, high: int, x: float, text: str, *, or_below: bool = False) -> Shapes:
    """One dimension beside the object, read upwards; without room, its text stands below it or is left out."""
    y1, y2 = view.y(low), view.y(high)
    lines = [(x, y1, x, y2)]
    lines += [(x - _TICK / 2, y + _TICK / 2, x + _TICK / 2, y - _TICK / 2) for y in (y1, y2)]
    lines += [(x - 1, y, x + 2.5, y) for y in (y1, y2)]
    shapes: Shapes = [Lines("dim", tuple(lines))]
    if abs(y1 - y2) > text_width(text) + 1:
        shapes.append(Text(x - 0.8, (y1 + y2) / 2, text, "t", "middle", turned=True))
    elif or_below:
        shapes.append(Text(x + 0.9, y1 + 1.5, text, "t", "end", turned=True))
    return shapes


def heights_of(wall: Wall) -> tuple[int, int, int]:
    """The wall's height at its left end, at its right end, and at its highest."""
    edge = top_edge(wall)
    return edge.at(0), edge.at(wall.length), edge.most(0, wall.length)


def leaders(
    labels: list[tuple[float, str]], edge: Callable[[float], float], drop: float, low: float, high: float
) -> Shapes:
    """Turned labels fanned out on leaders: from x on the object's ``edge`` to ``drop`` further down (or up).

    ``edge`` tells the paper's y at an x; where it slopes, the row of labels follows it.

    Where there are more than fit, the same labels in a row are thinned: every second, third and so on.
    """
    chosen = sorted(labels)
    places = spread([x for x, _ in chosen], LABEL_STEP, low, high)
    step = 2
    while places is None:
        chosen = sorted(labels)[::step]
        places = spread([x for x, _ in chosen], LABEL_STEP, low, high)
        step += 1
    lines = tuple((x, edge(x), place, edge(place) + drop) for (x, _), place in zip(chosen, places, strict=True))
    shapes: Shapes = [Lines("thin", lines)]
    for (_, text), place in zip(chosen, places, strict=True):
        if drop > 0:
            shapes.append(Text(place + 0.9, edge(place) + drop + 0.6, text, "t", "end", turned=True))
        else:
            shapes.append(Text(place + 0.9, edge(place) + drop - 0.6, text, "t", "start", turned=True))
    return shapes


def widest(texts: Iterable[str]) -> float:
    """How much room the longest of some texts takes, in millimetres."""
    return max((text_width(text) for text in texts), default=0.0)
