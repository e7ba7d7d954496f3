"""Temporary braces: how many, on which studs, how long, at what angle."""

from math import hypot
from typing import Final

import msgspec

from wallwright.domain.members import Member
from wallwright.domain.wall import Wall
from wallwright.lengths import INCH, round_up
from wallwright.published.raising import BRACE_APART, BRACE_DEGREES, BRACE_SOURCE
from wallwright.sources import Source

HOLD: Final = 6 * INCH
"""How far a brace runs past its nails at either end: common practice, no source."""
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

    Places are sought from the tape's end, so that a mirrored wall has the mirrored braces.
    """
    from_left = wall.tape.start == "left"
    spots = sorted(
        ((stud.x + stud.right) // 2 if from_left else wall.length - (stud.x + stud.right + 1) // 2, stud.id, stud)
        for stud in members
        if upright(wall, stud)
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
