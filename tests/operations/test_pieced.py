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


def test_lying_sheets_stay_cut_out_and_that_is_told():
    answer, plain = asked(openings="pieced", direction="lying"), asked(direction="lying")
    assert answer["pieces"] == plain["pieces"]
    (told,) = [finding for finding in answer["findings"] if finding["about"] == "/sheathing/openings"]
    assert told["code"] == "opening-still-cut-out"
