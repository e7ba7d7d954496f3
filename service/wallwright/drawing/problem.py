"""A problem as a drawing: what an image shows where the drawing that was asked for cannot be made."""

from collections.abc import Sequence
from typing import Final

from wallwright.drawing.scene import Area, Lines, Scene, Text, folded

WIDTH: Final = 100.0
_MARGIN: Final = 5.0
_ROW: Final = 4.0
_SHOWN: Final = 12
"""More faults than these are only counted; the problem as JSON has them all."""
_NOT_TO_BE_DRAWN: Final = frozenset(range(0x202A, 0x202F)) | frozenset(range(0x2066, 0x206A)) | {0xFFFE, 0xFFFF}
"""What turns the order of letters round, and what XML does not know."""


def problem_scene(title: str, detail: str, faults: Sequence[tuple[str, str]], code: str) -> Scene:
    """The title and detail of a problem, then its ``faults``, each where it stands and what is wrong there.

    Texts may hold a caller's own words, of any letters: what no XML document may hold stands as a mark of its own.
    """
    room = WIDTH - 2 * _MARGIN
    rows: list[tuple[str, float]] = [(row, 0.0) for row in folded(_drawable(detail), room)]
    for pointer, wrong in faults[:_SHOWN]:
        rows.append(("", 0.0))
        rows += [(row, 0.0) for row in folded(_drawable(pointer or "the whole request"), room)]
        rows += [(row, _MARGIN) for row in folded(_drawable(wrong), room - _MARGIN)]
    if len(faults) > _SHOWN:
        rows += [("", 0.0), (f"and {len(faults) - _SHOWN} more", 0.0)]
    rows += [("", 0.0), (code, 0.0)]

    top = 2 * _MARGIN + 1.0
    height = top + (len(rows) + 1) * _ROW + _MARGIN
    shapes: list[Area | Lines | Text] = [
        Area("bold", ((2.0, 2.0), (WIDTH - 2.0, 2.0), (WIDTH - 2.0, height - 2.0), (2.0, height - 2.0))),
        Text(_MARGIN, top, title, "t3"),
    ]
    shapes += [
        Text(_MARGIN + right, top + (number + 1.5) * _ROW, row) for number, (row, right) in enumerate(rows) if row
    ]
    said = "; ".join([_drawable(detail), *(f"{_drawable(at)}: {_drawable(wrong)}" for at, wrong in faults[:_SHOWN])])
    return Scene(WIDTH, height, title, said, tuple(shapes))


def _drawable(text: str) -> str:
    """The text with a mark for each letter that cannot stand in a drawing."""
    return "".join(letter if _stands(ord(letter)) else "\N{REPLACEMENT CHARACTER}" for letter in text)


def _stands(letter: int) -> bool:
    return (
        letter >= 0x20
        and not 0x7F <= letter < 0xA0
        and not 0xD800 <= letter < 0xE000
        and letter not in _NOT_TO_BE_DRAWN
    )
