"""Fasteners counted: by kind of joint, and altogether with the spare, the weight and packs to buy."""

from collections.abc import Iterable
from fractions import Fraction

from wallwright.domain.fasteners.schedule import JOINTS, Rule
from wallwright.domain.fasteners.site import Group
from wallwright.domain.fasteners.values import Fastener, Joint, Total
from wallwright.domain.joining import Fastening, Pack
from wallwright.lengths import INCH
from wallwright.published.fastening import shank_pounds

_STEEL = 0.2836
_TIE_THICKNESS = 0.036


def joints_of(groups: list[Group]) -> tuple[Joint, ...]:
    """The kinds of joint with their counts, in the order in which a wall is put together."""
    counted: dict[tuple[str, Rule, int], int] = {}
    for group in groups:
        key = (group.joint, group.rule, len(group.drives))
        counted[key] = counted.get(key, 0) + 1
    ordered = sorted(counted, key=lambda key: (JOINTS.index(key[0]), key[1].fastener.name, key[1].fastener.coating))
    found = []
    for joint, rule, each in ordered:
        one, places = rule.fastener, counted[joint, rule, each]
        found.append(
            Joint(
                joint, one.name, one.coating, one.length, one.diameter, each, places, each * places, rule.spacing,
                rule.source,
            )
        )  # fmt: skip
    return tuple(found)


def totals_of(groups: list[Group], fastening: Fastening) -> tuple[Total, ...]:
    """All fasteners by name and coating; bolts that are cast already are not bought."""
    counts: dict[Fastener, int] = {}
    for group in groups:
        if group.rule.fastener.kind != "cast":
            one = group.rule.fastener
            counts[one] = counts.get(one, 0) + len(group.drives)
    found = [
        Total(one.name, one.kind, one.coating, one.length, one.diameter, count, 0, 0.0) for one, count in counts.items()
    ]
    return _bought(found, fastening.spare_percent, fastening.packs)


def added(walls: Iterable[tuple[Total, ...]], fastening: Iterable[Fastening]) -> tuple[Total, ...]:
    """The totals of several walls together: spare, weight and packs are reckoned on the sums.

    The greatest spare of the walls holds, and any pack that one of them names.
    """
    schedules = list(fastening)
    counts: dict[tuple[str, str, str, int, int], int] = {}
    for wall in walls:
        for one in wall:
            key = (one.fastener, one.kind, one.coating, one.length, one.diameter)
            counts[key] = counts.get(key, 0) + one.count
    spare = max((one.spare_percent for one in schedules), default=0.0)
    packs = tuple(dict.fromkeys(pack for one in schedules for pack in one.packs))
    return _bought([Total(*key, count, 0, 0.0) for key, count in counts.items()], spare, packs)


def _bought(counted: list[Total], spare: float, packs: tuple[Pack, ...]) -> tuple[Total, ...]:
    found = []
    for one in sorted(counted, key=lambda total: (total.kind, total.fastener, total.coating)):
        extra = Fraction(str(spare)) if one.kind in ("nail", "screw") else Fraction(0)
        to_buy = -(-one.count * (100 + extra) // 100)
        pack, boxes = _packed(one.fastener, int(to_buy), packs)
        found.append(
            Total(
                one.fastener, one.kind, one.coating, one.length, one.diameter, one.count, int(to_buy),
                round(one.count * pounds(one), 4), pack, boxes,
            )
        )  # fmt: skip
    return tuple(found)


def pounds(one: Total) -> float:
    """What one fastener weighs, by its shank (a tie plate by its steel)."""
    if one.kind == "plate":
        return _STEEL * _TIE_THICKNESS * (one.length / INCH) * (one.diameter / INCH)
    return shank_pounds(one.length, one.diameter)


def _packed(name: str, count: int, packs: tuple[Pack, ...]) -> tuple[int | None, int | None]:
    """The pack that leaves least over, the larger of two that leave as little, and how many of it."""
    sizes = sorted({pack.count for pack in packs if pack.fastener == name}, reverse=True)
    if not sizes:
        return None, None
    best = min(sizes, key=lambda size: (-(-count // size) * size, -size))
    return best, -(-count // best)
