"""A wall skinned: the pieces of sheathing, the sheets that they are cut from, and the seams between them."""

from msgspec.structs import replace

from wallwright.domain.from_offcuts import Blank, Sawing, from_offcuts, reuse_findings
from wallwright.domain.lying import Course, lying_size
from wallwright.domain.members import Layout
from wallwright.domain.on_sheets import Cut, offcuts, on_sheets, placed_on, reaches, sawn, sheet_size
from wallwright.domain.outlines import Rect, remainder
from wallwright.domain.rows import Row
from wallwright.domain.seams import Column, Columns
from wallwright.domain.skin import CutBack, Outline, Piece, Seam, SheetUse, Skin
from wallwright.domain.skin_notes import Cost, Saved, lying_findings, skin_findings
from wallwright.domain.skin_seams import lying_seams, seams
from wallwright.domain.slope_rows import cells
from wallwright.domain.slopes import clipped, top_edge, under
from wallwright.domain.starts import Laid
from wallwright.domain.wall import Wall
from wallwright.findings import Finding


def skin(
    wall: Wall, laid: Columns, courses: tuple[Row, ...], layout: Layout, saved: Saved | None, other: Laid | None = None
) -> Skin:
    """The skin of a level wall from its columns and courses of sheets.

    ``laid`` runs from the tape's end; what comes back is as seen from outside, left to right. ``other`` is how
    the sheets would lie if they began at the other end.
    """
    columns = _as_seen(wall, laid.columns)
    sawing = _sawing(wall, _upright_bands(wall, columns, courses))
    costs = None
    if other is not None and other.columns is not None:
        theirs = _sawing(wall, _upright_bands(wall, _as_seen(wall, other.columns.columns), courses))
        costs = _cost(sawing, laid), _cost(theirs, other.columns)
    pieces = _pieces(wall, sawing)
    findings = skin_findings(wall, columns, courses, pieces, laid, saved, costs, reuse_findings(sawing, pieces))
    return _skin(wall, sawing, pieces, seams(wall, columns, courses, layout), layout, findings)


def _cost(sawing: Sawing, laid: Columns) -> Cost:
    return Cost(sawing.sheets, laid.slivers + laid.legs, len(set(laid.studs)))


def _upright_bands(wall: Wall, columns: tuple[Column, ...], courses: tuple[Row, ...]) -> list[list[Rect]]:
    """The rectangles of upright sheets, course by course."""
    stacks = [cells(wall, column, courses) for column in columns]
    return [
        [
            Rect(column.left, own[number].bottom, column.right, own[number].top)
            for column, own in zip(columns, stacks, strict=True)
            if number < len(own)
        ]
        for number in range(len(courses))
    ]


def lying_skin(
    wall: Wall, laid: Columns, courses: tuple[Course, ...], layout: Layout, saved: Saved | None, other: Laid | None
) -> Skin:
    """The skin of a wall from its courses of lying sheets; ``courses`` run from the tape's end, as ``other`` does."""
    seen = _courses_seen(wall, courses)
    sawing = _sawing(wall, _lying_bands(wall, seen))
    costs = None
    if other is not None and other.columns is not None:
        theirs = _sawing(wall, _lying_bands(wall, _courses_seen(wall, other.courses)))
        costs = _cost(sawing, laid), _cost(theirs, other.columns)
    pieces = _pieces(wall, sawing)
    findings = lying_findings(wall, seen, pieces, laid, saved, costs, reuse_findings(sawing, pieces))
    return _skin(wall, sawing, pieces, lying_seams(wall, seen, layout), layout, findings)


def _courses_seen(wall: Wall, courses: tuple[Course, ...]) -> tuple[Course, ...]:
    return tuple(replace(course, columns=_as_seen(wall, course.columns)) for course in courses)


def _lying_bands(wall: Wall, courses: tuple[Course, ...]) -> list[list[Rect]]:
    """The rectangles of lying sheets, course by course."""
    edge = top_edge(wall)
    return [
        [
            Rect(c.left, course.row.bottom, c.right, min(course.row.top, edge.most(c.left, c.right)))
            for c in course.columns
        ]
        for course in courses
    ]


def _sawing(wall: Wall, bands: list[list[Rect]]) -> Sawing:
    """Where each piece is cut from, with offcuts reused where that is asked for."""
    cuts = on_sheets(wall, bands)
    plain = Sawing(_blanks(wall, cuts), offcuts(wall, cuts), len({cut.sheet for cut in cuts}))
    return from_offcuts(wall, plain) if wall.sheathing.reuse_offcuts else plain


def _blanks(wall: Wall, cuts: list[Cut]) -> tuple[Blank, ...]:
    """What is left of each rectangle once openings, and what lies over a slope, are cut from it."""
    voids = [Rect(o.left, o.sill, o.right, o.head) for o in wall.openings]
    blanks: list[Blank] = []
    edge = top_edge(wall)
    for cut in cuts:
        face = cut.face
        if wall.top.shape != "level" and face.top == edge.most(face.left, face.right):
            # A unit over the slope, so that the slope alone ends the piece.
            face = replace(face, top=face.top + 1)
        for outline, cut_outs in remainder(face, voids):
            # Openings lie under the plates, so that a slope cuts none of them.
            left = outline if wall.top.shape == "level" else clipped(outline, edge)
            if left:
                blanks.append(Blank(cut, left, cut_outs))
    return tuple(blanks)


def _pieces(wall: Wall, sawing: Sawing) -> tuple[Piece, ...]:
    return tuple(_piece(wall, blank, f"piece-{number}") for number, blank in enumerate(sawing.blanks, 1))


def _skin(
    wall: Wall, sawing: Sawing, pieces: tuple[Piece, ...], found: tuple[Seam, ...], layout: Layout,
    findings: tuple[Finding, ...],
) -> Skin:  # fmt: skip
    blocking = tuple(member for member in layout.members if member.role == "blocking" and _on_edge(wall, member.depth))
    lap, direction = wall.sheathing.sheet.lap, wall.sheathing.direction
    if lap:
        # Long edges are upright in upright sheets, level in lying ones.
        long_edge = "upright" if direction == "upright" else "level"
        found = tuple(replace(seam, lap=lap) if seam.direction == long_edge else seam for seam in found)
    return Skin(
        wall, pieces, found, _uses(wall, sawing, pieces), sawing.offcuts, blocking, findings, _cut_back(wall),
        sawing.least,
    )  # fmt: skip


def _cut_back(wall: Wall) -> CutBack | None:
    if wall.plates.top < 2:
        return None
    edge, below = top_edge(wall), under(wall, 1)
    left, right = wall.face_left, wall.face_right
    crest = [edge.ridge] if edge.ridge is not None and left < edge.ridge < right else []
    line = tuple((x, edge.at(x)) for x in (left, *crest, right))
    return CutBack(line, edge.at(0) - below.at(0), min(y for _, y in line) - wall.face_bottom)


def _on_edge(wall: Wall, depth: int) -> bool:
    return depth < wall.depth


def _as_seen(wall: Wall, columns: tuple[Column, ...]) -> tuple[Column, ...]:
    if wall.tape.start == "left":
        return columns
    return tuple(Column(wall.length - column.right, wall.length - column.left) for column in reversed(columns))


def _piece(wall: Wall, blank: Blank, name: str) -> Piece:
    cut, outline, cut_outs = blank.cut, blank.outline, blank.cut_outs
    wide, high = sheet_size(wall)
    on_sheet, *holes = (placed_on(cut, points) for points in (outline, *cut_outs))
    lines = [line for points in (on_sheet, *holes) for line in sawn(cut, points, wide, high)]
    lap_side = cut.side if reaches(cut, outline) else ""
    return Piece(
        name, outline, cut_outs, f"sheet-{cut.sheet}", on_sheet, tuple(lines), _stage(wall, outline), lap_side,
        lap_side != "" and cut.recut, cut.turned != "",
    )  # fmt: skip


def _stage(wall: Wall, outline: Outline) -> str:
    """Whether a piece crosses an end that meets another wall, and so waits until the wall stands."""
    past_left = wall.left.meets is not None and min(x for x, _ in outline) < 0
    past_right = wall.right.meets is not None and max(x for x, _ in outline) > wall.length
    return "after-raising" if past_left or past_right else "before-raising"


def _uses(wall: Wall, sawing: Sawing, pieces: tuple[Piece, ...]) -> tuple[SheetUse, ...]:
    along, across = lying_size(wall)
    wide, long = across + wall.sheathing.sheet.lap, along
    names = [f"sheet-{number}" for number in range(1, sawing.sheets + 1)]
    lies = wall.sheathing.direction
    return tuple(SheetUse(name, wide, long, tuple(p.id for p in pieces if p.sheet == name), lies) for name in names)
