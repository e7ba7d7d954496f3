"""A building under any roof, whatever the plan: its walls close at the corners, and each stands by itself."""

from hypothesis import given, settings
from tests.property import roofing, sloping
from tests.property.closing import faults_of_building
from tests.property.framing import faults_of_frame
from tests.property.skinning import faults_of_skin
from tests.strategies.buildings import buildings, sloped_buildings

from wallwright.domain.building import Building, build

# A building is four walls and their corners, so that one in four takes about as long: 500 for 2,000 walls.
EXAMPLES = -(-settings().max_examples // 4)


@given(buildings())
@settings(max_examples=EXAMPLES)
def test_four_walls_close_and_each_is_framed_and_skinned(building: Building) -> None:
    built = build(building)
    assert faults_of_building(built) == []
    for wall in built.walls:
        assert faults_of_frame(wall.layout) == []
        assert wall.skin is not None
        assert faults_of_skin(wall.skin, wall.layout) == []


@given(sloped_buildings())
@settings(max_examples=EXAMPLES)
def test_four_walls_close_under_a_sloped_roof(building: Building) -> None:
    built = build(building)
    assert roofing.faults_of_building(built) == []
    for wall in built.walls:
        level = wall.wall.top.shape == "level"
        assert wall.skin is not None
        assert (faults_of_frame if level else sloping.faults_of_frame)(wall.layout) == []
        assert (faults_of_skin if level else sloping.faults_of_skin)(wall.skin, wall.layout) == []
