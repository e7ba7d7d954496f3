"""A framed wall, whatever the plan: properties that hold of every random level wall."""

import msgspec
from hypothesis import given
from hypothesis import strategies as st
from msgspec.structs import replace
from tests.property.framing import faults_of_frame
from tests.property.mirror import mirrored
from tests.strategies.walls import walls

from wallwright.domain.framed import layout
from wallwright.domain.members import Layout, Member
from wallwright.domain.wall import Wall
from wallwright.findings import PlanRefused
from wallwright.lengths import INCH


@given(walls())
def test_members_stand_clear_hold_the_sheets_and_are_all_in_the_cut_list(wall: Wall) -> None:
    assert faults_of_frame(layout(wall)) == []


@given(walls())
def test_a_mirrored_wall_has_the_mirrored_members(wall: Wall) -> None:
    ours, theirs = layout(wall), layout(mirrored(wall))
    assert _places(ours, None) == _places(theirs, wall.length)
    assert _marks(ours, None) == _marks(theirs, wall.length)
    assert [a.x for a in ours.anchors] == [wall.length - a.x for a in reversed(theirs.anchors)]
    assert sorted(f.code for f in ours.findings) == sorted(f.code for f in theirs.findings)


@given(walls())
def test_the_completed_wall_gives_the_same_answer(wall: Wall) -> None:
    first = layout(wall)
    assert msgspec.json.encode(layout(first.wall)) == msgspec.json.encode(first)


def _places(laid: Layout, turned: int | None) -> list[tuple[object, ...]]:
    """Every member without its id, as seen in a mirror at the middle of a plate of length ``turned``."""
    return sorted((_place(member, turned) for member in laid.members), key=repr)


def _place(member: Member, turned: int | None) -> tuple[object, ...]:
    x = member.x if turned is None else turned - member.right
    cuts = sorted(
        (cut.left, cut.right) if turned is None else (turned - cut.right, turned - cut.left) for cut in member.cut_outs
    )
    return (
        member.mark, member.role, member.stock, member.length, x, member.y, member.z, member.width, member.height,
        member.depth, member.plies, member.ripped_to, member.treated, member.opening, tuple(cuts),
    )  # fmt: skip


def _marks(laid: Layout, turned: int | None) -> list[tuple[object, ...]]:
    other = {"left": "right", "right": "left", "centre": "centre"}
    return sorted(
        (
            mark.plate.rpartition("-")[0],
            mark.at if turned is None else turned - mark.at,
            mark.reading,
            mark.side if turned is None else other[mark.side],
            mark.sign,
        )
        for mark in laid.marks
    )


@given(walls(), st.integers(4 * 16, 20 * 16))
def test_a_stock_too_short_is_refused_with_one_that_serves(wall, three_quarters):
    plates = replace(wall.plates, stock_length=three_quarters * 3 * INCH // 4)
    try:
        laid = layout(replace(wall, plates=plates))
    except PlanRefused as refused:
        (fault,) = refused.faults
        assert (fault.code, fault.pointer) == ("no-plate-joint", "/plates/stock_length")
        least = dict(fault.values)["least"].value
        assert least > three_quarters * 3 * INCH // 4
        assert faults_of_frame(layout(replace(wall, plates=replace(plates, stock_length=least)))) == []
    else:
        assert faults_of_frame(laid) == []
