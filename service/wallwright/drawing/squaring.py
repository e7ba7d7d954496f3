"""The racked frame with both diagonals and the push, and the deck with its rectangles and corner figures.

Both are out of true by less than a line's width on paper, so what is out of true is drawn larger, by a factor that stands
in the title; where the factor is 1 all is to scale. What is to be said stands in rows under the drawing, cautions too.
"""

from collections.abc import Sequence
from typing import Final

from wallwright.domain.squaring.deck import Measured
from wallwright.domain.squaring.frame import Squared
from wallwright.domain.squaring.placing import EDGES, placed
from wallwright.drawing.dimensions import Shapes, string, upright
from wallwright.drawing.paper import MARGIN, View, fitted
from wallwright.drawing.scene import Area, Lines, Scene, Text, folded, text_width
from wallwright.drawing.svg import svg_text
from wallwright.drawing.title import title_strip
from wallwright.lengths import MILLIMETRE, SIXTEENTH, Units, round_down, tape_text

Point = tuple[int, int]
_FACTORS: Final = (200, 100, 50, 20, 10, 5, 2, 1)
_SHOWN: Final = 0.06
"""How much of the smaller size what is out of true may take as it is drawn."""
_ROW: Final = 3.6
_SIDE: Final = 44.0
"""Room at either side for the corner figures and the push, in millimetres of paper."""
_SKETCH: Final = 44.0
"""What the sketch of the plumb line takes with its texts, in millimetres of paper."""
PAPER_ROOM: Final = {"in": 279.4 - 2 * MARGIN - 6, "mm": 297.0 - 2 * MARGIN - 6}
"""Width of paper for rows of text, in millimetres."""


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
    tried = fitted(units, box, above, 14 + len(told) * _ROW, _SIDE, _SIDE)
    diagonals = {"rising": tape_text(frame.rising, units), "falling": tape_text(frame.falling, units)}
    if not _has_room(tried, (0, 0), (width, height), f"falling {diagonals['falling']}"):
        sides = {"left side": frame.height, "right side": frame.right, "foot": frame.width, "top": frame.top}
        diagonals |= {name: tape_text(size, units) for name, size in sides.items() if size is not None}
        told.insert(0, ", ".join(f"{name} {text}" for name, text in diagonals.items()).capitalize() + ".")
    rows = _folded(told, units)
    if found.plumb is not None:
        # The sketch of the wall beside a plumb line stands on the frame's foot and takes more room over a low frame.
        above = max(above, _SKETCH - tried.size(height))
    view = fitted(units, box, above, 14 + len(rows) * _ROW, _SIDE, _SIDE)
    corners = ((0, 0), (width, 0), (width + shift, height), (shift, height))
    lines = [f"{frame.name or 'frame'}: {found.verdict}"]
    shapes: Shapes = [Area("sheet", _on_paper(view, corners), lines[0], (("verdict", found.verdict),))]
    shapes.append(Lines("behind", _loop(_on_paper(view, ((0, 0), (width, 0), (width, height), (0, height))))))
    rising, falling = (corners[0], corners[2]), (corners[3], corners[1])
    long = {"rising": rising, "falling": falling}.get(found.shorten)
    shapes.append(Lines("thin", tuple(_line(view, a, b) for a, b in (rising, falling))))
    if long is not None:
        shapes.append(Lines("bold", (_line(view, *long),)))
    shapes += _on_line(view, *rising, 0.72, f"rising {tape_text(frame.rising, units)}")
    shapes += _on_line(view, *falling, 0.72, f"falling {tape_text(frame.falling, units)}")
    shapes += string(view, [0, width], view.y(0) + 8, [tape_text(width, units)])
    shapes += upright(view, 0, height, view.x(min(0, shift)) - 20, tape_text(height, units))
    shapes += _far_sides(view, found, units, shift)
    shapes += _push(view, found, units, shift)
    shapes += _plumb(view, found, units)
    shapes += _rows(rows, view.y(0) + 14)
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
        shapes.append(Text(x, foot - tall - 4 - _ROW * (len(texts) - 1 - number), text, "t", "middle"))
    return shapes


def deck_drawing(found: Measured, units: Units, revision: str, texts: Sequence[str]) -> str:
    """The deck as SVG; ``texts`` are its findings as they are told."""
    return svg_text(deck_scene(found, units, revision, texts))


def deck_scene(found: Measured, units: Units, revision: str, texts: Sequence[str]) -> Scene:
    """The deck as shapes on paper: its outline, the rectangle wanted, the largest one dashed, both diagonals."""
    deck = found.deck
    outline = tuple((corner.x, corner.y) for corner in found.corners)
    front, right, back, left = deck.sides
    mean = ((front + back) // 2, (right + left) // 2)
    base = (found.placing or placed([(float(x), float(y)) for x, y in outline], *mean)).corners
    largest = found.largest_rectangle.corners
    out = max(
        max(abs(x - bx), abs(y - by))
        for shape in (outline, largest)
        for (x, y), (bx, by) in zip(shape, base, strict=True)
    )
    factor = factor_of(out, min(mean))
    outline, largest = _larger(outline, base, factor), _larger(largest, base, factor)
    rows = _folded(_said(found, units) + list(texts), units)
    # Where the rectangle is better shifted, it is drawn there too, as much larger as the rest.
    shift = found.shift
    shifts = shift is not None and (shift.right or shift.back)
    moved = (
        [(x + shift.right * factor, y + shift.back * factor) for x, y in base] if shift is not None and shifts else []
    )
    every = (*outline, *largest, *base, *moved)
    xs, ys = [x for x, _ in every], [y for _, y in every]
    more = _ROW if deck.levels is not None else 0.0
    below = 20 + more + len(rows) * _ROW
    view = fitted(units, (min(xs), min(ys), max(xs), max(ys)), 16 + more, below, _SIDE, _SIDE)
    box = (view.x(min(xs)), view.y(max(ys)), view.x(max(xs)), view.y(min(ys)))
    shapes: Shapes = [Area("plate", _on_paper(view, outline), "the deck as measured")]
    shapes.append(Lines("void", _loop(_on_paper(view, largest))))
    if found.placing is not None:
        shapes.append(Lines("bold", _loop(_on_paper(view, base))))
    if moved:
        shapes.append(Lines("behind", _loop(_on_paper(view, tuple(moved)))))
    diagonals = ((outline[0], outline[2]), (outline[1], outline[3]))
    shapes.append(Lines("thin", tuple(_line(view, a, b) for a, b in diagonals)))
    for (a, b), length, share in zip(diagonals, deck.diagonals, (0.72, 0.28), strict=True):
        shapes += _on_line(view, a, b, share, tape_text(length, units))
    shapes += _edge_texts(found, units, box)
    shapes += _corner_texts(found, units, box)
    shapes += _rows(rows, box[3] + 17 + more)
    drawn = "wanted rectangle heavy, largest dashed" if found.placing is not None else "largest rectangle dashed"
    drawn += ", shifted one fine" if moved else ""
    what = f"Deck from above; {drawn}"
    what += f"; out of true {factor} times" if factor > 1 else ""
    shapes += title_strip(view, deck.name, what, units, revision, f"tape class {deck.tape.tape_class}")
    size = found.largest_rectangle
    description = f"Largest rectangle {_fits(size.width, units)} by {_fits(size.depth, units)}."
    return Scene(view.width, view.height, f"Squaring of {deck.name or 'the deck'}", description, tuple(shapes))


def _said(found: Measured, units: Units) -> list[str]:
    size = found.largest_rectangle
    return [f"Largest rectangle: {_fits(size.width, units)} by {_fits(size.depth, units)}. "
            "Corner figures: + the deck sticks out past the framing line, - it is short; a level is the corner's height."]  # fmt: skip


def _fits(length: int, units: Units) -> str:
    """A size that must fit, rounded down as it is read from a tape."""
    return tape_text(round_down(length, SIXTEENTH if units == "in" else MILLIMETRE), units)


def _edge_texts(found: Measured, units: Units, box: tuple[float, float, float, float]) -> Shapes:
    """Each edge's length and what to do about it, where there is room for it along the edge."""
    left, top, right, foot = box
    middle_x, middle_y = (left + right) / 2, (top + foot) / 2
    places = {
        "front": (middle_x, foot + 5, False), "back": (middle_x, top - 2.5, False),
        "right": (right + 4.5, middle_y, True), "left": (left - 2, middle_y, True),
    }  # fmt: skip
    shapes: Shapes = []
    for number, edge in enumerate(EDGES):
        text = f"{edge} {tape_text(found.deck.sides[number], units)}"
        if found.placing is not None:
            text += f": {found.placing.edges[number].work}"
        x, y, turned = places[edge]
        if text_width(text) + 12 < (foot - top if turned else right - left):
            shapes.append(Text(x, y, text, "t", "middle", turned=turned))
    return shapes


def _corner_texts(found: Measured, units: Units, box: tuple[float, float, float, float]) -> Shapes:
    """Each corner's angle and what it sticks out or lacks, beside it: the left ones left, the front ones below."""
    left, top, right, foot = box
    shapes: Shapes = []
    for number, corner in enumerate(found.corners):
        rows = [corner.corner, f"{corner.degrees:.2f}°"]
        if found.placing is not None:
            over = found.placing.overhangs[number]
            rows.append(f"{corner.corner.split('-')[1]} {signed(over.sideways, units)}")
            rows.append(f"{corner.corner.split('-')[0]} {signed(over.endways, units)}")
        if found.deck.levels is not None:
            rows.append(f"level {signed(found.deck.levels[number], units)}")
        at_left, at_front = corner.corner.endswith("left"), corner.corner.startswith("front")
        x = left - 7 if at_left else right + 7
        first = foot + 2 if at_front else top - _ROW * (len(rows) - 1) - 1
        shapes += [
            Text(x, first + _ROW * row, text, "t", "end" if at_left else "start") for row, text in enumerate(rows)
        ]
    return shapes


def signed(length: int, units: Units) -> str:
    """A deviation for the tape, with its sign."""
    text = tape_text(length, units)
    return text if text.startswith("-") or length <= 0 else f"+{text}"


def factor_of(out: int, size: int) -> int:
    """How many times larger a deviation is drawn, so that it shows and does not mislead."""
    return next((factor for factor in _FACTORS if out * factor <= size * _SHOWN), 1) if out else 1


def _larger(points: Sequence[Point], base: Sequence[Point], factor: int) -> tuple[Point, ...]:
    return tuple(
        (bx + factor * (x - bx), by + factor * (y - by)) for (x, y), (bx, by) in zip(points, base, strict=True)
    )


def _on_paper(view: View, points: Sequence[Point]) -> tuple[tuple[float, float], ...]:
    return tuple(view.at(x, y) for x, y in points)


def _line(view: View, a: Point, b: Point) -> tuple[float, float, float, float]:
    return (*view.at(*a), *view.at(*b))


def _loop(points: tuple[tuple[float, float], ...]) -> tuple[tuple[float, float, float, float], ...]:
    return tuple((*points[n], *points[(n + 1) % len(points)]) for n in range(len(points)))


def _on_line(view: View, a: Point, b: Point, share: float, text: str) -> Shapes:
    """A text on a line at a share of its way, on a clear ground; left out where the figure is too slender for it."""
    if not _has_room(view, a, b, text):
        return []
    (x1, y1), (x2, y2) = view.at(*a), view.at(*b)
    half = text_width(text) / 2 + 0.8
    x, y = x1 + share * (x2 - x1), y1 + share * (y2 - y1)
    ground = ((x - half, y - 2.2), (x + half, y - 2.2), (x + half, y + 1.6), (x - half, y + 1.6))
    return [Area("mask", ground), Text(x, y + 0.9, text, "t", "middle")]


def _has_room(view: View, a: Point, b: Point, text: str) -> bool:
    (x1, y1), (x2, y2) = view.at(*a), view.at(*b)
    return abs(x2 - x1) >= 2.4 * (text_width(text) / 2 + 0.8) and abs(y2 - y1) >= 16


def _folded(texts: Sequence[str], units: Units) -> list[str]:
    return [row for text in texts for row in folded(text, PAPER_ROOM[units])]


def _rows(rows: Sequence[str], y: float) -> Shapes:
    return [Text(MARGIN + 3, y + _ROW * number, row) for number, row in enumerate(rows)]
