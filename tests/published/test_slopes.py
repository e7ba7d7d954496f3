"""Raked and gable walls against published figures; each source stands beside its check."""

from fractions import Fraction
from math import hypot

import pytest
from tests.published.plain import mm, opening, plain_wall, with_role

from wallwright.domain.building import SIDES, Building, Built, Roof, SidePlan, build
from wallwright.domain.framed import layout
from wallwright.domain.members import Layout
from wallwright.domain.wall import Top, Wall
from wallwright.lengths import FOOT, INCH, inches, tape_text


def differences(laid: Layout) -> list[int]:
    """From each field stud to the next, by their long points."""
    lengths = [m.length for m in with_role(laid, "field-stud")]
    return [b - a for a, b in zip(lengths, lengths[1:], strict=False)]


def rake(rise: float, run: float, spacing: int, length: int = 8 * FOOT, height: int = 5 * FOOT) -> Layout:
    """A bare rake that rises to the right."""
    return layout(plain_wall(length, spacing, height, top=Top("rake", int(rise * 10**6), int(run * 10**6))))


@pytest.mark.parametrize(
    ("spacing", "rise", "difference"),
    [
        # NAVEDTRA 14044 (US Navy builder manual, public domain) p. 71: 2 x 6 = 12 in at 24 in on centre.
        ("24", 6, "12"),
        # homebuildingandrepairs.com, gable-stud page: 8 in at 16 in and 6 in 12; 5.33 in at 4 in 12.
        ("16", 6, "8"),
        ("16", 4, "5 1/3"),
        # Instructor blog on wall framing (October 2014): 9.33 in at 16 in and 7 in 12.
        ("16", 7, "9 1/3"),
        # Trade forum: 14 in at 24 in and 7 in 12.
        ("24", 7, "14"),
        # Study-help page: 21.3 in at 16 in and 16 in 12.
        ("16", 16, "21 1/3"),
    ],
)
def test_neighbouring_studs_differ_by_spacing_times_rise_over_run(spacing: str, rise: int, difference: str) -> None:
    found = differences(rake(rise, 12, inches(spacing)))
    assert found
    for step in found:
        assert abs(step - Fraction(inches(spacing) * rise, 12)) < 1
        assert abs(step - inches(difference)) <= 1


def test_walls_that_differ_by_2_ft_at_6_in_12_stand_48_in_apart() -> None:
    # Trade magazine article on rake walls: 24 x 12 / 6 = 48 in of run.
    laid = rake(6, 12, 16 * INCH, length=48 * INCH)
    (plate,) = with_role(laid, "cap-plate")
    assert plate.top - laid.wall.height == 24 * INCH


@pytest.mark.parametrize(
    ("spacing", "rise", "difference"),
    [
        # Derived: spacing x tan(angle) at 15, 22.5 and 30 degrees, in millimetres to 0.1.
        (600, 0.267949, 160.8), (600, 0.414214, 248.5), (600, 0.577350, 346.4),
        (400, 0.267949, 107.2), (400, 0.414214, 165.7), (400, 0.577350, 230.9),
    ],
)  # fmt: skip
def test_metric_slopes_by_angle(spacing: int, rise: float, difference: float) -> None:
    for step in differences(rake(rise, 1, mm(spacing), length=mm(3000), height=mm(1500))):
        assert abs(step / 40_000 - difference) <= 0.1


def test_a_gable_is_laid_out_the_same_both_ways_from_its_ridge() -> None:
    # NAVEDTRA 14044 p. 71: a gable with its opening in the middle is the same on both sides of the centre line.
    window = opening("57", "30", "30", "40")
    laid = layout(plain_wall(12 * FOOT, height=6 * FOOT, top=Top("gable", 6, 12), openings=(window,)))
    studs = [(m.x, m.length, m.short) for m in with_role(laid, "field-stud", "king-stud", "end-stud")]
    assert sorted((laid.wall.length - x - inches("1 1/2"), a, b) for x, a, b in studs) == studs


def test_twelve_thirds_of_an_inch_add_up_to_64_in() -> None:
    # Derived: twelve studs at 5-1/3 in make 64.000 in; adding 5-5/16 twelve times would make 63-3/4.
    found = rake(4, 12, 16 * INCH, length=20 * FOOT, height=4 * FOOT)
    lengths = [m.length for m in with_role(found, "field-stud")]
    assert abs(lengths[12] - lengths[0] - 64 * INCH) <= 1


# A published list of rafter lengths per foot of run, rises 2 to 18 (three of its rows, 7, 13 and 16, stand in
# NAVEDTRA 14044 and in Army subcourse EN0069A too): length per foot; gable difference at 16 in and at 24 in.
RAFTERS = [
    (2, "12.17", "2.667", "4.000"), (3, "12.37", "4.000", "6.000"), (4, "12.65", "5.333", "8.000"),
    (5, "13.00", "6.667", "10.000"), (6, "13.42", "8.000", "12.000"), (7, "13.89", "9.333", "14.000"),
    (8, "14.42", "10.667", "16.000"), (9, "15.00", "12.000", "18.000"), (10, "15.62", "13.333", "20.000"),
    (11, "16.28", "14.667", "22.000"), (12, "16.97", "16.000", "24.000"), (13, "17.69", "17.333", "26.000"),
    (14, "18.44", "18.667", "28.000"), (15, "19.21", "20.000", "30.000"), (16, "20.00", "21.333", "32.000"),
    (17, "20.81", "22.667", "34.000"), (18, "21.63", "24.000", "36.000"),
]  # fmt: skip


@pytest.mark.parametrize(("rise", "per_foot", "at_16", "at_24"), RAFTERS)
def test_rafter_table(rise: int, per_foot: str, at_16: str, at_24: str) -> None:
    for spacing, printed in ((16, at_16), (24, at_24)):
        laid = rake(rise, 12, spacing * INCH, length=8 * FOOT, height=4 * FOOT)
        assert abs(differences(laid)[0] / INCH - float(printed)) <= 0.0005
        (plate,) = with_role(laid, "cap-plate")
        assert plate.short is not None
        assert abs(12 * plate.short / plate.width - float(per_foot)) <= 0.005
        # A plate on the slope takes plumb what its length takes along: thickness x length per foot / 12.
        take = plate.outline[-1][1] - plate.outline[0][1]
        assert abs(take - inches("1 1/2") * hypot(12, rise) / 12) <= 1


def pump_house(roof: Roof) -> Built:
    plan = SidePlan(Wall(length=1, height=1))
    return build(Building(14 * FOOT, 10 * FOOT, inches("89"), dict.fromkeys(SIDES, plan), roof=roof))


def test_the_high_wall_of_a_lean_to_stands_to_the_roof_line() -> None:
    # Common practice, no source: the rafters' underside touches the low wall's inner and the high wall's outer
    # top edge: 89 + (120 - 3-1/2) x 3/12 = 118-1/8.
    walls = {one.side: one.wall for one in pump_house(Roof("lean-to", rise=3, run=12, high_side="front")).walls}
    assert tape_text(walls["front"].height, "in") == "9' 10 1/8\""
    assert walls["front"].height == inches("118 1/8")
    assert walls["back"].height == walls["left"].height == walls["right"].height == inches("89")
    assert (walls["left"].top.up, walls["right"].top.up) == ("right", "left")


def test_a_gable_buildings_walls_stand_to_one_ridge() -> None:
    # Common practice, no source: from the eaves walls' inner faces, (60 - 3-1/2) x 6/12 up to the ridge.
    built = pump_house(Roof("gable", rise=6, run=12))
    gables = [one for one in built.walls if one.wall.top.shape == "gable"]
    assert {one.side for one in gables} == {"left", "right"}
    for one in gables:
        assert max(m.top for m in one.layout.members) == inches("89") + (inches("60") - inches("3 1/2")) // 2
    assert [f.code for f in built.findings].count("tie-cap") == 4


def test_where_the_plates_meet_the_end_stud_vanishes_and_the_next_keeps_its_place() -> None:
    # From memory: the studs of a triangle grow by rise / run x spacing from the corner where its plates meet, and no
    # stud stands in that corner. 12 ft at 6 in 12, plates 3 x 1-1/2 in, of which two on the slope.
    laid = layout(plain_wall(12 * FOOT, INCH * 16, inches("5"), top=Top("rake", 6 * 10**6, 12 * 10**6)))
    assert [m.x for m in with_role(laid, "end-stud")] == [12 * FOOT - inches("1 1/2")]
    (block,) = with_role(laid, "blocking")
    assert (block.x, block.outline[0]) == (0, (0, inches("1 1/2")))
    assert block.length < inches("1 1/2")
    assert {b - a for a, b in zip(differences(laid), differences(laid)[1:], strict=False)} == {0}
    assert differences(laid)[0] == 8 * INCH
