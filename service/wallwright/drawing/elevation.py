"""The framing elevation of one wall, seen from outside, with the plate strips under it."""

from typing import Final

import msgspec

from wallwright.domain.members import Layout, Member
from wallwright.domain.slopes import angle_of, top_edge
from wallwright.domain.wall import Wall
from wallwright.drawing.dimensions import Part, Shapes, heights_of, string, upright, widest
from wallwright.drawing.marks import on_leaders, other_marks, plate_marks, upright_marks
from wallwright.drawing.paper import View, continued
from wallwright.drawing.partitions import partition_ends, runs_across
from wallwright.drawing.plate_strip import plate_strips, strip_titles, strips_height
from wallwright.drawing.scene import Area, Scene, Text, stacked
from wallwright.drawing.sheets import Around, paged, scenes
from wallwright.drawing.svg import svg_text
from wallwright.drawing.title import title_strip
from wallwright.drawing.voids import opening_void
from wallwright.lengths import Units, tape_text

_KIND = {
    "bottom-plate": "plate", "top-plate": "plate", "cap-plate": "plate", "header": "header", "rough-sill": "plate",
    "blocking": "block", "backing": "block",
}  # fmt: skip
_LABELS: Final = 5.1
"""From a level edge of the wall to where the marks on leaders begin, in millimetres of paper."""


def framing_elevation(layout: Layout, units: Units, revision: str) -> str:
    """The framing elevation as SVG: members with their marks, openings, dimensions, running tape marks, plate strips."""
    return svg_text(framing_scene(layout, units, revision))


def framing_scene(layout: Layout, units: Units, revision: str) -> Scene:
    """The framing elevation as shapes on paper; of a long wall several papers one below the other."""
    return stacked(framing_pages(layout, units, revision), _title(layout.wall))


def _title(wall: Wall) -> str:
    return f"Framing of wall {wall.name or 'unnamed'}"


class _Rows(msgspec.Struct, frozen=True, gc=False):
    """What stands over and under the wall, from its upper and lower edge, in millimetres of paper."""

    above: float
    openings: float
    overall: float
    strips: float


def framing_pages(layout: Layout, units: Units, revision: str) -> list[Scene]:
    """The framing elevation as papers, more than one where a wall is too long to be read on one."""
    wall = layout.wall
    left = min(member.x for member in layout.members)
    right = max(member.right for member in layout.members)
    # Marks follow the wall's top edge, which a cap that stops short does not reach.
    highest = max(heights_of(wall)[2], *(member.top for member in layout.members))
    above, below, others = on_leaders(layout)
    rows = _rows(layout, above, below)
    around = _around(layout)
    view = continued(
        units,
        (left, 0, right, highest),
        rows.above,
        rows.strips + strips_height(layout, units),
        around.left,
        around.right,
    )
    # Members behind the outer face first, so that those in front cover them.
    shapes: Shapes = [_member(view, one, units) for one in sorted(layout.members, key=lambda one: -one.z)]
    for opening in wall.openings:
        shapes += opening_void(view, opening, units)
    shapes += partition_ends(view, layout, units)
    shapes += runs_across(view, layout)
    marked, unmarked = other_marks(view, layout, others, shapes)
    shapes += marked
    shapes += upright_marks(view, layout, above, below)
    shapes += _ridge(view, wall, units, rows.above)
    shapes += plate_strips(view, layout, units, view.y(0) + rows.strips)
    hook = "sheathing's edge" if wall.tape.zero == "sheathing" else "plate's end"
    studs = f"{wall.stud.name} at {tape_text(wall.spacing, units)} on centre"
    seen = f"Framing from outside: {studs}; tape hooked at the {hook}, {wall.tape.start} end"
    at_end = wall.reading(0 if wall.tape.start == "left" else wall.length)
    if at_end:
        # Nothing stands there to hook before the sheets are on, so that the plate's own end is told.
        seen += f": the plate's end reads {tape_text(at_end, units)}"
    if unmarked:
        seen += f"; no room to mark {', '.join(unmarked)}"
    description = (
        f"{tape_text(wall.length, units)} long, {tape_text(highest, units)} high, studs {wall.stud.name} at "
        f"{tape_text(wall.spacing, units)} on centre, {len(wall.openings)} openings"
        f"{f', {len(wall.partitions)} partitions' if wall.partitions else ''}."
    )
    pages = paged(
        view, shapes, (left, right), around, units,
        lambda part: [
            *plate_marks(view, layout, part), *strip_titles(view, layout, units, view.y(0) + rows.strips, part),
            *_dimensions(view, layout, units, part, rows),
        ],
        lambda paper, sheet: title_strip(
            paper, wall.name, seen, units, revision, wall.rules, sheet=sheet, saw=_saw(wall)
        ),
    )  # fmt: skip
    return scenes(view, pages, _title(wall), description)


def _saw(wall: Wall) -> str:
    """What the saw is set to for the ends under a slope; nothing for a level wall."""
    return "" if wall.top.shape == "level" else f"slopes {angle_of(wall):g} degrees off square"


def _rows(layout: Layout, above: list[Member], below: list[Member]) -> _Rows:
    """As close as the marks' own lengths allow, so that the wall is drawn as large as the paper holds."""
    wall = layout.wall
    over = _LABELS + widest({one.mark for one in above}) + 0.3
    if top_edge(wall).ridge is not None:
        over += 4.0
    under = _LABELS + widest({one.mark for one in below}) if below else 2.0
    # Where the wall is lower than its height is long to write, that stands under it, to the left.
    openings = under + 3.9
    overall = openings + 6.0 if wall.openings or wall.partitions else openings
    return _Rows(over, openings, overall, overall + 5.0)


def _around(layout: Layout) -> Around:
    """What stands beside the wall: its heights, its plates' marks, the last opening's heights."""
    wall = layout.wall
    sloped = wall.top.shape != "level"
    right = 23.0 if sloped else 17.0 if wall.openings else 12.5
    return Around(15.0 if sloped else 11.0, right)


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


def _ridge(view: View, wall: Wall, units: Units, above: float) -> Shapes:
    """The height at the ridge, above the marks of the studs, which follow the slope."""
    ridge = top_edge(wall).ridge
    if ridge is None:
        return []
    highest = heights_of(wall)[2]
    text = f"ridge {tape_text(highest, units)}"
    return [Text(view.x(ridge), view.y(highest) - above + 2.4, text, "t", "middle")]


def _dimensions(view: View, layout: Layout, units: Units, part: Part, rows: _Rows) -> Shapes:
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
        shapes += string(view, stops, foot + rows.openings, texts, part)
    whole = tape_text(wall.length, units)
    shapes += string(
        view, [0, wall.length], foot + rows.overall, [whole if part.of == 1 else f"{whole} over all"], part
    )
    own_left, own_right, _ = heights_of(wall)
    if part.first:
        x = view.x(min(0, -wall.left.cap_lap)) - (10 if wall.top.shape == "gable" else 6)
        shapes += upright(view, 0, own_left, x, tape_text(own_left, units), or_below=True)
    if not part.last:
        return shapes
    end = view.x(wall.length + max(0, wall.right.cap_lap))
    if own_right != own_left:
        shapes += upright(view, 0, own_right, end + 19, tape_text(own_right, units))
    if wall.openings:
        last = max(wall.openings, key=lambda opening: opening.right)
        if last.sill:
            shapes += upright(view, 0, last.sill, end + 13, tape_text(last.sill, units), or_below=True)
        shapes += upright(view, last.sill, last.head, end + 13, tape_text(last.height, units))
    return shapes
