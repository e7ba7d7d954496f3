"""Checks of wall plates against the International Residential Code, 2015 to 2024; the local code comes first."""

import pytest
from msgspec.structs import replace
from tests.published.plain import feet, opening, plain_wall, with_role

from wallwright.domain.framed import layout
from wallwright.domain.wall import Plates, Run, Site
from wallwright.findings import PlanRefused
from wallwright.lengths import INCH, inches
from wallwright.operations.converters import CONVERTERS
from wallwright.published import plates as published

EDITIONS = ("irc-2015", "irc-2018", "irc-2021", "irc-2024")


def finding(laid, code):
    return next(f for f in laid.findings if f.code == code)


@pytest.mark.parametrize("length", [20, 28, 34, 50])
@pytest.mark.parametrize("rules", EDITIONS)
def test_the_end_joints_of_a_double_top_plate_stand_24_in_apart(length: int, rules: str) -> None:
    # IRC 2015, 2018, 2021, 2024 R602.3.2: end joints at least 24 in apart.
    laid = layout(plain_wall(feet(length), plates=Plates(1, 2, feet(16)), rules=rules))
    tops, caps = with_role(laid, "top-plate"), with_role(laid, "cap-plate")
    assert len(tops) > 1
    assert min(abs(cap.x - top.x) for cap in caps[1:] for top in tops[1:]) >= inches("24")
    said = finding(laid, "plates-jointed")
    assert said.compared is not None
    assert said.compared.limit == inches("24") == published.END_JOINT_OFFSET
    assert said.compared.value >= said.compared.limit
    assert said.source is not None
    assert said.source.text() == f"International Residential Code, {rules[-4:]}, R602.3.2 and Table R602.3.2"


def test_a_plate_splice_laps_24_in_and_takes_8_nails_each_side() -> None:
    # IRC 2021 Table R602.3(1) item 14 (item 13 in 2015 and 2018): lap at least 24 in each side of the joint, 8 of 16d
    # common each side, 16 in all; or 12 of 16d box, 10d box or 3 x 0.131.
    assert published.SPLICE_NAILS == {"16d common": 8, "16d box": 12, "10d box": 12, "3 x 0.131": 12}
    assert 2 * published.SPLICE_NAILS["16d common"] == 16
    laid = layout(plain_wall(feet(30), plates=Plates(1, 2, feet(16))))
    caps = with_role(laid, "cap-plate")
    for top in with_role(laid, "top-plate")[1:]:
        assert any(cap.x <= top.x - 24 * INCH and cap.right >= top.x + 24 * INCH for cap in caps)


def test_an_offset_below_24_in_is_said() -> None:
    # IRC 2021 R602.3.2. The bays leave no joint of whole pieces within it but at 16 in.
    wall = plain_wall(feet(31), plates=Plates(1, 2, feet(16), inches("8")))
    codes = [f.code for f in layout(wall).findings]
    apart = finding(layout(wall), "plates-jointed").compared
    assert ("cap-offset-below-published" in codes) == (apart is not None and apart.value < 24 * INCH)
    assert "cap-offset-below-published" in codes


@pytest.mark.parametrize(
    ("seismic", "corner", "butt"),
    [
        # IRC Table R602.3.2 (2015 to 2024): 3 x 6 in with 6 of 8d box each side at corners and crossings, 3 x 12 with 12
        # at butt joints; 3 x 8 with 9 and 3 x 16 with 18 in D0 to D2 with braced lines 25 ft or more apart.
        (None, (3, 6, 6), (3, 12, 12)),
        ("C", (3, 6, 6), (3, 12, 12)),
        ("D1", (3, 8, 9), (3, 16, 18)),
    ],
)
def test_a_single_top_plate_is_tied(seismic: str | None, corner: tuple[int, ...], butt: tuple[int, ...]) -> None:
    site = None if seismic is None else Site(seismic=seismic)
    said = finding(layout(plain_wall(feet(12), plates=Plates(1, 1), site=site)), "single-top-plate")
    values = dict(said.values)
    for name, (wide, long, nails) in (("corner", corner), ("butt", butt)):
        assert (values[f"{name}_width"], values[f"{name}_length"]) == (wide * INCH, long * INCH)
        assert values[f"{name}_nails"] == str(nails)
    # Rafters or joists within 1 in of the studs' centres; steel 0.036 in thick.
    assert values["near"] == INCH
    text = CONVERTERS["in"].finding(said).text
    assert "0.036 in" in text
    assert "was not checked" in text


def test_a_double_plate_asks_for_no_tie() -> None:
    assert "single-top-plate" not in {f.code for f in layout(plain_wall(feet(12))).findings}


def test_a_joint_beside_a_door_leaves_no_stump() -> None:
    # Common practice, no source: pieces under 24 in are avoided. A whole 8 ft from the left would end at 96 in, 9 in from
    # the door; the stud before it, at 80 in, costs no piece more.
    wall = plain_wall(feet(14), plates=Plates(1, 2, feet(8)), openings=(opening("105", "36", "80"),))
    first, second = with_role(layout(wall), "bottom-plate")
    assert first.right == inches("80")
    assert [(cut.left, cut.right) for cut in second.cut_outs] == [(inches("105"), inches("141"))]


def test_stock_that_cannot_be_jointed_names_the_one_that_can() -> None:
    # Derived: a door 10 ft wide has no stud within it; its kings' middles stand 120 + 2 x 2-1/4 = 124-1/2 in apart.
    wall = plain_wall(feet(20), plates=Plates(1, 2, feet(8)), openings=(opening("60", "120", "80"),))
    with pytest.raises(PlanRefused) as refused:
        layout(wall)
    (fault,) = refused.value.faults
    assert fault.code == "no-plate-joint"
    assert dict(fault.values)["least"].value == inches("124 1/2")
    layout(replace(wall, plates=Plates(1, 2, inches("124 1/2"))))


@pytest.mark.parametrize("rules", EDITIONS)
def test_a_lined_walls_stud_spaces_are_closed_at_least_every_10_ft_along_it(rules: str) -> None:
    # IRC 2015 to 2024 R602.8 to R302.11 item 1: at ceiling and floor levels, and level at intervals of 10 ft at most.
    said = finding(layout(plain_wall(feet(12), lining=True, rules=rules)), "fireblocking")
    assert said.compared is not None
    assert said.compared.limit == feet(10)
    assert said.source is not None
    assert said.source.text() == f"International Residential Code, {rules[-4:]}, R602.8 and R302.11"


@pytest.mark.parametrize(
    ("cut", "size", "said"),
    [("notch", "7/8", "run-compared"), ("notch", "15/16", "run-too-large"), ("bore", "1.4", "run-compared"),
     ("bore", "1 1/2", "run-too-large")],
)  # fmt: skip
def test_what_may_be_cut_out_of_a_2x4_that_bears(cut: str, size: str, said: str) -> None:
    # IRC 2015 to 2024 R602.6: notches to 25 %, holes in single studs to 40 % of the depth: 7/8 in and 1.4 in.
    laid = layout(plain_wall(feet(12), runs=(Run(cut, inches(size), 40 * INCH),)))  # type: ignore[arg-type]
    assert [f.code for f in laid.findings if f.about == "/runs/0"] == [said]
