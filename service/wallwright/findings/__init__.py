"""What the service has to say about a plan: findings, and faults that leave no wall to compute.

The domain makes both as data: a code and the values that its text speaks of. Texts stand in
one catalogue here, with the page that explains each code; lengths in them are grid integers
and become tape text in the caller's units where the answer is written. A text may change
within v1, a code may not.
"""

from typing import Final

import msgspec

from wallwright.findings.buying import BUYING_KINDS
from wallwright.findings.cuts import CUT_KINDS
from wallwright.findings.fasteners import FASTENER_KINDS
from wallwright.findings.faults import FAULTS
from wallwright.findings.inside import INSIDE_KINDS
from wallwright.findings.kind import FaultKind, Kind
from wallwright.findings.plates import PLATE_KINDS
from wallwright.findings.raising_bracing import BRACING_KINDS
from wallwright.findings.raising_hands import HAND_KINDS
from wallwright.findings.raising_holding import HOLDING_KINDS
from wallwright.findings.sizes import SIZE_KINDS
from wallwright.findings.squaring import SQUARING_KINDS
from wallwright.findings.walls import WALL_KINDS
from wallwright.sources import Source

__all__ = [
    "FAULTS", "KINDS", "Compared", "Fault", "FaultKind", "Finding", "Kind", "Offer", "PlanRefused", "Value", "at_least", "at_most",
]  # fmt: skip


class Offer(msgspec.Struct, frozen=True, gc=False):
    """A length that would work where a given one does not, and how far it may be rounded for a tape.

    ``least`` and ``most`` bound what works; None is no bound on that side.
    """

    value: int
    least: int | None = None
    most: int | None = None

    def moved(self, by: int) -> "Offer":
        """The same offer reckoned from another point, ``by`` to the left of the first."""
        return Offer(
            self.value + by,
            None if self.least is None else self.least + by,
            None if self.most is None else self.most + by,
        )

    def mirrored(self, whole: int) -> "Offer":
        """The same offer reckoned backwards from a point that lies ``whole`` from the first."""
        return Offer(
            whole - self.value,
            None if self.most is None else whole - self.most,
            None if self.least is None else whole - self.least,
        )


def at_least(length: int) -> Offer:
    """The offer of a length or anything longer; a tape text rounds up."""
    return Offer(length, least=length)


def at_most(length: int) -> Offer:
    """The offer of a length or anything shorter; a tape text rounds down."""
    return Offer(length, most=length)


Value = int | str | Offer | tuple[int | str, ...]
"""A value in a text: an int is a length on the grid, a str is written as it stands, an offer is rounded to what works.

A tuple is told one after another, without anything between."""


class Compared(msgspec.Struct, frozen=True, gc=False):
    """Two figures that were compared; ``unit`` is ``length`` for grid lengths, else a unit's name."""

    value: float | int
    limit: float | int
    unit: str


class Finding(msgspec.Struct, frozen=True):
    """One thing to say about a plan. ``about`` is a JSON pointer into the completed wall or building."""

    code: str
    about: str
    values: tuple[tuple[str, Value], ...] = ()
    members: tuple[str, ...] = ()
    source: Source | None = None
    compared: Compared | None = None

    @property
    def kind(self) -> Kind:
        """The catalogue's entry for this finding's code."""
        return KINDS[self.code]


class Fault(msgspec.Struct, frozen=True):
    """Why no wall can be computed: ``pointer`` names the field, ``values`` what the text speaks of."""

    code: str
    pointer: str
    values: tuple[tuple[str, Value], ...] = ()


class PlanRefused(Exception):
    """A plan that keeps the schema and has no place in the wall; carries every fault found."""

    def __init__(self, faults: tuple[Fault, ...]) -> None:
        super().__init__(", ".join(f"{fault.pointer}: {fault.code}" for fault in faults))
        self.faults = faults


KINDS: Final[dict[str, Kind]] = {
    **WALL_KINDS,
    **PLATE_KINDS,
    **INSIDE_KINDS,
    **CUT_KINDS,
    **SIZE_KINDS,
    **SQUARING_KINDS,
    **HAND_KINDS,
    **HOLDING_KINDS,
    **BRACING_KINDS,
    **FASTENER_KINDS,
    **BUYING_KINDS,
}  # fmt: skip
"""Every finding's kind by its code."""
