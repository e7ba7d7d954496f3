"""Bracing of one-storey walls by wood structural panels. Source: IRC R602.10, by edition.

Lengths are read in the next column or row up: nothing is interpolated here. A needed length rounds up.
"""

from fractions import Fraction
from typing import Any

from wallwright.published.tables import TABLES, OutsideTable, first_up_to, foot, inch, rows
from wallwright.sources import Source


def length_needed(
    rules: str, method: str, wind_mph: float, exposure: str, line_spacing: int, eave_to_ridge: int, wall_height: int,
    *, lines: int = 2, gypsum_inside: bool = False,
) -> int:  # fmt: skip
    """Braced length that each wall line of a one-storey building needs against wind, on the grid.

    ``method`` is ``WSP`` or ``CS-WSP``; ``line_spacing``, ``eave_to_ridge`` and ``wall_height`` are on the grid.
    Source: Tables R602.10.3(1) and R602.10.3(2). Raises OutsideTable.
    """
    base = _base(rules, method, wind_mph, line_spacing)
    factor = _by_word(rules, "exposure", exposure) * _by_size(rules, "eave-to-ridge", eave_to_ridge)
    factor *= _by_size(rules, "wall-height", wall_height)
    factor *= _by_word(rules, "braced-lines", "5 or more" if lines >= 5 else str(lines))
    if not gypsum_inside:
        factor *= Fraction(_factors(rules, "no-gypsum-inside")[0]["factor"])
    needed = base * factor
    return -(-needed.numerator // needed.denominator)


def length_source(rules: str) -> Source:
    """Where needed lengths stand."""
    return TABLES["bracing_lengths"].of(rules)


def _base(rules: str, method: str, wind_mph: float, line_spacing: int) -> Fraction:
    """The printed length on the grid, for exposure B, a 10 ft wall and two braced lines."""
    (columns,) = rows("bracing_line_spacings", rules)
    column = first_up_to(line_spacing, [foot(ft) for ft in columns["line_spacing_ft"]], "the distance of braced lines")
    key = {"WSP": "wsp_ft", "CS-WSP": "cs_wsp_ft"}[method]
    for row in rows("bracing_lengths", rules):
        if wind_mph <= row["wind_mph"] if row["inclusive"] else wind_mph < row["wind_mph"]:
            return Fraction(foot(row[key][column]))
    raise OutsideTable("the wind is stronger than the table's last row")


def _factors(rules: str, case: str) -> list[dict[str, Any]]:
    return [row for row in rows("bracing_factors", rules) if row["case"] == case]


def _by_word(rules: str, case: str, word: str) -> Fraction:
    for row in _factors(rules, case):
        if row["of"] == word:
            return Fraction(row["factor"])
    raise OutsideTable(f"the table has no factor for {case} {word}")


def _by_size(rules: str, case: str, size: int) -> Fraction:
    found = _factors(rules, case)
    what = "the eave-to-ridge height" if case == "eave-to-ridge" else "the wall's height"
    return Fraction(found[first_up_to(size, [foot(row["to_ft"]) for row in found], what)]["factor"])


def _height_column(wall_height: int) -> int:
    return first_up_to(wall_height, [foot(ft) for ft in (8, 9, 10, 11, 12)], "the wall's height")


def least_panel(rules: str, method: str, wall_height: int) -> int:
    """Least length of a braced panel by its method, on the grid. Source: Table R602.10.5. Raises OutsideTable."""
    for row in rows("braced_panel_lengths", rules):
        if row["method"] == method:
            least = row["least_in"][_height_column(wall_height)]
            if not least:
                break
            return inch(least)
    raise OutsideTable("the table prints no length for it")


def least_beside_opening(rules: str, opening_height: int, wall_height: int) -> int:
    """Least length of a continuously sheathed panel beside an opening, on the grid.

    By clear height of the taller opening beside it. Source: Table R602.10.5. Raises OutsideTable.
    """
    held = rows("continuous_panel_lengths", rules)
    row = held[first_up_to(opening_height, [inch(row["opening_in"]) for row in held], "the opening's height")]
    least = row["least_in"][_height_column(wall_height)]
    if not least:
        raise OutsideTable("the table prints no length for it")
    return inch(least)


def counted(rules: str, panel: int, wall_height: int, seismic: str | None) -> int:
    """What a WSP panel counts for: its length, less for one shorter than the least, or nothing. On the grid.

    The lesser credit holds in seismic categories A to C and walls of 9 ft or less. Source: R602.10.5.
    """
    if panel >= least_panel(rules, "WSP", wall_height):
        return panel
    column = _height_column(wall_height)
    if seismic not in ("A", "B", "C") or column > 1:
        return 0
    return max(
        (
            inch(row["counts_in"][column])
            for row in rows("braced_panel_credit", rules)
            if panel >= inch(row["panel_in"])
        ),
        default=0,
    )


def least_thickness(rules: str, method: str) -> int:
    """Least nominal thickness of a braced panel, on the grid. Source: Table R602.10.4."""
    return inch(next(row["thickness_in"] for row in rows("bracing_methods", rules) if row["method"] == method))


def places(rules: str) -> tuple[int, int, int, int]:
    """How far from a line's end the first panel begins at most, how far apart panels stand at most, up to which
    length a line is short, and the panel that serves such a line alone; all on the grid. Source: R602.10.
    """
    (row,) = rows("braced_panel_places", rules)
    return (
        foot(row["first_within_ft"]),
        foot(row["apart_at_most_ft"]),
        foot(row["short_line_ft"]),
        inch(row["alone_in"]),
    )
