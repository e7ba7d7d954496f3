"""Anchor bolts of wall plates on concrete, from the data file beside this module."""

import tomllib
from importlib import resources
from typing import Final

from wallwright.lengths import inches
from wallwright.sources import Source, irc

_TABLE: Final = tomllib.loads(resources.files(__package__).joinpath("anchors.toml").read_text(encoding="utf-8"))

DIAMETER: Final = inches(_TABLE["diameter"])
SPACING: Final = inches(_TABLE["spacing"])
"""Greatest distance from bolt to bolt."""
END_MOST: Final = inches(_TABLE["end_most"])
"""A bolt stands within this of each end of every plate piece."""
END_LEAST: Final = _TABLE["end_least_diameters"] * DIAMETER
"""No bolt stands nearer than this to an end."""
LEAST_FOR_EACH_PIECE: Final[int] = _TABLE["least_for_each_piece"]
EMBEDMENT: Final = inches(_TABLE["embedment"])
"""How far a bolt reaches into the concrete."""
WASHER_SIDE: Final = inches(_TABLE["plate_washer"]["side"])
"""Side of the plate washers that are asked for along braced wall lines in high seismic categories."""


def source(rules: str) -> Source:
    """Where the rules on anchor bolts stand, in the edition named."""
    return irc(rules, _TABLE["clause"])
