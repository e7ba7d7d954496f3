"""Header rows of IRC Table R602.7(1) against the simple-beam formulas: the order of magnitude, no more.

Assumed, from memory and common practice, since the code does not print its own: roof and ceiling dead load 20 psf;
snow as printed, on half the building's width and a 2 ft overhang; No. 2 spruce-pine-fir, Fb 875 psi, Fv 135 psi,
E 1.4e6; size factors 1.5, 1.3, 1.2, 1.1, 1.0 for 2x4 to 2x12; load duration 1.15; no repetitive-member factor.
"""

import pytest
from tests.published.beams import deflection, inertia, moment, section_modulus
from tests.published.plain import feet

from wallwright.lengths import INCH
from wallwright.published import headers

DEPTH = {"2x4": 3.5, "2x6": 5.5, "2x8": 7.25, "2x10": 9.25, "2x12": 11.25}
SIZE_FACTOR = {"2x4": 1.5, "2x6": 1.3, "2x8": 1.2, "2x10": 1.1, "2x12": 1.0}


@pytest.mark.parametrize("snow", [30, 50, 70])
@pytest.mark.parametrize("width", [12, 24, 36])
@pytest.mark.parametrize(
    ("plies", "size"), [(2, "2x4"), (2, "2x6"), (2, "2x8"), (2, "2x10"), (2, "2x12"), (3, "2x10"), (4, "2x12")]
)
def test_a_printed_span_is_near_what_bending_allows(plies: int, size: str, width: int, snow: int) -> None:
    read = headers.read("irc-2021", "roof", headers.Size(plies, size), snow, feet(width))
    span, depth, thick = read.span / INCH, DEPTH[size], 1.5 * plies
    load = (20 + snow) * (width / 2 + 2) / 12
    bending = moment(load, span) / section_modulus(thick, depth) / (875 * SIZE_FACTOR[size] * 1.15)
    shear = 1.5 * (load * span / 2 - load * depth) / (thick * depth) / (135 * 1.15)
    assert 0.5 < max(bending, shear) < 1.35
    assert deflection(load, span, 1.4e6, inertia(thick, depth)) < span / 180


def test_jack_studs_bear_what_the_header_brings() -> None:
    # The same assumptions, F_c perpendicular 425 psi on 1-1/2 in a jack: printed numbers bear within a third.
    for snow in (30, 50, 70):
        for width in (12, 24, 36):
            read = headers.read("irc-2021", "roof", headers.Size(2, "2x12"), snow, feet(width))
            reaction = (20 + snow) * (width / 2 + 2) / 12 * (read.span / INCH) / 2
            assert reaction / (425 * 3 * 1.5 * read.jacks) < 1.35
