"""Nailing for an inside lining and fireblocking, over HTTP. Nailing: common practice, no source; fireblocking: IRC R302.11."""

import json

import pytest
from tests.api.client import post

from wallwright.operations.examples import EXAMPLES

MEETS = {"meets": {"depth": '3 1/2"', "post": "single", "slip_gap": 0}}
WALL = {"units": "in", "length": "12'", "height": "8'", "lining": True}


def laid(**more: object) -> dict:
    answer = post("/v1/layout", json.dumps({**WALL, **more}).encode())
    assert answer.status_code == 200, answer.text
    return answer.json()


def backing(answer: dict) -> list[float]:
    return [m["x"] for m in answer["members"] if m["role"] == "backing"]


def codes(answer: dict) -> set[str]:
    return {finding["code"] for finding in answer["findings"]}


@pytest.mark.parametrize(
    ("post_kind", "left", "right"), [("single", [3.5], [139]), ("two-stud", [], []), ("three-stud", [], [])]
)
def test_a_corner_gets_backing_where_its_post_gives_no_nailing(post_kind, left, right):
    # A wall 3-1/2 in deep butts at either end: a stud at 0 alone leaves the corner bare, the flat stud of a two-stud post
    # reaches 5 in, the inner stud of a three-stud post 4-1/2.
    both = {side: {"post": post_kind, **MEETS} for side in ("left", "right")}
    assert backing(laid(ends=both)) == left + right
    assert backing(laid(ends=both, lining=False)) == []


def test_a_wall_that_butts_has_its_own_end_stud():
    butt = {"sheathing_lap": '3 15/16"', "cap_lap": '3 1/2"', **MEETS}
    assert backing(laid(ends={"left": butt, "right": butt})) == []


def test_a_corner_that_an_opening_leaves_no_room_is_told():
    door = [{"left": '3"', "width": "3'", "height": "6' 8\""}]
    answer = laid(ends={"left": {"post": "single", **MEETS}}, openings=door)
    (finding,) = [f for f in answer["findings"] if f["code"] == "lining-corner-bare"]
    assert finding["level"] == "caution"
    assert finding["text"].startswith("At the left end")


def test_a_header_that_stands_back_from_the_inner_face_is_told():
    door = {"left": "4'", "width": "3'", "height": "6' 8\""}
    (finding,) = [f for f in laid(openings=[door])["findings"] if f["code"] == "lining-header-back"]
    # Two plies of 1-1/2 in in a wall 3-1/2 in deep.
    assert '1/2"' in finding["text"]
    assert finding["members"] == ["header-1"]
    packed = {**door, "header": {"stock": "2x6", "plies": 2, "spacer": '1/2"'}}
    assert "lining-header-back" not in codes(laid(openings=[packed]))


def test_fireblocking_is_compared_along_the_wall_with_its_clause():
    answer = laid()
    (finding,) = [f for f in answer["findings"] if f["code"] == "fireblocking"]
    assert "R302.11" in finding["source"]
    assert finding["compared"] == {"value": 16, "limit": 120, "unit": "in"}
    assert "fireblocking-tall" not in codes(answer)
    # 10 ft between the plates is no more than 10 ft.
    assert "fireblocking-tall" not in codes(laid(height="10' 4 1/2\""))
    assert "fireblocking-tall" in codes(laid(height="10' 5\""))
    assert not {"fireblocking", "fireblocking-tall"} & codes(laid(height="12'", lining=False))


def test_studs_are_compared_with_what_a_board_takes():
    assert "lining-studs-compared" in codes(laid(spacing=24))
    assert "lining-studs-too-far-apart" in codes(laid(spacing='24 1/16"'))


def test_a_buildings_lining_is_every_walls_and_closes_all_inside_corners():
    deep = {"right": {"stud": "2x6"}, "left": {"stud": "2x6"}}
    asked = {**EXAMPLES["building"], "lining": True, "walls": deep}
    answer = post("/v1/building", json.dumps(asked).encode())
    found = {one["side"]: one["layout"] for one in answer.json()["walls"]}
    # The inner stud of a three-stud post ends 4-1/2 in from the corner, short of a wall 5-1/2 in deep.
    assert [m["x"] for m in found["front"]["members"] if m["role"] == "backing"] == [5.5, 168 - 7]
    assert not [m for m in found["left"]["members"] if m["role"] == "backing"]
    assert post("/v1/building", json.dumps(answer.json()["building"]).encode()).content == answer.content
    for one in answer.json()["walls"]:
        assert post("/v1/layout", json.dumps(one["wall"]).encode()).json() == one["layout"]
