"""The judge of a building: its four walls put together on a plan, in three dimensions.

The plan's X runs along the front from its left corner as seen from outside, Y from the front backwards,
both over the framing; heights are the walls' own y. Every function returns what is wrong, in words.
"""

from collections import Counter

from shapely import box, unary_union
from tests.property.geometry import Box, Span, boxes, empty, overlapping

from wallwright.domain.building import SIDES, Built, BuiltWall, SideName
from wallwright.domain.framed import layout, sheathing
from wallwright.domain.members import Member

_BEFORE: dict[SideName, SideName] = {"front": "left", "right": "front", "back": "right", "left": "back"}
_AFTER = {met: side for side, met in _BEFORE.items()}


class Plan:
    """The building's size over the framing, and where each wall's plate starts along its side."""

    def __init__(self, built: Built) -> None:
        building = built.building
        thick = {side: plan.wall.sheathing.sheet.thickness for side, plan in building.sides.items()}
        off = building.measured_to == "sheathing"
        self.width = building.width - (thick["left"] + thick["right"] if off else 0)
        self.depth = building.depth - (thick["front"] + thick["back"] if off else 0)
        self.slip = building.slip_gap
        self.through = building.through
        self.walls: dict[SideName, BuiltWall] = {wall.side: wall for wall in built.walls}
        depths = {side: plan.wall.stud.width for side, plan in building.sides.items()}
        self.start = {side: 0 if side in self.through else depths[_BEFORE[side]] + self.slip for side in SIDES}

    def along(self, side: SideName, low: int, high: int) -> Span:
        """A stretch of a wall, from its own plate's x to the plan's X or Y."""
        low, high = low + self.start[side], high + self.start[side]
        if side in ("front", "right"):
            return low, high
        whole = self.width if side == "back" else self.depth
        return whole - high, whole - low

    def across(self, side: SideName, low: int, high: int) -> Span:
        """A stretch of a wall's depth, from its z to the plan's Y or X."""
        if side in ("front", "left"):
            return low, high
        whole = self.depth if side == "back" else self.width
        return whole - high, whole - low

    def place(self, side: SideName, part: Box) -> Box:
        """A wall's box on the plan: X, height and Y from, then to."""
        a, b = self.along(side, part[0], part[3]), self.across(side, part[2], part[5])
        x, y = (a, b) if side in ("front", "back") else (b, a)
        return (x[0], part[1], y[0], x[1], part[4], y[1])

    def members(self) -> list[tuple[str, Member, Box]]:
        """Every member of every wall, where it stands in the building."""
        return [
            (f"{side} {m.id}", m, self.place(side, part))
            for side in SIDES
            for m in self.walls[side].layout.members
            for part in boxes(m)
        ]


def faults_of_framing(built: Built) -> list[str]:
    """Members of different walls that overlap, a size that is not what was asked, or a slip gap elsewhere."""
    plan = Plan(built)
    placed = plan.members()
    found = [f"{one} overlaps {other}" for one, other in overlapping([(name, part) for name, _, part in placed])]
    low = tuple(min(part[i] for _, _, part in placed) for i in (0, 2))
    high = tuple(max(part[i] for _, _, part in placed) for i in (3, 5))
    if (low, high) != ((0, 0), (plan.width, plan.depth)):
        found.append(f"the framing stands from {low} to {high}, not {plan.width} by {plan.depth}")
    plates = [(name, m, part) for name, m, part in placed if m.role == "top-plate"]
    for side in (s for s in SIDES if s not in plan.through):
        own = next(part for name, _, part in plates if name.startswith(f"{side} "))
        for met in (_BEFORE[side], _AFTER[side]):
            other = next(part for name, _, part in plates if name.startswith(f"{met} "))
            apart = box(own[0], own[2], own[3], own[5]).distance(box(other[0], other[2], other[3], other[5]))
            # The geometry library measures with floats; a thousandth of a grid unit is its noise.
            if abs(apart - plan.slip) > 0.001:
                found.append(f"{side} stands {apart} from {met}, not {plan.slip}")
    return found


def faults_of_caps(built: Built) -> list[str]:
    """Caps that do not lap over every corner, or corners without a lap that nothing ties."""
    plan = Plan(built)
    caps = [part for _, m, part in plan.members() if m.role == "cap-plate"]
    tied = Counter(str(dict(f.values)["corner"]) for f in built.findings if f.code == "tie-cap")
    corners = {corner.name for corner in built.corners}
    if len(corners) != 4:
        return [f"corners are {corners}"]
    # Plates of two thicknesses do not lie in one plane, so their caps cannot lap.
    thicknesses = {wall.wall.stud.thickness for wall in built.walls}
    if len(thicknesses) == 1 and any(wall.wall.plates.top != 2 for wall in built.walls):
        return [] if tied == Counter(corners) else [f"only {sorted(tied)} are tied"]
    if len(thicknesses) > 1:
        lapless = Counter(corner.name for corner in built.corners if not corner.cap_lap)
        return [] if tied == lapless else [f"{sorted(lapless)} do not lap, {sorted(tied)} are tied"]
    found = [f"{sorted(tied)} are tied and lapped"] if tied else []
    depths = {side: plan.walls[side].wall.depth for side in SIDES}
    inner = box(depths["left"], depths["front"], plan.width - depths["right"], plan.depth - depths["back"])
    ring = box(0, 0, plan.width, plan.depth).difference(inner)
    cover = unary_union([box(part[0], part[2], part[3], part[5]) for part in caps])
    if not empty(ring.symmetric_difference(cover)):
        found.append("the caps do not close the ring")
    for side in (s for s in SIDES if s not in plan.through):
        cap = next(part for name, m, part in plan.members() if m.role == "cap-plate" and name.startswith(f"{side} "))
        reach = (cap[2], cap[5]) if side in ("right", "left") else (cap[0], cap[3])
        whole = plan.depth if side in ("right", "left") else plan.width
        if reach != (0, whole):
            found.append(f"the {side} cap lies from {reach[0]} to {reach[1]}")
    return found


def faults_of_skin_corners(built: Built) -> list[str]:
    """Corners that the sheathing leaves bare or covers twice.

    A through wall's sheets end flush with its framing; a butt wall's run on over the edge of those sheets.
    """
    plan = Plan(built)
    found = []
    for side in SIDES:
        skin = plan.walls[side].skin
        if skin is None:
            return [f"{side} has no skin"]
        xs = [x for piece in skin.pieces for x, _ in piece.outline]
        reach = plan.along(side, min(xs), max(xs))
        whole = plan.width if side in ("front", "back") else plan.depth
        low_met, high_met = (
            (_BEFORE[side], _AFTER[side]) if side in ("front", "right") else (_AFTER[side], _BEFORE[side])
        )
        thick = {met: plan.walls[met].wall.sheathing.sheet.thickness for met in (low_met, high_met)}
        low = 0 if side in plan.through else -thick[low_met]
        high = whole if side in plan.through else whole + thick[high_met]
        # A sheet may end up to a gap short of the corner where no piece is left to follow it.
        gap = skin.wall.sheathing.gap
        if not (low <= reach[0] <= low + gap and high - gap <= reach[1] <= high):
            found.append(f"{side} is skinned from {reach[0]} to {reach[1]}, not {low} to {high}")
    return found


def faults_of_facing(built: Built) -> list[str]:
    """Opposite walls whose tapes are not hooked at the same place of the building."""
    plan = Plan(built)
    found = []
    for one, other in (("front", "back"), ("right", "left")):
        zeros = [plan.along(side, z, z)[0] for side in (one, other) for z in (plan.walls[side].wall.tape_zero,)]
        if zeros[0] != zeros[1]:
            found.append(f"{one} is laid out from {zeros[0]} and {other} from {zeros[1]}")
        bare = [plan.walls[side] for side in (one, other) if not plan.walls[side].wall.openings]
        lines = [
            sorted(plan.along(w.side, m.x, m.right) for m in w.layout.members if m.role == "field-stud") for w in bare
        ]
        # Studs of two sections cannot stand edge to edge, and where one wall slides a stud the other need not.
        alike = len({w.wall.stud for w in bare}) == 1
        if len(lines) == 2 and alike and lines[0] != lines[1]:
            found.append(f"studs of {one} and {other} do not face")
    return found


def faults_of_openings_asked(built: Built) -> list[str]:
    """Openings that do not stand where they were asked for, from the framing corner."""
    plan = Plan(built)
    found = []
    for side, asked in built.building.sides.items():
        for want, got in zip(asked.wall.openings, plan.walls[side].wall.openings, strict=True):
            if got.left + plan.start[side] != want.left or got.width != want.width:
                found.append(f"{side} {want.name} stands at {got.left}")
    return found


def faults_of_parts(built: Built) -> list[str]:
    """Walls that give another answer when they are posted on, totals that are not the walls' sums."""
    found = []
    wanted: Counter[tuple[object, ...]] = Counter()
    sheets = 0
    for wall in built.walls:
        if layout(wall.wall) != wall.layout or sheathing(wall.wall) != wall.skin:
            found.append(f"{wall.side} posted on gives another answer")
        for row in wall.layout.cut_list:
            wanted[row.stock.name, row.length, row.ripped_to, row.treated] += row.count
        sheets += len(wall.skin.sheets) if wall.skin else 0
    totals = Counter({(t.stock, t.length, t.ripped_to, t.treated): t.count for t in built.totals})
    if totals != wanted or len(totals) != len(built.totals):
        found.append("the totals are not the sum of the walls")
    if built.sheets != sheets:
        found.append(f"{built.sheets} sheets are counted, not {sheets}")
    return found


def faults_of_loads(built: Built) -> list[str]:
    """A flat roof's load anywhere but on the two walls that its joists rest on."""
    plan = Plan(built)
    spans = built.building.roof.spans or ("width" if plan.width < plan.depth else "depth")
    bearing = ("left", "right") if spans == "width" else ("front", "back")
    found = []
    for wall in built.walls:
        carried = wall.wall.carries
        if carried is None or (carried.load == "roof") != (wall.side in bearing):
            found.append(f"{wall.side} carries {carried}")
    return found


def faults_of_building(built: Built) -> list[str]:
    """Everything that is wrong with a building."""
    judges = (
        faults_of_framing, faults_of_caps, faults_of_skin_corners, faults_of_facing, faults_of_openings_asked,
        faults_of_parts, faults_of_loads,
    )  # fmt: skip
    return [fault for judge in judges for fault in judge(built)]
