"""The sheathing elevation of one wall, seen from outside: pieces, cut-outs, seams, and the frame behind."""

from wallwright.domain.members import Layout, Point
from wallwright.domain.skin import Piece, Seam, Skin
from wallwright.domain.slopes import top_edge
from wallwright.drawing.dimensions import Shapes, heights_of, string, upright
from wallwright.drawing.paper import View, fitted
from wallwright.drawing.scene import Area, Lines, Scene, Text, text_width
from wallwright.drawing.svg import svg_text
from wallwright.drawing.title import title_strip
from wallwright.drawing.voids import opening_void
from wallwright.lengths import Units, tape_text


def sheathing_elevation(skin: Skin, units: Units, revision: str, layout: Layout | None = None) -> str:
    """The sheathing elevation as SVG."""
    return svg_text(sheathing_scene(skin, units, revision, layout))


def sheathing_scene(skin: Skin, units: Units, revision: str, layout: Layout | None = None) -> Scene:
    """The sheathing elevation as shapes on paper."""
    wall = skin.wall
    highest = max(wall.height, *(y for piece in skin.pieces for _, y in piece.outline))
    view = fitted(
        units, (min(0, wall.face_left), wall.face_bottom, max(wall.length, wall.face_right), highest), 8, 36, 16, 18
    )
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
    for piece in skin.pieces:
        shapes += _piece_texts(view, piece, units, wall.sheathing.reuse_offcuts)
    shapes += _dimensions(view, skin, units)
    seen = f"Sheathing elevation, seen from outside; {len(skin.sheets)} sheets"
    if wall.sheathing.reuse_offcuts:
        seen += ", offcuts reused"
    if any(piece.stage == "after-raising" for piece in skin.pieces):
        seen += "; pieces marked * are fixed after raising"
    if laps:
        seen += "; broken lines beside seams: laps underneath"
    shapes += title_strip(view, wall.name, seen, units, revision, wall.rules)
    description = f"{len(skin.pieces)} pieces from {len(skin.sheets)} sheets, {len(skin.seams)} seams."
    return Scene(view.width, view.height, f"Sheathing of wall {wall.name or 'unnamed'}", description, tuple(shapes))


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
    ways = [[number, one_line], stacked, [number]]
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
        wide, tall = max(text_width(line) for line in lines) + 2, len(lines) * 3.4 + 1.6
        fitting = [
            room for room in clear if view.size(room[2] - room[0]) >= wide and view.size(room[3] - room[1]) >= tall
        ]
        if fitting:
            break
    else:
        return []
    left, bottom, right, _ = max(fitting, key=lambda room: (room[2] - room[0]) * (room[3] - room[1]))
    middle = (view.x(left) + view.x(right)) / 2
    last = view.y(bottom) - 1.6
    first = last - 3.4 * (len(lines) - 1)
    half = max(text_width(line) for line in lines) / 2 + 0.4
    box = (
        (middle - half, first - 2.5),
        (middle + half, first - 2.5),
        (middle + half, last + 0.7),
        (middle - half, last + 0.7),
    )
    shapes: Shapes = [Area("mask", box)]
    shapes += [Text(middle, first + 3.4 * row, line, "t", "middle") for row, line in enumerate(lines)]
    return shapes


def _clear(piece: Piece) -> list[tuple[int, int, int, int]]:
    """Rectangles of a piece between two of its corners' x, free of cuts: left, bottom, right, top."""
    loops = (piece.outline, *piece.cut_outs)
    # A sloping side is taken as level at its lower end: what is clear under that is clear.
    sides = [
        (min(a[0], b[0]), max(a[0], b[0]), min(a[1], b[1]))
        for loop in loops
        for a, b in zip(loop, (*loop[1:], loop[0]), strict=True)
        if a[0] != b[0]
    ]
    xs = sorted({x for loop in loops for x, _ in loop})
    found = []
    for number, left in enumerate(xs):
        for right in xs[number + 1 :]:
            # Level sides that reach into this stretch, from the bottom up, bound what is solid in it.
            levels = sorted({y for low, high, y in sides if low < right and high > left})
            for bottom, top in zip(levels, levels[1:], strict=False):
                if _inside(loops, left, right, (bottom + top) // 2):
                    found.append((left, bottom, right, top))
    return found


def _inside(loops: tuple[tuple[Point, ...], ...], left: int, right: int, y: int) -> bool:
    """Whether the whole stretch at height ``y`` lies inside the piece: no upright side within it, an odd count before it."""
    before = 0
    for loop in loops:
        for a, b in zip(loop, (*loop[1:], loop[0]), strict=True):
            if a[0] == b[0] and min(a[1], b[1]) < y < max(a[1], b[1]):
                if left < a[0] < right:
                    return False
                before += a[0] <= left
    return before % 2 == 1


def _dimensions(view: View, skin: Skin, units: Units) -> Shapes:
    wall = skin.wall
    foot = view.y(wall.face_bottom)
    levels = sorted({(seam.before, seam.after) for seam in skin.seams if seam.direction == "level"})
    lying = wall.sheathing.direction == "lying"
    # Courses of lying sheets have joints of their own: those of the lowest stand under the wall.
    below = levels[0][0] if lying and levels else wall.face_bottom + (1 << 62)
    upright_seams = [seam for seam in skin.seams if seam.direction == "upright" and seam.start < below]
    seams = sorted({(seam.before, seam.after) for seam in upright_seams})
    # Each text is the width to cut, from where its sheet starts past the gap; the ticks stand at the sheets' right edges.
    end = max(x for piece in skin.pieces for x, y in piece.outline if y <= below)
    starts: list[int] = [wall.face_left, *(after for _, after in seams)]
    ends: list[int] = [*(before for before, _ in seams), end]
    widths = [tape_text(right - left, units) for left, right in zip(starts, ends, strict=True)]
    shapes = string(view, [wall.face_left, *ends], foot + 8, widths)
    if wall.openings:
        stops = sorted({wall.face_left, wall.face_right, *(x for o in wall.openings for x in (o.left, o.right))})
        texts = [tape_text(b - a, units) for a, b in zip(stops, stops[1:], strict=False)]
        shapes += string(view, stops, foot + 16, texts)
    whole = f"sheathing {tape_text(wall.face_right - wall.face_left, units)}"
    shapes += string(view, [wall.face_left, wall.face_right], foot + 24, [whole])
    shapes += string(view, [0, wall.length], foot + 32, [f"plate {tape_text(wall.length, units)}"])
    left = view.x(min(0, wall.face_left))
    own_left, own_right, peak = heights_of(wall)
    whole_at = left - 6
    if lying and levels:
        whole_at = left - 11.5
        feet = [wall.face_bottom, *(after for _, after in levels)]
        for foot_of, head in zip(feet, [before for before, _ in levels], strict=False):
            shapes += upright(view, foot_of, head, left - 6, tape_text(head - foot_of, units))
    shapes += upright(view, wall.face_bottom, own_left, whole_at, tape_text(own_left - wall.face_bottom, units))
    if wall.sheathing.under_sheet:
        right = view.x(max(wall.length, wall.face_right)) + 8
        shapes += upright(view, wall.face_bottom, 0, right, tape_text(wall.sheathing.under_sheet, units), or_below=True)
        shapes += upright(view, 0, own_right, right, tape_text(own_right, units))
    elif own_right != own_left:
        right = view.x(max(wall.length, wall.face_right)) + 8
        shapes += upright(view, 0, own_right, right, tape_text(own_right, units))
    ridge = top_edge(wall).ridge
    if ridge is not None:
        shapes.append(Text(view.x(ridge) + 2, view.y(peak) - 1.2, f"ridge {tape_text(peak, units)}"))
    return shapes
