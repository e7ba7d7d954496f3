"""What meets or crosses the studs, in broken lines on an elevation: ends of partitions, and holes and notches."""

from wallwright.domain.members import Layout
from wallwright.domain.runs import crossed, half
from wallwright.domain.slopes import soffit
from wallwright.drawing.dimensions import Shapes
from wallwright.drawing.paper import View
from wallwright.drawing.scene import Area, Lines, Text, text_width
from wallwright.lengths import Units, tape_text

_HALF = 1.8
"""Half of the room that a turned text takes across, in millimetres."""
_PLACES = (0.5, 0.3, 0.7)
"""How far up a name may stand, where something else is written at the first."""

Box = tuple[float, float, float, float]
"""Left, top, right and bottom on paper."""


def partition_ends(view: View, layout: Layout, units: Units) -> Shapes:
    """Every partition of a wall: its outline from plate to plate, and its name turned to read upwards where it fits."""
    wall, under = layout.wall, soffit(layout.wall)
    taken = [
        (view.x(o.left), view.y(o.head), view.x(o.right), view.y(o.sill)) for o in wall.openings
    ] + [
        (view.x(m.x), view.y(m.top), view.x(m.right), view.y(m.y)) for m in layout.members
        if m.length != m.height and not m.role.endswith("plate")
    ]  # fmt: skip
    shapes: Shapes = []
    for one in wall.partitions:
        x1, x2 = view.x(one.at), view.x(one.right)
        y1, y2 = view.y(wall.stud_bottom), view.y(under.least(one.at, one.right))
        shapes.append(Lines("void", ((x1, y1, x1, y2), (x2, y1, x2, y2))))
        for words in (f"partition {tape_text(one.depth, units)}", "partition"):
            half = text_width(words) / 2 + 0.8
            middles = [y1 + (y2 - y1) * up for up in _PLACES]
            boxes = [((x1 + x2) / 2 - _HALF, y - half, (x1 + x2) / 2 + _HALF, y + half) for y in middles]
            clear = [box for box in boxes if box[1] > y2 and box[3] < y1 and not any(_meet(box, o) for o in taken)]
            if clear:
                shapes += _named(words, clear[0])
                taken.append(clear[0])
                break
    return shapes


def runs_across(view: View, layout: Layout) -> Shapes:
    """Where holes and notches lie in the studs that each run crosses: their upper and lower edges."""
    lines = []
    for run in layout.wall.runs:
        for member in (m for group in crossed(layout.wall, layout.members, run) for m in group):
            x1, x2 = view.x(member.x), view.x(member.right)
            lines += [(x1, view.y(y), x2, view.y(y)) for y in (run.y - half(run), run.y + half(run))]
    return [Lines("thin", tuple(lines))] if lines else []


def _meet(one: Box, other: Box) -> bool:
    return one[0] < other[2] and other[0] < one[2] and one[1] < other[3] and other[1] < one[3]


def _named(words: str, box: Box) -> Shapes:
    left, top, right, bottom = box
    paper = Area("mask", ((left, top), (right, top), (right, bottom), (left, bottom)))
    return [paper, Text((left + right) / 2 + 0.9, (top + bottom) / 2, words, "t", "middle", turned=True)]
