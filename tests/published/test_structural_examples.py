"""Two published structural wood design examples, their numbers as encoded in an open test suite of finite elements."""

from math import sqrt

import pytest
from tests.published.beams import combined, euler, inertia, moment, section_modulus, stability


def test_a_stud_in_wind() -> None:
    # 2x6 southern pine No. 1, 9 ft, 25 psf on 4 ft, dead 560 lb, snow 840 lb, CD 1.6: F_cE 1237, F*c 2480,
    # CP 0.43, F'c 1073, F'b 2160, combined 0.89.
    critical, reference = euler(580_000, 108 / 5.5), 1550 * 1.6
    factor = stability(critical, reference, 0.8)
    assert critical == pytest.approx(1237, abs=1)
    assert reference == 2480
    assert factor == pytest.approx(0.43, abs=0.01)
    assert factor * reference == pytest.approx(1073, abs=1)
    bending = moment(100 / 12, 108) / section_modulus(1.5, 5.5)
    found = combined((560 + 840) / (1.5 * 5.5), factor * reference, bending, 1350 * 1.6, critical)
    assert found == pytest.approx(0.89, abs=0.01)


def test_a_slender_beam() -> None:
    # 3-1/2 x 15-1/4, effective length 375 in, Fb 1500, Emin 690000: A 53.38, S 135.66, I 1034, RB 21.6, CL 0.876,
    # F'b 1313.
    slenderness = sqrt(375 * 15.25 / 3.5**2)
    factor = stability(1.2 * 690_000 / slenderness**2, 1500, 0.95)
    area = 3.5 * 15.25
    assert area == pytest.approx(53.38, abs=0.01)
    assert section_modulus(3.5, 15.25) == pytest.approx(135.66, abs=0.01)
    assert inertia(3.5, 15.25) == pytest.approx(1034, abs=1)
    assert slenderness == pytest.approx(21.6, abs=0.01)
    assert factor == pytest.approx(0.876, abs=0.01)
    assert factor * 1500 == pytest.approx(1313, abs=1)
