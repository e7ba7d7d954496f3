"""Random buildings with a flat roof whose four walls can be framed and skinned, as domain values."""

from hypothesis import strategies as st
from msgspec.structs import replace
from tests.strategies.walls import SCALES, Scale, floors, gaps, openings, partitions, sheets, with_openings

from wallwright.domain.building import SIDES, Building, Roof, SideName, SidePlan
from wallwright.domain.stock import Stock
from wallwright.domain.wall import End, Meets, Opening, Partition, Plates, Sheathing, Tape, Wall
from wallwright.lengths import FOOT, INCH

THROUGH: tuple[tuple[SideName, SideName], ...] = (("front", "back"), ("right", "left"))
"""The two pairs of opposite walls that can run through."""


@st.composite
def side_openings(
    draw: st.DrawFn, scale: Scale, wall: Wall, length: int, posts: tuple[str, str], start: int
) -> tuple[Opening, ...]:
    """Openings of one side, said from the building's framing corner ``start`` before the wall's own plate."""
    fields = {name: getattr(wall, name) for name in wall.__struct_fields__}
    alone = Wall(**{**fields, "length": length, "left": End(posts[0]), "right": End(posts[1])})
    return tuple(
        Opening(o.name, o.left + start, o.width, o.height, o.sill, o.header, o.jacks)
        for o in draw(openings(scale, alone))
    )


@st.composite
def roofs(draw: st.DrawFn) -> Roof:
    """A lean-to or a gable roof, up to 7 in 12."""
    rise, run = draw(st.sampled_from(((3, 12), (1, 12), (6, 12), (7, 12), (5, 14))))
    if draw(st.booleans()):
        return Roof("lean-to", rise=rise, run=run, high_side=draw(st.sampled_from(SIDES)))
    along, ridge = draw(st.sampled_from((None, "width", "depth"))), draw(st.sampled_from(("ties", "beam")))
    return Roof("gable", rise=rise, run=run, ridge_along=along, ridge=ridge)


@st.composite
def sloped_buildings(draw: st.DrawFn) -> Building:
    """A building under a lean-to or gable roof, no higher than 20 ft, with openings in the walls that stay level."""
    plan = draw(buildings())
    roof = draw(roofs())
    size = min(plan.width, plan.depth, 14 * FOOT)
    plan = replace(
        plan, width=min(plan.width, size + 4 * FOOT), depth=size, wall_height=min(plan.wall_height, 8 * FOOT)
    )
    sides = {}
    for side, asked in plan.sides.items():
        along = plan.width if side in ("front", "back") else plan.depth
        room = along - 2 * asked.wall.depth - 2 * plan.slip_gap - 18 * INCH
        kept = tuple(
            o for o in asked.wall.openings
            if o.right <= room and o.head + 24 * INCH <= plan.wall_height and (o.header is None or o.header.seat == "jacks")
        )  # fmt: skip
        within = tuple(p for p in asked.wall.partitions if p.right + INCH <= room)
        plates = Plates(1, draw(st.sampled_from((2, 1))))
        wall = replace(asked.wall, plates=plates, openings=kept, partitions=within)
        sides[side] = replace(asked, wall=wall)
    return replace(plan, sides=sides, roof=roof)


@st.composite
def buildings(draw: st.DrawFn) -> Building:
    """A building with openings on any side, whose walls need not be framed of one stock."""
    scale = draw(st.sampled_from(SCALES))
    studs = dict(zip(SIDES, draw(_studs(scale)), strict=True))
    sheet = draw(sheets(scale))
    gap, slip = draw(gaps(scale)), draw(scale.between(0, scale.size(0.25)))
    through = draw(st.sampled_from(THROUGH))
    floor, under = draw(floors(scale))
    width = draw(scale.between(scale.size(60), scale.size(300)))
    depth = draw(scale.between(scale.size(60), scale.size(300)))
    height = draw(scale.between(scale.size(60), scale.size(144)))
    top = draw(st.sampled_from((2, 2, 1)))
    spacing = draw(st.sampled_from(scale.spacings))
    default_under = floor.rim + floor.panel if floor.kind == "deck" else 0
    sides: dict[SideName, SidePlan] = {}
    for number, side in enumerate(SIDES):
        # Front and back lie along the width; each is met by the walls before and after it.
        before, after = studs[SIDES[number - 1]], studs[SIDES[(number + 1) % 4]]
        whole = width if side in ("front", "back") else depth
        runs = side in through
        start = 0 if runs else before.width + slip
        length = whole if runs else whole - before.width - after.width - 2 * slip
        wall = Wall(
            length=length,
            height=height,
            stud=studs[side],
            spacing=spacing,
            plates=Plates(1, top),
            tape=Tape(),
            floor=floor,
            sheathing=Sheathing(sheet, gap=gap, under_sheet=default_under),
        )
        posts = ("three-stud", "three-stud") if runs else ("single", "single")
        asked = draw(side_openings(scale, wall, length, posts, start))
        # Partitions lie from the corner as openings do, clear of the walls that butt against a through wall.
        post = "three-stud" if runs else "single"
        own = tuple(replace(o, left=o.left - start) for o in asked)
        met = [End(post, 0, 0, Meets(other.width)) if runs else End(post) for other in (before, after)]
        inside = draw(partitions(scale, replace(wall, openings=own, left=met[0], right=met[1])))
        wall = replace(wall, partitions=tuple(Partition(p.at + start, p.depth) for p in inside))
        chosen = None if under == default_under or draw(st.booleans()) else under
        sides[side] = SidePlan(with_openings(wall, asked), under_sheet=chosen)
    measured = draw(st.sampled_from(("framing", "sheathing")))
    more = 2 * sheet.thickness if measured == "sheathing" else 0
    return Building(
        width=width + more,
        depth=depth + more,
        wall_height=height,
        sides=sides,
        name="boat store",
        measured_to=measured,
        roof=Roof("flat", draw(st.sampled_from((None, "width", "depth")))),
        slip_gap=slip,
        through=through,
    )


@st.composite
def _studs(draw: st.DrawFn, scale: Scale) -> tuple[Stock, ...]:
    """A stock for each side: one for all, one for each pair of opposite walls, or one for each wall."""
    ways: tuple[tuple[int, ...], ...] = ((0, 0, 0, 0), (0, 1, 0, 1), (0, 1, 2, 3))
    four = [draw(st.sampled_from(scale.studs)) for _ in SIDES]
    return tuple(four[way] for way in draw(st.sampled_from(ways)))
