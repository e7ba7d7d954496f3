"""Openings on an elevation: crossed out lightly, with their name and rough size where these fit."""

from wallwright.domain.wall import Opening
from wallwright.drawing.dimensions import Shapes
from wallwright.drawing.paper import View
from wallwright.drawing.scene import Area, Lines, Text, text_width
from wallwright.lengths import Units, tape_text

_ROW = 3.6
"""From one baseline to the next, in millimetres."""


def opening_void(view: View, opening: Opening, units: Units) -> Shapes:
    """A rough opening: its diagonals, and the fullest wording that its void holds, upright or turned."""
    x1, x2 = view.x(opening.left), view.x(opening.right)
    y1, y2 = view.y(opening.sill), view.y(opening.head)
    shapes: Shapes = [Lines("void", ((x1, y1, x2, y2), (x1, y2, x2, y1)))]
    wide, tall = x2 - x1, y1 - y2
    wordings = _wordings(opening, units)
    for rows in wordings:
        if _long(rows) + 3 <= wide and len(rows) * _ROW + 1 <= tall:
            return shapes + _written(rows, (x1 + x2) / 2, (y1 + y2) / 2)
    for rows in wordings:
        if _long(rows) + 3 <= tall and len(rows) * _ROW <= wide:
            return shapes + _turned(rows, (x1 + x2) / 2, (y1 + y2) / 2)
    return shapes


def _wordings(opening: Opening, units: Units) -> list[list[str]]:
    """What may be written in a void, the fullest first."""
    width, height = tape_text(opening.width, units), tape_text(opening.height, units)
    name = [opening.name] if opening.name else []
    sill = [f"sill {tape_text(opening.sill, units)}"] if opening.sill else []
    one = f"RO {width} x {height}"
    named = f"{opening.name} {one}" if opening.name else one
    return [[*name, one, *sill], [*name, width, "x " + height, *sill], [width, "x " + height], [named], [one]]


def _long(rows: list[str]) -> float:
    return max(text_width(row) for row in rows)


def _mask(left: float, top: float, right: float, bottom: float) -> Area:
    return Area("mask", ((left, top), (right, top), (right, bottom), (left, bottom)))


def _written(rows: list[str], x: float, y: float) -> Shapes:
    half, tall = _long(rows) / 2 + 0.8, len(rows) * _ROW / 2 + 0.4
    shapes: Shapes = [_mask(x - half, y - tall, x + half, y + tall)]
    first = y - len(rows) * _ROW / 2 + 2.7
    return shapes + [Text(x, first + _ROW * number, row, "t", "middle") for number, row in enumerate(rows)]


def _turned(rows: list[str], x: float, y: float) -> Shapes:
    half, wide = _long(rows) / 2 + 0.8, len(rows) * _ROW / 2 - 0.2
    shapes: Shapes = [_mask(x - wide, y - half, x + wide, y + half)]
    first = x - len(rows) * _ROW / 2 + 2.7
    return shapes + [Text(first + _ROW * number, y, row, "t", "middle", turned=True) for number, row in enumerate(rows)]
