"""The layout of a wall: wire request to domain, and back as JSON, drawing or cut list."""

from wallwright.domain import framed
from wallwright.domain.members import Anchor, CutRow, Layout, Mark, Member
from wallwright.drawing.elevation import framing_elevation
from wallwright.lengths import Units
from wallwright.operations.canonical import revision_of
from wallwright.operations.completed import to_wire
from wallwright.operations.converters import CONVERTERS, Converter
from wallwright.operations.csv import csv_text
from wallwright.operations.walls import to_domain
from wallwright.wire import layout as wire
from wallwright.wire.base import UNSET
from wallwright.wire.wall import Wall


def answer(request: Wall) -> wire.LayoutAnswer:
    """The layout as it travels. Raises PlanRefused with every fault found."""
    return layout_answer(framed.layout(to_domain(request)), request.units)


def drawing(request: Wall) -> str:
    """The framing elevation with its plate strip, as SVG."""
    wall = to_domain(request)
    return framing_elevation(framed.layout(wall), request.units, revision_of(wall, request.units))


def table(request: Wall) -> str:
    """The cut list as CSV."""
    found = framed.layout(to_domain(request))
    c = CONVERTERS[request.units]
    header = ["mark", "count", "stock", f"length_{request.units}", "length_tape", "ripped_to", "treated", "roles",
              f"short_point_{request.units}", "short_point_tape", "cut_angles_degrees"]  # fmt: skip
    rows: list[list[object]] = [
        [
            row.mark,
            row.count,
            row.stock.name,
            c.number(row.length),
            c.tape(row.length),
            "" if row.ripped_to is None else c.tape(row.ripped_to),
            "yes" if row.treated else "no",
            " ".join(row.roles),
            "" if row.short is None else c.number(row.short),
            "" if row.short is None else c.tape(row.short),
            " ".join(map(str, row.cut_angles)),
        ]  # fmt: skip
        for row in found.cut_list
    ]
    return csv_text(header, rows)


def layout_answer(found: Layout, units: Units) -> wire.LayoutAnswer:
    """A domain layout as it travels, in ``units``."""
    c = CONVERTERS[units]
    stocks = {member.stock: None for member in found.members}
    return wire.LayoutAnswer(
        wall=to_wire(found.wall, units),
        members=[member_answer(c, member) for member in found.members],
        marks=[_mark(c, mark) for mark in found.marks],
        cut_list=[_row(c, row) for row in found.cut_list],
        anchors=[_anchor(c, anchor) for anchor in found.anchors],
        stocks=[wire.Stock(stock.name, c.number(stock.thickness), c.number(stock.width)) for stock in stocks],
        findings=[c.finding(finding) for finding in found.findings],
    )


def member_answer(c: Converter, member: Member) -> wire.Member:
    """A member as it travels."""
    number = c.number
    return wire.Member(
        member.id, member.mark, member.role, member.stock.name, member.plies, number(member.length),
        c.tape(member.length), number(member.x), number(member.y), number(member.z), number(member.width),
        number(member.height), number(member.depth), member.treated,
        UNSET if member.ripped_to is None else number(member.ripped_to),
        member.opening or UNSET,
        c.polygon(member.outline) if member.outline else UNSET,
        [wire.CutOut(number(cut.left), number(cut.right)) for cut in member.cut_outs] if member.cut_outs else UNSET,
        UNSET if member.short is None else number(member.short),
        UNSET if member.short is None else c.tape(member.short),
        [wire.EndCut(cut.end, cut.angle, cut.long) for cut in member.cuts] if member.cuts else UNSET,
    )  # fmt: skip


def _mark(c: Converter, mark: Mark) -> wire.Mark:
    return wire.Mark(
        mark.plate, mark.member, c.number(mark.at), c.number(mark.reading), c.tape(mark.reading), mark.side, mark.sign
    )


def _anchor(c: Converter, anchor: Anchor) -> wire.Anchor:
    return wire.Anchor(
        anchor.id, anchor.plate, c.number(anchor.x), c.number(anchor.z), c.number(anchor.reading),
        c.tape(anchor.reading), anchor.origin,
    )  # fmt: skip


def _row(c: Converter, row: CutRow) -> wire.CutRow:
    return wire.CutRow(
        row.mark, list(row.roles), row.stock.name, c.number(row.length), c.tape(row.length), row.count,
        list(row.members), row.treated, UNSET if row.ripped_to is None else c.number(row.ripped_to),
        UNSET if row.short is None else c.number(row.short), UNSET if row.short is None else c.tape(row.short),
        list(row.cut_angles) if row.cut_angles else UNSET,
    )  # fmt: skip
