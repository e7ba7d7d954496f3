"""The raising sketch: texts on the paper and clear of one another, cautions in it, the wall turned about its plate's inner edge."""

import json
from math import ceil
from xml.etree import ElementTree

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from msgspec.structs import replace
from shapely.geometry import LineString, box
from tests.drawing.test_squaring import checked
from tests.strategies.slopes import sloped_walls
from tests.strategies.walls import walls

from wallwright.api.reader import Reader
from wallwright.domain.framed import raising
from wallwright.domain.wall import Site
from wallwright.drawing.raising import raising_scene
from wallwright.drawing.scene import TEXT_MM, Area, Lines, Text, text_width
from wallwright.lengths import tape_text
from wallwright.operations.converters import CONVERTERS
from wallwright.operations.examples import EXAMPLES
from wallwright.operations.table import BY_NAME
from wallwright.operations.walls import to_domain
from wallwright.wire.wall import Wall

REQUEST = Reader(Wall).read(json.dumps(EXAMPLES["raising"]).encode())


@settings(max_examples=60)
@given(walls() | sloped_walls(), st.sampled_from(["in", "mm"]), st.sampled_from([1, 4, 30]))
def test_the_sketch_keeps_its_texts_apart(wall, units, hands):
    found = raising(replace(wall, hands=hands, site=Site(wind_mph=120.0)))
    texts = [CONVERTERS[units].finding(finding).text for finding in found.findings]
    scene = raising_scene(found, units, "0" * 8, texts)
    checked(scene)
    for shape in scene.shapes:
        if isinstance(shape, Area):
            assert all(0 <= x <= scene.width and 0 <= y <= scene.height for x, y in shape.points)


def test_cautions_stand_in_the_sketch():
    text = " ".join(ElementTree.fromstring(BY_NAME["raising"].drawing(REQUEST)).itertext())
    cautions = [f for f in BY_NAME["raising"].answer(REQUEST).findings if f.level in ("caution", "stop")]
    assert len(cautions) > 8
    for finding in cautions:
        assert finding.text[:60] in text


def test_the_wall_turns_about_the_inner_edge_of_its_plate():
    found = raising(to_domain(REQUEST))
    areas = [s for s in raising_scene(found, "in", "0" * 8, []).shapes if isinstance(s, Area)]
    turned = {dict(s.data)["angle"]: s.points for s in areas if "angle" in dict(s.data)}
    assert set(turned) == {"0", "45", "90"}
    pivot = turned["90"][0]
    for points in turned.values():
        assert points[0] == pytest.approx(pivot, abs=1e-6)
    lying, standing = turned["0"], turned["90"]
    assert lying[1][0] - pivot[0] == pytest.approx(pivot[1] - standing[1][1], abs=1e-3)
    assert standing[3][0] < pivot[0]


def request(body):
    return Reader(Wall).read(json.dumps(body).encode())


def drawn(body):
    """A request raised, its sketch, and the texts in it."""
    asked = request(body)
    found = raising(to_domain(asked))
    texts = [CONVERTERS[asked.units].finding(finding).text for finding in found.findings]
    scene = raising_scene(found, asked.units, "0" * 8, texts)
    return found, scene, [one for one in scene.shapes if isinstance(one, Text)]


PLAIN = {"units": "in", "length": 144, "height": 96, "name": "pump house", "hands": 6}
TALL = {**PLAIN, "height": 222}
RAKE = {**PLAIN, "length": 240, "height": 84, "top": {"shape": "rake", "rise": 4, "run": 12}, "hands": 9}
BETWEEN = {**PLAIN, "ends": {"left": {"sheathing_lap": 3.9375, "cap_lap": 3.5, "meets": {"depth": 3.5}}}}


def heads(scene):
    """The round heads of people: filled outlines of eight corners."""
    return [
        shape for shape in scene.shapes if isinstance(shape, Area) and shape.kind == "bar" and len(shape.points) == 8
    ]


def test_nobody_is_drawn_at_a_wall_that_a_machine_raises():
    # Utah R614-7-4: by machine from 18 ft.
    found, scene, texts = drawn(TALL)
    assert found.advice.lift == "by-machine"
    assert heads(scene) == []
    said = [one.text for one in texts]
    assert "by machine" in said
    assert not any("people." in row for row in said if row.startswith(("Bare", "Skinned")))
    assert sum("by machine (a crane, a forklift or wall jacks), not by hand" in row for row in said) == 2
    assert "people" not in scene.description
    _, scene, texts = drawn(PLAIN)
    assert len(heads(scene)) == 2
    assert "by machine" not in [one.text for one in texts]


@pytest.mark.parametrize("body", [PLAIN, RAKE, BETWEEN])
def test_every_different_brace_is_told_with_how_many_there_are(body):
    found, scene, texts = drawn(body)
    said = " ".join(one.text for one in texts)
    lengths = {brace.length for brace in found.braces}
    assert (len(lengths) > 1) == (body is RAKE)
    for length in lengths:
        places = [tape_text(brace.x, "in") for brace in found.braces if brace.length == length]
        assert f"{len(places)} of {tape_text(length, 'in')} at {', '.join(places)} from" in said
    lines = {
        line for shape in scene.shapes if isinstance(shape, Lines) and shape.kind == "bold" for line in shape.lines
    }
    slanting = [(x1, y1, x2, y2) for x1, y1, x2, y2 in lines if x2 - x1 == pytest.approx(y2 - y1) and x2 > x1]
    assert len(slanting) == len(lengths)


@settings(max_examples=60)
@given(walls() | sloped_walls(), st.sampled_from(["in", "mm"]), st.sampled_from([1, 30]))
def test_letters_stand_clear_of_every_line(wall, units, hands):
    scene = raising_scene(raising(replace(wall, hands=hands)), units, "0" * 8, [])
    letters = [one for one in scene.shapes if isinstance(one, Text) and one.text in ("A", "B", "C", "D")]
    assert {"A", "C"} <= {one.text for one in letters}
    lines = [line for shape in scene.shapes if isinstance(shape, Lines) for line in shape.lines]
    for one in letters:
        own = box(one.x, one.y - TEXT_MM["t3"], one.x + text_width(one.text, "t3"), one.y)
        for line in lines:
            assert not own.intersects(LineString([line[:2], line[2:]])), one.text


def test_what_waits_is_told_in_plain_words():
    found, _, texts = drawn(BETWEEN)
    assert "left-out-of-lift" in [finding.code for finding in found.findings]
    said = " ".join(one.text for one in texts)
    assert "caps and sheets, 2 in all" in said
    assert "see members" not in said


def test_a_long_rake_keeps_its_braces_on_the_paper():
    long = {**RAKE, "length": 1200, "height": 40, "top": {"shape": "rake", "rise": 1, "run": 12}}
    found, scene, _ = drawn(long)
    assert len({brace.length for brace in found.braces}) > 9
    checked(scene)


def test_each_section_is_told_with_its_own_forces():
    body = {**PLAIN, "length": 288, "height": 108, "hands": 3}
    _, scene, texts = drawn(body)
    answer = BY_NAME["raising"].answer(request(body))
    assert answer.advice.sections == len(answer.sections) == 2
    said = [one.text for one in texts]
    for number, one in enumerate(answer.sections, 1):
        row = next(
            row for row in said if row.startswith(f"Section {number}, bare, {one.left_tape} to {one.right_tape}:")
        )
        assert one.thrust_lbf < 0.6 * answer.bare.thrust_lbf
        assert f"plate driven with {ceil(one.thrust_lbf)} lb" in " ".join(said[said.index(row) : said.index(row) + 2])
        # Worked apart: 1 lb of force is 4.4482 N.
        assert one.thrust_n == pytest.approx(one.thrust_lbf * 4.4482, rel=1e-3)
    assert answer.restraint.count == sum(one.held for one in answer.sections)
    whole = f"{ceil(answer.bare.thrust_lbf)} lb"
    assert not any(whole in row for row in said)
    hold = next(step for step in answer.steps if step.step.startswith("hold-with"))
    assert hold.how_many == answer.restraint.count
    assert "2 sections" in scene.description
    assert not BY_NAME["raising"].answer(request({**body, "hands": 12})).sections


def test_of_very_many_sections_the_hardest_are_told():
    found, scene, texts = drawn({**PLAIN, "length": 1200, "height": 108, "hands": 2})
    assert len(found.sections) > 6
    said = [one.text for one in texts]
    assert sum(row.startswith("Section ") for row in said) == 6
    assert f"{len(found.sections) - 6} sections whose plates are driven less hard are left out here." in said
    checked(scene)
