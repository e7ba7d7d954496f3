"""From a building's request to what its page shows: the set of drawings, the lists of each wall, findings."""

from collections.abc import Iterator
from typing import Final

import msgspec
from msgspec import UnsetType

from wallwright.operations.print_set import PrintSet, WallSheets, print_set
from wallwright.wire.answers import Finding
from wallwright.wire.building import Building, BuildingAnswer, BuiltWall
from wallwright.wire.fasteners import FastenersAnswer, Joint
from wallwright.wire.layout import CutRow, LayoutAnswer
from wallwright.wire.raising import RaisingAnswer
from wallwright.wire.sheathing import Piece, SheathingAnswer
from wallwright.wire.wall import Wall
from wallwright_viewer.drawn import Drawing, Packer, drawing, ordered, tape_of

_KINDS: Final = (
    ("layout", "framing", "framing"),
    ("sheathing", "sheathing", "sheathing"),
    ("fasteners", "nailing", "nailing"),
    ("raising", "raising", "raising"),
)
"""Each wall's drawings: the operation, and what its id and its title say."""


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


class WallPage(msgspec.Struct):
    """One wall as it is shown."""

    side: str
    title: str
    drawings: list[Drawing]
    marks: list[MarkRow]
    cut_list: list[CutRow]
    pieces: list[PieceRow]
    joints: list[Joint]
    raising: RaisingAnswer
    findings: list[Finding]


class Told(msgspec.Struct):
    """A finding that is told once for the building, with the walls that it is about where it is not about all."""

    finding: Finding
    walls: str


class BuildingPage(msgspec.Struct):
    """A building as it is shown."""

    answer: BuildingAnswer
    plan: Drawing
    walls: list[WallPage]
    findings: list[Told]

    @property
    def sheets(self) -> list[Drawing]:
        """Every drawing of the set in its order."""
        return [self.plan, *(one for wall in self.walls for one in wall.drawings)]


def building_page(request: Building, packed: Packer) -> BuildingPage:
    """Everything that the page shows of a building. Raises PlanRefused with every fault found."""
    found = print_set(request)
    told = _told(found)
    once = {(one.finding.code, one.finding.text) for one in told}
    plan = drawing("building", "plan", "Plan", found.plan, found.body, packed)
    pairs = zip(found.answer.walls, found.walls, strict=True)
    page = BuildingPage(found.answer, plan, [_wall_page(wall, sheets, once, packed) for wall, sheets in pairs], told)
    for number, one in enumerate(page.sheets, 1):
        one.number = number
    return page


def _findings(built: BuiltWall) -> Iterator[Finding]:
    for part in (built.layout, built.sheathing, built.fasteners, built.raising):
        if not isinstance(part, UnsetType):
            yield from part.findings


def _told(found: PrintSet) -> list[Told]:
    """What is told of the building, and what would be told of several walls in the same words."""
    own = {(one.code, one.text) for one in found.answer.findings}
    sides: dict[tuple[str, str], list[str]] = {}
    of_walls: list[Finding] = []
    for wall in found.answer.walls:
        for one in ordered(_findings(wall)):
            key = (one.code, one.text)
            sides.setdefault(key, []).append(wall.side)
            of_walls.append(one)
    shared = [one for one in of_walls if len(sides[one.code, one.text]) > 1]
    told = []
    for one in ordered([*found.answer.findings, *shared]):
        key = (one.code, one.text)
        about = sides.get(key, [])
        some = key not in own and len(about) < len(found.answer.walls)
        told.append(Told(one, f"{' and '.join(about)} walls" if some else ""))
    return told


def _wall_page(built: BuiltWall, sheets: WallSheets, told: set[tuple[str, str]], packed: Packer) -> WallPage:
    layout, skin, nailed, lifted = built.layout, built.sheathing, built.fasteners, built.raising
    assert isinstance(layout, LayoutAnswer)  # noqa: S101 - the whole set is asked for by this page
    assert isinstance(skin, SheathingAnswer)  # noqa: S101
    assert isinstance(nailed, FastenersAnswer)  # noqa: S101
    assert isinstance(lifted, RaisingAnswer)  # noqa: S101
    side = built.side
    title = f"{side.capitalize()} wall"
    return WallPage(
        side,
        title,
        [
            drawing(operation, f"{side}-{id}{ending}", f"{title}: {said}{which}", svg, sheets.body, packed)
            for operation, id, said in _KINDS
            for ending, which, svg in _papers(sheets.drawings[operation])
        ],
        _mark_rows(layout),
        layout.cut_list,
        [_piece_row(piece, built.wall) for piece in skin.pieces],
        nailed.joints,
        lifted,
        [one for one in ordered(_findings(built)) if (one.code, one.text) not in told],
    )


def _papers(papers: list[str]) -> list[tuple[str, str, str]]:
    """Each paper of a drawing with what its id and its title end in: nothing where it is the only one."""
    if len(papers) == 1:
        return [("", "", papers[0])]
    return [(f"-{number}", f", sheet {number} of {len(papers)}", svg) for number, svg in enumerate(papers, 1)]


def _mark_rows(layout: LayoutAnswer) -> list[MarkRow]:
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


def _piece_row(piece: Piece, wall: Wall) -> PieceRow:
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
