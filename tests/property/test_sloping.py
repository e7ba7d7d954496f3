"""A wall under a slope, whatever the plan: the properties of level walls, and those of its bevels and plates."""

from math import ceil

import msgspec
from hypothesis import given
from hypothesis import strategies as st
from msgspec.structs import replace
from tests.property.mirror import mirrored
from tests.property.slope import stretched
from tests.property.sloping import faults_of_frame, faults_of_skin
from tests.property.test_framing import _marks, _places
from tests.property.test_skinning import _outlines, _seams
from tests.strategies.slopes import sloped_walls
from tests.strategies.walls import sawn_anyhow

from wallwright.domain.framed import framed, layout, sheathing, skinned
from wallwright.domain.wall import Wall
from wallwright.findings import PlanRefused
from wallwright.lengths import INCH


@given(sloped_walls())
def test_members_meet_the_slope_stand_clear_and_are_all_in_the_cut_list(wall: Wall) -> None:
    assert faults_of_frame(layout(wall)) == []


@given(sawn_anyhow(sloped_walls()))
def test_pieces_cover_the_face_up_to_the_slope_and_every_edge_finds_timber(wall: Wall) -> None:
    done = framed(wall)
    assert faults_of_skin(skinned(done), done.layout) == []


@given(sloped_walls())
def test_a_mirrored_wall_has_the_mirrored_members_and_skin(wall: Wall) -> None:
    ours, theirs = framed(wall), framed(mirrored(wall))
    assert _places(ours.layout, None) == _places(theirs.layout, wall.length)
    one, other = skinned(ours), skinned(theirs)
    assert _seams(one, None) == _seams(other, wall.length)
    assert len(one.sheets) == len(other.sheets)
    if wall.top.shape == "rake":
        assert _outlines(one, None) == _outlines(other, wall.length)
        assert _marks(ours.layout, None) == _marks(theirs.layout, wall.length)


@given(sloped_walls(), st.integers(4 * 16, 20 * 16))
def test_plates_on_a_slope_are_jointed_over_studs_or_a_stock_that_serves_is_named(
    wall: Wall, three_quarters: int
) -> None:
    plates = replace(wall.plates, stock_length=three_quarters * 3 * INCH // 4)
    jointed = replace(wall, plates=plates)
    try:
        laid = layout(jointed)
    except PlanRefused as refused:
        (fault,) = refused.faults
        assert (fault.code, fault.pointer) == ("no-plate-joint", "/plates/stock_length")
        least = dict(fault.values)["least"].value
        assert least > plates.stock_length
        laid = layout(replace(wall, plates=replace(plates, stock_length=least)))
    assert faults_of_frame(laid) == []
    theirs = layout(mirrored(laid.wall))
    assert len(theirs.members) == len(laid.members)


@given(sloped_walls(), st.sampled_from((0, 1, 20_000, INCH, 2 * INCH, 3 * INCH)))
def test_a_low_end_comes_down_to_its_plates_or_the_height_that_serves_is_named(wall: Wall, more: int) -> None:
    plates = wall.plates.bottom + wall.plates.top * stretched(wall)
    low = replace(wall, openings=(), height=ceil(plates * wall.stud.thickness) + 1 + more)
    try:
        done = framed(low)
    except PlanRefused as refused:
        (fault,) = refused.faults
        assert (fault.code, fault.pointer) == ("wall-too-low", "/height")
        done = framed(replace(low, height=dict(fault.values)["least"].value))
    assert faults_of_frame(done.layout) == []
    assert faults_of_skin(skinned(done), done.layout) == []


@given(sloped_walls())
def test_the_completed_wall_gives_the_same_answer(wall: Wall) -> None:
    first = layout(wall)
    assert msgspec.json.encode(layout(first.wall)) == msgspec.json.encode(first)
    skin = sheathing(wall)
    assert msgspec.json.encode(sheathing(skin.wall)) == msgspec.json.encode(skin)
