"""The published tables in use, as they are served: made once, since they never change while the service runs."""

import functools
from typing import Final

import msgspec

from wallwright.published.tables import TABLES, Table
from wallwright.wire.published import PublishedAnswer, PublishedTable

_ENCODER: Final = msgspec.json.Encoder(decimal_format="number")


def answer() -> PublishedAnswer:
    """Every table, in the order of the data files."""
    return PublishedAnswer(tables=[_table(table) for table in TABLES.values()])


@functools.cache
def published_bytes() -> bytes:
    """The answer as JSON."""
    return _ENCODER.encode(answer())


def _table(table: Table) -> PublishedTable:
    return PublishedTable(
        id=table.id,
        title=table.title,
        source=table.source,
        editions=list(table.editions),
        clause=table.clause,
        status=table.status,
        units=table.units,
        notes=list(table.notes),
        rows=list(table.rows),
    )
