"""The measured deck with its rectangles and corner figures."""

from collections.abc import Sequence

from wallwright.domain.squaring.deck import Measured
from wallwright.domain.squaring.placing import EDGES, placed
from wallwright.drawing.dimensions import Shapes
from wallwright.drawing.measured import (
    ROW,
    SIDE,
    Point,
    factor_of,
    folded_rows,
    line,
    loop,
    on_line,
    on_paper,
    signed,
    text_rows,
)
from wallwright.drawing.paper import fitted
from wallwright.drawing.scene import Area, Lines, Scene, Text, text_width
from wallwright.drawing.svg import svg_text
from wallwright.drawing.title import title_strip
from wallwright.lengths import MILLIMETRE, SIXTEENTH, Units, round_down, tape_text


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
    rows = folded_rows(_said(found, units) + list(texts), units)
    # Where the rectangle is better shifted, it is drawn there too, as much larger as the rest.
    shift = found.shift
    shifts = shift is not None and (shift.right or shift.back)
    moved = (
        [(x + shift.right * factor, y + shift.back * factor) for x, y in base] if shift is not None and shifts else []
    )
    every = (*outline, *largest, *base, *moved)
    xs, ys = [x for x, _ in every], [y for _, y in every]
    more = ROW if deck.levels is not None else 0.0
    below = 20 + more + len(rows) * ROW
    view = fitted(units, (min(xs), min(ys), max(xs), max(ys)), 16 + more, below, SIDE, SIDE)
    box = (view.x(min(xs)), view.y(max(ys)), view.x(max(xs)), view.y(min(ys)))
    shapes: Shapes = [Area("plate", on_paper(view, outline), "the deck as measured")]
    shapes.append(Lines("void", loop(on_paper(view, largest))))
    if found.placing is not None:
        shapes.append(Lines("bold", loop(on_paper(view, base))))
    if moved:
        shapes.append(Lines("behind", loop(on_paper(view, tuple(moved)))))
    diagonals = ((outline[0], outline[2]), (outline[1], outline[3]))
    shapes.append(Lines("thin", tuple(line(view, a, b) for a, b in diagonals)))
    for (a, b), length, share in zip(diagonals, deck.diagonals, (0.72, 0.28), strict=True):
        shapes += on_line(view, a, b, share, tape_text(length, units))
    shapes += _edge_texts(found, units, box)
    shapes += _corner_texts(found, units, box)
    shapes += text_rows(rows, box[3] + 17 + more)
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
        first = foot + 2 if at_front else top - ROW * (len(rows) - 1) - 1
        shapes += [
            Text(x, first + ROW * row, text, "t", "end" if at_left else "start") for row, text in enumerate(rows)
        ]
    return shapes


def _larger(points: Sequence[Point], base: Sequence[Point], factor: int) -> tuple[Point, ...]:
    return tuple(
        (bx + factor * (x - bx), by + factor * (y - by)) for (x, y), (bx, by) in zip(points, base, strict=True)
    )
