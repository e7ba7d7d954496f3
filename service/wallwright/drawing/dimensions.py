"""Dimension strings outside the object, and labels on leaders that never overlap."""

from collections.abc import Callable, Iterable
from typing import Final

import msgspec

from wallwright.domain.slopes import top_edge
from wallwright.domain.wall import Wall
from wallwright.drawing.paper import View
from wallwright.drawing.scene import Area, Lines, Text, spread, text_width

Shapes = list[Area | Lines | Text]
LABEL_STEP = 3.1
"""Least distance between the baselines of labels that are turned to read upwards, in millimetres."""
_TICK = 1.2
PAST: Final = 3.0
"""How far what crosses a match line runs past it, in millimetres."""


class Part(msgspec.Struct, frozen=True, gc=False):
    """What one paper shows: the canvas between two match lines, or between an end of the wall and one."""

    number: int
    of: int
    low: float
    high: float

    @property
    def first(self) -> bool:
        """Whether it shows the wall's left end."""
        return self.number == 1

    @property
    def last(self) -> bool:
        """Whether it shows the wall's right end."""
        return self.number == self.of

    def holds(self, x: float) -> bool:
        """Whether a place on the canvas lies on this paper."""
        return self.low <= x < self.high


ALL: Final = Part(1, 1, float("-inf"), float("inf"))
"""The only paper of a drawing that stands on one."""


def string(
    view: View, stops: list[int], y: float, texts: list[str], part: Part = ALL, *, above: bool = False
) -> Shapes:
    """A chain of dimensions at ``y`` on paper, under the object or ``above`` it, from stop to stop along x; a text that has no
    room is left out.

    A dimension of its own, not one of a chain, has its text beside it where it has no room. On a ``part`` of a canvas a
    dimension that crosses a match line is drawn as far as it shows, with the text of the whole.
    """
    xs = [view.x(stop) for stop in stops]
    shown = [x for x in xs if part.low <= x <= part.high]
    lines = [(max(xs[0], part.low - PAST), y, min(xs[-1], part.high + PAST), y)]
    lines += [(x - _TICK / 2, y + _TICK / 2, x + _TICK / 2, y - _TICK / 2) for x in shown]
    lines += [(x, y - 1, x, y + 2.5) if above else (x, y - 2.5, x, y + 1) for x in shown]
    shapes: Shapes = [Lines("dim", tuple(lines))]
    for start, end, text in zip(xs, xs[1:], texts, strict=False):
        left, right = max(start, part.low), min(end, part.high)
        if left >= right:
            continue
        if right - left > text_width(text) + 1:
            shapes.append(Text((left + right) / 2, y - 0.8, text, "t", "middle"))
        elif len(xs) == 2:
            shapes.append(Text(right + 2, y + 0.9, text))
        elif end - start > text_width(text) + 1 and right - left >= (end - start) / 2:
            # Most of it shows here: the text runs past the match line, and is not lost.
            beyond = text_width(text) / 2 + 0.5
            shapes.append(Text(left + beyond if right < end else right - beyond, y - 0.8, text, "t", "middle"))
    return shapes


def upright(
    view: View, low: int, high: int, x: float, text: str, *, or_below: bool = False, right: bool = False
) -> Shapes:
    """One dimension at the left of the object, or at its ``right``, read upwards; without room, its text stands below it or is left out."""
    y1, y2 = view.y(low), view.y(high)
    lines = [(x, y1, x, y2)]
    lines += [(x - _TICK / 2, y + _TICK / 2, x + _TICK / 2, y - _TICK / 2) for y in (y1, y2)]
    lines += [(x - 2.5, y, x + 1, y) if right else (x - 1, y, x + 2.5, y) for y in (y1, y2)]
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
