"""The plate strips: top and bottom plate as they lie together for marking, with the tape's readings."""

import math

from wallwright.domain.anchors import DIAMETER
from wallwright.domain.members import Anchor, Layout, Member
from wallwright.drawing.dimensions import Part, Shapes, leaders, widest
from wallwright.drawing.paper import MARGIN, View
from wallwright.drawing.scene import Area, Lines, Text, text_width
from wallwright.lengths import Units, tape_text

_PLATE = 4.0
_DROP = 2.5
"""How far the readings stand below a plate, in millimetres."""
_BETWEEN = 4.0
"""From the readings of one strip to the next strip, whose title needs room too."""
_HOLE = 0.6
"""Least radius of a bolt hole, in millimetres of paper."""


def strips_height(layout: Layout, units: Units) -> float:
    """How much paper both plates take with their readings, in millimetres."""
    room = _PLATE + _DROP + _reading_room(layout, units)
    return room + _BETWEEN + room + 1.5


def _strip_height(layout: Layout, units: Units) -> float:
    """From one plate to the next, whose title needs room too."""
    return _PLATE + _DROP + _reading_room(layout, units) + _BETWEEN


def _reading_room(layout: Layout, units: Units) -> float:
    texts = [tape_text(mark.reading, units) for mark in layout.marks]
    return widest([*texts, *(_bolt_text(anchor, units) for anchor in layout.anchors)])


def plate_strips(view: View, layout: Layout, units: Units, top: float) -> Shapes:
    """Both plates from ``top`` down: lines, an X or C for each stud, and what the tape reads at each line."""
    shapes: Shapes = []
    high = _strip_height(layout, units)
    for row, (role, face) in enumerate(
        (("top-plate", layout.wall.stud_top), ("bottom-plate", layout.wall.stud_bottom))
    ):
        pieces = [m for m in layout.members if m.role == role and (m.outline or face in (m.y, m.top))]
        shapes += _strip(view, layout, units, pieces, top + row * high)
    return shapes


def strip_titles(view: View, layout: Layout, units: Units, top: float, part: Part) -> Shapes:
    """What each strip is and what its signs mean, over its beginning on every paper."""
    shapes: Shapes = []
    start = min(view.x(0), view.width / 2) if part.first else part.low + 2
    high = _strip_height(layout, units)
    for row, role in enumerate(("top-plate", "bottom-plate")):
        pieces = [m for m in layout.members if m.role == role]
        hole = ", O bolt hole" if layout.anchors and role == "bottom-plate" else ""
        legend = f"{role.replace('-', ' ')}: X stud, C centre line{hole}; tape readings"
        if any(piece.outline for piece in pieces):
            legend += ", level, from the bottom plate"
        if any(piece.cut_outs for piece in pieces):
            legend += "; the lined stretch is cut out after raising"
        shapes.append(Text(start, top + row * high - 0.8, legend))
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
    bolts = [anchor for anchor in layout.anchors if pieces[0].role == "bottom-plate"]
    shapes += [Lines("dim", tuple(lines)), Lines("thin", tuple(crosses)), *over]
    shapes += [_hole(view, anchor, y + _PLATE / 2, units) for anchor in bolts]
    readings: dict[int, str] = {mark.at: tape_text(mark.reading, units) for mark in marks}
    readings |= {anchor.x: _bolt_text(anchor, units) for anchor in bolts}
    labels = [(view.x(at), text) for at, text in readings.items()]
    shapes += leaders(labels, lambda _: y + _PLATE, _DROP, MARGIN + 3, view.width - MARGIN - 3)
    return shapes


def _bolt_text(anchor: Anchor, units: Units) -> str:
    return f"O {tape_text(anchor.reading, units)}"


def _hole(view: View, anchor: Anchor, y: float, units: Units) -> Area:
    """A hole to bore for a bolt, as a round of twelve sides, large enough to be seen at any scale."""
    x, radius = view.x(anchor.x), max(view.size(DIAMETER // 2), _HOLE)
    turns = [2 * math.pi * side / 12 for side in range(12)]
    ring = tuple((x + radius * math.cos(turn), y + radius * math.sin(turn)) for turn in turns)
    title = f"{anchor.id}: {anchor.origin}, tape reads {tape_text(anchor.reading, units)}"
    return Area("hole", ring, title, (("anchor", anchor.id), ("origin", anchor.origin)))


def _cut_out(left: float, right: float, y: float) -> Shapes:
    """What is written over the part of a plate that is sawn out once the wall stands, as much as fits."""
    for words in ("cut out after raising", "after raising"):
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
