"""Published rules on raising walls and on wind, from the data file beside this module."""

from typing import Final

from wallwright.published.tables import TABLES, foot
from wallwright.sources import Source


def _source(name: str) -> Source:
    table = TABLES[name]
    return Source(table.source, table.editions[0] if table.editions else "", table.clause)


RESTRAINT_SOURCE: Final = _source("raising_restraint")
RESTRAINT_HEIGHT: Final = foot(TABLES["raising_restraint"].rows[0]["from_height_ft"])
"""Height on the grid from which a plate is held before its wall is raised by hand."""
MACHINE_SOURCE: Final = _source("raising_machine")
MACHINE_HEIGHT: Final = foot(TABLES["raising_machine"].rows[0]["from_height_ft"])
"""Height on the grid from which a wall is raised by machine."""
ZONE_SOURCE: Final = _source("raising_zone")
ZONE_MORE: Final = foot(TABLES["raising_zone"].rows[0]["more_than_height_ft"])
"""How much deeper than the wall is high the zone is that is kept clear, on the grid."""
CREW_SOURCE: Final = _source("raising_crew")
CREW_LENGTH: Final = foot(TABLES["raising_crew"].rows[0]["ft_for_each"])
"""Length of wall on the grid for each person who raises it."""
BRACE_SOURCE: Final = _source("raising_braces")
BRACE_DEGREES: Final = float(TABLES["raising_braces"].rows[0]["angle_degrees"])
BRACE_APART: Final = foot(TABLES["raising_braces"].rows[0]["most_apart_ft"])
"""Greatest distance between braces on the grid: common practice."""
STOP_WIND_SOURCE: Final = _source("raising_wind")
STOP_WIND_MPH: Final = float(TABLES["raising_wind"].rows[0]["stop_mph"])
WIND_SOURCE: Final = _source("wind_pressure")
_WIND: Final = float(TABLES["wind_pressure"].rows[0]["factor"])


def pressure_psf(mph: float) -> float:
    """Velocity pressure in lb per square foot of a wind in miles an hour (WIND_SOURCE)."""
    return _WIND * mph * mph


def wind_mph(psf: float) -> float:
    """The wind in miles an hour whose velocity pressure this is."""
    return float((psf / _WIND) ** 0.5)
