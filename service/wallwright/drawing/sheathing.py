"""The sheathing elevation of one wall, seen from outside: pieces, cut-outs, seams, and the frame behind."""

from typing import Final

from wallwright.domain.members import Layout, Point
from wallwright.domain.skin import Piece, Seam, Skin
from wallwright.domain.slopes import top_edge
from wallwright.domain.wall import Wall
from wallwright.drawing.dimensions import Part, Shapes, heights_of, string, upright
from wallwright.drawing.paper import View, continued
from wallwright.drawing.scene import Area, Lines, Scene, Text, stacked, text_width
from wallwright.drawing.sheets import Around, paged, scenes
from wallwright.drawing.svg import svg_text
from wallwright.drawing.title import title_strip
from wallwright.drawing.voids import opening_void
from wallwright.lengths import Units, tape_text

_ROW: Final = 7.0
"""From one row of dimensions to the next, in millimetres of paper."""
_ALONE: Final = 2.9
"""How high a room one row of text needs at least."""
_PARTS: Final = 6
"""Into so many stretches a sloping side is parted where room for a text is sought under it."""


def sheathing_elevation(skin: Skin, units: Units, revision: str, layout: Layout | None = None) -> str:
    """The sheathing elevation as SVG."""
    return svg_text(sheathing_scene(skin, units, revision, layout))


def sheathing_scene(skin: Skin, units: Units, revision: str, layout: Layout | None = None) -> Scene:
    """The sheathing elevation as shapes on paper; of a long wall several papers one below the other."""
    return stacked(sheathing_pages(skin, units, revision, layout), _title(skin.wall))


def sheathing_pages(skin: Skin, units: Units, revision: str, layout: Layout | None = None) -> list[Scene]:
    """The sheathing elevation as papers, more than one where a wall is too long to be read on one."""
    wall = skin.wall
    highest = max(wall.height, *(y for piece in skin.pieces for _, y in piece.outline))
    left, right = min(0, wall.face_left), max(wall.length, wall.face_right)
    around = Around(16.0 if wall.sheathing.direction == "lying" else 11.0, 18.0)
    # Three rows of dimensions under the wall, or four with the openings'; a short height is written there too.
    below = (3 + bool(wall.openings)) * _ROW + 4
    view = continued(units, (left, wall.face_bottom, right, highest), 8, below, around.left, around.right)
    shapes: Shapes = []
    for piece in skin.pieces:
        shapes += _piece(view, piece, units)
    if layout is not None:
        shapes.append(_behind(view, layout))
    laps = tuple(_lap_edge(view, skin, seam) for seam in skin.seams if seam.lap)
    if laps:
        shapes.append(Lines("hidden", laps))
    for opening in wall.openings:
        shapes += opening_void(view, opening, units)
    bare = []
    for piece in skin.pieces:
        texts = _piece_texts(view, piece, units, wall.sheathing.reuse_offcuts)
        shapes += texts
        if not texts:
            bare.append(piece.id.removeprefix("piece-"))
    ridge = top_edge(wall).ridge
    if ridge is not None:
        peak = heights_of(wall)[2]
        shapes.append(Text(view.x(ridge) + 2, view.y(peak) - 1.2, f"ridge {tape_text(peak, units)}"))
    seen = _seen(skin, units, bool(laps))
    if bare:
        seen += f"; no room to number {', '.join(bare)}"
    pages = paged(
        view, shapes, (left, right), around, units,
        lambda part: [*_gaps(view, skin, units, part), *_dimensions(view, skin, units, part)],
        lambda paper, sheet: title_strip(paper, wall.name, seen, units, revision, wall.rules, sheet=sheet),
    )  # fmt: skip
    description = f"{len(skin.pieces)} pieces from {len(skin.sheets)} sheets, {len(skin.seams)} seams."
    return scenes(view, pages, _title(wall), description)


def _title(wall: Wall) -> str:
    return f"Sheathing of wall {wall.name or 'unnamed'}"


def _seen(skin: Skin, units: Units, laps: bool) -> str:
    """What the drawing shows, in the words of the title strip."""
    sheathing = skin.wall.sheathing
    seen = f"Sheathing elevation, seen from outside; {len(skin.sheets)} sheets"
    if sheathing.reuse_offcuts:
        seen += ", offcuts reused"
    if sheathing.gap and skin.seams:
        seen += f"; gap {tape_text(sheathing.gap, units)} at every seam"
    if any(piece.stage == "after-raising" for piece in skin.pieces):
        seen += "; pieces marked * are fixed after raising"
    if laps:
        seen += "; broken lines beside seams: laps underneath"
    return seen


def _gaps(view: View, skin: Skin, units: Units, part: Part) -> Shapes:
    """The gap of each seam that ends at a level top, written over it on a tick, where two are not too near."""
    if skin.wall.top.shape != "level":
        return []
    top = max(y for piece in skin.pieces for _, y in piece.outline)
    shapes: Shapes = []
    ticks: list[tuple[float, float, float, float]] = []
    free = part.low + 1.0
    for seam in sorted(skin.seams, key=lambda seam: seam.before):
        if seam.direction != "upright" or seam.end != top or seam.after <= seam.before:
            continue
        text, x, y = (
            f"gap {tape_text(seam.after - seam.before, units)}",
            view.x((seam.before + seam.after) // 2),
            view.y(top),
        )
        half = text_width(text) / 2
        if x - half >= free and x + half < part.high - 1:
            ticks.append((x, y - 1.6, x, y))
            shapes.append(Text(x, y - 2.2, text, "t", "middle"))
            free = x + half + 1
    return [Lines("thin", tuple(ticks)), *shapes] if ticks else []


def _placed(view: View, points: tuple[Point, ...]) -> tuple[tuple[float, float], ...]:
    return tuple(view.at(x, y) for x, y in points)


def _piece(view: View, piece: Piece, units: Units) -> Shapes:
    width, height = _size(piece)
    title = f"{piece.id} of {piece.sheet}: {tape_text(width, units)} x {tape_text(height, units)}, {piece.stage}"
    data = (("piece", piece.id), ("sheet", piece.sheet), ("stage", piece.stage))
    shapes: Shapes = [Area("sheet", _placed(view, piece.outline), title, data)]
    shapes += [Area("hole", _placed(view, points)) for points in piece.cut_outs]
    return shapes


def _lap_edge(view: View, skin: Skin, seam: Seam) -> tuple[float, float, float, float]:
    """The edge of the lap that runs on underneath the sheet past a seam."""
    if seam.direction == "level":
        y = view.y(seam.before + seam.lap)
        return view.x(seam.start), y, view.x(seam.end), y
    x = view.x(seam.before + seam.lap if skin.wall.sheets_from == "left" else seam.after - seam.lap)
    return x, view.y(seam.start), x, view.y(seam.end)


def _size(piece: Piece) -> tuple[int, int]:
    xs, ys = [x for x, _ in piece.outline], [y for _, y in piece.outline]
    return max(xs) - min(xs), max(ys) - min(ys)


def _behind(view: View, layout: Layout) -> Lines:
    """Centre lines of the uprights behind the sheets, where the fasteners go."""
    lines = []
    for member in layout.members:
        if member.z == 0 and member.height > member.width:
            x = view.x(member.x) + view.size(member.width) / 2
            lines.append((x, view.y(member.y), x, view.y(member.top)))
    return Lines("behind", tuple(lines))


def _piece_texts(view: View, piece: Piece, units: Units, with_sheet: bool) -> Shapes:
    """A piece's number (and its sheet's) and size, in its roomiest clear rectangle; the number alone where no more fits."""
    width, height = _size(piece)
    number = piece.id.removeprefix("piece-") + ("*" if piece.stage == "after-raising" else "")
    one_line = f"{tape_text(width, units)} x {tape_text(height, units)}"
    stacked = [number, tape_text(width, units), "x " + tape_text(height, units)]
    ways = [[number, one_line], stacked, [f"{number}: {one_line}"], [number]]
    if with_sheet:
        sheet = piece.sheet.replace("-", " ")
        ways = [
            [f"{number}, {sheet}", one_line],
            [number, sheet, *stacked[1:]],
            [f"{number}, {sheet}"],
            [number, sheet],
            *ways,
        ]
    clear = _clear(piece)
    for lines in ways:
        # One row alone stands in the middle of its room, and needs no more than its own height.
        alone = len(lines) == 1
        wide = max(text_width(line) for line in lines) + (1 if alone else 2)
        tall = _ALONE if alone else len(lines) * 3.4 + 1.6
        fitting = [
            room for room in clear if view.size(room[2] - room[0]) >= wide and view.size(room[3] - room[1]) >= tall
        ]
        if fitting:
            break
    else:
        return []
    left, bottom, right, top = max(fitting, key=lambda room: (room[2] - room[0]) * (room[3] - room[1]))
    middle = (view.x(left) + view.x(right)) / 2
    low = view.size(top - bottom) < 5.0
    last = (view.y(bottom) + view.y(top)) / 2 + 0.9 if low else view.y(bottom) - 1.6
    first = last - 3.4 * (len(lines) - 1)
    half = max(text_width(line) for line in lines) / 2 + 0.4
    over, under = (2.1, 0.4) if low else (2.5, 0.7)
    box = (
        (middle - half, first - over),
        (middle + half, first - over),
        (middle + half, last + under),
        (middle - half, last + under),
    )
    shapes: Shapes = [Area("mask", box)]
    shapes += [Text(middle, first + 3.4 * row, line, "t", "middle") for row, line in enumerate(lines)]
    return shapes


def _clear(piece: Piece) -> list[tuple[int, int, int, int]]:
    """Rectangles of a piece, free of cuts, between two of its corners' x or of the places that part its sloping sides:
    left, bottom, right, top.
    """
    loops = (piece.outline, *piece.cut_outs)
    sides = [
        (min(a, b), max(a, b))
        for loop in loops
        for a, b in zip(loop, (*loop[1:], loop[0]), strict=True)
        if a[0] != b[0]
    ]
    parted = (a[0] + (b[0] - a[0]) * part // _PARTS for a, b in sides if a[1] != b[1] for part in range(1, _PARTS))
    xs = sorted({*(x for loop in loops for x, _ in loop), *parted})
    found = []
    for number, left in enumerate(xs):
        for right in xs[number + 1 :]:
            # Level sides that reach into this stretch, from the bottom up, bound what is solid in it. A sloping side is
            # taken as level at its lower end there: what is clear under that is clear, and nothing above it is.
            reaching = [(_lowest(a, b, left, right), a[1] != b[1]) for a, b in sides if a[0] < right and b[0] > left]
            slope = min((y for y, slopes in reaching if slopes), default=None)
            levels = sorted({y for y, _ in reaching if slope is None or y <= slope})
            for bottom, top in zip(levels, levels[1:], strict=False):
                if _inside(loops, left, right, (bottom + top) // 2):
                    found.append((left, bottom, right, top))
    return found


def _lowest(a: Point, b: Point, left: int, right: int) -> int:
    """How low a side from ``a`` to ``b``, further right, comes between two x."""
    return min(a[1] + (b[1] - a[1]) * (x - a[0]) // (b[0] - a[0]) for x in (max(a[0], left), min(b[0], right)))


def _inside(loops: tuple[tuple[Point, ...], ...], left: int, right: int, y: int) -> bool:
    """Whether the whole stretch at height ``y`` lies inside the piece: no side crosses it, an odd count lies before it."""
    before = 0
    for loop in loops:
        for a, b in zip(loop, (*loop[1:], loop[0]), strict=True):
            if min(a[1], b[1]) <= y < max(a[1], b[1]):
                x = a[0] + (b[0] - a[0]) * (y - a[1]) // (b[1] - a[1])
                if left < x < right:
                    return False
                before += x <= left
    return before % 2 == 1


def _dimensions(view: View, skin: Skin, units: Units, part: Part) -> Shapes:
    wall = skin.wall
    levels = sorted({(seam.before, seam.after) for seam in skin.seams if seam.direction == "level"})
    y = view.y(wall.face_bottom) + _ROW
    shapes = _widths(view, skin, units, levels, y, part)
    if wall.openings:
        y += _ROW
        stops = sorted({wall.face_left, wall.face_right, *(x for o in wall.openings for x in (o.left, o.right))})
        texts = [tape_text(b - a, units) for a, b in zip(stops, stops[1:], strict=False)]
        shapes += string(view, stops, y, texts, part)
    whole = f"sheathing {tape_text(wall.face_right - wall.face_left, units)}"
    shapes += string(view, [wall.face_left, wall.face_right], y + _ROW, [whole], part)
    shapes += string(view, [0, wall.length], y + 2 * _ROW, [f"plate {tape_text(wall.length, units)}"], part)
    if part.first:
        shapes += _left_heights(view, skin, units, levels)
    own_left, own_right, _ = heights_of(wall)
    if part.last and (wall.sheathing.under_sheet or own_right != own_left):
        right = view.x(max(wall.length, wall.face_right)) + 8
        if wall.sheathing.under_sheet:
            hang = tape_text(wall.sheathing.under_sheet, units)
            shapes += upright(view, wall.face_bottom, 0, right, hang, or_below=True)
        shapes += upright(view, 0, own_right, right, tape_text(own_right, units))
    return shapes


def _widths(view: View, skin: Skin, units: Units, levels: list[tuple[int, int]], y: float, part: Part) -> Shapes:
    """The width to cut of each piece of the lowest course, from where it starts past the gap; ticks stand at right edges."""
    wall = skin.wall
    # Courses of lying sheets have joints of their own: those of the lowest stand under the wall.
    lying = wall.sheathing.direction == "lying"
    below = levels[0][0] if lying and levels else wall.face_bottom + (1 << 62)
    upright_seams = [seam for seam in skin.seams if seam.direction == "upright" and seam.start < below]
    seams = sorted({(seam.before, seam.after) for seam in upright_seams})
    end = max(x for piece in skin.pieces for x, y in piece.outline if y <= below)
    starts: list[int] = [wall.face_left, *(after for _, after in seams)]
    ends: list[int] = [*(before for before, _ in seams), end]
    widths = [tape_text(right - left, units) for left, right in zip(starts, ends, strict=True)]
    return string(view, [wall.face_left, *ends], y, widths, part)


def _left_heights(view: View, skin: Skin, units: Units, levels: list[tuple[int, int]]) -> Shapes:
    """The whole height at the left end, and of lying sheets each course's."""
    wall = skin.wall
    left, own_left = view.x(min(0, wall.face_left)), heights_of(wall)[0]
    shapes: Shapes = []
    whole_at = left - 6
    if wall.sheathing.direction == "lying" and levels:
        whole_at = left - 11.5
        feet = [wall.face_bottom, *(after for _, after in levels)]
        for foot_of, head in zip(feet, [before for before, _ in levels], strict=False):
            shapes += upright(view, foot_of, head, left - 6, tape_text(head - foot_of, units))
    return shapes + upright(view, wall.face_bottom, own_left, whole_at, tape_text(own_left - wall.face_bottom, units))
