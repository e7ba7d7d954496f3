"""Holes and notches in studs, over HTTP, beside IRC R602.6 (all editions alike), with the limits of a 2x4 and a 2x6.

2x4: notch 7/8 in, hole 1.4 in (2.1 doubled) in exterior or bearing walls; 2x6: 1-3/8, 2.2 (3.3). 5/8 in beside a hole.
"""

import json

import pytest
from tests.api.client import post

from wallwright.operations.examples import EXAMPLES

WALL = {"units": "in", "length": "8'", "height": "8'"}


def told(*runs: dict, **more: object) -> list[dict]:
    answer = post("/v1/layout", json.dumps({**WALL, "runs": list(runs), **more}).encode())
    assert answer.status_code == 200, answer.text
    return [finding for finding in answer.json()["findings"] if finding["about"].startswith("/runs/")]


def codes(*runs: dict, **more: object) -> list[str]:
    return [finding["code"] for finding in told(*runs, **more)]


@pytest.mark.parametrize(
    ("stud", "cut", "most"),
    [("2x4", "notch", 0.875), ("2x4", "bore", 1.4), ("2x6", "notch", 1.375), ("2x6", "bore", 2.2)],
)
@pytest.mark.parametrize("rules", ["irc-2015", "irc-2018", "irc-2021", "irc-2024"])
def test_a_cut_is_compared_with_the_share_of_the_studs_depth(stud, cut, most, rules):
    (at,) = told({"cut": cut, "size": most, "y": 40}, stud=stud, rules=rules)
    assert (at["code"], at["level"]) == ("run-compared", "note")
    assert at["compared"] == {"value": most, "limit": most, "unit": "in"}
    assert at["source"] == f"International Residential Code, {rules[-4:]}, R602.6"
    assert len(at["members"]) == 7
    (over,) = told({"cut": cut, "size": most + 0.001, "y": 40}, stud=stud, rules=rules)
    assert (over["code"], over["level"]) == ("run-too-large", "stop")


def test_a_hole_keeps_five_eighths_of_wood_at_either_edge():
    # 1-1/4 in a stud 3-1/2 deep: from 5/8 to 1-5/8 may be left at one edge.
    for edge, code in ((0.625, []), (1.625, []), (0.62, ["bore-near-edge"]), (1.63, ["bore-near-edge"])):
        assert codes({"cut": "bore", "size": 1.25, "y": 40, "edge": edge}) == ["run-compared", *code]
    # A hole of 1.4 in the middle leaves 1.05.
    assert codes({"cut": "bore", "size": 1.4, "y": 40}) == ["run-compared"]


def test_doubled_studs_take_the_larger_hole_no_more_than_two_in_a_row():
    # King and jack stand tight together on both sides of each door; between the doors' sides no stud is crossed.
    door = {"width": "2'", "height": "6' 8\"", "sill": 0}
    one = [{**door, "left": "2'"}]
    beside = {"cut": "bore", "size": 2.1, "y": 40, "left": 20, "right": 24}
    assert codes(beside, openings=one) == ["run-compared"]
    assert codes({**beside, "size": 2.101}, openings=one) == ["run-too-large"]
    # At the same place a field stud alone is too weak.
    assert codes({**beside, "left": 10}, openings=one) == ["run-too-large"]
    three = [{**door, "width": "1'", "left": left} for left in (12, 40, 68)]
    answer = told({"cut": "bore", "size": 2.1, "y": 40, "left": 8, "right": 39.9}, openings=three, spacing=24)
    assert [f["code"] for f in answer] == ["run-compared", "bore-doubled-in-a-row", "run-crosses-opening"]
    assert answer[1]["compared"]["value"] > answer[1]["compared"]["limit"] == 2


def test_a_hole_beside_a_notch_is_a_stop():
    hole, notch = {"cut": "bore", "size": 1, "y": 40}, {"cut": "notch", "size": 0.5, "y": 40.7}
    assert codes(hole, notch) == ["run-compared", "bore-at-notch", "run-compared"]
    assert codes(hole, {**notch, "y": 40.75}) == ["run-compared", "run-compared"]
    # Notches further along the wall are in other studs.
    assert codes({**hole, "right": 40}, {**notch, "left": 41}) == ["run-compared", "run-compared"]


def test_what_lies_in_the_way_of_a_run_is_told():
    window = [{"left": "2'", "width": "3'", "height": "3'", "sill": "3'"}]
    assert codes({"cut": "bore", "size": 1, "y": 40}, openings=window) == ["run-compared", "run-crosses-opening"]
    assert "run-in-level-timber" in codes({"cut": "bore", "size": 1, "y": 74}, openings=window)
    assert codes({"cut": "notch", "size": 0.5, "y": 0.75}) == ["run-crosses-no-stud", "run-in-level-timber"]
    assert codes({"cut": "bore", "size": 1, "y": 40, "left": 50, "right": 40}) == ["run-crosses-no-stud"]


def test_a_runs_ends_lie_from_the_corner_in_a_building_and_come_back_so():
    run = {"cut": "bore", "size": 1, "y": 20, "left": 12, "right": 60}
    asked = {**EXAMPLES["building"], "walls": {"left": {"runs": [run]}, "back": {"runs": [run]}}}
    answer = post("/v1/building", json.dumps(asked).encode())
    built = answer.json()
    walls = {one["side"]: one["wall"]["runs"][0] for one in built["walls"] if one["wall"]["runs"]}
    assert (walls["left"]["left"], walls["left"]["right"]) == (12 - 3.5625, 60 - 3.5625)
    assert (walls["back"]["left"], walls["back"]["right"]) == (12, 60)
    assert built["building"]["walls"]["left"]["runs"] == [run]
    assert post("/v1/building", json.dumps(built["building"]).encode()).content == answer.content
