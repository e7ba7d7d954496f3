"""What stands in the way of framing a wall at all, before its openings are thought of."""

from wallwright.domain.openings import post_edge
from wallwright.domain.slope_checks import check_slope, least_height
from wallwright.domain.wall import Wall
from wallwright.findings import Fault
from wallwright.lengths import INCH

LEAST_STUD = 6 * INCH
"""The shortest stud that a wall is framed with."""


def check(wall: Wall) -> list[Fault]:
    """Faults of the wall's own sizes: too short, too low, spacing too close, a cap or a face of no length."""
    faults = check_slope(wall)
    if faults:
        return faults
    shortest = post_edge(wall, wall.left) + post_edge(wall, wall.right)
    if wall.length < shortest:
        faults.append(Fault("wall-too-short", "/length", (("given", wall.length), ("least", shortest))))
    lowest = (
        wall.stud_bottom + wall.plates.top * wall.thickness + LEAST_STUD
        if wall.top.shape == "level"
        else least_height(wall)
    )
    if wall.height < lowest:
        faults.append(Fault("wall-too-low", "/height", (("given", wall.height), ("least", lowest))))
    closest = 3 * wall.thickness
    if "two-stud" in (wall.left.post, wall.right.post):
        closest += wall.depth
    if wall.spacing < closest:
        faults.append(Fault("spacing-too-close", "/spacing", (("given", wall.spacing), ("least", closest))))
    if wall.length + wall.left.cap_lap + wall.right.cap_lap <= wall.thickness:
        faults.append(Fault("cap-too-short", "/ends/left/cap_lap", (("given", wall.left.cap_lap),)))
    if wall.face_right - wall.face_left <= wall.thickness:
        faults.append(Fault("face-too-narrow", "/ends/left/sheathing_lap", (("given", wall.left.sheathing_lap),)))
    return faults
