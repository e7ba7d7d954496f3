"""The rule of the tape's grid: which layout studs stand between two fixed uprights, and which are slid or left out."""

import pytest

from wallwright.domain.grid import Bound, lines_between, places
from wallwright.domain.wall import End, Tape, Wall
from wallwright.lengths import INCH, inches

HALF = inches("3/4")


def wall(length: str = "240", zero: str = "plate", offset: str = "0", lap: str = "0", spacing: str = "16") -> Wall:
    return Wall(
        length=inches(length), height=96 * INCH, spacing=inches(spacing),
        tape=Tape("left", zero, inches(offset)), left=End(sheathing_lap=inches(lap)),  # type: ignore[arg-type]
    )  # fmt: skip


def stretch(left_edge: str, right_edge: str) -> tuple[Bound, Bound]:
    """Single studs at both sides, the left one ending and the right one beginning at these edges."""
    left, right = inches(left_edge), inches(right_edge)
    return Bound(left, left - HALF), Bound(right, right + HALF)


STRETCHES = [
    # Studs on their lines; the last line, at the end stud's centre, is the end stud's.
    ("1 1/2", "47 1/4", [("15 1/4", False), ("31 1/4", False)]),
    # A line at 32 overlaps the upright that ends at 32-1/2: the bay from its centre at 31-3/4 to 48 is over 16, so it slides.
    ("32 1/2", "79 1/4", [("32 1/2", True), ("47 1/4", False), ("63 1/4", False)]),
    # A line at 32 overlaps the upright that ends at 33-1/2, centre 32-3/4: the bay is under 16, so it is left out.
    ("33 1/2", "79 1/4", [("47 1/4", False), ("63 1/4", False)]),
    # No line falls clear, and the bay is within the spacing.
    ("49 1/2", "62", []),
    # Lines at 16 and 32 both overlap: one stud is enough, and the one nearer the tape zero is kept.
    ("16", "31 1/2", [("16", True)]),
]


@pytest.mark.parametrize(("left", "right", "wanted"), STRETCHES)
def test_the_rule_of_left_out_and_slid_studs(left, right, wanted):
    found = places(wall(), *stretch(left, right))
    assert [(place.x, place.slid) for place in found] == [(inches(x), slid) for x, slid in wanted]


def test_with_the_tape_zero_beyond_the_stretch_the_nearer_stud_is_the_right_one():
    found = places(wall(offset="160"), *stretch("16", "31 1/2"))
    assert [place.x for place in found] == [inches("30")]


def test_each_line_is_reckoned_from_the_zero():
    # 19.2 in is exact on the grid, so the fiftieth line stands at exactly 960 in.
    assert lines_between(wall(spacing="19.2"), inches("959"), inches("961")) == [inches("960")]
    assert lines_between(wall(lap="3 1/2", zero="sheathing"), 0, inches("13")) == [inches("12 1/2")]


def test_lines_run_to_both_sides_of_the_zero():
    assert lines_between(wall(offset="20"), 0, inches("40")) == [inches("4"), inches("20"), inches("36")]
