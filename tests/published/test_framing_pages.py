"""Checks against published pages on framing; each source stands beside its check."""

import pytest
from tests.published.plain import (
    NOMINAL,
    End,
    Header,
    Stock,
    feet,
    mm,
    near_edges,
    opening,
    plain_wall,
    stud_count,
    with_role,
)

from wallwright.domain.building import SIDES, Building, SidePlan, build
from wallwright.domain.framed import layout, sheathing
from wallwright.domain.wall import Floor, Plates, Sheathing, Tape, Wall
from wallwright.lengths import INCH, inches, tape_text


def test_at_19_2_in_five_spaces_make_8_ft_and_no_stud_stands_at_48() -> None:
    # Newspaper question and answer (azcentral, 2017) and a woodworking magazine's note on the diamond marks:
    # 19.2, 38.4, 57.6, 76.8, 96; a 4 ft sheet edge at 48 finds no stud.
    laid = layout(plain_wall(inches("110"), inches("19.2")))
    assert near_edges(laid) == [inches(text) for text in ("18.45", "37.65", "56.85", "76.05", "95.25")]
    assert not [m for m in with_role(laid, "field-stud") if m.x <= 48 * INCH <= m.right]
    assert tape_text(inches("19.2"), "in") == "1' 7 3/16\""
    assert "spacing-misses-sheet" in {f.code for f in laid.findings}


def test_at_16_and_24_in_a_stud_stands_at_48() -> None:
    # The same pages: 16 and 24 divide 48, so nothing is to be said. 24 in: 23-1/4, 47-1/4, 71-1/4 (k x 24 - 3/4).
    for spacing in ("16", "24"):
        laid = layout(plain_wall(inches("130"), inches(spacing)))
        assert [m for m in with_role(laid, "field-stud") if m.x < 48 * INCH < m.right]
        assert "spacing-misses-sheet" not in {f.code for f in laid.findings}
    assert near_edges(layout(plain_wall(inches("130"), inches("24")))) == [
        inches(text) for text in ("23 1/4", "47 1/4", "71 1/4", "95 1/4", "119 1/4")
    ]


@pytest.mark.parametrize(
    ("spacing", "thick", "first"),
    [
        # Derived: the near edge of stud k is k x spacing less half a stud.
        (400, 45, [377.5, 777.5, 1177.5]),
        (600, 45, [577.5, 1177.5, 1777.5]),
        (400, 38, [381, 781, 1181]),
        (600, 38, [581, 1181, 1781]),
    ],
)
def test_metric_studs_stand_half_a_stud_short_of_the_spacing(spacing: int, thick: int, first: list[float]) -> None:
    laid = layout(plain_wall(mm(4000), mm(spacing), mm(2400), stud=Stock(mm(thick), mm(2 * thick))))
    assert near_edges(laid)[:3] == [mm(edge) for edge in first]
    assert first == [k * spacing - thick / 2 for k in (1, 2, 3)]


def test_a_wall_built_in_two_parts_keeps_one_layout() -> None:
    # A house-building charity's guide to marking wall plates: the spacing carries on across the joint, and
    # each stud is measured from the wall's own zero, never from stud to stud.
    whole = near_edges(layout(plain_wall(feet(24), inches("19.2"))))
    joint = inches("150 3/8")
    first = near_edges(layout(plain_wall(joint, inches("19.2"))))
    second = layout(plain_wall(feet(24) - joint, inches("19.2"), tape=Tape("left", "plate", -joint)))
    carried = [edge + joint for edge in near_edges(second)]
    both = first + carried
    assert [edge for edge in whole if edge in both] == [edge for edge in whole if abs(edge - joint) > 2 * INCH]
    for number, edge in enumerate(whole, start=1):
        assert edge == number * inches("19.2") - inches("3/4")


def test_a_block_between_studs_at_16_in_is_14_1_2() -> None:
    # Study-help page on blocking: 16 - 1-1/2 = 14-1/2 in.
    laid = layout(plain_wall(feet(12), openings=(opening("50", "10", "12", "40"),)))
    blocks = with_role(laid, "blocking")
    assert [block.length for block in blocks] == [16 * INCH - inches("1 1/2")] * 2


def test_side_walls_between_end_walls_are_the_outside_less_two_walls() -> None:
    # Framing-detail page: outside 4800 mm, end walls 90 mm: 4800 - 2 x 90 = 4620 mm.
    plan = SidePlan(Wall(length=mm(4800), height=mm(2400), stud=Stock(mm(45), mm(90)), spacing=mm(600)))
    built = build(Building(mm(6000), mm(4800), mm(2400), dict.fromkeys(SIDES, plan)))
    lengths = {wall.side: wall.wall.length for wall in built.walls}
    assert lengths["left"] == lengths["right"] == mm(4800) - 2 * mm(90) == mm(4620)
    assert lengths["front"] == lengths["back"] == mm(6000)


def test_a_36_in_opening_with_a_jack_each_side_takes_a_39_in_header() -> None:
    # A hobby builder's storage-shed page: 36 + 2 x 1-1/2 = 39 in.
    laid = layout(plain_wall(feet(10), openings=(opening("40", "36", "75"),)))
    (header,) = with_role(laid, "header")
    assert header.length == inches("36") + 2 * inches("1 1/2") == inches("39")


def test_a_78_1_2_in_stud_makes_an_83_in_wall_and_a_75_in_jack() -> None:
    # The same page: 78-1/2 + 3 x 1-1/2 = 83 in; under a header 3-1/2 in deep tight below the plates the jack is
    # 78-1/2 - 3-1/2 = 75 in.
    asked = opening("40", "36", "70", header=Header(NOMINAL["2x4"], 2, "plate"))
    laid = layout(plain_wall(feet(10), height=inches("83"), openings=(asked,)))
    assert {m.length for m in with_role(laid, "field-stud", "end-stud", "king-stud")} == {inches("78 1/2")}
    assert {m.length for m in with_role(laid, "jack-stud")} == {inches("78 1/2") - inches("3 1/2")} == {inches("75")}


@pytest.mark.parametrize(("stud", "height"), [("92 5/8", "97 1/8"), ("104 5/8", "109 1/8"), ("116 5/8", "121 1/8")])
def test_precut_studs_and_three_plates_make_the_wall(stud: str, height: str) -> None:
    # Trade pages on precut stud lengths (92-5/8, 104-5/8, 116-5/8): stud + 3 x 1-1/2.
    laid = layout(plain_wall(feet(10), height=inches(stud) + 3 * inches("1 1/2")))
    assert laid.wall.height == inches(height)
    assert {m.length for m in with_role(laid, "field-stud", "end-stud")} == {inches(stud)}


@pytest.mark.parametrize(("length", "count"), [("97", 8), ("96 1/2", 7)])
def test_the_last_stud_is_left_out_only_where_the_bay_stays_within_the_spacing(length: str, count: int) -> None:
    # Derived from the counting rule of the lessons: at 97 in the last bay would be 16-1/4 in, at 96-1/2 in it is
    # 95-3/4 - 80 = 15-3/4.
    laid = layout(plain_wall(inches(length)))
    assert stud_count(laid) == count
    centres = [m.x + m.width // 2 for m in with_role(laid, "field-stud", "end-stud")]
    assert max(right - left for left, right in zip(centres, centres[1:], strict=False)) <= 16 * INCH


def test_sheets_that_cover_the_butt_walls_run_3_1_2_in_past_each_end() -> None:
    # The storage-shed page: the long wall's panels run 3-1/2 in past each end: wall + 2 x 3-1/2.
    lap = inches("3 1/2")
    wall = plain_wall(feet(12), height=feet(8), left=End("single", lap), right=End("single", lap))
    xs = [x for piece in sheathing(wall).pieces for x, _ in piece.outline]
    assert max(xs) - min(xs) == feet(12) + 2 * lap


def test_a_small_opening_saves_no_sheet_and_sheets_cover_the_floors_edge() -> None:
    # Textbook *Estimating in Building Construction*, wood chapter: small openings are not deducted; a sheet
    # must also cover the floor's edge: 89 + 5-1/2 + 3/4 = 95-1/4 in of a 96 in sheet.
    deck = Floor("deck", inches("5 1/2"), inches("3/4"))
    skin = Sheathing(gap=0, under_sheet=inches("6 1/4"))
    bare = plain_wall(feet(12), height=inches("89"), floor=deck, sheathing=skin)
    pierced = plain_wall(
        feet(12), height=inches("89"), floor=deck, sheathing=skin, openings=(opening("20", "24", "24", "40"),)
    )
    assert len(sheathing(bare).sheets) == len(sheathing(pierced).sheets) == 3
    ys = [y for piece in sheathing(pierced).pieces for _, y in piece.outline]
    assert max(ys) - min(ys) == inches("95 1/4")


def test_a_single_top_plate_leaves_the_studs_one_plate_longer() -> None:
    # The storage-shed page's rule with one plate less: 83 - 2 x 1-1/2 = 80.
    laid = layout(plain_wall(feet(10), height=inches("83"), plates=Plates(1, 1)))
    assert {m.length for m in with_role(laid, "field-stud", "end-stud")} == {inches("80")}
