"""Temporary braces: how many, on which studs, how long, at what angle."""

from math import hypot, radians, sin, tan
from typing import Final

import msgspec

from wallwright.domain.members import Member
from wallwright.domain.wall import Wall
from wallwright.lengths import INCH, round_up
from wallwright.published.raising import BRACE_APART, BRACE_DEGREES, BRACE_SOURCE
from wallwright.sources import Source

HOLD: Final = 6 * INCH
"""How far a brace runs past its nails at either end: common practice, no source."""
CORNER_CLEAR: Final = 12 * INCH
"""How far braces stand from the walls that this one meets, beside their depth: common practice, no source."""
STEEPEST_DEGREES: Final = 60.0
"""No brace is steeper: common practice, no source."""
_STEP: Final = INCH
_FULL: Final = ("end-stud", "corner-stud", "king-stud", "field-stud", "seam-stud")
"""Studs that reach from plate to plate, which a brace is nailed to."""


class Brace(msgspec.Struct, frozen=True, gc=False):
    """One brace, inside, square to the wall: the stud that it is nailed to, how high, and where its foot stands.

    ``length`` is the board's, past its nails at both ends; ``share`` the part of the wall that it holds.
    """

    member: str
    x: int
    up: int
    out: int
    length: int
    angle_degrees: float
    share: float
    source: Source


def upright(wall: Wall, member: Member) -> bool:
    """Whether a member is a stud that reaches from plate to plate."""
    return member.role in _FULL and member.width <= member.depth and member.y == wall.stud_bottom


def braces(wall: Wall, members: tuple[Member, ...]) -> tuple[Brace, ...]:
    """Braces at both ends and between them at most 10 ft apart, at 45 degrees, from the left to the right.

    An end that meets a wall is braced at the first stud clear of where that wall stands. Places are sought from the tape's end, so that a mirrored wall has the mirrored braces.
    """
    return braces_at(wall, clear_studs(wall, members))


def braces_at(wall: Wall, studs: list[Member]) -> tuple[Brace, ...]:
    """Braces on the first and the last of these studs, and evenly on as few of those between as may be."""
    from_left = wall.tape.start == "left"
    spots = sorted(
        ((stud.x + stud.right) // 2 if from_left else wall.length - (stud.x + stud.right + 1) // 2, stud.id, stud)
        for stud in studs
    )
    at = [spot for spot, _, _ in spots]
    chosen = [spots[number][2] for number in _chosen(at)]
    if not from_left:
        chosen.reverse()
    middles = [(stud.x + stud.right) // 2 for stud in chosen]
    halves = [(a + b) / 2 for a, b in zip(middles, middles[1:], strict=False)]
    bounds = [0.0, *halves, float(wall.length)]
    return tuple(
        _brace(stud, middle, (right - left) / wall.length)
        for stud, middle, left, right in zip(chosen, middles, bounds, bounds[1:], strict=False)
    )


def clear_studs(wall: Wall, members: tuple[Member, ...]) -> list[Member]:
    """Studs that may be braced: clear of walls met, or in a wall too short for that, those nearest to its middle."""
    studs = [member for member in members if upright(wall, member)]
    least = wall.left.meets.depth + CORNER_CLEAR if wall.left.meets is not None else 0
    most = wall.length - (wall.right.meets.depth + CORNER_CLEAR if wall.right.meets is not None else 0)
    clear = [stud for stud in studs if least <= stud.x and stud.right <= most]
    if clear or not studs:
        return clear
    nearest = min(abs(stud.x + stud.right - wall.length) for stud in studs)
    return [stud for stud in studs if abs(stud.x + stud.right - wall.length) == nearest]


class Steep(msgspec.Struct, frozen=True, gc=False):
    """A brace as steep as may be: where its foot stands, and the board's length."""

    out: int
    length: int


def steep(up: int) -> Steep:
    """A brace nailed so far up, where there is little room."""
    turn = radians(STEEPEST_DEGREES)
    return Steep(round_up(round(up / tan(turn)), _STEP), round_up(round(up / sin(turn)) + 2 * HOLD, _STEP))


def _brace(stud: Member, x: int, share: float) -> Brace:
    up = out = stud.top
    return Brace(
        stud.id, x, up, out, round_up(round(hypot(up, out)) + 2 * HOLD, _STEP), BRACE_DEGREES, share, BRACE_SOURCE
    )


def _chosen(at: list[int]) -> list[int]:
    """Indexes of the studs that are braced: the first, the last, and as few as may be evenly between them."""
    last = len(at) - 1
    if last <= 0:
        return list(range(len(at)))
    spans = max(1, -(-(at[last] - at[0]) // BRACE_APART))
    while True:
        wanted = [at[0] + (at[last] - at[0]) * number // spans for number in range(spans + 1)]
        found = sorted({min(range(len(at)), key=lambda index: (abs(at[index] - spot), index)) for spot in wanted})
        near = all(at[b] - at[a] <= BRACE_APART for a, b in zip(found, found[1:], strict=False))
        # Where no stud stands within the distance, as over a wide opening, more braces would not help.
        if near or spans > len(at):
            return found
        spans += 1
