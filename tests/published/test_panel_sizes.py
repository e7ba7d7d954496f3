"""Checks against the panel makers' published sizes and gaps.

Sources: APA Europe, sized-for-spacing pages and the builder tip on gaps (1/8 in at all edges); PS 2, tolerance
of a sheet's width plus 0 minus 1/8 in, so that 47-7/8 x 95-7/8 is a legal 48 x 96 sheet.
"""

import pytest
from tests.published.plain import Sheet, mm, plain_wall, with_role

from wallwright.domain.framed import framed, layout, sheathing, skinned
from wallwright.domain.skin import Skin
from wallwright.domain.wall import Sheathing
from wallwright.lengths import INCH, inches


def spans(skin: Skin) -> list[tuple[int, int]]:
    """Where each piece begins and ends, from left to right."""
    return sorted((min(x for x, _ in p.outline), max(x for x, _ in p.outline)) for p in skin.pieces)


def test_three_sized_sheets_with_two_gaps_make_143_7_8() -> None:
    # Three sheets of 47-7/8 in and two gaps of 1/8 in: 3 x 47-7/8 + 2 x 1/8 = 143-7/8.
    total = 3 * inches("47 7/8") + 2 * inches("1/8")
    sized = Sheathing(Sheet(sized_for_spacing=True))
    skin = sheathing(plain_wall(total, height=inches("95 7/8"), sheathing=sized))
    assert spans(skin) == [(k * 48 * INCH, k * 48 * INCH + inches("47 7/8")) for k in range(3)]
    assert total == inches("143 7/8")
    assert len(skin.sheets) == 3


def test_three_full_sheets_with_two_gaps_make_144_1_4() -> None:
    # Three sheets of 48 in and the same gaps: 3 x 48 + 2 x 1/8 = 144-1/4.
    total = 3 * inches("48") + 2 * inches("1/8")
    done = framed(plain_wall(total, height=inches("96"), sheathing=Sheathing()))
    assert total == inches("144 1/4")
    assert len(skinned(done).sheets) == 3


@pytest.mark.parametrize("k", [1, 2, 3, 4, 5])
def test_the_gaps_of_full_sheets_add_up_and_eat_the_bearing(k: int) -> None:
    # Sheet k + 1 begins at k x 48 + k/8; the stud centred on k x 48 ends 3/4 past it: 3/4 - k/8 is left.
    laid = layout(plain_wall(inches("384")))
    (stud,) = [m for m in with_role(laid, "field-stud") if m.x < k * 48 * INCH < m.right]
    assert stud.right - (k * 48 * INCH + k * inches("1/8")) == inches("3/4") - k * inches("1/8")


def test_the_first_seam_of_full_sheets_bears_3_4_and_5_8() -> None:
    # The rule above with k = 1: 3/4 left of the gap, 3/4 - 1/8 = 5/8 right of it.
    skin = sheathing(plain_wall(inches("96 1/8"), height=inches("96"), sheathing=Sheathing()))
    (seam,) = skin.seams
    assert (seam.bearing_before, seam.bearing_after) == (inches("3/4"), inches("5/8"))


def test_the_service_says_what_sized_sheets_would_save() -> None:
    # Full sheets drift off the layout by 1/8 in a seam, sized ones keep the 48 in module.
    full = sheathing(plain_wall(inches("384"), height=inches("96"), sheathing=Sheathing()))
    sized = sheathing(
        plain_wall(inches("384"), height=inches("95 7/8"), sheathing=Sheathing(Sheet(sized_for_spacing=True)))
    )
    assert "sheets-sized-for-spacing-save" in {f.code for f in full.findings}
    assert "sheets-sized-for-spacing-save" not in {f.code for f in sized.findings}
    assert [left for left, _ in spans(sized)] == [k * 48 * INCH for k in range(8)]


@pytest.mark.parametrize(
    ("spacing", "width", "misses"),
    [
        # 1200 / 400 = 3 and 1200 / 600 = 2, so boards of 1200 mm end on studs; boards of 1220 mm want 406.7 and 610.
        (mm(400), mm(1200), False),
        (mm(600), mm(1200), False),
        (mm(610), mm(1220), False),
        (mm(400), mm(1220), True),
        (mm(600), mm(1220), True),
    ],
)
def test_metric_boards_fit_the_spacings_that_divide_them(spacing: int, width: int, misses: bool) -> None:
    sheet = Sheet(width, mm(2440), mm(11))
    laid = layout(plain_wall(mm(4800), spacing, mm(2400), sheathing=Sheathing(sheet, gap=0)))
    assert ("spacing-misses-sheet" in {f.code for f in laid.findings}) is misses
