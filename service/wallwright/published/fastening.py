"""How the joints of a wall are nailed, and the nails and screws themselves.

Source: IRC Table R602.3(1), by edition; R602.7.5 for a header's end before 2021; NDS Appendix L for screws.
"""

from typing import Final

import msgspec

from wallwright.lengths import INCH
from wallwright.published.tables import TABLES, Row, edition, inch, rows
from wallwright.sources import Source


class Nailing(msgspec.Struct, frozen=True, gc=False):
    """One choice of a joint: so many of a nail for each joint, or one each ``spacing`` (on the grid), or both."""

    nail: str
    count: int | None = None
    spacing: int | None = None


class Screw(msgspec.Struct, frozen=True, gc=False):
    """A wood screw that shops keep: gauge, major and root diameter, length, all but the gauge on the grid."""

    gauge: int
    diameter: int
    root: int
    length: int


NAILS: Final[dict[str, tuple[int, int]]] = {
    row["nail"]: (inch(row["length_in"]), inch(row["diameter_in"])) for row in rows("nails")
}
"""Length and shank diameter of each nail by its name, on the grid."""
SCREWS: Final = tuple(
    Screw(row["gauge"], inch(row["major_in"]), inch(row["root_in"]), inch(length))
    for row in rows("wood_screws")
    for length in row["lengths_in"]
)
"""Every wood screw that is kept, by gauge, then by length."""


def choices(rules: str, joint: str) -> tuple[Nailing, ...]:
    """The equal choices of a joint such as ``plate-to-stud-end``. Raises KeyError where the edition has no row."""
    for row in rows("fastening_schedule", rules):
        if row["joint"] == joint and _item(rules) in row:
            return _read(row, rules)
    raise KeyError(joint)


def header_end_choices(rules: str) -> tuple[Nailing, ...]:
    """How a full-height stud is nailed into a header's end, wherever the edition says it."""
    if edition(rules) in TABLES["header_end_nails"].editions:
        return _read(rows("header_end_nails", rules)[0], rules)
    return choices(rules, "full-height-stud-to-header-end")


def _read(row: Row, rules: str) -> tuple[Nailing, ...]:
    return tuple(
        Nailing(c["nail"], c.get("count"), inch(c["spacing_in"]) if "spacing_in" in c else None)
        for c in row["choices"]
        if edition(rules) in c.get("editions", (edition(rules),))
    )


def source(rules: str, joint: str) -> Source:
    """The item of the schedule that a joint stands under. Raises KeyError where the edition has no row."""
    table = TABLES["fastening_schedule"]
    item = next((row[_item(rules)] for row in table.rows if row["joint"] == joint and _item(rules) in row), None)
    if item is None:
        raise KeyError(joint)
    found = table.of(rules)
    return Source(found.document, found.edition, f"{found.clause}, item {item}")


def header_end_source(rules: str) -> Source:
    """Where the nails into a header's end stand in the edition."""
    if edition(rules) in TABLES["header_end_nails"].editions:
        return TABLES["header_end_nails"].of(rules)
    return source(rules, "full-height-stud-to-header-end")


def panel_nails(rules: str, thickness: int) -> tuple[str, ...]:
    """The equal nails of a wall panel of this thickness (on the grid); none where no row holds it."""
    for row in rows("wall_panel_nails", rules):
        if inch(row["from_in"]) <= thickness <= inch(row["to_in"]):
            return tuple(row["nails"])
    return ()


def _item(rules: str) -> str:
    return "item_from_2021" if edition(rules) in ("2021", "2024") else "item_to_2018"


def shank_pounds(length: int, diameter: int) -> float:
    """Weight of a steel shank: 0.2836 lb/in^3 x pi/4 D^2 L. What a head adds the point takes off, about."""
    return 0.2836 * 3.141592653589793 / 4 * (diameter / INCH) ** 2 * (length / INCH)
