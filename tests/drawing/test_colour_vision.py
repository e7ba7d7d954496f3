"""No two roles of a drawing are told apart by colour alone, as two libraries of colour vision see them.

The sights: Machado, Oliveira and Fernandes, "A Physiologically-based Model for Simulation of Color Vision
Deficiency" (IEEE TVCG 15(6), 2009), at full severity, and Brettel, Vienot and Mollon (JOSA A 14(10), 1997).
The distance: CAM02-UCS. That colour may not be the only means: WCAG 2.2, criterion 1.4.1.
"""

import itertools
import json
import re

import msgspec
import numpy as np
import pytest
from colorspacious import cspace_convert, deltaE
from daltonlens.simulate import Deficiency, Simulator_Brettel1997, Simulator_Machado2009

from wallwright.drawing.style import STYLE
from wallwright.operations.examples import EXAMPLES
from wallwright.operations.table import OPERATIONS
from wallwright.wire.base import read_length

DRAWN = [operation for operation in OPERATIONS if operation.drawing]
APART = 5.0
"""The smallest distance at which two areas of one outline count as apart: five just noticeable steps, from memory."""
CLEAR = {"mask", "paper"}
"""Ground, not a role: nothing is read from it."""


def style() -> dict[str, dict[str, str]]:
    """What the style sheet says of each class."""
    rules = re.findall(r"\.ww-([a-z]+)\{([^}]*)\}", STYLE)
    return {name: dict(part.split(":") for part in said.split(";")) for name, said in rules if "font" not in said}


def rgb(colour: str) -> np.ndarray:
    digits = colour.removeprefix("#")
    digits = "".join(2 * digit for digit in digits) if len(digits) == 3 else digits
    return np.array([int(digits[at : at + 2], 16) for at in (0, 2, 4)], dtype=np.uint8)


def by_colorspacious(colour: np.ndarray) -> list[np.ndarray]:
    """As seen by the three kinds of dichromats."""
    kinds = ("protanomaly", "deuteranomaly", "tritanomaly")
    spaces = [{"name": "sRGB1+CVD", "cvd_type": kind, "severity": 100} for kind in kinds]
    return [np.clip(cspace_convert(colour / 255, space, "sRGB1"), 0, 1) * 255 for space in spaces]


def by_daltonlens(colour: np.ndarray) -> list[np.ndarray]:
    return [
        simulator.simulate_cvd(colour.reshape(1, 1, 3), kind, severity=1.0).reshape(3)
        for simulator in (Simulator_Machado2009(), Simulator_Brettel1997())
        for kind in (Deficiency.PROTAN, Deficiency.DEUTAN, Deficiency.TRITAN)
    ]


def in_grey(colour: np.ndarray) -> list[np.ndarray]:
    """As a black-and-white printer has it: by lightness alone."""
    lightness = cspace_convert(colour / 255, "sRGB1", "CIELab")[0]
    return [np.clip(cspace_convert([lightness, 0, 0], "CIELab", "sRGB1"), 0, 1) * 255]


def sights(colour: str) -> list[np.ndarray]:
    seen = rgb(colour)
    return [seen, *by_colorspacious(seen), *by_daltonlens(seen), *in_grey(seen)]


def distance(one: str, other: str) -> float:
    """The smallest distance of two colours under any sight."""
    return min(deltaE(a / 255, b / 255, "sRGB1") for a, b in zip(sights(one), sights(other), strict=True))


def line(said: dict[str, str]) -> tuple[bool, str | None, str | None]:
    """What is seen of a role without any colour: whether it is filled, its line's weight and dashes."""
    return said.get("fill") != "none", said.get("stroke-width"), said.get("stroke-dasharray")


def alike(one: dict[str, str], other: dict[str, str]) -> bool:
    """Whether a tone is all that tells two roles apart, and some sight loses it.

    Roles of one line and one tone (a member, a hole's edge) are told by their place and shape, not by colour.
    """
    tones = [(said.get("fill"), said.get("stroke")) for said in (one, other)]
    pairs = [(a, b) for a, b in zip(*tones, strict=True) if a and b and "none" not in (a, b)]
    return line(one) == line(other) and one != other and all(distance(a, b) < APART for a, b in pairs)


@pytest.mark.parametrize("operation", DRAWN, ids=lambda operation: operation.name)
def test_no_two_roles_of_a_drawing_are_told_apart_by_colour_alone(operation):
    body = json.dumps(EXAMPLES[operation.name]).encode()
    drawing = operation.drawing(msgspec.json.decode(body, type=operation.request, dec_hook=read_length))
    roles = set(re.findall(r'<path class="ww-([a-z]+)"', drawing)) - CLEAR
    said = style()
    assert len(roles) > 1
    assert [pair for pair in itertools.combinations(sorted(roles), 2) if alike(said[pair[0]], said[pair[1]])] == []


def test_every_tone_is_seen_the_same_by_every_eye():
    tones = {value for said in style().values() for value in said.values() if value.startswith("#")}
    assert len(tones) > 4
    for tone in tones:
        for seen in sights(tone):
            assert deltaE(rgb(tone) / 255, seen / 255, "sRGB1") < 2, tone


def test_the_sights_see_what_they_should():
    # Red and green of one lightness: apart for most, nearly one for who lacks the long or middle cones.
    assert deltaE(rgb("#b35900") / 255, rgb("#5c8000") / 255, "sRGB1") > 20
    assert distance("#b35900", "#5c8000") < 10
    assert not alike({"fill": "none", "stroke-width": ".5"}, {"fill": "none", "stroke-width": ".25"})
    assert alike({"fill": "#b35900", "stroke-width": ".5"}, {"fill": "#b45a00", "stroke-width": ".5"})
