"""Checks against the International Residential Code, 2021 edition; the local code comes first."""

import pytest
from tests.published.plain import FULL_HEIGHT, feet, opening, plain_wall, with_role

from wallwright.domain.framed import framed, layout, skinned
from wallwright.domain.wall import Sheathing
from wallwright.lengths import INCH, inches


@pytest.mark.parametrize("width", ["18", "36", "72"])
def test_a_header_bears_1_1_2_in_at_each_end(width: str) -> None:
    # IRC 2021 R502.6: 1-1/2 in of bearing on wood. One jack stud gives it.
    laid = layout(plain_wall(feet(14), openings=(opening("40", width, "80"),)))
    (header,) = with_role(laid, "header")
    jacks = with_role(laid, "jack-stud")
    left = sum(m.width for m in jacks if m.right <= inches("40") and m.x >= header.x)
    right = sum(m.width for m in jacks if m.x >= inches("40") + inches(width) and m.right <= header.right)
    assert min(left, right) >= inches("1 1/2")


def test_a_header_of_4_ft_or_less_has_one_full_height_stud_at_each_end() -> None:
    # IRC 2021 Table R602.7.5: one full-height stud at each end up to 4 ft of header span.
    laid = layout(plain_wall(feet(14), openings=(opening("40", "45", "80"),)))
    (header,) = with_role(laid, "header")
    full = with_role(laid, *FULL_HEIGHT)
    assert any(m.right == header.x for m in full)
    assert any(m.x == header.right for m in full)


def test_sheets_join_on_one_stud_and_level_joints_lie_on_1_1_2_in_blocking() -> None:
    # IRC 2021 R602.10 (joints of bracing panels): upright joints on a common stud, level joints on
    # blocking of 1-1/2 in thickness at least.
    done = framed(plain_wall(feet(12), height=inches("121 1/8"), sheathing=Sheathing(gap=inches("1/8"))))
    skin = skinned(done)
    members = {m.id: m for m in done.layout.members}
    upright = [s for s in skin.seams if s.direction == "upright"]
    level = [s for s in skin.seams if s.direction == "level"]
    assert upright
    assert level
    for seam in upright:
        assert any(
            members[name].x <= seam.before and seam.after <= members[name].right and "stud" in members[name].role
            for name in seam.members
        )
    blocks = [members[name] for seam in level for name in seam.members if members[name].role == "blocking"]
    assert blocks
    assert min(m.depth for m in blocks) >= 3 * INCH // 2
