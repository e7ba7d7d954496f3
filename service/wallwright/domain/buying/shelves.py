"""Sheets filled shelf by shelf: a quick way to full sheets where sets of pieces are too many to be listed.

A shelf runs across the sheet and is as high as the piece that opens it; what stands beside that piece are columns of equal
pieces, one above the other. Shelves lie one above the other, so that a guillotine cuts them: first shelf from shelf, then
column from column, then piece from piece. Common practice, no source; such sheets are offered to the programme beside the sets
that are listed, and prove nothing.
"""

from collections.abc import Sequence

import msgspec

from wallwright.domain.buying.patterns import Counts


class Box(msgspec.Struct, frozen=True):
    """A rectangle that a guillotine cuts into pieces: one piece, or two boxes side by side or one above the other."""

    width: int
    length: int
    piece: int = -1
    parts: tuple["Box", ...] = ()
    beside: bool = False


def joined(one: Box, other: Box, kerf: int, *, beside: bool) -> Box:
    """Two boxes with a saw cut between them, side by side or one above the other."""
    if beside:
        return Box(one.width + kerf + other.width, max(one.length, other.length), parts=(one, other), beside=True)
    return Box(max(one.width, other.width), one.length + kerf + other.length, parts=(one, other))


def shelved(pieces: Sequence[Box], demand: Counts, width: int, length: int, kerf: int) -> list[tuple[Counts, Box]]:
    """Full sheets that together hold every piece that fits.

    Args:
        pieces: Single pieces, each in a way that it may lie; ``piece`` is its place in ``demand``.
        demand: How many of each are wanted.
        width: The sheet's width, in grid units.
        length: Its length, in grid units.
        kerf: What a saw cut takes, in grid units.

    Returns:
        For each sheet that differs from the last the pieces on it and how they lie; no sheet is given twice running.
    """
    order = sorted(pieces, key=lambda box: (-box.length, -box.width, box.piece))
    left = [count if any(box.piece == place for box in order) else 0 for place, count in enumerate(demand)]
    found: list[tuple[Counts, Box]] = []
    while any(left):
        box, used = _sheet(order, left, width, length, kerf)
        if box is None:
            break
        found.append((used, box))
        times = min(have // take for have, take in zip(left, used, strict=True) if take)
        left = [have - times * take for have, take in zip(left, used, strict=True)]
    return found


def _sheet(order: list[Box], left: list[int], width: int, length: int, kerf: int) -> tuple[Box | None, Counts]:
    """One sheet filled from what is left to be cut."""
    rest = list(left)
    sheet: Box | None = None
    for opening in order:
        while rest[opening.piece]:
            room = length if sheet is None else length - sheet.length - kerf
            if opening.length > room or opening.width > width:
                break
            shelf = _shelf(opening, order, rest, width, kerf)
            sheet = shelf if sheet is None else joined(sheet, shelf, kerf, beside=False)
    return sheet, tuple(before - after for before, after in zip(left, rest, strict=True))


def _shelf(opening: Box, order: list[Box], rest: list[int], width: int, kerf: int) -> Box:
    """A shelf as high as the piece that opens it, filled with columns; takes its pieces out of ``rest``."""
    rest[opening.piece] -= 1
    shelf = opening
    for box in order:
        if box.length > opening.length:
            continue
        while rest[box.piece] and shelf.width + kerf + box.width <= width:
            high = min(rest[box.piece], (opening.length + kerf) // (box.length + kerf))
            column = box
            for _ in range(high - 1):
                column = joined(column, box, kerf, beside=False)
            rest[box.piece] -= high
            shelf = joined(shelf, column, kerf, beside=True)
    return shelf
