"""The racked frame and the deck on paper: every text on the paper and clear of the others, the push where it belongs."""

import json
from xml.etree import ElementTree

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.drawing.test_drawings import boxes

from wallwright.api.reader import Reader
from wallwright.domain.squaring.deck import survey
from wallwright.domain.squaring.frame import square
from wallwright.drawing.paper import MARGIN, TITLE_STRIP
from wallwright.drawing.scene import Area, Scene, Text
from wallwright.drawing.squaring import deck_scene, frame_scene
from wallwright.findings import PlanRefused
from wallwright.lengths import FOOT, INCH, MILLIMETRE, measure_of_text
from wallwright.operations.converters import CONVERTERS
from wallwright.operations.examples import EXAMPLES
from wallwright.operations.squaring import to_deck, to_frame
from wallwright.operations.table import BY_NAME
from wallwright.wire.squaring import Deck, Frame

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
