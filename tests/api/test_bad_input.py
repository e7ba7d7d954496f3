"""Bad input of every kind: the problem names the field, what was given, what is allowed and how to mend it."""

import json
import re

import pytest
from tests.api.client import WALL, codes, post

from wallwright.lengths import INCH, measure_of_text

WINDOW = {"name": "w", "left": 40, "width": 30, "height": 36, "sill": 36}


def wall(**changes: object) -> bytes:
    return json.dumps({**WALL, **changes}).encode()


def shown(value: object) -> str:
    """A case's name, the same in every process that collects the tests."""
    return str(sorted(value) if isinstance(value, set) else value)[:60]


NOT_JSON = {
    "empty": b"",
    "blank": b"  \n",
    "text": b"wall",
    "cut short": b'{"units":"in"',
    "two documents": b'{"units":"in"} {}',
    "trailing comma": b'{"units":"in",}',
    "comment": b'{"units":"in" /* inches */}',
    "NaN": b'{"units":"in","length":NaN,"height":96}',
    "Infinity": b'{"units":"in","length":Infinity,"height":96}',
    "leading zero": b'{"units":"in","length":01,"height":96}',
    "plus sign": b'{"units":"in","length":+1,"height":96}',
    "bare point": b'{"units":"in","length":.5,"height":96}',
    "byte order mark": b'\xef\xbb\xbf{"units":"in","length":1,"height":96}',
    "UTF-16": '{"units":"in"}'.encode("utf-16"),
    "bad UTF-8 in a text": b'{"units":"in","length":144,"height":96,"name":"\xff"}',
    "lone surrogate": b'{"units":"in","length":144,"height":96,"name":"\\ud800"}',
    "raw control character": b'{"units":"in","length":144,"height":96,"name":"a\x01"}',
    "nested 100,000 deep": b"[" * 100_000,
    "nested in a field": b'{"units":"in","length":144,"height":96,"openings":' + b"[" * 100_000,
}


@pytest.mark.parametrize("body", NOT_JSON.values(), ids=NOT_JSON)
def test_what_is_not_json_is_400(body):
    answer = post("/v1/layout", body)
    assert answer.status_code == 400
    assert answer.headers["content-type"] == "application/problem+json"
    assert answer.json()["code"] in ("not-json", "not-of-the-schema")
    assert answer.json()["detail"]


NOT_OF_THE_SCHEMA = [
    (b"[]", {("", "type")}),
    (b"null", {("", "null")}),
    (b"3", {("", "type")}),
    (b"{}", {("/units", "missing-field"), ("/length", "missing-field"), ("/height", "missing-field")}),
    (wall(units="inch"), {("/units", "value")}),
    (wall(hieght=3), {("/hieght", "unknown-field")}),
    (wall(length=0), {("/length", "length")}),
    (wall(length=-3), {("/length", "length")}),
    (wall(length=1e300), {("/length", "length")}),
    (wall(length=True), {("/length", "length")}),
    (wall(length=None), {("/length", "null")}),
    (wall(length="wide"), {("/length", "length")}),
    (wall(length="1/0"), {("/length", "length")}),
    (wall(length="144\n"), {("/length", "length")}),
    (wall(length=[]), {("/length", "length")}),
    (wall(name="a\u0000b"), {("/name", "value")}),
    (wall(name="a\u202eb"), {("/name", "value")}),
    (wall(name="a\n"), {("/name", "value")}),
    (wall(name="x" * 81), {("/name", "value")}),
    (wall(name=7), {("/name", "value")}),
    (wall(stud="2 by 4"), {("/stud", "value")}),
    (wall(stud=24), {("/stud", "type")}),
    (wall(stud={"thickness": 1.5}), {("/stud/width", "missing-field")}),
    (wall(plates={"top": 3}), {("/plates/top", "value")}),
    (wall(plates={"top": 1.5}), {("/plates/top", "value")}),
    (wall(plates={"top": "2"}), {("/plates/top", "value")}),
    (wall(positions="yes"), {("/positions", "value")}),
    (wall(moisture_percent=201), {("/moisture_percent", "value")}),
    (wall(openings={}), {("/openings", "type")}),
    (wall(openings=[3]), {("/openings/0", "type")}),
    (wall(openings=[WINDOW] * 25), {("/openings", "count")}),
    (wall(ends={"left": {"post": "double"}, "right": {"meets": {}}}),
     {("/ends/left/post", "value"), ("/ends/right/meets/depth", "missing-field")}),
    (wall(rules="irc-1999", species="balsa", hands=0, **{"a/b~c": 1}),
     {("/rules", "value"), ("/species", "value"), ("/hands", "value"), ("/a~1b~0c", "unknown-field")}),
    (b'{"units":"in","length":144,"height":96,"length":150,"hands":0}',
     {("/length", "repeated-key"), ("/hands", "value")}),
    (b'{"units":"in","length":144,"height":96,"ends":{"left":{},"left":{}}}', {("/ends/left", "repeated-key")}),
]  # fmt: skip


@pytest.mark.parametrize(("body", "faults"), NOT_OF_THE_SCHEMA, ids=shown)
def test_what_breaks_the_schema_is_400_with_every_fault(body, faults):
    answer = post("/v1/layout", body)
    assert answer.status_code == 400
    assert codes(answer) == faults
    for error in answer.json()["errors"]:
        assert error["detail"].endswith((".", "?")), error


def test_an_unknown_field_is_told_with_the_nearest_name():
    (error,) = post("/v1/layout", wall(hieght=3)).json()["errors"]
    assert error["detail"] == "'hieght' is no field; did you mean height?"


@pytest.mark.parametrize("stud", ["2X4", "2 x 4", "2by4"])
def test_a_stock_of_another_form_is_told_what_form_it_has(stud):
    (error,) = post("/v1/layout", wall(stud=stud)).json()["errors"]
    assert error["pointer"] == "/stud"
    assert all(part in error["detail"] for part in (stud, "2x4", "38x89", "1-1/2x3-1/2"))


def test_a_name_with_a_line_break_is_told_what_it_may_not_hold():
    (error,) = post("/v1/layout", wall(name="a\nb")).json()["errors"]
    assert error["pointer"] == "/name"
    assert "line breaks" in error["detail"]


@pytest.mark.parametrize("changes", [{"sill": 1}, {"height": 95}])
def test_an_opening_without_a_name_is_not_told_as_a_bare_number(changes):
    opening = {"left": 48, "width": 36, "height": 60} | changes
    (error,) = post("/v1/layout", wall(openings=[opening])).json()["errors"]
    assert "the opening 1 " in error["detail"].lower()


def test_integral_numbers_with_a_point_are_whole():
    assert (
        post("/v1/layout", b'{"units":"in","length":144.0,"height":96,"hands":2.0,"plates":{"top":2.0}}').status_code
        == 200
    )


NOT_BUILDABLE = [
    (wall(length="0"), {("/length", "length-out-of-range")}, "allowed is from"),
    (wall(length="101'"), {("/length", "length-out-of-range")}, "100' 0\""),
    (wall(stud="4x3"), {("/stud", "stock-unknown")}, "2x4"),
    (wall(length=2), {("/length", "wall-too-short")}, '3"'),
    (wall(height=8), {("/height", "wall-too-low")}, '10 1/2"'),
    (wall(spacing=6, ends={"left": {"post": "two-stud"}}), {("/spacing", "spacing-too-close")}, '8"'),
    (wall(top={"shape": "rake"}), {("/top/rise", "slope-missing")}, "`rise` above 0"),
    (wall(top={"shape": "rake", "rise": 24.1}), {("/top/rise", "slope-reaches-too-high")}, "12 in 12"),
    (wall(length=48, height=48, top={"shape": "rake", "rise": 24.1}), {("/top/rise", "slope-too-steep")}, "24 in 12"),
    # 96 in and 12 ft at 12 in 12 are the 20 ft that are framed; at 20 in 12 the top is above them from a wall of no height.
    (wall(top={"shape": "rake", "rise": 20}), {("/top/rise", "slope-reaches-too-high")}, "slope of 12 in 12 or less"),
    (wall(top={"shape": "gable", "rise": 3, "ridge": 1}), {("/top/ridge", "ridge-outside-wall")}, '1 1/2"'),
    (wall(top={"shape": "gable", "rise": 3, "ridge": 12}, ends={"left": {"cap_lap": -12}}), {("/ends/left/cap_lap", "cap-too-short")}, "cap"),
    (wall(top={"shape": "rake", "rise": 12}, height=97), {("/height", "top-too-high")}, "8' 0\""),
    (wall(top={"shape": "rake", "rise": 9}, height=5), {("/height", "wall-too-low")}, '5 5/16"'),
    (wall(top={"shape": "rake", "rise": 3}, openings=[{**WINDOW, "height": 66}]), {("/openings/0/height", "header-does-not-fit")}, "5' 3"),
    (wall(openings=[{**WINDOW, "left": 130}]), {("/openings/0/left", "opening-outside-wall")}, "9' 3\""),
    (wall(openings=[{**WINDOW, "left": 2}]), {("/openings/0/left", "opening-too-near-end")}, '3"'),
    (wall(openings=[{**WINDOW, "left": 112}]), {("/openings/0/left", "opening-too-near-end")}, "9' 3\""),
    (wall(openings=[{**WINDOW, "sill": 2}]), {("/openings/0/sill", "sill-too-low")}, '3"'),
    (wall(openings=[{**WINDOW, "height": 56}]), {("/openings/0/height", "header-does-not-fit")}, "4' 5 1/2\""),
    (wall(openings=[{**WINDOW, "height": 50, "header": {"stock": "2x12"}}]), {("/openings/0/height", "header-does-not-fit")}, "3' 9 3/4\""),
    (wall(height=15, openings=[{**WINDOW, "height": 4, "sill": 3, "header": {"stock": "2x12"}}]), {("/openings/0/header/stock", "header-deeper-than-wall")}, "1' 9 1/4\""),
    (wall(openings=[{**WINDOW, "sill": 90, "height": 4}]), {("/openings/0/sill", "sill-too-high"), ("/openings/0/height", "header-does-not-fit")}, "7' 4\""),
    (wall(openings=[{**WINDOW, "sill": 2, "height": 88}]), {("/openings/0/sill", "sill-too-low"), ("/openings/0/height", "header-does-not-fit")}, "7' 2 1/2\""),
    (wall(openings=[{**WINDOW, "width": 139}]), {("/openings/0/width", "opening-has-no-place")}, "11' 6\""),
    (wall(openings=[{**WINDOW, "left": 3, "width": 137}, {**WINDOW, "left": 4}]), {("/openings/1", "no-room-for-opening")}, "14' 9 1/2\""),

    (wall(openings=[{**WINDOW, "header": {"stock": "2x6", "plies": 3}}]), {("/openings/0/header/plies", "header-too-thick")}, '3 1/2"'),
    (wall(openings=[{**WINDOW, "sill": 0, "height": 2, "header": {"stock": "2x4"}}]), {("/openings/0/height", "opening-too-low")}, '3"'),
    (wall(openings=[{**WINDOW, "width": 1, "header": {"stock": "2x4"}}]), {("/openings/0/width", "opening-too-narrow")}, '1 1/2"'),
    (wall(openings=[WINDOW, {**WINDOW, "left": 60}]), {("/openings/1/left", "openings-collide")}, "6' 2 1/2\""),
    (wall(openings=[WINDOW, {**WINDOW, "left": 72}]), {("/openings/1/left", "openings-too-near")}, "6' 2 1/2\""),
    (wall(openings=[{"left": 1.5, "width": 10, "height": 95}]), {("/openings/0/height", "opening-too-high")}, "7' 9\""),
    (wall(ends={"left": {"sheathing_lap": "25\""}}), {("/ends/left/sheathing_lap", "length-out-of-range")}, "2' 0\""),
    (wall(length=20, ends={"left": {"cap_lap": -10}, "right": {"cap_lap": -10}}), {("/ends/left/cap_lap", "cap-too-short")}, "-8 1/2\""),
    (wall(length=20, ends={"left": {"sheathing_lap": -10}, "right": {"sheathing_lap": -10}}), {("/ends/left/sheathing_lap", "face-too-narrow")}, "-8 1/2\""),
]  # fmt: skip


@pytest.mark.parametrize(("body", "faults", "says"), NOT_BUILDABLE, ids=shown)
def test_what_has_no_place_in_the_wall_is_422_with_what_would_work(body, faults, says):
    answer = post("/v1/layout", body)
    assert answer.status_code == 422
    assert codes(answer) == faults
    assert any(says in error["detail"] for error in answer.json()["errors"]), answer.json()["errors"]


def test_faults_of_a_wall_laid_out_from_the_right_are_told_as_given():
    openings = [{**WINDOW, "name": "a", "left": 2}, {**WINDOW, "name": "b", "left": 70}]
    for start in ("left", "right"):
        answer = post("/v1/layout", wall(openings=openings, layout={"from": start}))
        (error,) = answer.json()["errors"]
        assert error["pointer"] == "/openings/0/left"
        assert '2"' in error["detail"]
        assert '3"' in error["detail"]


def test_the_nearest_place_is_the_same_whichever_end_the_wall_is_laid_out_from():
    told = [
        post("/v1/layout", wall(openings=[{**WINDOW, "left": 130}], layout={"from": start})).json()["errors"]
        for start in ("left", "right")
    ]
    assert told[0] == told[1]
    assert "starts at 10' 10\"" in told[0][0]["detail"]
    assert "is 9' 3\"." in told[0][0]["detail"]


def test_an_opening_without_a_name_is_told_by_its_number_whichever_end_the_wall_is_laid_out_from():
    openings = [{"left": 30, "width": 30, "height": 36, "sill": 36}, {"left": 2, "width": 24, "height": 36, "sill": 36}]
    for start in ("left", "right"):
        (error,) = post("/v1/layout", wall(openings=openings, layout={"from": start})).json()["errors"]
        assert error["pointer"] == "/openings/1/left"
        assert error["detail"].startswith("The opening 2 starts")


def test_what_was_given_is_not_rounded_into_what_is_offered():
    (error,) = post("/v1/layout", wall(openings=[{**WINDOW, "left": 2.99}])).json()["errors"]
    assert '2.99"' in error["detail"]
    assert 'is 3".' in error["detail"]


def test_lying_sheets_that_find_no_level_seam_are_refused_with_the_other_direction():
    # The first course, 2 ft high, would end 1 ft below the plate, in the floor.
    sheathing = {"direction": "lying", "under_sheet": 36, "sheet": {"width": 24}}
    for operation in ("layout", "sheathing"):
        answer = post(f"/v1/{operation}", wall(sheathing=sheathing))
        assert codes(answer) == {("/sheathing/direction", "no-lying-seam")}
    assert post("/v1/sheathing", wall(sheathing={**sheathing, "direction": "upright"})).status_code == 200


def test_a_lap_no_wider_than_the_gap_is_refused_with_one_that_closes_the_joint():
    body = wall(sheathing={"gap": '1/4"', "sheet": {"edge": "shiplap", "lap": '1/4"'}})
    answer = post("/v1/layout", body)
    assert codes(answer) == {("/sheathing/sheet/lap", "lap-too-short")}
    assert '3/8"' in answer.json()["errors"][0]["detail"]


BUILDING = {"units": "in", "footprint": {"width": 168, "depth": 120}, "wall_height": 89}
BUILDING_FAULTS = [
    ({"roof": {"shape": "gable"}}, {("/roof/rise", "slope-missing")}),
    ({"roof": {"shape": "lean-to", "rise": 25}}, {("/roof/rise", "slope-too-steep")}),
    ({"roof": {"shape": "lean-to", "rise": 16}}, {("/wall_height", "top-too-high")}),
    ({"roof": {"shape": "lean-to", "rise": 24}, "footprint": {"width": 168, "depth": 144}}, {("/roof/rise", "slope-reaches-too-high")}),
    ({"roof": {"shape": "gable", "rise": 6}, "wall_height": 8}, {("/wall_height", "wall-too-low")}),
    ({"footprint": {"width": 168, "depth": 7}}, {("/footprint/depth", "footprint-too-small")}),
    ({"through_walls": ["front", "left"]}, {("/through_walls", "through-walls-not-opposite")}),
    ({"wall_height": 8}, {("/wall_height", "wall-too-low")}),
    ({"spacing": "2\""}, {("/spacing", "length-out-of-range")}),
    ({"walls": {"right": {"openings": [{**WINDOW, "left": 1}]}}},
     {("/walls/right/openings/0/left", "opening-outside-wall")}),
    ({"walls": {"left": {"spacing": "2\""}}}, {("/walls/left/spacing", "length-out-of-range")}),
]  # fmt: skip


@pytest.mark.parametrize("stud", ["2x4", "2x6", "2x3"])
@pytest.mark.parametrize("measured", ["framing", "sheathing"])
@pytest.mark.parametrize("through", [["front", "back"], ["right", "left"]])
def test_the_least_footprint_that_is_offered_is_the_least_that_can_be_built(stud, measured, through):
    small = {**BUILDING, "stud": stud, "through_walls": through, "slip_gap": 0.0625}
    small["footprint"] = {"width": 1, "depth": 2, "measured_to": measured}
    told = {
        error["pointer"]: error["detail"] for error in post("/v1/building", json.dumps(small).encode()).json()["errors"]
    }
    assert set(told) == {"/footprint/width", "/footprint/depth"}
    offered = {name: re.search(r"take (.+?)\. Make", told[f"/footprint/{name}"])[1] for name in ("width", "depth")}
    fitting = {**small, "footprint": {**offered, "measured_to": measured}}
    assert post("/v1/building", json.dumps(fitting).encode()).status_code == 200
    for name in ("width", "depth"):
        size = measure_of_text(offered[name]).on_grid("in") / INCH - 0.125
        short = {**fitting, "footprint": {**fitting["footprint"], name: size}}
        assert codes(post("/v1/building", json.dumps(short).encode())) == {
            (f"/footprint/{name}", "footprint-too-small")
        }


@pytest.mark.parametrize(("changes", "faults"), BUILDING_FAULTS, ids=shown)
def test_faults_of_a_building_are_told_where_its_caller_gave_them(changes, faults):
    answer = post("/v1/building", json.dumps({**BUILDING, **changes}).encode())
    assert answer.status_code == 422
    assert codes(answer) == faults


@pytest.mark.parametrize(
    ("path", "body", "pointer"),
    [
        ("frame", {"width": 144, "height": 96, "rising": 300, "falling": 173}, "/rising"),
        ("deck", {"sides": {"front": 168, "right": 120, "back": 168, "left": 120},
                  "diagonals": {"front_left_to_back_right": 300, "front_right_to_back_left": 206}},
         "/diagonals/front_left_to_back_right"),
    ],
)  # fmt: skip
def test_lengths_that_make_no_figure_are_no_plan_refused(path, body, pointer):
    answer = post(f"/v1/squaring/{path}", json.dumps({"units": "in", **body}).encode())
    assert answer.status_code == 422
    problem = answer.json()
    assert problem["title"] == "Lengths fit no figure"
    assert problem["type"].endswith("/problems/no-such-figure")
    assert pointer in {error["pointer"] for error in problem["errors"]}
    assert post("/v1/layout", wall(length=1)).json()["code"] == "not-buildable"


@pytest.mark.parametrize(
    ("body", "told"),
    [
        (wall(top="gable"), "'gable' is given; give an object with shape, rise, run, up, ridge."),
        (wall(stud=7), "7 is given; give a text or an object with thickness, width."),
        (b"[]", "a list is given; give an object with units, length, height, stud, "),
    ],
)
def test_who_gives_no_object_is_told_what_it_holds(body, told):
    (fault,) = post("/v1/layout", body).json()["errors"]
    assert fault["detail"].startswith(told)
