"""The squaring page: both forms filled in, answered as the service answers, faults beside their fields."""

import re
from urllib.parse import urlencode

import pytest
from hypothesis import given
from hypothesis import strategies as st
from tests.viewer.client import get, page

from wallwright.operations.examples import EXAMPLES
from wallwright.operations.table import BY_NAME
from wallwright_viewer.question import converted, laid
from wallwright_viewer.squaring import example, fields_of, proud

FRAME, DECK = example("frame").link, example("deck").link


@pytest.mark.parametrize("of", ["frame", "deck"])
def test_each_form_starts_with_the_worked_example_of_the_service(of):
    half = example(of)
    document = {"units": half.units}
    assert laid(document, fields_of(of), half.values) == {}
    operation = BY_NAME[f"squaring-{of}"]
    asked, errors = converted(document, operation.request, str)
    assert errors == {}
    wanted, _ = converted(EXAMPLES[f"squaring-{of}"], operation.request, str)
    assert operation.identity(asked) == operation.identity(wanted)
    shown = {attributes.get("value") for attributes in page("/squaring").all("input")}
    assert set(filter(None, half.values.values())) - shown <= {"II", "bottom-right", "yes", "no"}
    assert not page("/squaring").all("svg")


def test_a_frame_measured_for_its_diagonals_is_told_which_to_shorten():
    # For a parallelogram each diagonal changes by half of their difference when it is racked square: with 15' 10 1/4" and
    # 15' 9 15/16" that is 5/32 in (from memory; the square of a diagonal is w2 + h2 + 2 w lean). The tape shows 3/16.
    text = page(f"/squaring?{FRAME}").text
    assert 'Rack it: push the top plate 3/16" to the left at its top right corner.' in text
    assert 'The rising diagonal must lose 3/16"' in text
    assert "Never let go of a wall" in text
    assert len(page(f"/squaring?{FRAME}").all("svg")) == 1


@pytest.mark.parametrize(("rising", "falling", "says"), [
    ("15' 10 1/8\"", "15' 10 1/8\"", "Square: the diagonals differ by 0\"."),
    ("15' 10 1/4\"", "15' 10\"", "Square within the 1/4\" let pass: the diagonals differ by 1/4\". Narrower tolerances are past"),
    ("15' 10 1/4\"", "15' 10\"", "to the left at its top right corner"),
    ("15' 9 15/16\"", "15' 10 1/4\"", "to the right at its top left corner"),
    ("15' 11 1/8\"", "15' 11\"", "Measure again: the lengths contradict one another"),
])  # fmt: skip
def test_each_verdict_says_what_to_do(rising, falling, says):
    query = {"of": "frame", "units": "in", "frame_width": "14'", "frame_height": "7' 5\"", "frame_rising": rising}
    sides = {"frame_top": "14'", "frame_right": "7' 5\"", "frame_falling": falling}
    assert says in page("/squaring?" + urlencode(query | sides)).text


def test_sides_that_differ_are_recut():
    query = {"of": "frame", "units": "in", "frame_width": "14'", "frame_height": "7' 5\"", "frame_rising": "15' 9 3/4\"",
             "frame_falling": "15' 9 3/4\"", "frame_top": "13' 11\"", "frame_right": "7' 5\""}  # fmt: skip
    text = page("/squaring?" + urlencode(query)).text
    assert "Recut: opposite sides differ by more than is let pass" in text
    assert "Measure again:" not in text


def test_a_deck_is_told_at_every_corner_and_edge():
    # Sides 14' 0 1/8", 10', 14', 10' 0 1/16" about a wanted 14' by 10': nothing sticks out by more than an eighth.
    found = page(f"/squaring?{DECK}")
    assert "The largest true rectangle on it is" in found.text
    assert "The deck at each corner of the framing lines" in found.text
    assert 'front left 1/8" past it 1/8" past it' in found.text
    assert "trim and shim" in found.text


@pytest.mark.parametrize(("number", "units", "words"), [
    (0.125, "in", "1/8\" past it"), (-0.0625, "in", "1/16\" short of it"), (0.001, "in", "on the line"),
    (0.0, "in", "on the line"), (3.0, "mm", "3 mm past it"), (-0.2, "mm", "on the line"),
])  # fmt: skip
def test_past_and_short_are_said_in_words(number, units, words):
    assert proud(number, units) == words


@pytest.mark.parametrize("query", [FRAME, DECK])
def test_the_drawing_and_its_other_forms_are_those_of_the_service(query):
    text = get(f"/squaring?{query}").text
    links = re.findall(r'href="(/v1/squaring/[a-z]+\.(svg|json)\?z=[^"]+)"', text)
    assert [form for _, form in links] == ["svg", "json"]
    (drawing,) = re.findall(r"<svg .*?</svg>", text, re.S)
    name = re.search(r' id="([a-z-]+)"', drawing)[1]
    assert drawing.replace(f'"{name}', '"ww').replace(f" {name}-desc", " ww-desc") == get(links[0][0], "*/*").text
    assert get(links[1][0], "*/*").json()


def test_faults_of_a_measured_frame_stand_beside_their_fields():
    shown = get(f"/squaring?{FRAME}".replace("frame_width=14%27", "frame_width=wide").replace("sheet_along=8%27", ""))
    told = dict(re.findall(r'id="([^"]+)-fault">([^<]*)<', shown.text))
    assert set(told) == {"frame_width"}
    shown = get("/squaring?" + FRAME.replace("sheet_along=8%27", "").replace("frame_top=14%27", ""))
    told = dict(re.findall(r'id="([^"]+)-fault">([^<]*)<', shown.text))
    assert set(told) == {"sheet_along"}
    shown = get("/squaring?" + FRAME.replace("frame_top=14%27", ""))
    told = dict(re.findall(r'id="([^"]+)-fault">([^<]*)<', shown.text))
    assert set(told) == {"frame_top"}
    assert "<title>Error: Squaring" in shown.text
    assert "<svg" not in shown.text


def test_more_inputs_than_the_form_has_are_refused_with_a_page():
    assert get("/squaring?of=frame" + "&a=1" * 300).status_code == 400


TEXTS = st.one_of(st.sampled_from(["", "0", "1'", "14'", "-3", "abc", "1/0", "90", "no", "III"]), st.text(max_size=12))


@given(st.sampled_from(["frame", "deck"]), st.data())
def test_whatever_is_sent_is_answered_with_a_page(of, data):
    names = st.sampled_from(["units", *(field.name for field in fields_of(of))])
    values = data.draw(st.dictionaries(names, TEXTS, max_size=8))
    half = example(of)
    query = urlencode({"of": of, "units": "in", **half.values, **values}, errors="replace")
    assert get(f"/squaring?{query}").status_code == 200
