"""The racked frame with both diagonals and the push, and the deck with its rectangles and corner figures.

Both are out of true by less than a line's width on paper, so what is out of true is drawn larger, by a factor that stands
in the title; where the factor is 1 all is to scale. What is to be said stands in rows under the drawing, cautions too.
"""

from collections.abc import Sequence
from typing import Final

from wallwright.domain.squaring.frame import Squared
from wallwright.drawing.dimensions import Shapes, string, upright
from wallwright.drawing.measured import (
    ROW,
    SIDE,
    factor_of,
    folded_rows,
    has_room,
    line,
    loop,
    on_line,
    on_paper,
    text_rows,
)
from wallwright.drawing.paper import MARGIN, View, fitted
from wallwright.drawing.scene import Area, Lines, Scene, Text, text_width
from wallwright.drawing.svg import svg_text
from wallwright.drawing.title import title_strip
from wallwright.lengths import Units, tape_text

_SKETCH: Final = 44.0
"""What the sketch of the plumb line takes with its texts, in millimetres of paper."""


def frame_drawing(found: Squared, units: Units, revision: str, texts: Sequence[str]) -> str:
    """The racked frame as SVG; ``texts`` are its findings as they are told."""
    return svg_text(frame_scene(found, units, revision, texts))


def frame_scene(found: Squared, units: Units, revision: str, texts: Sequence[str]) -> Scene:
    """The racked frame as shapes on paper."""
    frame = found.frame
    width, height = frame.width, frame.height
    factor = factor_of(abs(found.lean), min(width, height))
    shift = found.lean * factor
    told = list(texts)
    box = (min(0, shift), 0, width + max(0, shift), height)
    # On a slender frame a text has no room on its line: it stands in a row under the drawing.
    above = 14.0
    tried = fitted(units, box, above, 14 + len(told) * ROW, SIDE, SIDE)
    diagonals = {"rising": tape_text(frame.rising, units), "falling": tape_text(frame.falling, units)}
    if not has_room(tried, (0, 0), (width, height), f"falling {diagonals['falling']}"):
        sides = {"left side": frame.height, "right side": frame.right, "foot": frame.width, "top": frame.top}
        diagonals |= {name: tape_text(size, units) for name, size in sides.items() if size is not None}
        told.insert(0, ", ".join(f"{name} {text}" for name, text in diagonals.items()).capitalize() + ".")
    rows = folded_rows(told, units)
    if found.plumb is not None:
        # The sketch of the wall beside a plumb line stands on the frame's foot and takes more room over a low frame.
        above = max(above, _SKETCH - tried.size(height))
    view = fitted(units, box, above, 14 + len(rows) * ROW, SIDE, SIDE)
    corners = ((0, 0), (width, 0), (width + shift, height), (shift, height))
    lines = [f"{frame.name or 'frame'}: {found.verdict}"]
    shapes: Shapes = [Area("sheet", on_paper(view, corners), lines[0], (("verdict", found.verdict),))]
    shapes.append(Lines("behind", loop(on_paper(view, ((0, 0), (width, 0), (width, height), (0, height))))))
    rising, falling = (corners[0], corners[2]), (corners[3], corners[1])
    long = {"rising": rising, "falling": falling}.get(found.shorten)
    shapes.append(Lines("thin", tuple(line(view, a, b) for a, b in (rising, falling))))
    if long is not None:
        shapes.append(Lines("bold", (line(view, *long),)))
    shapes += on_line(view, *rising, 0.72, f"rising {tape_text(frame.rising, units)}")
    shapes += on_line(view, *falling, 0.72, f"falling {tape_text(frame.falling, units)}")
    shapes += string(view, [0, width], view.y(0) + 8, [tape_text(width, units)])
    shapes += upright(view, 0, height, view.x(min(0, shift)) - 20, tape_text(height, units))
    shapes += _far_sides(view, found, units, shift)
    shapes += _push(view, found, units, shift)
    shapes += _plumb(view, found, units)
    shapes += text_rows(rows, view.y(0) + 14)
    what = f"Frame from outside as it lies; {_target(found, units)}"
    what += f"; lean drawn {factor} times" if factor > 1 else ""
    shapes += title_strip(view, frame.name, what, units, revision, f"tape class {frame.tape.tape_class}")
    description = (
        f"{found.verdict}; top {tape_text(abs(found.lean), units)} to the {'left' if found.lean < 0 else 'right'}, "
        f"shorten {found.shorten}, push {tape_text(found.push, units)}."
        if found.verdict in ("square", "rack")
        else f"{found.verdict}: nothing is to be pushed; see what is told."
    )
    return Scene(view.width, view.height, f"Squaring of {frame.name or 'the frame'}", description, tuple(shapes))


def _target(found: Squared, units: Units) -> str:
    """What both diagonals are to read."""
    if found.rack_until is None:
        return f"both diagonals of a square one read {tape_text(found.diagonal, units)}"
    return f"rack until both diagonals read {tape_text(found.rack_until, units)}"


def _far_sides(view: View, found: Squared, units: Units, shift: int) -> Shapes:
    frame = found.frame
    if frame.top is None or frame.right is None:
        return []
    top = Text(view.x(shift) + view.size(frame.width) / 2, view.y(frame.height) - 2, f"top {tape_text(frame.top, units)}",
               "t", "middle")  # fmt: skip
    right = f"right {tape_text(frame.right, units)}"
    shapes: Shapes = [top]
    if text_width(right) < view.size(frame.height):
        x = view.x(frame.width + max(0, shift)) + 7
        shapes.append(Text(x, view.y(frame.height // 2), right, "t", "middle", turned=True))
    return shapes


def _push(view: View, found: Squared, units: Units, shift: int) -> Shapes:
    """The arrow at the top corner that is pushed, with how far."""
    if found.verdict != "rack":
        return []
    right = found.push_corner == "top-right"
    way = 1 if right else -1
    x = view.x(found.frame.width + shift if right else shift) + way
    y = view.y(found.frame.height) - 1
    text = f"push {tape_text(found.push, units)}"
    head = ((x, y), (x + way * 4, y - 1.6), (x + way * 4, y + 1.6))
    place = Text(x + way * 2, y - 3, text, "t3", "start" if right else "end")
    return [
        Lines("bold", ((x + way * 3, y, x + way * 14, y),)),
        Area("bar", head, text, (("push", found.push_direction),)),
        place,
    ]


def _plumb(view: View, found: Squared, units: Units) -> Shapes:
    """The wall seen along its length beside a plumb line, leaning out to the left or in to the right, and its brace inside.

    How far it leans is written, not drawn to scale: on paper it is less than a line.
    """
    plumb = found.plumb
    if plumb is None:
        return []
    foot, tall, lean = view.y(0), 24.0, {"out": -4.0, "in": 4.0}.get(plumb.leans, 0.0)
    x = view.width - MARGIN - 20
    shapes: Shapes = [
        Lines("bold", ((x, foot, x + lean, foot - tall), (x + 1.2, foot, x + 1.2 + lean, foot - tall))),
        Lines("behind", ((x, foot, x, foot - tall - 2),)),
        Lines("thin", ((x - 8, foot, x + 16, foot),)),
    ]
    if plumb.brace_shorter is not None:
        shapes.append(Lines("thin", ((x + 1.2 + lean * 0.7, foot - tall * 0.7, x + 14, foot),)))
    words = "plumb" if plumb.leans == "none" else f"leans {plumb.leans}"
    texts = [words] if plumb.leans == "none" else [words, f"top {tape_text(abs(plumb.top), units)}"]
    for number, text in enumerate(texts):
        shapes.append(Text(x, foot - tall - 4 - ROW * (len(texts) - 1 - number), text, "t", "middle"))
    return shapes
