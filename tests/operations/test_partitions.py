"""Partitions as a user asks for them: over HTTP, on a wall and in a building. What backing is good for is common
practice, no source: 5/8 in of timber for a lining's edge outside each face, 1/2 in for the partition's stud inside it.
"""

import json

import pytest
from tests.api.client import post

from wallwright.operations.examples import EXAMPLES

WALL = {"units": "in", "length": "14'", "height": "8'", "layout": {"tape_zero": "plate"}}


def laid(**more: object) -> dict:
    answer = post("/v1/layout", json.dumps({**WALL, **more}).encode())
    assert answer.status_code == 200, answer.text
    return answer.json()


def backing(answer: dict) -> list[tuple[float, float]]:
    return [(m["x"], m["width"]) for m in answer["members"] if m["role"] == "backing"]


def test_two_studs_straddle_the_faces_of_a_partition_between_layout_studs():
    answer = laid(partitions=[{"at": "4' 6\"", "depth": '3 1/2"'}])
    assert backing(answer) == [(53.25, 1.5), (56.75, 1.5)]
    marks = [mark for mark in answer["marks"] if mark["member"].startswith("backing")]
    assert [(mark["plate"], mark["reading_tape"]) for mark in marks] == [
        (plate, tape) for plate in ("bottom-plate-1", "top-plate-1") for tape in ("4' 5 1/4\"", "4' 8 3/4\"")
    ]
    (row,) = [row for row in answer["cut_list"] if row["roles"] == ["backing"]]
    assert (row["count"], row["length"], row["mark"]) == (2, 91.5, "K1")
    (finding,) = [f for f in answer["findings"] if f["code"] == "partition-backed"]
    assert (finding["level"], finding["members"]) == ("note", ["backing-1", "backing-2"])


def test_a_layout_stud_and_a_king_that_give_nailing_serve():
    # A stud on the layout line at 48 stands from 47-1/4 to 48-3/4, right under the left face.
    assert backing(laid(partitions=[{"at": 48, "depth": '3 1/2"'}])) == [(50.75, 1.5)]
    # The door's king stands from 51-1/2 to 53; a stud tight beside it leaves the layout as it is.
    door = [{"left": "1'", "width": "3' 2\"", "height": "6' 8\""}]
    near = laid(openings=door, partitions=[{"at": 53, "depth": '3 1/2"'}])
    assert backing(near) == [(53, 1.5), (55.75, 1.5)]
    bare = laid(openings=door)
    kept = [m for m in near["members"] if m["role"] != "backing"]
    assert kept == bare["members"]


def test_a_gap_too_narrow_for_a_stud_is_packed():
    # Studs 4-1/4 apart leave 1 in between the two that straddle a narrow partition.
    answer = laid(spacing='6"', partitions=[{"at": "3' 1 1/2\"", "depth": '2 1/2"'}])
    ripped = [m for m in answer["members"] if m["role"] == "backing"]
    assert all(m.get("ripped_to", 1.5) == m["width"] for m in ripped)


@pytest.mark.parametrize(
    ("at", "nearest"),
    [("0", '5/8"'), ("13' 11\"", "13' 7 7/8\""), ("3'", "4' 4 1/8\""), ("2' 2\"", '6 3/8"')],
)
def test_a_partition_with_no_room_is_refused_with_the_nearest_place(at, nearest):
    door = [{"left": "1'", "width": "3' 2\"", "height": "6' 8\""}]
    asked = {**WALL, "openings": door, "partitions": [{"at": at, "depth": '3 1/2"'}]}
    answer = post("/v1/layout", json.dumps(asked).encode())
    assert answer.status_code == 422
    (error,) = answer.json()["errors"]
    assert (error["pointer"], error["code"]) == ("/partitions/0/at", "partition-misplaced")
    assert error["detail"].endswith(f"the nearest place that has is {nearest}.")
    mended = {**asked, "partitions": [{"at": nearest, "depth": '3 1/2"'}]}
    assert post("/v1/layout", json.dumps(mended).encode()).status_code == 200


def test_all_misplaced_partitions_are_told_at_once():
    asked = {**WALL, "partitions": [{"at": at, "depth": 3.5} for at in (0, 60, 61, 200)]}
    errors = post("/v1/layout", json.dumps(asked).encode()).json()["errors"]
    assert [error["pointer"] for error in errors] == [f"/partitions/{n}/at" for n in (0, 2, 3)]


def test_a_wall_too_short_for_its_partition_names_the_length_that_does():
    asked = {**WALL, "length": 9, "partitions": [{"at": 3, "depth": 8}]}
    (error,) = post("/v1/layout", json.dumps(asked).encode()).json()["errors"]
    assert error["code"] == "no-room-for-partition"
    assert 'at least 9 1/4" long' in error["detail"]
    assert (
        post(
            "/v1/layout", json.dumps({**asked, "length": '9 1/4"', "partitions": [{"at": '5/8"', "depth": 8}]}).encode()
        ).status_code
        == 200
    )


def test_in_a_building_partitions_are_measured_from_the_framing_corner():
    sides = {**EXAMPLES["building"]["walls"], "left": {"partitions": [{"at": "5'", "depth": "3 1/2\""}]},
             "back": {"partitions": [{"at": "5'", "depth": "3 1/2\""}]}}  # fmt: skip
    answer = post("/v1/building", json.dumps({**EXAMPLES["building"], "walls": sides}).encode())
    built = answer.json()
    walls = {one["side"]: one["wall"] for one in built["walls"]}
    # The left wall's plate begins past the depth of the wall met and the slip gap.
    assert walls["left"]["partitions"] == [{"at": 60 - 3.5 - 0.0625, "depth": 3.5}]
    assert walls["back"]["partitions"] == [{"at": 60, "depth": 3.5}]
    assert built["building"]["walls"]["left"]["partitions"] == [{"at": 60, "depth": 3.5}]
    assert post("/v1/building", json.dumps(built["building"]).encode()).content == answer.content


def test_a_partition_in_a_buildings_corner_is_offered_a_place_past_the_wall_met():
    for side, nearest in (("front", '4 1/8"'), ("right", '4 3/16"')):
        asked = {**EXAMPLES["building"], "walls": {side: {"partitions": [{"at": 2, "depth": 3.5}]}}}
        answer = post("/v1/building", json.dumps(asked).encode())
        assert answer.status_code == 422, answer.text
        (error,) = answer.json()["errors"]
        assert error["pointer"] == f"/walls/{side}/partitions/0/at"
        assert f"nearest place that has is {nearest}." in error["detail"]


def test_a_lining_edge_ends_over_timber_beside_an_opening_within_one_bay():
    # 12.5 mm between the last stud and the opening: too narrow for backing, and no upright on its far side to nail to.
    body = {
        "units": "mm", "length": 951, "height": 1160, "stud": {"thickness": 45, "width": 95}, "spacing": 407,
        "layout": {"from": "right"}, "openings": [{"left": 172, "width": 45, "height": 101, "sill": 90}],
        "partitions": [{"at": 15.875, "depth": 140}],
    }  # fmt: skip
    answer = post("/v1/layout", json.dumps(body).encode())
    assert [error["code"] for error in answer.json()["errors"]] == ["partition-misplaced"]
