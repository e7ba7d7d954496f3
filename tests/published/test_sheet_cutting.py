"""Sheets against published guillotine cases with a saw cut: open test data under the MIT licence, numbers alone."""

import json
from pathlib import Path

import pytest

from wallwright.domain.buying.asked import Panel, SheetOffer
from wallwright.domain.buying.panels import cut_sheets
from wallwright.domain.buying.patterns import Work
from wallwright.domain.buying.sets import Sets
from wallwright.findings import PlanRefused
from wallwright.lengths import INCH

SEVEN = [(10, 25, 1), (5, 20, 1), (5, 10, 2), (5, 28, 1), (10, 20, 1), (20, 20, 1)]
CASES = {
    "seven pieces fill 1190 of 1200": ((40, 30), 0, SEVEN),
    "each a unit smaller, with a saw cut of one": ((39, 29), 1, [(w - 1, h - 1, n) for w, h, n in SEVEN]),
    "three stacked and one beside": ((34, 29), 1, [(9, 24, 4)]),
}

INSTANCES = json.loads((Path(__file__).parent / "guillotine.json").read_text(encoding="utf-8"))
"""Classical sets of rectangles with the greatest worth that one plate can yield by cuts from edge to edge.

Each row's source stands with it; the figures were found again by an exact dynamic programme or an integer model whose bound
equals its value. They ask for the most worth from one plate, where an order asks for the fewest plates that yield everything. What
both share is which pieces one plate can hold, and that is what is compared here.
"""
FULLY = {
    ("gcut1", "one_copy_each_guillotine"): 20_000,
    ("gcut5", "one_copy_each_guillotine"): 50_000,
    ("gcut1", "unconstrained_guillotine"): 60_000,
    ("gcut9", "unconstrained_guillotine"): 400_000,
}
"""Those whose every set of pieces is listed within so much work."""

PROVEN = {"gcut1", "gcut5", "gcut9"}
"""Orders of every rectangle once whose number of plates is proven the least."""


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


def asked(instance, kind):
    """The instance's rectangles, as often as it allows each on one plate."""
    width, height = instance["plate"]
    held = [(width * height) // (w * h) for w, h, _, _ in instance["items"]]
    single = kind == "one_copy_each_guillotine"
    return [
        Panel("osb", 1, w, h, 1 if single else min(most or room, room))
        for (w, h, most, _), room in zip(instance["items"], held, strict=True)
    ]


def worth(instance, counts):
    return sum(count * one[3] for count, one in zip(counts, instance["items"], strict=True))


CASES_OF_ONE_PLATE = [(one, kind) for one in INSTANCES for kind in one if kind.endswith(("guillotine", "rotation"))]


@pytest.mark.parametrize(
    ("instance", "kind"), CASES_OF_ONE_PLATE, ids=[f"{one['id']}-{kind}" for one, kind in CASES_OF_ONE_PLATE]
)
def test_what_one_plate_can_hold_is_worth_what_is_published(instance, kind):
    grain = "free" if kind.endswith("rotation") else "kept"
    work = FULLY.get((instance["id"], kind))
    sets = Sets(asked(instance, kind), *instance["plate"], 0, grain, Work(work or 30_000))
    best = max(sets.fitting(*instance["plate"]), key=lambda counts: worth(instance, counts))
    assert worth(instance, best) <= instance[kind]
    assert sets.complete == (work is not None)
    if work is not None:
        assert worth(instance, best) == instance[kind]
    # The pieces of that set, ordered, come out of one sheet.
    unit = INCH // 16
    panels = [
        Panel("osb", 1, w * unit, h * unit, n) for (w, h, _, _), n in zip(instance["items"], best, strict=True) if n
    ]
    plate = SheetOffer("osb", 1, instance["plate"][0] * unit, instance["plate"][1] * unit, 100, None)
    found = cut_sheets(panels, [plate], 0, grain, "normal", left)
    assert (found.count, found.bound) == (1, 100)


@pytest.mark.parametrize("instance", INSTANCES, ids=lambda instance: instance["id"])
def test_no_fewer_plates_are_said_to_do_than_the_published_worth_of_one_allows(instance):
    """All rectangles ordered once: a plate yields the published worth at most, so that many plates are needed at least.

    Where the worth is given for so many copies of each, those are ordered.
    """
    copies = "constrained_guillotine" in instance
    best = instance["constrained_guillotine" if copies else "unconstrained_guillotine"]
    counts = [one[2] if copies else 1 for one in instance["items"]]
    unit = INCH // 16
    panels = [
        Panel("osb", 1, one[0] * unit, one[1] * unit, n) for one, n in zip(instance["items"], counts, strict=True)
    ]
    plate = SheetOffer("osb", 1, instance["plate"][0] * unit, instance["plate"][1] * unit, 100, None)
    found = cut_sheets(panels, [plate], 0, "kept", "normal" if instance["id"] in PROVEN else "quick", left)
    least = -(-worth(instance, counts) // best)
    assert found.count >= least
    assert found.bound <= found.cost == 100 * found.count
    assert sum(sheet.count * len(sheet.pieces) for sheet in found.sheets) == sum(counts)
    if instance["id"] in PROVEN:
        assert found.bound == found.cost
