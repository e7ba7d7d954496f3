"""A wall laid out: from its parts to members with ids and marks, plate marks, and the cut list."""

from wallwright.domain.cut_list import CutKey, cut_key, cut_list, mark_of
from wallwright.domain.members import ROLES, CutOut, Layout, Mark, Member
from wallwright.domain.notes import layout_findings
from wallwright.domain.openings import Plan
from wallwright.domain.parts import Part
from wallwright.domain.seams import Columns
from wallwright.domain.wall import Wall

_ORDER = {role: order for order, role in enumerate(ROLES)}


def lay_out(wall: Wall, plan: Plan, parts: list[Part], columns: Columns | None) -> Layout:
    """The layout of a wall from all its parts, seam studs and blocking included.

    ``wall`` and ``parts`` are as the caller sees them (not mirrored); ``plan`` tells which headers are
    defaults. Ids count from left to right within each role.
    """
    ordered = sorted(parts, key=lambda part: (_ORDER[part.role], part.x, part.y, part.z))
    letters = mark_of(ordered)
    members = []
    numbers: dict[str, int] = {}
    for part in ordered:
        numbers[part.role] = numbers.get(part.role, 0) + 1
        members.append(_member(part, f"{part.role}-{numbers[part.role]}", letters))
    placed = tuple(members)
    pairs = tuple(zip(ordered, placed, strict=True))
    return Layout(wall, placed, _marks(wall, pairs), cut_list(placed), layout_findings(wall, plan, pairs, columns))


def _member(part: Part, name: str, letters: dict[CutKey, str]) -> Member:
    return Member(
        name, letters[cut_key(part)], part.role, part.stock, part.length, part.x, part.y, part.z,
        part.width, part.height, part.depth, part.plies, part.ripped_to, part.treated, part.opening, part.outline,
        tuple(CutOut(left, right) for left, right in part.cut_outs), part.short, part.cuts,
    )  # fmt: skip


def _marks(wall: Wall, pairs: tuple[tuple[Part, Member], ...]) -> tuple[Mark, ...]:
    """A line for each upright on the plates that it touches, on the edge nearer the tape's start.

    The X stands beyond the line, where the stud stands. A stud flush with the plate's end has its line
    on the inner edge, since a line on the end itself cannot be seen; a centred stud has it on its centre.
    """
    bottom = [member.id for _, member in pairs if member.role == "bottom-plate"][-1]
    top = [member for _, member in pairs if member.role == "top-plate"]
    marks = []
    for part, member in pairs:
        if not part.upright or part.role == "blocking":
            continue
        if part.y == wall.stud_bottom:
            marks.append(_mark(wall, bottom, part, member))
        if part.outline or (wall.top.shape == "level" and part.top == wall.stud_top):
            # A gable's two plates meet at the ridge; a stud that stands under both is marked on the one on the left.
            over = next(plate for plate in top if plate.right > part.x)
            marks.append(_mark(wall, over.id, part, member))
    marks.sort(key=lambda mark: (mark.plate != bottom, mark.at, mark.member))
    return tuple(marks)


def _mark(wall: Wall, plate: str, part: Part, member: Member) -> Mark:
    from_left = wall.tape.start == "left"
    if part.centred:
        at = part.x + part.width // 2
        return Mark(plate, member.id, at, _reading(wall, at), "centre", "C")
    # From the left the line is the stud's left edge and the X to its right, unless that edge is the plate's end.
    on_right = part.x > 0 if from_left else part.right == wall.length
    at = part.x if on_right else part.right
    return Mark(plate, member.id, at, _reading(wall, at), "right" if on_right else "left", "X")


def _reading(wall: Wall, at: int) -> int:
    """What the tape shows at x, hooked at tape zero and run along the wall."""
    return at - wall.tape_zero if wall.tape.start == "left" else wall.tape_zero - at
