"""Closed-form formulas of simple beams and columns, for judging printed tables. Pounds, inches, psi.

Source: USDA Forest Products Laboratory, Wood Handbook, chapter 8 (beams); the column and beam stability factors
are those of the National Design Specification for Wood Construction, c = 0.8 and 0.95. The published examples
in the tests beside this module hold them.
"""

from math import sqrt


def moment(load: float, span: float) -> float:
    """Bending moment at the middle of a simple beam under an even load, in in-lb."""
    return load * span**2 / 8


def deflection(load: float, span: float, modulus: float, inertia: float) -> float:
    """Deflection at the middle of a simple beam under an even load, in in."""
    return 5 * load * span**4 / (384 * modulus * inertia)


def section_modulus(thickness: float, depth: float) -> float:
    """Of a rectangle, in in^3."""
    return thickness * depth**2 / 6


def inertia(thickness: float, depth: float) -> float:
    """Of a rectangle, in in^4."""
    return thickness * depth**3 / 12


def euler(modulus_min: float, slenderness: float) -> float:
    """The critical buckling stress F_cE."""
    return 0.822 * modulus_min / slenderness**2


def stability(critical: float, reference: float, c: float) -> float:
    """Column (c = 0.8) or beam (c = 0.95) stability factor."""
    ratio = critical / reference
    middle = (1 + ratio) / (2 * c)
    return middle - sqrt(middle**2 - ratio / c)


def combined(axial: float, allowed_axial: float, bending: float, allowed_bending: float, critical: float) -> float:
    """Utilization under axial load and bending across the wall."""
    return (axial / allowed_axial) ** 2 + bending / (allowed_bending * (1 - axial / critical))
