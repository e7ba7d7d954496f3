"""What the drawings of measured frames and decks share: deviations drawn larger, lines and texts on them, rows under a figure."""

from collections.abc import Sequence
from typing import Final

from wallwright.drawing.dimensions import Shapes
from wallwright.drawing.paper import MARGIN, View
from wallwright.drawing.scene import Area, Text, folded, text_width
from wallwright.lengths import Units, tape_text

Point = tuple[int, int]


_FACTORS: Final = (200, 100, 50, 20, 10, 5, 2, 1)


_SHOWN: Final = 0.06
"""How much of the smaller size what is out of true may take as it is drawn."""


ROW: Final = 3.6


SIDE: Final = 44.0
"""Room at either side for the corner figures and the push, in millimetres of paper."""


PAPER_ROOM: Final = {"in": 279.4 - 2 * MARGIN - 6, "mm": 297.0 - 2 * MARGIN - 6}
"""Width of paper for rows of text, in millimetres."""


def signed(length: int, units: Units) -> str:
    """A deviation for the tape, with its sign."""
    text = tape_text(length, units)
    return text if text.startswith("-") or length <= 0 else f"+{text}"


def factor_of(out: int, size: int) -> int:
    """How many times larger a deviation is drawn, so that it shows and does not mislead."""
    return next((factor for factor in _FACTORS if out * factor <= size * _SHOWN), 1) if out else 1


def on_paper(view: View, points: Sequence[Point]) -> tuple[tuple[float, float], ...]:
    """Points of the figure where they lie on paper."""
    return tuple(view.at(x, y) for x, y in points)


def line(view: View, a: Point, b: Point) -> tuple[float, float, float, float]:
    """A line from point to point of the figure, on paper."""
    return (*view.at(*a), *view.at(*b))


def loop(points: tuple[tuple[float, float], ...]) -> tuple[tuple[float, float, float, float], ...]:
    """The lines from each point on paper to the next, and back to the first."""
    return tuple((*points[n], *points[(n + 1) % len(points)]) for n in range(len(points)))


def on_line(view: View, a: Point, b: Point, share: float, text: str) -> Shapes:
    """A text on a line at a share of its way, on a clear ground; left out where the figure is too slender for it."""
    if not has_room(view, a, b, text):
        return []
    (x1, y1), (x2, y2) = view.at(*a), view.at(*b)
    half = text_width(text) / 2 + 0.8
    x, y = x1 + share * (x2 - x1), y1 + share * (y2 - y1)
    ground = ((x - half, y - 2.2), (x + half, y - 2.2), (x + half, y + 1.6), (x - half, y + 1.6))
    return [Area("mask", ground), Text(x, y + 0.9, text, "t", "middle")]


def has_room(view: View, a: Point, b: Point, text: str) -> bool:
    """Whether a text finds room on a line from point to point; on a slender figure it does not."""
    (x1, y1), (x2, y2) = view.at(*a), view.at(*b)
    return abs(x2 - x1) >= 2.4 * (text_width(text) / 2 + 0.8) and abs(y2 - y1) >= 16


def folded_rows(texts: Sequence[str], units: Units) -> list[str]:
    """Texts folded to the paper's width."""
    return [row for text in texts for row in folded(text, PAPER_ROOM[units])]


def text_rows(rows: Sequence[str], y: float) -> Shapes:
    """Rows of text under a figure, the first at this height of the paper."""
    return [Text(MARGIN + 3, y + ROW * number, row) for number, row in enumerate(rows)]
