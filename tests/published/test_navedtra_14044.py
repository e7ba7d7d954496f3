"""Checks against the US Navy builder manual NAVEDTRA 14044 (public domain), wall framing, pages 31 to 36."""

import pytest
from tests.published.plain import (
    NOMINAL,
    End,
    Header,
    Meets,
    near_edges,
    opening,
    plain_wall,
    with_role,
)

from wallwright.domain.framed import layout
from wallwright.domain.wall import Plates, Sheathing, Tape
from wallwright.lengths import INCH, inches


def test_the_first_field_stud_is_centred_on_the_spacing() -> None:
    # Page 35: at 16 in the first near edge lies at 15-1/4 in, then every 16 in: k x 16 - 3/4.
    edges = near_edges(layout(plain_wall(inches("120"))))
    assert edges == [k * 16 * INCH - inches("3/4") for k in range(1, 8)]
    assert edges[:4] == [inches(text) for text in ("15 1/4", "31 1/4", "47 1/4", "63 1/4")]


def test_the_marks_read_what_the_page_shows() -> None:
    # Page 35: the tape shows 15-1/4, 31-1/4, 47-1/4 at the near edges.
    laid = layout(plain_wall(inches("120")))
    studs = {m.id for m in with_role(laid, "field-stud")}
    shown = [mark.reading for mark in laid.marks if mark.member in studs and mark.plate.startswith("bottom")]
    assert shown == [16 * INCH * k - inches("3/4") for k in range(1, 8)]


@pytest.mark.parametrize(("slip", "first"), [("0", "11 5/16"), ("1/16", "11 1/4")])
def test_a_butt_wall_is_measured_from_the_first_walls_panel(slip: str, first: str) -> None:
    # Page 36: 15-1/4 in is measured from the outer face of the panel on the wall that is met; through
    # wall 3-1/2, panel 7/16: 15-1/4 - 3-1/2 - 7/16 = 11-5/16, then + 16. A slip gap shortens it by itself.
    gap = inches(slip)
    lap = inches("3 1/2") + gap + inches("7/16")
    left = End("single", lap, 0, Meets(inches("3 1/2"), "three-stud", gap))
    laid = layout(plain_wall(inches("120"), left=left, tape=Tape(), sheathing=Sheathing()))
    assert near_edges(laid)[0] == inches("15 1/4") - lap == inches(first)
    assert near_edges(laid)[:3] == [inches(first) + k * 16 * INCH for k in range(3)]


def test_two_plies_and_a_spacer_fill_a_3_1_2_in_wall() -> None:
    # Page 31: a header of two 2x with a 1/2 in spacer: 1-1/2 + 1/2 + 1-1/2 = 3-1/2.
    asked = opening("30", "36", "80", header=Header(NOMINAL["2x8"], 2, "jacks", inches("1/2")))
    laid = layout(plain_wall(inches("120"), openings=(asked,)))
    header = [m for m in laid.members if m.opening == "hatch" and m.y == inches("80") and m.right - m.x >= inches("39")]
    assert sum(m.depth for m in header) == inches("3 1/2")
    assert {(m.z, m.z + m.depth) for m in header} == {
        (0, inches("1 1/2")), (inches("1 1/2"), inches("2")), (inches("2"), inches("3 1/2")),
    }  # fmt: skip


def test_the_trimmer_runs_from_the_sole_plate_to_the_header_and_cripples_keep_the_layout() -> None:
    # Page 31: trimmers reach from the sole plate to the header; cripples stand on the wall's 16 in grid.
    asked = opening("30", "44", "40", "36")
    laid = layout(plain_wall(inches("144"), height=inches("109 1/8"), openings=(asked,)))
    for jack in with_role(laid, "jack-stud"):
        assert (jack.y, jack.top) == (inches("1 1/2"), inches("76"))
    (header,) = with_role(laid, "header")
    above = [m.x for m in with_role(laid, "cripple") if m.y == header.top]
    assert above == [k * 16 * INCH - inches("3/4") for k in (2, 3, 4)]
    below = [m.x for m in with_role(laid, "cripple") if m.y == inches("1 1/2")]
    # The line at 32 would overlap the cripple tight to the jack; 48 - 30-3/4 is over 16, so it is kept, slid to 31-1/2.
    assert below == [inches("30"), inches("31 1/2"), inches("47 1/4"), inches("63 1/4"), inches("72 1/2")]


def test_joints_of_the_cap_stand_4_ft_from_those_below_where_that_is_asked() -> None:
    # Page 40: the upper layer's joints at least 4 ft from the joints below. Washington WAC 246-359-230 has 48 in too.
    for length in (20, 24, 33, 46):
        laid = layout(plain_wall(inches("12") * length, plates=Plates(1, 2, 192 * INCH, 48 * INCH)))
        tops, caps = with_role(laid, "top-plate")[1:], with_role(laid, "cap-plate")[1:]
        assert tops
        assert min(abs(cap.x - top.x) for cap in caps for top in tops) >= inches("48")
