"""Checks against US Army engineer subcourses EN5151, EN5155 and EN5156 (public domain)."""

import pytest
from tests.published.plain import feet, plain_wall, stud_count, with_role

from wallwright.domain.framed import layout
from wallwright.domain.wall import Partition
from wallwright.lengths import INCH, inches


@pytest.mark.parametrize(
    ("length", "spacing", "count"),
    [
        # EN5151: a form side of 28 ft at 24 in: 28 x 12 / 24 + 1 = 15.
        (28, 24, 28 * 12 // 24 + 1),
        # EN5151: 24 ft at 14 in, which does not divide: ceil(20.57) + 1 = 22.
        (24, 14, -(-24 * 12 // 14) + 1),
    ],
)
def test_a_run_of_studs_is_its_spaces_rounded_up_and_one(length: int, spacing: int, count: int) -> None:
    assert stud_count(layout(plain_wall(feet(length), spacing * INCH))) == count
    assert count in (15, 22)


@pytest.mark.parametrize("at", range(60, 77))
@pytest.mark.parametrize("depth", ["3 1/2", "5 1/2"])
def test_where_a_partition_meets_a_wall_timber_extends_past_it_on_both_sides(at: int, depth: str) -> None:
    # EN5156 p. 2-9 and figure 2-13: a T-post, wide enough to stand out past the partition on both sides, is a solid
    # nailing base for the inside finish. Here it is made of studs, whatever the partition's place on the layout.
    one = Partition(at * INCH, inches(depth))
    laid = layout(plain_wall(feet(12), partitions=(one,)))
    studs = with_role(laid, "backing", "field-stud")
    assert any(m.x < one.at < m.right for m in studs)
    assert any(m.x < one.right < m.right for m in studs)
