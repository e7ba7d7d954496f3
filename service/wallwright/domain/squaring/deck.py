"""A deck or slab as it was measured, seen from above with its front at the foot: is it a rectangle, and which fits.

Corners stand counter-clockwise from the front left, which is the origin; the front runs along x.
"""

from math import degrees
from typing import Final

import msgspec

from wallwright.domain.squaring.doubt import Consistency, consistency
from wallwright.domain.squaring.measured import CornerFigure, Corners, Measurement, TapeUse, measurements, on_grid
from wallwright.domain.squaring.notes import deck_findings
from wallwright.domain.squaring.placing import CORNERS, EDGES, Placing, placed
from wallwright.domain.squaring.quadrilateral import corner_degrees, crossing, fitted, is_flat
from wallwright.domain.squaring.rectangle import Rectangle, largest_rectangle
from wallwright.domain.squaring.shifting import Shift, best_shift
from wallwright.domain.squaring.standing import Compared, compared
from wallwright.findings import Fault, Finding, PlanRefused, Value
from wallwright.lengths import inches
from wallwright.published import tolerances
from wallwright.sources import COMMON_PRACTICE

DIAGONALS: Final = ("front_left_to_back_right", "front_right_to_back_left")
NAMES: Final = (*EDGES, *DIAGONALS)
DECK_DIAGONALS: Final = inches("1/4")
"""Difference of the diagonals that is let pass on a deck of about 20 ft: common practice, no source."""
_TRIANGLES: Final = ((4, 0, 1), (4, 2, 3), (5, 0, 3), (5, 1, 2))
"""A diagonal and the two sides that close with it, by index."""
_SWAPPED: Final = {(0, 2): ((0, 4), (2, 5)), (1, 3): ((1, 5), (3, 4))}
"""For two sides that cross: each beside the diagonal that would stand in its place."""


class Deck(msgspec.Struct, frozen=True):
    """What was measured of a deck, what is wanted on it, and how high its corners lie against any one level."""

    sides: tuple[int, int, int, int]
    diagonals: tuple[int, int]
    wanted: tuple[int, int] | None = None
    levels: tuple[int, int, int, int] | None = None
    tape: TapeUse = TapeUse()
    name: str = ""

    @property
    def lengths(self) -> tuple[int, ...]:
        """The six lengths in the order of `NAMES`."""
        return (*self.sides, *self.diagonals)


class LargestRectangle(msgspec.Struct, frozen=True):
    """The largest rectangle that lies wholly on the deck; its size is rounded down, since it must fit."""

    width: int
    depth: int
    corners: Corners
    angle_degrees: float


class Measured(msgspec.Struct, frozen=True):
    """What the measurements say, on the grid. ``rise`` is None where no levels were given."""

    deck: Deck
    corners: tuple[CornerFigure, ...]
    measurements: tuple[Measurement, ...]
    consistency: Consistency
    largest_rectangle: LargestRectangle
    placing: Placing | None
    shift: Shift | None
    compared: tuple[Compared, ...]
    rise: int | None
    findings: tuple[Finding, ...]


def survey(deck: Deck) -> Measured:
    """Adjust a deck's six lengths and fit rectangles to it. Raises PlanRefused for lengths that make no deck."""
    faults = _impossible(deck)
    if faults:
        raise PlanRefused(tuple(faults))
    fit = fitted(deck.lengths, [deck.tape.sigma(length) for length in deck.lengths])
    if fit is None or is_flat(fit.points):
        raise PlanRefused((_flat(deck),))
    crossed = crossing(fit.points)
    if crossed is not None:
        raise PlanRefused(_crossed(deck, crossed))
    closing = consistency(NAMES, deck.lengths, fit, ((0, 2), (1, 3), (4, 5)), ())
    placing = None if deck.wanted is None else placed(fit.points, *deck.wanted)
    shift = None if placing is None else best_shift(placing)
    rise = None if deck.levels is None else max(deck.levels) - min(deck.levels)
    angles = corner_degrees(fit.points)
    return Measured(
        deck,
        tuple(
            CornerFigure(name, x, y, round(angle, 6))
            for name, (x, y), angle in zip(CORNERS, on_grid(fit.points), angles, strict=True)
        ),
        measurements(NAMES, deck.lengths, deck.tape, fit),
        closing,
        _fits(largest_rectangle(fit.points)),
        placing,
        shift,
        _compared(deck, rise),
        rise,
        deck_findings(closing, placing, rise or 0, shift),
    )


def _fits(found: Rectangle) -> LargestRectangle:
    return LargestRectangle(int(found.width), int(found.depth), on_grid(found.points), round(degrees(found.angle), 6))


def _impossible(deck: Deck) -> list[Fault]:
    """Diagonals that do not close with two sides, by more than the tape explains."""
    lengths = deck.lengths
    told: dict[int, Fault] = {}
    for diagonal, one, other in _TRIANGLES:
        given, a, b = lengths[diagonal], lengths[one], lengths[other]
        slack = sum(deck.tape.permissible(length) + deck.tape.reading for length in (given, a, b))
        least, most = abs(a - b), a + b
        if diagonal in told or least - slack <= given <= most + slack:
            continue
        values: tuple[tuple[str, Value], ...] = (
            ("given", given), ("one", EDGES[one]), ("other", EDGES[other]), ("least", least), ("most", most),
            ("nearest", least if given < least else most),
        )  # fmt: skip
        told[diagonal] = Fault("lengths-do-not-close", f"/diagonals/{NAMES[diagonal]}", values)
    return list(told.values())


def _flat(deck: Deck) -> Fault:
    square = round((deck.sides[0] ** 2 + deck.sides[1] ** 2) ** 0.5)
    values = (("given", deck.diagonals[0]), ("nearest", square))
    return Fault("deck-flat", f"/diagonals/{DIAGONALS[0]}", values)


def _crossed(deck: Deck, crossed: tuple[int, int]) -> tuple[Fault, ...]:
    faults = []
    for side, diagonal in _SWAPPED[crossed]:
        values: tuple[tuple[str, Value], ...] = (
            ("given", deck.sides[side]),
            ("one", EDGES[crossed[0]]),
            ("other", EDGES[crossed[1]]),
            ("nearest", deck.lengths[diagonal]),
        )
        faults.append(Fault("sides-cross", f"/sides/{EDGES[side]}", values))
    return tuple(faults)


def _compared(deck: Deck, rise: int | None) -> tuple[Compared, ...]:
    """The difference of the diagonals and of the corners' heights, beside what is published and practised."""
    difference = deck.diagonals[0] - deck.diagonals[1]
    published = tolerances.layout(max(deck.sides))
    what = "difference of the diagonals"
    rows = [compared(what, difference, published.deviation, published.source)]
    rows.append(compared(f"{what}, deck of about 20 ft", difference, DECK_DIAGONALS, COMMON_PRACTICE))
    if rise is not None:
        flat = tolerances.ROUGH_FRAMING
        rows.append(compared("heights of the corners", rise, flat.deviation, flat.source))
    return tuple(rows)
