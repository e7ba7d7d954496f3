"""How a wall is fastened, as a caller asks for it: schedules, counts that can be done by hand, packs, corners, cuts."""

import csv
import io
import json

import pytest
from tests.api.client import post

from wallwright.operations.examples import EXAMPLES

# 12 ft of 2x4 at 16 in without openings: single posts and ten studs between, sheets on it from the plate's end.
PLAIN = {
    "units": "in", "length": 144, "height": "8' 1 1/8\"", "layout": {"tape_zero": "plate"},
    "sheathing": {"sheet": {"length": 108}},
}  # fmt: skip


def fasteners(**more: object) -> dict:
    answer = post("/v1/fasteners", json.dumps({**PLAIN, **more}).encode())
    assert answer.status_code == 200, answer.text
    return answer.json()


def count(answer: dict, joint: str) -> int:
    return sum(row["total"] for row in answer["joints"] if row["joint"] == joint)


def row(answer: dict, joint: str) -> dict:
    (found,) = [row for row in answer["joints"] if row["joint"] == joint]
    return found


def codes(answer: dict) -> dict[str, list[dict]]:
    found: dict[str, list[dict]] = {}
    for finding in answer["findings"]:
        found.setdefault(finding["code"], []).append(finding)
    return found


def test_a_plain_wall_is_nailed_as_the_schedule_says():
    # IRC 2021 Table R602.3(1) items 13, 16 and 17: two 16d common into each stud's end, the cap at 16 in, the bottom
    # plate two every 16 in at braced panels. Ten studs: eight on the layout, 16 to 128 in, and one at either end.
    answer = fasteners()
    studs = [m for m in post("/v1/layout", json.dumps(PLAIN).encode()).json()["members"] if m["role"].endswith("stud")]
    assert len(studs) == 10
    assert count(answer, "stud-to-bottom-plate") == count(answer, "stud-to-top-plate") == 2 * len(studs)
    assert row(answer, "stud-to-bottom-plate")["fastener"] == "16d common"
    # 144 less 2 in at both ends, 140 in at 16: nine stretches, ten nails.
    assert (count(answer, "plate-to-plate"), row(answer, "plate-to-plate")["spacing"]) == (10, 16)
    assert row(answer, "plate-to-floor")["per_joint"] == 2
    assert row(answer, "plate-to-floor")["source"].endswith("Table R602.3(1), item 16")
    assert row(answer, "sheet-field")["spacing"] == 12
    assert row(answer, "sheet-edge")["source"].endswith("Table R602.3(3)")


@pytest.mark.parametrize(
    ("nail", "ends", "cap"), [("16d box", ("16d box", 3), ("16d common", 16)), ("10d box", ("10d box", 3), ("10d box", 12)),
                              ("3 x 0.131", ("3 x 0.131", 3), ("3 x 0.131", 12))],
)  # fmt: skip
def test_the_nail_at_hand_picks_among_equal_choices(nail, ends, cap):
    # IRC 2021 Table R602.3(1) items 17 and 13; item 13 names no 16d box, so that the row's first stands.
    answer = fasteners(fastening={"framing_nail": nail})
    found = row(answer, "stud-to-top-plate")
    assert (found["fastener"], found["per_joint"]) == ends
    assert (row(answer, "plate-to-plate")["fastener"], row(answer, "plate-to-plate")["spacing"]) == cap


@pytest.mark.parametrize(
    ("thickness", "nail"), [('3/8"', "6d common"), ('7/16"', "8d common"), ("11 mm", "8d common"), ('1"', "10d common")]
)
def test_the_sheets_nail_follows_from_their_thickness(thickness, nail):
    # IRC Table R602.3(3): 3/8 with 6d, 7/16 with 8d; Table R602.3(1): 7/8 to 1-1/4 with 10d.
    sheathing = {"sheet": {"length": 108, "thickness": thickness}}
    assert row(fasteners(sheathing=sheathing), "sheet-edge")["fastener"] == nail


def test_screws_by_the_rules_of_practice():
    # Common practice, no source: one for each 2 in of width; sheets the longer of 2 t and t + 1-1/4 in, so 1-11/16 and
    # 2 in sold; plate into stud twice 1-1/2, 3 in; ply to ply the longest with its point 1/4 in inside, 2-1/2, where
    # #8 alone reaches 6 diameters (0.984 in) into the second inch and a half.
    answer = fasteners(fastening="screwed", openings=[{"left": 48, "width": 30, "height": 36, "sill": 36}])
    assert (row(answer, "stud-to-bottom-plate")["length"], row(answer, "stud-to-bottom-plate")["per_joint"]) == (3, 2)
    assert row(answer, "sheet-edge")["fastener"] == "#8 x 2 in"
    assert row(answer, "sheet-field")["spacing"] == 16
    assert row(answer, "header-plies")["fastener"] == "#8 x 2-1/2 in"
    assert not {"point-comes-out", "thin-behind"} & set(codes(answer))
    assert codes(answer)["screws-no-swap"][0]["level"] == "caution"
    assert "unit_shear" not in answer


def test_six_inch_studs_take_three_screws():
    # Common practice: 5-1/2 in of width at one for each 2 in is three.
    assert row(fasteners(stud="2x6", fastening="screwed"), "stud-to-top-plate")["per_joint"] == 3


def test_a_block_behind_a_level_seam_takes_a_shorter_screw():
    # 7/16 and a block 1-1/2 thick are 1-15/16: a 2 in screw would come out, 1-5/8 stays 1/4 in inside.
    tall = {"height": "9' 6\"", "sheathing": {"sheet": {"length": 96}}, "fastening": "screwed"}
    lengths = {r["length"] for r in fasteners(**tall)["joints"] if r["joint"] == "sheet-edge"}
    assert lengths == {2, 1.625}


def test_points_that_come_out_are_told_once_for_each_kind_with_a_length():
    # 16d common, 3-1/2, through two plates of 1-1/2: out by 1/2 in; 10d sinker, 2-7/8, stays inside.
    found = [f for f in codes(fasteners())["point-comes-out"] if f["text"].startswith("plate-to-plate")]
    assert len(found) == 1
    assert found[0]["compared"] == {"value": 3.5, "limit": 3, "unit": "in"}
    assert "2 7/8" in found[0]["text"]


def test_what_fasteners_hold_is_information():
    # 8d common through 7/16 OSB in spruce-pine-fir: 67 lb (NDS 12Q by its formula, computed); 670 x 0.92 plf nominal.
    answer = fasteners()
    edge = next(s for s in answer["strengths"] if s["joint"] == "sheet-edge")
    assert edge["lateral_lbf"] == pytest.approx(67, abs=0.6)
    assert edge["withdrawal_lbf"] == pytest.approx(20.667 * 2.0625, abs=0.1)
    assert answer["unit_shear"]["wind_plf"] == pytest.approx(670 * 0.92, abs=0.05)
    assert answer["unit_shear"]["wind_kn_per_m"] == pytest.approx(670 * 0.92 * 0.0145939, abs=0.001)
    end = next(s for s in answer["strengths"] if s["joint"] == "stud-to-bottom-plate")
    # NDS 12.5.2: 0.67 in end grain, where a nail has no withdrawal value; 16d common in spruce-pine-fir 120 lb.
    assert (end["lateral_lbf"], end["withdrawal_lbf"]) == (pytest.approx(120 * 0.67, abs=0.4), 0)
    assert codes(answer)["holding-is-information"][0]["level"] == "caution"


def test_a_schedule_of_the_callers_own():
    own = [
        {"joint": "sheet-edge", "fastener": {"kind": "nail", "length": '2 1/4"', "diameter": 0.12}, "spacing": 4},
        {"joint": "stud-to-top-plate", "fastener": "12d common", "count": 3},
    ]
    answer = fasteners(fastening={"joints": own})
    assert {(r["fastener"], r["spacing"]) for r in answer["joints"] if r["joint"] == "sheet-edge"} == {
        ("2-1/4 x 0.120 nail", 4)
    }
    top = row(answer, "stud-to-top-plate")
    assert (top["fastener"], top["per_joint"], top["source"]) == ("12d common", 3, "the caller's own schedule")
    assert row(answer, "stud-to-bottom-plate")["fastener"] == "16d common"
    assert answer["wall"]["fastening"]["joints"][1]["fastener"] == "12d common"


def test_packs_and_the_spare():
    # 10 % over, rounded up, then the pack that leaves least over: by hand.
    packs = [{"fastener": "8d common", "count": 530}, {"fastener": "8d common", "count": 100}]
    answer = fasteners(fastening={"packs": packs, "spare_percent": 10})
    total = next(t for t in answer["totals"] if t["fastener"] == "8d common")
    assert total["to_buy"] == -(-total["count"] * 11 // 10)
    over = {size: -(-total["to_buy"] // size) * size - total["to_buy"] for size in (530, 100)}
    assert total["pack"] == min(over, key=over.get)
    assert total["boxes"] == -(-total["to_buy"] // total["pack"])
    assert total["weight_kg"] == pytest.approx(total["weight_lb"] * 0.45359237, abs=0.001)
    assert all("boxes" not in t for t in answer["totals"] if t["fastener"] != "8d common")


def test_treated_plates_take_coated_fasteners_counted_apart():
    # IRC R317.3.1: hot-dipped galvanized or stainless into treated timber, the sheets' nails that land in it too.
    answer = fasteners(floor={"kind": "slab"})
    assert {r["coating"] for r in answer["joints"] if r["joint"] == "stud-to-bottom-plate"} == {"hot-dip"}
    assert {r["coating"] for r in answer["joints"] if r["joint"] == "sheet-edge"} == {"plain", "hot-dip"}
    assert {t["coating"] for t in answer["totals"] if t["fastener"] == "8d common"} == {"plain", "hot-dip"}
    assert count(answer, "plate-to-floor") == 0
    # IRC R403.1.6: 144 in of plate takes three bolts.
    assert row(answer, "anchor")["total"] == 3
    cast = fasteners(floor={"kind": "slab", "anchors": [10, 72, 134]})
    assert count(cast, "anchor") == 3
    assert not [t for t in cast["totals"] if t["kind"] == "bolt"]


def test_cap_splices_take_eight_on_each_side():
    # IRC 2021 Table R602.3(1) item 14: eight 16d common on each side of an end joint, where two laps would meet one
    # stretch serves both.
    answer = fasteners(length="30'", plates={"stock_length": "16'"})
    splice = row(answer, "cap-splice")
    assert (splice["fastener"], splice["per_joint"]) == ("16d common", 8)
    assert splice["joints"] >= 3


def test_one_tie_plate_over_each_joint_of_a_single_plate():
    # IRC R602.3.2: 3 x 12 in with twelve 8d box on each side of a butt joint.
    answer = fasteners(length="30'", plates={"top": 1, "stock_length": "16'"})
    ties = [r for r in answer["joints"] if r["joint"] == "tie-plate"]
    assert {r["fastener"] for r in ties} == {"tie plate 3 x 12 x 0.036 in", "8d box"}
    plates = next(r["total"] for r in ties if r["fastener"].startswith("tie"))
    assert next(r["total"] for r in ties if r["fastener"] == "8d box") == 24 * plates


def test_the_row_in_the_plate_and_the_row_in_the_rim():
    # Sheets hang 6-1/4 in over a panel of 3/4 and a rim of 5-1/2: rows at y 3/4, and at least 3/8 above the edge and
    # 3/4 below the panel, none between (a rule of this service).
    sheathing = {"sheet": {"length": 120}, "under_sheet": '6 1/4"'}
    answer = fasteners(positions=True, sheathing=sheathing, floor={"kind": "deck", "rim": '5 1/2"', "panel": '3/4"'})
    low = {(p["joint"], p["y"]) for p in answer["points"] if p["joint"].startswith("sheet-") and p["y"] < 1.5}
    assert {y for joint, y in low if joint == "sheet-edge"} == {0.75}
    ((_, rim),) = [item for item in low if item[0] == "sheet-to-rim"]
    assert -6.25 + 0.375 <= rim <= -0.75 - 0.75
    hanging = {**sheathing, "under_sheet": '1 3/4"'}
    answer = fasteners(sheathing=hanging, floor={"kind": "deck", "rim": '5 1/2"', "panel": '3/4"'})
    assert count(answer, "sheet-to-rim") == 0


def test_no_fastener_within_2_in_of_a_doors_cut():
    # A rule of this service: the saw meets no nail.
    answer = fasteners(positions=True, openings=[{"left": 48, "width": 38, "height": 80}])
    plate = [p["x"] for p in answer["points"] if "bottom-plate-1" in p["pieces"]]
    assert plate
    assert all(x <= 46 or x >= 88 for x in plate)
    assert "no-fastener-at-cut" in codes(answer)


def test_a_strip_of_a_sheet_beside_an_opening_has_one_row_along_its_seam():
    # A rule of this service: 3/8 in from either edge of the strip, and no second row within 3/4 in of the first.
    answer = fasteners(
        units="mm", length=1399, height=4188, stud={"thickness": 38, "width": 140}, spacing=407, positions=True,
        plates={"bottom": 2, "top": 1},
        openings=[{"left": 558, "width": 233, "height": 1504, "sill": 2556,
                   "header": {"stock": {"thickness": 38, "width": 89}, "plies": 3, "spacer": 26}}],
        sheathing={"sheet": {"width": 1200, "length": 2700, "thickness": 9}, "gap": 3, "start": "left"},
    )  # fmt: skip
    strip = [p for p in answer["points"] if p["pieces"] == ["piece-3", "jack-stud-2"] and p["y"] < 2556 + 1504]
    assert len(strip) >= (2556 + 1504 - 2703) // 152
    # The window ends at 791, the sheet at 811: 9.525 mm from either leaves under a millimetre.
    assert all(791 + 9.525 <= p["x"] <= 811 - 9.525 for p in strip)
    assert len({p["y"] for p in strip}) == len(strip)


def test_rows_less_than_3_4_in_apart_are_one():
    # A rule of this service. Between a window and a seam stand 2 in of sheet: 3/4 in from either edge are 1/2 in apart.
    answer = post("/v1/fasteners", json.dumps({**EXAMPLES["fasteners"], "positions": True}).encode()).json()
    strip = [p["x"] for p in answer["points"] if p["pieces"] == ["piece-3", "jack-stud-4"] and 42 < p["y"] < 78]
    assert len(strip) >= 36 // 6
    assert len(set(strip)) == 1


def test_a_header_whose_king_is_cut_away_by_the_slope_is_told_to_be_toe_nailed():
    # A rule of this service: a nail starts in timber. At the foot of a 24 in 12 rake the end stud's far side is below the header.
    answer = fasteners(
        positions=True, length=60, height=34, top={"shape": "rake", "rise": 24, "run": 12, "up": "left"},
        openings=[{"left": 54, "width": 3, "height": 6, "sill": 13, "header": {"stock": "2x4", "plies": 1, "seat": "plate"}}],
    )  # fmt: skip
    (told,) = codes(answer)["end-by-toe-nail"]
    assert told["members"] == ["end-stud-2"]
    assert not [p for p in answer["points"] if p["joint"] == "header-to-king" and p["pieces"][0] == "end-stud-2"]


def test_points_are_given_on_request_and_add_up():
    assert "points" not in fasteners()
    answer = fasteners(positions=True)
    for joint in {r["joint"] for r in answer["joints"]}:
        assert count(answer, joint) == sum(p["joint"] == joint for p in answer["points"])


ROOFS = [{"shape": "flat"}, {"shape": "lean-to", "rise": 3}, {"shape": "gable", "rise": 6}]


@pytest.mark.parametrize("roof", ROOFS, ids=lambda roof: roof["shape"])
def test_what_joins_two_walls_is_counted_once_in_a_building(roof):
    body = {**EXAMPLES["building"], "roof": roof, "parts": ["fasteners"], "positions": True}
    answer = post("/v1/building", json.dumps(body).encode()).json()
    by_side = {one["side"]: one["fasteners"] for one in answer["walls"]}
    for side, found in by_side.items():
        between = {r["joint"] for r in found["joints"]} & {"post-to-post", "cap-lap", "sheet-to-next-post", "tie-plate"}
        lapped = {"cap-lap"} if roof["shape"] == "flat" else {"tie-plate"}
        assert between == (set() if side in ("front", "back") else {"post-to-post", "sheet-to-next-post"} | lapped)
    ends = {p["pieces"][1] for p in by_side["left"]["points"] if p["joint"] == "post-to-post"}
    assert ends == {"met-post-left", "met-post-right"}
    total = sum(t["count"] for t in answer["totals"]["fasteners"])
    assert total == sum(t["count"] for found in by_side.values() for t in found["totals"])


def test_the_list_is_csv():
    text = post("/v1/fasteners", json.dumps(PLAIN).encode(), accept="text/csv").text
    rows = list(csv.DictReader(io.StringIO(text)))
    assert sum(int(r["total"]) for r in rows if r["joint"] != "all") == sum(
        int(r["total"]) for r in rows if r["joint"] == "all"
    )


def test_a_fastener_of_no_likely_size_is_refused():
    own = {"joint": "packing", "fastener": {"kind": "screw", "length": 40, "diameter": 2}, "spacing": 0.5}
    answer = post("/v1/fasteners", json.dumps({**PLAIN, "fastening": {"joints": [own]}}).encode())
    assert answer.status_code == 422
    assert {e["pointer"] for e in answer.json()["errors"]} == {
        "/fastening/joints/0/fastener/length", "/fastening/joints/0/fastener/diameter", "/fastening/joints/0/spacing",
    }  # fmt: skip
    answer = post("/v1/fasteners", json.dumps({**PLAIN, "fastening": "glued"}).encode())
    assert answer.status_code == 400
