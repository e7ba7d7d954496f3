"""The judge of a building under a sloped roof: four walls that close beneath one roof line, in three dimensions."""

from fractions import Fraction

from shapely import Polygon
from tests.property import closing
from tests.property.closing import Plan
from tests.property.slope import top_at
from tests.property.sloping import UNIT, shape

from wallwright.domain.building import SIDES, Built, SideName
from wallwright.domain.members import Member

Prism = tuple[Polygon, tuple[int, int], tuple[int, int], str]
"""A member's outline in its own elevation, where it stands on the plan in X and in Y, and its wall's side."""


def across_span(built: Built) -> bool:
    """Whether the span runs along the plan's Y (the depth)."""
    bearing = [wall.side for wall in built.walls if wall.wall.top.shape == "level"]
    return "front" in bearing


def roof_at(built: Built, x: int, y: int) -> Fraction:
    """The roof line over a place on the plan, reckoned from the low or eaves wall's inner face."""
    plan, roof = Plan(built), built.building.roof
    slope = Fraction(roof.rise, roof.run)
    at, span = (y, plan.depth) if across_span(built) else (x, plan.width)
    near, far = ("front", "back") if across_span(built) else ("left", "right")
    depths = {side: plan.walls[side].wall.depth for side in (near, far)}
    if roof.shape == "gable":
        return built.building.wall_height + slope * (min(at, span - at) - min(depths.values()))
    from_low = at if roof.high_side == far else span - at
    return built.building.wall_height + slope * (from_low - depths[near if roof.high_side == far else far])


def prisms(built: Built) -> list[tuple[str, Member, Prism]]:
    """Every member of every wall as the prism that it fills."""
    plan = Plan(built)
    found = []
    for side in SIDES:
        for member in plan.walls[side].layout.members:
            a = plan.along(side, member.x, member.right)
            b = plan.across(side, member.z, member.z + member.depth)
            x, y = (a, b) if side in ("front", "back") else (b, a)
            found.append((f"{side} {member.id}", member, (shape(member), x, y, side)))
    return found


def faults_of_corners(built: Built) -> list[str]:
    """Members of two walls that stand in one another; on the plan walls are a slip gap apart at every height."""
    found = []
    plan = Plan(built)
    placed = prisms(built)
    for number, (one, _, (_, x1, y1, side)) in enumerate(placed):
        for other, _, (_, x2, y2, met) in placed[number + 1 :]:
            # In plan no two walls meet at all, since no cap laps: that holds in three dimensions too.
            if side != met and x1[0] < x2[1] and x2[0] < x1[1] and y1[0] < y2[1] and y2[0] < y1[1]:
                found.append(f"{one} stands in {other}")
    xs = [edge for _, _, (_, x, _, _) in placed for edge in x]
    ys = [edge for _, _, (_, _, y, _) in placed for edge in y]
    if (min(xs), max(xs), min(ys), max(ys)) != (0, plan.width, 0, plan.depth):
        found.append("the framing is not the size asked for")
    return found


def faults_of_roof_line(built: Built) -> list[str]:
    """Rakes and gables off the roof line, level walls that do not touch it, or that stand above it past their seat."""
    plan, found = Plan(built), []
    for side in SIDES:
        wall = plan.walls[side].wall
        for at in (0, wall.length):
            own = top_at(wall, at)
            if wall.top.shape == "level":
                high = built.building.roof.shape == "lean-to" and built.building.roof.high_side == side
                touches = _corner(plan, side, at, 0 if high else wall.depth)
                if not -UNIT < own - roof_at(built, *touches) <= 0:
                    found.append(f"{side} stands {float(own - roof_at(built, *touches))} from the roof line")
            elif not -2 * UNIT < own - roof_at(built, *_corner(plan, side, at, 0)) <= 0:
                off = float(own - roof_at(built, *_corner(plan, side, at, 0)))
                found.append(f"{side} is {off} off the roof line at {at}")
        if wall.top.shape == "gable":
            peak = top_at(wall, wall.top.ridge or 0)
            middle = (plan.width // 2, plan.depth // 2)
            if abs(peak - roof_at(built, *middle)) > 2 * UNIT:
                found.append(f"{side} has its ridge {float(peak - roof_at(built, *middle))} from the roof's")
    return found


def _corner(plan: Plan, side: SideName, along: int, inward: int) -> tuple[int, int]:
    a, b = plan.along(side, along, along)[0], plan.across(side, inward, inward)[0]
    return (a, b) if side in ("front", "back") else (b, a)


def faults_of_ties(built: Built) -> list[str]:
    """Corners with a lapped cap, or that nothing ties."""
    tied = sorted(str(dict(f.values)["corner"]) for f in built.findings if f.code == "tie-cap")
    lapped = [corner.name for corner in built.corners if corner.cap_lap]
    if lapped or tied != sorted(corner.name for corner in built.corners):
        return [f"{lapped} lap, {tied} are tied"]
    return []


def faults_of_loads(built: Built) -> list[str]:
    """A roof's load anywhere but on the two level walls, or over another width than theirs apart, out to out."""
    plan, found = Plan(built), []
    span = plan.depth if across_span(built) else plan.width
    for one in built.walls:
        carried = one.wall.carries
        wanted = ("roof", span) if one.wall.top.shape == "level" else ("none", None)
        if carried is None or (carried.load, carried.building_width) != wanted:
            found.append(f"{one.side} carries {carried}")
    return found


def faults_of_building(built: Built) -> list[str]:
    """Everything that is wrong with a building under a sloped roof."""
    return [
        *faults_of_corners(built), *faults_of_roof_line(built), *faults_of_ties(built), *faults_of_loads(built),
        *closing.faults_of_skin_corners(built), *closing.faults_of_facing(built),
        *closing.faults_of_openings_asked(built), *closing.faults_of_parts(built),
    ]  # fmt: skip
