"""The chalk lines of a building on its deck as measured: where each wall's plate goes, and what to do at the edges.

A sheet that hangs past the plate needs the deck's edge at or inside the framing line. So the rectangle, laid on the deck as
near as may be, is shifted to an edge where that saves trimming another.
"""

from math import hypot

import msgspec
from msgspec.structs import replace

from wallwright.domain.squaring.deck import Deck, Measured, survey
from wallwright.domain.squaring.notes import deck_findings
from wallwright.domain.squaring.placing import EDGES, NO_WORK, EdgeWork, Overhang, Placing, edges_of
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
    right, back, marks = _best(placing, hanging)
    edges = _edges(marks, hanging)
    return DeckLines(
        deck, marks, edges, right, back, round(hypot(width, depth)), found.rise,
        _findings(found, replace(placing, overhangs=marks, edges=edges)),
    )  # fmt: skip


def _best(placing: Placing, hanging: frozenset[str]) -> tuple[int, int, tuple[Overhang, ...]]:
    """The shift to the right and to the back with the fewest edges to trim, then to shim, then the least shift."""
    sides = {
        name: max(edge.at_start, edge.at_end) if name in hanging else 0
        for name, edge in zip(EDGES, placing.edges, strict=True)
    }
    across = {0, max(0, sides["right"]), -max(0, sides["left"])}
    along = {0, max(0, sides["back"]), -max(0, sides["front"])}

    def cost(shift: tuple[int, int]) -> tuple[int, int, int, int, int]:
        works = [edge.work for edge in _edges(shifted(placing.overhangs, *shift), hanging)]
        trims = sum(work.startswith("trim") for work in works)
        return trims, sum("shim" in work for work in works), abs(shift[0]) + abs(shift[1]), *shift

    right, back = min(((x, y) for x in across for y in along), key=cost)
    return right, back, shifted(placing.overhangs, right, back)


def shifted(overhangs: tuple[Overhang, ...], right: int, back: int) -> tuple[Overhang, ...]:
    """What sticks out at each corner once the rectangle has moved to the right and to the back."""
    return tuple(
        Overhang(
            one.corner,
            one.sideways + (-right if one.corner.endswith("right") else right),
            one.endways + (-back if one.corner.startswith("back") else back),
        )
        for one in overhangs
    )


def _edges(marks: tuple[Overhang, ...], hanging: frozenset[str]) -> tuple[EdgeWork, ...]:
    """What each edge takes: where no sheet hangs past the plate, a proud edge is in nobody's way."""
    return tuple(
        edge if edge.edge in hanging else replace(edge, work="shim" if _is_short(edge) else "leave")
        for edge in edges_of(marks)
    )


def _is_short(edge: EdgeWork) -> bool:
    return min(edge.at_start, edge.at_end) < -NO_WORK


def _findings(found: Measured, placing: Placing) -> tuple[Finding, ...]:
    """The deck's findings, at the building's fields."""
    told = deck_findings(found.consistency, placing, found.rise or 0)
    return tuple(
        replace(finding, about="/footprint" if finding.about == "/wanted" else f"/deck{finding.about}")
        for finding in told
    )
