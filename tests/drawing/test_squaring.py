"""The racked frame and the deck on paper: every text on the paper and clear of the others, the push where it belongs."""

import json
from xml.etree import ElementTree

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.drawing.test_drawings import boxes

from wallwright.api.reader import Reader
from wallwright.domain.building import build
from wallwright.domain.squaring.deck import survey
from wallwright.domain.squaring.frame import square
from wallwright.drawing.building import plan_scene
from wallwright.drawing.deck import deck_scene
from wallwright.drawing.paper import MARGIN, TITLE_STRIP
from wallwright.drawing.scene import Area, Scene, Text
from wallwright.drawing.squaring import frame_scene
from wallwright.findings import PlanRefused
from wallwright.lengths import FOOT, INCH, MILLIMETRE, measure_of_text
from wallwright.operations.building_asked import to_domain as to_building
from wallwright.operations.converters import CONVERTERS
from wallwright.operations.examples import EXAMPLES
from wallwright.operations.squaring_asked import to_deck, to_frame
from wallwright.operations.table import BY_NAME
from wallwright.wire.squaring_asked import Deck, Frame

READERS = {"squaring-frame": Reader(Frame), "squaring-deck": Reader(Deck)}


def scene_of(name: str, body: dict, units: str) -> Scene:
    request = READERS[name].read(json.dumps(body).encode())
    if name == "squaring-frame":
        found, draw = square(to_frame(request), FOOT, 3 * INCH), frame_scene
    else:
        found, draw = survey(to_deck(request)), deck_scene
    texts = [CONVERTERS[units].finding(finding).text for finding in found.findings]
    return draw(found, units, "0" * 8, texts)


def checked(scene: Scene) -> None:
    placed = boxes(scene)
    strip = scene.height - MARGIN - TITLE_STRIP
    for left, top, right, bottom, text in placed:
        assert left >= MARGIN - 0.01, text
        assert right <= scene.width - MARGIN + 0.01, text
        assert top >= MARGIN - 0.01, text
        assert bottom <= scene.height - MARGIN + 0.01, text
        assert not top < strip < bottom, text
    for number, (l1, t1, r1, b1, one) in enumerate(placed):
        for l2, t2, r2, b2, two in placed[number + 1 :]:
            assert r1 <= l2 + 0.05 or r2 <= l1 + 0.05 or b1 <= t2 + 0.05 or b2 <= t1 + 0.05, (one, two)


@settings(max_examples=100)
@given(
    st.floats(6, 1200), st.floats(6, 240), st.floats(-1, 1), st.floats(-1, 1), st.floats(-2, 2), st.booleans(),
    st.sampled_from(["in", "mm"]),
)  # fmt: skip
def test_a_frame_keeps_its_texts_apart(width, height, one, other, longer, four, units):
    d = (width**2 + height**2) ** 0.5
    body = {
        "units": "in", "name": "W" * 40, "width": width, "height": height, "rising": d + one, "falling": d + other,
        "plumb": {"offset": 1, "over": 96},
    }  # fmt: skip
    if four:
        body |= {"top": max(6, width + longer), "right": height}
    try:
        scene = scene_of("squaring-frame", body, units)
    except PlanRefused:
        return
    checked(scene)


@settings(max_examples=100)
@given(
    st.floats(6, 1200), st.floats(6, 1200), st.tuples(*[st.floats(-3, 3)] * 4), st.booleans(),
    st.sampled_from(["in", "mm"]),
)  # fmt: skip
def test_a_deck_keeps_its_texts_apart(width, depth, off, wanted, units):
    d = (width**2 + depth**2) ** 0.5
    sides = [max(6.0, size + by) for size, by in zip((width, depth, width, depth), (*off[:2], 0, 0), strict=True)]
    body = {
        "units": "in",
        "sides": dict(zip(("front", "right", "back", "left"), sides, strict=True)),
        "diagonals": {"front_left_to_back_right": d + off[2], "front_right_to_back_left": d + off[3]},
    }
    if wanted:
        body |= {"wanted": {"width": width, "depth": depth}}
        body |= {"levels": {"front_left": 0, "front_right": off[0], "back_right": off[1], "back_left": -1 / 16}}
    try:
        scene = scene_of("squaring-deck", body, units)
    except PlanRefused:
        return
    checked(scene)


@settings(max_examples=100)
@given(
    st.integers(960, 4000),
    st.integers(960, 3000),
    st.integers(4, 40),
    st.integers(-3, 3),
    st.sampled_from(["in", "mm"]),
)
def test_the_three_figures_of_racking_agree(width, height, apart, off, units):
    # In sixteenths, or in millimetres: the longer diagonal as it is read, less what it is shortened by as it is told, is the target.
    scale = 16 if units == "in" else 1
    d = round((width**2 + height**2) ** 0.5) + off
    body = {"units": units, "width": width / scale, "height": height / scale,
            "rising": (d + apart) / scale, "falling": d / scale}  # fmt: skip
    try:
        request = READERS["squaring-frame"].read(json.dumps(body).encode())
        found = square(to_frame(request), FOOT, 3 * INCH, INCH // 16 if units == "in" else MILLIMETRE)
    except PlanRefused:
        return
    if found.verdict != "rack":
        return
    told = next(f for f in found.findings if f.code == "frame-out-of-square")
    by = CONVERTERS[units].tape(dict(told.values)["by"])
    (title,) = [
        s.text for s in frame_scene(found, units, "0" * 8, []).shapes if getattr(s, "text", "").startswith("Frame from")
    ]
    target = title.partition("both diagonals read ")[2].partition(";")[0]
    read = [measure_of_text(text).on_grid(units) for text in (CONVERTERS[units].tape(found.frame.rising), by, target)]
    assert read[0] - read[1] == read[2]


def test_levels_stand_at_their_corners():
    scene = scene_of("squaring-deck", EXAMPLES["squaring-deck"], "in")
    told = [shape.text for shape in scene.shapes if isinstance(shape, Text) and shape.text.startswith("level ")]
    assert told == ['level 0"', 'level +1/8"', 'level +3/16"', 'level -1/16"']


def test_the_push_is_drawn_at_the_end_of_the_longer_diagonal():
    scene = scene_of("squaring-frame", EXAMPLES["squaring-frame"], "in")
    (outline,) = [shape for shape in scene.shapes if isinstance(shape, Area) and shape.kind == "sheet"]
    (head,) = [shape for shape in scene.shapes if isinstance(shape, Area) and "push" in dict(shape.data)]
    assert dict(head.data)["push"] == "left"
    assert head.points[0][0] - outline.points[2][0] == pytest.approx(1)
    assert head.points[0][0] < head.points[1][0]


@pytest.mark.parametrize("name", READERS)
def test_cautions_stand_in_the_drawing(name):
    request = READERS[name].read(json.dumps(EXAMPLES[name]).encode())
    text = " ".join(ElementTree.fromstring(BY_NAME[name].drawing(request)).itertext())
    cautions = [f for f in BY_NAME[name].answer(request).findings if f.level == "caution"]
    assert cautions
    for finding in cautions:
        assert finding.text[:60] in text


def test_a_contradiction_shows_no_push_and_asks_for_no_cut():
    body = {"units": "in", "width": 144, "height": 96, "top": 144, "right": 96, "rising": 174.0625, "falling": 173.0625}
    scene = scene_of("squaring-frame", body, "in")
    assert "measure-again" in scene.description
    said = [str(getattr(shape, "title", "") or getattr(shape, "text", "")) for shape in scene.shapes]
    assert not [text for text in said if text.startswith("push")]


def squared(body):
    return BY_NAME["squaring-frame"].answer(READERS["squaring-frame"].read(json.dumps(body).encode()))


def texts(scene):
    return [shape.text for shape in scene.shapes if hasattr(shape, "text")]


@pytest.mark.parametrize(("left", "right"), [(84, 120), (120, 84)])
def test_a_rake_is_told_to_be_none_for_this_operation(left, right):
    # Plane geometry: a right-angled trapezoid, as a lean-to's side wall lies on the deck.
    top = (144**2 + 36**2) ** 0.5
    body = {"units": "in", "width": 144, "height": left, "right": right, "top": round(top * 16) / 16,
            "rising": round((144**2 + right**2) ** 0.5 * 16) / 16,
            "falling": round((144**2 + left**2) ** 0.5 * 16) / 16}  # fmt: skip
    answer = squared(body)
    assert (answer.verdict, answer.shorten, answer.push, answer.push_corner) == ("not-level", "none", 0, "none")
    codes = {finding.code for finding in answer.findings}
    assert "frame-not-level" in codes
    assert not codes & {"opposite-sides-differ", "measurements-contradict"}
    assert not [text for text in texts(scene_of("squaring-frame", body, "in")) if text.startswith("push")]


def test_sides_a_little_apart_are_still_to_be_recut():
    body = {"units": "in", "width": 144, "height": 96, "top": 144, "right": 96.75, "rising": 173.5, "falling": 173.0625}
    assert squared(body).verdict in ("recut", "measure-again")


def test_nothing_is_pushed_where_lengths_are_to_be_measured_again():
    body = {"units": "in", "width": 144, "height": 96, "top": 144, "right": 96, "rising": 174.0625, "falling": 173.0625}
    answer = squared(body)
    assert answer.verdict == "measure-again"
    assert (answer.push, answer.push_corner, answer.push_direction) == (0, "none", "none")
    assert (answer.shorten, answer.shorten_by) == ("none", 0)


def test_a_deck_is_offered_the_shift_that_a_building_takes():
    # Plane geometry: a deck half an inch too wide, true else: shifted by a quarter inch to one side, one edge is trimmed.
    d = (168.5**2 + 120**2) ** 0.5
    measured = {
        "sides": {"front": 168.5, "right": 120, "back": 168.5, "left": 120},
        "diagonals": {"front_left_to_back_right": d, "front_right_to_back_left": d},
    }
    body = {"units": "in", **measured, "wanted": {"width": 168, "depth": 120}}
    answer = BY_NAME["squaring-deck"].answer(READERS["squaring-deck"].read(json.dumps(body).encode()))
    best = answer.shift
    assert sum(edge.work.startswith("trim") for edge in answer.placing.edges) == 2
    assert sum(edge.work.startswith("trim") for edge in best.edges) == 1
    assert abs(best.right) == pytest.approx(0.25, abs=1e-6)
    building = {
        "units": "in",
        "footprint": {"width": 168, "depth": 120},
        "wall_height": 96,
        "floor": {"kind": "deck", "rim": 5.5, "panel": 0.75},
        "deck": measured,
    }
    request = Reader(BY_NAME["building"].request).read(json.dumps(building).encode())
    built = BY_NAME["building"].answer(request).deck
    assert (best.right, best.back, best.overhangs) == (built.shift_right, built.shift_back, built.marks)
    assert "shift-the-rectangle" in {finding.code for finding in answer.findings}
    told = BY_NAME["building"].drawing(request)
    assert "Deck as measured, dashed" in told
    assert "front-left" in told
    del building["deck"]
    bare = Reader(BY_NAME["building"].request).read(json.dumps(building).encode())
    with_deck, without = (
        [
            shape
            for shape in plan_scene(build(to_building(one)), "in", "0" * 8).shapes
            if getattr(shape, "kind", "") == "void"
        ]
        for one in (request, bare)
    )
    assert len(with_deck) == len(without) + 1


@pytest.mark.parametrize(
    ("offset", "code", "level", "way", "back"),
    [(0.375, "out-of-plumb", "caution", "out", "in"), (-0.375, "out-of-plumb", "caution", "in", "out"),
     (12, "far-out-of-plumb", "stop", "out", "in")],
)  # fmt: skip
def test_plumb_tells_way_and_amount_and_no_limit_larger_than_it_is(offset, code, level, way, back):
    # NAHB guidelines 4-1-1: 3/8 in over 32 in is the widest of the published tolerances; how far past it is a stop: common practice, no source.
    body = {**EXAMPLES["squaring-frame"], "plumb": {"offset": offset, "over": 80}}
    answer = squared(body)
    (told,) = [finding for finding in answer.findings if "out-of-plumb" in finding.code]
    assert (told.code, told.level) == (code, level)
    assert f"leans {way}" in told.text
    top = CONVERTERS["in"].tape(round(abs(answer.plumb.top) * INCH))
    assert f"back {back} by {top}" in told.text
    printed = told.text.partition("published limit ")[2].partition(" ")[2].removeprefix("with is ").split(". ")[0]
    assert measure_of_text(printed).on_grid("in") <= round(told.compared.limit * INCH)
    shown = texts(scene_of("squaring-frame", body, "in"))
    assert f"leans {way}" in shown
    assert f"top {top}" in shown


@pytest.mark.parametrize(("width", "height"), [(480, 24), (24, 240)])
def test_a_slender_frame_names_every_length(width, height):
    d = round((width**2 + height**2) ** 0.5 * 16) / 16
    body = {"units": "in", "width": width, "height": height, "top": width, "right": height, "rising": d, "falling": d,
            "plumb": {"offset": 0.25, "over": 24}}  # fmt: skip
    scene = scene_of("squaring-frame", body, "in")
    checked(scene)
    named = " ".join(texts(scene))
    for name, size in (("Rising", d), ("falling", d), ("left side", height), ("right side", height), ("foot", width)):
        assert f"{name} {CONVERTERS['in'].tape(round(size * INCH))}" in named
