"""Rules beside the header spans: tops that are not held, nonbearing heads, bearing, full-height studs.

Source: IRC R602.7.1, R602.7.4, R602.7.5, R502.6 and the footnotes of Table R602.7(1), by edition.
"""

from fractions import Fraction

from wallwright.published.tables import TABLES, OutsideTable, edition, foot, inch, rows
from wallwright.sources import Source

TOP_NOT_HELD = "header_top"


def held_top_only(rules: str, size: str, span: int) -> int:
    """A printed span (on the grid) for a header whose top edge nothing holds, as under cripples; rounded down.

    2018 on: 0.70 of it for 2x8, 2x10 and 2x12. 2015 has no such rule.
    """
    try:
        (row,) = rows(TOP_NOT_HELD, rules)
    except OutsideTable:
        return span
    return int(span * Fraction(row["factor"])) if size in row["sizes"] else span


def flat_head_allowed(width: int, above: int) -> bool:
    """Whether one flat 2x4 may head an opening ``width`` wide in a nonbearing wall, ``above`` below the plate.

    Source: R602.7.4, all editions; both on the grid.
    """
    (row,) = rows("header_nonbearing")
    return width <= inch(row["max_opening_in"]) and above <= inch(row["max_to_surface_above_in"])


def bearing_on_wood() -> int:
    """Least bearing of a header on wood, on the grid. Source: R502.6, all editions."""
    return inch(rows("header_bearing")[0]["least_in"])


def full_height_studs(
    rules: str, span: int, spacing: int, wind_mph: float | None, exposure: str | None, *, on_jacks: bool = True
) -> int:
    """Full-height studs at each end of a header ``span`` long (on the grid) in an exterior wall.

    By stud ``spacing`` in 2015, by wind from 2018 on. Source: Table R602.7.5. Raises OutsideTable.
    """
    if edition(rules) == "2015":
        name, column = "full_height_studs_2015", _column_2015(spacing)
    else:
        name, column = "full_height_studs", _wind_column(rules, wind_mph, exposure, on_jacks)
    for row in rows(name, rules):
        if span <= foot(row["span_ft"]):
            return int(row[column])
    raise OutsideTable("the header is longer than the table's last row")


def full_height_source(rules: str) -> Source:
    """Where the numbers of full-height studs stand."""
    name = "full_height_studs_2015" if edition(rules) == "2015" else "full_height_studs"
    return TABLES[name].of(rules)


def asks_for_wind(rules: str) -> bool:
    """Whether the edition's full-height studs follow from the wind."""
    return edition(rules) != "2015"


def _column_2015(spacing: int) -> str:
    if spacing <= inch(16):
        return "spacing_16"
    if spacing <= inch(24):
        return "spacing_24"
    raise OutsideTable("the studs stand further apart than the table's last column")


def _wind_column(rules: str, wind_mph: float | None, exposure: str | None, on_jacks: bool) -> str:
    if wind_mph is None or exposure is None:
        raise OutsideTable("wind and exposure are not given")
    for row in rows("full_height_stud_winds", rules):
        reached = wind_mph <= row["mph"] if row["inclusive"] else wind_mph < row["mph"]
        if row["exposure"] == exposure and reached and (on_jacks or row["column"] == "high_wind"):
            return str(row["column"])
    raise OutsideTable("the wind is stronger, or the exposure more open, than the table's columns")
