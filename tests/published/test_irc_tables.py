"""Checks against the tables of the International Residential Code, editions 2015 to 2024.

The cells were read in the codes that states have adopted. The local code and its amendments come first.
"""

from fractions import Fraction
from itertools import chain

import pytest
from tests.published.plain import feet, plain_wall, with_role

from wallwright.domain.framed import layout
from wallwright.lengths import INCH, inches, to_number
from wallwright.published import anchors, bracing, exemptions, fastening, header_rules, headers, plates, studs
from wallwright.published.headers import Size
from wallwright.published.sheathing_wind import strongest_row
from wallwright.published.tables import TABLES, OutsideTable

EDITIONS = ("irc-2015", "irc-2018", "irc-2021", "irc-2024")
LATER = EDITIONS[1:]


def span_and_jacks(rules: str, plies: int, size: str, snow: float, width: int) -> tuple[float, int]:
    """The span in inches and the jack studs at each end of a header under a roof and ceiling."""
    found = headers.read(rules, "roof", Size(plies, size), snow, feet(width))
    return to_number(found.span, "in"), found.jacks


@pytest.mark.parametrize("rules", EDITIONS)
def test_a_2x4_that_carries_a_roof_stands_10_ft_tall_at_24_in(rules: str) -> None:
    # IRC 2015-2024 Table R602.3(5), row 2x4, roof and ceiling only.
    assert studs.limits(rules, "2x4", "roof") == studs.Limits(feet(10), 24 * INCH)


@pytest.mark.parametrize("rules", EDITIONS)
def test_a_2x4_under_a_floor_and_roof_stands_at_16_in_and_under_two_floors_not_at_all(rules: str) -> None:
    # IRC 2015-2024 Table R602.3(5), row 2x4, one floor plus roof 16 in, two floors plus roof a dash.
    assert studs.limits(rules, "2x4", "roof-and-clear-span-floor").spacing == 16 * INCH
    with pytest.raises(OutsideTable):
        studs.limits(rules, "2x4", "roof-and-two-floors")
    assert studs.limits(rules, "2x6", "roof-and-two-floors").spacing == 16 * INCH


@pytest.mark.parametrize(("stud", "height"), [("2x4", 14), ("2x6", 20), ("2x5", 16), ("3x4", 14)])
def test_a_stud_that_carries_nothing_may_be_taller(stud: str, height: int) -> None:
    # IRC 2015-2024 Table R602.3(5), nonbearing walls: 14, 20, 16 and 14 ft, all at 24 in.
    for rules in EDITIONS:
        assert studs.limits(rules, stud, "none") == studs.Limits(feet(height), 24 * INCH)


def test_a_2x3_stands_in_no_exterior_wall() -> None:
    # IRC 2015-2024 Table R602.3(5), footnote on 2x3: 10 ft at 16 in, not in exterior walls.
    with pytest.raises(OutsideTable):
        studs.limits("irc-2021", "2x3", "none")
    assert studs.limits("irc-2021", "2x3", "none", exterior=False) == studs.Limits(feet(10), 16 * INCH)


@pytest.mark.parametrize(
    ("height", "spacing", "wind", "span", "stud"),
    [
        # IRC 2018-2024 Table R602.3(6), supporting a roof only.
        (11, 16, 115, 24, "2x4"), (11, 16, 130, 24, "2x6"), (11, 24, 115, 12, "2x6"), (12, 12, 130, 12, "2x4"),
        (12, 16, 115, 12, "2x4"), (12, 16, 115, 24, "2x6"), (12, 24, 140, 24, "2x6"),
    ],
)  # fmt: skip
def test_studs_to_12_ft_under_a_roof(height: int, spacing: int, wind: int, span: int, stud: str) -> None:
    for rules in LATER:
        found = studs.tall_stud(rules, feet(height), spacing * INCH, "roof", wind, "B", 30, feet(span))
        assert found == stud


def test_the_table_of_taller_studs_came_in_2018_and_leaves_one_case_to_design() -> None:
    # IRC Table R602.3(6) is not in 2015; 12 ft, roof and one floor, 24 in, 140 mph, 24 ft span prints DR.
    with pytest.raises(OutsideTable):
        studs.tall_stud("irc-2015", feet(11), 16 * INCH, "roof", 115, "B", 30, feet(12))
    with pytest.raises(OutsideTable, match="design"):
        studs.tall_stud("irc-2021", feet(12), 24 * INCH, "roof-and-clear-span-floor", 140, "B", 30, feet(24))


@pytest.mark.parametrize(("spacing", "height"), [(16, 18), (12, 20)])
def test_a_2x6_under_a_light_narrow_roof_may_be_taller(spacing: int, height: int) -> None:
    # IRC 2015-2024 R602.3.1, exception 2: snow 25 psf, wind 130 mph, 6 ft of roof; 18 ft at 16 in, 20 ft at 12 in.
    for rules in EDITIONS:
        assert studs.tall_2x6_height(rules, "2x6", spacing * INCH, 130, 25, feet(6)) == feet(height)
        with pytest.raises(OutsideTable):
            studs.tall_2x6_height(rules, "2x6", spacing * INCH, 130, 26, feet(6))


@pytest.mark.parametrize(
    ("plies", "size", "snow", "width", "span", "jacks"),
    [
        # IRC 2018-2024 Table R602.7(1), exterior bearing walls, roof and ceiling: spans in ft-in as printed.
        (2, "2x6", 30, 24, "55", 1),  # 4-7 (1)
        (2, "2x8", 50, 24, "60", 2),  # 5-0 (2)
        (2, "2x12", 70, 36, "62", 3),  # 5-2 (3)
        (2, "2x4", 30, 12, "48", 1),  # 4-0 (1)
        (3, "2x10", 50, 24, "88", 2),  # 7-4 (2)
        (4, "2x12", 70, 12, "139", 1),  # 11-7 (1)
        (1, "2x8", 30, 36, "39", 2),  # 3-3 (2)
    ],
)
def test_headers_under_a_roof(plies: int, size: str, snow: int, width: int, span: str, jacks: int) -> None:
    for rules in LATER:
        assert span_and_jacks(rules, plies, size, snow, width) == (float(span), jacks)


@pytest.mark.parametrize(
    ("load", "plies", "size", "snow", "width", "span", "jacks"),
    [
        # IRC 2018-2024 Table R602.7(1), the blocks with one centre-bearing and one clear-span floor.
        ("roof-and-center-bearing-floor", 2, "2x10", 30, 24, 68, 2),  # 5-8 (2)
        ("roof-and-center-bearing-floor", 4, "2x8", 70, 36, 60, 2),  # 5-0 (2)
        ("roof-and-clear-span-floor", 2, "2x6", 50, 12, 49, 1),  # 4-1 (1)
        ("roof-and-clear-span-floor", 3, "2x12", 30, 36, 74, 2),  # 6-2 (2)
    ],
)
def test_headers_under_a_roof_and_a_floor(
    load: str, plies: int, size: str, snow: int, width: int, span: int, jacks: int
) -> None:
    for rules in LATER:
        found = headers.read(rules, load, Size(plies, size), snow, feet(width))
        assert (found.span, found.jacks) == (span * INCH, jacks)


def test_a_header_between_two_widths_is_interpolated_and_rounded_down() -> None:
    # IRC 2018-2024 Table R602.7(1), footnote on interpolation: 72 + (55 - 72) x 4/12 = 66.33, so 66 in, 1 jack.
    assert 72 + Fraction(55 - 72) * Fraction(4, 12) == Fraction(199, 3)
    assert span_and_jacks("irc-2021", 2, "2x6", 30, 16) == (66.0, 1)


def test_snow_is_not_interpolated_and_less_than_30_psf_is_read_at_30() -> None:
    # IRC 2018-2024 Table R602.7(1): footnotes allow interpolation of widths, and 30 psf for lesser snow.
    assert span_and_jacks("irc-2021", 2, "2x6", 31, 24) == span_and_jacks("irc-2021", 2, "2x6", 50, 24) == (47.0, 1)
    assert span_and_jacks("irc-2021", 2, "2x6", 0, 24) == (55.0, 1)


def test_a_header_whose_top_nothing_holds_keeps_7_10_of_its_span() -> None:
    # IRC 2018-2024 Table R602.7(1), footnote on lateral bracing; 30 psf, 24 ft: for 72 in 2-2x12 (97) fails at
    # 67.9, 3-2x10 (103) does at 72.1 with 1 jack. With the top held 2-2x8 (69) fails and 2-2x10 (82, 2 jacks) does.
    for rules in LATER:
        assert header_rules.held_top_only(rules, "2x12", inches("97")) == inches("67.9") < inches("72")
        assert header_rules.held_top_only(rules, "2x10", inches("103")) == inches("72.1") > inches("72")
        assert span_and_jacks(rules, 3, "2x10", 30, 24) == (103.0, 1)
        assert span_and_jacks(rules, 2, "2x12", 30, 24)[0] == 97.0
        assert span_and_jacks(rules, 2, "2x8", 30, 24)[0] == 69.0
        assert span_and_jacks(rules, 2, "2x10", 30, 24) == (82.0, 2)
        assert header_rules.held_top_only(rules, "2x6", inches("55")) == inches("55")
    # The footnote is not in 2015.
    assert header_rules.held_top_only("irc-2015", "2x12", inches("97")) == inches("97")


def test_the_editions_differ() -> None:
    # IRC Table R602.7(1), 2-2x10, 30 psf, 36 ft: 2015 prints 6-6 (2), 2018 and later 5-9 (2).
    assert span_and_jacks("irc-2015", 2, "2x10", 30, 36) == (78.0, 2)
    for rules in LATER:
        assert span_and_jacks(rules, 2, "2x10", 30, 36) == (69.0, 2)


def test_2015_prints_a_dash_for_one_ply_at_70_psf() -> None:
    # IRC 2015 Table R602.7(1): no one-ply header at 70 psf; at 50 psf, 28 ft, 1-2x10 spans 4-1 (1).
    with pytest.raises(OutsideTable):
        span_and_jacks("irc-2015", 1, "2x10", 70, 24)
    assert span_and_jacks("irc-2015", 1, "2x10", 50, 28) == (49.0, 1)


@pytest.mark.parametrize(
    ("plies", "size", "snow", "width"), [(2, "2x6", 71, 24), (2, "2x6", 30, 37), (5, "2x6", 30, 24), (1, "2x4", 30, 24)]
)
def test_what_the_table_does_not_hold_is_outside_it(plies: int, size: str, snow: int, width: int) -> None:
    # IRC 2021 Table R602.7(1) ends at 70 psf, 36 ft and the sections it lists.
    with pytest.raises(OutsideTable):
        span_and_jacks("irc-2021", plies, size, snow, width)


def test_one_flat_2x4_heads_an_opening_of_8_ft_in_a_nonbearing_wall() -> None:
    # IRC 2015-2024 R602.7.4: to 8 ft wide, and to 24 in below the parallel surface above.
    assert header_rules.flat_head_allowed(96 * INCH, 24 * INCH)
    assert not header_rules.flat_head_allowed(97 * INCH, 24 * INCH)
    assert not header_rules.flat_head_allowed(96 * INCH, 25 * INCH)


def test_full_height_studs_beside_a_5_ft_header() -> None:
    # IRC 2018-2024 Table R602.7.5, the 6 ft row: 2 under 140 mph in B, 1 at 115 mph or less in B on jacks.
    for rules in LATER:
        assert header_rules.full_height_studs(rules, feet(5), 16 * INCH, 139, "B") == 2
        assert header_rules.full_height_studs(rules, feet(5), 16 * INCH, 115, "B") == 1
        assert header_rules.full_height_studs(rules, feet(5), 16 * INCH, 115, "B", on_jacks=False) == 2
        assert header_rules.full_height_studs(rules, feet(5), 16 * INCH, 129, "C") == 2


@pytest.mark.parametrize(("wind", "exposure"), [(140, "B"), (130, "C"), (90, "D")])
def test_stronger_winds_are_outside_the_table_of_full_height_studs(wind: int, exposure: str) -> None:
    # IRC 2018-2024 Table R602.7.5: under 140 mph in B, under 130 mph in C, no column for D.
    with pytest.raises(OutsideTable):
        header_rules.full_height_studs("irc-2021", feet(5), 16 * INCH, wind, exposure)


def test_full_height_studs_of_2015_follow_the_spacing() -> None:
    # IRC 2015 Table R602.7.5, the 8 ft row: 3 at 16 in, 2 at 24 in.
    assert header_rules.full_height_studs("irc-2015", feet(8), 16 * INCH, None, None) == 3
    assert header_rules.full_height_studs("irc-2015", feet(8), 24 * INCH, None, None) == 2


def test_a_7_16_panel_on_studs_at_24_in_takes_140_115_and_110_mph() -> None:
    # IRC 2015-2024 Table R602.3(3), 7/16 in 24/16 on 24 in: 140 B, 115 C, 110 D; nails 8d common at 6 and 12.
    for rules in EDITIONS:
        row = strongest_row(rules, inches("7/16"), 24 * INCH)
        assert row["mph"] == {"B": 140, "C": 115, "D": 110}
        assert (row["nail"], row["edge_in"], row["field_in"]) == ("8d common", 6, 12)
        assert strongest_row(rules, inches("7/16"), 16 * INCH)["mph"]["B"] == 170


def test_a_3_8_panel_stops_at_16_in() -> None:
    # IRC 2015-2024 Table R602.3(3): the 3/8 in row (24/0) holds to 16 in; 24 in takes the 7/16 row.
    with pytest.raises(OutsideTable):
        strongest_row("irc-2021", inches("3/8"), 24 * INCH)
    assert strongest_row("irc-2021", inches("3/8"), 16 * INCH)["mph"]["B"] == 140


@pytest.mark.parametrize(("height", "least"), [(8, 48), (9, 48), (10, 48), (11, 53), (12, 58)])
def test_least_length_of_a_braced_panel(height: int, least: int) -> None:
    # IRC 2015-2024 Table R602.10.5, method WSP.
    for rules in EDITIONS:
        assert bracing.least_panel(rules, "WSP", feet(height)) == least * INCH


@pytest.mark.parametrize(("height", "least"), [(8, 32), (9, 30), (10, 30)])
def test_least_length_beside_an_opening_of_80_in(height: int, least: int) -> None:
    # IRC 2015-2024 Table R602.10.5, method CS-WSP.
    for rules in EDITIONS:
        assert bracing.least_beside_opening(rules, 80 * INCH, feet(height)) == least * INCH


@pytest.mark.parametrize(("panel", "height", "counts"), [(42, 8, 36), (36, 8, 27), (42, 9, 36), (36, 9, 0), (35, 8, 0)])
def test_a_shorter_panel_counts_for_less(panel: int, height: int, counts: int) -> None:
    # IRC 2015-2024 R602.10.5, partial credit in SDC A to C: 42 in counts 36, 36 in counts 27 in an 8 ft wall.
    assert bracing.counted("irc-2021", panel * INCH, feet(height), "B") == counts * INCH
    assert bracing.counted("irc-2021", panel * INCH, feet(height), None) == 0


@pytest.mark.parametrize("rules", EDITIONS)
def test_bracing_of_a_small_building(rules: str) -> None:
    # IRC Tables R602.10.3(1) and (2): 115 mph B, lines 20 ft apart, 8 ft wall, roof under 5 ft, no gypsum inside:
    # 3.5 x 0.70 x 0.90 x 1.40 = 3.087 ft.
    needed = bracing.length_needed(rules, "WSP", 115, "B", feet(20), feet(5), feet(8))
    assert needed == -(-Fraction("3.087") * feet(1) // 1)


def test_the_least_wind_row_came_in_2021() -> None:
    # IRC Table R602.10.3(1): the row under 95 mph is in 2021 and 2024; before, 110 mph is the least.
    by_rules = {rules: bracing.length_needed(rules, "WSP", 90, "B", feet(20), feet(5), feet(8)) for rules in EDITIONS}
    assert by_rules["irc-2018"] == by_rules["irc-2015"] == -(-Fraction("3.5") * Fraction("0.882") * feet(1) // 1)
    assert by_rules["irc-2021"] == by_rules["irc-2024"] == -(-Fraction("2.5") * Fraction("0.882") * feet(1) // 1)


@pytest.mark.parametrize(("piece", "bolts"), [(96, 2), (97, 3), (144, 3), (12, 2)])
def test_anchor_bolts_of_a_plate_piece(piece: int, bolts: int) -> None:
    # IRC 2015-2024 R403.1.6: 6 ft apart at most, 12 in from each end at most, two a piece at least. 96 in just
    # takes two, 72 in apart; 97 - 24 = 73 in takes three.
    for rules in EDITIONS:
        assert anchors.least_count(rules, piece * INCH) == bolts


def test_no_bolt_stands_nearer_than_seven_diameters_to_an_end() -> None:
    # IRC 2015-2024 R403.1.6: 7 diameters of 1/2 in are 3-1/2 in; 7 in into the concrete.
    rule = anchors.bolts("irc-2021")
    assert (rule.end_least, rule.end_most, rule.max_spacing) == (inches("3 1/2"), 12 * INCH, 72 * INCH)
    assert (rule.diameter, rule.embedment) == (inches("1/2"), 7 * INCH)


def test_a_cap_splice_takes_8_of_16d_common_on_each_side() -> None:
    # IRC 2018-2024 Table R602.3(1), item 13 (2018) and 14 (2021, 2024): 8 of 16d common each side, 24 in lap.
    for rules in LATER:
        first = fastening.choices(rules, "double-top-plate-splice")[0]
        assert (first.nail, first.count) == ("16d common", 8)
    assert fastening.source("irc-2018", "double-top-plate-splice").clause.endswith("item 13")
    assert fastening.source("irc-2021", "double-top-plate-splice").clause.endswith("item 14")
    assert plates.END_JOINT_OFFSET == 24 * INCH


def test_a_plate_is_end_nailed_with_two_16d_common_or_three_smaller() -> None:
    # IRC 2015-2024 Table R602.3(1), item 16 (2015, 2018) and 17 (2021, 2024), end nailed.
    for rules in EDITIONS:
        found = {(choice.nail, choice.count) for choice in fastening.choices(rules, "plate-to-stud-end")}
        assert found == {("16d common", 2), ("16d box", 3), ("10d box", 3), ("3 x 0.131", 3)}


def test_the_row_of_the_full_height_stud_came_in_2021() -> None:
    # IRC Table R602.3(1), item 12 of 2021 and 2024: 3 of 16d common into the header's end; 2018 has no such item.
    assert ("16d common", 3) in {
        (choice.nail, choice.count) for choice in fastening.choices("irc-2021", "full-height-stud-to-header-end")
    }
    with pytest.raises(KeyError):
        fastening.choices("irc-2018", "full-height-stud-to-header-end")


def test_notches_and_holes_in_a_2x4_that_bears() -> None:
    # IRC 2015-2024 R602.6: notch 25 %, hole 40 %, hole in a doubled stud 60 % of 3-1/2 in; 5/8 in to the edge.
    depth = inches("3 1/2")
    for rules in EDITIONS:
        assert plates.cut_allowed(rules, "notch", depth, bearing=True) == inches("7/8")
        assert plates.cut_allowed(rules, "hole", depth, bearing=True) == inches("1.4")
        assert plates.cut_allowed(rules, "hole in a doubled stud", depth, bearing=True) == inches("2.1")
        assert plates.cut_allowed(rules, "notch", depth, bearing=False) == inches("1.4")
        assert plates.hole_edge(rules) == inches("5/8")


def test_a_precut_stud_and_three_plates_make_97_1_8() -> None:
    # Trade: precut studs of 92-5/8 in with three plates of 1-1/2 in make a wall of 97-1/8 in.
    laid = layout(plain_wall(feet(8), height=inches("97 1/8")))
    assert {m.length for m in with_role(laid, "field-stud")} == {inches("92 5/8")}


@pytest.mark.parametrize("rules", EDITIONS)
def test_areas_and_heights_from_which_more_is_asked(rules: str) -> None:
    # IRC 2015-2024 R105.2 item 1: 200 sq ft; R403.1.4.1: 600 sq ft of light frame; R301.3: 11 ft 7 in.
    assert exemptions.permit_area_sq_ft(rules) == 200
    assert exemptions.frost_area_sq_ft(rules) == 600
    assert exemptions.storey_height(rules) == inches("139")


def test_a_header_bears_1_1_2_in_on_wood() -> None:
    # IRC 2015-2024 R502.6: 1-1/2 in on wood or metal.
    assert header_rules.bearing_on_wood() == inches("1 1/2")


SPANS = [name for name in TABLES if name.startswith("header_spans")]


@pytest.mark.parametrize("name", SPANS)
def test_spans_of_the_table_fall_with_snow_and_width_and_rise_with_plies_and_depth(name: str) -> None:
    # A slip of typing in one of 540 cells would break an order that bending strength gives to all of them.
    rows = {(row["plies"], row["size"]): row["span_in"] for row in TABLES[name].rows}
    for (plies, size), spans in rows.items():
        printed = [[span for span in by_width if span] for by_width in spans]
        for by_width in printed:
            assert by_width == sorted(by_width, reverse=True)
        for lighter, heavier in zip(spans, spans[1:], strict=False):
            assert all(a >= b for a, b in zip(lighter, heavier, strict=True))
        deeper = {"2x4": "2x6", "2x6": "2x8", "2x8": "2x10", "2x10": "2x12"}.get(size)
        for other in ((plies, deeper), (plies + 1, size)):
            if other in rows:
                pairs = zip(chain(*rows[other]), chain(*spans), strict=True)
                assert all(more >= less for more, less in pairs), other
