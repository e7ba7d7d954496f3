"""What would make a purchase cheaper: boards of a length that is not offered, or pieces a little shorter.

Each choice is bought anew with little effort and told only where that costs less than the plan at hand, so that what is told is true of a
plan that was found. A board that is not offered is priced between its neighbours, in proportion to its length; this is said.
"""

from typing import Final

import msgspec

from wallwright.domain.buying.asked import Offer, Order, Piece
from wallwright.domain.buying.boards import Cut, Section, cut, of_section, said
from wallwright.domain.buying.programme import Left
from wallwright.findings import Compared, Finding, PlanRefused, Value
from wallwright.lengths import FOOT, INCH

STEP: Final = 2 * FOOT
"""Boards are sold in lengths of even feet."""
SHORTER: Final = 6 * INCH
"""How much shorter a piece may be made."""
_SECTIONS: Final = 2
_LENGTHS: Final = 3
_KINDS: Final = 2
_TOLD: Final = 4
_LARGE: Final = 40
"""Sections with more rows of equal pieces are not bought again, nor those whose own plan is not proven."""


class _Saving(msgspec.Struct, frozen=True):
    saved: int
    finding: Finding


def cheaper(order: Order, cuts: list[Cut], pieces: dict[Section, list[Piece]], left: Left) -> list[Finding]:
    """What would have cost less, the greatest saving first: of the dearest sections, a few of each kind of choice."""
    quick = msgspec.structs.replace(order, effort="quick")
    found: list[_Saving] = []
    for one in sorted(cuts, key=lambda own: -own.cost)[:_SECTIONS]:
        own = pieces[one.section]
        if not one.cost or one.cost > one.bound or len({piece.length for piece in own}) > _LARGE:
            continue
        found += _longer(quick, one, own, left)
        found += _shorter(quick, one, own, left)
    return [one.finding for one in sorted(found, key=lambda one: -one.saved)[:_TOLD]]


def _again(order: Order, one: Cut, pieces: list[Piece], left: Left) -> Cut | None:
    """The section bought anew, where that is cheaper."""
    try:
        other = cut(order, one.section, pieces, left)
    except PlanRefused:
        return None
    return other if other.cost < one.cost else None


def _count(one: Cut) -> int:
    return sum(board.count for board in one.boards)


def _longer(order: Order, one: Cut, pieces: list[Piece], left: Left) -> list[_Saving]:
    """Lengths in steps of two feet that are not offered, up to one step past the longest that is."""
    priced = {offer.length: offer.price for offer in reversed(of_section(order, one.section)) if offer.price}
    if not priced:
        return []
    had = {offer.length for offer in of_section(order, one.section)}
    first = -(-min(priced) // STEP) * STEP
    fresh = [length for length in range(first, max(priced) + STEP + 1, STEP) if length not in had]
    found = []
    for length in fresh[-_LENGTHS:]:
        price = _price(priced, length)
        offer = Offer(one.section[0], length, price, None, one.section[1])
        more = msgspec.structs.replace(order, offers=(*order.offers, offer))
        other = _again(more, one, pieces, left)
        if other is not None:
            values: tuple[tuple[str, Value], ...] = (
                ("stock", said(one.section)),
                ("length", length),
                ("price", _money(price)),
                *_figures(one, other),
            )
            found.append(_saving("other-length-saves", "/offers", one, other, values))
    return found


def _price(priced: dict[int, int], length: int) -> int:
    """A price for a board that is not offered: between its neighbours by length, past the longest at that one's rate; half a cent up."""
    below = max(one for one in priced if one < length)
    above = min((one for one in priced if one > length), default=None)
    if above is None:
        return (2 * priced[below] * length + below) // (2 * below)
    rise, run = (priced[above] - priced[below]) * (length - below), above - below
    return priced[below] + (2 * rise + run) // (2 * run)


def _shorter(order: Order, one: Cut, pieces: list[Piece], left: Left) -> list[_Saving]:
    """Pieces made so much shorter that one more of them comes out of a board: of those that take most of the timber."""
    counts: dict[int, int] = {}
    for piece in pieces:
        if not piece.slants:
            counts[piece.length] = counts.get(piece.length, 0) + piece.count
    found = []
    for length in sorted((n for n in counts if counts[n] > 1), key=lambda n: (-n * counts[n], n))[:_KINDS]:
        other = None
        for less in _lengths(order, one, length):
            changed = [msgspec.structs.replace(p, length=less) if p.length == length else p for p in pieces]
            other = _again(order, one, changed, left)
            if other is not None:
                break
        if other is not None:
            marks = ", ".join(dict.fromkeys(piece.mark for piece in pieces if piece.length == length and piece.mark))
            at = min(piece.at for piece in pieces if piece.length == length)
            values: tuple[tuple[str, Value], ...] = (
                ("stock", said(one.section)),
                ("given", length),
                ("count", str(counts[length])),
                ("marks", f" ({marks[:60]})" if marks else ""),
                ("length", less),
                ("less", length - less),
                *_figures(one, other),
            )
            found.append(_saving("shorter-piece-saves", at, one, other, values))
    return found


def _lengths(order: Order, one: Cut, length: int) -> list[int]:
    """The lengths just below one that yield one more piece of a board, the least change first."""
    found = set()
    for offer in of_section(order, one.section):
        room = offer.length - 2 * order.end_trim + order.kerf
        most = room // (room // (length + order.kerf) + 1) - order.kerf
        if length - SHORTER <= most < length:
            found.add(most // (INCH // 16) * (INCH // 16))
    return sorted((n for n in found if n > 0), reverse=True)[:2]


def _figures(one: Cut, other: Cut) -> tuple[tuple[str, Value], ...]:
    return (
        ("boards", str(_count(one))),
        ("fewer", str(_count(other))),
        ("cost", _money(one.cost)),
        ("lower", _money(other.cost)),
    )


def _saving(code: str, at: str, one: Cut, other: Cut, values: tuple[tuple[str, Value], ...]) -> _Saving:
    compared = Compared(one.cost / 100, other.cost / 100, "money")
    return _Saving(one.cost - other.cost, Finding(code, at, values, compared=compared))


def _money(cents: int) -> str:
    return f"{cents // 100}.{cents % 100:02d}"
