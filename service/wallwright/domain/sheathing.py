"""A wall skinned: the pieces of sheathing, the sheets that they are cut from, and the seams between them."""

from msgspec.structs import replace

from wallwright.domain.lying import Course, lying_size
from wallwright.domain.members import Layout
from wallwright.domain.on_sheets import Cut, offcuts, on_sheets, sawn, sheet_size
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
    cuts = on_sheets(wall, _upright_bands(wall, columns, courses))
    pieces = _pieces(wall, cuts)
    costs = None
    if other is not None and other.columns is not None:
        theirs = on_sheets(wall, _upright_bands(wall, _as_seen(wall, other.columns.columns), courses))
        costs = _cost(cuts, laid), _cost(theirs, other.columns)
    findings = skin_findings(wall, columns, courses, pieces, laid, saved, costs)
    return _skin(wall, cuts, pieces, seams(wall, columns, courses, layout), layout, findings)


def _cost(cuts: list[Cut], laid: Columns) -> Cost:
    sheets = len({cut.sheet for cut in cuts})
    return Cost(sheets, laid.slivers + laid.legs, len(set(laid.studs)))


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
    cuts = on_sheets(wall, _lying_bands(wall, seen))
    pieces = _pieces(wall, cuts)
    costs = None
    if other is not None and other.columns is not None:
        theirs = on_sheets(wall, _lying_bands(wall, _courses_seen(wall, other.courses)))
        costs = _cost(cuts, laid), _cost(theirs, other.columns)
    findings = lying_findings(wall, seen, pieces, laid, saved, costs)
    return _skin(wall, cuts, pieces, lying_seams(wall, seen, layout), layout, findings)


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


def _pieces(wall: Wall, cuts: list[Cut]) -> tuple[Piece, ...]:
    """What is left of each rectangle once openings, and what lies over a slope, are cut from it."""
    voids = [Rect(o.left, o.sill, o.right, o.head) for o in wall.openings]
    pieces: list[Piece] = []
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
                pieces.append(_piece(wall, cut, f"piece-{len(pieces) + 1}", left, cut_outs))
    return tuple(pieces)


def _skin(
    wall: Wall, cuts: list[Cut], pieces: tuple[Piece, ...], found: tuple[Seam, ...], layout: Layout,
    findings: tuple[Finding, ...],
) -> Skin:  # fmt: skip
    blocking = tuple(member for member in layout.members if member.role == "blocking" and _on_edge(wall, member.depth))
    lap, direction = wall.sheathing.sheet.lap, wall.sheathing.direction
    if lap:
        # Long edges are upright in upright sheets, level in lying ones.
        long_edge = "upright" if direction == "upright" else "level"
        found = tuple(replace(seam, lap=lap) if seam.direction == long_edge else seam for seam in found)
    return Skin(
        wall, pieces, found, _uses(wall, cuts, pieces), offcuts(wall, cuts), blocking, findings, _cut_back(wall)
    )


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


def _piece(wall: Wall, cut: Cut, name: str, outline: Outline, cut_outs: tuple[Outline, ...]) -> Piece:
    wide, high = sheet_size(wall)
    dx, dy = cut.x - cut.face.left, cut.y - cut.face.bottom

    def moved(points: Outline) -> Outline:
        return tuple((x + dx, y + dy) for x, y in points)

    on_sheet = moved(outline)
    lines = [line for points in (on_sheet, *map(moved, cut_outs)) for line in sawn(cut, points, wide, high)]
    lap_side = cut.side if _reaches(cut, outline) else ""
    return Piece(
        name, outline, cut_outs, f"sheet-{cut.sheet}", on_sheet, tuple(lines), _stage(wall, outline), lap_side,
        lap_side != "" and cut.recut,
    )  # fmt: skip


def _reaches(cut: Cut, outline: Outline) -> bool:
    """Whether a piece reaches the side on which its rectangle has its lap."""
    if cut.side == "left":
        return min(x for x, _ in outline) == cut.face.left
    if cut.side == "right":
        return max(x for x, _ in outline) == cut.face.right
    return max(y for _, y in outline) == cut.face.top


def _stage(wall: Wall, outline: Outline) -> str:
    """Whether a piece crosses an end that meets another wall, and so waits until the wall stands."""
    past_left = wall.left.meets is not None and min(x for x, _ in outline) < 0
    past_right = wall.right.meets is not None and max(x for x, _ in outline) > wall.length
    return "after-raising" if past_left or past_right else "before-raising"


def _uses(wall: Wall, cuts: list[Cut], pieces: tuple[Piece, ...]) -> tuple[SheetUse, ...]:
    along, across = lying_size(wall)
    wide, long = across + wall.sheathing.sheet.lap, along
    names = dict.fromkeys(f"sheet-{cut.sheet}" for cut in cuts)
    lies = wall.sheathing.direction
    return tuple(SheetUse(name, wide, long, tuple(p.id for p in pieces if p.sheet == name), lies) for name in names)
