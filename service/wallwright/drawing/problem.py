"""A problem shown as a drawing, for a picture on a page that would otherwise be broken."""

from wallwright.drawing.paper import MARGIN
from wallwright.drawing.scene import Area, Lines, Scene, Text, shortened, text_width
from wallwright.drawing.svg import svg_text

_WIDTH = 160.0
_ROW = 4.0
_MOST_ROWS = 40
"""Rows of detail that are written; a drawing of more would be read by nobody."""


def problem_drawing(title: str, detail_lines: list[str]) -> str:
    """The problem as SVG: its title, then its details, each folded to the width of the paper."""
    return svg_text(problem_scene(title, detail_lines))


def problem_scene(title: str, detail_lines: list[str]) -> Scene:
    """The problem as shapes on paper, no taller than its text needs."""
    room = _WIDTH - 2 * MARGIN - 6
    rows = [row for line in detail_lines for row in folded(line, room)]
    if len(rows) > _MOST_ROWS:
        rows = [*rows[:_MOST_ROWS], "… and more: ask for the answer as JSON"]
    left, right, top = MARGIN, _WIDTH - MARGIN, MARGIN
    bottom = top + 14 + len(rows) * _ROW
    corners = ((left, top), (right, top), (right, bottom), (left, bottom))
    shapes: list[Area | Lines | Text] = [Area("member", corners)]
    shapes.append(Text(left + 3, top + 7, shortened(title, room, "t3"), "t3"))
    shapes += [Text(left + 3, top + 13 + number * _ROW, row) for number, row in enumerate(rows)]
    return Scene(_WIDTH, bottom + MARGIN, f"Not drawn: {title}", " ".join(detail_lines), tuple(shapes))


def folded(text: str, room: float) -> list[str]:
    """A text in rows no wider than ``room`` millimetres; a word that is wider is cut short."""
    rows: list[str] = []
    for word in text.split():
        longer = f"{rows[-1]} {word}" if rows else word
        if rows and text_width(longer) <= room:
            rows[-1] = longer
        else:
            rows.append(shortened(word, room))
    return rows
