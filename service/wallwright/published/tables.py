"""Every published table, read once from the data files beside this module when it is imported.

A data file holds tables by id, each with its title, source, editions, clause, status, units and rows.
`status` says how sure the figures are: `verified` was read in the adopted text of the code or standard,
`verified_partly` in part. Decimals are read exactly, so that no length passes through a binary float.
"""

import tomllib
from collections.abc import Iterable
from decimal import Decimal
from fractions import Fraction
from importlib import resources
from typing import Any, Final

import msgspec

from wallwright.lengths import FOOT, INCH, nearest
from wallwright.sources import IRC_EDITIONS, Source

Row = dict[str, Any]


class Table(msgspec.Struct, frozen=True):
    """A published table as it is held: rows are keyed by names that carry their unit."""

    id: str
    title: str
    source: str
    editions: tuple[str, ...]
    clause: str
    status: str
    units: str
    rows: tuple[Row, ...]
    notes: tuple[str, ...] = ()

    def of(self, rules: str) -> Source:
        """The table as a source, in the edition that ``rules`` names (such as ``irc-2021``)."""
        return Source(self.source, edition(rules), self.clause)


class OutsideTable(ValueError):
    """What was asked stands in no row or column; ``reason`` says why in a few words."""

    def __init__(self, reason: str) -> None:
        super().__init__(reason)
        self.reason = reason


def edition(rules: str) -> str:
    """The edition's year that ``rules`` names. Raises KeyError for a name that the contract does not know."""
    return IRC_EDITIONS[rules]


def inch(value: Decimal | int | str) -> int:
    """A printed figure in inches on the grid."""
    return nearest(Fraction(value) * INCH)


def foot(value: Decimal | int | str) -> int:
    """A printed figure in feet on the grid."""
    return nearest(Fraction(value) * FOOT)


def _read() -> dict[str, Table]:
    found: dict[str, Table] = {}
    for file in sorted(resources.files(__package__).iterdir(), key=lambda file: file.name):
        if not file.name.endswith(".toml"):
            continue
        for name, fields in tomllib.loads(file.read_text(encoding="utf-8"), parse_float=Decimal).items():
            if name in found:
                raise ValueError(f"two data files hold {name}")
            found[name] = msgspec.convert({"id": name, **fields}, Table)
    return found


TABLES: Final[dict[str, Table]] = _read()
"""Every table by its id, in the order of the files."""


def rows(name: str, rules: str | None = None) -> tuple[Row, ...]:
    """The rows of a table; with ``rules`` only those of that edition.

    Raises OutsideTable where the edition has no such table.
    """
    table = TABLES[name]
    if rules is None:
        return table.rows
    year = edition(rules)
    if year not in table.editions:
        raise OutsideTable(f"the edition of {year} has no such table")
    return tuple(row for row in table.rows if year in row.get("editions", table.editions))


def first_up_to(value: Fraction | int, limits: Iterable[int], what: str) -> int:
    """Index of the first of ``limits`` (rising) that ``value`` does not pass. Raises OutsideTable past the last."""
    for index, limit in enumerate(limits):
        if value <= limit:
            return index
    raise OutsideTable(f"{what} is past the table's last column")
