"""Paper and scale: letter or A4, lying, and the standard scale at which a drawing fits."""

from typing import Final

import msgspec

from wallwright.lengths import MILLIMETRE, Units

MARGIN: Final = 10.0
TITLE_STRIP: Final = 20.0
"""Height of the title strip at the foot of the paper, in millimetres."""
_PAPER: Final = {"in": (279.4, 215.9), "mm": (297.0, 210.0)}
_INCH_SCALES: Final = (
    (4, '3" = 1\' 0"'), (8, '1-1/2" = 1\' 0"'), (12, '1" = 1\' 0"'), (16, '3/4" = 1\' 0"'), (24, '1/2" = 1\' 0"'),
    (32, '3/8" = 1\' 0"'), (48, '1/4" = 1\' 0"'), (64, '3/16" = 1\' 0"'), (96, '1/8" = 1\' 0"'), (192, '1/16" = 1\' 0"'),
    (384, '1/32" = 1\' 0"'),
)  # fmt: skip
_METRIC_SCALES: Final = tuple((ratio, f"1:{ratio}") for ratio in (5, 10, 20, 25, 50, 75, 100, 200, 500))
_SCALES: Final = {"in": _INCH_SCALES, "mm": _METRIC_SCALES}
_LEAST: Final = {"in": 48, "mm": 50}
"""The smallest scale at which a frame's members are told apart at arm's length; a longer wall takes several papers."""


class View(msgspec.Struct, frozen=True, gc=False):
    """How grid lengths come to paper: ``ratio`` to one, with x = 0, y = 0 at ``left``, ``foot``."""

    width: float
    height: float
    ratio: int
    scale_text: str
    left: float
    foot: float
    sheet: float = 0.0
    """Width of one paper, where the view is of a canvas that several papers show side by side; 0 where it is the paper."""

    @property
    def foot_of_frame(self) -> float:
        """y on paper of the title strip's upper edge."""
        return self.height - MARGIN - TITLE_STRIP

    def size(self, length: int) -> float:
        """A grid length in millimetres of paper."""
        return length / (MILLIMETRE * self.ratio)

    def x(self, at: int) -> float:
        """x on paper."""
        return self.left + at / (MILLIMETRE * self.ratio)

    def along(self, x: float) -> int:
        """The x on the grid that comes to a place on paper."""
        return round((x - self.left) * MILLIMETRE * self.ratio)

    def y(self, at: int) -> float:
        """y on paper, which runs down."""
        return self.foot - at / (MILLIMETRE * self.ratio)

    def at(self, x: int, y: int) -> tuple[float, float]:
        """A point on paper."""
        return self.x(x), self.y(y)


def fitted(
    units: Units, span: tuple[int, int, int, int], above: float, below: float, left: float, right: float
) -> View:
    """The view at the largest standard scale that fits ``span`` (left, bottom, right, top on the grid).

    ``above``, ``below``, ``left`` and ``right`` are what stands around the object, in millimetres of paper. What is left
    of the paper is shared by both sides, and by what is above and below.
    """
    width, height = _PAPER[units]
    room_x = width - 2 * MARGIN - left - right
    room_y = height - 2 * MARGIN - TITLE_STRIP - above - below
    x0, y0, x1, y1 = span
    ratio, text = _largest(_SCALES[units], x1 - x0, y1 - y0, room_x, room_y)
    drawn_x, drawn_y = (x1 - x0) / (MILLIMETRE * ratio), (y1 - y0) / (MILLIMETRE * ratio)
    origin_x = MARGIN + left + (room_x - drawn_x) / 2 - x0 / (MILLIMETRE * ratio)
    origin_y = MARGIN + above + drawn_y + y0 / (MILLIMETRE * ratio) + max(0.0, room_y - drawn_y) / 2
    return View(width, height, ratio, text, origin_x, origin_y)


def continued(
    units: Units, span: tuple[int, int, int, int], above: float, below: float, left: float, right: float
) -> View:
    """As `fitted`, but no smaller than members can be read: what is too long then lies on a canvas wider than the paper."""
    view = fitted(units, span, above, below, left, right)
    x0, y0, x1, y1 = span
    room_y = view.height - 2 * MARGIN - TITLE_STRIP - above - below
    readable = tuple(scale for scale in _SCALES[units] if scale[0] >= _LEAST[units])
    ratio, text = _largest(readable, 0, y1 - y0, 0.0, room_y)
    if ratio >= view.ratio:
        return view
    drawn_x, drawn_y = (x1 - x0) / (MILLIMETRE * ratio), (y1 - y0) / (MILLIMETRE * ratio)
    origin_x = MARGIN + left - x0 / (MILLIMETRE * ratio)
    origin_y = MARGIN + above + drawn_y + y0 / (MILLIMETRE * ratio) + max(0.0, room_y - drawn_y) / 2
    return View(drawn_x + 2 * MARGIN + left + right, view.height, ratio, text, origin_x, origin_y, view.width)


def _largest(
    scales: tuple[tuple[int, str], ...], wide: int, high: int, room_x: float, room_y: float
) -> tuple[int, str]:
    """The largest of some scales at which a size on the grid fits its room on paper; else the smallest."""
    for ratio, text in scales:
        if wide / (MILLIMETRE * ratio) <= room_x and high / (MILLIMETRE * ratio) <= room_y:
            return ratio, text
    return scales[-1]


def detail_scale(units: Units, width: int, height: int, room_x: float, room_y: float) -> tuple[int, str]:
    """The largest standard scale at which a detail of ``width`` by ``height`` on the grid fits its room on paper."""
    return _largest(_SCALES[units][1:], width, height, room_x, room_y)
