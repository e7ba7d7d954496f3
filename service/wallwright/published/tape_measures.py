"""Permissible errors of tape measures by accuracy class, from the data file beside this module."""

import tomllib
from importlib import resources
from typing import Final, Literal

import msgspec

from wallwright.lengths import MILLIMETRE
from wallwright.sources import Source

TapeClass = Literal["I", "II", "III"]
_METRE: Final = 1000 * MILLIMETRE
_TENTH: Final = MILLIMETRE // 10


class _Row(msgspec.Struct, frozen=True):
    a: int
    b: int
    c: int


def _read() -> tuple[Source, dict[str, _Row]]:
    table = tomllib.loads(resources.files(__package__).joinpath("tape_measures.toml").read_text(encoding="utf-8"))
    rows = {name: _Row(**row) for name, row in table["class"].items()}
    return Source(table["source"], table["edition"], table["clause"]), rows


_TABLE: Final = _read()
SOURCE: Final[Source] = _TABLE[0]


def permissible_error(tape_class: TapeClass, length: int, *, hooked: bool) -> int:
    """The most that a tape of this class may err over a length, either way; both on the grid.

    a + b L, with L in whole metres, rounded up, and c more where one end is the hook or an end face (SOURCE).
    """
    row = _TABLE[1][tape_class]
    metres = -(-length // _METRE)
    return (row.a + row.b * metres + (row.c if hooked else 0)) * _TENTH
