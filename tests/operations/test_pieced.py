"""Sheets pieced round openings, asked as a caller asks: rectangles beside, over and under, each edge on timber."""

import json

from tests.api.client import post

PUMP_HOUSE = {
    "units": "in", "name": "pump house, front", "length": "12'", "height": "8'",
    "openings": [{"name": "window", "left": "50", "width": "40", "height": "36", "sill": "40"}],
}  # fmt: skip


def asked(**sheathing: object) -> dict:
    return post("/v1/sheathing", json.dumps({**PUMP_HOUSE, "sheathing": sheathing}).encode()).json()


def test_a_window_has_a_rectangle_on_each_of_its_four_sides():
    answer = asked(openings="pieced")
    assert all(len(piece["outline"]) == 4 and not piece["cut_outs"] for piece in answer["pieces"])
    boxes = {(*piece["outline"][0], *piece["outline"][2]) for piece in answer["pieces"]}
    # Over and under stand a gap of 1/8 in inside the window's sides; beside, the pieces end where it does.
    assert {(50.125, 0, 89.875, 40), (50.125, 76, 89.875, 96)} <= boxes
    assert {right for _, _, right, _ in boxes} >= {50}
    assert {left for left, _, _, _ in boxes} >= {90}
    for seam in answer["seams"]:
        # 5/8 in is what a sheet's edge takes on a single stud: common practice, no source.
        assert min(seam["bearing_before"], seam["bearing_after"]) >= 0.625
    assert "seams-in-line-with-corners" in {finding["code"] for finding in answer["findings"]}


def test_cut_out_is_what_is_done_unless_said():
    assert asked(openings="cut-out") == asked()
    assert asked()["wall"]["sheathing"]["openings"] == "cut-out"
    assert len(asked()["pieces"]) < len(asked(openings="pieced")["pieces"])


def test_lying_sheets_are_pieced_course_by_course():
    answer = asked(openings="pieced", direction="lying")
    assert all(len(piece["outline"]) == 4 and not piece["cut_outs"] for piece in answer["pieces"])
    boxes = {(*piece["outline"][0], *piece["outline"][2]) for piece in answer["pieces"]}
    # The window reaches from the lower course into the upper one: a rectangle under its sill, one over its head.
    assert {(50.125, 0, 89.875, 40), (50.125, 76, 89.875, 96)} <= boxes
    (level,) = {(seam["before"], seam["after"]) for seam in answer["seams"] if seam["direction"] == "level"}
    assert 40 < level[0] < level[1] < 76
    assert {(bottom, top) for _, bottom, right, top in boxes if right == 50} == {(0, level[0]), (level[1], 96)}
    for seam in answer["seams"]:
        # 3/8 in is the least that counts as carried: common practice, no source.
        assert min(seam["bearing_before"], seam["bearing_after"]) >= 0.375
    told = {finding["code"]: finding for finding in answer["findings"]}
    assert "opening-still-cut-out" not in told
    assert "corners: 2." in told["seams-in-line-with-corners"]["text"]
    assert "joints-not-staggered" not in told
    assert len(asked(direction="lying")["pieces"]) < len(answer["pieces"])


def test_a_low_piece_under_a_sill_is_told():
    low = {**PUMP_HOUSE["openings"][0], "sill": "10"}
    body = {**PUMP_HOUSE, "openings": [low], "sheathing": {"openings": "pieced", "direction": "lying"}}
    answer = post("/v1/sheathing", json.dumps(body).encode()).json()
    assert [piece["outline"][2] for piece in answer["pieces"] if piece["outline"][0] == [50.125, 0]] == [[89.875, 10]]
    (told,) = [finding for finding in answer["findings"] if finding["code"] == "low-piece"]
    assert ": 1." in told["text"] or ": 2." in told["text"]
    assert "low-piece" not in {finding["code"] for finding in asked(openings="pieced", direction="lying")["findings"]}


def test_a_side_still_cut_out_is_told_above_the_low_end_of_a_slope():
    body = {
        "units": "in", "length": 51, "height": 60.5, "top": {"shape": "rake", "rise": 6, "run": 12, "up": "left"},
        "openings": [{"left": 3, "width": 3, "height": 66.5, "header": {"stock": "2x4", "plies": 1}}],
        "sheathing": {"openings": "pieced"},
    }  # fmt: skip
    answer = post("/v1/sheathing", json.dumps(body).encode())
    told = {finding["code"]: finding["text"] for finding in answer.json()["findings"]}
    assert "all the same: 1." in told["opening-still-cut-out"]
