"""The serializer: well-formed whatever is written, numbers short and finite, members described."""

import math
import re
from xml.etree import ElementTree

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from wallwright.drawing.scene import Area, Lines, Scene, Text
from wallwright.drawing.svg import svg_text

SVG = "{http://www.w3.org/2000/svg}"
PLACES = st.floats(-5000, 5000)
# What names may hold: anything but control characters, halves of characters and what XML has no place for.
NAMES = st.text(st.characters(exclude_categories=("Cc", "Cs", "Cn")), min_size=1, max_size=40)


def drawn(*shapes, title="t"):
    return ElementTree.fromstring(svg_text(Scene(10.0, 10.0, title, "d", shapes)))


def corners(d: str) -> list[tuple[float, float]]:
    """The points of a path, its level and upright shorthands undone."""
    found: list[tuple[float, float]] = []
    x = y = 0.0
    for command, numbers in re.findall("([MLHV])([^MLHVZ]*)", d):
        if command == "H":
            x = float(numbers)
        elif command == "V":
            y = float(numbers)
        else:
            x, y = map(float, numbers.split())
        found.append((x, y))
    return found


@settings(max_examples=100, deadline=None)
@given(NAMES, NAMES)
def test_any_name_comes_back_as_it_was_given(name, other):
    root = drawn(
        Text(1, 1, name), Area("member", ((0, 0), (1, 0), (1, 1)), name, (("mark", other),), other), title=name
    )
    # XML takes line ends and tabs for blanks in attributes; names hold none, since they are control characters.
    assert root.find(f"{SVG}title").text == name
    assert root.find(f"{SVG}text").text == name
    member = root.find(f"{SVG}path")
    assert member.attrib["data-mark"] == other
    assert (member.find(f"{SVG}title").text, member.find(f"{SVG}desc").text) == (name, other)


@settings(max_examples=200, deadline=None)
@given(st.lists(st.tuples(PLACES, PLACES), min_size=3, max_size=8))
def test_an_outline_keeps_its_corners(points):
    d = drawn(Area("member", tuple(points))).find(f"{SVG}path").attrib["d"]
    assert all(re.fullmatch(r"-?[0-9]+(\.[0-9]{1,3})?", number) for number in re.findall(r"[-0-9.e+]+", d))
    near = [(pytest.approx(x, abs=0.00051), pytest.approx(y, abs=0.00051)) for x, y in points]
    assert corners(d)[: len(points)] == near


@given(PLACES, PLACES, PLACES, PLACES)
def test_an_upright_rectangle_is_written_short_and_true(x1, y1, x2, y2):
    d = drawn(Area("member", ((x1, y1), (x2, y1), (x2, y2), (x1, y2)))).find(f"{SVG}path").attrib["d"]
    assert corners(d) == [
        (pytest.approx(x, abs=0.00051), pytest.approx(y, abs=0.00051))
        for x, y in ((x1, y1), (x2, y1), (x2, y2), (x1, y2))
    ]
    assert d.endswith("Z")


@given(PLACES, PLACES, PLACES, st.sampled_from(("level", "upright", "slanting")))
def test_a_line_keeps_its_ends(x, y, to, way):
    line = {"level": (x, y, to, y), "upright": (x, y, x, to), "slanting": (x, y, to, x)}[way]
    d = drawn(Lines("dim", (line,))).find(f"{SVG}path").attrib["d"]
    assert corners(d) == [
        (pytest.approx(a, abs=0.00051), pytest.approx(b, abs=0.00051)) for a, b in (line[:2], line[2:])
    ]


@pytest.mark.parametrize("value", [math.nan, math.inf, -math.inf])
def test_what_is_no_place_on_paper_is_refused(value):
    with pytest.raises(ValueError, match="no place on paper"):
        svg_text(Scene(10.0, 10.0, "t", "d", (Text(value, 1.0, "x"),)))


def test_the_same_scene_gives_the_same_bytes():
    scene = Scene(10.0, 10.0, "t", "d", (Text(1 / 3, -0.0001, "x", "t3", "end", turned=True), Lines("dim", ())))
    assert svg_text(scene) == svg_text(scene)
    assert 'transform="rotate(-90 0.333 0)"' in svg_text(scene)
