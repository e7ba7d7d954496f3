"""Random level walls that a framer would call buildable, as domain values.

Sizes are drawn as a person writes them: whole inches and sixteenths, or whole millimetres. Openings are
placed one after another from the left, each with the room that its jacks and a king need, so that every
wall drawn here must be framed: a refusal is a failure of the service.
"""

from hypothesis import strategies as st
from msgspec.structs import replace

from wallwright.domain.stock import Stock
from wallwright.domain.wall import (
    End,
    Floor,
    Header,
    Meets,
    Opening,
    Partition,
    Plates,
    Run,
    Sheathing,
    Sheet,
    Tape,
    Wall,
)
from wallwright.lengths import INCH, MILLIMETRE, inches

SIXTEENTH = INCH // 16

INCH_STUDS = tuple(Stock(inches("1 1/2"), inches(width)) for width in ("3 1/2", "2 1/2", "4 1/2", "5 1/2"))
METRIC_STUDS = tuple(Stock(t * MILLIMETRE, w * MILLIMETRE) for t, w in ((38, 89), (45, 95), (38, 140), (45, 145)))
INCH_HEADERS = tuple(Stock(inches("1 1/2"), inches(width)) for width in ("3 1/2", "5 1/2", "7 1/4", "9 1/4"))
METRIC_HEADERS = tuple(Stock(t * MILLIMETRE, w * MILLIMETRE) for t, w in ((38, 89), (45, 145), (38, 184), (45, 220)))

INCH_SPACINGS = tuple(inches(text) for text in ("16", "24", "12", "19.2", "14 1/2", "17 5/16", "20"))
METRIC_SPACINGS = tuple(size * MILLIMETRE for size in (400, 600, 300, 450, 407, 610))


class Scale:
    """One system of units: its step, and the sections, sheets and spacings that are bought in it."""

    def __init__(self, metric: bool) -> None:
        self.metric = metric
        self.step = MILLIMETRE if metric else SIXTEENTH
        self.unit = MILLIMETRE if metric else INCH
        self.studs = METRIC_STUDS if metric else INCH_STUDS
        self.headers = METRIC_HEADERS if metric else INCH_HEADERS
        self.spacings = METRIC_SPACINGS if metric else INCH_SPACINGS

    def size(self, inch: float) -> int:
        """A size given in inches, on this system's step."""
        return int(inch * INCH) // self.step * self.step

    def between(self, least: int, most: int) -> st.SearchStrategy[int]:
        """A multiple of the step within the bounds; whole units more often than not."""
        low, high = -(-least // self.step), most // self.step
        whole_low, whole_high = -(-least // self.unit), most // self.unit
        fine = st.integers(low, high).map(lambda count: count * self.step)
        if whole_low > whole_high or self.metric:
            return fine
        return st.integers(whole_low, whole_high).map(lambda count: count * self.unit) | fine


SCALES = (Scale(False), Scale(True))


def post_width(stud: Stock, post: str) -> int:
    """How far a post reaches along the plate: 1-1/2, 5 or 4-1/2 in with a 2x4."""
    return {"single": stud.thickness, "two-stud": stud.thickness + stud.width, "three-stud": 3 * stud.thickness}[post]


def king_line(stud: Stock, post: str) -> int:
    """Where the room for jacks begins beside an end: its post serves as king, save a flat stud, which cannot."""
    return post_width(stud, post) + (stud.thickness if post == "two-stud" else 0)


@st.composite
def sheets(draw: st.DrawFn, scale: Scale) -> Sheet:
    """A sheet to be had, in the wall's own system."""
    sized = draw(st.booleans())
    if scale.metric:
        width, length = draw(st.sampled_from(((1200, 2400), (1220, 2440), (1200, 2700), (1250, 2500))))
        thickness = draw(st.sampled_from((9, 11, 12, 18)))
        return Sheet(width * MILLIMETRE, length * MILLIMETRE, thickness * MILLIMETRE, sized_for_spacing=sized)
    length = draw(st.sampled_from((96, 108, 120)))
    thickness = inches(draw(st.sampled_from(("7/16", "3/8", "15/32", "5/8"))))
    return Sheet(48 * INCH, length * INCH, thickness, sized_for_spacing=sized)


@st.composite
def gaps(draw: st.DrawFn, scale: Scale) -> int:
    """A gap between sheets, 0 to 1/4 in."""
    if scale.metric:
        return draw(st.sampled_from((3, 0, 2, 5))) * MILLIMETRE
    return inches(draw(st.sampled_from(("1/8", "0", "1/16", "3/16", "1/4"))))


@st.composite
def sheathings(draw: st.DrawFn, scale: Scale, sheet: Sheet, under: int) -> Sheathing:
    """How a wall is skinned with a sheet."""
    direction = draw(st.sampled_from(("upright", "upright", "lying")))
    start = draw(st.sampled_from((None, None, "left", "right")))
    gap = draw(gaps(scale))
    if draw(st.sampled_from((False, False, True))):
        lap = draw(scale.between(max(gap + inches("1/8"), scale.step), inches("3/4")))
        sheet = Sheet(sheet.width, sheet.length, sheet.thickness, "siding", sheet.sized_for_spacing, "shiplap", lap)
    return Sheathing(sheet, direction, gap, under, start)


@st.composite
def ends(draw: st.DrawFn, scale: Scale, stud: Stock, sheet: Sheet, top_plates: int) -> End:
    """One end of a wall: free, running through, or butting a wall that it meets."""
    post = draw(st.sampled_from(("single", "three-stud", "two-stud")))
    kind = draw(st.sampled_from(("free", "through", "butt", "lapped")))
    if kind == "through":
        met = draw(st.none() | st.sampled_from(scale.studs).map(lambda other: Meets(other.width, "single")))
        return End(post, 0, -stud.width if top_plates == 2 else 0, met)
    if kind == "butt":
        slip = draw(scale.between(0, scale.size(0.25)))
        reach = stud.width + slip
        met = Meets(stud.width, draw(st.sampled_from(("three-stud", "two-stud"))), slip)
        return End(post, reach + sheet.thickness, reach if top_plates == 2 else 0, met)
    if kind == "lapped":
        # A lap a little past the end or a little short of it, with nothing named that it meets.
        return End(post, draw(scale.between(-scale.size(0.75), scale.size(6))), 0)
    return End(post)


@st.composite
def floors(draw: st.DrawFn, scale: Scale) -> tuple[Floor, int]:
    """What the wall stands on, and an under-sheet that it allows."""
    kind = draw(st.sampled_from(("none", "deck", "slab")))
    if kind == "none":
        return Floor(), 0
    treated = draw(st.booleans())
    if kind == "slab":
        return Floor("slab", treated_plate=treated), draw(scale.between(0, scale.size(1.5)))
    panel = scale.size(draw(st.sampled_from((0.75, 0.5))))
    rim = scale.size(draw(st.sampled_from((5.5, 7.25, 9.25))))
    under = draw(st.sampled_from((rim + panel, 0)) | scale.between(0, rim + panel))
    return Floor("deck", rim, panel, treated), under


@st.composite
def headers(draw: st.DrawFn, scale: Scale, depth: int, room: int) -> Header | None:
    """A header that fits under the plates and within the wall's depth, or None for the default one."""
    fitting = [stock for stock in scale.headers if stock.width <= room and stock.thickness <= depth]
    if not fitting or draw(st.booleans()):
        return None
    stock = draw(st.sampled_from(fitting))
    plies = draw(st.integers(1, min(3, depth // stock.thickness)))
    spare = depth - plies * stock.thickness
    # A spacer stands between plies, so that it takes two.
    spacer = spare if plies > 1 and spare >= MILLIMETRE * 2 and draw(st.booleans()) else 0
    return Header(stock, plies, draw(st.sampled_from(("jacks", "plate"))), spacer)


LEAST_ROOM = inches("3 1/2")
"""Room kept above every opening: the depth of the shallowest plain header, a 2x4 on edge."""


@st.composite
def opening_at(draw: st.DrawFn, scale: Scale, wall: Wall, name: str, left: int, width: int, jacks: int) -> Opening:
    """An opening at a place that is already clear of its neighbours: a door or a window, with its header."""
    most_head = wall.stud_top - LEAST_ROOM
    least_sill = wall.stud_bottom + wall.thickness
    door = draw(st.booleans())
    sill = 0 if door else draw(scale.between(least_sill, max(least_sill, most_head - scale.size(8))))
    least_height = wall.stud_bottom + scale.size(12) if door else scale.size(4)
    tight = draw(st.booleans())
    height = draw(scale.between(least_height, most_head - sill))
    if tight and not scale.metric:
        height = (most_head - sill) // scale.step * scale.step
    header = draw(headers(scale, wall.depth, wall.stud_top - sill - height))
    return Opening(name, left, width, height, sill, header, jacks)


@st.composite
def openings(draw: st.DrawFn, scale: Scale, wall: Wall) -> tuple[Opening, ...]:
    """Openings from left to right, each with room for its jacks and at least a shared king."""
    thick = wall.thickness
    edge = king_line(wall.stud, wall.left.post)
    end = wall.length - king_line(wall.stud, wall.right.post)
    placed: list[Opening] = []
    for number in range(draw(st.integers(0, 5))):
        jacks = draw(st.sampled_from((1, 1, 1, 2)))
        least_left = edge + jacks * thick
        room = end - jacks * thick - least_left
        if room < thick + scale.step:
            break
        width = draw(scale.between(thick, min(room, scale.size(draw(st.sampled_from((10, 15, 40, 100)))))))
        slack = room - width
        left = -(-least_left // scale.step) * scale.step
        loose = draw(st.sampled_from((0, 1, 2)))
        if loose and slack > scale.step:
            left = draw(scale.between(least_left, least_left + (slack if loose == 2 else min(slack, scale.size(24)))))
        if left + width + jacks * thick > end:
            break
        placed.append(draw(opening_at(scale, wall, f"opening {number + 1}", left, width, jacks)))
        edge = left + width + (jacks + 1) * thick
    return tuple(placed)


LINED = inches("5/8")
"""Least stretch beside a partition for the edge of an inside lining."""


def ends_reach(wall: Wall, end: End) -> int:
    """How far from an end partitions stand clear: past a wall that butts there, and a three-stud post's blocks."""
    butted = end.meets.depth if end.meets is not None and end.sheathing_lap <= 0 else 0
    return max(butted, 2 * wall.stud.thickness if end.post == "three-stud" else 0)


@st.composite
def partitions(draw: st.DrawFn, scale: Scale, wall: Wall) -> tuple[Partition, ...]:
    """Partitions from left to right, each clear of the ends, of openings with their jacks, and of one another."""
    thick = wall.stud.thickness
    taken = sorted((o.left - max(o.jacks, 1) * thick, o.right + max(o.jacks, 1) * thick) for o in wall.openings)
    stops = [*taken, (wall.length - ends_reach(wall, wall.right), wall.length)]
    start = ends_reach(wall, wall.left)
    placed: list[Partition] = []
    for low, high in stops:
        # Between two openings that share a king there is none.
        while low - start >= 2 * thick and draw(st.booleans()):
            depth = draw(st.sampled_from([stock.width for stock in scale.studs] + [thick]))
            least, most = start + LINED, low - LINED - depth
            if least > most:
                break
            at = draw(st.sampled_from((least, most)) | scale.between(least, most))
            if not least <= at <= most:
                break
            placed.append(Partition(at, depth))
            start = at + depth + LINED
        start = max(start, high)
    # The order in which they are given is the caller's.
    return tuple(draw(st.permutations(placed)))


@st.composite
def runs(draw: st.DrawFn, scale: Scale, wall: Wall) -> tuple[Run, ...]:
    """Pipes and cables anywhere in a wall, of any size up to the studs' depth."""
    found = []
    for _ in range(draw(st.integers(0, 3))):
        size, y = draw(scale.between(scale.step, wall.stud.width)), draw(scale.between(0, wall.height))
        left, right = (draw(st.none() | scale.between(0, wall.length)) for _ in range(2))
        edge = draw(st.none() | scale.between(0, wall.stud.width))
        found.append(
            Run("bore", size, y, left, right, edge) if draw(st.booleans()) else Run("notch", size, y, left, right)
        )
    return tuple(found)


@st.composite
def walls(draw: st.DrawFn) -> Wall:
    """A level wall, complete, that can be framed and skinned."""
    scale = draw(st.sampled_from(SCALES))
    stud = draw(st.sampled_from(scale.studs))
    sheet = draw(sheets(scale))
    top = draw(st.sampled_from((2, 2, 1)))
    left, right = draw(ends(scale, stud, sheet, top)), draw(ends(scale, stud, sheet, top))
    shortest = post_width(stud, left.post) + post_width(stud, right.post)
    most = scale.size(draw(st.sampled_from((60, 200, 480))))
    length = draw(scale.between(max(shortest, scale.size(24)), most))
    floor, under = draw(floors(scale))
    tape = Tape(
        draw(st.sampled_from(("left", "right"))),
        draw(st.sampled_from(("sheathing", "plate"))),
        draw(st.just(0) | scale.between(-scale.size(12), scale.size(12))),
    )
    wall = Wall(
        length=length,
        height=draw(scale.between(scale.size(48), scale.size(168))),
        name="pump house, north",
        stud=stud,
        spacing=draw(st.sampled_from(scale.spacings)),
        plates=Plates(draw(st.sampled_from((1, 1, 2))), top),
        tape=tape,
        left=left,
        right=right,
        floor=floor,
        sheathing=draw(sheathings(scale, sheet, under)),
    )
    opened = with_openings(wall, draw(openings(scale, wall)))
    if floor.kind == "slab" and draw(st.booleans()):
        # Bolts already cast, wherever they may stand.
        cast = draw(st.lists(scale.between(0, length), max_size=12, unique=True))
        floor = Floor("slab", treated_plate=floor.treated_plate, anchors=tuple(cast))
    inside = draw(partitions(scale, opened)) if draw(st.booleans()) else ()
    return with_fields(
        opened,
        plates=draw(plates(scale, opened)),
        floor=floor,
        partitions=inside,
        lining=draw(st.booleans()),
        runs=draw(runs(scale, opened)),
    )


@st.composite
def sawn_anyhow(draw: st.DrawFn, drawn: st.SearchStrategy[Wall]) -> Wall:
    """A wall whose sheets may be cut from one another's offcuts, and pieced round its openings."""
    wall = draw(drawn)
    reuse, grain = draw(st.sampled_from(((False, "kept"), (True, "kept"), (True, "free"))))
    openings = draw(st.sampled_from(("cut-out", "pieced")))
    changed = replace(wall.sheathing, reuse_offcuts=reuse, grain=grain, openings=openings)
    return replace(wall, sheathing=changed)


@st.composite
def plates(draw: st.DrawFn, scale: Scale, wall: Wall) -> Plates:
    """The wall's plates, whole or of a stock long enough that a joint can be found clear of every opening.

    Between two studs over which a plate may be jointed lie a spacing and at most one opening with jacks and
    kings; twice that and the zone on both sides of a joint below leave room for a joint in every piece.
    """
    bottom, top = wall.plates.bottom, wall.plates.top
    widest = max((o.width + (2 * o.jacks + 2) * wall.thickness for o in wall.openings), default=0)
    offset = scale.size(draw(st.sampled_from((24, 24, 48))))
    least = 2 * (widest + wall.spacing) + 2 * offset + scale.size(24)
    most = scale.size(480)
    if least > most or draw(st.booleans()):
        return Plates(bottom, top)
    wanted = draw(scale.between(least, min(most, least + scale.size(draw(st.sampled_from((1, 48, 200)))))))
    return Plates(bottom, top, wanted, offset)


def with_fields(wall: Wall, **changed: object) -> Wall:
    """The wall with some fields changed."""
    return Wall(**{**{name: getattr(wall, name) for name in wall.__struct_fields__}, **changed})


def with_openings(wall: Wall, placed: tuple[Opening, ...]) -> Wall:
    """The wall with these openings and nothing else changed."""
    fields = {name: getattr(wall, name) for name in wall.__struct_fields__}
    return Wall(**{**fields, "openings": placed})
