"""Braces of the walls of one building: room between walls opposite each other, and clear of one another in corners.

A through wall is braced as it stands alone. A butt wall slides in between two that stand and is tied to them at its ends, so
that its ends need no brace: its braces may stand further in, past the feet of the through walls' braces.
"""

from collections.abc import Mapping
from typing import Final, Literal

import msgspec

from wallwright.domain.members import Layout
from wallwright.domain.raising.braces import Brace, braces, braces_at, clear_studs
from wallwright.domain.raising.notes import room_findings
from wallwright.findings import Finding, Value
from wallwright.lengths import INCH
from wallwright.published.raising import BRACE_APART

SideName = Literal["front", "right", "back", "left"]
_PAST: Final = 6 * INCH
"""How far braces pass one another in plan: common practice, no source."""
_AROUND: Final[tuple[SideName, ...]] = ("front", "right", "back", "left")
"""Each wall's right end meets the next one's left end, all seen from outside."""


class Together(msgspec.Struct, frozen=True):
    """The braces of every wall of a building, and what is to be said of them."""

    braces: dict[SideName, tuple[Brace, ...]]
    findings: tuple[Finding, ...]


class Corner(msgspec.Struct, frozen=True, gc=False):
    """Where the end of a butt wall stands against a through wall's inner face, ``slip`` from it."""

    name: str
    through: SideName
    butt: SideName
    slip: int


def braced_together(
    layouts: Mapping[SideName, Layout], corners: tuple[Corner, ...], width: int, depth: int
) -> Together:
    """Every wall's braces: those of butt walls moved clear of the through walls' where a lawful place is; findings.

    ``width`` and ``depth`` are the framing's, on the grid. A lawful place is at most 10 ft from the corner, which is tied, and
    leaves no more than that between braces.
    """
    found = {side: braces(one.wall, one.members) for side, one in layouts.items()}
    told: list[Finding] = []
    for butt in dict.fromkeys(corner.butt for corner in corners):
        own = tuple(corner for corner in corners if corner.butt == butt)
        if not any(_crossings(layouts, found, corner) for corner in own):
            continue
        moved = _moved(layouts, found, own)
        if moved:
            before = found[butt]
            found[butt] = moved
            told += [
                _told(layouts, found, corner)
                for corner in own
                if _first(layouts, before, corner) != _first(layouts, moved, corner)
            ]
        told += [finding for corner in own for finding in _crossing(layouts, found, corner)]
    return Together(found, (*_room(layouts, found, width, depth), *told))


def _from_corner(layouts: Mapping[SideName, Layout], side: SideName, corner: Corner, x: int) -> int:
    """How far from the inner corner a place along a wall lies: a through wall runs past it, a butt wall ends short of it."""
    other = corner.butt if side == corner.through else corner.through
    at_left = _AROUND[_AROUND.index(side) - 1] == other
    along = x if at_left else layouts[side].wall.length - x
    return along + corner.slip if side == corner.butt else along - layouts[corner.butt].wall.depth


def _clear(a: int, out_a: int, b: int, out_b: int) -> bool:
    """Whether in plan a brace at ``a`` passes one at ``b`` on the other wall, each square to its own wall and so far out."""
    return a >= out_b + _PAST or b >= out_a + _PAST


def _crossings(
    layouts: Mapping[SideName, Layout], found: Mapping[SideName, tuple[Brace, ...]], corner: Corner
) -> list[tuple[int, int]]:
    """Where braces of both walls cross: how far each stands from the inner corner, the nearest first."""
    one, other = (
        [(_from_corner(layouts, side, corner, brace.x), brace.out) for brace in found[side]]
        for side in (corner.through, corner.butt)
    )
    return sorted((a, b) for a, out_a in one for b, out_b in other if not _clear(a, out_a, b, out_b))


def _moved(
    layouts: Mapping[SideName, Layout], found: Mapping[SideName, tuple[Brace, ...]], own: tuple[Corner, ...]
) -> tuple[Brace, ...]:
    """The butt wall's braces, clear of those of both through walls, else of one; none where no lawful place is left."""
    layout = layouts[own[0].butt]
    studs = clear_studs(layout.wall, layout.members)
    for kept in (own, *((corner,) for corner in own)):
        free = []
        for stud in studs:
            up = stud.top
            at = (stud.x + stud.right) // 2
            spots = [(_from_corner(layouts, corner.butt, corner, at), found[corner.through], corner) for corner in kept]
            if all(
                _clear(_from_corner(layouts, corner.through, corner, brace.x), brace.out, spot, up)
                for spot, theirs, corner in spots
                for brace in theirs
            ):
                free.append(stud)
        chosen = braces_at(layout.wall, free)
        trial = {**found, own[0].butt: chosen}
        better = sum(len(_crossings(layouts, trial, corner)) for corner in own) < sum(
            len(_crossings(layouts, found, corner)) for corner in own
        )
        if chosen and better and _lawful(layouts, found[own[0].butt], chosen, own):
            return chosen
    return ()


def _first(layouts: Mapping[SideName, Layout], braced: tuple[Brace, ...], corner: Corner) -> int:
    return min(_from_corner(layouts, corner.butt, corner, brace.x) for brace in braced)


def _lawful(
    layouts: Mapping[SideName, Layout], before: tuple[Brace, ...], braced: tuple[Brace, ...], own: tuple[Corner, ...]
) -> bool:
    """Whether no end and no stretch of wall is longer without a brace than 10 ft, or than it was, and two are left of two."""
    widest = max((b.x - a.x for a, b in zip(before, before[1:], strict=False)), default=0)
    near = all(_first(layouts, braced, corner) <= BRACE_APART for corner in own)
    apart = all(b.x - a.x <= max(BRACE_APART, widest) for a, b in zip(braced, braced[1:], strict=False))
    return near and apart and len(braced) >= min(2, len(before))


def _told(layouts: Mapping[SideName, Layout], found: Mapping[SideName, tuple[Brace, ...]], corner: Corner) -> Finding:
    values: tuple[tuple[str, Value], ...] = (
        ("butt", corner.butt), ("through", corner.through), ("at", _first(layouts, found[corner.butt], corner)),
    )  # fmt: skip
    return Finding("brace-past-corner", f"/walls/{corner.butt}", values)


def _crossing(
    layouts: Mapping[SideName, Layout], found: Mapping[SideName, tuple[Brace, ...]], corner: Corner
) -> list[Finding]:
    places = _crossings(layouts, found, corner)
    if not places:
        return []
    a, b = places[0]
    values: tuple[tuple[str, Value], ...] = (
        ("corner", corner.name), ("through", corner.through), ("butt", corner.butt), ("one", a), ("other", b),
        ("count", str(len(places))),
    )  # fmt: skip
    return [Finding("braces-cross-at-corner", f"/walls/{corner.butt}", values)]


def _room(
    layouts: Mapping[SideName, Layout], found: Mapping[SideName, tuple[Brace, ...]], width: int, depth: int
) -> list[Finding]:
    """Whether the braces of walls opposite each other have room."""
    pairs: tuple[tuple[SideName, SideName, int, str], ...] = (
        ("front", "back", depth, "/footprint/depth"),
        ("left", "right", width, "/footprint/width"),
    )
    told: list[Finding] = []
    for one, other, over, pointer in pairs:
        clear = over - layouts[one].wall.depth - layouts[other].wall.depth
        told += room_findings(found[one], found[other], clear, (one, other), pointer)
    return told
