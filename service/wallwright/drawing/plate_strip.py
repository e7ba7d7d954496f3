"""The plate strips: top and bottom plate as they lie together for marking, with the tape's readings."""

from wallwright.domain.members import Layout, Mark
from wallwright.drawing.dimensions import Shapes, leaders
from wallwright.drawing.paper import MARGIN, View
from wallwright.drawing.scene import Area, Lines, Text
from wallwright.lengths import Units, tape_text

STRIP_HEIGHT = 33.0
"""Height that one plate takes on paper, its readings included, in millimetres."""
_PLATE = 4.0


def plate_strips(view: View, layout: Layout, units: Units, top: float) -> Shapes:
    """Both plates from ``top`` down: lines, an X or C for each stud, and what the tape reads at each line."""
    shapes: Shapes = []
    for row, plate in enumerate(("top-plate-1", layout.marks[0].plate if layout.marks else "bottom-plate-1")):
        marks = [mark for mark in layout.marks if mark.plate == plate]
        shapes += _strip(view, layout, units, plate, marks, top + row * STRIP_HEIGHT)
    return shapes


def _strip(view: View, layout: Layout, units: Units, plate: str, marks: list[Mark], y: float) -> Shapes:
    wall = layout.wall
    x1, x2 = view.x(0), view.x(wall.length)
    box = ((x1, y), (x2, y), (x2, y + _PLATE), (x1, y + _PLATE))
    shapes: Shapes = [Area("member", box, f"{plate} from above", (("plate", plate),))]
    name = "top plate" if plate.startswith("top") else "bottom plate"
    shapes.append(Text(min(x1, view.width / 2), y - 0.8, f"{name}: X stud, C centre line; tape readings"))
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
    for member in layout.members:
        if member.id == plate:
            for cut in member.cut_outs:
                a, b = view.x(cut.left), view.x(cut.right)
                lines += [(a, y, a, y + _PLATE), (b, y, b, y + _PLATE), (a, y + _PLATE / 2, b, y + _PLATE / 2)]
                shapes.append(
                    Area(
                        "mask",
                        (
                            (a + 1, y + 0.5),
                            (min(b - 0.5, a + 40), y + 0.5),
                            (min(b - 0.5, a + 40), y + 3.5),
                            (a + 1, y + 3.5),
                        ),
                    )
                    if b - a > 42
                    else Lines("thin", ())
                )
                if b - a > 42:
                    shapes.append(Text(a + 2, y + 2.9, "cut out after raising"))
    shapes += [Lines("dim", tuple(lines)), Lines("thin", tuple(crosses))]
    readings: dict[int, str] = {mark.at: tape_text(mark.reading, units) for mark in marks}
    labels = [(view.x(at), text) for at, text in readings.items()]
    shapes += leaders(view, labels, y + _PLATE, 2.5, MARGIN + 3, view.width - MARGIN - 3)
    return shapes
