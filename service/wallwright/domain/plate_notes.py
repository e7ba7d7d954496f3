"""What there is to say about a wall's plates: joints, ties of a single plate, and fireblocking."""

from wallwright.domain.members import Member
from wallwright.domain.slopes import along, slope_of, top_edge
from wallwright.domain.wall import Wall
from wallwright.findings import Compared, Finding, Value
from wallwright.published import plates as published
from wallwright.published.plates import Tie

HIGH_SEISMIC = frozenset(("D0", "D1", "D2", "E"))


def plate_findings(wall: Wall, members: tuple[Member, ...]) -> list[Finding]:
    """The findings on plates, in the order of the wall's fields."""
    return [*_joint_findings(wall, members), *_single_plate(wall, members)]


def _joint_findings(wall: Wall, members: tuple[Member, ...]) -> list[Finding]:
    """That plates are jointed, and how far the cap's joints stand from those below, beside the published least."""
    pieces = tuple(member for member in members if member.role.endswith("plate"))
    told = wall.plates.joints is not None
    stock = wall.plates.stock_length or (max(piece.length for piece in pieces) if told else None)
    whole = wall.plates.bottom + wall.plates.top * (1 if ridge_of(wall) is None else 2)
    if stock is None or len(pieces) == whole:
        return []
    offset, least = wall.plates.cap_offset, published.END_JOINT_OFFSET
    source = published.joint_source(wall.rules)
    apart = least_apart(wall, pieces)
    compared = None if apart is None else Compared(apart, least, "length")
    ids = tuple(piece.id for piece in pieces)
    values: tuple[tuple[str, Value], ...] = (("stock", stock), ("offset", offset))
    found = [
        Finding(
            "plates-jointed",
            "/plates/joints" if told else "/plates/stock_length",
            values,
            ids,
            source if compared else None,
            compared,
        )
    ]
    if apart is not None and apart < least:
        values = (("offset", apart), ("least", least))
        found.append(Finding("cap-offset-below-published", "/plates/cap_offset", values, ids, source, compared))
    return found


def least_apart(wall: Wall, pieces: tuple[Member, ...]) -> int | None:
    """The least distance from a joint of the cap plate to one of the top plate; None where either has none.

    Along the slope where there is one. At a gable's ridge both end, so that they meet there in any case; joints
    elsewhere are held against it.
    """
    ridge = ridge_of(wall)
    caps, tops = _joints(pieces, "cap-plate"), _joints(pieces, "top-plate")
    apart = [abs(cap - top) for cap in caps for top in tops if not cap == top == ridge]
    if not apart or wall.top.shape == "level":
        return min(apart, default=None)
    return along(*slope_of(wall), min(apart))


def ridge_of(wall: Wall) -> int | None:
    """x of a gable's ridge, at which its plates meet; None under one slope or none."""
    return top_edge(wall).ridge


def _joints(pieces: tuple[Member, ...], role: str) -> list[int]:
    return sorted(piece.x for piece in pieces if piece.role == role)[1:]


def _single_plate(wall: Wall, members: tuple[Member, ...]) -> list[Finding]:
    """What a single top plate asks for, by the seismic category where that is known."""
    if wall.plates.top != 1:
        return []
    high = wall.site is not None and wall.site.seismic in HIGH_SEISMIC
    ties = published.SEISMIC_TIES if high else published.PLAIN_TIES
    values: tuple[tuple[str, Value], ...] = (
        ("near", published.SINGLE_PLATE_MEMBER_OFFSET), ("thick", published.TIE_THICKNESS), *_tie("corner", ties.corner),
        *_tie("butt", ties.butt), ("when", ties.when),
    )  # fmt: skip
    ids = tuple(member.id for member in members if member.role == "top-plate")
    return [Finding("single-top-plate", "/plates/top", values, ids, published.joint_source(wall.rules))]


def _tie(name: str, tie: Tie) -> tuple[tuple[str, Value], ...]:
    return ((f"{name}_width", tie.width), (f"{name}_length", tie.length), (f"{name}_nails", str(tie.nails)))
