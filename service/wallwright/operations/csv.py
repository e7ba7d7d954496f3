"""Lists as CSV (RFC 4180): CRLF, quoted where needed, no cell that a spreadsheet would run as a formula."""

import csv
import io
from collections.abc import Iterable

_FORMULA_STARTS = ("=", "+", "-", "@", "\t", "\r")


def csv_text(header: list[str], rows: Iterable[list[object]]) -> str:
    """A header line and rows. A text that starts like a formula gets a leading apostrophe; numbers stand as they are."""
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\r\n")
    writer.writerow(header)
    for row in rows:
        writer.writerow([_safe(cell) for cell in row])
    return out.getvalue()


def _safe(cell: object) -> object:
    if isinstance(cell, str) and cell.startswith(_FORMULA_STARTS):
        return f"'{cell}"
    return cell
