"""The frame before sheets are thought of: plates, posts, layout studs, and what frames each opening.

For a level wall that is laid out from its left end. What stands here never moves again; seam studs
and blocking are set between it.
"""

from wallwright.domain import defaults
from wallwright.domain.grid import Bound, Place, places
from wallwright.domain.openings import Framed, Plan
from wallwright.domain.parts import Part, filler, flat, stud
from wallwright.domain.posts import left_bound, right_bound
from wallwright.domain.stock import Stock
from wallwright.domain.wall import PostKind, Wall


def frame(plan: Plan) -> list[Part]:
    """Every part of the wall but seam studs and blocking, from left to right within each kind."""
    wall = plan.wall
    parts = _plates(wall, plan)
    parts += post(wall, wall.left.post)
    parts += [_turned(part, wall.length) for part in post(wall, wall.right.post)]
    parts += _field_studs(wall, plan)
    for framed in plan.framed:
        parts += _opening_parts(wall, framed)
    return parts


def _turned(part: Part, length: int) -> Part:
    """The part of a left end's post as the right end's, its mirror image."""
    return Part(
        part.role, part.stock, part.length, length - part.right, part.y, part.z, part.width, part.height, part.depth,
        ripped_to=part.ripped_to,
    )  # fmt: skip


def _plates(wall: Wall, plan: Plan) -> list[Part]:
    thick, length = wall.thickness, wall.length
    treated = wall.floor.treated_plate or wall.floor.kind == "slab"
    doors = sorted(
        [(f.opening.left, f.opening.right) for f in plan.framed if f.opening.sill == 0]
        + [(opening.left, opening.right) for opening in plan.in_bay if opening.sill == 0]
    )
    parts = []
    for layer in range(wall.plates.bottom):
        parts.append(
            Part(
                "bottom-plate",
                wall.stud,
                length,
                0,
                layer * thick,
                0,
                length,
                thick,
                wall.depth,
                treated=treated and layer == 0,
                cut_outs=tuple(doors),
            )  # fmt: skip
        )
    parts.append(Part("top-plate", wall.stud, length, 0, wall.stud_top, 0, length, thick, wall.depth))
    if wall.plates.top == 2:
        cap = length + wall.left.cap_lap + wall.right.cap_lap
        y = wall.stud_top + thick
        parts.append(Part("cap-plate", wall.stud, cap, -wall.left.cap_lap, y, 0, cap, thick, wall.depth))
    return parts


def post(wall: Wall, kind: PostKind) -> list[Part]:
    """The parts of a left end's post: one stud; two, the inner laid flat; or three about blocks."""
    thick, bottom, top = wall.thickness, wall.stud_bottom, wall.stud_top
    if kind == "single":
        return [stud(wall, "end-stud", 0, bottom, top)]
    outer = stud(wall, "corner-stud", 0, bottom, top)
    if kind == "two-stud":
        inner = Part(
            "corner-stud", wall.stud, top - bottom, thick, bottom, wall.depth - thick, wall.depth, top - bottom, thick
        )
        return [outer, inner]
    # Stud, a line of blocks, stud: the blocks stand between them at bottom, middle and top.
    inner = stud(wall, "corner-stud", 2 * thick, bottom, top)
    return [outer, *_post_blocks(wall, thick, bottom, top), inner]


def _post_blocks(wall: Wall, x: int, bottom: int, top: int) -> list[Part]:
    block = defaults.POST_BLOCK_LENGTH
    if top - bottom <= 3 * block:
        return [stud(wall, "blocking", x, bottom, top)]
    middle = bottom + (top - bottom - block) // 2
    return [stud(wall, "blocking", x, y, y + block) for y in (bottom, middle, top - block)]


def _field_studs(wall: Wall, plan: Plan) -> list[Part]:
    """Layout studs in each stretch between posts and kings."""
    half = wall.thickness // 2
    parts = []
    start = left_bound(wall)
    for framed in plan.framed:
        king = framed.outer_left
        parts += _standing(wall, "field-stud", places(wall, start, Bound(king, king + half)), wall.stud_bottom)
        king = framed.outer_right
        start = Bound(king + wall.thickness, king + half)
    parts += _standing(wall, "field-stud", places(wall, start, right_bound(wall)), wall.stud_bottom)
    return parts


def _standing(
    wall: Wall, role: str, where: list[Place], bottom: int, top: int | None = None, name: str = ""
) -> list[Part]:
    high = wall.stud_top if top is None else top
    return [stud(wall, role, place.x, bottom, high, opening=name, slid=place.slid) for place in where]


def _opening_parts(wall: Wall, framed: Framed) -> list[Part]:
    """Kings, jacks, packing, header, and the cripples above and below, of one opening."""
    thick, bottom, top = wall.thickness, wall.stud_bottom, wall.stud_top
    opening, name = framed.opening, framed.opening.name
    head = opening.head
    parts = []
    if framed.own_left:
        parts.append(stud(wall, "king-stud", framed.king_left, bottom, top, opening=name))
    if framed.own_right:
        parts.append(stud(wall, "king-stud", framed.king_right, bottom, top, opening=name))
    parts += [stud(wall, "king-stud", x, bottom, top, opening=name) for x in framed.more_left + framed.more_right]
    for side in (framed.jack_left, opening.right):
        parts += [
            stud(wall, "jack-stud", side + number * thick, bottom, head, opening=name)
            for number in range(opening.jacks)
        ]
    if framed.header_left < framed.jack_left:
        parts.append(filler(wall, framed.header_left, framed.jack_left, bottom, head, opening=name))
    if framed.jack_right < framed.header_right:
        parts.append(filler(wall, framed.jack_right, framed.header_right, bottom, head, opening=name))
    parts += _header_parts(framed)
    parts += _over_header(wall, framed)
    if opening.sill:
        parts += _under_sill(wall, framed)
    return parts


def _header_parts(framed: Framed) -> list[Part]:
    """The header's plies, outer ones flush with the outside; a spacer stands between outer and inner plies."""
    header, opening = framed.header, framed.opening
    x, length, ply, deep = (
        framed.header_left,
        framed.header_right - framed.header_left,
        header.stock.thickness,
        header.stock.width,
    )

    def group(z: int, plies: int) -> Part:
        return Part(
            "header",
            header.stock,
            length,
            x,
            opening.head,
            z,
            length,
            deep,
            plies * ply,
            plies=plies,
            opening=opening.name,
        )

    if not header.spacer:
        return [group(0, header.plies)]
    outer = (header.plies + 1) // 2
    inner = header.plies - outer
    spacer = Part(
        "blocking", Stock(header.spacer, deep), length, x, opening.head, outer * ply, length, deep, header.spacer,
        opening=opening.name,
    )  # fmt: skip
    parts = [group(0, outer), spacer]
    if inner:
        parts.append(group(outer * ply + header.spacer, inner))
    return parts


def _over_header(wall: Wall, framed: Framed) -> list[Part]:
    """What fills the height between header and top plate: packing, flat pieces, or cripples on the layout."""
    thick, half = wall.thickness, wall.thickness // 2
    low, high = framed.header_top, wall.stud_top
    left, right, name = framed.header_left, framed.header_right, framed.opening.name
    gap = high - low
    if gap > 2 * thick:
        between = places(wall, Bound(left, framed.king_left + half), Bound(right, framed.king_right + half))
        return _standing(wall, "cripple", between, low, high, name)
    parts = []
    while low < high:
        step = min(thick, high - low)
        parts.append(flat(wall, "blocking", left, right, low, low + step, opening=name))
        low += step
    return parts


def _under_sill(wall: Wall, framed: Framed) -> list[Part]:
    """The rough sill from jack to jack and what it stands on."""
    thick, bottom = wall.thickness, wall.stud_bottom
    opening, name = framed.opening, framed.opening.name
    left, right, under = opening.left, opening.right, opening.sill - thick
    sill = flat(wall, "rough-sill", left, right, under, opening.sill, opening=name)
    if under == bottom:
        return [sill]
    if under - bottom < thick:
        return [sill, flat(wall, "blocking", left, right, bottom, under, opening=name)]
    if opening.width < 3 * thick:
        middle = left + (opening.width - thick) // 2
        return [sill, stud(wall, "cripple", middle, bottom, under, opening=name, centred=True)]
    half = thick // 2
    tight = [stud(wall, "cripple", x, bottom, under, opening=name) for x in (left, right - thick)]
    between = places(wall, Bound(left + thick, left + half), Bound(right - thick, right - thick + half))
    return [sill, *tight, *_standing(wall, "cripple", between, bottom, under, name)]
