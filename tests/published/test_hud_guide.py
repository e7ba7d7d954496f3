"""A floor joist worked in the HUD Residential Structural Design Guide, second edition, example 5.1.

It holds the beam formulas with which header rows are judged.
"""

from math import sqrt

import pytest
from tests.published.beams import inertia, section_modulus

# 2x8 at 16 in, live 30 psf, dead 10 psf; F_b 975 x 1.15 x 1.2, E 1.5e6.
LOAD, LIVE = 40 * 16 / 12 / 12, 30 * 16 / 12 / 12
S, INERTIA = section_modulus(1.5, 7.25), inertia(1.5, 7.25)
BENDING = 975 * 1.15 * 1.2


def test_section_and_stress() -> None:
    # HUD guide example 5.1: S 13.14 in^3, I 47.63 in^4, F'b 1345 psi.
    assert pytest.approx(13.14, abs=0.01) == S
    assert pytest.approx(47.63, abs=0.01) == INERTIA
    assert pytest.approx(1345, abs=1) == BENDING


def test_spans() -> None:
    # HUD guide example 5.1: bending 14 ft 10 in, shear 40.8 ft (75 psi doubled), bearing 45.6 ft (405 psi on 2 in),
    # live load at L/360 13.8 ft, and 12.5 ft for the stiffer floor (L/480 gives 12.57).
    bending = sqrt(8 * BENDING * S / LOAD) / 12
    shear = 2 * (2 / 3 * 150 * 1.5 * 7.25) / LOAD / 12
    bearing = 2 * (405 * 2 * 1.5) / LOAD / 12
    by_stiffness = [(384 * 1.5e6 * INERTIA / (5 * share * LIVE)) ** (1 / 3) / 12 for share in (360, 480)]
    assert bending == pytest.approx(14 + 10 / 12, abs=0.05)
    assert shear == pytest.approx(40.8, abs=0.05)
    assert bearing == pytest.approx(45.6, abs=0.05)
    assert by_stiffness[0] == pytest.approx(13.8, abs=0.05)
    assert by_stiffness[1] == pytest.approx(12.57, abs=0.05)
