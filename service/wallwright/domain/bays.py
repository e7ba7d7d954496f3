"""Flat blocks at head and sill of an opening that lies within one bay and cuts no stud."""

from wallwright.domain.openings import Plan, key
from wallwright.domain.parts import Part, flat
from wallwright.domain.wall import Opening, Wall


def bay_blocks(plan: Plan, parts: list[Part]) -> tuple[list[Part], frozenset[str]]:
    """The blocks of all openings within one bay, and the keys of those that meet a member after all.

    Blocks reach from upright to upright, so those of two openings in one bay may meet; the opening
    further from the tape zero is then framed with jacks like a wider one.
    """
    wall = plan.wall
    blocks: list[Part] = []
    conflicts: set[str] = set()
    for opening in sorted(plan.in_bay, key=lambda opening: opening.left):
        left = max((part.right for part in parts if part.upright and part.right <= opening.left), default=None)
        right = min((part.x for part in parts if part.upright and part.x >= opening.right), default=None)
        if left is None or right is None or any(_meets(part, opening.left, opening.right) for part in parts):
            conflicts.add(key(opening))
            continue
        own = _blocks(wall, opening, left, right)
        taken = [*parts, *blocks]
        if any(_overlap(block, part) for block in own for part in taken) or any(
            _crosses(block, other) for block in own for other in plan.in_bay if other is not opening
        ):
            conflicts.add(key(opening))
            continue
        blocks += own
    return blocks, frozenset(conflicts)


def _blocks(wall: Wall, opening: Opening, left: int, right: int) -> list[Part]:
    thick = wall.thickness
    blocks = []
    head_top = min(opening.head + thick, wall.stud_top)
    if head_top > opening.head:
        blocks.append(flat(wall, "blocking", left, right, opening.head, head_top, opening=opening.name))
    if opening.sill:
        blocks.append(flat(wall, "blocking", left, right, opening.sill - thick, opening.sill, opening=opening.name))
    return blocks


def _meets(part: Part, left: int, right: int) -> bool:
    return part.upright and part.x < right and part.right > left


def _overlap(one: Part, other: Part) -> bool:
    return one.x < other.right and other.x < one.right and one.y < other.top and other.y < one.top and other.z == 0


def _crosses(block: Part, opening: Opening) -> bool:
    return (
        block.x < opening.right and opening.left < block.right and block.y < opening.head and opening.sill < block.top
    )
