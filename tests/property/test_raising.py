"""A wall raised, whatever the plan: weights add up, centres are where shapely finds them, forces keep it in balance."""

from itertools import pairwise
from math import ceil, cos, radians, sin

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from msgspec.structs import replace
from scipy.optimize import fsolve
from shapely.geometry import Polygon, box
from tests.property.mirror import mirrored
from tests.strategies.slopes import sloped_walls
from tests.strategies.walls import walls

from wallwright.domain.framed import framed, raising, skinned
from wallwright.domain.raising.raised import Raised
from wallwright.domain.raising.statics import Tilt, bearing, curve
from wallwright.domain.raising.weighing import of_member as bulk_of
from wallwright.domain.raising.weighing import total
from wallwright.domain.wall import Wall
from wallwright.lengths import FOOT, INCH
from wallwright.published.raising import BRACE_APART

GRAVITY = {"spruce-pine-fir": 0.42, "douglas-fir-larch": 0.50, "southern-pine": 0.55, "hem-fir": 0.43}
PCF = {name: 62.4 * g / (1 + g * 0.009 * 19) * 1.19 for name, g in GRAVITY.items()}
"""Densities at 19 %, by the formula of the NDS Supplement 3.1.3 and NDS 2018 Table 12.3.3A."""
SPECIES = st.sampled_from(list(PCF))


def shapes(wall: Wall) -> dict[str, tuple[object, float]]:
    """Every member and piece as a shapely figure of feet, with what a square foot of it weighs."""
    done = framed(wall)
    found: dict[str, tuple[object, float]] = {}
    for m in done.layout.members:
        figure = Polygon(m.outline) if m.outline else box(m.x, m.y, m.x + m.width, m.y + m.height)
        found[m.id] = (figure, m.depth / FOOT * PCF[wall.species])
    thick = wall.sheathing.sheet.thickness / FOOT
    for piece in skinned(done).pieces:
        found[piece.id] = (Polygon(piece.outline, piece.cut_outs), thick * 40)
    return found


@given(walls() | sloped_walls(), SPECIES)
def test_weights_and_centres_are_those_of_the_figures(wall: Wall, species: str) -> None:
    wall = replace(wall, species=species)
    found, figures = raising(wall), shapes(wall)
    assert {piece.id for piece in found.pieces} == set(figures)
    for piece in found.pieces:
        figure, psf = figures[piece.id]
        assert piece.weight_lb == pytest.approx(figure.area / FOOT**2 * psf, rel=1e-9)
        assert (piece.centre.x, piece.centre.y) == pytest.approx((figure.centroid.x, figure.centroid.y), abs=8)
    timber = [p for p in found.pieces if p.kind == "timber" and p.stage == "before-raising"]
    lifted = [p for p in found.pieces if p.stage == "before-raising"]
    for whole, parts in ((found.bare, timber), (found.skinned, lifted), (found.complete, found.pieces)):
        weight = sum(p.weight_lb for p in parts)
        assert whole.weight_lb == pytest.approx(weight, rel=1e-12)
        for axis in "xyz":
            middle = sum(p.weight_lb * getattr(p.centre, axis) for p in parts) / weight
            assert getattr(whole.centre, axis) == pytest.approx(middle, abs=2)


@given(walls() | sloped_walls())
def test_what_crosses_a_butt_end_is_left_out_of_the_lift(wall: Wall) -> None:
    found = raising(wall)
    figures = shapes(wall)
    for piece in found.pieces:
        left, _, right, _ = figures[piece.id][0].bounds
        crosses = (wall.left.meets is not None and left < 0) or (wall.right.meets is not None and right > wall.length)
        assert (piece.stage == "after-raising") == crosses, piece.id
    assert found.skinned.weight_lb <= found.complete.weight_lb
    told = [finding for finding in found.findings if finding.code == "left-out-of-lift"]
    assert bool(told) == any(piece.stage == "after-raising" for piece in found.pieces)


@given(walls())
def test_a_mirrored_wall_has_the_mirrored_centre_and_braces(wall: Wall) -> None:
    ours, theirs = raising(wall), raising(mirrored(wall))
    for one, other in ((ours.bare, theirs.bare), (ours.skinned, theirs.skinned)):
        assert one.weight_lb == pytest.approx(other.weight_lb, rel=1e-12)
        assert one.centre.x == pytest.approx(wall.length - other.centre.x, abs=1)
        assert (one.centre.y, one.centre.z) == (other.centre.y, other.centre.z)
        assert one.hands_needed == other.hands_needed
    assert [brace.x for brace in ours.braces] == pytest.approx(
        [wall.length - b.x for b in reversed(theirs.braces)], abs=1
    )
    assert [step.step for step in ours.steps] == [step.step for step in theirs.steps]


@given(walls(), st.integers(2, 9))
def test_so_many_walls_weigh_so_many_times_as_much(wall: Wall, times: int) -> None:
    members = framed(wall).layout.members
    one, many = total(map(bulk_of, members)), total(map(bulk_of, members * times))
    assert (many.volume, many.x, many.y, many.z) == (times * one.volume, times * one.x, times * one.y, times * one.z)


TILTS = st.builds(
    Tilt,
    st.floats(10, 2000),
    st.integers(INCH, 8 * FOOT),
    st.integers(8 * FOOT, 20 * FOOT),
    st.integers(4 * FOOT, 6 * FOOT),
)


@given(TILTS, st.integers(1, 89))
def test_the_forces_keep_the_wall_in_balance(tilt: Tilt, angle: int) -> None:
    # Statics, solved apart: push square to the wall at the hands, level and upright force on the plate.
    turn = radians(angle)
    wide, high = tilt.centre * cos(turn), tilt.centre * sin(turn)
    assert high >= 0

    def out_of_balance(forces):
        push, level, upright = forces
        hand_x, hand_y = tilt.hands_along(angle) * cos(turn), tilt.hands_along(angle) * sin(turn)
        push_x, push_y = -push * sin(turn), push * cos(turn)
        return (
            level + push_x,
            upright + push_y - tilt.weight_lb,
            (hand_x * push_y - hand_y * push_x - wide * tilt.weight_lb) / tilt.top,
        )

    push, level, upright = fsolve(out_of_balance, np.array((1.0, 1.0, tilt.weight_lb)))
    assert tilt.walking(angle) == pytest.approx(push, rel=1e-6, abs=1e-6)
    assert tilt.thrust(angle) == pytest.approx(level, rel=1e-6, abs=1e-6)
    assert bearing(tilt, angle) == pytest.approx(upright, rel=1e-6, abs=1e-6)
    assert tilt.hands_along(angle) * sin(turn) <= tilt.reach * (1 + 1e-9)


@given(TILTS)
def test_nothing_on_the_way_up_is_harder_than_what_is_told(tilt: Tilt) -> None:
    angles = [number / 4 for number in range(0, 360)]
    assert tilt.walking(tilt.hardest_push()) >= max(map(tilt.walking, angles)) * (1 - 1e-9)
    assert tilt.thrust(tilt.hardest_thrust()) >= max(map(tilt.thrust, angles)) * (1 - 1e-9)
    points = curve(tilt, tilt)
    assert points[0].bare.at_plate_lb == pytest.approx(tilt.first_lift)
    assert points[-1].bare == points[-1].skinned
    assert points[-1].bare.walking_lb == 0


@given(walls() | sloped_walls())
def test_braces_stand_on_studs_that_reach_the_plates(wall: Wall) -> None:
    found = raising(wall)
    members = {m.id: m for m in framed(wall).layout.members}
    assert found.braces
    assert sum(brace.share for brace in found.braces) == pytest.approx(1)
    for brace in found.braces:
        stud = members[brace.member]
        assert stud.y == wall.stud_bottom
        assert stud.x <= brace.x <= stud.x + stud.width
        assert brace.up == stud.y + stud.height
        assert brace.length**2 >= brace.up**2 + brace.out**2
    at = [brace.x for brace in found.braces]
    widest = max((o.width for o in wall.openings), default=0) + 4 * 4 * wall.thickness + wall.spacing
    assert all(b - a <= max(BRACE_APART, widest) for a, b in zip(at, at[1:], strict=False))


@given(walls() | sloped_walls(), st.integers(1, 14))
def test_cautions_hands_and_steps_go_together(wall: Wall, hands: int) -> None:
    wall = replace(wall, hands=hands)
    found: Raised = raising(wall)
    codes = {finding.code for finding in found.findings}
    assert codes >= {
        "two-people", "hold-the-plate", "wind-while-raising", "tips-standing-free", "fall-zone", "overhead-lines",
        "braces-stay", "not-checked-raising",
    }  # fmt: skip
    for lift in (found.bare, found.skinned):
        assert lift.hands_needed == max(count.people for count in lift.counts) >= 2
        for count in lift.counts:
            assert not count.each_lb or (count.people - 1) * count.each_lb <= count.force_lb + 1e-6 or count.people == 1
            assert not count.each_lb or count.people * count.each_lb >= count.force_lb - 1e-6
        assert lift.raise_below_mph <= 20
    assert ("hands-too-few-bare" in codes) == (found.bare.hands_needed > wall.hands)
    names = [step.step for step in found.steps]
    assert [step.number for step in found.steps] == list(range(1, len(names) + 1))
    assert names[0] == "mark-plates"
    assert names[-1] == "leave-braces"
    assert names.index("clear-zone") < next(n for n, name in enumerate(names) if name.startswith("lift-"))
    sheets = [step.how_many for step in found.steps if step.step.startswith("skin-")]
    assert sum(sheets) == sum(piece.kind == "sheet" for piece in found.pieces)
    if found.advice.lift == "whole" and found.advice.skin == "before-raising":
        assert found.skinned.hands_needed <= wall.hands
    lifts = [step for step in found.steps if step.step in ("lift-wall", "lift-over-bolts")]
    assert all((step.how_many or 0) <= wall.hands for step in lifts) or "with-more-hands" in codes
    assert not lifts or found.advice.lift in ("whole", "with-more-hands")
    assert ("with-more-hands" in codes) == (found.advice.lift == "with-more-hands")


@given(walls(), st.integers(1, 6))
def test_each_section_has_the_forces_of_what_lies_in_it(wall: Wall, hands: int) -> None:
    wall = replace(wall, hands=hands)
    found = raising(wall)
    if found.advice.sections < 2:
        assert found.sections == ()
        return
    assert len(found.sections) == found.advice.sections
    assert (found.sections[0].left, found.sections[-1].right) == (0, wall.length)
    assert all(b.left <= a.right for a, b in pairwise(found.sections))
    first = {piece.id for piece in found.pieces if piece.stage == "before-raising" and piece.kind == "timber"}
    figures = {name: one for name, one in shapes(wall).items() if name in first}
    for part in found.sections:
        # Statics worked apart from the figures cut at the section's ends; the hardest angle sought in small steps.
        reach = [box(part.left, -FOOT, part.right, 30 * FOOT).intersection(figure) for figure, _ in figures.values()]
        loads = [figure.area / FOOT**2 * psf for figure, (_, psf) in zip(reach, figures.values(), strict=True)]
        weight = sum(loads)
        up = sum(load * figure.centroid.y for load, figure in zip(loads, reach, strict=True) if load) / weight
        assert part.weight_lb == pytest.approx(weight, rel=1e-6)
        assert part.lift_lb == pytest.approx(weight * up / found.top, rel=1e-4)
        pushes, drives = [], []
        for angle in range(0, 900):
            turn = radians(angle / 10)
            hand = found.top if sin(turn) * found.top <= 5 * FOOT else 5 * FOOT / sin(turn)
            pushes.append(weight * up * cos(turn) / hand)
            drives.append(pushes[-1] * sin(turn))
        assert part.push_lb == pytest.approx(max(pushes), rel=1e-3)
        assert part.thrust_lb == pytest.approx(max(drives), rel=1e-3)
        assert part.thrust_lb < found.bare.thrust_lb
        assert part.each_lb * part.held == pytest.approx(part.thrust_lb)
    assert found.restraint.count == sum(part.held for part in found.sections)
    assert found.restraint.each_lb == max(part.each_lb for part in found.sections)
    hold = dict(next(finding.values for finding in found.findings if finding.code == "hold-the-plate"))
    hardest = max(found.sections, key=lambda part: part.thrust_lb)
    assert str(hold["thrust"]).startswith(f"{ceil(hardest.thrust_lb)} lb")
