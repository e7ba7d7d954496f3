"""A building: a footprint becomes four walls that close, and the corners between them.

The two through walls run the whole length of their side; the two butt walls stand between them with
a slip gap at each end. A butt wall's sheathing runs over the through wall's post and the edge of its
sheet; its cap plate runs over the through wall, whose own cap stops short. Opposite walls are laid
out from the same end of the building, so that their studs face each other.
"""

import msgspec
from msgspec.structs import replace

from wallwright.domain.building_notes import building_findings, order_of_work
from wallwright.domain.built import SIDES, Building, Built, BuiltWall, Corner, SidePlan, Total, framing_size, has_beam
from wallwright.domain.checks import least_length
from wallwright.domain.deck_lines import DeckLines, deck_lines
from wallwright.domain.framed import framed, skinned
from wallwright.domain.roofs import Roof, SideName, Under
from wallwright.domain.slope_checks import HIGHEST, STEEPEST, too_steep_for_its_length
from wallwright.domain.squaring.deck import Deck
from wallwright.domain.wall import Carries, End, Meets, PostKind, Run, Side, Wall
from wallwright.findings import Fault, Offer, PlanRefused, Value, at_least, at_most

__all__ = ["SIDES", "Building", "Built", "BuiltWall", "Roof", "SideName", "SidePlan", "build", "closed"]

_FROM: dict[SideName, Side] = {"front": "left", "right": "left", "back": "right", "left": "right"}
"""Front and right are laid out from their left end, back and left from their right: the building's same end."""
_NEIGHBOUR: dict[SideName, tuple[SideName, SideName]] = {
    "front": ("left", "right"),
    "right": ("front", "back"),
    "back": ("right", "left"),
    "left": ("back", "front"),
}
"""The walls met at each wall's left and right end, as seen from outside."""


def build(building: Building, *, with_skin: bool = True) -> Built:
    """Wall a building. Raises PlanRefused with every fault of every wall found."""
    width, depth = framing_size(building)
    faults = _check(building, width, depth)
    if faults:
        raise PlanRefused(tuple(faults))
    walls: list[BuiltWall] = []
    for side in SIDES:
        wall = side_wall(building, side, width, depth)
        try:
            done = framed(wall)
            walls.append(BuiltWall(side, done.wall, done, skinned(done) if with_skin else None))
        except PlanRefused as refused:
            above = wall.height - building.wall_height
            faults += [_of_side(building, side, above, fault) for fault in refused.faults]
    lines: DeckLines | None = None
    try:
        lines = _deck_lines(building, width, depth)
    except PlanRefused as refused:
        faults += refused.faults
    if faults:
        raise PlanRefused(tuple(dict.fromkeys(faults)))
    corners = _corners(building, {built.side: built.wall for built in walls})
    sheets = sum(len(built.skin.sheets) for built in walls if built.skin is not None)
    return Built(
        building, width, depth, tuple(walls), corners, _totals(walls), sheets, order_of_work(building),
        (*(() if lines is None else lines.findings), *building_findings(building, corners, walls, under_roof(building, width, depth).eave_to_ridge)), lines,
    )  # fmt: skip


def _deck_lines(building: Building, width: int, depth: int) -> DeckLines | None:
    """The framing's lines on the deck that was measured; sheets hang past the plates of a deck where they are asked to."""
    if building.deck is None:
        return None
    hanging = frozenset(str(side) for side, plan in building.sides.items() if _under_sheet(plan) > 0)
    return deck_lines(building.deck, width, depth, hanging)


class Closed(msgspec.Struct, frozen=True):
    """A building with every default filled in: what makes two questions about a building the same."""

    name: str
    width: int
    depth: int
    measured_to: str
    shape: str
    spans: str
    slip_gap: int
    through: tuple[str, ...]
    walls: tuple[Wall, ...]
    deck: Deck | None


def closed(building: Building) -> Closed:
    """The building with every default filled in, before anything is framed."""
    width, depth = framing_size(building)
    walls = tuple(side_wall(building, side, width, depth) for side in SIDES)
    spans = under_roof(building, width, depth).spans
    # The slope stands in the walls; what holds a ridge does not.
    shape = f"{building.roof.shape}, ridge beam" if has_beam(building) else building.roof.shape
    return Closed(
        building.name, building.width, building.depth, building.measured_to, shape, spans,
        building.slip_gap, building.through, walls, building.deck,
    )  # fmt: skip


def side_wall(building: Building, side: SideName, width: int, depth: int) -> Wall:
    """The complete Wall of one side, openings said from its own plate."""
    plan = building.sides[side]
    whole = width if side in ("front", "back") else depth
    before, after = _NEIGHBOUR[side]
    under = under_roof(building, width, depth)
    stands = under.standing(side, before)
    # A sloping top ends at either corner, so that both caps there are level or neither laps.
    level = building.roof.shape == "flat"
    left = _end(building, side, before, plan.left_post, level)
    right = _end(building, side, after, plan.right_post, level)
    start = under.starts[side]
    length = whole - start - under.ends[side]
    wall = plan.wall
    openings = tuple(replace(opening, left=opening.left - start) for opening in wall.openings)
    partitions = tuple(replace(partition, at=partition.at - start) for partition in wall.partitions)
    runs = tuple(_run_from(run, start) for run in wall.runs)
    sheathing = replace(wall.sheathing, under_sheet=_under_sheet(plan))
    return replace(
        wall,
        name=wall.name or side,
        length=length,
        height=stands.height,
        top=stands.top,
        left=left,
        right=right,
        tape=replace(wall.tape, start=plan.start or _FROM[side]),
        openings=openings,
        partitions=partitions,
        runs=runs,
        sheathing=sheathing,
        carries=wall.carries or (Carries("roof", under.span) if stands.bears else Carries("none")),
    )


def _run_from(run: Run, start: int) -> Run:
    """A run said from the framing corner, from a plate that begins ``start`` past it; it begins on the plate at least."""
    left = None if run.left is None else max(0, run.left - start)
    return replace(run, left=left, right=None if run.right is None else max(0, run.right - start))


def _under_sheet(plan: SidePlan) -> int:
    """How far the sheets hang below the plate: as asked, else over panel and rim of a deck."""
    if plan.under_sheet is not None:
        return plan.under_sheet
    floor = plan.wall.floor
    return floor.rim + floor.panel if floor.kind == "deck" else 0


def _end(building: Building, side: SideName, met: SideName, post: PostKind | None, level: bool) -> End:
    """One end of a wall: how its post, sheets and cap meet the wall that it stands against."""
    other = building.sides[met]
    wall = building.sides[side].wall
    # Caps lap where both walls are doubled and their plates are of one thickness, so that they lie in one plane.
    doubled = wall.plates.top == 2 and other.wall.plates.top == 2
    lapped = level and doubled and wall.thickness == other.wall.thickness
    met_side: Side = "right" if _NEIGHBOUR[met][1] == side else "left"
    other_post = other.right_post if met_side == "right" else other.left_post
    if side in building.through:
        meets = Meets(other.wall.depth, other_post or "single", building.slip_gap)
        return End(post or "three-stud", 0, -other.wall.depth if lapped else 0, meets)
    reach = other.wall.depth + building.slip_gap
    meets = Meets(other.wall.depth, other_post or "three-stud", building.slip_gap)
    return End(post or "single", reach + other.wall.sheathing.sheet.thickness, reach if lapped else 0, meets)


def under_roof(building: Building, width: int, depth: int) -> Under:
    """The roof over the building's framing, and where each plate begins and stops under it."""
    sides = building.sides

    def short(side: SideName, met: SideName) -> int:
        return 0 if side in building.through else sides[met].wall.depth + building.slip_gap

    return Under(
        building.roof, width, depth, building.wall_height,
        {side: sides[side].wall.depth for side in SIDES},
        {side: short(side, _NEIGHBOUR[side][0]) for side in SIDES},
        {side: short(side, _NEIGHBOUR[side][1]) for side in SIDES},
    )  # fmt: skip


def _check(building: Building, width: int, depth: int) -> list[Fault]:
    faults = _check_roof(building, width, depth)
    flat = replace(building, roof=Roof())
    for name, size, stated, pair in (
        ("width", width, building.width, ("front", "back")),
        ("depth", depth, building.depth, ("right", "left")),
    ):
        # In a footprint of no size a wall's length is what it lacks, less than nothing between through walls.
        short = [side_wall(flat, side, 0, 0) for side in SIDES if side in pair]
        least = max(least_length(wall) - wall.length for wall in short)
        if size < least:
            values: tuple[tuple[str, Value], ...] = (("given", stated), ("least", at_least(least + stated - size)))
            faults.append(Fault("footprint-too-small", f"/footprint/{name}", values))
    return faults


def _peak_at(building: Building, rise: int, width: int, depth: int) -> int:
    gentler = replace(building, roof=replace(building.roof, rise=rise, run=12))
    return under_roof(gentler, width, depth).peak


def _check_roof(building: Building, width: int, depth: int) -> list[Fault]:
    roof = building.roof
    if roof.shape == "flat":
        return []
    if roof.rise <= 0:
        return [Fault("slope-missing", "/roof/rise", (("shape", roof.shape),))]
    if roof.rise > STEEPEST * roof.run:
        return [Fault("slope-too-steep", "/roof/rise", (("most", f"{STEEPEST * 12} in 12"),))]
    peak = under_roof(building, width, depth).peak
    if peak <= HIGHEST:
        return []
    lower = building.wall_height - peak + HIGHEST
    if lower <= 0:
        fault = too_steep_for_its_length(
            roof.rise, roof.run, peak, lambda rise: _peak_at(building, rise, width, depth), "/roof/rise"
        )
        if fault:
            return [fault]
    return [Fault("top-too-high", "/wall_height", (("given", peak), ("most", HIGHEST), ("height", at_most(lower))))]


def _of_side(building: Building, side: SideName, above: int, fault: Fault) -> Fault:
    """A wall's fault as the building's caller reads it: under its side, openings from the framing corner.

    ``above`` is how much higher this wall stands than the building's wall height says.
    """
    if fault.pointer == "/height":
        heights = tuple((name, _lowered(value, above)) for name, value in fault.values)
        return Fault(fault.code, "/wall_height", heights)
    values = tuple((name, _lowered(value, above) if name == "wall_height" else value) for name, value in fault.values)
    if fault.pointer.startswith(("/openings/", "/partitions/")):
        shift = start_of(building, side)
        values = tuple((name, _shifted(fault, name, value, shift)) for name, value in values)
    return Fault(fault.code, f"/walls/{side}{fault.pointer}", values)


def _lowered(value: Value, above: int) -> Value:
    """A height of a wall that stands ``above`` the building's wall height, as the building's own."""
    if isinstance(value, Offer):
        return value.moved(-above)
    return value - above if isinstance(value, int) else value


def _shifted(fault: Fault, name: str, value: Value, shift: int) -> Value:
    """A place along a butt wall, reckoned from the building's framing corner; other values as they are."""
    if name == "nearest" and isinstance(value, Offer):
        return value.moved(shift)
    if name == "given" and isinstance(value, int) and fault.pointer.endswith(("/left", "/at")):
        return value + shift
    return value


_CORNER_NAMES: tuple[tuple[str, SideName, SideName], ...] = (
    ("front-left", "left", "front"),
    ("front-right", "front", "right"),
    ("back-right", "right", "back"),
    ("back-left", "back", "left"),
)


def _corners(building: Building, walls: dict[SideName, Wall]) -> tuple[Corner, ...]:
    found = []
    for name, first, second in _CORNER_NAMES:
        # ``first`` ends at the corner with its right end, ``second`` begins there with its left.
        through, butt = (first, second) if first in building.through else (second, first)
        end = walls[butt].left if butt == second else walls[butt].right
        found.append(Corner(name, through, butt, end.sheathing_lap, max(end.cap_lap, 0), building.slip_gap))
    return tuple(found)


def _totals(walls: list[BuiltWall]) -> tuple[Total, ...]:
    counts: dict[tuple[str, int, int | None, bool], int] = {}
    for built in walls:
        for row in built.layout.cut_list:
            key = (row.stock.name, row.length, row.ripped_to, row.treated)
            counts[key] = counts.get(key, 0) + row.count
    ordered = sorted(counts, key=lambda key: (key[0], -key[1], key[2] or 0, key[3]))
    return tuple(
        Total(stock, length, counts[stock, length, rip, treated], rip, treated)
        for stock, length, rip, treated in ordered
    )


def start_of(building: Building, side: SideName) -> int:
    """How far from the building's framing corner a side's plate begins."""
    if side in building.through:
        return 0
    return building.sides[_NEIGHBOUR[side][0]].wall.depth + building.slip_gap
