"""Cutting diagrams: what to pick up, then each board with its pieces in the order of the cuts and what the tape shows at each.

As many pages as it takes stand one below the other on one drawing; lengths are to scale, boards' widths are not.
"""

from typing import Final

from msgspec.structs import replace

from wallwright.domain.buying.boards import CutBoard, CutPiece
from wallwright.domain.buying.buy import Bought, CostLine
from wallwright.domain.buying.panels import CutSheet
from wallwright.drawing.dimensions import Shapes, leaders, widest
from wallwright.drawing.paper import MARGIN, TITLE_STRIP, View, fitted
from wallwright.drawing.scene import Area, Scene, Text, folded, moved, shortened, stacked, text_width
from wallwright.drawing.svg import svg_text
from wallwright.drawing.title import title_strip
from wallwright.lengths import Units, tape_text

_BOARD: Final = 7.0
"""How wide a board is drawn, in millimetres of paper."""
_ROW: Final = 3.6
_DROP: Final = 2.5
_WARNINGS: Final = (
    "Not checked: grade, knots, splits, crook, wane; boards are taken to be as long as called.",
    "Support both sides of a cut; mind eyes, ears, dust. Local codes and licensed practice come first.",
)


def cutting_diagrams(found: Bought, units: Units, revision: str) -> str:
    """The cutting diagrams as SVG."""
    return svg_text(cutting_scene(found, units, revision))


def cutting_scene(found: Bought, units: Units, revision: str) -> Scene:
    """The cutting diagrams as shapes on paper, as many pages as it takes one below the other."""
    return stacked(cutting_pages(found, units, revision), "Cutting diagrams")


def cutting_pages(found: Bought, units: Units, revision: str) -> list[Scene]:
    """The cutting diagrams as pages of paper."""
    boards = [board for cut in found.cuts for board in cut.boards]
    sheets = [sheet for cut in found.sheets for sheet in cut.sheets]
    longest = max([*(board.offer.length for board in boards), *(sheet.offer.length for sheet in sheets)])
    view = replace(fitted(units, (0, 0, longest, 0), 0, 0, 4, 4), left=MARGIN + 4)
    rows = [_head(view, found, units), *(_board(view, board, units) for board in boards)]
    rows += [_sheet(view, sheet, units) for sheet in sheets]
    pages = _pages(view, rows)
    made: list[Shapes] = []
    for number, page in enumerate(pages):
        what = f"Cutting diagrams, page {number + 1} of {len(pages)}; boards' widths not to scale"
        rules = f"effort {found.order.asked.effort}, saw cut {tape_text(found.order.asked.kerf, units)}"
        strip = title_strip(view, "Boards and sheets to cut", what, units, revision, rules, _WARNINGS)
        made.append([*page, *strip])
    count = sum(board.count for board in boards)
    description = f"{count} boards cut in {len(boards)} ways and {sum(one.count for one in sheets)} sheets in {len(sheets)} for {found.cost / 100:.2f}. {_proof(found)}"
    return [Scene(view.width, view.height, "Cutting diagrams", description, tuple(shapes)) for shapes in made]


def _proof(found: Bought) -> str:
    if found.proven:
        return "Proven: no cheaper plan exists."
    return f"Not proven to be the cheapest: no plan costs less than {found.lower_bound / 100:.2f}."


Row = tuple[float, Shapes]
"""How high a row is on paper, and its shapes below y = 0."""


def _pages(view: View, rows: list[Row]) -> list[Shapes]:
    """Rows on pages, each row whole."""
    room = view.height - 2 * MARGIN - TITLE_STRIP
    pages: list[Shapes] = [[]]
    y = 0.0
    for height, shapes in rows:
        if y and y + height > room:
            pages.append([])
            y = 0.0
        pages[-1] += [moved(shape, 0.0, MARGIN + y) for shape in shapes]
        y += height
    return pages


def _head(view: View, found: Bought, units: Units) -> Row:
    """What to pick up, the longest boards of each section first, and what it costs."""
    lines = [_named(line, units) for line in found.cost_lines]
    wide = widest(lines) + 6
    columns = max(1, int((view.width - 2 * MARGIN - 8) / wide))
    deep = -(-len(lines) // columns)
    shapes: Shapes = [Text(MARGIN + 4, 6, "To buy", "t3")]
    for number, line in enumerate(lines):
        shapes.append(Text(MARGIN + 4 + number // deep * wide, 11 + number % deep * _ROW, line))
    money = f"Cost {found.cost / 100:.2f}, tax {found.tax / 100:.2f} in it. {_proof(found)}"
    waste = f"Waste {tape_text(found.waste.length, units)}, {found.waste.percent:g} % of the length bought."
    after = 11 + deep * _ROW + 1
    rows = folded(f"{money} {waste}", view.width - 2 * MARGIN - 8)
    shapes += [Text(MARGIN + 4, after + number * _ROW, row) for number, row in enumerate(rows)]
    return after + len(rows) * _ROW + 2, shapes


def _board(view: View, board: CutBoard, units: Units) -> Row:
    """One way of cutting a board: its name above, the pieces in it, the tape's readings below."""
    length = board.offer.length
    section = f"{board.offer.stock.name} treated" if board.offer.treated else board.offer.stock.name
    title = f"{board.count} x {section} {tape_text(length, units)}"
    if board.offcut:
        title += f", offcut {tape_text(board.offcut, units)}"
    top = 5.0
    shapes: Shapes = [Text(view.x(0), 3.6, shortened(title, view.width - 2 * MARGIN - 8))]
    outer = ((view.x(0), top), (view.x(length), top), (view.x(length), top + _BOARD), (view.x(0), top + _BOARD))
    shapes.append(Area("void", outer, title, (("stock", board.offer.stock.name), ("count", str(board.count)))))
    readings: list[tuple[float, str]] = []
    for piece in board.cuts:
        for number, at in enumerate(piece.readings):
            point = piece.long_points[number] if piece.ends else ""
            drawn, named = _piece(view, piece, at, point, top, units)
            shapes += drawn
            reading = tape_text(at, units)
            readings.append((view.x(at), reading if named else f"{reading} {_label(piece.mark)}"))
    below = top + _BOARD
    shapes += leaders(readings, lambda _: below, _DROP, MARGIN + 3, view.width - MARGIN - 3)
    return below + _DROP + widest(text for _, text in readings) + 3, shapes


def _piece(view: View, piece: CutPiece, at: int, point: str, top: float, units: Units) -> tuple[Shapes, bool]:
    """One piece with its mark and length, slanted ends drawn slanted, and whether it had room for the mark."""
    slant = view.size(piece.slant)
    left, right = view.x(at - piece.length), view.x(at)
    before = slant if point in ("left", "both") else 0.0
    after = slant if point in ("right", "both") else 0.0
    points = ((left, top), (right - after, top), (right, top + _BOARD), (left + before, top + _BOARD))
    size = tape_text(piece.length, units)
    data = (("mark", piece.mark), ("length", size))
    turned = {"left": ", long point left", "right": ", long point right", "both": ", long points left and right"}.get(
        point, ""
    )
    shapes: Shapes = [Area("plate", points, f"{piece.mark} {size}{turned}".strip(), data)]
    room = right - left - before - after - 1
    middle = (left + before + right - after) / 2
    label = _label(piece.mark)
    named = text_width(label) <= room
    if label and named:
        shapes.append(Text(middle, top + 3.1, label, "t", "middle"))
    if text_width(size) <= room:
        shapes.append(Text(middle, top + 6.1, size, "t", "middle"))
    return shapes, named


def _label(mark: str) -> str:
    """The first of a piece's marks, and how many others there are."""
    first, *others = mark.split(", ")
    return f"{first} +{len(others)}" if others else first


def _named(line: CostLine, units: Units) -> str:
    """What is asked for at the yard, or taken from what is in hand."""
    hand = ", in hand" if line.price == 0 else ""
    if line.item == "board":
        treated = " treated" if line.treated else ""
        return f"{line.count} x {line.stock}{treated} {tape_text(line.length, units)}{hand}"
    if line.item == "fastener":
        coating = "" if line.coating in ("plain", "galvanized") else f", {line.coating}"
        return f"{line.count} x {line.stock}{coating}, box of {line.pack}{hand}"
    size = " x ".join(tape_text(one, units) for one in (line.thickness, line.width, line.length))
    return f"{line.count} x {line.stock} {size}{hand}"


def _sheet(view: View, sheet: CutSheet, units: Units) -> Row:
    """One way of cutting a sheet, lying on its side: its length runs across the paper; cuts are numbered in their order."""
    offer = sheet.offer
    size = f"{tape_text(offer.width, units)} x {tape_text(offer.length, units)}"
    title = f"{sheet.count} x {offer.kind} {tape_text(offer.thickness, units)}, {size}"
    top, tall = 5.0, view.size(offer.width)

    def box(left: int, bottom: int, width: int, length: int) -> tuple[tuple[float, float], ...]:
        x1, x2 = view.x(bottom), view.x(bottom + length)
        y1, y2 = top + view.size(left), top + view.size(left + width)
        return ((x1, y1), (x2, y1), (x2, y2), (x1, y2))

    shapes: Shapes = [Text(view.x(0), 3.6, shortened(title, view.width - 2 * MARGIN - 8))]
    shapes.append(Area("void", box(0, 0, offer.width, offer.length), title, (("count", str(sheet.count)),)))
    for piece in sheet.pieces:
        text = f"{tape_text(piece.width, units)} x {tape_text(piece.length, units)}"
        corners = box(piece.left, piece.bottom, piece.width, piece.length)
        shapes.append(Area("sheet", corners, f"{piece.mark} {text}".strip(), (("mark", piece.mark),)))
        (x1, y1), (x2, _), (_, y2), _ = corners
        rows = [row for row in (_label(piece.mark), text) if row and text_width(row) <= x2 - x1 - 1.5]
        if y2 - y1 >= 3.2 * len(rows) + 0.8:
            middle = (y1 + y2) / 2 - 1.6 * len(rows) + 2.6
            shapes += [Text((x1 + x2) / 2, middle + 3.2 * n, row, "t", "middle") for n, row in enumerate(rows)]
    words = _order(view, sheet, units)
    shapes += [Text(view.x(0), top + tall + _ROW * (n + 1), row) for n, row in enumerate(words)]
    return top + tall + _ROW * (1 + len(words)) + 1, shapes


def _order(view: View, sheet: CutSheet, units: Units) -> list[str]:
    """The cuts in their order, in words: across at a distance along the sheet, or along it at a distance from its edge."""
    words = [
        f"{number}. {f'across at {tape_text(cut.y1, units)}' if cut.y1 == cut.y2 else f'along at {tape_text(cut.x1, units)}'}"
        for number, cut in enumerate(sheet.cuts, 1)
    ]
    return folded(f"Cuts: {'; '.join(words)}." if words else "No cut.", view.width - 2 * MARGIN - 8)
