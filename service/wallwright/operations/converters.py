"""Units and tape text, applied in this one place: from the grid to what the caller reads, and back.

There is one converter for each system of units, made when the module is imported.
"""

from functools import lru_cache
from typing import Final

from wallwright.findings import FAULTS, Fault, Finding, Offer, Value
from wallwright.lengths import (
    GRID_PER_UNIT,
    MILLIMETRE,
    SIXTEENTH,
    Units,
    round_down,
    round_nearest,
    round_up,
    tape_text,
    to_number,
)
from wallwright.wire.answers import Compared, ErrorItem
from wallwright.wire.answers import Finding as WireFinding
from wallwright.wire.base import UNSET, Extent, Length, Offset

_KEPT: Final = 2048
"""How many lengths are kept as numbers."""
Points = tuple[tuple[int, int], ...]


class Converter:
    """Turns grid lengths into numbers, tape texts and the texts of findings, in one system of units."""

    def __init__(self, units: Units) -> None:
        self.units: Units = units
        self._scale = GRID_PER_UNIT[units]
        self._decimals = 7 if units == "in" else 5
        self._step = SIXTEENTH if units == "in" else MILLIMETRE
        # The same few lengths stand many times in one answer.
        self.number = lru_cache(_KEPT)(self._number)

    def _number(self, length: int) -> float:
        """A grid length as a number in these units, exact to the grid."""
        return round(length / self._scale, self._decimals)

    def tape(self, length: int) -> str:
        """A grid length as a person marks it."""
        return tape_text(length, self.units)

    def length(self, value: int) -> Length:
        """A grid length as a wire length greater than 0."""
        return Length(None, to_number(value, self.units))

    def extent(self, value: int) -> Extent:
        """A grid length as a wire length of 0 or more."""
        return Extent(None, to_number(value, self.units))

    def offset(self, value: int) -> Offset:
        """A grid length as a wire length that may be negative."""
        return Offset(None, to_number(value, self.units))

    def polygon(self, points: Points) -> list[list[float]]:
        """Points on the grid as pairs of numbers."""
        number = self.number
        return [[number(x), number(y)] for x, y in points]

    def filled(self, template: str, values: tuple[tuple[str, Value], ...]) -> str:
        """A text with its values: lengths become tape text, words stand as they are."""
        return template.format(**{name: self._said(value) for name, value in values})

    def _said(self, value: Value) -> str:
        if isinstance(value, str):
            return value
        if isinstance(value, tuple):
            return "".join(map(self._said, value))
        return self.tape(value) if isinstance(value, int) else self.offered(value)

    def exactly(self, length: int) -> str:
        """A grid length as tape text where a tape shows it, else in decimals to the grid."""
        if length % self._step == 0:
            return self.tape(length)
        decimals = f"{self.number(length):.{self._decimals}f}".rstrip("0")
        return f'{decimals}"' if self.units == "in" else f"{decimals} mm"

    def offered(self, offer: Offer) -> str:
        """An offer as a tape text that works: rounded to the tape the way that it may be, else exact."""
        for rounded in (round_nearest, round_up, round_down):
            length = rounded(offer.value, self._step)
            if (offer.least is None or offer.least <= length) and (offer.most is None or length <= offer.most):
                return self.tape(length)
        return self.exactly(offer.value)

    def finding(self, finding: Finding) -> WireFinding:
        """A finding as it travels."""
        kind = finding.kind
        compared = finding.compared
        source = finding.source or kind.source
        return WireFinding(
            level=kind.level,
            code=finding.code,
            about=finding.about,
            members=list(finding.members),
            text=self.filled(kind.text, finding.values),
            source=source.text(),
            compared=UNSET if compared is None else self._compared(compared.value, compared.limit, compared.unit),
        )

    def _compared(self, value: float, limit: float, unit: str) -> Compared:
        if unit == "length":
            return Compared(value=self.number(int(value)), limit=self.number(int(limit)), unit=self.units)
        return Compared(value=value, limit=limit, unit=unit)

    def fault(self, fault: Fault) -> ErrorItem:
        """A fault as one entry of a problem's errors. What was given stands as it was, not rounded into what works."""
        values = tuple(
            (name, self.exactly(value) if name == "given" and isinstance(value, int) else value)
            for name, value in fault.values
        )
        return ErrorItem(pointer=fault.pointer, code=fault.code, detail=self.filled(FAULTS[fault.code].text, values))


CONVERTERS: Final[dict[str, Converter]] = {"in": Converter("in"), "mm": Converter("mm")}
