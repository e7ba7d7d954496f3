"""The framing elevation of one wall, seen from outside, with the plate strips under it."""

from wallwright.domain.members import Layout, Member
from wallwright.domain.slopes import top_edge
from wallwright.drawing.dimensions import Shapes, heights_of, leaders, string, upright
from wallwright.drawing.paper import MARGIN, View, fitted
from wallwright.drawing.partitions import partition_ends, runs_across
from wallwright.drawing.plate_strip import plate_strips, strips_height
from wallwright.drawing.scene import Area, Scene, Text, shortened, spread, text_width
from wallwright.drawing.svg import svg_text
from wallwright.drawing.title import title_strip
from wallwright.drawing.voids import opening_void
from wallwright.lengths import Units, tape_text

_KIND = {
    "bottom-plate": "plate", "top-plate": "plate", "cap-plate": "plate", "header": "header", "rough-sill": "plate",
    "blocking": "block", "backing": "block",
}  # fmt: skip
_PLATE_ROOM = 9.5
"""How much room the marks of one layer of plate have beside the wall, in millimetres."""
_ABOVE, _BELOW, _LEFT, _RIGHT = 16.0, 32.0, 14.0, 22.0


def framing_elevation(layout: Layout, units: Units, revision: str) -> str:
    """The framing elevation as SVG: members with their marks, openings, dimensions, running tape marks, plate strips."""
    return svg_text(framing_scene(layout, units, revision))


def framing_scene(layout: Layout, units: Units, revision: str) -> Scene:
    """The framing elevation as shapes on paper."""
    wall = layout.wall
    left = min(member.x for member in layout.members)
    right = max(member.right for member in layout.members)
    highest = max(member.top for member in layout.members)
    view = fitted(units, (left, 0, right, highest), _ABOVE, _BELOW + strips_height(layout, units), _LEFT, _RIGHT)
    shapes: Shapes = []
    # Members behind the outer face first, so that those in front cover them.
    for member in sorted(layout.members, key=lambda member: -member.z):
        shapes.append(_member(view, member, units))
    for opening in wall.openings:
        shapes += opening_void(view, opening, units)
    shapes += partition_ends(view, layout, units)
    shapes += runs_across(view, layout)
    shapes += _labels(view, layout)
    shapes += _dimensions(view, layout, units)
    shapes += plate_strips(view, layout, units, view.y(0) + _BELOW)
    hook = "sheathing's edge" if wall.tape.zero == "sheathing" else "plate's end"
    studs = f"{wall.stud.name} at {tape_text(wall.spacing, units)} on centre"
    seen = f"Framing from outside: {studs}; tape hooked at the {hook}, {wall.tape.start} end"
    at_end = wall.reading(0 if wall.tape.start == "left" else wall.length)
    if at_end:
        # Nothing stands there to hook before the sheets are on, so that the plate's own end is told.
        seen += f": the plate's end reads {tape_text(at_end, units)}"
    shapes += title_strip(view, wall.name, seen, units, revision, wall.rules)
    description = (
        f"{tape_text(wall.length, units)} long, {tape_text(highest, units)} high, studs {wall.stud.name} at "
        f"{tape_text(wall.spacing, units)} on centre, {len(wall.openings)} openings"
        f"{f', {len(wall.partitions)} partitions' if wall.partitions else ''}."
    )
    return Scene(view.width, view.height, f"Framing of wall {wall.name or 'unnamed'}", description, tuple(shapes))


def _member(view: View, member: Member, units: Units) -> Area:
    corners = ((member.x, member.y), (member.right, member.y), (member.right, member.top), (member.x, member.top))
    title = f"{member.mark} {member.id}: {member.stock.name} x {tape_text(member.length, units)}"
    if member.short is not None:
        angles = " and ".join(f"{angle:g}" for angle in dict.fromkeys(cut.angle for cut in member.cuts))
        title += f" to the long point, {tape_text(member.short, units)} to the short, cut {angles} degrees off square"
    data = (
        ("mark", member.mark),
        ("role", member.role),
        ("length", tape_text(member.length, units)),
        ("member", member.id),
    )
    place = (
        f"{member.role}, left side {tape_text(member.x, units)} from the plate's left end, "
        f"foot {tape_text(member.y, units)} above the plate's underside"
    )
    return Area(
        _KIND.get(member.role, "member"), tuple(view.at(x, y) for x, y in member.outline or corners), title, data, place
    )


def _labels(view: View, layout: Layout) -> Shapes:
    """Marks of the members: uprights on leaders above or below, headers and sills inside, plates at their end."""
    wall = layout.wall
    level, edge = wall.top.shape == "level", top_edge(wall)
    above: list[tuple[float, str]] = []
    below: list[tuple[float, str]] = []
    layers: dict[float, list[str]] = {}
    shapes: Shapes = []
    for member in layout.members:
        centre = view.x(member.x) + view.size(member.width) / 2
        if member.role.endswith("plate"):
            if not member.outline:
                layers.setdefault(_middle(view, member), []).append(member.mark)
            elif member.right >= wall.length + min(0, wall.right.cap_lap):
                layers.setdefault(_end_middle(view, member, member.right), []).append(member.mark)
            elif member.mark not in {one.mark for one in layout.members if one.right > member.right}:
                # A gable's left plates are marked at their own end, where they are not the right ones turned about.
                at = view.x(member.x) - 1
                shapes.append(Text(at, _end_middle(view, member, member.x), member.mark, "t", "end"))
        elif member.role in ("header", "rough-sill") or (member.role == "blocking" and member.width > member.height):
            if (
                view.size(member.height) >= 2.9
                and view.size(member.width) > text_width(member.mark) + 1
                and member.z == 0
            ):
                shapes.append(Text(centre, _middle(view, member), member.mark, "t", "middle"))
        elif member.role != "blocking" and (member.outline or (level and member.top == wall.stud_top)):
            above.append((centre, member.mark))
        elif member.role != "blocking" and member.y == wall.stud_bottom:
            below.append((centre, member.mark))
    end = view.x(wall.length + max(0, wall.right.cap_lap)) + 1.5
    # A plate in pieces has the marks of its pieces, from left to right, as far as there is room.
    plates = sorted((y, shortened(" ".join(dict.fromkeys(marks)), _PLATE_ROOM)) for y, marks in layers.items())
    places = spread([y for y, _ in plates], 3.0, MARGIN + 3, view.height) or []
    shapes += [Text(end, y, mark) for y, (_, mark) in zip(places, plates, strict=False)]
    low, high = MARGIN + 3, view.width - MARGIN - 3
    shapes += leaders(above, lambda x: view.y(edge.at(view.along(x))) - 0.5, -4, low, high)
    shapes += leaders(below, lambda _: view.y(0) + 0.5, 3, low, high)
    return shapes


def _end_middle(view: View, member: Member, x: int) -> float:
    ys = [y for at, y in member.outline if at == x]
    return view.y(sum(ys) // len(ys)) + 0.9


def _middle(view: View, member: Member) -> float:
    return (view.y(member.y) + view.y(member.top)) / 2 + 0.9


def _dimensions(view: View, layout: Layout, units: Units) -> Shapes:
    """Openings and overall, under the wall; heights beside it."""
    wall = layout.wall
    foot = view.y(0)
    shapes: Shapes = []
    stops = sorted(
        {
            0,
            wall.length,
            *(x for o in wall.openings for x in (o.left, o.right)),
            *(x for p in wall.partitions for x in (p.at, p.right)),
        }
    )
    texts = [tape_text(b - a, units) for a, b in zip(stops, stops[1:], strict=False)]
    if len(stops) > 2:
        shapes += string(view, stops, foot + 17, texts)
    shapes += string(view, [0, wall.length], foot + 24.5, [tape_text(wall.length, units)])
    x = view.x(min(0, -wall.left.cap_lap))
    own_left, own_right, highest = heights_of(wall)
    shapes += upright(view, 0, own_left, x - 6, tape_text(own_left, units), or_below=True)
    if own_right != own_left:
        at = view.x(wall.length + max(0, wall.right.cap_lap)) + 19
        shapes += upright(view, 0, own_right, at, tape_text(own_right, units))
    ridge = top_edge(wall).ridge
    if ridge is not None:
        # Above the marks of the studs, which follow the slope.
        text = f"ridge {tape_text(highest, units)}"
        shapes.append(Text(view.x(ridge), view.y(highest) - 12.5, text, "t", "middle"))
    if wall.openings:
        last = max(wall.openings, key=lambda opening: opening.right)
        right = view.x(wall.length + max(0, wall.right.cap_lap)) + 13
        if last.sill:
            shapes += upright(view, 0, last.sill, right, tape_text(last.sill, units), or_below=True)
        shapes += upright(view, last.sill, last.head, right, tape_text(last.height, units))
    return shapes
