"""Every refusal is just, tells all faults at once, and what it offers works.

The rules against which refusals are held are common practice, no source: jacks carry the header, a king or the
end's post stands beside them, and the header lies below the plates.
"""

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from msgspec.structs import replace
from tests.property.refusals import careless_sloped_walls, careless_walls, faults_of, mended, unjust
from tests.strategies.walls import SIXTEENTH, with_openings

from wallwright.domain.stock import NOMINAL
from wallwright.domain.wall import Header, Opening, Wall
from wallwright.findings import Offer
from wallwright.lengths import INCH, MILLIMETRE, measure_of_text
from wallwright.operations.converters import CONVERTERS

ANY = settings(deadline=None, suppress_health_check=list(HealthCheck))
PLACED = ("opening-outside-wall", "openings-collide", "opening-too-near-end", "openings-too-near")


@ANY
@given(careless_walls() | careless_sloped_walls())
def test_what_a_refusal_offers_works_all_at_once(wall):
    faults = faults_of(wall)
    again = mended(wall, faults)
    assert not faults_of(again), (faults, faults_of(again))


@ANY
@given(careless_walls())
def test_every_refusal_is_borne_out_by_the_plain_rules(wall):
    assert not unjust(wall, faults_of(wall))


@ANY
@given(careless_walls() | careless_sloped_walls())
def test_each_field_is_told_once(wall):
    pointers = [fault.pointer for fault in faults_of(wall)]
    assert len(pointers) == len(set(pointers))


def _with_header(wall: Wall) -> Wall:
    """The wall with doors that have a header of their own, so that none is framed within one bay."""
    header = Header(NOMINAL["2x4"], 1)
    high = wall.stud_top - 4 * INCH
    return with_openings(wall, tuple(Opening(o.name, o.left, o.width, high, 0, header, o.jacks) for o in wall.openings))


@ANY
@given(careless_walls(), st.data())
def test_no_nearer_place_works(wall, data):
    wall = _with_header(wall)
    faults = [fault for fault in faults_of(wall) if fault.pointer.startswith("/openings/")]
    if len(faults) != 1:
        return
    (fault,) = faults
    index = int(fault.pointer.split("/")[2])
    one = wall.openings[index]
    if fault.code in PLACED:
        reach = abs(dict(fault.values)["nearest"].value - one.left)
        nearer = data.draw(st.integers(one.left - reach + 1, one.left + reach - 1))
    else:
        nearer = data.draw(st.integers(-one.width, wall.length + one.width))
    moved = [replace(o, left=nearer) if number == index else o for number, o in enumerate(wall.openings)]
    assert faults_of(with_openings(wall, tuple(moved)))


@given(st.integers(-(10**9), 10**9), st.integers(0, 2 * SIXTEENTH), st.integers(0, 2 * SIXTEENTH), st.booleans())
def test_an_offer_is_written_so_that_it_works(value, below, above, metric):
    units = "mm" if metric else "in"
    offer = Offer(value, value - below, value + above)
    read = measure_of_text(CONVERTERS[units].offered(offer)).on_grid(units)
    assert offer.least <= read <= offer.most
    assert abs(read - value) < (MILLIMETRE if metric else SIXTEENTH)
