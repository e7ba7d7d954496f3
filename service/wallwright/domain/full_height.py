"""Full-height studs beyond the first king at each end of a header, where the table asks for more than one.

They stand tight against the king, away from the opening. Where there is no room for all of them, those that
fit are set, and the comparison with the table says what is lacking.
"""

from msgspec.structs import replace

from wallwright.domain.openings import Framed, Plan
from wallwright.domain.posts import post_edge
from wallwright.domain.sizing import kings_needed


def stiffened(plan: Plan) -> Plan:
    """The plan with every further full-height stud that the table asks for and that has room."""
    wall = plan.wall
    more = [kings_needed(wall, framed.opening.width) - 1 for framed in plan.framed]
    if not any(more):
        return plan
    right_of: list[int] = []
    left_of: list[int] = []
    for index in range(len(plan.framed) + 1):
        before = plan.framed[index - 1] if index else None
        after = plan.framed[index] if index < len(plan.framed) else None
        wanted = (more[index - 1] if before else 0, more[index] if after else 0)
        low = before.king_right + wall.thickness if before else post_edge(wall, wall.left)
        high = after.king_left if after else wall.length - post_edge(wall, wall.right)
        at_low, at_high = _shares(plan, low, high, wanted)
        right_of.append(at_low)
        left_of.append(at_high)
    framed = tuple(_with(one, wall.thickness, left_of[i], right_of[i + 1]) for i, one in enumerate(plan.framed))
    return replace(plan, framed=framed)


def _shares(plan: Plan, low: int, high: int, wanted: tuple[int, int]) -> tuple[int, int]:
    """How many studs stand from ``low`` up and from ``high`` down in a stretch between two kings (or posts)."""
    thick = plan.wall.thickness
    inside = [opening for opening in plan.in_bay if low <= opening.left and opening.right <= high]
    if inside:
        room_low = min(opening.left for opening in inside) - low
        room_high = high - max(opening.right for opening in inside)
        return min(wanted[0], room_low // thick), min(wanted[1], room_high // thick)
    places = max(0, high - low) // thick
    at_low = min(wanted[0], places)
    return at_low, min(wanted[1], places - at_low)


def _with(framed: Framed, thick: int, left: int, right: int) -> Framed:
    return replace(
        framed,
        more_left=tuple(framed.king_left - number * thick for number in range(1, left + 1)),
        more_right=tuple(framed.king_right + number * thick for number in range(1, right + 1)),
    )
