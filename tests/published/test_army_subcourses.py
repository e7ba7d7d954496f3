"""Checks against US Army engineer subcourses EN5151 and EN5155 (public domain)."""

import pytest
from tests.published.plain import feet, plain_wall, stud_count

from wallwright.domain.framed import layout
from wallwright.lengths import INCH


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
