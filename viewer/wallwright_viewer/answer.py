"""From a request to what a page shows: drawings with their links, lists, findings."""

import re
import textwrap
from collections.abc import Callable
from decimal import Decimal
from typing import Any, Final

import msgspec
from markupsafe import Markup
from msgspec import UnsetType

from wallwright.operations.converters import CONVERTERS
from wallwright.operations.table import BY_NAME
from wallwright.wire.answers import Finding
from wallwright.wire.base import Given, Offset, Units, encode_length, read_length
from wallwright.wire.building import Building, BuildingAnswer, BuiltWall
from wallwright.wire.layout import CutRow, LayoutAnswer
from wallwright.wire.limits import Z_MAX
from wallwright.wire.sheathing import Piece, SheathingAnswer
from wallwright.wire.wall import Wall

Packer = Callable[[bytes], str]
"""Packs a request's bytes for a link."""
LEVELS: Final = ("stop", "caution", "note")
_ENCODER: Final = msgspec.json.Encoder(enc_hook=encode_length)
_WALLS: Final = msgspec.json.Decoder(Wall, dec_hook=read_length, float_hook=Decimal)
_IDS: Final = re.compile(r'"ww(?=["-])|(?<= )ww-(?=desc")')


class Drawing(msgspec.Struct):
    """A drawing on the page, and the same question in every other form."""

    id: str
    title: str
    svg: Markup
    path: str
    links: list[tuple[str, str]]
    body: str


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
    findings: list[Finding]


class BuildingPage(msgspec.Struct):
    """A building as it is shown."""

    answer: BuildingAnswer
    plan: Drawing
    walls: list[WallPage]
    findings: list[Finding]


def building_page(request: Building, packed: Packer) -> BuildingPage:
    """Everything that the page shows of a building. Raises PlanRefused with every fault found."""
    answer: BuildingAnswer = BY_NAME["building"].answer(request)
    body = _ENCODER.encode(answer.building)
    own = ordered(answer.findings)
    return BuildingPage(
        answer,
        _drawing("building", "plan", "Plan", request, body, packed),
        [_wall_page(wall, own, packed) for wall in answer.walls],
        own,
    )


def _wall_page(built: BuiltWall, told: list[Finding], packed: Packer) -> WallPage:
    body = _ENCODER.encode(built.wall)
    # A completed wall holds its lengths as they go out; read again it is a request like any other.
    wall = _WALLS.decode(body)
    layout, skin = built.layout, built.sheathing
    assert isinstance(layout, LayoutAnswer)  # noqa: S101 - both parts are asked for by this page
    assert isinstance(skin, SheathingAnswer)  # noqa: S101
    side = built.side
    title = f"{side.capitalize()} wall"
    known = {(finding.code, finding.text) for finding in told}
    findings = [f for f in ordered([*layout.findings, *skin.findings]) if (f.code, f.text) not in known]
    return WallPage(
        side,
        title,
        [
            _drawing("layout", f"{side}-framing", f"{title}: framing", wall, body, packed),
            _drawing("sheathing", f"{side}-sheathing", f"{title}: sheathing", wall, body, packed),
        ],
        _mark_rows(layout),
        layout.cut_list,
        [_piece_row(piece, wall) for piece in skin.pieces],
        findings,
    )


def _drawing(operation: str, name: str, title: str, request: Any, body: bytes, packed: Packer) -> Drawing:
    found = BY_NAME[operation]
    z = packed(body)
    links = []
    if len(z) <= Z_MAX:
        links = [(form, f"{found.path}.{form}?z={z}") for form in ("svg", "json", "csv")]
    pretty = msgspec.json.format(body, indent=2).decode()
    return Drawing(name, title, inline(found.drawing(request), name), found.path, links, pretty)


def inline(svg: str, name: str) -> Markup:
    """A drawing to stand in a page beside others: its ids are its own."""
    head, style, rest = svg.partition("<style>")
    # The drawing is the service's own, its texts escaped when it was made.
    return Markup(_IDS.sub(lambda found: found[0].replace("ww", name), head) + style + rest)  # noqa: S704


def ordered(findings: list[Finding]) -> list[Finding]:
    """Findings with what stops the work first, and none twice."""
    once = {(finding.code, finding.text): finding for finding in findings}
    return sorted(once.values(), key=lambda f: LEVELS.index(f.level) if f.level in LEVELS else len(LEVELS))


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


def tape_of(number: float, units: Units) -> str:
    """A number of an answer as a person reads it on the tape."""
    given: Given = read_length(Offset, Decimal(str(number)))
    assert given.measure is not None  # noqa: S101 - a length that was read has its measure
    return CONVERTERS[units].tape(given.measure.on_grid(units))


def curl(drawing: Drawing, base: str, accept: str = "image/svg+xml") -> str:
    """The drawing's question as a command for a shell."""
    return (
        textwrap.dedent(
            """\
        curl -s -H 'Content-Type: application/json' -H 'Accept: {accept}' \\
          --data-binary @- {base}{path} <<'REQUEST'
        """
        ).format(accept=accept, base=base, path=drawing.path)
        + f"{drawing.body}\nREQUEST"
    )
