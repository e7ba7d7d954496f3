"""Stud walls worked in public permit records of the City of Everett, Washington: 1930816 p. 80 and 1939503 p. 70.

They follow the National Design Specification of 2018 and hold the formulas with which studs are judged.
"""

import pytest
from tests.published.beams import combined, deflection, euler, inertia, moment, section_modulus, stability


class Stud:
    """A stud-grade spruce-pine-fir stud of 9 ft: Fb 675, Fc 725, E 1.2e6, Emin 440000, Cr 1.15."""

    def __init__(self, depth: float, spacing: float, axial_factor: float, bending_factor: float) -> None:
        self.depth, self.feet = depth, spacing / 12
        self.area, self.modulus = 1.5 * depth, section_modulus(1.5, depth)
        self.axial, self.bending = 725 * axial_factor, 675 * bending_factor * 1.15
        self.critical = euler(440_000, 108 / depth)

    def compression(self, plf: float) -> float:
        return plf * self.feet / self.area

    def allowed(self, duration: float) -> float:
        reference = self.axial * duration
        return reference * stability(self.critical, reference, 0.8)

    def flexure(self, psf: float) -> float:
        return moment(psf * self.feet / 12, 108) / self.modulus

    def with_wind(self, plf: float, psf: float) -> float:
        allowed = self.bending * 1.6
        return combined(self.compression(plf), self.allowed(1.6), self.flexure(psf), allowed, self.critical)

    def alone(self, plf: float, duration: float) -> float:
        return self.compression(plf) / self.allowed(duration)


A = Stud(5.5, 24, 1.0, 1.0)
C = Stud(3.5, 16, 1.05, 1.1)


def test_wall_a() -> None:
    # Record 1930816 p. 80, 2x6 at 24 in, D 683, L 960, S 538 plf, 15 psf: 0.53, 0.92, 0.72, 0.71.
    assert A.with_wind(683, 15) == pytest.approx(0.53, abs=0.01)
    assert A.with_wind(683 + 0.75 * (960 + 538), 0.75 * 15) == pytest.approx(0.92, abs=0.01)
    assert A.alone(683 + 0.75 * (960 + 538), 1.15) == pytest.approx(0.72, abs=0.01)
    assert A.alone(683 + 960, 1.0) == pytest.approx(0.71, abs=0.01)


def test_wall_a_bends_and_bears() -> None:
    # The same: 0.18 in against L/240 = 0.45; plate bearing 0.87 (405 psi) and 0.56 (625 psi), factor 1.25.
    bend = deflection(15 * 2 / 12, 108, 1.2e6, inertia(1.5, 5.5))
    assert bend == pytest.approx(0.18, abs=0.01)
    assert bend < 108 / 240
    stress = A.compression(683 + 0.75 * (960 + 538))
    assert stress / (405 * 1.25) == pytest.approx(0.87, abs=0.01)
    assert stress / (625 * 1.25) == pytest.approx(0.56, abs=0.01)


def test_wall_c() -> None:
    # Record 1939503 p. 70, 2x4 at 16 in, D 338, L 900 plf, 5 psf: 0.31, 0.99, 0.76, 0.95.
    assert C.with_wind(338, 5) == pytest.approx(0.31, abs=0.01)
    assert C.with_wind(338 + 0.75 * 900, 0.75 * 5) == pytest.approx(0.99, abs=0.01)
    assert C.alone(338 + 0.75 * 900, 1.15) == pytest.approx(0.76, abs=0.01)
    assert C.alone(338 + 900, 1.0) == pytest.approx(0.95, abs=0.01)


def test_wall_c_bends_and_bears_and_the_larger_load_governs_its_bearing() -> None:
    # The same: 0.15 in against L/180 = 0.60; bearing printed 0.51 and 0.33 on D + 0.75 L. trap: D + L gives 0.62.
    assert deflection(5 * 16 / 12 / 12, 108, 1.2e6, inertia(1.5, 3.5)) == pytest.approx(0.15, abs=0.01)
    printed = C.compression(338 + 0.75 * 900)
    assert printed / (405 * 1.25) == pytest.approx(0.51, abs=0.01)
    assert printed / (625 * 1.25) == pytest.approx(0.33, abs=0.01)
    assert C.compression(338 + 900) / (405 * 1.25) == pytest.approx(0.62, abs=0.01)
