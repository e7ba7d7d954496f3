"""The nailing elevation of one wall, seen from outside: the sheets, the frame behind, and every joint's mark at its place."""

from wallwright.domain.fasteners import Fasteners, Joint
from wallwright.domain.members import Layout, Member, Point
from wallwright.domain.skin import Skin
from wallwright.drawing.dimensions import Shapes
from wallwright.drawing.paper import MARGIN, TITLE_STRIP, View, fitted
from wallwright.drawing.scene import Area, Lines, Scene, Text, folded, shortened
from wallwright.drawing.svg import svg_text
from wallwright.drawing.title import title_strip
from wallwright.lengths import Units, tape_text

_LEGEND = 74.0
"""Width of the legend beside the wall, in millimetres."""
_ROW = 3.2
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
    """The nailing elevation as shapes on paper."""
    wall = found.wall
    highest = max(wall.height, *(member.top for member in layout.members))
    span = (min(0, wall.face_left), wall.face_bottom, max(wall.length, wall.face_right), highest)
    view = fitted(units, span, 6, 12, 6, _LEGEND + 6)
    shapes: Shapes = []
    for piece in skin.pieces:
        data = (("piece", piece.id), ("stage", piece.stage))
        shapes.append(Area("sheet", _placed(view, piece.outline), piece.id, data))
        shapes += [Area("hole", _placed(view, points)) for points in piece.cut_outs]
    shapes += [Lines("behind", _behind(view, layout))]
    shapes += _marks(view, found)
    shapes += _legend(view, found, units)
    count = sum(joint.total for joint in found.joints)
    seen = f"Nailing elevation, seen from outside; {count} fasteners, {wall.fastening.schedule}"
    shapes += title_strip(view, wall.name, seen, units, revision, wall.rules)
    description = f"{len(found.joints)} kinds of joint, {count} fasteners."
    return Scene(view.width, view.height, f"Nailing of wall {wall.name or 'unnamed'}", description, tuple(shapes))


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


def _legend(view: View, found: Fasteners, units: Units) -> Shapes:
    """Each kind of joint with its mark, its fastener and its count, then what to buy, then cautions."""
    left = view.width - MARGIN - _LEGEND
    y = MARGIN + 5
    lowest = view.height - MARGIN - TITLE_STRIP - 3
    room = _LEGEND - 9
    cautions = [row for text in _CAUTIONS for row in folded(text, room + 4)]
    shapes: Shapes = [Text(left, y, "Joints: fasteners at each, how many", "t")]
    rows = [(joint.joint, _said(joint, units)) for joint in found.joints]
    totals = [
        f"{t.count} {t.fastener}, {t.coating}" + (f": {t.boxes} x {t.pack}" if t.boxes else "") for t in found.totals
    ]
    space = int((lowest - y) / _ROW) - len(cautions) - 2
    shown_totals = totals[: max(0, min(len(totals), space - 4))]
    shown = rows[: max(0, space - len(shown_totals) - 1)]
    for joint, text in shown:
        y += _ROW
        shapes.append(Lines("dim", tuple(mark(_MARKS.get(joint, "frame"), left + 1.5, y - 0.9))))
        shapes.append(Text(left + 5, y, shortened(text, room)))
    if len(shown) < len(rows):
        y += _ROW
        shapes.append(Text(left + 5, y, f"and {len(rows) - len(shown)} more kinds: see the list"))
    y += _ROW * 1.4
    shapes.append(Text(left, y, "Altogether"))
    for text in shown_totals:
        y += _ROW
        shapes.append(Text(left + 5, y, shortened(text, room)))
    y += _ROW * 0.6
    for text in cautions:
        y += _ROW
        shapes.append(Text(left, y, text))
    return shapes


def _said(joint: Joint, units: Units) -> str:
    each = f" at {tape_text(joint.spacing, units)}" if joint.spacing is not None else ""
    number = f"{joint.per_joint} x " if joint.per_joint > 1 else ""
    coated = "" if joint.coating == "plain" else f", {joint.coating}"
    return f"{joint.joint}: {number}{joint.fastener}{coated}{each}, {joint.total}"
