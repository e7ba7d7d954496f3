"""Rows of a wall's lists as pages show them: the marks on its plates, its pieces of sheathing."""

import msgspec
from msgspec import UnsetType

from wallwright.wire.layout import LayoutAnswer
from wallwright.wire.sheathing import Piece
from wallwright.wire.wall import Wall
from wallwright_viewer.drawn import tape_of


class MarkRow(msgspec.Struct):
    """One line to draw on the plates."""

    reading: str
    sign: str
    member: str
    plates: str


class PieceRow(msgspec.Struct):
    """One piece of sheathing as it is cut."""

    id: str
    sheet: str
    size: str
    cut: str
    lines: list[str]
    stage: str


def mark_rows(layout: LayoutAnswer) -> list[MarkRow]:
    """The marks in the tape's order, those that stand on several plates once."""
    rows: dict[tuple[float, str, str, str], list[str]] = {}
    for mark in sorted(layout.marks, key=lambda mark: (mark.reading, mark.member)):
        sign = mark.sign if mark.side == "centre" else f"{mark.sign} {mark.side}"
        plates = rows.setdefault((mark.reading, mark.reading_tape, sign, mark.member), [])
        word = mark.plate.rpartition("-")[0].removesuffix("-plate")
        if word not in plates:
            plates.append(word)
    found = [
        MarkRow(tape, sign, member.replace("-", " "), " and ".join(plates))
        for (_, tape, sign, member), plates in rows.items()
    ]
    return [*_plate_end(layout), *found]


def end_cuts(layout: LayoutAnswer) -> dict[str, str]:
    """How the ends of each mark that is not sawn square are sawn, in words; a plate's two ends lie parallel or splayed."""
    cuts_of = {
        member.mark: (member.cuts, member.short_point_tape)
        for member in layout.members
        if not isinstance(member.cuts, UnsetType) and member.cuts
    }
    found = {}
    for mark, (cuts, short) in cuts_of.items():
        angles = " and ".join(dict.fromkeys(f"{cut.angle_degrees:g}" for cut in cuts))
        words = f"{short} to the short point, one end sawn {angles} degrees off square"
        if len({cut.end for cut in cuts}) > 1:
            splayed = len({cut.long_point for cut in cuts}) == 1
            edge = f"{short} to the short points" if splayed else f"each edge {short}"
            words = f"{edge}, both ends sawn {angles} degrees off square, {'splayed' if splayed else 'parallel'}"
        elif len(cuts) > 1:
            words = f"{short} to the short point, one end sawn both ways {angles} degrees off square"
        found[mark] = words
    return found


def _plate_end(layout: LayoutAnswer) -> list[MarkRow]:
    """What the tape reads at the plate's own end, where it is hooked elsewhere: nothing stands there to hook yet."""
    tape = layout.wall.layout
    if not layout.marks or isinstance(tape, UnsetType):
        return []
    mark = layout.marks[0]
    bottom = [member for member in layout.members if member.role == "bottom-plate"]
    if tape.from_ == "left":
        reading = mark.reading - mark.at
    else:
        reading = mark.reading + mark.at - max(member.x + member.width for member in bottom)
    if not round(reading, 5):
        return []
    return [MarkRow(tape_of(reading, layout.wall.units), "hold", f"the plate's {tape.from_} end", "bottom and top")]


def piece_row(piece: Piece, wall: Wall) -> PieceRow:
    """One piece with its size, what is cut from it, and its saw lines."""
    spans = []
    for axis in (0, 1):
        values = [point[axis] for point in piece.outline]
        spans.append(tape_of(max(values) - min(values), wall.units))
    holes = len(piece.cut_outs)
    kinds = ["cut to its outline"] if _is_notched(piece) else []
    kinds += [f"{holes} {'opening' if holes == 1 else 'openings'} cut out"] if holes else []
    lines = [
        f"{x1}, {y1} to {x2}, {y2}"
        for x1, y1, x2, y2 in (line.tape for line in piece.cut_lines)
    ]  # fmt: skip
    return PieceRow(
        piece.id, piece.sheet, " x ".join(spans), "; ".join(kinds) or "straight", lines, piece.stage.replace("-", " ")
    )


def _is_notched(piece: Piece) -> bool:
    """Whether a piece is more than a rectangle from its sheet."""
    xs, ys = ({point[axis] for point in piece.outline} for axis in (0, 1))
    return len(xs) > 2 or len(ys) > 2
