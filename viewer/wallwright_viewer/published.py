"""The published tables in use as a page: what is served under /v1/published, laid out to be read."""

import functools
import re
from decimal import Decimal
from typing import Any, Final

import msgspec

from wallwright.operations.published import answer
from wallwright.wire.published import PublishedTable

_CODE: Final = "International Residential Code"
EDITIONS: Final = tuple(sorted({year for table in answer().tables if table.source == _CODE for year in table.editions}))
"""Years of the residential code's editions, by which the page can be narrowed."""
_UNIT: Final = re.compile(r"_(in|ft|mm|psf|mph|plf|pcf|psi|lb|sq_ft|degrees|percent)$")
_READ: Final = {
    "verified": "read in the adopted text",
    "verified_partly": "read in part in the adopted text",
}


class Shown(msgspec.Struct, frozen=True):
    """One table as it is shown. A cell holds lines of text."""

    id: str
    title: str
    source: str
    clause: str
    editions: str
    units: str
    read: str
    notes: list[str]
    heads: list[str]
    rows: list[list[list[str]]]


@functools.cache
def shown(edition: str = "") -> tuple[Shown, ...]:
    """Every table; with the year of an edition only what that edition of the code has, and all other sources."""
    found = [_shown(table, edition) for table in answer().tables if _in_edition(table, edition)]
    return tuple(found)


def _in_edition(table: PublishedTable, edition: str) -> bool:
    return not edition or table.source != _CODE or edition in table.editions


def _shown(table: PublishedTable, edition: str) -> Shown:
    narrowed = edition if table.source == _CODE else ""
    rows = [row for row in table.rows if not narrowed or narrowed in row.get("editions", table.editions)]
    keys = list(dict.fromkeys(key for row in rows for key in row))
    return Shown(
        table.id,
        table.title,
        table.source,
        table.clause,
        ", ".join(table.editions),
        table.units,
        _READ.get(table.status, table.status.replace("_", " ")),
        list(table.notes),
        [head(key) for key in keys],
        [[_cell(row.get(key)) for key in keys] for row in rows],
    )


def head(key: str) -> str:
    """A column's name with its unit behind it."""
    unit = _UNIT.search(key)
    words = _UNIT.sub("", key).replace("_", " ")
    return f"{words}, {unit[1].replace('_', ' ')}" if unit else words


def _cell(value: Any) -> list[str]:
    """A value as lines of text: a list of lists or of choices has a line for each."""
    if isinstance(value, list) and any(isinstance(one, list | dict) for one in value):
        return [text(one) for one in value]
    return [text(value)]


def text(value: Any) -> str:
    """A value of a row as it is read."""
    if value is None:
        return ""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, Decimal):
        return f"{value.normalize():f}"
    if isinstance(value, list):
        return ", ".join(text(one) for one in value)
    if isinstance(value, dict):
        return ", ".join(f"{head(key)} {text(one)}" for key, one in value.items())
    return str(value)
