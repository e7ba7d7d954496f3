"""The skin of a wall: wire request to domain, and back as JSON, drawing or list of pieces."""

from msgspec import UNSET

from wallwright.domain import framed
from wallwright.domain.skin import CutBack, Line, Piece, Skin
from wallwright.drawing.sheathing import sheathing_elevation
from wallwright.lengths import Units
from wallwright.operations.canonical import revision_of
from wallwright.operations.completed import to_wire
from wallwright.operations.converters import CONVERTERS, Converter
from wallwright.operations.csv import csv_text
from wallwright.operations.layout import member_answer
from wallwright.operations.walls import to_domain
from wallwright.wire import sheathing as wire
from wallwright.wire.wall import Wall


def answer(request: Wall) -> wire.SheathingAnswer:
    """The skin as it travels. Raises PlanRefused with every fault found."""
    return sheathing_answer(framed.sheathing(to_domain(request)), request.units)


def drawing(request: Wall) -> str:
    """The sheathing elevation, as SVG."""
    wall = to_domain(request)
    done = framed.framed(wall)
    return sheathing_elevation(framed.skinned(done), request.units, revision_of(wall, request.units), done.layout)


def table(request: Wall) -> str:
    """The pieces of sheathing as CSV."""
    found = framed.sheathing(to_domain(request))
    c = CONVERTERS[request.units]
    header = ["piece", "sheet", f"width_{request.units}", f"height_{request.units}", "size_tape", "cut_outs", "stage"]
    rows: list[list[object]] = []
    for piece in found.pieces:
        width, height = _size(piece)
        size = f"{c.tape(width)} x {c.tape(height)}"
        rows.append([piece.id, piece.sheet, c.number(width), c.number(height), size, len(piece.cut_outs), piece.stage])
    return csv_text(header, rows)


def _size(piece: Piece) -> tuple[int, int]:
    xs = [x for x, _ in piece.outline]
    ys = [y for _, y in piece.outline]
    return max(xs) - min(xs), max(ys) - min(ys)


def sheathing_answer(found: Skin, units: Units) -> wire.SheathingAnswer:
    """A domain skin as it travels, in ``units``."""
    c = CONVERTERS[units]
    n = c.number
    free = found.wall.sheathing.reuse_offcuts and found.wall.sheathing.grain == "free"
    return wire.SheathingAnswer(
        wall=to_wire(found.wall, units),
        pieces=[_piece(c, piece, free) for piece in found.pieces],
        seams=[
            wire.Seam(
                s.id,
                s.direction,
                n(s.before),
                n(s.after),
                n(s.start),
                n(s.end),
                n(s.bearing_before),
                n(s.bearing_after),
                list(s.members),
                n(s.lap),
            )  # fmt: skip
            for s in found.seams
        ],
        sheets=[
            wire.SheetUse(use.id, n(use.width), n(use.length), list(use.pieces), use.direction) for use in found.sheets
        ],
        offcuts=[
            wire.Offcut(
                cut.sheet,
                n(cut.left),
                n(cut.bottom),
                n(cut.width),
                n(cut.height),
                f"{c.tape(cut.width)} x {c.tape(cut.height)}",
            )  # fmt: skip
            for cut in found.offcuts
        ],
        blocking=[member_answer(c, member) for member in found.blocking],
        findings=[c.finding(finding) for finding in found.findings],
        cut_back=UNSET if found.cut_back is None else _cut_back(c, found.cut_back),
        least_sheets=UNSET if found.least_sheets is None else found.least_sheets,
        proven=UNSET if found.proven is None else found.proven,
    )


def _cut_back(c: Converter, cut: CutBack) -> wire.CutBack:
    above, foot = cut.above_top_plate, cut.above_foot
    return wire.CutBack(c.polygon(cut.line), c.number(above), c.tape(above), c.number(foot), c.tape(foot))


def _piece(c: Converter, piece: Piece, free: bool) -> wire.Piece:
    return wire.Piece(
        piece.id, c.polygon(piece.outline), [c.polygon(points) for points in piece.cut_outs], piece.sheet,
        c.polygon(piece.on_sheet), [_line(c, line) for line in piece.cut_lines], piece.stage,
        piece.lap_side, piece.lap_recut, piece.turned if free else UNSET,
    )  # fmt: skip


def _line(c: Converter, line: Line) -> wire.CutLine:
    (x1, y1), (x2, y2) = line
    start, end = [c.number(x1), c.number(y1)], [c.number(x2), c.number(y2)]
    return wire.CutLine(start, end, [c.tape(value) for value in (x1, y1, x2, y2)])
