"""Braces of the walls of a building in plan: clear of one another in the corners, or told."""

import json

import pytest
from hypothesis import given
from shapely import LineString, affinity
from tests.strategies.buildings import buildings, sloped_buildings

from wallwright.api.reader import Reader
from wallwright.domain.building import build
from wallwright.domain.built import Built
from wallwright.lengths import INCH, tape_text
from wallwright.operations.building import braced_walls
from wallwright.operations.table import BY_NAME
from wallwright.wire.building import Building

TURNS = {"front": 0, "right": 90, "back": 180, "left": 270}


def lines(built: Built, braced: dict) -> dict[str, list[LineString]]:
    """Every brace in plan: each wall laid along x with the building above it, then turned about the framing's middle."""
    found: dict[str, list[LineString]] = {}
    for one in built.walls:
        flat = one.side in ("front", "back")
        along, across = (built.framing_width, built.framing_depth)[:: 1 if flat else -1]
        start = (along - one.wall.length) / 2
        if len({w.wall.depth for w in built.walls}) > 1 and one.side not in built.building.through:
            before = {"right": "front", "back": "right", "left": "back", "front": "left"}[one.side]
            start = next(w.wall.depth for w in built.walls if w.side == before) + built.building.slip_gap
        flats = [
            LineString(
                [
                    (start + brace.x - along / 2, one.wall.depth - across / 2),
                    (start + brace.x - along / 2, one.wall.depth + brace.out - across / 2),
                ]
            )
            for brace in braced[one.side]
        ]
        found[one.side] = [affinity.rotate(line, TURNS[one.side], origin=(0, 0)) for line in flats]
    return found


@given(buildings() | sloped_buildings())
def test_braces_cross_in_no_corner_that_is_not_told(building) -> None:
    built = build(building, with_skin=False)
    together = braced_walls(built)
    drawn = lines(built, together.braces)
    told = [dict(one.values) for one in together.findings if one.code == "braces-cross-at-corner"]
    for corner in built.corners:
        pairs = [(a, b) for a in drawn[corner.through] for b in drawn[corner.butt]]
        named = [one for one in told if one["corner"] == corner.name]
        if any(a.intersects(b) for a, b in pairs):
            assert [(one["through"], one["butt"]) for one in named] == [(corner.through, corner.butt)]
        if named:
            assert any(a.distance(b) < 6 * INCH for a, b in pairs)


def answered(**body):
    asked = {"units": "in", "wall_height": 96, "parts": ["raising"], **body}
    return BY_NAME["building"].answer(Reader(Building).read(json.dumps(asked).encode()))


def codes(answer):
    return [one.code for one in answer.findings]


def test_a_butt_walls_braces_stand_past_the_feet_of_those_it_meets():
    # Common practice, no source: 8 ft up reaches as far in, 6 in more to pass; at most 10 ft from the tied corner.
    answer = answered(footprint={"width": 480, "depth": 288}, hands=20)
    assert "braces-cross-at-corner" not in codes(answer)
    assert codes(answer).count("brace-past-corner") == 4
    for one in answer.walls:
        assert one.raising.advice.sections == 1
        first, last = one.raising.braces[0], one.raising.braces[-1]
        length = 288 - 7 if one.side in ("left", "right") else 480
        if one.side in ("left", "right"):
            assert first.out + 6 <= first.x <= 120
            assert first.out + 6 <= length - last.x <= 120
        else:
            assert first.x < 36
            assert last.x > length - 36
        held = next(step for step in one.raising.steps if step.step == "plumb-and-brace")
        assert held.how_many == len(one.raising.braces)
        assert sum(brace.share for brace in one.raising.braces) == pytest.approx(1, abs=1e-3)


def test_where_no_lawful_place_is_clear_both_walls_and_the_place_are_told():
    answer = answered(footprint={"width": 240, "depth": 144})
    told = [one for one in answer.findings if one.code == "braces-cross-at-corner"]
    assert len(told) == 4
    assert all(len(one.raising.braces) >= 2 for one in answer.walls)
    corner = next(one for one in told if "front-left" in one.text)
    left = next(one for one in answer.walls if one.side == "left").raising.braces[-1]
    front = next(one for one in answer.walls if one.side == "front").raising.braces[0]
    assert "front wall" in corner.text
    assert "left wall" in corner.text
    # Worked apart: the front's stud from the inner corner, past the left wall's depth of 3-1/2 in.
    assert tape_text(round((front.x - 3.5) * INCH), "in") in corner.text
    assert tape_text(round((144 - 7 - left.x) * INCH), "in") in corner.text
    assert corner.about == "/walls/left"


def test_nothing_is_told_of_braces_where_no_wall_is_raised():
    answer = answered(footprint={"width": 480, "depth": 288}, parts=["layout"])
    assert not {"brace-past-corner", "braces-cross-at-corner"} & set(codes(answer))
