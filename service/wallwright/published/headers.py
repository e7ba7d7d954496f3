"""Spans of headers in exterior bearing walls. Source: IRC Table R602.7(1), by edition.

Between two printed building widths the span is interpolated and rounded down to the whole inch; jack studs are
then those of the wider column. Ground snow is read in the next column up, since the table interpolates widths
only. A building narrower than the first column is read there.
"""

from fractions import Fraction
from typing import Any, Final

import msgspec

from wallwright.lengths import INCH
from wallwright.published.tables import TABLES, OutsideTable, Table, edition, first_up_to, foot, inch
from wallwright.sources import Source

_LATER: Final = {
    "roof": "header_spans_roof",
    "roof-and-center-bearing-floor": "header_spans_roof_and_center_bearing_floor",
    "roof-and-clear-span-floor": "header_spans_roof_and_clear_span_floor",
}
_BY_EDITION: Final = {
    "2015": ("header_columns_2015", {"roof": "header_spans_roof_2015"}),
    **dict.fromkeys(("2018", "2021", "2024"), ("header_columns", _LATER)),
}


class Size(msgspec.Struct, frozen=True, gc=False):
    """A header of the table: ``plies`` of a nominal ``size`` such as ``2x8``."""

    plies: int
    size: str


class Reading(msgspec.Struct, frozen=True, gc=False):
    """What the table prints for one header: the span on the grid, jack studs at each end, and the snow column."""

    span: int
    jacks: int
    snow_psf: int


def table_of(rules: str, load: str) -> Table:
    """The table for a load (``roof`` or one with a floor). Raises OutsideTable where none is held."""
    name = _BY_EDITION[edition(rules)][1].get(load)
    if name is None:
        raise OutsideTable("no table of this edition is held for the load")
    return TABLES[name]


def source(rules: str) -> Source:
    """Where the spans stand, in the edition that ``rules`` names."""
    return table_of(rules, "roof").of(rules)


def sizes(rules: str, load: str) -> tuple[Size, ...]:
    """Every header of the table, in its order. Raises OutsideTable where none is held for the load."""
    return tuple(Size(row["plies"], row["size"]) for row in table_of(rules, load).rows)


def read(rules: str, load: str, header: Size, ground_snow_psf: float, building_width: int) -> Reading:
    """The span printed for a header. ``building_width`` is on the grid, across the ridge.

    Raises OutsideTable for a header, a snow load or a width that the table does not hold.
    """
    table = table_of(rules, load)
    columns = TABLES[_BY_EDITION[edition(rules)][0]].rows[0]
    snow = first_up_to(Fraction(ground_snow_psf), columns["ground_snow_psf"], "the ground snow load")
    widths = [foot(width) for width in columns["building_width_ft"]]
    column = first_up_to(building_width, widths, "the building's width")
    row = _row(table, header)
    spans, jacks = row["span_in"][snow], row["jacks"][snow]
    span = inch(spans[column])
    if building_width < widths[column] and column:
        if not spans[column - 1]:
            raise OutsideTable("the table prints a dash for it")
        before = inch(spans[column - 1])
        share = Fraction(building_width - widths[column - 1], widths[column] - widths[column - 1])
        span = int((before + (span - before) * share) // INCH) * INCH
    if not spans[column]:
        raise OutsideTable("the table prints a dash for it")
    return Reading(span, jacks[column], columns["ground_snow_psf"][snow])


def _row(table: Table, header: Size) -> dict[str, Any]:
    for row in table.rows:
        if row["plies"] == header.plies and row["size"] == header.size:
            return row
    raise OutsideTable("the table holds no such section and plies")
