"""Panels that take the wind on an exterior wall. Source: IRC Table R602.3(3), by edition."""

from wallwright.published.tables import TABLES, OutsideTable, Row, inch, rows
from wallwright.sources import Source


def strongest_row(rules: str, thickness: int, spacing: int) -> Row:
    """The row of the table that a panel of this nominal thickness on studs so far apart reaches (on the grid).

    Raises OutsideTable where the panel is too thin, or the studs too far apart for it.
    """
    reached = [
        row
        for row in rows("wall_sheathing_wind", rules)
        if thickness >= inch(row["thickness_in"]) and spacing <= inch(row["stud_spacing_in"])
    ]
    if not reached:
        raise OutsideTable("no row holds so thin a panel on studs so far apart")
    return max(reached, key=lambda row: row["mph"]["B"])


def source(rules: str) -> Source:
    """Where the panels stand."""
    return TABLES["wall_sheathing_wind"].of(rules)
