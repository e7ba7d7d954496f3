"""The raising sketch: the wall from its end, lying, on the way up and standing, with hands, braces and the zone.

The wall turns about its plate's inner edge. Letters key what is drawn to the rows under it, where cautions stand too.
"""

from collections.abc import Sequence
from math import cos, hypot, radians, sin
from typing import Final, Literal

from wallwright.domain.raising.raised import Raised
from wallwright.domain.slopes import top_edge
from wallwright.drawing.dimensions import Shapes
from wallwright.drawing.paper import MARGIN, View, fitted
from wallwright.drawing.raising_rows import SHOWN_AT, by_machine, told, who_lifts
from wallwright.drawing.scene import TEXT_MM, Area, Lines, Scene, Text, folded, text_width
from wallwright.drawing.svg import svg_text
from wallwright.drawing.title import title_strip
from wallwright.lengths import INCH, Units, tape_text

Point = tuple[float, float]
Box = tuple[float, float, float, float]
_ROW: Final = 3.1
_ABOVE: Final = 9.0
_BELOW: Final = 15.0
_ROOM: Final = {"in": 279.4 - 2 * MARGIN - 6, "mm": 297.0 - 2 * MARGIN - 6}
_ARC_STEP: Final = 6
_BODY: Final = 66 * INCH
_BEFORE_HANDS: Final = 14 * INCH
_AROUND: Final = tuple(
    sorted(((float(x), float(y)) for x in range(-12, 13, 2) for y in (-8, -4, 0)), key=lambda at: hypot(*at))
)
"""Where a letter may stand beside its first place, the nearest first; never lower, where the zone's dimension is."""


def raising_sketch(found: Raised, units: Units, revision: str, texts: Sequence[str]) -> str:
    """The raising sketch as SVG; ``texts`` are its findings as they are told."""
    return svg_text(raising_scene(found, units, revision, texts))


def raising_scene(found: Raised, units: Units, revision: str, texts: Sequence[str]) -> Scene:
    """The raising sketch as shapes on paper."""
    wall, zone = found.wall, found.zone
    rows = [row for text in (*told(found, units), *texts) for row in folded(text, _ROOM[units])]
    highest = top_edge(wall).most(0, wall.length)
    foot = -max(wall.sheathing.under_sheet, wall.floor.rim + wall.floor.panel)
    # Beside a low wall people stand higher than it does.
    span = (-zone.depth, foot, wall.depth + zone.depth, max(highest, _BODY))
    view = fitted(units, span, _ABOVE, _BELOW + _ROW * len(rows), 2, 2)
    sketch = _Sketch(view, found, highest)
    shapes = sketch.drawn()
    lower = view.y(foot)
    shapes += _zone(view, found, lower + 5, units)
    shapes += [Text(MARGIN + 3, lower + _BELOW + _ROW * number, row) for number, row in enumerate(rows)]
    what = "Raising sketch: the wall from its end, outside to the left"
    shapes += title_strip(view, wall.name, what, units, revision, wall.rules)
    description = f"{who_lifts(found)}; {len(found.braces)} braces; zone {tape_text(zone.depth, units)} deep."
    return Scene(view.width, view.height, f"Raising of wall {wall.name or 'unnamed'}", description, tuple(shapes))


class _Sketch:
    """The figure itself: places in grid units, x inwards from the framing's outer face, y up from the floor."""

    def __init__(self, view: View, found: Raised, highest: int) -> None:
        self.view, self.found, self.highest = view, found, highest
        self.depth = found.wall.depth
        self.labels: list[Box] = []

    def drawn(self) -> Shapes:
        """Everything but the zone and the rows."""
        found = self.found
        shapes = self._floor()
        shapes += self._wall(0, "void", f"{found.wall.name or 'the wall'} lying")
        shapes += self._wall(SHOWN_AT, "void", "on the way up")
        shapes.append(self._arc())
        shapes += self._braces()
        shapes += self._wall(90, "plate", "standing")
        shapes += self._machine() if by_machine(found) else self._hands()
        shapes += self._keys(shapes)
        return shapes

    def _at(self, angle: float, along: float, out: float) -> Point:
        """A place on the wall at an angle: so far up it, and so far out from its inner face."""
        turn = radians(angle)
        x = self.depth + along * cos(turn) - out * sin(turn)
        y = along * sin(turn) + out * cos(turn)
        return self.view.at(round(x), round(y))

    def _wall(self, angle: float, kind: str, title: str) -> Shapes:
        wall = self.found.wall
        ends = ((0, 0), (self.highest, 0), (self.highest, self.depth), (0, self.depth))
        outline = tuple(self._at(angle, along, out) for along, out in ends)
        data = (("angle", f"{angle:.0f}"),)
        shapes: Shapes = [Area(kind, outline, title, data)]
        skinned = self.found.advice.skin == "before-raising" or angle == 90
        if skinned:
            outer, thick = self.depth, wall.sheathing.sheet.thickness
            low = -wall.sheathing.under_sheet
            sides = ((low, outer), (self.highest, outer), (self.highest, outer + thick), (low, outer + thick))
            shapes.append(Area("void" if angle < 90 else "sheet", tuple(self._at(angle, a, o) for a, o in sides)))
        return shapes

    def _floor(self) -> Shapes:
        """The floor inside, a deck's rim as a section; a slab or an unknown floor runs on outside."""
        view, floor, zone = self.view, self.found.wall.floor, self.found.zone
        right = view.x(self.depth + zone.depth)
        if floor.kind == "deck":
            deep = view.y(-(floor.rim + floor.panel))
            edge, top = view.x(0), view.y(0)
            return [Lines("bold", ((edge, top, right, top), (edge, top, edge, deep)))]
        return [Lines("bold", ((view.x(-zone.depth), view.y(0), right, view.y(0)),))]

    def _arc(self) -> Lines:
        """The way of the top's outer edge."""
        spots = [self._at(angle, self.highest, self.depth) for angle in range(0, 91, _ARC_STEP)]
        return Lines("behind", tuple((*a, *b) for a, b in zip(spots, spots[1:], strict=False)))

    def _braces(self) -> Shapes:
        view = self.view
        ends = {(one.up, one.out) for one in self.found.braces}
        if not ends:
            return []
        return [
            Lines("bold", tuple((*view.at(self.depth, up), *view.at(self.depth + out, 0)) for up, out in sorted(ends)))
        ]

    def _machine(self) -> Shapes:
        """The ropes that lift the top plate, lying and on the way up; nobody under them."""
        lying, leaning = (self._at(angle, self.found.top, 0) for angle in (0, SHOWN_AT))
        return [*_arrow(lying, (0.0, -1.0), 9.0), *_arrow(leaning, (0.0, -1.0), 9.0)]

    def _hands(self) -> Shapes:
        """People at the top plate and under the wall, with the arrows of lift and push."""
        along = self.found.lift_curve[int(SHOWN_AT) // 5].hands_along
        lying = self._at(0, self.found.top, 0)
        leaning = self._at(SHOWN_AT, along, 0)
        shapes = self._person(lying[0] + self.view.size(_BEFORE_HANDS), lying)
        shapes += self._person(leaning[0] + self.view.size(_BEFORE_HANDS), leaning)
        shapes += _arrow(lying, (0.0, -1.0), 9.0)
        turn = radians(SHOWN_AT)
        shapes += _arrow(leaning, (-sin(turn), -cos(turn)), 9.0)
        return shapes

    def _person(self, x: float, hands: Point) -> Shapes:
        """Someone who stands on the floor and reaches for a place."""
        tall, floor = self.view.size(_BODY), self.view.y(0)
        shoulder, hip, head = floor - 0.8 * tall, floor - 0.48 * tall, floor - 0.93 * tall
        wide, size = 0.09 * tall, 0.065 * tall
        lines = (
            (x, head, x, hip), (x, hip, x - wide, floor), (x, hip, x + wide, floor), (x, shoulder, *hands),
        )  # fmt: skip
        ring = tuple((x + size * cos(radians(a)), head + size * sin(radians(a))) for a in range(0, 360, 45))
        return [Lines("dim", lines), Area("bar", ring)]

    def _keys(self, drawn: Shapes) -> Shapes:
        """The letters beside what they name, clear of every line and of one another, where there is room."""
        found, view = self.found, self.view
        machine = by_machine(found)
        along = found.top if machine else found.lift_curve[int(SHOWN_AT) // 5].hands_along
        lift, push = self._at(0, found.top, 0), self._at(SHOWN_AT, along, self.depth)
        middle, floor, high = view.x(self.depth), view.y(0), view.y(self.highest)
        places = (
            ("C", middle + 2, floor + 4.2), ("A", lift[0] - 1.2, floor + 4.2), ("B", push[0] - 6, push[1] - 8),
            ("D", view.x(0) - 6, high + 4),
            ("outside", view.x(-found.zone.depth) + 1, high + 4),
            ("inside", view.x(self.depth + found.zone.depth) - 12, high + 4),
            *([("by machine", lift[0] + 3, floor - 8)] if machine else []),
        )  # fmt: skip
        edges = _edges(drawn)
        shapes: Shapes = []
        for text, x, y in places:
            size: Literal["t", "t3"] = "t3" if len(text) == 1 else "t"
            for right, down in _AROUND:
                at = (x + right, y + down)
                box = (at[0], at[1] - TEXT_MM[size], at[0] + text_width(text, size), at[1])
                apart = all(box[2] < o[0] or o[2] < box[0] or box[3] < o[1] or o[3] < box[1] for o in self.labels)
                if apart and not any(_touches(edge, box) for edge in edges):
                    self.labels.append(box)
                    shapes.append(Text(*at, text, size))
                    break
        return shapes


def _edges(shapes: Shapes) -> list[Box]:
    """Every line drawn, the sides of outlines too, from where to where."""
    found: list[Box] = []
    for shape in shapes:
        if isinstance(shape, Lines):
            found += shape.lines
        elif isinstance(shape, Area):
            found += [(*a, *b) for a, b in zip(shape.points, (*shape.points[1:], shape.points[0]), strict=True)]
    return found


def _touches(edge: Box, box: Box) -> bool:
    """Whether a line comes into a box: what is left of it between the box's sides, one pair after the other."""
    x1, y1, x2, y2 = edge
    low, high = 0.0, 1.0
    for start, way, least, most in ((x1, x2 - x1, box[0], box[2]), (y1, y2 - y1, box[1], box[3])):
        if not way:
            if not least <= start <= most:
                return False
            continue
        a, b = sorted(((least - start) / way, (most - start) / way))
        low, high = max(low, a), min(high, b)
    return low <= high


def _arrow(end: Point, way: Point, long: float) -> Shapes:
    """An arrow that starts at a place and points ``way``."""
    (x, y), (dx, dy) = end, way
    tip = (x + dx * long, y + dy * long)
    neck = (x + dx * (long - 3), y + dy * (long - 3))
    head = (tip, (neck[0] - dy * 1.2, neck[1] + dx * 1.2), (neck[0] + dy * 1.2, neck[1] - dx * 1.2))
    return [Lines("bold", ((x, y, *neck),)), Area("bar", head)]


def _zone(view: View, found: Raised, y: float, units: Units) -> Shapes:
    """The zone kept clear, as a dimension on both sides of the wall under the figure."""
    zone = found.zone
    edges = [view.x(-zone.depth), view.x(0), view.x(found.wall.depth), view.x(found.wall.depth + zone.depth)]
    lines = [(edges[0], y, edges[1], y), (edges[2], y, edges[3], y)]
    lines += [(x, y - 2, x, y + 2) for x in edges]
    shapes: Shapes = [Lines("dim", tuple(lines))]
    text = f"keep clear {tape_text(zone.depth, units)}"
    for a, b in ((edges[0], edges[1]), (edges[2], edges[3])):
        if b - a > text_width(text) + 2:
            shapes.append(Text((a + b) / 2, y + 4, text, "t", "middle"))
    return shapes
