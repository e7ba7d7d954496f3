"""A wall skinned: the pieces of sheathing, the sheets that they are cut from, and the seams between them."""

import msgspec
from msgspec.structs import replace

from wallwright.domain import defaults
from wallwright.domain.lying import Course, lying_size
from wallwright.domain.members import Layout
from wallwright.domain.outlines import Rect, remainder
from wallwright.domain.rows import Row
from wallwright.domain.seams import Column, Columns
from wallwright.domain.skin import Line, Offcut, Outline, Piece, Seam, SheetUse, Skin
from wallwright.domain.skin_notes import Cost, Saved, lying_findings, skin_findings
from wallwright.domain.skin_seams import lying_seams, seams
from wallwright.domain.slope_rows import cells
from wallwright.domain.slopes import clipped, top_edge
from wallwright.domain.starts import Laid
from wallwright.domain.wall import Wall
from wallwright.findings import Finding


class _Cut(msgspec.Struct, frozen=True, gc=False):
    """A rectangle of the face, and where its lower left corner lies on which sheet."""

    face: Rect
    sheet: int
    x: int
    y: int


def skin(
    wall: Wall, laid: Columns, courses: tuple[Row, ...], layout: Layout, saved: Saved | None, other: Laid | None = None
) -> Skin:
    """The skin of a level wall from its columns and courses of sheets.

    ``laid`` runs from the tape's end; what comes back is as seen from outside, left to right. ``other`` is how
    the sheets would lie if they began at the other end.
    """
    columns = _as_seen(wall, laid.columns)
    cuts = _on_sheets(wall, _upright_bands(wall, columns, courses))
    pieces = _pieces(wall, cuts)
    costs = None
    if other is not None and other.columns is not None:
        theirs = _on_sheets(wall, _upright_bands(wall, _as_seen(wall, other.columns.columns), courses))
        costs = _cost(cuts, laid), _cost(theirs, other.columns)
    findings = skin_findings(wall, columns, courses, pieces, laid, saved, costs)
    return _skin(wall, cuts, pieces, seams(wall, columns, courses, layout), layout, findings)


def _cost(cuts: list[_Cut], laid: Columns) -> Cost:
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
    cuts = _on_sheets(wall, _lying_bands(wall, seen))
    pieces = _pieces(wall, cuts)
    costs = None
    if other is not None and other.columns is not None:
        theirs = _on_sheets(wall, _lying_bands(wall, _courses_seen(wall, other.courses)))
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


def _pieces(wall: Wall, cuts: list[_Cut]) -> tuple[Piece, ...]:
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
            under = outline if wall.top.shape == "level" else clipped(outline, edge)
            if under:
                pieces.append(_piece(wall, cut, f"piece-{len(pieces) + 1}", under, cut_outs))
    return tuple(pieces)


def _skin(
    wall: Wall, cuts: list[_Cut], pieces: tuple[Piece, ...], found: tuple[Seam, ...], layout: Layout,
    findings: tuple[Finding, ...],
) -> Skin:  # fmt: skip
    blocking = tuple(member for member in layout.members if member.role == "blocking" and _on_edge(wall, member.depth))
    return Skin(wall, pieces, found, _uses(wall, cuts, pieces), _offcuts(wall, cuts), blocking, findings)


def _on_edge(wall: Wall, depth: int) -> bool:
    return depth < wall.depth


def _as_seen(wall: Wall, columns: tuple[Column, ...]) -> tuple[Column, ...]:
    if wall.tape.start == "left":
        return columns
    return tuple(Column(wall.length - column.right, wall.length - column.left) for column in reversed(columns))


def _sheet_size(wall: Wall) -> tuple[int, int]:
    """How wide and how high a whole sheet is as it hangs on the wall."""
    along, across = lying_size(wall)
    return (across, along) if wall.sheathing.direction == "upright" else (along, across)


def _on_sheets(wall: Wall, bands: list[list[Rect]]) -> list[_Cut]:
    """Each rectangle of the face on a sheet: one sheet for each in a tall course, low ones stacked on one sheet.

    Under a slope the rectangle is as high as its column at its highest; the slope is cut from it.
    A piece keeps the sheet's own corner at its foot, on the side where the sheets begin.
    """
    wide, high = _sheet_size(wall)
    kerf = defaults.KERF
    cuts: list[_Cut] = []
    sheets = 0
    for band in bands:
        stacked = high + kerf  # no sheet begun for this course yet
        for face in band:
            height = face.top - face.bottom
            if stacked + height > high:
                sheets += 1
                stacked = 0
            x = 0 if wall.sheets_from == "left" else wide - (face.right - face.left)
            cuts.append(_Cut(face, sheets, x, stacked))
            stacked += height + kerf
    return cuts


def _piece(wall: Wall, cut: _Cut, name: str, outline: Outline, cut_outs: tuple[Outline, ...]) -> Piece:
    wide, long = _sheet_size(wall)
    dx, dy = cut.x - cut.face.left, cut.y - cut.face.bottom

    def moved(points: Outline) -> Outline:
        return tuple((x + dx, y + dy) for x, y in points)

    on_sheet = moved(outline)
    lines = [line for points in (on_sheet, *map(moved, cut_outs)) for line in _sawn(points, wide, long)]
    return Piece(name, outline, cut_outs, f"sheet-{cut.sheet}", on_sheet, tuple(lines), _stage(wall, outline))


def _sawn(points: Outline, wide: int, long: int) -> list[Line]:
    """The sides of an outline on a sheet that are not the sheet's own edges."""
    lines = []
    for a, b in zip(points, (*points[1:], points[0]), strict=True):
        own = (a[0] == b[0] and a[0] in (0, wide)) or (a[1] == b[1] and a[1] in (0, long))
        if not own:
            lines.append((a, b))
    return lines


def _stage(wall: Wall, outline: Outline) -> str:
    """Whether a piece crosses an end that meets another wall, and so waits until the wall stands."""
    past_left = wall.left.meets is not None and min(x for x, _ in outline) < 0
    past_right = wall.right.meets is not None and max(x for x, _ in outline) > wall.length
    return "after-raising" if past_left or past_right else "before-raising"


def _uses(wall: Wall, cuts: list[_Cut], pieces: tuple[Piece, ...]) -> tuple[SheetUse, ...]:
    long, wide = lying_size(wall)
    names = dict.fromkeys(f"sheet-{cut.sheet}" for cut in cuts)
    lies = wall.sheathing.direction
    return tuple(SheetUse(name, wide, long, tuple(p.id for p in pieces if p.sheet == name), lies) for name in names)


def _offcuts(wall: Wall, cuts: list[_Cut]) -> tuple[Offcut, ...]:
    """What each sheet leaves: the strip beside its widest piece, then what is above its topmost one."""
    wide, long = _sheet_size(wall)
    kerf = defaults.KERF
    found = []
    for number in dict.fromkeys(cut.sheet for cut in cuts):
        own = [cut for cut in cuts if cut.sheet == number]
        width = max(cut.face.right - cut.face.left for cut in own)
        top = max(cut.y + cut.face.top - cut.face.bottom for cut in own)
        from_left = wall.sheets_from == "left"
        if wide - width > kerf:
            beside = wide - width - kerf
            found.append(Offcut(f"sheet-{number}", width + kerf if from_left else 0, 0, beside, long))
        if long - top > kerf:
            found.append(
                Offcut(f"sheet-{number}", 0 if from_left else wide - width, top + kerf, width, long - top - kerf)
            )
    return tuple(found)
