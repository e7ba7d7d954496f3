"""Every piece that an order asks for: loose ones, and those of the cut lists of its walls and buildings."""

from collections.abc import Iterable

from msgspec.structs import replace

from wallwright.domain import framed
from wallwright.domain.building import build
from wallwright.domain.built import Built
from wallwright.domain.buying.asked import Order, Piece
from wallwright.domain.framed import Framed
from wallwright.domain.members import CutRow, Layout, Member
from wallwright.findings import PlanRefused

_JOINTED = frozenset({"bottom-plate", "top-plate", "cap-plate"})


class Taken:
    """An order taken: its walls and buildings framed once. Raises PlanRefused with every fault found."""

    def __init__(self, order: Order) -> None:
        faults = []
        self.asked = order
        self.walls: list[tuple[str, str, Framed]] = []
        """Every wall: where it was asked for, its name, and its framing."""
        self.buildings: list[Built] = []
        self.alone: list[Framed] = []
        """The walls that belong to no building."""
        for number, wall in enumerate(order.walls):
            try:
                one = framed.framed(wall)
            except PlanRefused as refused:
                faults += [replace(fault, pointer=f"/walls/{number}{fault.pointer}") for fault in refused.faults]
                continue
            self.alone.append(one)
            self.walls.append((f"/walls/{number}", wall.name or f"wall {number + 1}", one))
        for number, building in enumerate(order.buildings):
            try:
                built = build(building)
            except PlanRefused as refused:
                faults += [replace(fault, pointer=f"/buildings/{number}{fault.pointer}") for fault in refused.faults]
                continue
            self.buildings.append(built)
            name = f"{building.name or f'building {number + 1}'} " if len(order.buildings) > 1 or order.walls else ""
            self.walls += [(f"/buildings/{number}", f"{name}{one.side}", one.framed) for one in built.walls]
        if faults:
            raise PlanRefused(tuple(faults))


def pieces_of(taken: Taken) -> list[Piece]:
    """All pieces to be cut, spares included."""
    order = taken.asked
    named = len(taken.walls) > 1 or bool(order.pieces)
    found = list(order.pieces)
    for at, name, one in taken.walls:
        found += of_layout(one.layout, f"{name} " if named else "", at)
    return with_spares(found, order.spare)


def with_spares(pieces: list[Piece], percent: int) -> list[Piece]:
    """The pieces with so many more of each kind, to the nearest whole piece."""
    spares = []
    for piece in pieces:
        more = (2 * piece.count * percent + 100) // 200
        if more:
            spares.append(replace(piece, count=more, mark=f"{piece.mark} spare".lstrip()))
    return pieces + spares


def of_layout(layout: Layout, label: str, at: str) -> list[Piece]:
    """The pieces of a wall's cut list, each with its mark on the framing drawing."""
    first = {member.id: member for member in layout.members}
    return [_piece(row, first[row.members[0]], label, at) for row in layout.cut_list]


def _piece(row: CutRow, member: Member, label: str, at: str) -> Piece:
    slants = _slants(member)
    short = row.length if row.short is None else row.short
    return Piece(
        row.stock, row.length, row.count, row.treated, f"{label}{row.mark}", at, slants,
        member.cuts[0].angle if slants else 0.0, row.length - short if slants else 0, not _JOINTED & set(row.roles),
    )  # fmt: skip


def _slants(member: Member) -> int:
    """How many ends of a member can lie end to end with others: one slanted end, or two that are parallel."""
    if member.ripped_to is not None or member.short is None or not member.cuts:
        return 0
    if len(member.cuts) == 1:
        return 1
    one, other = member.cuts[0], member.cuts[-1]
    parallel = len(member.cuts) == 2 and one.angle == other.angle and one.end != other.end and one.long != other.long
    return 2 if parallel else 0


def total(pieces: Iterable[Piece]) -> int:
    """How many pieces there are."""
    return sum(piece.count for piece in pieces)
