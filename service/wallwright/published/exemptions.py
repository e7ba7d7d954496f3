"""Sizes from which the code asks for more. Source: IRC R105.2, R403.1.4.1, R301.3, by edition."""

from wallwright.published.tables import TABLES, inch, rows
from wallwright.sources import Source


def permit_area_sq_ft(rules: str) -> int:
    """Floor area up to which a one-storey detached accessory building needs no permit by the code, in sq ft."""
    return int(rows("permit_area", rules)[0]["max_sq_ft"])


def permit_source(rules: str) -> Source:
    """Where the permit's area stands."""
    return TABLES["permit_area"].of(rules)


def frost_area_sq_ft(rules: str) -> int:
    """Floor area up to which a free-standing light-frame accessory building needs no frost protection, in sq ft."""
    return int(rows("frost_area", rules)[0]["max_sq_ft"])


def storey_height(rules: str) -> int:
    """Greatest height of a storey of wood walls by the rule itself (not its exceptions), on the grid."""
    return inch(rows("story_height", rules)[0]["max_in"])
