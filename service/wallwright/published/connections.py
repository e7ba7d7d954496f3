"""What nails and screws hold: withdrawal and single shear by the wood standard's formulas, and panels' unit shear.

Source: ANSI/AWC NDS 2018, 12.2 and 12.3; AWC SDPWS Table 4.3A. Forces in pounds, sizes in inches, since the
formulas are fitted in them. They are reference values: adjustments for moisture, duration and the like are the
designer's.
"""

from math import sqrt
from typing import Final

import msgspec

from wallwright.published.tables import TABLES, OutsideTable, inch, rows
from wallwright.sources import Source

LBF_IN_N: Final = 4.4482216152605
END_GRAIN: Final = 0.67
"""Factor on the lateral value of a fastener in end grain (NDS 12.5.2); a nail in end grain has no withdrawal value."""
TOE_LATERAL: Final = 0.83
"""Factor on the lateral value of a toe-nail (NDS 12.5.4, from memory)."""
TOE_WITHDRAWAL: Final = 0.67
"""Factor on the withdrawal value of a toe-nail (NDS 12.5.4, from memory)."""
LEAST_PENETRATION: Final = 6
"""Diameters that a nail or wood screw must reach into the main member (NDS 12.1.5.6 and 12.1.6.4)."""
FULL_PENETRATION: Final = 10
"""Diameters from which a lateral value counts in full (NDS Table 12N)."""
REFERENCE_GRAVITY: Final = 0.5
_PANEL_BEARING: Final = {"osb": 4650.0, "plywood": 3350.0, "siding": 3350.0}
"""Dowel bearing strength of panels in psi (NDS Table 12.3.3B, from memory)."""
_SCREW_YIELD: Final = {8: 90000.0, 9: 90000.0, 10: 80000.0}
"""Bending yield strength of wood screws in psi by gauge (NDS Table 12L, from memory)."""


class Lateral(msgspec.Struct, frozen=True, gc=False):
    """A reference lateral value in pounds, and the mode of yielding that governs."""

    pounds: float
    mode: str


def gravity(species: str) -> float:
    """Assigned specific gravity of a species (NDS Table 12.3.3A). Raises KeyError for one not held."""
    return _by("specific_gravity", "species", species, "gravity")


def timber_bearing(species: str) -> float:
    """Dowel bearing strength in psi for diameters under 1/4 in, as printed (NDS Table 12.3.3)."""
    return _by("specific_gravity", "species", species, "bearing_psi")


def panel_bearing(kind: str) -> float:
    """Dowel bearing strength of a panel in psi (NDS Table 12.3.3B, from memory)."""
    return _PANEL_BEARING[kind]


def _by(table: str, key: str, name: str, field: str) -> float:
    for row in rows(table):
        if row[key] == name:
            return float(row[field])
    raise KeyError(name)


def bearing_of(specific_gravity: float) -> float:
    """Dowel bearing strength in psi for diameters under 1/4 in, unrounded: 16600 G^1.84."""
    return float(16600 * specific_gravity**1.84)


def yield_strength(diameter_in: float) -> float:
    """Bending yield strength of a plain nail in psi, by its diameter in inches. Raises OutsideTable past the last."""
    for row in rows("bending_yield"):
        if diameter_in <= float(row["diameter_in"]):
            return float(row["yield_psi"])
    raise OutsideTable("the fastener is thicker than the table's last row")


def screw_yield(gauge: int) -> float:
    """Bending yield strength of a wood screw in psi (NDS Table 12L, from memory)."""
    return _SCREW_YIELD[gauge]


def nail_withdrawal(specific_gravity: float, diameter_in: float) -> float:
    """Pounds per inch of penetration of a plain nail in side grain: 1380 G^2.5 D (NDS 12.2-3)."""
    return float(1380 * specific_gravity**2.5 * diameter_in)


def screw_withdrawal(specific_gravity: float, diameter_in: float) -> float:
    """Pounds per inch of thread of a wood screw in side grain: 2850 G^2 D, D the major diameter (NDS 12.2-2)."""
    return float(2850 * specific_gravity**2 * diameter_in)


def lateral(
    diameter_in: float, side_in: float, main_in: float, side_psi: float, main_psi: float, yield_psi: float
) -> Lateral:
    """The least of the six yield modes in single shear (NDS Table 12.3.1A), for a diameter under 1/4 in.

    ``side_in`` is the bearing length in the side member, ``main_in`` the penetration into the main member: it counts
    in full from 10 diameters, less half the tip (2 diameters) below that, and is worth nothing below 6.
    A screw's diameter is that of its root. Raises OutsideTable below 6 diameters or for a thicker fastener.
    """
    if main_in < LEAST_PENETRATION * diameter_in - 1e-9:
        raise OutsideTable("the point reaches less than 6 diameters into the second piece")
    if diameter_in >= 0.25:
        raise OutsideTable("the formulas' factors are for diameters under 1/4 in")
    d, ls, fs, fm, fyb = diameter_in, side_in, side_psi, main_psi, yield_psi
    lm = main_in if main_in >= FULL_PENETRATION * d else main_in - d
    re, rt = fm / fs, lm / ls
    kd = 2.2 if d <= 0.17 else 10 * d + 0.5
    k1 = (sqrt(re + 2 * re**2 * (1 + rt + rt**2) + rt**2 * re**3) - re * (1 + rt)) / (1 + re)
    k2 = -1 + sqrt(2 * (1 + re) + 2 * fyb * (1 + 2 * re) * d**2 / (3 * fm * lm**2))
    k3 = -1 + sqrt(2 * (1 + re) / re + 2 * fyb * (2 + re) * d**2 / (3 * fm * ls**2))
    modes = (
        (d * lm * fm / kd, "Im"),
        (d * ls * fs / kd, "Is"),
        (k1 * d * ls * fs / kd, "II"),
        (k2 * d * lm * fm / ((1 + 2 * re) * kd), "IIIm"),
        (k3 * d * ls * fm / ((2 + re) * kd), "IIIs"),
        (d**2 / kd * sqrt(2 * fm * fyb / (3 * (1 + re))), "IV"),
    )
    pounds, mode = min(modes)
    return Lateral(pounds, mode)


def penetration_factor(main_in: float, diameter_in: float) -> float:
    """What a table's lateral value is multiplied with between 6 and 10 diameters: p / 10 D (NDS Table 12N, notes)."""
    return min(1.0, main_in / (FULL_PENETRATION * diameter_in))


class UnitShear(msgspec.Struct, frozen=True, gc=False):
    """Nominal unit shear of a sheathed wall in pounds per foot, before and after the factor for lighter timber."""

    wind_plf: float
    seismic_plf: float
    gravity_factor: float
    panel: int
    """Nominal thickness of the row, on the grid."""
    nail: str
    spacing: int
    """Edge spacing of the column, on the grid."""


_SPACINGS: Final = (6, 4, 3, 2)


def gravity_factor(specific_gravity: float) -> float:
    """1 - (0.5 - G), never over 1 (SDPWS Table 4.3A, note on framing)."""
    return min(1.0, 1 - (REFERENCE_GRAVITY - specific_gravity))


def unit_shear(
    thickness: int, nail: str, spacing: int, penetration: int, specific_gravity: float, grade: str = "Sheathing"
) -> UnitShear:
    """The row that a panel reaches with a nail (``6d``, ``8d``, ``10d``) at an edge spacing; lengths on the grid.

    A thickness within 1/64 in under a row's counts as that row's, so that 11 mm reads as 7/16 in.
    Raises OutsideTable where no row holds it, or the nail reaches less far into the framing than the row asks.
    """
    reached = [
        row
        for row in rows("panel_unit_shear")
        if row["grade"] == grade and row["nail"] == nail and inch(row["panel_in"]) <= thickness + inch("0.015625")
    ]
    if not reached:
        raise OutsideTable("no row holds such a panel with such a nail")
    row = max(reached, key=lambda one: one["panel_in"])
    if penetration < inch(row["penetration_in"]):
        raise OutsideTable("the nail reaches less far into the framing than the table asks")
    columns = [number for number, each in enumerate(_SPACINGS) if spacing <= inch(each)]
    if not columns:
        raise OutsideTable("the edge nails stand further apart than the table's first column")
    column = columns[-1]
    return UnitShear(
        float(row["wind_plf"][column]), float(row["seismic_plf"][column]), gravity_factor(specific_gravity),
        inch(row["panel_in"]), nail, inch(_SPACINGS[column]),
    )  # fmt: skip


def aspect_factor(height_over_width: float) -> float:
    """1.25 - 0.125 h/b above 2 (SDPWS 4.3.3.2). Raises OutsideTable above 3.5."""
    if height_over_width > 3.5:
        raise OutsideTable("the panel is too slender to count")
    return 1.0 if height_over_width <= 2 else 1.25 - 0.125 * height_over_width


def standard() -> Source:
    """Where the formulas stand."""
    return Source("ANSI/AWC NDS", "2018", "12.2 and 12.3")


def shear_source() -> Source:
    """Where the unit shears stand."""
    table = TABLES["panel_unit_shear"]
    return Source(table.source, table.editions[0], table.clause)
