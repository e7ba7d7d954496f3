"""Every piece that an order asks for: loose ones, and those of the cut lists of its walls and buildings."""

from msgspec.structs import replace

from wallwright.domain import framed
from wallwright.domain.building import build
from wallwright.domain.built import Built
from wallwright.domain.buying.asked import Group, Order, Panel, Piece, SheetOffer
from wallwright.domain.fasteners import Fasteners, Total, added, fasten
from wallwright.domain.framed import Framed
from wallwright.domain.members import CutRow, Layout, Member
from wallwright.domain.skin import Piece as SheetPiece
from wallwright.domain.skin import Skin
from wallwright.findings import PlanRefused


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
                built = build(building, with_skin=False)
            except PlanRefused as refused:
                faults += [replace(fault, pointer=f"/buildings/{number}{fault.pointer}") for fault in refused.faults]
                continue
            self.buildings.append(built)
            name = f"{building.name or f'building {number + 1}'} " if len(order.buildings) > 1 or order.walls else ""
            self.walls += [(f"/buildings/{number}", f"{name}{one.side}", one.framed) for one in built.walls]
        self.fastened: list[Fasteners] = []
        self.skins: list[tuple[str, str, Skin]] = []
        """Every skin: where its wall was asked for, the wall's name, and the skin."""
        for at, name, framing in self.walls:
            try:
                skin = framed.skinned(framing)
            except PlanRefused as refused:
                faults += [replace(fault, pointer=f"{at}{fault.pointer}") for fault in refused.faults]
                continue
            self.skins.append((at, name, skin))
            self.fastened.append(fasten(framing.layout, skin))
        if faults:
            raise PlanRefused(tuple(faults))

    def twin(self) -> "Taken":
        """The same order taken, whose lists can be changed apart."""
        made = object.__new__(Taken)
        made.__dict__.update(self.__dict__)
        made.walls, made.fastened = list(self.walls), list(self.fastened)
        return made


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
        member.cuts[0].angle if slants else 0.0, row.length - short if slants else 0,
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


def panels_of(taken: Taken) -> dict[Group, list[Panel]]:
    """All rectangles of sheet to be cut, by kind and thickness: loose ones, and the boxes of the skins' pieces."""
    named = len(taken.walls) > 1 or bool(taken.asked.sheet_pieces)
    found: dict[Group, list[Panel]] = {}
    for panel in taken.asked.sheet_pieces:
        found.setdefault((panel.kind, panel.thickness), []).append(panel)
    for at, name, skin in taken.skins:
        sheet = skin.wall.sheathing.sheet
        for piece in skin.pieces:
            mark = f"{name} {piece.id}" if named else piece.id
            panel = Panel(sheet.kind, sheet.thickness, *_across_and_along(skin, piece), 1, mark, at)
            found.setdefault((sheet.kind, sheet.thickness), []).append(panel)
    return found


def _across_and_along(skin: Skin, piece: SheetPiece) -> tuple[int, int]:
    """A piece's extent across and along the grain, its lap included: a lying sheet's length runs along the wall."""
    xs, ys = [x for x, _ in piece.outline], [y for _, y in piece.outline]
    lap = skin.wall.sheathing.sheet.lap if piece.lap_side else 0
    wide, high = max(xs) - min(xs), max(ys) - min(ys)
    wide, high = (wide, high + lap) if piece.lap_side == "top" else (wide + lap, high)
    return (wide, high) if skin.wall.sheathing.direction == "upright" else (high, wide)


def sheet_offers(taken: Taken, group: Group) -> list[SheetOffer]:
    """The sheets to be had of one kind and thickness; where none are offered the walls' own, their price unknown."""
    own = [one for one in taken.asked.sheet_offers if (one.kind, one.thickness) == group and one.at_most != 0]
    if not own:
        sizes = {
            (use.width, use.length)
            for _, _, skin in taken.skins
            if (skin.wall.sheathing.sheet.kind, skin.wall.sheathing.sheet.thickness) == group
            for use in skin.sheets
        }
        own = [SheetOffer(*group, width, length, None) for width, length in sizes]
    return sorted(own, key=lambda one: (one.width, one.length, one.price or 0, one.at_most is None, one.at_most or 0))


def fasteners_of(taken: Taken) -> tuple[Total, ...]:
    """All fasteners of the walls together, with the spare and the packs that the walls name."""
    return added([one.totals for one in taken.fastened], [one.wall.fastening for one in taken.fastened])
