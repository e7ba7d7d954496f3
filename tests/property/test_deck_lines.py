"""The chalk lines of a framing rectangle on a measured deck: a true rectangle, at the offsets told, with no more to trim."""

from math import cos, hypot, radians, sin

import pytest
from hypothesis import given
from hypothesis import strategies as st
from tests.property.test_squaring import lengths, near_rectangles

from wallwright.domain.deck_lines import deck_lines
from wallwright.domain.squaring.deck import Deck, survey
from wallwright.domain.squaring.placing import CORNERS, NO_WORK
from wallwright.lengths import INCH

SIDES = st.sets(st.sampled_from(["front", "right", "back", "left"])).map(frozenset)


def measured(points, levels=None) -> Deck:
    figures = [round(length * INCH) for length in lengths(points)]
    return Deck(tuple(figures[:4]), tuple(figures[4:]), None, levels)


@given(near_rectangles(), st.integers(60, 400), st.integers(60, 300), SIDES)
def test_the_marks_lie_on_a_true_rectangle_of_the_framing(points, width, depth, hanging):
    wide, deep = width * INCH, depth * INCH
    deck = measured(points)
    lines = deck_lines(deck, wide, deep, hanging)
    found = survey(Deck(deck.sides, deck.diagonals, (wide, deep)))
    turn = radians(found.placing.angle_degrees)
    corners = []
    for corner, mark in zip(found.corners, lines.marks, strict=True):
        right = 1 if mark.corner.endswith("right") else -1
        back = 1 if mark.corner.startswith("back") else -1
        across, up = -right * mark.sideways, -back * mark.endways
        corners.append((corner.x + across * cos(turn) - up * sin(turn), corner.y + across * sin(turn) + up * cos(turn)))
    for number, size in enumerate((wide, deep, wide, deep)):
        (x1, y1), (x2, y2) = corners[number], corners[(number + 1) % 4]
        assert hypot(x2 - x1, y2 - y1) == pytest.approx(size, abs=50)
    assert hypot(corners[2][0] - corners[0][0], corners[2][1] - corners[0][1]) == pytest.approx(lines.diagonal, abs=50)
    assert [mark.corner for mark in lines.marks] == list(CORNERS)


@given(near_rectangles(), st.integers(60, 400), st.integers(60, 300), SIDES)
def test_no_edge_is_trimmed_that_a_shift_saves(points, width, depth, hanging):
    deck = measured(points)
    lines = deck_lines(deck, width * INCH, depth * INCH, hanging)
    even = survey(Deck(deck.sides, deck.diagonals, (width * INCH, depth * INCH))).placing

    def trims(edges):
        return sum(e.edge in hanging and max(e.at_start, e.at_end) > NO_WORK for e in edges)

    assert trims(lines.edges) <= trims(even.edges)
    for edge in lines.edges:
        proud, short = max(edge.at_start, edge.at_end) > NO_WORK, min(edge.at_start, edge.at_end) < -NO_WORK
        assert ("trim" in edge.work) == (proud and edge.edge in hanging)
        assert ("shim" in edge.work) == short
    if not hanging:
        assert (lines.shift_right, lines.shift_back) == (0, 0)


def test_a_true_deck_takes_the_framing_at_its_edges():
    lines = deck_lines(
        measured([(0, 0), (168, 0), (168, 120), (0, 120)], (0, 0, 0, 0)), 168 * INCH, 120 * INCH, frozenset()
    )
    assert all(abs(mark.sideways) < 10 and abs(mark.endways) < 10 for mark in lines.marks)
    assert {edge.work for edge in lines.edges} == {"leave"}
    assert {finding.code for finding in lines.findings} == {"deck-not-checked"}


@pytest.mark.parametrize(("rise", "told"), [("1/4", False), ("5/16", True)])
def test_levels_over_a_quarter_of_an_inch_are_told(rise, told):
    # Handbook of Construction Tolerances, rough framing, as quoted: 1/4 in in 10 ft; that it is asked of a deck is practice.
    from wallwright.lengths import inches

    deck = measured([(0, 0), (168, 0), (168, 120), (0, 120)], (0, inches(rise), 0, 0))
    codes = {finding.code for finding in deck_lines(deck, 168 * INCH, 120 * INCH, frozenset()).findings}
    assert ("deck-not-level" in codes) == told
