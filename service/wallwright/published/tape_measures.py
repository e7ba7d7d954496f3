"""Permissible errors of tape measures by accuracy class, from the data file beside this module."""

from typing import Final, Literal

from wallwright.lengths import MILLIMETRE
from wallwright.published.tables import TABLES
from wallwright.sources import Source

TapeClass = Literal["I", "II", "III"]
_METRE: Final = 1000 * MILLIMETRE
_TENTH: Final = MILLIMETRE // 10


_HELD: Final = TABLES["tape_measures"]
_ROWS: Final = {row["class"]: row for row in _HELD.rows}
SOURCE: Final = Source(_HELD.source, _HELD.editions[0], _HELD.clause)


def permissible_error(tape_class: TapeClass, length: int, *, hooked: bool) -> int:
    """The most that a tape of this class may err over a length, either way; both on the grid.

    a + b L, with L in whole metres, rounded up, and c more where one end is the hook or an end face (SOURCE).
    """
    row = _ROWS[tape_class]
    metres = -(-length // _METRE)
    return int(row["a"] + row["b"] * metres + (row["c"] if hooked else 0)) * _TENTH
