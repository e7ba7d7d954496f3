"""How the joints of a wall are nailed. Source: IRC Table R602.3(1), by edition."""

import msgspec

from wallwright.published.tables import TABLES, edition, inch, rows
from wallwright.sources import Source


class Nailing(msgspec.Struct, frozen=True, gc=False):
    """One choice of a joint: so many of a nail for each joint, or one each ``spacing`` (on the grid), or both."""

    nail: str
    count: int | None = None
    spacing: int | None = None


def choices(rules: str, joint: str) -> tuple[Nailing, ...]:
    """The equal choices of a joint such as ``plate-to-stud-end``. Raises KeyError where the edition has no row."""
    for row in rows("fastening_schedule", rules):
        if row["joint"] == joint and _item(rules) in row:
            return tuple(
                Nailing(c["nail"], c.get("count"), inch(c["spacing_in"]) if "spacing_in" in c else None)
                for c in row["choices"]
            )
    raise KeyError(joint)


def source(rules: str, joint: str) -> Source:
    """The item of the schedule that a joint stands under. Raises KeyError where the edition has no row."""
    table = TABLES["fastening_schedule"]
    item = next(row[_item(rules)] for row in table.rows if row["joint"] == joint)
    found = table.of(rules)
    return Source(found.document, found.edition, f"{found.clause}, item {item}")


def _item(rules: str) -> str:
    return "item_from_2021" if edition(rules) in ("2021", "2024") else "item_to_2018"
