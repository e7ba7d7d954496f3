"""Fasteners and anchors by the box: of the packs offered, those that hold at least what is to be bought for the least money."""

import math

import msgspec

from wallwright.domain.buying.asked import FastenerOffer
from wallwright.domain.fasteners import Total


class Boxes(msgspec.Struct, frozen=True, gc=False):
    """``count`` boxes of one offer for one kind of fastener."""

    total: Total
    offer: FastenerOffer
    count: int


def boxed(totals: tuple[Total, ...], offers: tuple[FastenerOffer, ...]) -> tuple[tuple[Boxes, ...], tuple[Total, ...]]:
    """The cheapest boxes of every fastener that is offered, of as cheap ones the fewest; and the fasteners that are not offered."""
    found: list[Boxes] = []
    without = []
    for total in totals:
        own = _own(total, offers)
        if own:
            chosen = _cheapest(total.to_buy, own)
            found += [Boxes(total, own[place], count) for place, count in sorted(chosen.items())]
        elif total.to_buy:
            without.append(total)
    return tuple(found), tuple(without)


def _own(total: Total, offers: tuple[FastenerOffer, ...]) -> list[FastenerOffer]:
    """The offers of a fastener, the largest packs first, each size at its least price."""
    least: dict[int, FastenerOffer] = {}
    for offer in offers:
        if offer.fastener == total.fastener and offer.coating in ("", total.coating):
            held = least.get(offer.count)
            if held is None or offer.price < held.price:
                least[offer.count] = offer
    return sorted(least.values(), key=lambda offer: -offer.count)


def _cheapest(wanted: int, offers: list[FastenerOffer]) -> dict[int, int]:
    """How many of each offer: exact, by the least cost of every smaller number, in steps of the sizes' common divisor."""
    step = math.gcd(*(offer.count for offer in offers))
    sizes = [offer.count // step for offer in offers]
    need = -(-wanted // step)
    best: list[tuple[int, int]] = [(0, 0)]
    last = [0]
    for number in range(1, need + 1):
        ways = (
            (best[max(0, number - size)][0] + offer.price, best[max(0, number - size)][1] + 1, place)
            for place, (size, offer) in enumerate(zip(sizes, offers, strict=True))
        )
        cost, boxes, place = min(ways)
        best.append((cost, boxes))
        last.append(place)
    chosen: dict[int, int] = {}
    while need > 0:
        chosen[last[need]] = chosen.get(last[need], 0) + 1
        need -= sizes[last[need]]
    return chosen
