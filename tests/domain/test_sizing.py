"""Sizes from the tables in a framed wall: what is chosen, what is kept and compared, what is refused and with which figure.

Expected figures: IRC Table R602.7(1) for headers and jacks, Table R602.7.5 for full-height studs, Table R602.3(5)
and R602.3(6) for studs, in the edition named.
"""

import pytest
from msgspec.structs import replace
from tests.published.plain import feet, plain_wall, with_role

from wallwright.domain.framed import layout
from wallwright.domain.members import Layout
from wallwright.domain.stock import NOMINAL
from wallwright.domain.wall import Carries, Header, Opening, Site, Wall
from wallwright.findings import Finding, PlanRefused
from wallwright.lengths import INCH, inches


def bay(width: str, room: str = "14", header: Header | None = None, jacks: int = 0, **more: object) -> Wall:
    """A 16 ft wall under a roof, one opening ``room`` below the plates; 30 psf, a building 24 ft wide, 115 mph in B."""
    fields: dict[str, object] = {
        "carries": Carries("roof", feet(24)),
        "site": Site(30.0, 115.0, "B", "A"),
        "height": inches("97 1/8"),
        **more,
    }
    top = fields["height"] - 2 * inches("1 1/2") - inches(room)  # type: ignore[operator]
    opening = Opening("bay", inches("48"), inches(width), top, 0, header, jacks)
    length = fields.pop("length", feet(16))
    return plain_wall(length, openings=(opening,), **fields)  # type: ignore[arg-type]


def header_of(laid: Layout) -> tuple[str, int]:
    (header,) = with_role(laid, "header")
    return header.stock.name, header.plies


def finding(laid: Layout, code: str) -> Finding:
    (found,) = [one for one in laid.findings if one.code == code]
    return found


def codes(laid: Layout) -> set[str]:
    return {one.code for one in laid.findings}


@pytest.mark.parametrize(
    ("width", "room", "stock", "jacks"),
    [
        # 30 psf, 24 ft: 2-2x4 37 in (1), 2-2x6 55 in (1), 2-2x8 69 in (1), 2-2x10 82 in (2), 2-2x12 97 in (2).
        ("37", "14", "2x4", 1),
        ("38", "14", "2x6", 1),
        ("55", "14", "2x6", 1),
        ("69", "7 1/4", "2x8", 1),
        ("70", "9 1/4", "2x10", 2),
        ("97", "11 1/4", "2x12", 2),
        # Under cripples 7/10 of the span: 2-2x8 48.3, 2-2x10 57.4, 2-2x12 67.9.
        ("56", "20", "2x10", 2),
        ("67", "20", "2x12", 2),
    ],
)
def test_the_header_is_the_shallowest_that_the_table_allows_and_that_fits(
    width: str, room: str, stock: str, jacks: int
) -> None:
    laid = layout(bay(width, room))
    assert header_of(laid) == (stock, 2)
    assert len(with_role(laid, "jack-stud")) == 2 * jacks
    assert "header-compared" in codes(laid)
    assert "jacks-too-few" not in codes(laid)


def test_a_deeper_wall_takes_more_plies_before_a_deeper_header() -> None:
    # 30 psf, 24 ft, 72 in under cripples: 2-2x12 67.9 fails, 3-2x10 72.1 passes with 1 jack.
    laid = layout(bay("72", "20", stud=NOMINAL["2x6"]))
    assert header_of(laid) == ("2x10", 3)
    assert len(with_role(laid, "jack-stud")) == 2


def test_a_shallower_header_of_more_plies_goes_before_a_deeper_one() -> None:
    # 30 psf, 24 ft, 56 in under cripples: 3-2x8 spans 87 x 0.70 = 60.9, 2-2x10 57.4.
    assert header_of(layout(bay("56", "20", stud=NOMINAL["2x6"]))) == ("2x8", 3)


@pytest.mark.parametrize(("room", "stock"), [("12", "2x10"), ("12 1/4", "2x10"), ("12 5/16", "2x12")])
def test_a_header_held_only_through_packing_is_said_to_be(room: str, stock: str) -> None:
    # 72 in: 2-2x10 spans 82 in with its top held, 57.4 where it is not; up to 3 in of flat pieces lie above it.
    laid = layout(bay("72", room))
    assert header_of(laid) == (stock, 2)
    assert finding(laid, "header-top-packed").kind.level == "caution"
    assert "header-compared" not in codes(laid)


def test_a_header_that_does_not_fit_names_the_height_that_does() -> None:
    # 72 in at 24 ft takes a 2-2x10, 9-1/4 deep; 6 in are there.
    wall = bay("72", "6")
    with pytest.raises(PlanRefused) as refused:
        layout(wall)
    (fault,) = refused.value.faults
    values = dict(fault.values)
    assert (fault.code, fault.pointer) == ("header-does-not-fit", "/openings/0/height")
    assert (values["stock"], values["deep"], values["room"]) == ("2x10", inches("9 1/4"), inches("6"))
    assert values["wall_height"].value == wall.height + inches("3 1/4")
    assert header_of(layout(replace(wall, height=values["wall_height"].value))) == ("2x10", 2)  # type: ignore[arg-type]


def test_a_header_given_is_kept_and_compared() -> None:
    laid = layout(bay("56", "20", Header(NOMINAL["2x8"], 2)))
    assert header_of(laid) == ("2x8", 2)
    found = finding(laid, "header-too-small")
    assert found.kind.level == "stop"
    # 69 in x 0.70 under cripples.
    assert found.compared is not None
    assert (found.compared.value, found.compared.limit) == (56 * INCH, inches("48.3"))


def test_jacks_given_are_kept_and_compared() -> None:
    laid = layout(bay("70", "9 1/4", jacks=1))
    assert len(with_role(laid, "jack-stud")) == 2
    found = finding(laid, "jacks-too-few")
    assert found.compared is not None
    assert (found.compared.value, found.compared.limit, found.kind.level) == (1, 2, "stop")


def test_the_edition_changes_the_answer() -> None:
    # 2-2x10, 30 psf, 36 ft: 78 in in 2015, 69 in from 2018.
    wall = bay("75", "9 1/4", Header(NOMINAL["2x10"], 2), carries=Carries("roof", feet(36)))
    assert "header-compared" in codes(layout(replace(wall, rules="irc-2015")))
    for rules in ("irc-2018", "irc-2021", "irc-2024"):
        assert "header-too-small" in codes(layout(replace(wall, rules=rules)))
        assert finding(layout(replace(wall, rules=rules)), "header-too-small").source.edition == rules[4:]  # type: ignore[union-attr]


@pytest.mark.parametrize(
    ("site", "carries"),
    [(Site(90.0, 115.0, "B"), Carries("roof", feet(24))), (Site(30.0, 115.0, "B"), Carries("roof", feet(40)))],
)
def test_what_the_table_does_not_hold_is_a_stop(site: Site, carries: Carries) -> None:
    found = finding(layout(bay("40", site=site, carries=carries)), "header-outside-table")
    assert found.kind.level == "stop"


@pytest.mark.parametrize(
    ("site", "carries"),
    [
        (None, Carries("roof", feet(24))),
        (Site(30.0, 115.0, "B"), None),
        (None, None),
    ],
)
def test_without_load_and_place_the_header_is_the_plain_default(site: Site | None, carries: Carries | None) -> None:
    laid = layout(bay("70", "20", jacks=1, site=site, carries=carries))
    assert header_of(laid) == ("2x6", 2)
    assert codes(laid) & {"header-not-sized", "header-not-compared"}
    assert all(one.compared is None for one in laid.findings)


@pytest.mark.parametrize(
    ("site", "carries"), [(Site(None, 115.0, "B"), Carries("roof", feet(24))), (Site(30.0), Carries("roof"))]
)
def test_with_snow_or_width_lacking_the_header_is_not_sized(site: Site, carries: Carries) -> None:
    laid = layout(bay("70", "20", site=site, carries=carries))
    assert header_of(laid) == ("2x6", 2)
    assert finding(laid, "header-not-sized").kind.level == "caution"


@pytest.mark.parametrize(
    ("width", "wind", "exposure", "kings"),
    [("70", 115.0, "B", 1), ("70", 116.0, "B", 2), ("70", 129.0, "C", 2), ("48", 139.0, "B", 1), ("97", 130.0, "B", 3)],
)
def test_full_height_studs_stand_at_each_end(width: str, wind: float, exposure: str, kings: int) -> None:
    # Table R602.7.5: 48 in 1, 6 ft 2 and 10 ft 3 under 140 mph in B or 130 in C; 6 ft 1 at 115 mph in B on jacks.
    laid = layout(bay(width, "11 1/4", site=Site(30.0, wind, exposure)))
    assert len(with_role(laid, "king-stud")) == 2 * kings
    found = finding(laid, "full-height-studs-compared")
    assert found.compared is not None
    assert found.compared.limit == kings
    assert len(found.members) == found.compared.value >= kings


def test_full_height_studs_without_room_are_lacking_and_said_to_be() -> None:
    # 116 mph in B, 70 in: 2 at each end; beside the wall's end stud there is room for the first alone.
    wall = bay("70", "9 1/4", site=Site(30.0, 116.0, "B"))
    near = replace(wall, openings=(replace(wall.openings[0], left=inches("4 1/2")),))
    found = finding(layout(near), "full-height-studs-too-few")
    assert found.compared is not None
    assert (found.compared.value, found.compared.limit, found.kind.level) == (1, 2, "stop")


def two_bays(apart: str, **more: object) -> Wall:
    """Two openings 70 in wide and so far apart, on one jack a side, at 116 mph: each header asks for 2 at its ends."""
    wall = bay("70", "9 1/4", Header(NOMINAL["2x10"], 2), 1, site=Site(30.0, 116.0, "B"), length=feet(24), **more)
    first = wall.openings[0]
    second = replace(first, name="other", left=first.right + inches(apart))
    return replace(wall, openings=(first, second))


@pytest.mark.parametrize(
    ("apart", "between", "has", "wanted"),
    [
        # Two jacks take 3 in. A stud shared by both, then three and four, of which one may be shared.
        ("4 1/2", 1, 1, 3),
        ("6", 2, 2, 3),
        ("7 1/2", 3, 3, 3),
        ("9", 4, 4, 3),
        ("12", 4, 2, 2),
    ],
)
def test_full_height_studs_between_two_openings(apart: str, between: int, has: int, wanted: int) -> None:
    wall = two_bays(apart)
    laid = layout(wall)
    first, second = wall.openings
    standing = [m for m in with_role(laid, "king-stud") if first.right < m.x < second.left]
    assert len(standing) == between
    spots = sorted((m.x, m.right) for m in with_role(laid, "king-stud", "field-stud", "jack-stud"))
    assert all(one[1] <= other[0] for one, other in zip(spots, spots[1:], strict=False))
    found = [one for one in laid.findings if one.code.startswith("full-height")]
    assert all(one.compared is not None for one in found)
    if has < wanted:
        assert {(one.compared.value, one.compared.limit) for one in found if one.compared} == {(has, wanted)}
    else:
        assert {one.code for one in found} == {"full-height-studs-compared"}


@pytest.mark.parametrize(
    ("left", "more"),
    [
        # The door's kings stand at 45 and 119-1/2; another at 43-1/2 and at 121 has room where the hatch leaves it.
        ("122 1/2", 2), ("122", 1), ("35 1/2", 2), ("36", 1),
    ],
)  # fmt: skip
def test_further_full_height_studs_stay_clear_of_an_opening_within_one_bay(left: str, more: int) -> None:
    wall = two_bays("60")
    door = wall.openings[0]
    hatch = Opening("hatch", inches(left), inches("4" if inches(left) > door.left else "8"), inches("10"), inches("30"))
    laid = layout(replace(wall, openings=(door, hatch)))
    assert not [m for m in laid.members if m.role == "header" and m.opening == "hatch"]
    kings = with_role(laid, "king-stud")
    assert len(kings) == 2 + more
    uprights = [*kings, *with_role(laid, "field-stud", "jack-stud")]
    assert all(m.right <= hatch.left or m.x >= hatch.right for m in uprights)


def test_without_wind_full_height_studs_are_not_compared_save_in_2015() -> None:
    wall = bay("70", "9 1/4", site=Site(30.0))
    assert "full-height-studs-not-compared" in codes(layout(wall))
    # Table R602.7.5 of 2015: the 8 ft row asks for 3 at 16 in.
    old = layout(replace(wall, rules="irc-2015"))
    assert len(with_role(old, "king-stud")) == 6


def test_a_wall_that_carries_nothing_asks_for_no_header() -> None:
    # R602.7.4: one flat 2x4 to 8 ft wide and 24 in below the plates.
    within = finding(layout(bay("96", "24", carries=Carries("none"))), "header-nonbearing")
    beyond = finding(layout(bay("97", "24", carries=Carries("none"))), "header-nonbearing")
    assert "would do" in dict(within.values)["instead"]  # type: ignore[operator]
    assert "would not do" in dict(beyond.values)["instead"]  # type: ignore[operator]


@pytest.mark.parametrize(
    ("height", "stud", "spacing", "code"),
    [
        # Table R602.3(5): 10 ft between plates, 24 in under a roof. R602.3(6): 11 and 12 ft, 115 mph, 24 ft span.
        ("124 1/2", "2x4", 24, "studs-compared"),
        ("124 5/8", "2x4", 16, "tall-studs-conditions"),
        ("136 5/8", "2x4", 16, "studs-too-tall"),
        ("136 5/8", "2x6", 16, "tall-studs-conditions"),
        ("148 5/8", "2x6", 16, "studs-too-tall"),
        ("97 1/8", "2x4", 25, "studs-too-far-apart"),
        ("97 1/8", "2x3", 16, "studs-outside-table"),
    ],
)
def test_studs_are_compared(height: str, stud: str, spacing: int, code: str) -> None:
    wall = bay("30", height=inches(height), stud=NOMINAL[stud], spacing=spacing * INCH)
    stated = {one for one in codes(layout(wall)) if "stud" in one and not one.startswith(("full", "stud-", "seam"))}
    assert stated == {code}


def test_a_2x6_under_a_light_narrow_roof_may_be_taller() -> None:
    # R602.3.1, exception 2: 18 ft at 16 in, snow 25 psf, 6 ft of roof: a building 12 ft wide.
    wall = bay("30", height=inches("220"), stud=NOMINAL["2x6"], carries=Carries("roof", feet(12)))
    light = replace(wall, site=Site(25.0, 130.0, "B"))
    assert finding(layout(light), "tall-studs-light-roof").kind.level == "caution"
    assert "studs-too-tall" in codes(layout(wall))


def test_metric_sections_dressed_as_the_standard_prints_them_are_the_nominal_ones() -> None:
    # PS 20: 38 x 89 mm is a 2x4, 38 x 140 mm a 2x6; 45 x 95 mm is no size of the standard.
    from wallwright.domain.stock import stock_of_name

    laid = layout(bay("55", "20", Header(stock_of_name("38x140"), 2), stud=stock_of_name("38x89")))
    assert {"studs-compared", "header-compared"} <= codes(laid)
    other = layout(bay("55", "20", Header(stock_of_name("45x145"), 2), stud=stock_of_name("45x95")))
    assert {"studs-outside-table", "header-outside-table"} <= codes(other)
