"""The judge of a skinned wall: what must hold of its pieces, edges, seams and sheets, whatever the plan.

Every function returns what is wrong, in words, and an empty list where all is right.
"""

from collections.abc import Callable, Iterable

from shapely import LineString, Polygon, STRtree, box, unary_union
from shapely.affinity import translate
from tests.property.framing import is_in_bay
from tests.property.geometry import UPRIGHT_ROLES, Span, bands, boxes, empty, merged, overlapping
from tests.property.slope import crests, top_at

from wallwright.domain.members import Layout, Member
from wallwright.domain.skin import Outline, Piece, Skin
from wallwright.domain.wall import Opening, Wall
from wallwright.lengths import inches

CARRIED = inches("3/8")
"""Least timber behind an edge for it to count as carried (common practice, no source)."""
OPEN = inches("1/2")
"""Between uprights nearer than this a level seam has no block: one so short splits and cannot be held at the saw (practice)."""
KERF = inches("1/8")
"""What a saw takes (common practice, no source)."""
NAILED = inches("5/8")
"""Least timber behind an edge that is nailed to a single stud (common practice, no source)."""


def shape(piece: Piece) -> Polygon:
    """The piece as shapely sees it."""
    return Polygon(piece.outline, piece.cut_outs)


def faults_of_cover(skin: Skin) -> list[str]:
    """Pieces, gaps and openings that do not cover the face exactly and once."""
    wall, gap = skin.wall, skin.wall.sheathing.gap
    pieces = [shape(piece) for piece in skin.pieces]
    face = face_of(wall)
    # Corners on a slope are rounded to the grid: nothing is amiss by less than two units.
    play = 0 if wall.top.shape == "level" else 2
    openings = [box(o.left, o.sill, o.right, o.head) for o in wall.openings]
    found = [f"{p.id} is no simple polygon" for p, s in zip(skin.pieces, pieces, strict=True) if not s.is_valid]
    for piece, polygon in zip(skin.pieces, pieces, strict=True):
        if not polygon.within(face.buffer(play) if play else face):
            found.append(f"{piece.id} leaves the face")
        if any(polygon.intersects(o) and not polygon.touches(o) for o in openings):
            found.append(f"{piece.id} covers an opening")
    tree = STRtree(pieces)
    near = tree.query(pieces, predicate="dwithin", distance=gap) if gap else tree.query(pieces, predicate="intersects")
    for first, second in zip(*near, strict=True):
        apart = pieces[first].distance(pieces[second])
        meets = pieces[first].intersects(pieces[second]) and not pieces[first].touches(pieces[second])
        # The distance is a float: half a grid unit short is no less.
        if first < second and (apart < gap - 0.5 or meets):
            found.append(f"{skin.pieces[first].id} and {skin.pieces[second].id} are {apart} apart")
    left = face.difference(unary_union([*pieces, *openings]))
    bare = left if gap == play == 0 else left.buffer(-(gap // 2 + 1 + play), join_style="mitre")
    if not empty(bare):
        found.append(f"the face is bare at {bare.bounds}")
    # A gap may straddle an opening's edge, or the face's end where no piece is left to follow it: what is
    # left of it lies between no two sheets.
    named = unary_union([
        *(_seam_box(skin, number) for number in range(len(skin.seams))),
        *(o.buffer(gap, join_style="mitre") for o in openings),
        face.difference(face.buffer(-gap, join_style="mitre")),
    ])  # fmt: skip
    unnamed = left.difference(named)
    if not empty(unnamed.buffer(-play, join_style="mitre") if play else unnamed):
        found.append(f"a gap at {left.difference(named).bounds} is in no seam")
    return found


def face_of(wall: Wall) -> Polygon:
    """The face to be skinned, up to the wall's top, past its ends by the laps."""
    left, right, foot = -wall.left.sheathing_lap, wall.length + wall.right.sheathing_lap, -wall.sheathing.under_sheet
    if wall.top.shape == "level":
        return box(left, foot, right, wall.height)
    # Whole units, since an overlay of shapes that run a fraction of one apart can lose a whole piece.
    corners = [(int(x), int(top_at(wall, x))) for x in (right, *crests(wall, left, right), left)]
    return Polygon([(left, foot), (right, foot), *corners])


def _seam_box(skin: Skin, number: int) -> Polygon:
    """A seam's gap, run on by a gap at both ends, where it may cross another."""
    seam, gap = skin.seams[number], skin.wall.sheathing.gap
    if seam.direction == "upright":
        return box(seam.before, seam.start - gap, seam.after, seam.end + gap)
    return box(seam.start - gap, seam.before, seam.end + gap, seam.after)


def faults_of_sheets(skin: Skin) -> list[str]:
    """Pieces that do not fit their sheet, or lie over one another on it."""
    sheet, found = skin.wall.sheathing.sheet, []
    less = skin.wall.sheathing.gap if sheet.sized_for_spacing else 0
    lying = skin.wall.sheathing.direction == "lying"
    sides = (sheet.width - less, sheet.length - less)
    whole = box(0, 0, *(sides[::-1] if lying else sides))
    fewer = reused(skin)
    by_sheet: dict[str, list[tuple[str, Polygon]]] = {use.id: [] for use in skin.sheets}
    for piece in skin.pieces:
        turn = _turn_of(skin, piece)
        moved = {
            (on[0] - at[0], on[1] - at[1]) for on, at in zip(piece.on_sheet, map(turn, piece.outline), strict=True)
        }
        if len(moved) != 1:
            found.append(f"{piece.id} has another shape on its sheet")
        (across, up), *_ = moved
        holes = [[(x + across, y + up) for x, y in map(turn, hole)] for hole in piece.cut_outs]
        lap = sheet.lap if piece.lap_side else 0
        run = {"left": (-lap, 0), "right": (lap, 0), "top": (0, lap), "": (0, 0)}[piece.lap_side]
        net = Polygon(piece.on_sheet, holes)
        # The lap is part of what is cut: the piece and the piece moved on by it.
        by_sheet[piece.sheet].append((piece.id, unary_union([net, translate(net, *run)]) if lap else net))
    for use in skin.sheets:
        placed = by_sheet[use.id]
        if tuple(sorted(name for name, _ in placed)) != tuple(sorted(use.pieces)):
            found.append(f"{use.id} names {use.pieces}")
        if (use.width, use.length) != sides or use.direction != skin.wall.sheathing.direction:
            found.append(f"{use.id} is {use.width} by {use.length}")
        found += [f"{name} does not fit {use.id}" for name, polygon in placed if not polygon.within(whole)]
        for number, (name, polygon) in enumerate(placed):
            for other, second in placed[number + 1 :]:
                if polygon.intersects(second) and not polygon.touches(second):
                    found.append(f"{name} and {other} overlap on {use.id}")
        if fewer:
            found += [f"{fault} on {use.id}" for fault in _faults_of_sawing([polygon for _, polygon in placed])]
        for offcut in (o for o in skin.offcuts if o.sheet == use.id):
            rest = box(offcut.left, offcut.bottom, offcut.left + offcut.width, offcut.bottom + offcut.height)
            if not rest.within(whole) or any(rest.intersects(p) and not rest.touches(p) for _, p in placed):
                found.append(f"an offcut of {use.id} is not left over")
    return found


def reused(skin: Skin) -> bool:
    """Whether offcuts are said to save sheets."""
    said = [dict(f.values) for f in skin.findings if f.code in ("reuse-proven", "reuse-not-proven")]
    return any(int(str(one["sheets"])) < int(str(one["without"])) for one in said)


def _turn_of(skin: Skin, piece: Piece) -> Callable[[tuple[int, int]], tuple[int, int]]:
    """How a piece lies on its sheet: a quarter turned, never over, and only where the grain is free."""
    if not piece.turned:
        return lambda point: point
    assert skin.wall.sheathing.reuse_offcuts
    assert skin.wall.sheathing.grain == "free"
    (a, b), (c, d) = piece.outline[:2], piece.on_sheet[:2]
    # The first side runs to the right or up; turned to the left it runs up or to the left.
    way, seen = (b[0] - a[0], b[1] - a[1]), (d[0] - c[0], d[1] - c[1])
    if seen == (-way[1], way[0]):
        return lambda point: (-point[1], point[0])
    return lambda point: (point[1], -point[0])


def _faults_of_sawing(pieces: list[Polygon]) -> list[str]:
    """Boxes of pieces that no run of saw cuts from edge to edge, each a kerf wide, takes apart."""
    boxes_of = [tuple(int(v) for v in polygon.bounds) for polygon in pieces]
    return [] if _sawn_apart(boxes_of) else ["pieces cannot be sawn apart"]


def _sawn_apart(own: list[tuple[int, ...]]) -> bool:
    if len(own) < 2:
        return True
    for low, high in ((0, 2), (1, 3)):
        for at in {one[high] for one in own}:
            before = [one for one in own if one[high] <= at]
            after = [one for one in own if one[low] >= at + KERF]
            if after and len(before) + len(after) == len(own):
                # A cut that parts them takes nothing from what the parts allow.
                return _sawn_apart(before) and _sawn_apart(after)
    return False


def faults_of_piecing(skin: Skin) -> list[str]:
    """Pieces that an opening notches though nothing is said of sides that are still cut out, or too few that are told."""
    wall = skin.wall
    said = {f.code: int(str(dict(f.values)["count"])) for f in skin.findings if f.about == "/sheathing/openings"}
    low = sum(int(str(dict(f.values)["count"])) for f in skin.findings if f.code == "low-piece")
    if wall.sheathing.openings == "cut-out" or not wall.openings:
        return [f"{code} is said" for code in said] + (["low pieces are told"] if low else [])
    found = []
    if sum(said.values()) != 2 * len(wall.openings):
        found.append(f"of {2 * len(wall.openings)} sides {said} are told")
    notched = [
        side
        for o in wall.openings
        for side in (o.left, o.right)
        if any(
            min(x for x, _ in p.outline) < side < max(x for x, _ in p.outline)
            and shape(p).intersection(LineString([(side, o.sill), (side, o.head)])).length > 0
            for p in skin.pieces
        )
    ]
    if len(notched) != said.get("opening-still-cut-out", 0):
        found.append(f"pieces are notched at {notched}, and {said} is told")
    if (seen := sum(_is_low(wall, piece) for piece in skin.pieces)) != low:
        found.append(f"{seen} pieces over and under openings are low, and {low} are told")
    return found


def _is_low(wall: Wall, piece: Piece) -> bool:
    """Whether a rectangle over a head or under a sill, no wider than the opening, is less than a foot high."""
    left, bottom, right, top = shape(piece).bounds
    if len(piece.outline) != 4 or top - bottom >= inches("12"):
        return False
    return any(o.left <= left and right <= o.right and (o.head == bottom or o.sill == top) for o in wall.openings)


def faults_of_count(skin: Skin) -> list[str]:
    """Sheets fewer than the pieces' area fills, more than there are without reuse, or a bound that is above the count."""
    if not skin.wall.sheathing.reuse_offcuts:
        return [] if skin.least_sheets is None and skin.proven is None else ["a bound stands where none was asked for"]
    sheet = skin.wall.sheathing.sheet
    area = sum(shape(piece).area for piece in skin.pieces)
    found = [] if area <= len(skin.sheets) * sheet.width * sheet.length else ["the sheets are smaller than the pieces"]
    if skin.least_sheets is None or not 0 < skin.least_sheets <= len(skin.sheets):
        found.append(f"{len(skin.sheets)} sheets stand beside a bound of {skin.least_sheets}")
    if skin.proven != (skin.least_sheets == len(skin.sheets)):
        found.append("proven where it is not, or not where it is")
    return found


def faults_of_stages(skin: Skin) -> list[str]:
    """Pieces that cross an end that slides between walls and are fixed too early, or stay within and are late."""
    found = []
    for piece in skin.pieces:
        crosses = (skin.wall.left.meets and min(x for x, _ in piece.outline) < 0) or (
            skin.wall.right.meets and max(x for x, _ in piece.outline) > skin.wall.length
        )
        if (piece.stage == "after-raising") != bool(crosses):
            found.append(f"{piece.id} is fixed {piece.stage}")
    return found


def faults_of_blocking(skin: Skin, layout: Layout) -> list[str]:
    """Blocking that is no member of the layout."""
    known = set(layout.members)
    return [f"{block.id} is no member" for block in skin.blocking if block not in known]


def faults_of_upright_edges(skin: Skin, layout: Layout) -> list[str]:
    """Upright edges with too little timber behind them, on their own side, at any height above the floor.

    Solid timber is every member on the framing's outer face. Beyond the wall's ends an edge is the next
    wall's to carry. The sides of an opening within one bay hang between its blocks.
    """
    wall = layout.wall
    outer = _outer(layout)
    bay = [o for o in wall.openings if is_in_bay(layout, o)]
    levels = [y for m in outer for y in (m.y, m.top)] + [y for p in skin.pieces for _, y in _points(p)]
    found = []
    for low, high in bands(levels, 0, wall.height):
        here = [m for m in outer if m.y < high and m.top > low]
        solid = merged([*(span for m in here for span in _spans(m)), *_next_walls_cap(wall, low)])
        spans = sorted((span, piece.id) for piece in skin.pieces for span in _cross_section(piece, low + high))
        for (left, right), name in spans:
            for edge, inwards in ((left, 1), (right, -1)):
                if not 0 < edge < wall.length and edge not in (0, wall.length):
                    continue
                beside = next((o for o in bay if o.sill <= low and o.head >= high and edge in (o.left, o.right)), None)
                if beside is not None:
                    continue
                behind = _behind(solid, edge, inwards)
                least = _least(here, solid, spans, edge, inwards, wall)
                if behind < least:
                    wide = right - left
                    found.append(
                        f"{name}, {wide} wide, has {behind} behind its edge at {edge} from {low} to {high}, not {least}"
                    )
    return found


def _least(
    here: list[Member], solid: list[Span], spans: list[tuple[Span, str]], edge: int, inwards: int, wall: Wall
) -> int:
    """3/8 in, or 5/8 in where this edge and its neighbour share one single stud."""
    partner = next(
        (s[1] if inwards > 0 else s[0] for s, _ in spans
         if 0 <= (edge - s[1] if inwards > 0 else s[0] - edge) <= wall.sheathing.gap),
        None,
    )  # fmt: skip
    if partner is None:
        return CARRIED
    if wall.sheathing.direction == "upright" and (inwards > 0) == (wall.sheets_from == "left"):
        # The sheet that closes over a lap is fastened clear of it.
        clear = _clear_of_lap(wall)
        if clear > NAILED:
            return clear
    group = next(((a, b) for a, b in solid if a <= edge <= b), None)
    members = [m for m in here if group is not None and m.x >= group[0] and m.right <= group[1]]
    return NAILED if len(members) == 1 and members[0].role in UPRIGHT_ROLES else CARRIED


def _clear_of_lap(wall: Wall) -> int:
    """Timber that a sheet needs which closes over another's lap: to the lap's end and 1/4 in for the fastener."""
    return wall.sheathing.sheet.lap - wall.sheathing.gap + inches("1/4") if wall.sheathing.sheet.lap else 0


def _behind(solid: list[Span], edge: int, inwards: int) -> int:
    """Unbroken timber from an edge towards its own piece; what starts short of the edge is not broken by it."""
    for low, high in solid:
        if inwards > 0 and low <= edge < high:
            return high - edge
        if inwards < 0 and low < edge <= high:
            return edge - low
    return 0


def faults_of_level_edges(skin: Skin, layout: Layout) -> list[str]:
    """Level edges above the floor with less than 3/8 in of timber behind them on their own side.

    A cap plate that stops short for the next wall's cap counts as whole: that cap fills its place.
    """
    wall = layout.wall
    outer, found = _outer(layout), []
    ends = [x for m in outer for span in _spans(m) for x in span]
    feet = {seam.after for seam in skin.seams if seam.direction == "level"}
    seams = feet | {seam.before for seam in skin.seams if seam.direction == "level"}
    for piece in skin.pieces:
        for y, left, right, below in _level_edges(piece):
            if y < 0 or (y == 0 and below):
                continue
            low, high = max(left, 0), min(right, wall.length)
            for start, end in bands(ends, low, high) if low < high else []:
                here = [(m.y, m.top) for m in outer if any(a <= start and b >= end for a, b in _spans(m))]
                if any(a <= start and b >= end for a, b in _next_walls_cap(wall, wall.height - wall.thickness)):
                    here.append((wall.height - wall.thickness, wall.height))
                behind = _behind(merged(here), y, -1 if below else 1)
                least = CARRIED
                if wall.sheathing.direction == "lying" and not below and y in feet:
                    least = max(CARRIED, _clear_of_lap(wall))
                # Between two uprights nearer than 1/2 in no block is set: the nails go in on either side.
                if behind == 0 and end - start < OPEN and y in seams:
                    continue
                if behind < least:
                    found.append(f"{piece.id} has {behind} behind its level edge at {y} from {start} to {end}")
    return found


def _next_walls_cap(wall: Wall, low: int) -> list[Span]:
    """Where the next wall's cap lies on this wall's top plate, in x, at a band of heights from ``low``."""
    if wall.plates.top < 2 or low < wall.height - wall.thickness:
        return []
    short = [(0, -wall.left.cap_lap), (wall.length + wall.right.cap_lap, wall.length)]
    return [(low_x, high_x) for low_x, high_x in short if low_x < high_x]


def _outer(layout: Layout) -> list[Member]:
    return [m for m in layout.members if m.z == 0]


def _spans(member: Member) -> list[Span]:
    return [(b[0], b[3]) for b in boxes(member)]


def _points(piece: Piece) -> Iterable[tuple[int, int]]:
    return (point for ring in _rings(piece) for point in ring)


def _rings(piece: Piece) -> tuple[Outline, ...]:
    return (piece.outline, *piece.cut_outs)


def _cross_section(piece: Piece, doubled_y: int) -> list[Span]:
    """Where a level line cuts the piece, in x; ``doubled_y`` is twice the line's y, so that it is an integer."""
    crossed = []
    for ring in _rings(piece):
        for (x, y), (_, end) in zip(ring, (*ring[1:], ring[0]), strict=True):
            if min(y, end) * 2 < doubled_y < max(y, end) * 2:
                crossed.append(x)
    crossed.sort()
    return list(zip(crossed[::2], crossed[1::2], strict=True))


def _level_edges(piece: Piece) -> list[tuple[int, int, int, bool]]:
    """Level edges as y, left, right, and whether the piece lies below the edge."""
    found = []
    polygon = shape(piece)
    for ring in _rings(piece):
        for (x, y), (end, at) in zip(ring, (*ring[1:], ring[0]), strict=True):
            if y != at:
                continue
            left, right = min(x, end), max(x, end)
            under = box(left, y - 2, right, y)
            found.append((y, left, right, polygon.intersection(under).area > under.area / 2))
    return found


def faults_of_seams(skin: Skin, layout: Layout) -> list[str]:
    """Seams whose members are not of the layout, or that say a bearing that is too little."""
    known = {m.id for m in layout.members}
    found = []
    for seam in skin.seams:
        if not set(seam.members) <= known:
            found.append(f"{seam.id} names members that are not")
        # Past the plate's end a seam lies on the post of the wall that is met there.
        within = 0 < seam.before <= seam.after < skin.wall.length
        if seam.direction == "level":
            within = seam.start < skin.wall.length and seam.end > 0
        above_floor = seam.direction == "level" or seam.end > 0
        if within and above_floor and min(seam.bearing_before, seam.bearing_after) < CARRIED:
            found.append(f"{seam.id} at {seam.before} bears {seam.bearing_before} and {seam.bearing_after}")
    return found


def faults_of_strips(skin: Skin) -> list[str]:
    """A strip above the sheets that is lower than 12 in."""
    tops = {seam.after for seam in skin.seams if seam.direction == "level"}
    return [f"a strip is {skin.wall.height - at} high" for at in tops if skin.wall.height - at < inches("12")]


def faults_of_stagger(skin: Skin) -> list[str]:
    """Joints of lying sheets nearer than a bay (less what a joint may drift on its stud) to one in the next course.

    The service says how many it could not avoid.
    """
    wall, sheathing = skin.wall, skin.wall.sheathing
    if sheathing.direction != "lying":
        return []
    levels = sorted({(s.before, s.after) for s in skin.seams if s.direction == "level"})
    joints = [seam for seam in skin.seams if seam.direction == "upright"]
    apart = wall.spacing - wall.stud.thickness
    # A joint that an opening keeps from a level seam has no neighbour over it or under it.
    close = sum(
        any(abs(upper.before - lower.before) < apart for lower in joints if lower.end == before)
        for before, after in levels
        for upper in joints
        if upper.start == after
    )
    said = sum(int(dict(f.values)["count"]) for f in skin.findings if f.code == "joints-not-staggered")
    # An opening as high as a course, or a slope, may take the whole of a joint that was counted.
    return [] if close <= said else [f"{close} joints are not staggered, and {said} are told"]


def faults_of_laps(skin: Skin) -> list[str]:
    """Shiplap pieces beside a seam that do not run on under the next one, or whose saw lines do not leave the lap."""
    sheet, found = skin.wall.sheathing.sheet, []
    if not sheet.lap:
        return [f"{p.id} has a lap" for p in skin.pieces if p.lap_side] + [f"{s.id} has" for s in skin.seams if s.lap]
    upright = skin.wall.sheathing.direction == "upright"
    own = "upright" if upright else "level"
    found += [f"{s.id} has lap {s.lap}" for s in skin.seams if s.lap != (sheet.lap if s.direction == own else 0)]
    side = ("right" if skin.wall.sheets_from == "left" else "left") if upright else "top"
    at = {s.after if side == "left" else s.before for s in skin.seams if s.direction == own}
    for piece in skin.pieces:
        xs, ys = [x for x, _ in piece.outline], [y for _, y in piece.outline]
        edge = {"right": max(xs), "left": min(xs), "top": max(ys)}[side]
        if edge in at and piece.lap_side != side:
            found.append(f"{piece.id} has no lap under the next piece")
        if piece.lap_side not in ("", side):
            found.append(f"{piece.id} has its lap {piece.lap_side}")
    return found


def faults_of_skin(skin: Skin, layout: Layout) -> list[str]:
    """Everything that is wrong with a skinned wall."""
    return [
        *faults_of_cover(skin), *faults_of_sheets(skin), *faults_of_stages(skin), *faults_of_blocking(skin, layout),
        *faults_of_upright_edges(skin, layout), *faults_of_level_edges(skin, layout), *faults_of_seams(skin, layout),
        *faults_of_strips(skin), *faults_of_stagger(skin), *faults_of_laps(skin), *faults_of_count(skin), *faults_of_piecing(skin),
    ]  # fmt: skip


def strip_below_doors(skin: Skin) -> list[str]:
    """Doors under which the face is not skinned up to y = 0."""
    under = skin.wall.sheathing.under_sheet
    doors: list[Opening] = [o for o in skin.wall.openings if o.sill == 0]
    found = []
    for door in doors if under else []:
        strip = box(door.left, -under, door.right, 0)
        cover = unary_union([shape(piece) for piece in skin.pieces]).intersection(strip)
        most_gaps = (door.width // skin.wall.sheathing.sheet.width + 2) * skin.wall.sheathing.gap
        if cover.area < (door.width - most_gaps) * under:
            found.append(f"the strip below {door.name} is bare")
    return found


__all__ = ["faults_of_skin", "overlapping", "shape", "strip_below_doors"]
