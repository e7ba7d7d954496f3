"""Sheets against published guillotine cases with a saw cut: open test data under the MIT licence, numbers alone."""

import pytest

from wallwright.domain.buying.asked import Panel, SheetOffer
from wallwright.domain.buying.panels import cut_sheets
from wallwright.findings import PlanRefused
from wallwright.lengths import INCH

SEVEN = [(10, 25, 1), (5, 20, 1), (5, 10, 2), (5, 28, 1), (10, 20, 1), (20, 20, 1)]
CASES = {
    "seven pieces fill 1190 of 1200": ((40, 30), 0, SEVEN),
    "each a unit smaller, with a saw cut of one": ((39, 29), 1, [(w - 1, h - 1, n) for w, h, n in SEVEN]),
    "three stacked and one beside": ((34, 29), 1, [(9, 24, 4)]),
}


def left() -> float:
    return 300.0


def cut(plate, kerf, items, grain="free", count=None):
    panels = [Panel("osb", 1, w * INCH, h * INCH, n) for w, h, n in items]
    return cut_sheets(
        panels, [SheetOffer("osb", 1, plate[0] * INCH, plate[1] * INCH, 100, count)], kerf * INCH, grain, "normal", left
    )


@pytest.mark.parametrize("case", CASES)
def test_pieces_that_fit_one_sheet_are_cut_from_one(case):
    plate, kerf, items = CASES[case]
    found = cut(plate, kerf, items)
    assert (found.count, found.cost, found.bound) == (1, 100, 100)
    placed = found.sheets[0].pieces
    assert len(placed) == sum(count for _, _, count in items)
    for number, one in enumerate(placed):
        assert one.left + one.width <= plate[0] * INCH
        assert one.bottom + one.length <= plate[1] * INCH
        for other in placed[number + 1 :]:
            apart = kerf * INCH
            assert (
                one.left + one.width + apart <= other.left
                or other.left + other.width + apart <= one.left
                or one.bottom + one.length + apart <= other.bottom
                or other.bottom + other.length + apart <= one.bottom
            )


def test_the_grain_costs_a_sheet_where_pieces_may_not_turn():
    """Worked by hand: 9 x 24 stand at most three abreast on 34 x 29, so that the fourth needs another sheet."""
    plate, kerf, items = CASES["three stacked and one beside"]
    assert cut(plate, kerf, items, "kept").count == 2


def test_five_that_a_saw_from_edge_to_edge_cannot_part_take_two_sheets():
    """Worked by hand: four of 2 x 3 about one of 1 x 1 fill 5 x 5 only as a pinwheel, which no straight cut divides."""
    items = [(2, 3, 2), (3, 2, 2), (1, 1, 1)]
    assert sum(w * h * n for w, h, n in items) == 25
    found = cut((5, 5), 0, items)
    assert found.count == 2
    assert found.cost == found.bound


def test_too_few_sheets_and_too_large_pieces_are_told():
    plate, kerf, items = CASES["three stacked and one beside"]
    with pytest.raises(PlanRefused) as told:
        cut(plate, kerf, items, "kept", 1)
    assert [fault.code for fault in told.value.faults] == ["sheets-too-few"]
    with pytest.raises(PlanRefused) as told:
        cut(plate, kerf, [(35, 30, 1)])
    assert [fault.code for fault in told.value.faults] == ["sheet-piece-too-large"]
