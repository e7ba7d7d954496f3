"""How each opening is framed: its header, its jacks and kings, or flat blocks within one bay.

The wall is one that is laid out from its left end. Everything that stands in the way of framing an
opening is collected, so that all faults are told at once.
"""

import msgspec
from msgspec.structs import replace

from wallwright.domain.grid import Bound, lines_between
from wallwright.domain.slopes import soffit
from wallwright.domain.stock import NOMINAL
from wallwright.domain.wall import End, Header, Opening, Wall
from wallwright.findings import Fault
from wallwright.lengths import inches

DEFAULT_HEADERS = (NOMINAL["2x6"], NOMINAL["2x4"])
"""The plain default header is the deepest of these that fits; it is compared with no table."""
_PLY = inches("1 1/2")
_SHALLOWEST = DEFAULT_HEADERS[-1].width


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

    @property
    def header_top(self) -> int:
        """y of the header's upper side."""
        return self.opening.head + self.header.stock.width


class Plan(msgspec.Struct, frozen=True):
    """All openings of a wall: those with jacks, and those within one bay."""

    framed: tuple[Framed, ...]
    in_bay: tuple[Opening, ...]
    wall: Wall
    """The wall with each opening as it is framed: a header under the plates makes its opening higher."""


def post_edge(wall: Wall, end: End) -> int:
    """How far the end's post reaches along the plate."""
    if end.post == "two-stud":
        return wall.thickness + wall.depth
    return wall.thickness if end.post == "single" else 3 * wall.thickness


def left_bound(wall: Wall) -> Bound:
    """The left end's post as the bound of the first bay: a two-stud post's bays count to its outer stud."""
    edge = post_edge(wall, wall.left)
    half = wall.thickness // 2
    return Bound(edge, half if wall.left.post == "two-stud" else edge - wall.thickness + half)


def right_bound(wall: Wall) -> Bound:
    """The right end's post as the bound of the last bay."""
    edge = post_edge(wall, wall.right)
    half = wall.thickness // 2
    inner = half if wall.right.post == "two-stud" else edge - wall.thickness + half
    return Bound(wall.length - edge, wall.length - inner)


def plan_openings(wall: Wall, framed_anyway: frozenset[str] = frozenset()) -> tuple[Plan, list[Fault]]:
    """How the openings of a wall laid out from its left end are framed, and every fault found.

    ``framed_anyway`` names openings (by `key`) that would fit one bay but meet a member there.
    """
    faults: list[Fault] = []
    resolved: list[tuple[int, Opening, Header | None, bool]] = []
    roofs = _roofs(wall, framed_anyway)
    for index, opening in enumerate(wall.openings):
        faults += _within_wall(wall, index, opening)
        if _in_bay(wall, opening, framed_anyway):
            faults += _block_room(wall, index, opening)
            resolved.append((index, opening, None, True))
            continue
        header, effective, is_default, more = _header(wall, index, opening, roofs[index])
        faults += more
        resolved.append((index, effective, header, is_default))
    faults += _collisions(resolved)
    framed, more = _kings(wall, [(i, o, h, d) for i, o, h, d in resolved if h is not None])
    faults += more
    in_bay = tuple(opening for _, opening, header, _ in resolved if header is None)
    done = replace(wall, openings=tuple(opening for _, opening, _, _ in resolved))
    return Plan(tuple(framed), in_bay, done), faults


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
    asked = [
        (index, opening, thought, True) for index, opening in numbered if not _in_bay(wall, opening, framed_anyway)
    ]
    found = [under.least(opening.left, opening.right) for opening in wall.openings]
    for (index, *_), framed in zip(sorted(asked, key=lambda item: item[1].left), _kings(wall, asked)[0], strict=True):
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


def _within_wall(wall: Wall, index: int, opening: Opening) -> list[Fault]:
    """Faults of an opening by itself: outside the wall, too narrow, its sill in the plate, its head in the plates."""
    at = f"/openings/{index}"
    name = ("opening", opening.name or str(index + 1))
    faults = []
    if opening.left < 0 or opening.right > wall.length:
        most = max(wall.length - opening.width, 0)
        faults.append(
            Fault("opening-outside-wall", f"{at}/left", (name, ("given", opening.left), ("least", 0), ("most", most)))
        )
    if opening.width < wall.thickness:
        faults.append(
            Fault("opening-too-narrow", f"{at}/width", (name, ("given", opening.width), ("least", wall.thickness)))
        )
    least_sill = wall.stud_bottom + wall.thickness
    if 0 < opening.sill < least_sill:
        faults.append(Fault("sill-too-low", f"{at}/sill", (name, ("given", opening.sill), ("least", least_sill))))
    return faults


def _block_room(wall: Wall, index: int, opening: Opening) -> list[Fault]:
    if wall.top.shape != "level" or opening.head <= wall.stud_top:
        return []
    return [
        Fault(
            "opening-too-high",
            f"/openings/{index}/height",
            (
                ("opening", opening.name or str(index + 1)),
                ("given", opening.height),
                ("most", wall.stud_top - opening.sill),
                ("wall_height", wall.height + opening.head - wall.stud_top),
            ),
        )
    ]


def _header(wall: Wall, index: int, opening: Opening, roof: int) -> tuple[Header, Opening, bool, list[Fault]]:
    """The header of an opening under ``roof``, and the opening as it becomes; faults where the header has no room."""
    room = roof - opening.head
    given = opening.header
    header = given if given is not None else _default_header(wall, room)
    faults = []
    if header.plies * header.stock.thickness + header.spacer > wall.depth:
        faults.append(
            Fault(
                "header-too-thick",
                f"/openings/{index}/header/plies",
                (
                    ("opening", opening.name or str(index + 1)),
                    ("stock", header.stock.name),
                    ("plies", str(header.plies)),
                    ("given", header.plies * header.stock.thickness + header.spacer),
                    ("most", wall.depth),
                ),
            )
        )
    if header.stock.width > room:
        faults.append(_no_room(wall, index, opening, header, roof))
        return header, opening, given is None, faults
    if header.seat == "plate":
        opening = replace(opening, height=roof - header.stock.width - opening.sill)
    return header, opening, given is None, faults


def _no_room(wall: Wall, index: int, opening: Opening, header: Header, roof: int) -> Fault:
    deep = header.stock.width
    where = f"/openings/{index}/header/stock" if opening.header is not None else f"/openings/{index}/height"
    return Fault(
        "header-does-not-fit",
        where,
        (
            ("opening", opening.name or str(index + 1)),
            ("stock", header.stock.name),
            ("deep", deep),
            ("room", max(roof - opening.head, 0)),
            ("most", max(roof - deep - opening.sill, 0)),
            ("wall_height", wall.height + deep - (roof - opening.head)),
        ),
    )


def _default_header(wall: Wall, room: int) -> Header:
    """The deepest plain header that fits under the plates; the shallowest one where none does."""
    plies = max(1, min(2, wall.depth // _PLY))
    for stock in DEFAULT_HEADERS:
        if stock.width <= room:
            return Header(stock, plies)
    return Header(DEFAULT_HEADERS[-1], plies)


def _collisions(resolved: list[tuple[int, Opening, Header | None, bool]]) -> list[Fault]:
    """Openings that overlap along the wall; openings stand side by side, never one above another."""
    faults = []
    ordered = sorted(resolved, key=lambda item: (item[1].left, item[0]))
    for (_, before, _, _), (index, after, _, _) in zip(ordered, ordered[1:], strict=False):
        if after.left < before.right:
            faults.append(
                Fault(
                    "openings-collide",
                    f"/openings/{index}/left",
                    (
                        ("opening", after.name or str(index + 1)),
                        ("other", before.name or "the opening before it"),
                        ("given", after.left),
                        ("least", before.right),
                    ),
                )
            )
    return faults


def _kings(wall: Wall, openings: list[tuple[int, Opening, Header, bool]]) -> tuple[list[Framed], list[Fault]]:
    """Kings, own or shared, of the openings with jacks, from left to right."""
    thick = wall.thickness
    ordered = sorted(openings, key=lambda item: item[1].left)
    faults: list[Fault] = []
    framed: list[Framed] = []
    # The nearest king so far: x of its left edge, and where the room for the next opening begins.
    edge = post_edge(wall, wall.left)
    king: int | None = None if wall.left.post == "two-stud" else edge - thick
    for position, (index, opening, header, is_default) in enumerate(ordered):
        jacks = opening.jacks * thick
        least = edge + jacks + (thick if king is None else 0)
        if opening.left < least:
            faults.append(_too_near(index, opening, least, "left" if position == 0 else "before"))
        own_left = king is None or opening.left >= edge + thick + jacks
        king_left = opening.left - jacks - thick if own_left or king is None else king
        last = position == len(ordered) - 1
        right = _right_king(wall, opening) if last else (opening.right + jacks, True)
        if right is None:
            most = wall.length - post_edge(wall, wall.right) - jacks - _extra(wall) - opening.width
            faults.append(_too_near_right(index, opening, most))
            right = (opening.right + jacks, True)
        king_right, own_right = right
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
    return framed, faults


def _extra(wall: Wall) -> int:
    return wall.thickness if wall.right.post == "two-stud" else 0


def _right_king(wall: Wall, opening: Opening) -> tuple[int, bool] | None:
    """The king right of the last opening: its left edge and whether it is added; None where there is no room."""
    thick = wall.thickness
    jack_right = opening.right + opening.jacks * thick
    post = wall.length - post_edge(wall, wall.right)
    if jack_right + thick <= post:
        return jack_right, True
    if wall.right.post == "two-stud" or jack_right > post:
        return None
    return post, False


def _too_near(index: int, opening: Opening, least: int, side: str) -> Fault:
    code = "opening-too-near-end" if side == "left" else "openings-too-near"
    return Fault(
        code,
        f"/openings/{index}/left",
        (("opening", opening.name or str(index + 1)), ("given", opening.left), ("nearest", least)),
    )


def _too_near_right(index: int, opening: Opening, most: int) -> Fault:
    return Fault(
        "opening-too-near-end",
        f"/openings/{index}/left",
        (("opening", opening.name or str(index + 1)), ("given", opening.left), ("nearest", most)),
    )
