"""The plate strips: top and bottom plate as they lie together for marking, with the tape's readings."""

from wallwright.domain.members import Layout, Member
from wallwright.drawing.dimensions import Shapes, leaders, widest
from wallwright.drawing.paper import MARGIN, View
from wallwright.drawing.scene import Area, Lines, Text, text_width
from wallwright.lengths import Units, tape_text

_PLATE = 4.0
_DROP = 2.5
"""How far the readings stand below a plate, in millimetres."""


def strips_height(layout: Layout, units: Units) -> float:
    """How much paper both plates take with their readings, in millimetres."""
    return _strip_height(layout, units) + _PLATE + _DROP + _reading_room(layout, units) + 2


def _strip_height(layout: Layout, units: Units) -> float:
    """From one plate to the next, whose title needs room too."""
    return _PLATE + _DROP + _reading_room(layout, units) + 5


def _reading_room(layout: Layout, units: Units) -> float:
    return widest(tape_text(mark.reading, units) for mark in layout.marks)


def plate_strips(view: View, layout: Layout, units: Units, top: float) -> Shapes:
    """Both plates from ``top`` down: lines, an X or C for each stud, and what the tape reads at each line."""
    shapes: Shapes = []
    for row, (role, face) in enumerate(
        (("top-plate", layout.wall.stud_top), ("bottom-plate", layout.wall.stud_bottom))
    ):
        pieces = [m for m in layout.members if m.role == role and (m.outline or face in (m.y, m.top))]
        shapes += _strip(view, layout, units, pieces, top + row * _strip_height(layout, units))
    return shapes


def _strip(view: View, layout: Layout, units: Units, pieces: list[Member], y: float) -> Shapes:
    wall = layout.wall
    ids = {piece.id for piece in pieces}
    marks = [mark for mark in layout.marks if mark.plate in ids]
    shapes: Shapes = []
    for piece in pieces:
        x1, x2 = view.x(piece.x), view.x(piece.right)
        box = ((x1, y), (x2, y), (x2, y + _PLATE), (x1, y + _PLATE))
        shapes.append(Area("member", box, f"{piece.id} from above", (("plate", piece.id),)))
    legend = f"{pieces[0].role.replace('-', ' ')}: X stud, C centre line; tape readings"
    if pieces[0].outline:
        legend += ", level, from the bottom plate"
    shapes.append(Text(min(view.x(0), view.width / 2), y - 0.8, legend))
    over: Shapes = []
    lines: list[tuple[float, float, float, float]] = []
    crosses: list[tuple[float, float, float, float]] = []
    thick = view.size(wall.thickness)
    for mark in marks:
        x = view.x(mark.at)
        lines.append((x, y, x, y + _PLATE))
        if mark.side == "centre":
            shapes.append(Text(x + 0.6, y + _PLATE - 0.8, "C"))
            continue
        a, b = (x, x + thick) if mark.side == "right" else (x - thick, x)
        crosses += [(a, y + 0.7, b, y + _PLATE - 0.7), (a, y + _PLATE - 0.7, b, y + 0.7)]
    for cut in (cut for piece in pieces for cut in piece.cut_outs):
        a, b = view.x(cut.left), view.x(cut.right)
        lines += [(a, y, a, y + _PLATE), (b, y, b, y + _PLATE), (a, y + _PLATE / 2, b, y + _PLATE / 2)]
        over += _cut_out(a, b, y)
    shapes += [Lines("dim", tuple(lines)), Lines("thin", tuple(crosses)), *over]
    readings: dict[int, str] = {mark.at: tape_text(mark.reading, units) for mark in marks}
    labels = [(view.x(at), text) for at, text in readings.items()]
    shapes += leaders(labels, lambda _: y + _PLATE, _DROP, MARGIN + 3, view.width - MARGIN - 3)
    return shapes


def _cut_out(left: float, right: float, y: float) -> Shapes:
    """What is written over the part of a plate that is sawn out once the wall stands, as much as fits."""
    for words in ("cut out after raising", "cut out"):
        half = text_width(words) / 2 + 0.5
        if 2 * half + 3 <= right - left:
            middle = (left + right) / 2
            box = (
                (middle - half, y + 0.5),
                (middle + half, y + 0.5),
                (middle + half, y + 3.5),
                (middle - half, y + 3.5),
            )
            return [Area("mask", box), Text(middle, y + 2.9, words, "t", "middle")]
    return []
