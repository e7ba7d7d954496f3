"""Bracing of wall lines and the building's area beside the published figures.

Expected figures: IRC Tables R602.10.3(1), R602.10.3(2) and R602.10.5, and R105.2.
"""

from fractions import Fraction

import pytest
from msgspec.structs import replace
from tests.published.plain import feet, opening, plain_wall

from wallwright.domain.building_sizes import Line, bracing_findings, permit_finding, stretches
from wallwright.domain.wall import Carries, Sheathing, Sheet, Site, Top, Wall
from wallwright.lengths import INCH, inches


def line(wall: Wall, apart: int = 20) -> Line:
    return Line("front", wall, feet(apart), 0)


def known(
    length: int, *places: tuple[str, str], site: Site | None = None, height: int = feet(8), **more: object
) -> Wall:
    """A wall under a roof at 115 mph in B, category A, with openings as (left, width) in inches."""
    return plain_wall(
        length,
        height=height,
        openings=tuple(opening(left, width, "80") for left, width in places),
        carries=Carries("roof", feet(20)),
        site=site or Site(30.0, 115.0, "B", "A"),
        **more,
    )


def test_a_plain_line_has_its_whole_length() -> None:
    # 3.5 x 0.70 x 0.90 x 1.40 = 3.087 ft.
    (found,) = bracing_findings(line(known(feet(14))))
    assert found.code == "bracing-compared"
    assert found.compared is not None
    assert found.compared.value == feet(14)
    assert found.compared.limit == -(-Fraction("3.087") * feet(1) // 1)


def test_short_lengths_count_for_less_or_nothing() -> None:
    # R602.10.5 in category A, 8 ft wall: 42 in counts 36, 36 in counts 27, 30 in nothing.
    wall = known(inches("180"), ("42", "36"), ("114", "36"))
    assert stretches(wall) == [(0, 42 * INCH), (78 * INCH, 114 * INCH), (150 * INCH, 180 * INCH)]
    (found,) = bracing_findings(line(wall))
    assert found.compared is not None
    assert found.compared.value == (36 + 27) * INCH
    # Where the category is not given nothing short counts.
    (bare,) = bracing_findings(line(known(inches("180"), ("42", "36"), ("114", "36"), site=Site(30.0, 115.0, "B"))))
    assert bare.compared is not None
    assert (bare.code, bare.compared.value) == ("bracing-short", 0)


def test_panels_stand_near_the_ends_and_near_each_other() -> None:
    # R602.10: the first panel within 10 ft of each end, panels 20 ft apart at most.
    far = known(feet(40), ("6", "150"))
    assert (
        dict(bracing_findings(line(far))[0].values)["lacking"]
        == ", and the first panel stands more than 10 ft from an end"
    )
    apart = known(feet(40), ("48", "120"), ("180", "130"))
    assert dict(bracing_findings(line(apart))[0].values)["lacking"] == ", and two panels stand more than 20 ft apart"


def test_one_panel_serves_a_short_line_alone_and_a_longer_one_does_not() -> None:
    # R602.10: a line of 16 ft or less has two panels or one of 48 in; a longer one two at least.
    short = known(feet(10), ("52", "60"))
    assert bracing_findings(line(short, 10))[0].code == "bracing-compared"
    long = known(feet(16) + INCH, ("80", "110"))
    assert dict(bracing_findings(line(long, 10))[0].values)["lacking"] == ", in fewer panels than the line needs"


@pytest.mark.parametrize(
    ("more", "code"),
    [
        ({"site": Site(30.0)}, "bracing-not-compared"),
        ({"site": Site(30.0, 140.0, "B")}, "bracing-outside-table"),
        ({"height": feet(13)}, "bracing-outside-table"),
        ({"sheathing": Sheathing(Sheet(length=120 * INCH, kind="siding"))}, "bracing-not-compared"),
        ({"sheathing": Sheathing(Sheet(length=120 * INCH, thickness=inches("1/4")))}, "bracing-not-compared"),
    ],
)
def test_what_the_table_does_not_hold_is_said(more: dict[str, object], code: str) -> None:
    assert [found.code for found in bracing_findings(line(known(feet(14), **more)))] == [code]  # type: ignore[arg-type]


@pytest.mark.parametrize(("rises", "factor"), [(0, "0.70"), (5, "0.70"), (6, "1.00"), (15, "1.30"), (16, "1.60")])
def test_the_higher_the_roof_stands_over_the_wall_the_more_is_needed(rises: int, factor: str) -> None:
    # Table R602.10.3(2), one storey: 0.70 up to 5 ft from eave to ridge, 1.00 up to 10, 1.30 up to 15, 1.60 up to 20 ft.
    (found,) = bracing_findings(Line("front", known(feet(14)), feet(20), feet(rises)))
    assert found.compared is not None
    assert found.compared.limit == -(
        -Fraction("3.5") * Fraction(factor) * Fraction("0.90") * Fraction("1.40") * feet(1)
    )


def test_a_rake_is_read_at_its_highest_point() -> None:
    # Table R602.10.3(2): 0.90 for 8 ft, 0.95 for 9 ft, 1.00 for 10 ft; 8 ft and 14 ft at 2 in 12 come to 10 ft 4 in: 1.05.
    rake = replace(known(feet(14)), top=Top("rake", 2, 12))
    (found,) = bracing_findings(Line("left", rake, feet(20), feet(2)))
    assert found.compared is not None
    assert found.compared.limit == -(
        -Fraction("3.5") * Fraction("0.70") * Fraction("1.05") * Fraction("1.40") * feet(1)
    )
    assert "highest point" in str(dict(found.values)["case"])


def test_earthquakes_are_not_compared() -> None:
    found = bracing_findings(line(known(feet(14), site=Site(30.0, 115.0, "B", "D1"))))
    assert [one.code for one in found] == ["bracing-compared", "bracing-not-compared"]


def test_nothing_is_compared_on_an_assumed_load() -> None:
    assert bracing_findings(line(plain_wall(feet(14)))) == []


@pytest.mark.parametrize(("depth", "code"), [("120", "permit-area"), ("120 1/16", "permit-area-passed")])
def test_200_sq_ft_is_the_codes_exemption(depth: str, code: str) -> None:
    # IRC R105.2: 20 x 10 ft is 200 sq ft.
    assert permit_finding("irc-2021", feet(20), inches(depth)).code == code
