"""Anchor bolts that hold a plate to concrete. Source: IRC R403.1.6, all editions alike."""

from fractions import Fraction
from typing import Final

import msgspec

from wallwright.lengths import nearest
from wallwright.published.tables import TABLES, inch, rows
from wallwright.sources import Source


class Bolts(msgspec.Struct, frozen=True, gc=False):
    """The rule's figures on the grid: spacing, distances from each end of each plate piece, embedment."""

    diameter: int
    max_spacing: int
    end_most: int
    end_least: int
    embedment: int
    least_count: int


def bolts(rules: str) -> Bolts:
    """The rule for 1/2 in bolts: at most 6 ft apart, from 7 diameters to 12 in from each end, two a piece at least."""
    (row,) = rows("anchor_bolts", rules)
    diameter = inch(row["diameter_in"])
    return Bolts(
        diameter,
        inch(row["max_spacing_in"]),
        inch(row["end_most_in"]),
        nearest(Fraction(row["end_least_diameters"]) * diameter),
        inch(row["embedment_in"]),
        row["least_bolts"],
    )


_RULE: Final = bolts("irc-2021")
DIAMETER: Final = _RULE.diameter
SPACING: Final = _RULE.max_spacing
"""Greatest distance from bolt to bolt, on the grid; this and what follows are alike in all editions held."""
END_MOST: Final = _RULE.end_most
"""A bolt stands within this of each end of every plate piece."""
END_LEAST: Final = _RULE.end_least
"""No bolt stands nearer than this to an end."""
LEAST_FOR_EACH_PIECE: Final = _RULE.least_count
EMBEDMENT: Final = _RULE.embedment
"""How far a bolt reaches into the concrete."""
WASHER_SIDE: Final = inch(rows("anchor_washers")[0]["side_in"])
"""Side of the plate washers that are asked for along braced wall lines in high seismic categories."""


def least_count(rules: str, piece: int) -> int:
    """The fewest bolts that a plate piece of this length (on the grid) takes."""
    rule = bolts(rules)
    between = piece - 2 * rule.end_most
    return max(rule.least_count, -(-between // rule.max_spacing) + 1)


def source(rules: str) -> Source:
    """Where the rule stands."""
    return TABLES["anchor_bolts"].of(rules)
