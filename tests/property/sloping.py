"""The judge of a wall under a slope: shapes in elevation by shapely, exact to a grid unit.

What does not depend on the slope is judged as in a level wall, on the frame drawn up to a level top.
"""

import itertools
from collections import Counter

from msgspec.structs import replace
from shapely import Polygon, STRtree, box, unary_union
from shapely.geometry.base import BaseGeometry
from tests.property import framing, skinning
from tests.property.geometry import boxes
from tests.property.slope import crests, slope, soffit_at, stretched, top_at

from wallwright.domain.members import Layout, Member
from wallwright.domain.skin import Skin
from wallwright.domain.wall import Top, Wall
from wallwright.lengths import SIXTEENTH, inches

UNIT = 1.01
"""Exact on slopes means within one grid unit; the rest is the float's."""
FULL = ("end-stud", "corner-stud", "field-stud", "king-stud")
PLATES = ("top-plate", "cap-plate")


def shape(member: Member) -> Polygon:
    """The member in elevation, a door's plate without what is cut out."""
    if member.outline:
        return Polygon(member.outline)
    return unary_union([box(b[0], b[1], b[3], b[4]) for b in boxes(member)])


def faults_of_shapes(layout: Layout) -> list[str]:
    """Members that overlap, leave the wall, or whose box is not that of their outline."""
    wall, found = layout.wall, []
    shapes = [shape(member) for member in layout.members]
    tree = STRtree(shapes)
    for first, second in zip(*tree.query(shapes, predicate="intersects"), strict=True):
        one, other = layout.members[first], layout.members[second]
        if first < second and one.z < other.z + other.depth and other.z < one.z + one.depth:
            both = shapes[first].intersection(shapes[second])
            if both.area > 2 * UNIT * (both.length + 4):
                found.append(f"{one.id} overlaps {other.id}")
    for member, polygon in zip(layout.members, shapes, strict=True):
        boxed = member.cut_outs or polygon.bounds == (member.x, member.y, member.right, member.top)
        if not (polygon.is_valid and boxed):
            found.append(f"{member.id} has an outline that is not its box's")
        low = -wall.left.cap_lap if member.role == "cap-plate" else 0
        high = wall.length + (wall.right.cap_lap if member.role == "cap-plate" else 0)
        if member.x < low or member.right > high or member.y < 0:
            found.append(f"{member.id} leaves the wall")
        for x, y in member.outline or ((member.x, member.top), (member.right, member.top)):
            if y > top_at(wall, x) or (member.role not in PLATES and y > soffit_at(wall, x) + UNIT):
                found.append(f"{member.id} stands above the slope at {x}")
    return found


def _ends_at_ridge(wall: Wall, member: Member) -> bool:
    return any(abs(member.right - ridge) <= UNIT for ridge in crests(wall, 0, wall.length))


def faults_of_plates(layout: Layout) -> list[str]:
    """Plates that do not follow the slope at their thickness, are not cut plumb, or leave a stretch bare."""
    wall, found = layout.wall, []
    take = wall.stud.thickness * stretched(wall)
    for role, above in (("top-plate", wall.plates.top - 1), ("cap-plate", 0)):
        own = sorted((m for m in layout.members if m.role == role), key=lambda m: m.x)
        if not own and role == "cap-plate" and wall.plates.top == 1:
            continue
        ends = [
            own[0].x,
            *(m.right for m in own if m.right != own[-1].right and _ends_at_ridge(wall, m)),
            own[-1].right,
        ]
        if any(one.right != other.x for one, other in itertools.pairwise(own)):
            found.append(f"{role}s leave a gap")
        low = -wall.left.cap_lap if role == "cap-plate" else 0
        high = wall.length + (wall.right.cap_lap if role == "cap-plate" else 0)
        if any(abs(a - b) > UNIT for a, b in zip(ends, [low, *crests(wall, low, high), high], strict=True)):
            found.append(f"{role}s run {ends}")
        for member in own:
            for x, y in member.outline:
                upper = float(top_at(wall, x)) - above * take
                if min(abs(y - upper), abs(y - upper + take)) > UNIT:
                    found.append(f"{member.id} is off the slope at {x}")
            if {x for x, _ in member.outline} != {member.x, member.right} or len(member.outline) != 4:
                found.append(f"{member.id} is not cut plumb")
            edge = member.width * stretched(wall)
            whole = edge + wall.stud.thickness * float(slope(wall))
            if abs(edge - (member.short or 0)) > UNIT or abs(whole - member.length) > 2 * UNIT:
                found.append(f"{member.id} is {member.length} and {member.short}, not {whole} and {edge}")
    return found


def faults_of_joints(layout: Layout) -> list[str]:
    """Pieces of plate longer than the stock, jointed over no stud, or too near a joint of the layer below."""
    wall, found = layout.wall, []
    stock, offset = wall.plates.stock_length, wall.plates.cap_offset
    rows = {role: sorted((m for m in layout.members if m.role == role), key=lambda m: m.x) for role in PLATES}
    crest = [round(x) for x in crests(wall, 0, wall.length)]
    studs = {m.x + m.width // 2 for m in layout.members if m.outline and m.role not in PLATES and m.length == m.height}
    for role, pieces in rows.items():
        found += [f"{m.id} is longer than the stock" for m in pieces if stock is not None and m.length > stock]
        if role == "top-plate":
            at = [m.x for m in pieces[1:] if m.x not in crest]
            found += [f"a {role} is jointed over nothing at {x}" for x in at if x not in studs]
    tops, caps = ([m.x for m in rows[role][1:]] for role in PLATES)
    for top in tops:
        for cap in caps:
            if not (top in crest and cap in crest) and abs(top - cap) * stretched(wall) < offset - UNIT:
                found.append(f"a cap plate is jointed too near the joint at {top} below")
    return found


def faults_of_bevels(layout: Layout) -> list[str]:
    """Full-height studs that do not meet the slope at both sides, or say other lengths than their outline."""
    wall, found = layout.wall, []
    for member in layout.members:
        if member.role in FULL:
            for x in (member.x, member.right):
                top = max(y for at, y in member.outline if at == x)
                if not -2 * UNIT < top - soffit_at(wall, x) < UNIT:
                    found.append(f"{member.id} ends {top - soffit_at(wall, x)} from the slope at {x}")
        if member.outline and member.role not in PLATES and member.length == member.height:
            sides = [max(y for at, y in member.outline if at == x) - member.y for x in (member.x, member.right)]
            if member.short != min(sides) or member.length != max(y for _, y in member.outline) - member.y:
                found.append(f"{member.id} is {member.length} and {member.short}, its sides {sides}")
    return found


def faults_of_cut_list(layout: Layout) -> list[str]:
    """Rows that are not the members, long point and short point and all."""
    wanted: Counter[tuple[object, ...]] = Counter()
    for m in layout.members:
        wanted[m.stock, m.length, m.short, m.ripped_to, m.treated] += m.plies
    listed: Counter[tuple[object, ...]] = Counter()
    for row in layout.cut_list:
        listed[row.stock, row.length, row.short, row.ripped_to, row.treated] += row.count
    named = Counter(name for row in layout.cut_list for name in row.members)
    right = wanted == listed and named == Counter(m.id for m in layout.members)
    return [] if right else ["the cut list is not the members"]


def drawn_up(layout: Layout) -> Layout:
    """The frame as under a level top above its highest point, for all that does not depend on the slope."""
    ceiling = max(m.top for m in layout.members) + inches("24")
    wall = layout.wall
    level = replace(wall, top=Top(), height=ceiling + wall.plates.top * wall.stud.thickness)
    members: list[Member] = []
    for member in (m for m in layout.members if m.role not in PLATES):
        members.append(replace(member, height=ceiling - member.y, outline=()) if member.outline else member)
    thick = wall.stud.thickness
    members += [replace(m, y=ceiling, height=thick, outline=()) for m in layout.members if m.role == "top-plate"]
    return Layout(level, tuple(members), layout.marks, layout.cut_list, layout.findings)


def faults_of_frame(layout: Layout) -> list[str]:
    """Everything that is wrong with a frame under a slope."""
    level = drawn_up(layout)
    return [
        *faults_of_shapes(layout), *faults_of_plates(layout), *faults_of_joints(layout), *faults_of_bevels(layout),
        *faults_of_cut_list(layout),
        *framing.faults_of_openings(level), *framing.faults_of_bays(level), *framing.faults_of_layout_line(level),
        *framing.faults_of_marks(level), *framing.faults_of_partitions(level), *framing.faults_of_lined_corners(level),
    ]  # fmt: skip


def faults_of_edges(skin: Skin, layout: Layout) -> list[str]:
    """Upright and level edges of sheets that have not 3/8 in of timber behind them on their own side."""
    wall, found = layout.wall, []
    # Where the cap stops short for the next wall's, that one fills its place.
    ends = (0, *crests(wall, 0, wall.length), wall.length)
    plates = Polygon([(x, top_at(wall, x)) for x in ends] + [(x, soffit_at(wall, x)) for x in reversed(ends)])
    solid = unary_union([plates, *(shape(m) for m in layout.members if m.z == 0)]).buffer(2, join_style="mitre")
    hung = [o for o in wall.openings if framing.is_in_bay(layout, o)]
    whole = box(0, 0, wall.length, 2 * wall.height + wall.length * 2)
    for piece in skin.pieces:
        polygon = skinning.shape(piece)
        for ring in (piece.outline, *piece.cut_outs):
            for (x1, y1), (x2, y2) in zip(ring, (*ring[1:], ring[0]), strict=True):
                if (x1 != x2 and y1 != y2) or (y1 == y2 <= 0):
                    continue
                low, high = min(y1, y2), max(y1, y2)
                if x1 == x2 and any(x1 in (o.left, o.right) and o.sill <= low and high <= o.head for o in hung):
                    continue
                if x1 == x2 and not 0 <= x1 <= wall.length:
                    continue
                reach = skinning.CARRIED
                strip = box(min(x1, x2) - (x1 == x2) * reach, min(y1, y2) - (y1 == y2) * reach,
                            max(x1, x2) + (x1 == x2) * reach, max(y1, y2) + (y1 == y2) * reach)  # fmt: skip
                bare = strip.intersection(polygon).intersection(whole).difference(solid)
                # What no packing of 1/16 in would fill, between a level piece and the plates, is left open.
                open_wedge = x1 == x2 and all(height(part) < SIXTEENTH for part in getattr(bare, "geoms", [bare]))
                # Nor is a gap between uprights under 1/2 in wide blocked under a level seam.
                open_gap = y1 == y2 and all(width(part) < skinning.OPEN + 4 for part in getattr(bare, "geoms", [bare]))
                if bare.buffer(-4).area > 0 and not open_wedge and not open_gap:
                    found.append(f"{piece.id} has nothing behind its edge at {(x1, y1)} to {(x2, y2)}: {bare.bounds}")
    return found


def height(part: BaseGeometry) -> float:
    """How high a figure is; nothing where there is none."""
    return 0.0 if part.is_empty else part.bounds[3] - part.bounds[1]


def width(part: BaseGeometry) -> float:
    """How wide a figure is; nothing where there is none."""
    return 0.0 if part.is_empty else part.bounds[2] - part.bounds[0]


def faults_of_strips(skin: Skin) -> list[str]:
    """Strips above a level seam that are lower than 12 in at their highest."""
    feet = {seam.after for seam in skin.seams if seam.direction == "level"}
    found = []
    if skin.wall.sheathing.direction == "lying":
        # Lying sheets have the strip all along; its ends run out to nothing.
        peak = max(y for piece in skin.pieces for _, y in piece.outline)
        return [f"the top course is {peak - foot} high" for foot in feet if peak - foot < inches("12") - 2]
    for column in {(piece.outline[0][0], piece.sheet) for piece in skin.pieces}:
        for piece in (p for p in skin.pieces if (p.outline[0][0], p.sheet) == column):
            ys = [y for _, y in piece.outline]
            if min(ys) in feet and max(ys) - min(ys) < inches("12") - 2 and max(ys) >= _roof(skin.wall, piece.outline):
                found.append(f"{piece.id} is {max(ys) - min(ys)} high")
    return found


def _roof(wall: Wall, outline: tuple[tuple[int, int], ...]) -> float:
    xs = [x for x, _ in outline]
    return max(float(top_at(wall, x)) for x in (min(xs), max(xs))) - 2


def faults_of_skin(skin: Skin, layout: Layout) -> list[str]:
    """Everything that is wrong with a skin under a slope."""
    return [
        *skinning.faults_of_cover(skin), *skinning.faults_of_sheets(skin), *skinning.faults_of_stages(skin),
        *skinning.faults_of_blocking(skin, layout), *skinning.faults_of_seams(skin, layout),
        *faults_of_edges(skin, layout), *faults_of_strips(skin), *skinning.faults_of_laps(skin),
        *skinning.faults_of_stagger(skin), *skinning.faults_of_piecing(skin),
    ]  # fmt: skip
