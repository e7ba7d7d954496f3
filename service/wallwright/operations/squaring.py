"""Squaring a frame and a deck: wire request to domain, and back as JSON or drawing."""

from collections.abc import Sequence

from msgspec import UNSET

from wallwright.domain.squaring import deck as deck_domain
from wallwright.domain.squaring import frame as frame_domain
from wallwright.domain.squaring.doubt import Consistency
from wallwright.domain.squaring.measured import CornerFigure, Measurement
from wallwright.domain.squaring.placing import EdgeWork, Overhang, Placing
from wallwright.domain.squaring.shifting import Shift
from wallwright.domain.squaring.standing import Compared, PlumbFigure
from wallwright.drawing.deck import deck_drawing as drawn_deck
from wallwright.drawing.squaring import frame_drawing as drawn_frame
from wallwright.lengths import FOOT, INCH, MILLIMETRE, round_down
from wallwright.operations.canonical import digest, revision_of
from wallwright.operations.converters import CONVERTERS, Converter
from wallwright.operations.squaring_asked import to_deck, to_frame, wire_deck, wire_frame
from wallwright.wire import squaring as wire
from wallwright.wire import squaring_asked as wire_asked

_READING = {"in": INCH // 16, "mm": MILLIMETRE}
"""As a tape is read."""
_TRIANGLE_STEPS = {"in": (FOOT, 3 * INCH), "mm": (300 * MILLIMETRE, 100 * MILLIMETRE)}
"""A 3-4-5 triangle is laid out in whole feet, else in 3 in; or in whole 300 mm, else in 100 mm."""


def frame_answer(request: wire_asked.Frame) -> wire.FrameAnswer:
    """The frame squared, as it travels. Raises PlanRefused with every fault found."""
    found = _square(request)
    c = CONVERTERS[request.units]
    n = c.number
    sheet, plumb = found.sheet, found.plumb
    return wire.FrameAnswer(
        frame=wire_frame(c, found.frame),
        diagonal=n(found.diagonal),
        diagonal_tape=c.tape(found.diagonal),
        difference=n(found.difference),
        lean=n(found.lean),
        lean_tape=c.tape(found.lean),
        out_of_square_degrees=found.out_of_square_degrees,
        verdict=found.verdict,
        rack_until=UNSET if found.rack_until is None else n(found.rack_until),
        rack_until_tape=UNSET if found.rack_until is None else c.tape(found.rack_until),
        shorten=found.shorten,
        shorten_by=n(found.shorten_by),
        push=n(found.push),
        push_tape=c.tape(found.push),
        push_corner=found.push_corner,
        push_direction=found.push_direction,
        measurements=[_measurement(c, one) for one in found.measurements],
        consistency=_consistency(c, found.consistency),
        corners=[_corner(c, one) for one in found.corners],
        compared=[_compared(c, one) for one in found.compared],
        triangles=[wire.Triangle(n(t.along), n(t.up), n(t.across), c.tape(t.across)) for t in found.triangles],
        sheet=UNSET
        if sheet is None
        else wire.SheetFigure(n(sheet.lean), sheet.out_of_square_degrees, n(sheet.diagonals_say_more)),
        plumb=UNSET if plumb is None else _plumb_figure(c, plumb),
        findings=[c.finding(finding) for finding in found.findings],
    )


def frame_drawing(request: wire_asked.Frame) -> str:
    """The racked frame, as SVG."""
    found = _square(request)
    texts = [c.text for c in map(CONVERTERS[request.units].finding, found.findings)]
    return drawn_frame(found, request.units, revision_of(found.frame, request.units), texts)


def frame_identity(request: wire_asked.Frame) -> str:
    """The digest of the question's canonical form."""
    return digest(to_frame(request), request.units)


def deck_answer(request: wire_asked.Deck) -> wire.DeckAnswer:
    """The deck adjusted, as it travels. Raises PlanRefused with every fault found."""
    found = deck_domain.survey(to_deck(request))
    c = CONVERTERS[request.units]
    n = c.number
    largest = found.largest_rectangle
    step = _READING[request.units]
    rows = found.measurements
    return wire.DeckAnswer(
        deck=wire_deck(c, found.deck),
        corners=[_corner(c, one) for one in found.corners],
        adjusted=_figures(c, [row.adjusted for row in rows]),
        residuals=_figures(c, [row.residual for row in rows]),
        standard_errors=_figures(c, [row.standard_error for row in rows]),
        permissible_errors=_figures(c, [row.permissible_error for row in rows]),
        consistency=_consistency(c, found.consistency),
        largest_rectangle=wire.LargestRectangle(
            n(largest.width), c.tape(round_down(largest.width, step)), n(largest.depth),
            c.tape(round_down(largest.depth, step)), c.polygon(largest.corners), largest.angle_degrees,
        ),
        placing=UNSET if found.placing is None else _placing(c, found.placing),
        shift=UNSET if found.shift is None else _shift(c, found.shift),
        compared=[_compared(c, one) for one in found.compared],
        rise=UNSET if found.rise is None else n(found.rise),
        findings=[c.finding(finding) for finding in found.findings],
    )  # fmt: skip


def deck_drawing(request: wire_asked.Deck) -> str:
    """The deck with its rectangles, as SVG."""
    found = deck_domain.survey(to_deck(request))
    texts = [c.text for c in map(CONVERTERS[request.units].finding, found.findings)]
    return drawn_deck(found, request.units, revision_of(found.deck, request.units), texts)


def deck_identity(request: wire_asked.Deck) -> str:
    """The digest of the question's canonical form."""
    return digest(to_deck(request), request.units)


def _square(request: wire_asked.Frame) -> frame_domain.Squared:
    return frame_domain.square(to_frame(request), *_TRIANGLE_STEPS[request.units], _READING[request.units])


def _measurement(c: Converter, one: Measurement) -> wire.Measurement:
    n = c.number
    return wire.Measurement(
        one.name, n(one.measured), n(one.permissible_error), n(one.adjusted), n(one.residual), n(one.standard_error)
    )


def _figures(c: Converter, values: list[int]) -> wire.LengthFigures:
    numbers = [c.number(value) for value in values]
    return wire.LengthFigures(wire.SideFigures(*numbers[:4]), wire.DiagonalFigures(*numbers[4:]))


def _consistency(c: Converter, one: Consistency) -> wire.Consistency:
    suspects = [wire.Suspect(s.name, c.number(s.by), c.number(s.reads), c.tape(s.reads)) for s in one.suspects]
    return wire.Consistency(
        c.number(one.contradiction), c.number(one.explained_by_tape), one.statistic, one.limit, one.explained, suspects
    )


def _corner(c: Converter, one: CornerFigure) -> wire.CornerFigure:
    return wire.CornerFigure(one.corner, c.number(one.x), c.number(one.y), one.degrees)


def _compared(c: Converter, one: Compared) -> wire.ToleranceCompared:
    return wire.ToleranceCompared(one.what, c.number(one.value), c.number(one.limit), one.within, one.source.text())


def _plumb_figure(c: Converter, one: PlumbFigure) -> wire.PlumbFigure:
    return wire.PlumbFigure(
        one.out_of_plumb_degrees,
        one.leans,
        c.number(one.top),
        c.tape(one.top),
        [_compared(c, row) for row in one.compared],
        UNSET if one.brace_shorter is None else c.number(one.brace_shorter),
    )


def _placing(c: Converter, one: Placing) -> wire.Placing:
    return wire.Placing(
        c.polygon(one.corners), one.angle_degrees, overhang_rows(c, one.overhangs), edge_rows(c, one.edges)
    )


def _shift(c: Converter, one: Shift) -> wire.Shift:
    return wire.Shift(c.number(one.right), c.number(one.back), overhang_rows(c, one.overhangs), edge_rows(c, one.edges))


def overhang_rows(c: Converter, overhangs: Sequence[Overhang]) -> list[wire.Overhang]:
    """What sticks out at each corner, as it travels."""
    n, t = c.number, c.tape
    return [wire.Overhang(o.corner, n(o.sideways), t(o.sideways), n(o.endways), t(o.endways)) for o in overhangs]


def edge_rows(c: Converter, edges: Sequence[EdgeWork]) -> list[wire.EdgeWork]:
    """What each edge takes, as it travels."""
    n = c.number
    return [wire.EdgeWork(e.edge, e.start_corner, e.end_corner, n(e.at_start), n(e.at_end), e.work) for e in edges]
