"""The nailing elevation of one wall, seen from outside: the sheets, the frame behind, and every joint's mark at its place."""

import msgspec

from wallwright.domain.fasteners import Fasteners, Joint
from wallwright.domain.members import Layout, Member, Point
from wallwright.domain.skin import Skin
from wallwright.domain.wall import Wall
from wallwright.drawing.dimensions import Part, Shapes, heights_of, string, upright
from wallwright.drawing.paper import MARGIN, TITLE_STRIP, View, continued, fitted
from wallwright.drawing.scene import Area, Lines, Scene, Text, folded, shortened, stacked
from wallwright.drawing.sheets import Around, paged, scenes
from wallwright.drawing.svg import svg_text
from wallwright.drawing.title import title_strip
from wallwright.drawing.voids import opening_void
from wallwright.lengths import Units, tape_text

_LEGEND = 74.0
"""Width of the legend beside the wall, in millimetres."""
_ROW = 3.2
_COLUMNS = 3
"""Of the legend where it stands under the wall."""
_MARKS = {
    "sheet-edge": "tick", "sheet-field": "cross", "sheet-to-rim": "rim", "sheet-to-next-post": "next",
    "anchor": "bolt", "plate-to-floor": "down",
}  # fmt: skip
_CAUTIONS = (
    "Marks are where heads lie; those of the frame at its joints.",
    "Reference figures, not a design. Local codes come first.",
    "Screws are no swap for nails in a braced wall.",
)


def nailing_elevation(found: Fasteners, skin: Skin, layout: Layout, units: Units, revision: str) -> str:
    """The nailing elevation as SVG."""
    return svg_text(nailing_scene(found, skin, layout, units, revision))


def nailing_scene(found: Fasteners, skin: Skin, layout: Layout, units: Units, revision: str) -> Scene:
    """The nailing elevation as shapes on paper; of a long wall several papers one below the other."""
    return stacked(nailing_pages(found, skin, layout, units, revision), _title(found.wall))


def nailing_pages(found: Fasteners, skin: Skin, layout: Layout, units: Units, revision: str) -> list[Scene]:
    """The nailing elevation as papers, each with the whole legend; more than one where a wall is too long to be read on one."""
    wall = found.wall
    highest = max(wall.height, *(member.top for member in layout.members))
    left, right = min(0, wall.face_left), max(wall.length, wall.face_right)
    span = (left, wall.face_bottom, right, highest)
    rows = _rows(found, units, _LEGEND - 9)
    deep = _ROW * -(-len(rows) // _COLUMNS) + 4
    around = Around(9.0, 8.0, deep + 4)
    beside = fitted(units, span, 4, 11, around.left, around.right + _LEGEND)
    below = continued(units, span, 4, 11 + deep, around.left, around.right)
    # Beside the wall or under it, whichever leaves the wall the larger scale.
    view = below if below.ratio < beside.ratio else beside
    shapes: Shapes = []
    for piece in skin.pieces:
        data = (("piece", piece.id), ("stage", piece.stage))
        shapes.append(Area("sheet", _placed(view, piece.outline), piece.id, data))
        shapes += [Area("hole", _placed(view, points)) for points in piece.cut_outs]
    shapes += [Lines("behind", _behind(view, layout))]
    for opening in wall.openings:
        shapes += opening_void(view, opening, units)
    shapes += _marks(view, found)
    count = sum(joint.total for joint in found.joints)
    seen = f"Nailing elevation, seen from outside; {count} fasteners, {wall.fastening.schedule}"

    def own(part: Part) -> Shapes:
        whole = f"plate {tape_text(wall.length, units)}"
        shapes = string(view, [0, wall.length], view.y(wall.face_bottom) + 7, [whole], part)
        if part.first:
            height = heights_of(wall)[0]
            shapes += upright(view, 0, height, view.x(left) - 4, tape_text(height, units))
        return shapes

    def strip(paper: View, sheet: str) -> Shapes:
        bottom, edge = paper.height - MARGIN - TITLE_STRIP - 2, paper.width - MARGIN - 2
        place = (edge - _LEGEND, MARGIN + 2) if view is beside else (MARGIN + 2, bottom - deep + 2)
        legend = _legend(rows, *place, bottom, edge, 1 if view is beside else _COLUMNS)
        return [*legend, *title_strip(paper, wall.name, seen, units, revision, wall.rules, sheet=sheet)]

    pages = paged(view, shapes, (left, right), around, units, own, strip)
    description = f"{len(found.joints)} kinds of joint, {count} fasteners."
    return scenes(view, pages, _title(wall), description)


def _title(wall: Wall) -> str:
    return f"Nailing of wall {wall.name or 'unnamed'}"


def _placed(view: View, points: tuple[Point, ...]) -> tuple[tuple[float, float], ...]:
    return tuple(view.at(x, y) for x, y in points)


def _behind(view: View, layout: Layout) -> tuple[tuple[float, float, float, float], ...]:
    """Outlines of the members at the outer face."""
    lines: list[tuple[float, float, float, float]] = []
    for member in layout.members:
        if member.z == 0:
            points = member.outline or _box(member)
            ends = zip(points, (*points[1:], points[0]), strict=True)
            lines += [(*view.at(*a), *view.at(*b)) for a, b in ends]
    return tuple(lines)


def _box(member: Member) -> tuple[Point, ...]:
    return ((member.x, member.y), (member.right, member.y), (member.right, member.top), (member.x, member.top))


def _marks(view: View, found: Fasteners) -> Shapes:
    """All marks of a kind in one path; the frame's own joints share one mark."""
    kinds: dict[str, list[tuple[float, float, float, float]]] = {}
    for point in found.points:
        kind = _MARKS.get(point.joint, "frame")
        kinds.setdefault(kind, []).extend(mark(kind, *view.at(point.x, point.y)))
    return [Lines("dim" if kind != "frame" else "bold", tuple(dict.fromkeys(lines))) for kind, lines in kinds.items()]


def mark(kind: str, x: float, y: float) -> list[tuple[float, float, float, float]]:
    """The strokes of a mark at a place on paper; each kind has a shape of its own, so that none needs colour."""
    s = 0.55
    if kind == "tick":
        return [(x - s, y + s, x + s, y - s)]
    if kind == "cross":
        return [(x - s, y - s, x + s, y + s), (x - s, y + s, x + s, y - s)]
    if kind == "rim":
        return [(x - s, y, x + s, y), (x, y - s, x, y + s)]
    if kind == "next":
        return [(x - s, y + s, x, y - s), (x, y - s, x + s, y + s), (x - s, y + s, x + s, y + s)]
    if kind == "bolt":
        return [(x - 1, y - 1, x + 1, y - 1), (x, y - 1, x, y + 2.5), (x - 0.6, y + 1.9, x, y + 2.5), (x + 0.6, y + 1.9, x, y + 2.5)]  # fmt: skip
    if kind == "down":
        return [(x, y, x, y + 1.8), (x - 0.5, y + 1.2, x, y + 1.8), (x + 0.5, y + 1.2, x, y + 1.8)]
    return [(x - 0.4, y - 0.4, x + 0.4, y - 0.4), (x + 0.4, y - 0.4, x + 0.4, y + 0.4), (x + 0.4, y + 0.4, x - 0.4, y + 0.4), (x - 0.4, y + 0.4, x - 0.4, y - 0.4)]  # fmt: skip


_SUM = "Altogether"


class _Row(msgspec.Struct, frozen=True, gc=False):
    """A line of the legend, with the mark that it explains."""

    text: str
    kind: str = ""


def _rows(found: Fasteners, units: Units, room: float) -> list[_Row]:
    """The legend: each kind of joint with its fastener and count, then what to buy, then cautions."""
    rows = [_Row("Joints: fasteners at each, how many")]
    rows += [_Row(_said(joint, units), _MARKS.get(joint.joint, "frame")) for joint in found.joints]
    rows.append(_Row(_SUM))
    for total in found.totals:
        boxes = f": {total.boxes} x {total.pack}" if total.boxes else ""
        rows.append(_Row(f"{total.count} {total.fastener}, {total.coating}{boxes}"))
    return rows + [_Row(text) for caution in _CAUTIONS for text in folded(caution, room)]


def _legend(rows: list[_Row], left: float, top: float, bottom: float, right: float, columns: int) -> Shapes:
    """The rows in columns; where they have no room, the last ones before the cautions are told as more."""
    shapes: Shapes = []
    each, wide = int((bottom - top) / _ROW), (right - left) / columns
    if len(rows) > each * columns:
        last = sum(len(folded(caution, _LEGEND - 9)) for caution in _CAUTIONS)
        kept = rows[: each * columns - last - 1]
        more = len(rows) - len(kept) - last
        rows = [*kept, _Row(f"and {more} more lines: see the list"), *rows[-last:]]
    head = next((number for number, row in enumerate(rows) if row.text == _SUM), 0)
    if head % each == each - 1 and len(rows) < each * columns:
        # A heading at the foot of a column would stand apart from what it heads.
        rows = [*rows[:head], _Row(""), *rows[head:]]
    for number, row in enumerate(rows):
        if not row.text:
            continue
        x, y = left + wide * (number // each), top + _ROW * (number % each + 1)
        if row.kind:
            shapes.append(
                Lines("dim", tuple(mark(row.kind, x + 1.5, y - (1.9 if row.kind in ("bolt", "down") else 0.9))))
            )
        shapes.append(Text(x + 5, y, shortened(row.text, wide - 7)))
    return shapes


def _said(joint: Joint, units: Units) -> str:
    each = f" at {tape_text(joint.spacing, units)}" if joint.spacing is not None else ""
    number = f"{joint.per_joint} x " if joint.per_joint > 1 else ""
    coated = "" if joint.coating == "plain" else f", {joint.coating}"
    return f"{joint.joint}: {number}{joint.fastener}{coated}{each}, {joint.total}"
