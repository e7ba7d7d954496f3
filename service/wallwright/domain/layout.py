"""A wall laid out: from its parts to members with ids and marks, plate marks, and the cut list."""

from wallwright.domain.anchor_notes import anchor_findings
from wallwright.domain.anchors import anchors
from wallwright.domain.cut_list import cut_key, cut_list, mark_of
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
    defaults. Ids count from left to right within each role, plates layer by layer from the lowest up.
    """
    ordered = sorted(parts, key=_place)
    keys = [cut_key(part) for part in ordered]
    letters = mark_of(keys)
    members = []
    numbers: dict[str, int] = {}
    for part, key in zip(ordered, keys, strict=True):
        numbers[part.role] = numbers.get(part.role, 0) + 1
        members.append(_member(part, f"{part.role}-{numbers[part.role]}", letters[key]))
    placed = tuple(members)
    pairs = tuple(zip(ordered, placed, strict=True))
    bolts = anchors(wall, placed)
    found = (*layout_findings(wall, plan, pairs, columns), *anchor_findings(wall, placed, bolts))
    return Layout(wall, placed, _marks(wall, pairs), cut_list(placed, letters.values()), found, bolts)


def _place(part: Part) -> tuple[int, int, int, int, int]:
    """Where a part stands in the list of members."""
    layer = part.y if part.role.endswith("plate") and not part.outline else 0
    return (_ORDER[part.role], layer, part.x, part.y, part.z)


def _member(part: Part, name: str, mark: str) -> Member:
    return Member(
        name, mark, part.role, part.stock, part.length, part.x, part.y, part.z,
        part.width, part.height, part.depth, part.plies, part.ripped_to, part.treated, part.opening, part.outline,
        tuple(CutOut(left, right) for left, right in part.cut_outs), part.short, part.cuts,
    )  # fmt: skip


def _marks(wall: Wall, pairs: tuple[tuple[Part, Member], ...]) -> tuple[Mark, ...]:
    """A line for each upright on the plates that it touches, on the edge nearer the tape's start.

    The X stands beyond the line, where the stud stands. A stud flush with the plate's end has its line
    on the inner edge, since a line on the end itself cannot be seen; a centred stud has it on its centre.
    A stud over the joint of two pieces has its line on the piece that the line falls on.
    """
    marks = []
    uprights = [(part, member) for part, member in pairs if part.role != "blocking" and part.upright]
    for role in ("bottom-plate", "top-plate"):
        at_y = wall.stud_bottom if role == "bottom-plate" else wall.stud_top
        pieces = [m for _, m in pairs if m.role == role and (m.outline or at_y in (m.y, m.top))]
        own = []
        for part, member in uprights:
            if role == "bottom-plate":
                touches = part.y == at_y
            else:
                touches = bool(part.outline) or (wall.top.shape == "level" and part.top == at_y)
            if touches:
                own.append(_mark(wall, pieces, part, member))
        marks += sorted(own, key=lambda mark: (mark.at, mark.member))
    return tuple(marks)


def _mark(wall: Wall, pieces: list[Member], part: Part, member: Member) -> Mark:
    from_left = wall.tape.start == "left"
    if part.centred:
        at = part.x + part.width // 2
        plate = _piece_at(pieces, at)
        return Mark(plate, member.id, at, wall.reading(at), "centre", "C")
    # From the left the line is the stud's left edge and the X to its right, unless that edge is the plate's end.
    on_right = part.x > 0 if from_left else part.right == wall.length
    at = part.x if on_right else part.right
    plate = _piece_at(pieces, at)
    return Mark(plate, member.id, at, wall.reading(at), "right" if on_right else "left", "X")


def _piece_at(pieces: list[Member], at: int) -> str:
    """The piece of plate that a line at ``at`` falls on. Raises ValueError where there is none."""
    for piece in pieces:
        if piece.x <= at <= piece.right:
            return piece.id
    raise ValueError(f"no plate at {at}")
