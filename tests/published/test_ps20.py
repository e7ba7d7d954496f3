"""Checks against the American Softwood Lumber Standard, PS 20: dressed sizes of dry lumber."""

import json
from fractions import Fraction

import pytest
from tests.api.client import post

from wallwright.domain.stock import stock_of_name
from wallwright.lengths import INCH, MILLIMETRE

# PS 20, dry sizes: nominal thickness or width, inches dressed, and the millimetres that stand beside them.
DRY = [
    ("2", Fraction(3, 2), 38), ("3", Fraction(5, 2), 64), ("4", Fraction(7, 2), 89), ("5", Fraction(9, 2), 114),
    ("6", Fraction(11, 2), 140), ("8", Fraction(29, 4), 184), ("10", Fraction(37, 4), 235), ("12", Fraction(45, 4), 286),
]  # fmt: skip
THIN = ("1", Fraction(3, 4), 19)


@pytest.mark.parametrize(("wide", "dressed", "millimetres"), DRY)
@pytest.mark.parametrize(("thick", "thickness", "thick_mm"), [THIN, *DRY[:3]])
def test_a_nominal_name_has_its_dry_dressed_size(
    thick: str, thickness: Fraction, thick_mm: int, wide: str, dressed: Fraction, millimetres: int
) -> None:
    if int(wide) < int(thick):
        with pytest.raises(ValueError, match="size"):
            stock_of_name(f"{thick}x{wide}")
        return
    stock = stock_of_name(f"{thick}x{wide}")
    assert (stock.thickness, stock.width) == (thickness * INCH, dressed * INCH)
    # The standard's millimetres are the inches rounded to the whole millimetre.
    assert abs(stock.width - millimetres * MILLIMETRE) <= MILLIMETRE / 2
    assert abs(stock.thickness - thick_mm * MILLIMETRE) <= MILLIMETRE / 2


@pytest.mark.parametrize("sized", [False, True])
@pytest.mark.parametrize("units", ["in", "mm"])
def test_headers_left_to_the_service_are_of_the_yard_that_has_the_studs(units: str, sized: bool) -> None:
    """Whoever frames with 38 x 89 mm has no 2x6 to buy but 38 x 140 mm, the same line of the standard."""
    wall = {
        "units": units, "stud": "38x89", "length": "4800 mm", "height": "2700 mm",
        "openings": [{"left": "1 m", "width": "965 mm", "height": "2095 mm"}],
    }  # fmt: skip
    if sized:
        wall["carries"] = {"load": "roof", "building_width": "3.6 m"}
        wall["site"] = {"ground_snow_psf": 30, "wind_mph": 115, "exposure": "B"}
    answer = post("/v1/layout", json.dumps(wall).encode()).json()
    stocks = {member["stock"] for member in answer["members"]}
    assert stocks <= {"38x89", "38x140"}
    assert sized or "38x140" in stocks
    if sized:
        assert "header-compared" in {one["code"] for one in answer["findings"]}
    inches = post("/v1/layout", json.dumps({**wall, "stud": "2x4"}).encode()).json()
    assert {member["stock"] for member in inches["members"]} <= {"2x4", "2x6"}
