"""Dressed sizes of softwood lumber by nominal name, from the data file beside this module."""

import tomllib
from importlib import resources
from typing import Final

from wallwright.lengths import inches
from wallwright.sources import Source


def _read() -> tuple[Source, dict[str, tuple[int, int]]]:
    """The table's source, and thickness and width on the grid by nominal name."""
    table = tomllib.loads(resources.files(__package__).joinpath("softwood_lumber.toml").read_text(encoding="utf-8"))
    sizes = {
        f"{thick}x{wide}": (inches(dressed_thick), inches(dressed_wide))
        for thick, dressed_thick in table["thickness"].items()
        for wide, dressed_wide in table["width"].items()
        if int(wide) >= int(thick)
    }
    return Source(table["source"], table["edition"], table["clause"]), sizes


_TABLE: Final = _read()
SOURCE: Final[Source] = _TABLE[0]
DRESSED: Final[dict[str, tuple[int, int]]] = _TABLE[1]
"""Dressed thickness and width on the grid by nominal name such as ``2x4``."""
