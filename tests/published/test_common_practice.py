"""Checks of what the trade does. Common practice, no source."""

import pytest
from tests.published.plain import End, Meets, feet, mm, opening, plain_wall, with_role

from wallwright.domain.building import SIDES, Building, SidePlan, build
from wallwright.domain.framed import layout, sheathing
from wallwright.domain.wall import Sheathing, Tape, Wall
from wallwright.lengths import INCH, inches


@pytest.mark.parametrize("height", [inches("83"), inches("97 1/8"), inches("120"), mm(2400)])
def test_a_level_walls_studs_are_its_height_less_three_plates(height: int) -> None:
    # Common practice, no source: one plate below and two above, each 1-1/2 in.
    laid = layout(plain_wall(feet(10), height=height))
    assert {m.length for m in with_role(laid, "field-stud", "end-stud")} == {height - 3 * inches("1 1/2")}


@pytest.mark.parametrize(("start", "side"), [("left", "right"), ("right", "left")])
def test_the_line_is_half_a_stud_short_of_the_centre_with_the_x_on_the_far_side(start: str, side: str) -> None:
    # Common practice, no source: seen from the end where the tape is hooked.
    laid = layout(plain_wall(feet(12), tape=Tape(start, "plate")))  # type: ignore[arg-type]
    studs = {m.id: m for m in with_role(laid, "field-stud")}
    marks = [mark for mark in laid.marks if mark.member in studs and mark.plate.startswith("bottom")]
    assert len(marks) == len(studs) == 8
    for mark in marks:
        centre = studs[mark.member].x + inches("3/4")
        assert (mark.sign, mark.side) == ("X", side)
        assert mark.at == centre - (inches("3/4") if start == "left" else -inches("3/4"))
        assert (mark.reading + inches("3/4")) % (16 * INCH) == 0


def test_the_side_sheet_runs_past_its_frame_by_stud_sheet_and_slip_gap() -> None:
    # Common practice, no source: 3-1/2 + 7/16 + 1/16 = 4 in past the side wall's plate.
    plan = SidePlan(Wall(length=feet(8), height=inches("89")))
    built = build(Building(feet(12), feet(8), inches("89"), dict.fromkeys(SIDES, plan), slip_gap=inches("1/16")))
    right = next(wall for wall in built.walls if wall.side == "right")
    assert right.wall.left.sheathing_lap == inches("3 1/2") + inches("7/16") + inches("1/16") == inches("4")
    assert right.wall.length == feet(8) - 2 * inches("3 1/2") - 2 * inches("1/16")
    assert right.skin is not None
    assert min(x for piece in right.skin.pieces for x, _ in piece.outline) == -inches("4")


def test_a_building_sized_to_whole_sheets_needs_no_rip() -> None:
    # Common practice, no source: front 2 x 48 + 1/8 in; side face 2 x 48 + 1/8 in, which is its framing depth
    # and two sheets' thickness.
    face = 2 * inches("48") + inches("1/8")
    plan = SidePlan(Wall(length=face, height=inches("96")))
    built = build(Building(face, face - 2 * inches("7/16"), inches("96"), dict.fromkeys(SIDES, plan)))
    for wall in built.walls:
        assert wall.skin is not None
        widths = [max(x for x, _ in p.outline) - min(x for x, _ in p.outline) for p in wall.skin.pieces]
        assert widths == [inches("48"), inches("48")]
        assert not {"small-change-saves-rip"} & {f.code for f in wall.skin.findings}
    assert not [f for f in built.findings if f.code == "footprint-saves-rip"]


def test_a_small_change_that_would_save_a_rip_is_said() -> None:
    # Common practice, no source: 2 in more than two sheets and a gap is a rip that 2 in less would save.
    wall = plain_wall(2 * inches("48") + inches("1/8") + inches("2"), height=inches("96"), sheathing=Sheathing())
    found = {f.code: dict(f.values) for f in sheathing(wall).findings}
    assert found["small-change-saves-rip"]["change"] == inches("2")


def test_a_doors_plate_runs_through_and_is_cut_out_after_raising() -> None:
    # Common practice, no source.
    laid = layout(plain_wall(feet(12), openings=(opening("40", "38", "82 1/2"),)))
    (plate,) = with_role(laid, "bottom-plate")
    assert plate.length == feet(12)
    assert [(cut.left, cut.right) for cut in plate.cut_outs] == [(inches("40"), inches("78"))]


@pytest.mark.parametrize(
    ("post", "places"),
    [
        # A two-stud corner: a stud on edge and one flat behind it, flush with the inside.
        ("two-stud", [("0", "1 1/2", "0"), ("1 1/2", "5", "2")]),
        # Three studs' width: studs at 0 and 3 with blocks between.
        ("three-stud", [("0", "1 1/2", "0"), ("3", "4 1/2", "0")]),
    ],
)
def test_a_corner_post_is_made_up_as_the_trade_makes_it(post: str, places: list[tuple[str, str, str]]) -> None:
    # Common practice, no source; US Army subcourse EN5156 has the three-piece corner with blocks.
    laid = layout(plain_wall(feet(12), left=End(post)))  # type: ignore[arg-type]
    studs = [(m.x, m.right, m.z) for m in with_role(laid, "corner-stud")]
    assert studs == [tuple(inches(text) for text in place) for place in places]
    blocks = with_role(laid, "blocking")
    wanted = 3 if post == "three-stud" else 0
    assert [m.length for m in blocks] == [12 * INCH] * wanted


def test_sheets_that_cross_an_end_which_slides_in_are_fixed_after_raising() -> None:
    # Common practice, no source.
    met = Meets(inches("3 1/2"), "three-stud", inches("1/16"))
    end = End("single", inches("4"), inches("3 9/16"), met)
    skin = sheathing(plain_wall(feet(12), height=inches("89"), left=end, right=end, tape=Tape(), sheathing=Sheathing()))
    stages = {(min(x for x, _ in p.outline), max(x for x, _ in p.outline)): p.stage for p in skin.pieces}
    for (left, right), stage in stages.items():
        assert (stage == "after-raising") == (left < 0 or right > feet(12))
    assert set(stages.values()) == {"before-raising", "after-raising"}
