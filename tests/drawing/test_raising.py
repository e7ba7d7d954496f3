"""The raising sketch: texts on the paper and clear of one another, cautions in it, the wall turned about its plate's inner edge."""

import json
from xml.etree import ElementTree

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from msgspec.structs import replace
from tests.drawing.test_squaring import checked
from tests.strategies.slopes import sloped_walls
from tests.strategies.walls import walls

from wallwright.api.reader import Reader
from wallwright.domain.framed import raising
from wallwright.domain.wall import Site
from wallwright.drawing.raising import raising_scene
from wallwright.drawing.scene import Area
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
