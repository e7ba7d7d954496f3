"""How each opening is framed: its header, its jacks and kings, or flat blocks within one bay.

The wall is one that is laid out from its left end. Everything that stands in the way of framing an
opening is collected, so that all faults are told at once.
"""

import msgspec
from msgspec.structs import replace

from wallwright.domain.grid import lines_between
from wallwright.domain.opening_faults import block_room, lowest_door, misplaced, no_room, sizes_faults, too_thick
from wallwright.domain.posts import left_bound, post_edge, right_bound
from wallwright.domain.sizing import MOST_JACKS, jacks_needed, sized_header
from wallwright.domain.slopes import soffit
from wallwright.domain.stock import NOMINAL, of_the_yard
from wallwright.domain.wall import Header, Opening, Wall
from wallwright.findings import Fault
from wallwright.lengths import inches

DEFAULT_HEADERS = ("2x6", "2x4")
"""The plain default header, where the loads are not known, is the deepest of these that fits."""
_PLY = inches("1 1/2")


class Framed(msgspec.Struct, frozen=True):
    """An opening with jacks and header. x of the kings' left edges; a king may be shared or be the end's post."""

    opening: Opening
    header: Header
    is_default: bool
    jack_left: int
    """x of the outermost left jack's left edge."""
    jack_right: int
    """x of the outermost right jack's right edge."""
    header_left: int
    header_right: int
    king_left: int
    king_right: int
    own_left: bool
    own_right: bool
    """Whether the king on that side is this opening's own to add."""
    more_left: tuple[int, ...] = ()
    """x of the left edges of further full-height studs left of the left king, from the king outwards."""
    more_right: tuple[int, ...] = ()
    """The same right of the right king."""

    @property
    def header_top(self) -> int:
        """y of the header's upper side."""
        return self.opening.head + self.header.stock.width

    @property
    def outer_left(self) -> int:
        """x of the left edge of the outermost full-height stud at the left."""
        return self.more_left[-1] if self.more_left else self.king_left

    @property
    def outer_right(self) -> int:
        """x of the left edge of the outermost full-height stud at the right."""
        return self.more_right[-1] if self.more_right else self.king_right


class Plan(msgspec.Struct, frozen=True):
    """All openings of a wall: those with jacks, and those within one bay."""

    framed: tuple[Framed, ...]
    in_bay: tuple[Opening, ...]
    wall: Wall
    """The wall with each opening as it is framed: a header under the plates makes its opening higher."""


def plan_openings(wall: Wall, framed_anyway: frozenset[str] = frozenset()) -> tuple[Plan, list[Fault]]:
    """How the openings of a wall laid out from its left end are framed, and every fault found.

    ``framed_anyway`` names openings (by `key`) that would fit one bay but meet a member there.
    """
    faults: list[Fault] = []
    resolved: list[tuple[int, Opening, Header | None, bool]] = []
    roofs = _roofs(wall, framed_anyway)
    for index, opening in enumerate(wall.openings):
        faults += sizes_faults(wall, index, opening)
        if opening.sill == 0:
            # What is told of its header holds for the height that is offered.
            opening = replace(opening, height=max(opening.height, lowest_door(wall)))
        if _in_bay(wall, opening, framed_anyway):
            faults += block_room(wall, index, opening)
            resolved.append((index, opening, None, True))
            continue
        header, effective, is_default, more = _header(wall, index, opening, roofs[index])
        faults += more
        if not opening.jacks:
            effective = replace(effective, jacks=jacks_needed(wall, header))
        resolved.append((index, effective, header, is_default))
    crowded = misplaced(wall, resolved)
    framed = [] if crowded else _kings(wall, [(o, h, d) for _, o, h, d in resolved if h is not None])
    in_bay = tuple(opening for _, opening, header, _ in resolved if header is None)
    # Jacks left to the table stay so in the wall, as a header left to the service does.
    done = replace(
        wall, openings=tuple(replace(opening, jacks=wall.openings[index].jacks) for index, opening, _, _ in resolved)
    )
    return Plan(tuple(framed), in_bay, done), faults + crowded


def jacks_beside(wall: Wall, opening: Opening) -> int:
    """How many jacks stand at each side of an opening: as asked, or as the table asks for its header."""
    return opening.jacks or jacks_needed(
        wall, _header(wall, 0, opening, soffit(wall).least(opening.left, opening.right))[0]
    )


def _in_bay(wall: Wall, opening: Opening, framed_anyway: frozenset[str]) -> bool:
    return opening.header is None and key(opening) not in framed_anyway and fits_one_bay(wall, opening)


def _roofs(wall: Wall, framed_anyway: frozenset[str]) -> list[int]:
    """y of what is over each opening's header: the plates' underside, the lowest over the header's whole length."""
    if wall.top.shape == "level":
        return [wall.stud_top] * len(wall.openings)
    under = soffit(wall)
    # How far a header runs is set by jacks and kings, whatever the header is.
    thought = Header(NOMINAL["2x4"], 1)
    numbered = enumerate(wall.openings)
    asked = []
    for index, opening in numbered:
        if not _in_bay(wall, opening, framed_anyway):
            # Jacks that are left to the table are not known before the header is: the most that it asks for are thought of.
            asked.append((index, replace(opening, jacks=opening.jacks or MOST_JACKS)))
    found = [under.least(opening.left, opening.right) for opening in wall.openings]
    ordered = sorted(asked, key=lambda item: item[1].left)
    kings = _kings(wall, [(opening, thought, True) for _, opening in ordered])
    for (index, _), framed in zip(ordered, kings, strict=True):
        found[index] = under.least(framed.header_left, framed.header_right)
    return found


def key(opening: Opening) -> str:
    """What tells an opening from its neighbours, also in the mirror."""
    return f"{opening.name}/{opening.width}/{opening.height}/{opening.sill}/{opening.left}"


def fits_one_bay(wall: Wall, opening: Opening) -> bool:
    """Whether the opening lies between two neighbouring layout studs (or the end's post) and cuts neither."""
    half = wall.thickness // 2
    if opening.left < left_bound(wall).edge or opening.right > right_bound(wall).edge:
        return False
    if wall.top.shape != "level" and opening.head > soffit(wall).least(opening.left, opening.right):
        # Flat blocks have no room under the slope; a header's fault then tells what would fit.
        return False
    return not lines_between(wall, opening.left - wall.thickness + half + 1, opening.right + half - 1)


def _header(wall: Wall, index: int, opening: Opening, roof: int) -> tuple[Header, Opening, bool, list[Fault]]:
    """The header of an opening under ``roof``, and the opening as it becomes; faults where the header has no room."""
    room = roof - opening.head
    given = opening.header
    header = given or sized_header(wall, opening.width, room) or _default_header(wall, room)
    faults = []
    if header.plies * header.stock.thickness + header.spacer > wall.depth:
        faults.append(too_thick(wall, index, header))
    if header.stock.width > room:
        faults.append(no_room(wall, index, opening, header, roof))
        return header, opening, given is None, faults
    if header.seat == "plate":
        opening = replace(opening, height=roof - header.stock.width - opening.sill)
    return header, opening, given is None, faults


def _default_header(wall: Wall, room: int) -> Header:
    """The deepest plain header that fits under the plates; the shallowest one where none does."""
    plies = max(1, min(2, wall.depth // _PLY))
    stocks = [of_the_yard(name, wall.stud) for name in DEFAULT_HEADERS]
    return Header(next((stock for stock in stocks if stock.width <= room), stocks[-1]), plies)


def _kings(wall: Wall, openings: list[tuple[Opening, Header, bool]]) -> list[Framed]:
    """Kings, own or shared, of the openings with jacks, from left to right; each has room where it stands."""
    thick = wall.thickness
    ordered = sorted(openings, key=lambda item: item[0].left)
    framed: list[Framed] = []
    # The nearest king so far: x of its left edge, and where the room for the next opening begins.
    edge = post_edge(wall, wall.left)
    king: int | None = None if wall.left.post == "two-stud" else edge - thick
    for position, (opening, header, is_default) in enumerate(ordered):
        jacks = opening.jacks * thick
        own_left = king is None or opening.left >= edge + thick + jacks
        king_left = opening.left - jacks - thick if own_left or king is None else king
        last = position == len(ordered) - 1
        king_right, own_right = _right_king(wall, opening) if last else (opening.right + jacks, True)
        framed.append(
            Framed(
                opening,
                header,
                is_default,
                opening.left - jacks,
                opening.right + jacks,
                king_left + thick,
                king_right,
                king_left,
                king_right,
                own_left,
                own_right,
            )  # fmt: skip
        )
        edge, king = king_right + thick, king_right
    return framed


def _right_king(wall: Wall, opening: Opening) -> tuple[int, bool]:
    """The king right of the last opening: its left edge, and whether it is added or the end's post serves."""
    jack_right = opening.right + opening.jacks * wall.thickness
    post = wall.length - post_edge(wall, wall.right)
    return (jack_right, True) if jack_right + wall.thickness <= post else (post, False)
