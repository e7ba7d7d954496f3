"""Rows of fasteners in sheets: along every edge that has timber behind it, and on the supports between."""

import msgspec

from wallwright.domain.fasteners.driven import BESIDE, REACH, along, driven, spacing_of
from wallwright.domain.fasteners.ends import CUT_CLEAR
from wallwright.domain.fasteners.panels import level_edges, sloping_edges, solid_across, solid_along, upright_edges
from wallwright.domain.fasteners.schedule import Schedule
from wallwright.domain.fasteners.site import (
    EDGE,
    PANEL_EDGE,
    Group,
    Panel,
    Place,
    Site,
    Span,
    foot_at,
    low_top,
    minus,
    overlap,
    spread,
    top_at,
)
from wallwright.domain.members import Member
from wallwright.domain.wall import End
from wallwright.lengths import INCH, inches

AT_FLOOR = inches("3/4")
"""The row in the bottom plate stands this far above its underside, that in the rim this far below the panel."""
RIM_BEARING = inches("1 1/8")
"""An under-sheet of at least the panel and this much is carried by the rim."""


class _Run(msgspec.Struct, frozen=True, gc=False):
    """A stretch of an upright row: its x, its heights, and the member behind it."""

    x: int
    low: int
    high: int
    member: Member


def sheet_joints(site: Site, schedule: Schedule) -> list[Group]:
    """Every row of every sheet."""
    outermost = [m for m in site.members if m.z == 0]
    groups: list[Group] = []
    for panel in site.panels:
        left, right = panel.left - REACH, panel.right + REACH
        behind = [m for m in outermost if m.x <= right and m.right >= left]
        edges = _upright_rows(panel, behind)
        found: list[Group] = []
        for run in edges:
            found += driven(site, schedule, "sheet-edge", panel, run.member, _up_points(schedule, run))
        found += _level_rows(site, schedule, panel, behind)
        found += _floor_rows(site, schedule, panel)
        found += _slope_rows(site, schedule, panel)
        found += _field_rows(site, schedule, panel, edges)
        for end, from_left in ((site.wall.left, True), (site.wall.right, False)):
            found += _next_post(site, schedule, panel, end, from_left)
        # Where two rows cross at one place a single fastener stands in both.
        holes: dict[Place, Group] = {}
        for group in found:
            holes.setdefault(group.drives[0].at, group)
        groups += holes.values()
    return groups


def _up_points(schedule: Schedule, run: _Run) -> list[tuple[int, int]]:
    margin = max(min(INCH, (run.high - run.low) // 4), PANEL_EDGE)
    return [(run.x, y) for y in spread(run.low + margin, run.high - margin, spacing_of(schedule, "sheet-edge"))]


def _upright_rows(panel: Panel, behind: list[Member]) -> list[_Run]:
    """Rows along the panel's upright edges, each on the member nearest the edge at each height."""
    found: list[_Run] = []
    for x, low, high, to_right in upright_edges(panel):
        near = [
            m for m in behind
            if not m.role.endswith("plate") and m.role != "rough-sill" and m.y < high and m.top > low
            and (x - INCH <= m.right and m.x <= x + REACH if to_right else x - REACH <= m.right and m.x <= x + INCH)
            and (m.role != "blocking" or m.height > m.width or m.depth < m.stock.width or m.opening)
        ]  # fmt: skip
        stops = sorted({low, high, *(y for m in near for y in (m.y, low_top(m)) if low < y < high)})
        runs: list[_Run] = []
        for bottom, top in zip(stops, stops[1:], strict=False):
            run = _nearest(panel, near, x, to_right, bottom, top)
            if run is None:
                continue
            last = runs[-1] if runs else None
            if last is not None and last.high == bottom and (last.x, last.member.id) == (run.x, run.member.id):
                runs[-1] = _Run(run.x, last.low, top, run.member)
            else:
                runs.append(run)
        for run in runs:
            # In a strip one row serves both edges: two so near to each other would split the stud.
            taken = [(r.low, r.high) for r in found if r.member.id == run.member.id and abs(r.x - run.x) < BESIDE]
            found += [
                _Run(run.x, low, high, run.member)
                for low, high in minus([(run.low, run.high)], taken)
                if high - low >= 2 * EDGE
            ]
    return found


def _nearest(panel: Panel, near: list[Member], edge: int, to_right: bool, bottom: int, top: int) -> _Run | None:
    """The row on the member nearest an upright edge that is whole between two heights."""
    best: tuple[int, int, Member] | None = None
    reach = (edge, edge + REACH) if to_right else (edge - REACH, edge)
    # What is left of a sheet beside an opening may be a strip, so that its far edge counts as well as this one.
    whole = [overlap(span, reach) for span in solid_along(panel, bottom, top) if span[0 if to_right else 1] == edge]
    if not whole:
        return None
    within = (whole[0][0] + PANEL_EDGE, whole[0][1] - PANEL_EDGE)
    for m in near:
        if m.y > bottom or low_top(m) < top:
            continue
        low, high = overlap((m.x + EDGE, m.right - EDGE), within)
        if low > high:
            continue
        middle = (low + high) // 2
        x = min(middle, max(low, edge + BESIDE)) if to_right else max(middle, min(high, edge - BESIDE))
        distance = abs(x - edge)
        if best is None or (distance, m.x) < (best[0], best[2].x):
            best = (distance, x, m)
    return None if best is None else _Run(best[1], bottom, top, best[2])


def _holds(spans: list[Span], low: int, high: int) -> bool:
    return any(a <= low and b >= high for a, b in spans)


def _level_rows(site: Site, schedule: Schedule, panel: Panel, behind: list[Member]) -> list[Group]:
    """Rows along the panel's level edges above the floor: in plates, headers, sills and blocks."""
    spacing = spacing_of(schedule, "sheet-edge")
    groups: list[Group] = []
    placed: list[tuple[int, int, int, Member]] = []
    level = [m for m in behind if m.width > m.height or m.role == "blocking"]
    for y, left, right, upwards in level_edges(panel):
        if y <= 0:
            continue
        near = [
            m for m in level
            if m.x < right and m.right > left and m.y <= y + REACH and m.top >= y - REACH and not m.outline
        ]  # fmt: skip
        stops = sorted({left, right, *(x for m in near for x in (m.x, m.right) if left < x < right)})
        runs: list[tuple[int, int, int, Member]] = []
        for low, high in zip(stops, stops[1:], strict=False):
            chosen = _level_nearest(near, y, upwards, low, high)
            if chosen is None:
                continue
            at, member = chosen
            if runs and runs[-1][2] == low and (runs[-1][0], runs[-1][3].id) == (at, member.id):
                runs[-1] = (at, runs[-1][1], high, member)
            else:
                runs.append((at, low, high, member))
        for at, low, high, member in runs:
            # As beside an opening, so above and below one: in a strip one row serves both edges.
            taken = [(a, b) for y2, a, b, other in placed if other.id == member.id and abs(y2 - at) < BESIDE]
            placed.append((at, low, high, member))
            for start, end in minus([(max(low, member.x + EDGE), min(high, member.right - EDGE))], taken):
                points = along(panel, at, start, end, spacing)
                groups += driven(site, schedule, "sheet-edge", panel, member, points)
    return groups


def _level_nearest(near: list[Member], edge: int, upwards: bool, low: int, high: int) -> tuple[int, Member] | None:
    """The height of a row in the level member nearest to a level edge, and that member."""
    best: tuple[int, int, Member] | None = None
    for m in near:
        if m.x > low or m.right < high:
            continue
        within = (edge + PANEL_EDGE, edge + REACH) if upwards else (edge - REACH, edge - PANEL_EDGE)
        bottom, top = overlap((m.y + EDGE, m.top - EDGE), within)
        if bottom > top:
            continue
        middle = (bottom + top) // 2
        y = min(middle, max(bottom, edge + BESIDE)) if upwards else max(middle, min(top, edge - BESIDE))
        if best is None or (abs(y - edge), m.y) < (best[0], best[2].y):
            best = (abs(y - edge), y, m)
    return None if best is None else (best[1], best[2])


def _floor_rows(site: Site, schedule: Schedule, panel: Panel) -> list[Group]:
    """One row in the lowest plate and, where the sheet reaches down over it, one in the deck's rim."""
    wall, groups = site.wall, []
    spacing = spacing_of(schedule, "sheet-edge")
    if panel.bottom > AT_FLOOR:
        return []
    for plate in site.of("bottom-plate"):
        if plate.y:
            continue
        low, high = plate.x + EDGE, plate.right - EDGE
        gone = [(cut.left - CUT_CLEAR, cut.right + CUT_CLEAR) for cut in plate.cut_outs]
        for left, right in minus([(low, high)], gone):
            points = along(panel, AT_FLOOR, left, right, spacing)
            groups += driven(site, schedule, "sheet-edge", panel, plate, points)
    floor, under = wall.floor, wall.sheathing.under_sheet
    if floor.kind != "deck" or under < floor.panel + RIM_BEARING:
        return groups
    y = min(-floor.panel - AT_FLOOR, max(-under + AT_FLOOR, -floor.panel - floor.rim + AT_FLOOR))
    reach = [end.butts.slip_gap + end.butts.depth if end.butts else 0 for end in (wall.left, wall.right)]
    low, high = -reach[0] + EDGE, wall.length + reach[1] - EDGE
    points = along(panel, y, low, high, spacing_of(schedule, "sheet-to-rim"))
    return groups + driven(site, schedule, "sheet-to-rim", panel, "rim", points)


def _slope_rows(site: Site, schedule: Schedule, panel: Panel) -> list[Group]:
    """Rows along a panel's sloping edges, in the middle of the uppermost plate."""
    wall, groups = site.wall, []
    if wall.top.shape == "level":
        return []
    tops = site.of("cap-plate") or site.of("top-plate")
    spacing = spacing_of(schedule, "sheet-edge")
    for (x1, _), (x2, _) in sloping_edges(panel):
        for plate in tops:
            margin = EDGE + PANEL_EDGE
            low, high = overlap((min(x1, x2) + margin, max(x1, x2) - margin), (plate.x + margin, plate.right - margin))
            if low > high:
                continue
            rise = abs(top_at(plate, plate.right) - top_at(plate, plate.x))
            length = plate.right - plate.x
            # Along the slope no further apart than the row asks.
            step = max(1, int(spacing * length / (length * length + rise * rise) ** 0.5))
            points = [
                (x, (top_at(plate, x) + foot_at(plate, x)) // 2)
                for x in spread(low, high, step)
                if _within(panel, x, (top_at(plate, x) + foot_at(plate, x)) // 2)
            ]
            groups += driven(site, schedule, "sheet-edge", panel, plate, points)
    return groups


def _within(panel: Panel, x: int, y: int) -> bool:
    return _holds(solid_across(panel, x - PANEL_EDGE, x + PANEL_EDGE), y - PANEL_EDGE, y)


def _field_rows(site: Site, schedule: Schedule, panel: Panel, edges: list[_Run]) -> list[Group]:
    """Rows on the uprights behind a panel where no edge row is near, and in a top plate that lies under the cap."""
    spacing = spacing_of(schedule, "sheet-field")
    groups: list[Group] = []
    placed: list[tuple[int, Span]] = []
    left, right = panel.left, panel.right
    for stud in site.uprights:
        if stud.z or stud.right <= left or stud.x >= right:
            continue
        x = (stud.x + stud.right) // 2
        taken = [(run.low, run.high) for run in edges if abs(run.x - x) < REACH]
        # Of studs that touch one another one is enough.
        taken += [span for at, span in placed if abs(at - x) < BESIDE * 3]
        whole = [overlap((stud.y, low_top(stud)), span) for span in solid_across(panel, x - PANEL_EDGE, x + PANEL_EDGE)]
        for low, high in minus([span for span in whole if span[0] < span[1]], taken):
            placed.append((x, (low, high)))
            points = [(x, y) for y in _between(low, high, spacing)]
            groups += driven(site, schedule, "sheet-field", panel, stud, points)
    if site.wall.top.shape == "level" and site.of("cap-plate"):
        for plate in site.of("top-plate"):
            y = (plate.y + plate.top) // 2
            points = along(panel, y, plate.x + EDGE, plate.right - EDGE, spacing)
            groups += driven(site, schedule, "sheet-field", panel, plate, points)
    return groups


def _between(low: int, high: int, spacing: int) -> list[int]:
    """Places of a field row between two edge rows, which close it at both ends."""
    count = -(-(high - low) // spacing)
    return [low + (high - low) * number // count for number in range(1, count)]


def _next_post(site: Site, schedule: Schedule, panel: Panel, end: End, from_left: bool) -> list[Group]:
    """The row of a lapped sheet in the post of the wall met, near its own edge."""
    wall, meets = site.wall, end.butts
    if meets is None or end.sheathing_lap <= 0:
        return []
    near, far = meets.slip_gap, meets.slip_gap + meets.depth
    outer = -panel.left if from_left else panel.right - wall.length
    low, high = near + EDGE, min(far - EDGE, outer - PANEL_EDGE)
    if outer <= 0 or low > high:
        return []
    distance = max(low, min(high, outer - BESIDE))
    x = -distance if from_left else wall.length + distance
    joint, spacing = "sheet-to-next-post", spacing_of(schedule, "sheet-to-next-post")
    side = "left" if from_left else "right"
    points = []
    studs = [m for m in site.uprights if (m.x == 0 if from_left else m.right == wall.length)]
    top = low_top(studs[0]) if studs else wall.stud_top
    for a, b in solid_across(panel, x - PANEL_EDGE, x + PANEL_EDGE):
        bottom, highest = max(a + PANEL_EDGE, wall.stud_bottom + EDGE), min(b - PANEL_EDGE, top - EDGE)
        points += [(x, y) for y in spread(bottom, highest, spacing)]
    return driven(site, schedule, joint, panel, f"met-post-{side}", points)
