"""Dressed sizes of softwood lumber by nominal name. Source: PS 20, dry sizes."""

from typing import Final

from wallwright.lengths import MILLIMETRE, inches
from wallwright.published.tables import TABLES
from wallwright.sources import Source

_TABLE: Final = TABLES["softwood_lumber"]
SOURCE: Final = Source(_TABLE.source, _TABLE.editions[0], _TABLE.clause)


def _sizes(of: str) -> dict[str, tuple[int, int]]:
    """Dressed sizes on the grid by nominal size: in the standard's inches, and in its whole millimetres."""
    return {
        row["nominal"]: (inches(row["dressed_in"]), row["dressed_mm"] * MILLIMETRE)
        for row in _TABLE.rows
        if row["of"] == of
    }


def _dressed(system: int) -> dict[str, tuple[int, int]]:
    return {
        f"{thick}x{wide}": (thickness[system], width[system])
        for thick, thickness in _sizes("thickness").items()
        for wide, width in _sizes("width").items()
        if int(wide) >= int(thick)
    }


DRESSED: Final[dict[str, tuple[int, int]]] = _dressed(0)
"""Dressed thickness and width on the grid by nominal name such as ``2x4``."""
DRESSED_MM: Final[dict[str, tuple[int, int]]] = _dressed(1)
"""The same in the whole millimetres printed beside the inches."""
_NOMINAL: Final = {
    **{size: name for name, size in DRESSED_MM.items()},
    **{size: name for name, size in DRESSED.items()},
}


def nominal(thickness: int, width: int) -> str | None:
    """The nominal name of a section dressed to the standard's inches or to its millimetres; None for any other."""
    return _NOMINAL.get((thickness, width))
