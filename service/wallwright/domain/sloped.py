"""A wall under a slope, framed as if its top were level and high above, then cut to its plates.

The same rules then place every stud, whatever the top's shape. What a slope does change is set here:
the plates, the blocks of a post, and what fills the wedge between a level header and a sloping plate.
"""

import msgspec
from msgspec.structs import replace

from wallwright.domain import defaults, uprights
from wallwright.domain.bevels import bevelled, sloped_plates
from wallwright.domain.grid import Bound, places
from wallwright.domain.openings import Framed, Plan, key
from wallwright.domain.parts import Part, flat, stud
from wallwright.domain.slopes import Slope, soffit
from wallwright.domain.wall import Top, Wall
from wallwright.lengths import FOOT

_TOP_PLATES = frozenset(("top-plate", "cap-plate"))
_CLEAR = 2 * FOOT
"""How far the level top is thought above the highest point, so that no rule for low gaps is met by it."""


class Standing(msgspec.Struct, frozen=True):
    """A frame as the rules for level walls see it: the plan with a level top, and the parts reaching up to it."""

    plan: Plan
    parts: list[Part]


def frame(plan: Plan) -> list[Part]:
    """Every part of the wall but seam studs and blocking, cut to its top."""
    wall = plan.wall
    if wall.top.shape == "level":
        return uprights.frame(plan)
    level, under = _levelled(plan), soffit(wall)
    ceiling = level.wall.stud_top
    standing = [
        part
        for part in uprights.frame(level)
        if part.role not in _TOP_PLATES and not _is_post_block(wall, part) and not _is_over_header(part, ceiling)
    ]
    standing += _post_blocks(wall, under)
    packing: list[Part] = []
    for framed in plan.framed:
        standing += _over_header(wall, framed, under, ceiling, packing)
    cut = [bevelled(wall, part, under) for part in standing]
    return [_no_stud(wall, part) for part in cut if part is not None] + packing + sloped_plates(wall)


def _no_stud(wall: Wall, part: Part) -> Part:
    """What is left of an upright where the plates come together: shorter than it is thick it is a tapered block."""
    return replace(part, role="blocking") if part.upright and part.length < wall.thickness else part


def standing(plan: Plan, parts: list[Part]) -> Standing:
    """The frame with each part that a slope cuts drawn up to a level top; a level wall's as it is."""
    if plan.wall.top.shape == "level":
        return Standing(plan, parts)
    level = _levelled(plan)
    ceiling = level.wall.stud_top
    return Standing(level, [_drawn_up(part, ceiling) for part in parts if part.role not in _TOP_PLATES])


def cut_to_top(plan: Plan, parts: list[Part]) -> list[Part]:
    """Parts of a `Standing` frame cut to the wall's own top."""
    if plan.wall.top.shape == "level":
        return parts
    under = soffit(plan.wall)
    cut = [bevelled(plan.wall, part, under) for part in parts]
    return [part for part in cut if part is not None]


def _drawn_up(part: Part, ceiling: int) -> Part:
    if not part.outline:
        return part
    height = ceiling - part.y
    return replace(part, height=height, length=height if part.upright else part.length, outline=(), short=None, cuts=())


def _levelled(plan: Plan) -> Plan:
    wall = plan.wall
    height = wall.height + soffit(wall).most(0, wall.length) - wall.stud_top + _CLEAR
    return replace(plan, wall=replace(wall, top=Top(), height=height))


def _is_post_block(wall: Wall, part: Part) -> bool:
    """Whether a part is a block of a three-stud post: no opening's packing has room where those stand."""
    if part.role != "blocking":
        return False
    thick = wall.thickness
    at_left = wall.left.post == "three-stud" and part.right <= 2 * thick
    return at_left or (wall.right.post == "three-stud" and part.x >= wall.length - 2 * thick)


def _is_over_header(part: Part, ceiling: int) -> bool:
    return part.role == "cripple" and part.top == ceiling


def _post_blocks(wall: Wall, under: Slope) -> list[Part]:
    """The blocks of three-stud posts: at the bottom, in the middle, and bevelled under the plates."""
    thick, bottom, block = wall.thickness, wall.stud_bottom, defaults.POST_BLOCK_LENGTH
    parts = []
    for post, x in ((wall.left.post, thick), (wall.right.post, wall.length - 2 * thick)):
        if post != "three-stud":
            continue
        top = under.most(x, x + thick)
        if top - bottom <= 3 * block:
            parts.append(stud(wall, "blocking", x, bottom, top))
            continue
        middle = bottom + (top - bottom - block) // 2
        parts += [stud(wall, "blocking", x, y, y + block) for y in (bottom, middle, top - block)]
    return parts


def _over_header(wall: Wall, framed: Framed, under: Slope, ceiling: int, packing: list[Part]) -> list[Part]:
    """The cripples over a header, up to the ceiling; where the plates come near, flat pieces are added to ``packing``.

    As under a level plate, a gap of up to two thicknesses is packed, here with pieces that taper to the slope.
    """
    thick, half, low = wall.thickness, wall.thickness // 2, framed.header_top
    left, right, name = framed.header_left, framed.header_right, framed.opening.name
    clear_left, clear_right = under.above(low + 2 * thick, left, right)
    # A stretch narrower than a stud is left to the king beside it.
    clear_left = left if clear_left - left < thick else clear_left
    clear_right = right if right - clear_right < thick else clear_right
    for start, end in ((left, clear_left), (clear_right, right)):
        for y in (low, low + thick):
            piece = bevelled(wall, flat(wall, "blocking", start, end, y, y + thick, opening=name), under)
            if piece is not None:
                packing.append(piece)
    if clear_left >= clear_right:
        return []
    from_left = Bound(left, framed.king_left + half) if clear_left == left else Bound(clear_left, clear_left - half)
    to_right = (
        Bound(right, framed.king_right + half) if clear_right == right else Bound(clear_right, clear_right + half)
    )
    return [
        stud(wall, "cripple", place.x, low, ceiling, opening=name, slid=place.slid)
        for place in places(wall, from_left, to_right)
    ]


def above_slope(plan: Plan, blocks: list[Part]) -> frozenset[str]:
    """The keys of openings within one bay whose flat blocks would reach into sloping plates."""
    if plan.wall.top.shape == "level":
        return frozenset()
    under = soffit(plan.wall)
    through = [block for block in blocks if block.top > under.least(block.x, block.right)]
    return frozenset(
        key(opening)
        for opening in plan.in_bay
        if any(
            block.x <= opening.left and block.right >= opening.right and block.y == opening.head for block in through
        )
    )
