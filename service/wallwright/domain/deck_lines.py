"""The chalk lines of a building on its deck as measured: where each wall's plate goes, and what to do at the edges."""

from math import hypot

import msgspec
from msgspec.structs import replace

from wallwright.domain.squaring.deck import Deck, Measured, survey
from wallwright.domain.squaring.notes import deck_findings
from wallwright.domain.squaring.placing import EdgeWork, Overhang, Placing
from wallwright.domain.squaring.shifting import best_shift
from wallwright.findings import Fault, Finding, PlanRefused


class DeckLines(msgspec.Struct, frozen=True):
    """Where the framing lines lie from each corner of the deck, what each edge takes, and how the rectangle was shifted.

    A mark's figures are how far the deck sticks out past the line there: above 0 the line lies in from the edge, below 0 it
    lies past it. ``shift_right`` and ``shift_back`` lead from the placing that shares the error evenly.
    """

    deck: Deck
    marks: tuple[Overhang, ...]
    edges: tuple[EdgeWork, ...]
    shift_right: int
    shift_back: int
    diagonal: int
    rise: int | None
    findings: tuple[Finding, ...]


def deck_lines(deck: Deck, width: int, depth: int, hanging: frozenset[str]) -> DeckLines:
    """The lines of a framing rectangle on a deck; ``hanging`` names the sides whose sheets hang past the plate.

    Raises PlanRefused for lengths that make no deck.
    """
    try:
        found = survey(replace(deck, wanted=(width, depth)))
    except PlanRefused as refused:
        raise PlanRefused(tuple(Fault(f.code, f"/deck{f.pointer}", f.values) for f in refused.faults)) from refused
    placing = found.placing
    if placing is None:
        raise ValueError("a deck with a rectangle wanted has a placing")
    shift = best_shift(placing, hanging)
    return DeckLines(
        deck, shift.overhangs, shift.edges, shift.right, shift.back, round(hypot(width, depth)), found.rise,
        _findings(found, replace(placing, overhangs=shift.overhangs, edges=shift.edges)),
    )  # fmt: skip


def _findings(found: Measured, placing: Placing) -> tuple[Finding, ...]:
    """The deck's findings, at the building's fields."""
    told = deck_findings(found.consistency, placing, found.rise or 0)
    return tuple(
        replace(finding, about="/footprint" if finding.about == "/wanted" else f"/deck{finding.about}")
        for finding in told
    )
