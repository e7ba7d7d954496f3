"""Checks of how a face is covered, beside published take-offs and rules of the trade.

Sources: a construction management course's worked take-off of a 30 x 45 ft building (panels rounded up wall by wall);
a hobby builder's published storage shed (panels past the frame at the corners); a textbook on estimating, wood chapter
(small openings are not deducted); SDPWS 4.3.7.1, sheets' edges on framing or blocking (from memory).
"""

import itertools
import json
from typing import Literal

import pytest
from msgspec.structs import replace
from tests.api.client import post
from tests.published.plain import Sheet, feet, mm, opening, plain_wall

from wallwright.domain.building import SIDES, Building, Built, SidePlan, build
from wallwright.domain.framed import framed, sheathing, skinned
from wallwright.domain.skin import Seam, Skin
from wallwright.domain.wall import End, Plates, Sheathing, Top, Wall
from wallwright.findings import Offer
from wallwright.lengths import INCH, inches

BEARS = inches("3/8")
"""Least timber behind a sheet's edge: common practice, no source."""


def lying(sheet: Sheet | None = None, gap: int = inches("1/8")) -> Sheathing:
    return Sheathing(sheet or Sheet(), "lying", gap)


def joints(skin: Skin) -> list[Seam]:
    return [seam for seam in skin.seams if seam.direction == "upright"]


def levels(skin: Skin) -> list[Seam]:
    return [seam for seam in skin.seams if seam.direction == "level"]


@pytest.mark.parametrize(("length", "panels"), [(45, 12), (30, 8)])
def test_panels_are_rounded_up_wall_by_wall(length: int, panels: int) -> None:
    # 45 / 4 = 11-1/4 and 30 / 4 = 7-1/2 panels: 12 and 8; two of each make 40, where a pooled sum would give 38.
    skin = sheathing(plain_wall(feet(length), height=feet(8), sheathing=Sheathing(gap=0)))
    assert len(skin.sheets) == panels


@pytest.mark.parametrize(("length", "panels"), [(45, 12), (30, 8)])
def test_gaps_of_1_8_do_not_change_the_published_count(length: int, panels: int) -> None:
    # The gaps only make each sheet cover more: 11 seams of 1/8 in on 45 ft take 1-3/8 in off the last sheet.
    skin = sheathing(plain_wall(feet(length), height=feet(8), sheathing=Sheathing()))
    assert len(skin.sheets) == panels


def test_panels_run_past_the_frame_to_cover_the_butt_walls() -> None:
    # The shed's long walls: panels run 3-1/2 in past each end, so the run is the wall and 7 in.
    ends = {"left": End(sheathing_lap=inches("3 1/2")), "right": End(sheathing_lap=inches("3 1/2"))}
    skin = sheathing(plain_wall(feet(12), height=feet(8), sheathing=Sheathing(gap=0), **ends))
    xs = [x for piece in skin.pieces for x, _ in piece.outline]
    assert max(xs) - min(xs) == feet(12) + 7 * INCH


def test_small_openings_are_not_deducted() -> None:
    # The textbook's rule: what is cut out for a small opening is waste, so the sheets stay as many.
    plain = sheathing(plain_wall(feet(16), height=feet(8), sheathing=Sheathing(gap=0)))
    holed = sheathing(
        plain_wall(feet(16), height=feet(8), sheathing=Sheathing(gap=0), openings=(opening("60", "24", "24", "36"),))
    )
    assert len(plain.sheets) == len(holed.sheets) == 4


def test_the_sheet_covers_the_floors_edge_too() -> None:
    # The textbook's rule: a panel's height must also cover the floor's edge. 89 + 6-1/4 = 95-1/4: one sheet of 96.
    covered = sheathing(plain_wall(feet(12), height=89 * INCH, sheathing=Sheathing(under_sheet=inches("6 1/4"))))
    assert not levels(covered)
    assert min(y for piece in covered.pieces for _, y in piece.outline) == -inches("6 1/4")
    # A wall of 97-1/8 with it is 103-3/8 high: a strip is added.
    tall = sheathing(plain_wall(feet(12), sheathing=Sheathing(under_sheet=inches("6 1/4"))))
    assert levels(tall)


def test_lying_sheets_of_an_8_ft_wall_lie_in_two_courses_on_blocking() -> None:
    # Two courses of 4 ft less the gap: 96 = 48 + 1/8 + 47-7/8. A 12 ft course takes a sheet and a half: 2 + 2 sheets.
    done = framed(plain_wall(feet(12), height=feet(8), sheathing=lying()))
    skin = skinned(done)
    (seam,) = levels(skin)
    assert (seam.before, seam.after) == (48 * INCH, inches("48 1/8"))
    assert min(seam.bearing_before, seam.bearing_after) >= BEARS
    assert len(skin.sheets) == 4
    assert skin.blocking
    assert all(block in done.layout.members for block in skin.blocking)


@pytest.mark.parametrize("spacing", [16, 24])
def test_joints_of_lying_sheets_are_staggered_and_stand_on_studs(spacing: int) -> None:
    # Common practice, no source: joints of neighbouring courses stand on other studs, two bays apart where it can be.
    done = framed(plain_wall(feet(24), spacing * INCH, height=feet(8), sheathing=lying()))
    skin = skinned(done)
    (level,) = {seam.before for seam in levels(skin)}
    lower = [seam.before for seam in joints(skin) if seam.end <= level]
    upper = [seam.before for seam in joints(skin) if seam.start >= level]
    assert lower
    assert upper
    drift = inches("3/4")
    assert all(abs(a - b) >= 2 * spacing * INCH - drift for a, b in itertools.product(lower, upper))
    studs = {m.id for m in done.layout.members if m.role == "field-stud"}
    assert all(set(seam.members) <= studs for seam in joints(skin))
    assert "joints-not-staggered" not in {finding.code for finding in skin.findings}


def test_a_low_top_course_is_made_12_in_by_lowering_the_seam_below_it() -> None:
    # 97-1/8 = 48 + 1/8 + 48 + 1/8 + 7/8: three courses, the last of 12 in.
    skin = sheathing(plain_wall(feet(8), sheathing=lying()))
    assert sorted(seam.before for seam in levels(skin)) == [48 * INCH, inches("97 1/8") - 12 * INCH - inches("1/8")]
    (finding,) = [f for f in skin.findings if f.code == "top-course-a-strip"]
    # Two courses and their gap cover 96-1/8: the wall is an inch too high.
    assert dict(finding.values)["lower"] == INCH


def test_metric_sheets_lie_in_courses_of_1200() -> None:
    # 2400 = 1200 + 1197 and a gap of 3; 3600 takes one and a half sheets of 2400.
    sheet = Sheet(mm(1200), mm(2400), mm(11))
    skin = sheathing(plain_wall(mm(3600), mm(400), mm(2400), sheathing=lying(sheet, mm(3))))
    assert {seam.before for seam in levels(skin)} == {mm(1200)}
    assert len(skin.sheets) == 4


def test_the_caller_chooses_the_end_at_which_the_sheets_begin() -> None:
    # 112 in: a full sheet from the right ends at 64, on the fourth stud from the left; the rest is at the left.
    wall = plain_wall(112 * INCH, height=feet(8), sheathing=Sheathing(gap=0, start="right"))
    edges = sorted((min(x for x, _ in p.outline), max(x for x, _ in p.outline)) for p in sheathing(wall).pieces)
    assert edges[-1] == (64 * INCH, 112 * INCH)
    assert edges[0] == (0, 16 * INCH)


def test_what_the_other_start_would_have_cost_is_told() -> None:
    # Studs on a grid from the left, 24 in apart: sheets that begin at the right of 10 ft 6 in of wall find none of them.
    wall = plain_wall(feet(10) + 6 * INCH, 24 * INCH, height=feet(8), sheathing=Sheathing(gap=0, start="right"))
    (finding,) = [f for f in sheathing(wall).findings if f.code == "other-start-compared"]
    told = dict(finding.values)
    assert (told["end"], told["sheets"], told["own_sheets"]) == ("left", "3", "3")
    left = sheathing(plain_wall(feet(10) + 6 * INCH, 24 * INCH, height=feet(8), sheathing=Sheathing(gap=0)))
    assert told["studs"] == str(sum(m.role == "seam-stud" for m in framed(left.wall).layout.members))
    assert told["own_studs"] == str(sum(m.role == "seam-stud" for m in framed(wall).layout.members))


def shiplap(direction: Literal["upright", "lying"] = "upright", lap: str = "1/2", gap: str = "0") -> Sheathing:
    sheet = Sheet(48 * INCH + inches(lap), thickness=inches("5/8"), kind="siding", edge="shiplap", lap=inches(lap))
    return Sheathing(sheet, direction, inches(gap))


def test_shiplap_sheets_cover_their_width_less_the_lap() -> None:
    # Geometry: 48-1/2 over all with a lap of 1/2 covers 48, so 12 ft take three, each seam on a stud 16 in o.c.
    skin = sheathing(plain_wall(feet(12), height=feet(8), sheathing=shiplap()))
    assert [use.width for use in skin.sheets] == [inches("48 1/2")] * 3
    assert [(seam.before, seam.lap) for seam in joints(skin)] == [(k * 48 * INCH, inches("1/2")) for k in (1, 2)]
    assert [piece.lap_side for piece in skin.pieces] == ["right", "right", ""]
    # The last one leaves its lap over: it is sawn off.
    assert [len(piece.cut_lines) for piece in skin.pieces] == [0, 0, 1]
    from_right = sheathing(plain_wall(feet(12), height=feet(8), sheathing=replace(shiplap(), start="right")))
    assert [piece.lap_side for piece in from_right.pieces] == ["", "left", "left"]


def test_a_wide_lap_asks_for_more_timber_behind_the_sheet_that_closes_over_it() -> None:
    # Geometry: with a lap of 1 in fasteners stand past it, 1/4 in inside the timber: 1-1/4 in; half a stud gives 3/4.
    skin = sheathing(plain_wall(feet(12), height=feet(8), sheathing=shiplap(lap="1")))
    assert all(seam.bearing_after >= inches("1 1/4") for seam in joints(skin))
    narrow = sheathing(plain_wall(feet(12), height=feet(8), sheathing=shiplap()))
    assert {seam.bearing_after for seam in joints(narrow)} == {inches("3/4")}


def test_lying_shiplap_sheds_water_over_the_sheet_below() -> None:
    # Common practice, no source: the upper sheet closes over the lap of the lower one.
    skin = sheathing(plain_wall(feet(12), height=feet(8), sheathing=shiplap("lying", gap="1/8")))
    feet_of = {piece.id: min(y for _, y in piece.outline) for piece in skin.pieces}
    assert {piece.lap_side for piece in skin.pieces if feet_of[piece.id] == 0} == {"top"}
    assert {piece.lap_side for piece in skin.pieces if feet_of[piece.id] > 0} == {""}


def test_sheets_put_on_before_the_cap_plate_are_cut_back_to_its_top() -> None:
    # Geometry: the cap's upper side is the wall's top, a plate's 1-1/2 in above the top plate.
    skin = sheathing(plain_wall(feet(12), sheathing=Sheathing(Sheet(length=108 * INCH), under_sheet=inches("6 1/4"))))
    assert skin.cut_back is not None
    assert skin.cut_back.above_top_plate == inches("1 1/2")
    assert skin.cut_back.above_foot == inches("97 1/8") + inches("6 1/4")
    assert sheathing(plain_wall(feet(12), plates=Plates(top=1))).cut_back is None


def test_the_cut_back_line_of_a_gable_follows_its_slope_and_crest() -> None:
    # Geometry: at 12 in 12 the cap takes 1-1/2 in times the root of two, plumb; the crest is half the length higher.
    gable = plain_wall(feet(12), top=Top("gable", 12, 12))
    cut = sheathing(gable).cut_back
    assert cut is not None
    assert cut.line == ((0, gable.height), (feet(6), gable.height + feet(6)), (feet(12), gable.height))
    assert abs(cut.above_top_plate - inches("1 1/2") * 2**0.5) < 2


@pytest.mark.parametrize("direction", ["upright", "lying"])
def test_the_greatest_height_that_whole_sheets_cover(direction: Literal["upright", "lying"]) -> None:
    # 96 less the under-sheet of 6-1/4: 89-3/4 upright; two courses of 48 and their gap of 1/8: 89-7/8.
    skinning = Sheathing(direction=direction, under_sheet=inches("6 1/4"))
    skin = sheathing(plain_wall(feet(12), sheathing=skinning))
    (finding,) = [f for f in skin.findings if f.code == "greatest-height-covered"]
    most = dict(finding.values)["most"]
    assert isinstance(most, Offer)
    assert most.value == (inches("89 3/4") if direction == "upright" else inches("89 7/8"))

    def courses(height: int) -> int:
        return 1 + len(
            {seam.before for seam in levels(sheathing(plain_wall(feet(12), height=height, sheathing=skinning)))}
        )

    assert courses(most.value) == (1 if direction == "upright" else 2)
    assert courses(most.value + 1) == courses(most.value) + 1


def test_the_footprint_that_takes_whole_sheets_is_told() -> None:
    # Geometry: sheets of 48 and gaps of 1/8. Front: 144-1/4 take three. Side: 96-1/8 less two sheets of 7/16: 95-1/4.
    plan = SidePlan(Wall(length=feet(14), height=feet(8)))

    def build_at(width: int, depth: int) -> Built:
        return build(Building(width, depth, feet(8), dict.fromkeys(SIDES, plan)))

    told = {
        f.about: dict(f.values) for f in build_at(feet(14), feet(10)).findings if f.code == "footprint-in-whole-sheets"
    }
    less = {}
    for about, most, more in (("/footprint/width", "144 1/4", "192 3/8"), ("/footprint/depth", "95 1/4", "143 3/8")):
        offer = told[about]["less"]
        assert isinstance(offer, Offer)
        assert (offer.value, told[about]["more"]) == (inches(most), inches(more))
        less[about] = offer.value
    smaller = build_at(less["/footprint/width"], less["/footprint/depth"])
    assert not [f for f in smaller.findings if f.code == "footprint-in-whole-sheets"]
    for wall in smaller.walls:
        assert wall.skin is not None
        assert len(wall.skin.sheets) == (3 if wall.side in ("front", "back") else 2)
        # A rip as narrow as the gap keeps the second seam of the front on its stud.
        widths = [max(x for x, _ in p.outline) - min(x for x, _ in p.outline) for p in wall.skin.pieces]
        assert all(48 * INCH - inches("1/8") <= width <= 48 * INCH for width in widths)


def test_between_uprights_nearer_than_half_an_inch_no_block_is_cut() -> None:
    """A king 1/4 in from a layout stud under a level seam: a block that short splits and no saw holds it (common practice, no source)."""
    wall = {
        "units": "in", "length": "10'", "height": "9' 6 5/8\"",
        "openings": [{"name": "door", "left": "3' 2\"", "width": "3' 2\"", "height": "6' 10 1/2\""}],
        "ends": {"left": {"post": "three-stud"}, "right": {"post": "three-stud"}},
    }  # fmt: skip
    members = post("/v1/layout", json.dumps(wall).encode()).json()["members"]
    king, stud = (next(m["x"] for m in members if m["id"] == name) for name in ("king-stud-2", "field-stud-3"))
    assert stud - (king + 1.5) == 0.25
    blocks = [m for m in members if m["role"] == "blocking"]
    assert min(block["length"] for block in blocks) == 1.5
    assert not [block for block in blocks if king < block["x"] < stud]
    seams = post("/v1/sheathing", json.dumps(wall).encode()).json()["seams"]
    assert all(min(s["bearing_before"], s["bearing_after"]) >= 0.375 for s in seams if s["direction"] == "level")
