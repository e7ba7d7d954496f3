"""Sections and their one name."""

import pytest

from wallwright.domain.stock import NOMINAL, Stock, stock_name, stock_of_name
from wallwright.lengths import INCH, inches

NAMES = ["2x4", "2x6", "4x4", "38x89", "45x145", "1-1/4x3-1/2", "1/2x5-1/2", "38.5x89", "50.8x101.6"]


@pytest.mark.parametrize("name", NAMES)
def test_a_name_comes_back_as_it_was(name):
    assert stock_of_name(name).name == name


def test_a_dressed_size_has_its_nominal_name():
    assert stock_of_name("1-1/2x3-1/2").name == "2x4"
    assert stock_of_name("38.1x88.9").name == "2x4"


def test_whole_inches_never_read_as_a_nominal_size():
    # A section of 2 in by 4 in actual is no 2x4.
    assert stock_name(Stock(2 * INCH, 4 * INCH)) == "50.8x101.6"


@pytest.mark.parametrize("name", ["4x3", "9x9", "2 x 4", "2x7", "x4", ""])
def test_other_names_are_refused(name):
    with pytest.raises(ValueError, match=r"no section|dressed size"):
        stock_of_name(name)


def test_every_nominal_section_is_thinner_than_wide():
    assert all(stock.thickness <= stock.width for stock in NOMINAL.values())
    assert NOMINAL["2x10"].width == inches("9 1/4")
