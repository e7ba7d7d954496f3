"""A wall as it is fastened: its members and sheets seen from the tape's end, and helpers to place fasteners in them.

Everything is reckoned on the wall as it lies when the tape is hooked at its left end, so that a wall and its mirror
image are fastened alike; what was placed is turned back at the end.
"""

from collections.abc import Iterable

import msgspec
from msgspec.structs import replace

from wallwright.domain.fasteners.schedule import Rule
from wallwright.domain.fasteners.values import Direction
from wallwright.domain.members import CutOut, Layout, Member
from wallwright.domain.mirror import mirrored_wall
from wallwright.domain.skin import Outline, Skin
from wallwright.domain.slopes import mirrored_outline
from wallwright.domain.wall import Wall
from wallwright.lengths import inches

Span = tuple[int, int]
Place = tuple[int, int, int]

EDGE = inches("1/4")
"""Least distance from a fastener to the edge or end of solid timber."""
PANEL_EDGE = inches("3/8")
"""Least distance from a fastener to a panel's edge."""
STANDING = frozenset(
    ("end-stud", "corner-stud", "field-stud", "seam-stud", "king-stud", "jack-stud", "cripple", "backing")
)


class Panel(msgspec.Struct, frozen=True):
    """A piece of sheathing: its outline, then its cut-outs."""

    id: str
    loops: tuple[Outline, ...]
    treated: bool = False

    @property
    def left(self) -> int:
        """x of its left edge."""
        return min(x for x, _ in self.loops[0])

    @property
    def right(self) -> int:
        """x of its right edge."""
        return max(x for x, _ in self.loops[0])

    @property
    def bottom(self) -> int:
        """y of its lower edge."""
        return min(y for _, y in self.loops[0])


class Site(msgspec.Struct, frozen=True):
    """The wall with its tape at the left, members and sheets likewise."""

    wall: Wall
    members: tuple[Member, ...]
    panels: tuple[Panel, ...]
    turned: bool
    in_order: tuple[Member, ...]
    """The members from left to right, then from the bottom up."""
    uprights: tuple[Member, ...]
    """Members that stand, blocks apart, in that order."""
    starting: dict[int, list[Member]]
    """The uprights by the x at which they begin."""
    ending: dict[int, list[Member]]
    """The uprights by the x at which they end."""

    def of(self, *roles: str) -> list[Member]:
        """Members of these roles, from left to right, then from the bottom up."""
        return [m for m in self.in_order if m.role in roles]


class Drive(msgspec.Struct, frozen=True, gc=False):
    """One fastener to be driven: where its head lies, the way it goes, and the pieces in its way."""

    at: Place
    direction: Direction
    pieces: tuple[str, ...]


class Group(msgspec.Struct, frozen=True, gc=False):
    """The fasteners of one joint, or of one place in a row.

    ``held`` is what they pass before the last piece, ``solid`` all the timber in their way, both along the drive.
    ``out`` tells whether a point past that timber comes out; ``grain`` how it meets the last piece: ``side``, ``end``
    or ``toe``.
    """

    joint: str
    rule: Rule
    drives: tuple[Drive, ...]
    held: int
    solid: int
    out: bool = True
    grain: str = "side"


def site_of(layout: Layout, skin: Skin) -> Site:
    """The wall as its fasteners are reckoned."""
    wall, members = layout.wall, layout.members
    panels = tuple(Panel(p.id, (p.outline, *p.cut_outs)) for p in skin.pieces)
    turned_round = wall.tape.start != "left"
    if turned_round:
        length = wall.length
        wall = mirrored_wall(wall)
        members = tuple(turned_member(member, length) for member in members)
        panels = tuple(Panel(p.id, tuple(mirrored_outline(loop, length) for loop in p.loops)) for p in panels)
    in_order = tuple(sorted(members, key=lambda m: (m.x, m.y, m.z)))
    uprights = tuple(m for m in in_order if m.role in STANDING and (m.role != "backing" or m.height > m.width))
    starting: dict[int, list[Member]] = {}
    ending: dict[int, list[Member]] = {}
    for stud in uprights:
        starting.setdefault(stud.x, []).append(stud)
        ending.setdefault(stud.right, []).append(stud)
    return Site(wall, members, panels, turned_round, in_order, uprights, starting, ending)


def turned_member(member: Member, length: int) -> Member:
    """A member seen in a mirror at the middle of a plate of ``length``."""
    cuts = tuple(CutOut(length - cut.right, length - cut.left) for cut in reversed(member.cut_outs))
    outline = mirrored_outline(member.outline, length) if member.outline else ()
    return replace(member, x=length - member.right, cut_outs=cuts, outline=outline)


def turned(drive: Drive, length: int) -> Drive:
    """A drive seen in the same mirror."""
    (x, y, z), (dx, dy, dz) = drive.at, drive.direction
    return Drive((length - x, y, z), (-dx if dx else dx, dy, dz), drive.pieces)


def spread(low: int, high: int, most: int) -> list[int]:
    """Places from ``low`` to ``high``, both included, evenly and at most ``most`` apart; the middle where there is little room."""
    if high < low:
        return []
    if high - low < 2 * EDGE:
        return [(low + high) // 2]
    count = -(-(high - low) // most)
    return [low + (high - low) * number // count for number in range(count + 1)]


def shared_out(low: int, high: int, count: int) -> list[int]:
    """``count`` places from ``low`` to ``high`` in the middles of equal parts, or closer to the ends where these are thin."""
    if count > 1 and (high - low) // (2 * count) < EDGE:
        first, last = low + EDGE, high - EDGE
        return [first + (last - first) * number // (count - 1) for number in range(count)]
    return [low + (high - low) * (2 * number + 1) // (2 * count) for number in range(count)]


def staggered(low: int, high: int, count: int) -> list[int]:
    """``count`` places a quarter and three quarters of the way from ``low`` to ``high`` in turn, so that no grain line splits."""
    quarter = (high - low) // 4
    return [low + quarter if number % 2 == 0 else high - quarter for number in range(count)]


def in_section(across: Span, deep: Span, count: int) -> list[tuple[int, int]]:
    """``count`` places in a section: along its longer side, staggered over the shorter; the first figure lies in ``across``.

    Both spans are the section's own, and no place comes nearer to its edges than `EDGE`.
    """
    thin = (across[0] + EDGE, across[1] - EDGE)
    flat = (deep[0] + EDGE, deep[1] - EDGE)
    if deep[1] - deep[0] >= across[1] - across[0]:
        return list(zip(staggered(*thin, count), shared_out(*deep, count), strict=True))
    return list(zip(shared_out(*across, count), staggered(*flat, count), strict=True))


def minus(spans: Iterable[Span], gone: Iterable[Span]) -> list[Span]:
    """What is left of spans once others are taken out."""
    left = sorted(spans)
    for low, high in gone:
        left = [
            part for a, b in left for part in ((a, min(b, low)), (max(a, high), b)) if part[0] < part[1]
        ]  # fmt: skip
    return sorted(left)


def overlap(one: Span, other: Span) -> Span:
    """What two spans share; its end lies before its start where they share nothing."""
    return max(one[0], other[0]), min(one[1], other[1])


def top_at(member: Member, x: int) -> int:
    """y of a member's upper side at x, rounded down."""
    return _side_at(member, x, upper=True)


def foot_at(member: Member, x: int) -> int:
    """y of a member's lower side at x, rounded down."""
    return _side_at(member, x, upper=False)


def _side_at(member: Member, x: int, *, upper: bool) -> int:
    if not member.outline:
        return member.top if upper else member.y
    ys = []
    points = member.outline
    for (x1, y1), (x2, y2) in zip(points, (*points[1:], points[0]), strict=True):
        if x1 != x2 and min(x1, x2) <= x <= max(x1, x2):
            ys.append(y1 + (y2 - y1) * (x - x1) // (x2 - x1))
    if not ys:
        return member.top if upper else member.y
    return max(ys) if upper else min(ys)


def low_top(member: Member) -> int:
    """The lowest y of a member's upper side: up to here it is whole."""
    return min(top_at(member, member.x), top_at(member, member.right))
