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
_METRIC_SCALES: Final = tuple((ratio, f"1:{ratio}") for ratio in (5, 10, 20, 50, 100, 200, 500))


class View(msgspec.Struct, frozen=True, gc=False):
    """How grid lengths come to paper: ``ratio`` to one, with x = 0, y = 0 at ``left``, ``foot``."""

    width: float
    height: float
    ratio: int
    scale_text: str
    left: float
    foot: float

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

    ``above``, ``below``, ``left`` and ``right`` are what stands around the object, in millimetres of paper.
    """
    width, height = _PAPER[units]
    room_x = width - 2 * MARGIN - left - right
    room_y = height - 2 * MARGIN - TITLE_STRIP - above - below
    x0, y0, x1, y1 = span
    scales = _INCH_SCALES if units == "in" else _METRIC_SCALES
    fitting = [
        scale
        for scale in scales
        if (x1 - x0) / (MILLIMETRE * scale[0]) <= room_x and (y1 - y0) / (MILLIMETRE * scale[0]) <= room_y
    ]
    ratio, text = fitting[0] if fitting else scales[-1]
    drawn_x, drawn_y = (x1 - x0) / (MILLIMETRE * ratio), (y1 - y0) / (MILLIMETRE * ratio)
    origin_x = MARGIN + left + (room_x - drawn_x) / 2 - x0 / (MILLIMETRE * ratio)
    origin_y = MARGIN + above + drawn_y + y0 / (MILLIMETRE * ratio)
    return View(width, height, ratio, text, origin_x, origin_y)


def detail_scale(units: Units, width: int, height: int, room_x: float, room_y: float) -> tuple[int, str]:
    """The largest standard scale at which a detail of ``width`` by ``height`` on the grid fits its room on paper."""
    scales = _INCH_SCALES[1:] if units == "in" else _METRIC_SCALES[1:]
    for ratio, text in scales:
        if width / (MILLIMETRE * ratio) <= room_x and height / (MILLIMETRE * ratio) <= room_y:
            return ratio, text
    return scales[-1]
