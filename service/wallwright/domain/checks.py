"""What stands in the way of framing a wall at all, before its openings are thought of."""

from wallwright.domain.posts import post_edge
from wallwright.domain.slope_checks import check_slope, least_height
from wallwright.domain.wall import Wall
from wallwright.findings import Fault, Value, at_least, at_most
from wallwright.lengths import INCH, inches

LEAST_STUD = 6 * INCH
"""The shortest stud that a wall is framed with."""
LEAST_LAP = inches("1/8")
"""How far a shiplap edge reaches under the next sheet at least, past the gap."""


def posts_width(wall: Wall) -> int:
    """The length of plate that both ends' posts take."""
    return post_edge(wall, wall.left) + post_edge(wall, wall.right)


def least_length(wall: Wall) -> int:
    """The shortest plate that its ends allow: the posts stand clear, and a cap plate and a face are left."""
    laps = (wall.left.cap_lap + wall.right.cap_lap, wall.left.sheathing_lap + wall.right.sheathing_lap)
    return max(posts_width(wall), wall.thickness - min(laps))


def lowest_height(wall: Wall) -> int:
    """The lowest that the wall can be: its plates and the shortest stud."""
    if wall.top.shape == "level":
        return wall.stud_bottom + wall.plates.top * wall.thickness + LEAST_STUD
    return least_height(wall)


def check(wall: Wall) -> list[Fault]:
    """Faults of the wall's own sizes: too short, too low, spacing too close, a cap or a face of no length."""
    values: tuple[tuple[str, Value], ...]
    faults = check_slope(wall)
    if faults:
        return faults
    shortest = posts_width(wall)
    if wall.length < shortest:
        faults.append(Fault("wall-too-short", "/length", (("given", wall.length), ("least", at_least(shortest)))))
    lowest = lowest_height(wall)
    if wall.height < lowest:
        faults.append(Fault("wall-too-low", "/height", (("given", wall.height), ("least", at_least(lowest)))))
    closest = 3 * wall.thickness
    if "two-stud" in (wall.left.post, wall.right.post):
        closest += wall.depth
    if wall.spacing < closest:
        faults.append(Fault("spacing-too-close", "/spacing", (("given", wall.spacing), ("least", at_least(closest)))))
    length = max(wall.length, shortest)
    for code, field in (("cap-too-short", "cap_lap"), ("face-too-narrow", "sheathing_lap")):
        given = getattr(wall.left, field)
        least = wall.thickness - length - getattr(wall.right, field)
        if given < least:
            faults.append(Fault(code, f"/ends/left/{field}", (("given", given), ("least", at_least(least)))))
    sheet, gap = wall.sheathing.sheet, wall.sheathing.gap
    if sheet.edge == "shiplap" and sheet.lap < gap + LEAST_LAP:
        values = (("given", sheet.lap), ("gap", gap), ("least", at_least(gap + LEAST_LAP)))
        faults.append(Fault("lap-too-short", "/sheathing/sheet/lap", values))
    for number, at in enumerate(wall.floor.anchors):
        # In the mirror of a wall laid out from its right end, what lies beyond the plate is below 0.
        if not 0 <= at <= wall.length:
            values = (("given", at), ("most", at_most(length)))
            faults.append(Fault("anchor-outside-wall", f"/floor/anchors/{number}", values))
    return faults
