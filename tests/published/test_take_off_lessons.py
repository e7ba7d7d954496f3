"""Checks against published take-off lessons, and of mistakes in some that must not be repeated.

Sources: *Estimating in Building Construction* (textbook), wood chapter, examples 13-11 and 13-12; a school
slide set on figuring a bill of materials (30 ft x 45 ft building); a high-school web page and an article on
take-off lists, both of which forget the stud at the end.
"""

import pytest
from tests.published.plain import feet, plain_wall, stud_count, with_role

from wallwright.domain.building import SIDES, Building, SidePlan, build
from wallwright.domain.framed import layout, sheathing
from wallwright.domain.wall import Plates, Wall
from wallwright.lengths import INCH, inches


def test_148_ft_of_wall_takes_112_studs() -> None:
    # Textbook, example 13-11: 148 ft x 0.75 spaces a foot = 111 spaces, and one: 112 studs.
    assert stud_count(layout(plain_wall(feet(148)))) == 148 * 3 // 4 + 1 == 112


@pytest.mark.parametrize(("length", "studs", "sheets"), [(45, 35, 12), (30, 24, 8)])
def test_studs_and_sheets_are_rounded_up_wall_by_wall(length: int, studs: int, sheets: int) -> None:
    # Slide set: 45 ft at 16 in: ceil(33.75) + 1 = 35; 30 ft: ceil(22.5) + 1 = 24. Sheets of 4 x 8 ft on walls
    # 8 ft high: ceil(360 / 32) = 12 and ceil(240 / 32) = 8, each wall rounded by itself (40 in all, not 38).
    wall = plain_wall(feet(length), height=feet(8))
    assert stud_count(layout(wall)) == -(-length * 12 // 16) + 1 == studs
    assert len(sheathing(wall).sheets) == -(-length * 8 // 32) == sheets


def test_16_ft_plates_for_a_45_by_30_ft_building_are_10_pieces_a_layer() -> None:
    # The slide set: plates of 16 ft, perimeter 150 ft: ceil(150 / 16) = 10 pieces a layer. Rounded wall by wall it is the
    # same: ceil(45 / 16) = 3 and ceil(30 / 16) = 2, twice each. It counts three such layers, 30 pieces, and forgets that
    # joints of cap and top plate stand apart: on 30 ft of two 16 ft pieces a joint has 24 in of play, and studs at 16 in
    # leave no two joints 24 in apart within it, so each short wall takes one piece more.
    plan = SidePlan(Wall(length=feet(45), height=feet(8), plates=Plates(1, 2, feet(16))))
    built = build(Building(feet(45), feet(30), feet(8), dict.fromkeys(SIDES, plan)))

    def pieces(*roles: str) -> int:
        return sum(len(with_role(wall.layout, *roles)) for wall in built.walls)

    assert pieces("bottom-plate") == 2 * 3 + 2 * 2 == -(-150 // 16)
    assert pieces("top-plate", "cap-plate") == 2 * 10 + 2


@pytest.mark.parametrize(("length", "count"), [(8, 7), (10, 9), (12, 10), (16, 13)])
def test_the_count_is_spaces_rounded_up_and_one(length: int, count: int) -> None:
    # The rule that agrees with the lessons above: ceil(L / s) + 1.
    assert stud_count(layout(plain_wall(feet(length)))) == -(-length * 12 // 16) + 1 == count


def test_a_50_ft_wall_keeps_its_end_stud() -> None:
    # A published lesson takes 50 ft x 12 / 16 = 37.5 spaces for 38 studs and forgets the last one: 39.
    count = stud_count(layout(plain_wall(feet(50))))
    assert count == 39
    assert count != 38


def test_a_10_ft_wall_keeps_its_end_stud_and_three_plates() -> None:
    # A published article rounds 7.5 to 8 studs; its 30 ft of plate (three of 10 ft) is right.
    laid = layout(plain_wall(feet(10)))
    assert stud_count(laid) == 9
    assert stud_count(laid) != 8
    assert sum(m.length for m in with_role(laid, "bottom-plate", "top-plate", "cap-plate")) == 3 * feet(10)


def test_three_plates_round_a_30_by_24_ft_building_are_not_486_ft() -> None:
    # A published lesson prints 486 ft for three plates about a perimeter of 108 ft, which is 3 x 108 = 324 ft.
    # Plates meet at corners and do not overlap there: each layer is 108 ft less its four corners of 3-1/2 in.
    plan = SidePlan(Wall(length=feet(24), height=feet(8)))
    built = build(Building(feet(30), feet(24), feet(8), dict.fromkeys(SIDES, plan)))
    plates = sum(
        m.length for wall in built.walls for m in with_role(wall.layout, "bottom-plate", "top-plate", "cap-plate")
    )
    assert plates == 3 * (2 * feet(30) + 2 * feet(24) - 4 * inches("3 1/2"))
    assert plates < 324 * 12 * INCH < 486 * 12 * INCH
