"""Rectangles laid on few sheets, beside published cases and what a complete search proves."""

from hypothesis import given
from hypothesis import strategies as st
from tests.published.test_sheet_cutting import CASES

from wallwright.domain.buying.asked import Panel, SheetOffer
from wallwright.domain.buying.panels import cut_sheets
from wallwright.domain.reuse import Sheets, packed
from wallwright.lengths import INCH


def test_published_cases_are_bounded_by_the_one_sheet_that_they_are_known_to_fit():
    for (wide, high), kerf, items in CASES.values():
        found = packed([(w, h) for w, h, count in items for _ in range(count)], Sheets(wide, high, kerf, True))
        assert found is not None
        assert found.least == 1


def test_three_stacked_and_one_beside_are_found_on_one_sheet():
    (wide, high), kerf, ((w, h, count),) = CASES["three stacked and one beside"]
    found = packed([(w, h)] * count, Sheets(wide, high, kerf, True))
    assert found is not None
    assert found.sheets == 1


def test_two_rectangles_wider_than_half_and_higher_than_half_take_two_sheets():
    found = packed([(25, 49), (24, 48)], Sheets(48, 96, 1))
    assert found is not None
    assert (found.sheets, found.least) == (2, 2)
    beside = packed([(24, 96), (23, 96)], Sheets(48, 96, 1))
    assert beside is not None
    assert beside.sheets == 1
    # A kerf more and they do not fit side by side.
    apart = packed([(24, 96), (24, 96)], Sheets(48, 96, 1))
    assert apart is not None
    assert (apart.sheets, apart.least) == (2, 2)


@given(
    st.lists(st.tuples(st.integers(2, 40), st.integers(2, 40)), min_size=1, max_size=6),
    st.integers(0, 2),
    st.booleans(),
)
def test_no_bound_is_above_what_a_complete_search_finds(sizes, kerf, free):
    found = packed(sizes, Sheets(40, 40, kerf, free))
    panels = [Panel("osb", 1, w * INCH, h * INCH, 1) for w, h in sizes]
    offers = [SheetOffer("osb", 1, 40 * INCH, 40 * INCH, 1, None)]
    best = cut_sheets(panels, offers, kerf * INCH, "free" if free else "kept", "normal", lambda: 300.0)
    assert found is not None
    assert best.cost == best.bound
    assert found.least <= best.cost <= found.sheets
