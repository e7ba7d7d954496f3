"""What is to be said about a frame or a deck that was measured."""

from typing import TYPE_CHECKING, Final

from wallwright.domain.squaring.doubt import LIMIT_SOURCE, Consistency
from wallwright.domain.squaring.placing import EdgeWork, Placing
from wallwright.domain.squaring.shifting import Shift
from wallwright.domain.squaring.standing import Plumb, PlumbFigure, SheetFigure
from wallwright.findings import Compared, Finding, Value, at_most
from wallwright.lengths import INCH
from wallwright.published.tolerances import ROUGH_FRAMING

if TYPE_CHECKING:
    from wallwright.domain.squaring.frame import Frame

FAR_OUT: Final = 2
"""So many times past the widest tolerance something is wrong that plumbing does not mend (common practice, no source)."""
LEVEL_LIMIT: Final = INCH // 4
"""Corners of a deck that differ more in height are told: rough framing's 1/4 in (see ROUGH_FRAMING)."""
SHIM_MOST: Final = 3 * INCH // 4
"""An edge out by more is not mended by shim or trim: half a rim's thickness (common practice, no source)."""
BEARING_LOST: Final = 7 * INCH // 4
"""An edge short by more leaves half of a 3-1/2 in plate on nothing (common practice, no source)."""
WORDS: Final = {
    "width": "the bottom plate", "height": "the left side", "top": "the top plate", "right": "the right side",
    "rising": "the rising diagonal", "falling": "the falling diagonal",
}  # fmt: skip


def contradiction(closing: Consistency, about: str, words: dict[str, str]) -> list[Finding]:
    """That the lengths contradict one another past what the tape explains, with the likeliest slip."""
    if closing.explained:
        return []
    suspect = closing.suspects[0] if closing.suspects else None
    values: tuple[tuple[str, Value], ...] = (
        ("contradiction", abs(closing.contradiction)),
        ("explained", closing.explained_by_tape),
        ("suspect", "any of them" if suspect is None else words.get(suspect.name, suspect.name)),
        ("reads", "another figure" if suspect is None else suspect.reads),
    )
    figures = Compared(closing.statistic, closing.limit, "standard errors")
    return [Finding("measurements-contradict", about, values, source=LIMIT_SOURCE, compared=figures)]


def frame_findings(
    frame: "Frame",
    verdict: str,
    difference: int,
    lean: int,
    closing: Consistency,
    sheet: SheetFigure | None,
    plumb: PlumbFigure | None,
) -> tuple[Finding, ...]:
    """Findings about a frame, the gravest first."""
    found = [] if verdict == "not-level" else contradiction(closing, "", WORDS)
    if verdict == "not-level":
        values: tuple[tuple[str, Value], ...] = (("left", frame.height), ("right", frame.far_sides[1]))
        found.append(Finding("frame-not-level", "/right", values))
    if verdict == "recut":
        found += _unequal(frame)
    if verdict == "rack":
        found.append(_rack(frame, difference, lean))
    if 0 < abs(difference) <= 2 * frame.tape.reading:
        found.append(Finding("difference-may-be-reading", "/falling", (("difference", abs(difference)),)))
    if frame.top is None and verdict != "measure-again":
        found.append(Finding("opposite-sides-not-measured", "/top"))
    if sheet is not None and abs(sheet.diagonals_say_more) > frame.tolerance:
        values = (("sheet", sheet.lean), ("diagonals", lean))
        found.append(Finding("sheet-and-diagonals-differ", "/sheet", values))
    if plumb is not None and frame.plumb is not None:
        found += _plumb(frame.plumb, plumb)
        found.append(Finding("brace-while-plumbing", "/plumb"))
    found += [Finding("rack-with-care", ""), Finding("squaring-not-checked", "")]
    return tuple(found)


def _plumb(asked: Plumb, plumb: PlumbFigure) -> list[Finding]:
    """That a wall stands out of plumb by more than the closest published tolerance, and which way it goes back."""
    broken = [row for row in plumb.compared if not row.within]
    if not broken:
        return []
    row = broken[-1]
    values: tuple[tuple[str, Value], ...] = (
        ("offset", row.value), ("over", asked.over), ("limit", at_most(row.limit)), ("leans", plumb.leans),
        ("top", abs(plumb.top)), ("back", "in" if plumb.leans == "out" else "out"),
    )  # fmt: skip
    code = "far-out-of-plumb" if row.value > FAR_OUT * max(one.limit for one in plumb.compared) else "out-of-plumb"
    return [Finding(code, "/plumb", values, source=row.source, compared=Compared(row.value, row.limit, "length"))]


def _rack(frame: "Frame", difference: int, lean: int) -> Finding:
    values: tuple[tuple[str, Value], ...] = (
        ("diagonal", "rising" if difference > 0 else "falling"),
        ("by", abs(difference) // 2),
        ("corner", "right" if difference > 0 else "left"),
        ("way", "left" if difference > 0 else "right"),
        ("push", abs(lean)),
    )
    figures = Compared(abs(difference), frame.tolerance, "length")
    return Finding("frame-out-of-square", "/rising", values, compared=figures)


def _unequal(frame: "Frame") -> list[Finding]:
    top, right = frame.far_sides
    found = []
    for name, one, other in (("top", frame.width, top), ("right", frame.height, right)):
        if abs(one - other) > frame.tolerance:
            values = (("one", one), ("other", other), ("difference", abs(one - other)))
            figures = Compared(abs(one - other), frame.tolerance, "length")
            found.append(Finding("opposite-sides-differ", f"/{name}", values, compared=figures))
    return found


def deck_findings(
    closing: Consistency, placing: Placing | None, rise: int, shift: Shift | None = None
) -> tuple[Finding, ...]:
    """Findings about a deck, the gravest first; ``rise`` is how much higher its highest corner is than its lowest.

    ``shift`` is offered where it saves work at the edges; None where the placing is shifted already.
    """
    found = contradiction(closing, "", {})
    # Nobody is told to cut a deck whose lengths contradict one another.
    if placing is not None and not found:
        if any(edge.work != "leave" for edge in placing.edges):
            found.append(Finding("snap-the-rectangle", "/wanted"))
        found += [finding for edge in placing.edges for finding in edge_findings(edge)]
        found += _shift(shift)
    if rise > LEVEL_LIMIT:
        figures = Compared(rise, LEVEL_LIMIT, "length")
        found.append(
            Finding("deck-not-level", "/levels", (("rise", rise),), source=ROUGH_FRAMING.source, compared=figures)
        )
    return (*found, Finding("deck-not-checked", ""))


def _shift(shift: Shift | None) -> list[Finding]:
    if shift is None or not (shift.right or shift.back):
        return []
    trims = sum(edge.work.startswith("trim") for edge in shift.edges)
    values: tuple[tuple[str, Value], ...] = (
        ("across", abs(shift.right)), ("way", "left" if shift.right < 0 else "right"),
        ("along", abs(shift.back)), ("end", "front" if shift.back < 0 else "back"), ("trims", str(trims)),
    )  # fmt: skip
    return [Finding("shift-the-rectangle", "/wanted", values)]


def edge_findings(edge: EdgeWork) -> list[Finding]:
    """What an edge that is proud or short takes, by how much it is."""
    about = f"/sides/{edge.edge}"
    found = []
    if edge.work in ("trim", "trim-and-shim"):
        corner = edge.start_corner if edge.at_start >= edge.at_end else edge.end_corner
        values = (("edge", edge.edge), ("most", max(edge.at_start, edge.at_end)), ("corner", corner))
        far = max(edge.at_start, edge.at_end) > SHIM_MOST
        found.append(Finding("deck-edge-far-proud" if far else "deck-edge-proud", about, values))
    if edge.work in ("shim", "trim-and-shim"):
        corner = edge.start_corner if edge.at_start <= edge.at_end else edge.end_corner
        values = (("edge", edge.edge), ("most", -min(edge.at_start, edge.at_end)), ("corner", corner))
        found.append(Finding(_short_code(-min(edge.at_start, edge.at_end)), about, values))
    return found


def _short_code(most: int) -> str:
    """What is told of an edge that lies inside the framing line, by how much of the plate would stand on nothing."""
    if most > BEARING_LOST:
        return "deck-too-small"
    return "deck-edge-lacks-bearing" if most > SHIM_MOST else "deck-edge-short"
