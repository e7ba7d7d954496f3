"""Checks of anchor bolts against the International Residential Code R403.1.6, 2015 to 2024; the local code comes first.

The American Wood Council's answers on sill anchorage and 675 IAC 14-4.4-44 (Indiana) print the same distances.
"""

import pytest
from msgspec.structs import replace
from tests.published.plain import feet, opening, plain_wall, with_role

from wallwright.domain.framed import layout
from wallwright.domain.wall import Floor, Tape
from wallwright.findings import PlanRefused
from wallwright.lengths import inches

SLAB = Floor("slab")


def bolts(laid):
    return [anchor.x for anchor in laid.anchors]


def codes(laid):
    return {f.code for f in laid.findings}


@pytest.mark.parametrize(
    ("length", "count"),
    [
        # R403.1.6: end bolts 12 in from the ends; 96 - 24 = 72 in apart is just allowed.
        ("96", 2),
        # 97 - 24 = 73 in is more than 72.
        ("97", 3),
        # 144 - 24 = 120 in is two spaces.
        ("144", 3),
    ],
)
def test_a_single_piece_takes_as_many_bolts_as_6_ft_asks(length: str, count: int) -> None:
    laid = layout(plain_wall(inches(length), floor=SLAB))
    at = bolts(laid)
    assert len(at) == count
    assert max(b - a for a, b in zip(at, at[1:], strict=False)) <= inches("72")
    for end in (at[0], inches(length) - at[-1]):
        assert inches("3 1/2") <= end <= inches("12")
    assert not {c for c in codes(laid) if c.startswith("anchor")} - {"anchor-bolts"}


def test_bolts_are_counted_for_each_piece_once_the_door_is_cut() -> None:
    # R403.1.6: two bolts at least for each piece, one within 12 in of each end: 40 in left of the door, 66 in right of it.
    laid = layout(plain_wall(feet(12), floor=SLAB, openings=(opening("40", "38", "80"),)))
    assert [sum(a <= x <= b for x in bolts(laid)) for a, b in ((0, inches("40")), (inches("78"), feet(12)))] == [2, 2]
    assert all(plate.treated for plate in with_role(laid, "bottom-plate"))


@pytest.mark.parametrize(
    ("places", "code", "value", "limit"),
    [
        # R403.1.6, one fault at a time on a plate of 96 in.
        (("11", "84 1/2"), "anchors-too-far-apart", "73 1/2", "72"),
        (("13", "84"), "anchor-far-from-end", "13", "12"),
        (("3", "11", "60", "84"), "anchor-near-end", "3", "3 1/2"),
    ],
)
def test_cast_bolts_are_compared_with_the_published_distances(
    places: tuple[str, ...], code: str, value: str, limit: str
) -> None:
    floor = Floor("slab", anchors=tuple(inches(at) for at in places))
    laid = layout(plain_wall(inches("96"), floor=floor))
    assert bolts(laid) == [inches(at) for at in places]
    assert {anchor.origin for anchor in laid.anchors} == {"given"}
    found = next(f for f in laid.findings if f.code == code)
    assert found.compared is not None
    assert (found.compared.value, found.compared.limit) == (inches(value), inches(limit))
    assert found.source is not None
    assert found.source.text() == "International Residential Code, 2021, R403.1.6"


def test_a_piece_with_one_bolt_is_said() -> None:
    laid = layout(plain_wall(inches("20"), floor=Floor("slab", anchors=(inches("10"),))))
    found = next(f for f in laid.findings if f.code == "anchors-too-few")
    assert found.compared is not None
    assert (found.compared.value, found.compared.limit) == (1, 2)


@pytest.mark.parametrize(
    ("at", "code"),
    [
        # Common practice, no source: a nut needs room beside a stud, and nothing stands over it or in a doorway.
        ("32", "anchor-under-stud"),
        ("33 1/2", "anchor-beside-stud"),
        ("60", "anchor-in-doorway"),
    ],
)
def test_cast_bolts_in_the_way_are_said(at: str, code: str) -> None:
    floor = Floor("slab", anchors=(inches("10"), inches(at), inches("134")))
    laid = layout(plain_wall(feet(12), floor=floor, openings=(opening("45", "38", "80"),)))
    assert code in codes(laid)


@pytest.mark.parametrize("start", ["left", "right"])
def test_a_bolt_beyond_the_plate_is_refused_where_it_was_given(start: str) -> None:
    floor = Floor("slab", anchors=(inches("10"), inches("84"), inches("100")))
    wall = plain_wall(inches("96"), floor=floor)
    with pytest.raises(PlanRefused) as refused:
        layout(replace(wall, tape=Tape(start, "plate")))
    (fault,) = refused.value.faults
    assert fault.pointer == "/floor/anchors/2"
    assert dict(fault.values)["given"] == inches("100")
