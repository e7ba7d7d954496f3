"""A wall's pieces cut from as few sheets as are found: strips and narrow pieces from what other pieces leave.

A piece takes its box on a sheet, its openings not counted as room. With shiplap edges a piece keeps its place across the
sheet, so that it has the sheet's own edges where its neighbours need them; such pieces share a sheet along its length only.
"""

import msgspec
from msgspec.structs import replace

from wallwright.domain import defaults
from wallwright.domain.on_sheets import Cut, reaches, sheet_size
from wallwright.domain.outlines import Rect
from wallwright.domain.reuse import Packed, Sheets, Slot, packed
from wallwright.domain.skin import Offcut, Outline, Piece
from wallwright.domain.wall import Wall
from wallwright.findings import Finding


class Blank(msgspec.Struct, frozen=True, gc=False):
    """A piece to be cut: the rectangle that it is cut from, and its outline and cut-outs on the wall."""

    cut: Cut
    outline: Outline
    cut_outs: tuple[Outline, ...]

    @property
    def box(self) -> Rect:
        """The box around the piece on the wall, without its lap."""
        xs, ys = [x for x, _ in self.outline], [y for _, y in self.outline]
        return Rect(min(xs), min(ys), max(xs), max(ys))


class Sawing(msgspec.Struct, frozen=True):
    """Where all pieces of a wall are cut from, and what is left.

    Where offcuts are reused, ``least`` is how few sheets might do, ``without`` how many there are if none is reused.
    """

    blanks: tuple[Blank, ...]
    offcuts: tuple[Offcut, ...]
    sheets: int
    least: int | None = None
    without: int = 0


def from_offcuts(wall: Wall, plain: Sawing) -> Sawing:
    """The pieces of ``plain`` on fewer sheets; as they are, with the bound, where no fewer are found."""
    blanks = plain.blanks
    order = sorted(range(len(blanks)), key=lambda number: _from_start(wall, blanks[number].box))
    wide, high = sheet_size(wall)
    sheets = Sheets(wide, high, defaults.KERF, wall.sheathing.grain == "free" and not wall.sheathing.sheet.lap)
    done = packed([_size(wall, blanks[number]) for number in order], sheets)
    if done is None:
        return replace(plain, least=1, without=plain.sheets)
    # Pieces that an opening parts may lie nearer on one sheet than their boxes do: then area alone bounds them.
    least = done.least if done.least <= plain.sheets else 1
    if done.sheets >= plain.sheets:
        return replace(plain, least=least, without=plain.sheets)
    slots = dict(zip(order, done.slots, strict=True))
    numbers = _numbers([slots[number].sheet for number in range(len(blanks))])
    moved = tuple(
        replace(blank, cut=_moved(wall, blank, slots[number], numbers[slots[number].sheet]))
        for number, blank in enumerate(blanks)
    )
    return Sawing(moved, _left(wall, moved, done, numbers), done.sheets, least, plain.sheets)


def reuse_findings(sawing: Sawing, pieces: tuple[Piece, ...]) -> list[Finding]:
    """What there is to say where offcuts are to be reused."""
    if sawing.least is None:
        return []
    values = (("sheets", str(sawing.sheets)), ("without", str(sawing.without)), ("least", str(sawing.least)))
    proven = "reuse-proven" if sawing.sheets == sawing.least else "reuse-not-proven"
    found = [Finding(proven, "/sheathing/reuse_offcuts", values)]
    turned = sum(1 for piece in pieces if piece.turned)
    if turned:
        found.append(Finding("pieces-turned", "/sheathing/grain", (("count", str(turned)),)))
    return found


def _numbers(sheets: list[int]) -> dict[int, int]:
    """A number from 1 for each sheet, in the order in which the pieces come to it."""
    return {sheet: number for number, sheet in enumerate(dict.fromkeys(sheets), 1)}


def _from_start(wall: Wall, box: Rect) -> tuple[int, ...]:
    """Where a piece stands in the order from the end at which the sheets begin, so that a mirrored wall has the same."""
    near, far = (box.left, box.right) if wall.sheets_from == "left" else (-box.right, -box.left)
    return near, box.bottom, far, box.top


def _size(wall: Wall, blank: Blank) -> tuple[int, int]:
    """The room that a piece takes on a sheet: its box; with shiplap edges the whole of the sheet across."""
    box, (wide, high) = blank.box, sheet_size(wall)
    across, up = box.right - box.left, box.top - box.bottom
    if not wall.sheathing.sheet.lap:
        return across, up
    return (wide, up) if wall.sheathing.direction == "upright" else (across, high)


def _moved(wall: Wall, blank: Blank, slot: Slot, sheet: int) -> Cut:
    """The cut of one piece at its slot, counted from the end at which the sheets begin."""
    cut, box, (wide, high) = blank.cut, blank.box, sheet_size(wall)
    from_left = wall.sheets_from == "left"
    takes = box.top - box.bottom if slot.turned else box.right - box.left
    x, y = slot.x if from_left else wide - slot.x - takes, slot.y
    if not wall.sheathing.sheet.lap:
        turn = ("left" if from_left else "right") if slot.turned else ""
        return Cut(box, sheet, x, y, turned=turn)  # type: ignore[arg-type]
    own = cut if reaches(cut, blank.outline) else replace(cut, lap=0, side="", recut=False)
    if wall.sheathing.direction == "upright":
        return replace(own, face=box, sheet=sheet, x=cut.x + box.left - cut.face.left, y=y)
    foot, recut = 0, own.recut
    if cut.side == "top":
        height = cut.face.top - cut.face.bottom + cut.lap
        foot = high - height if cut.face.bottom == wall.face_bottom else 0
        recut = own.side == "top" and foot + height != high
    return replace(own, face=box, sheet=sheet, x=x, y=foot + box.bottom - cut.face.bottom, recut=recut)


def _left(wall: Wall, blanks: tuple[Blank, ...], done: Packed, numbers: dict[int, int]) -> tuple[Offcut, ...]:
    """What the sheets leave: the rooms that nothing was cut from, and what shiplap pieces leave across the sheet."""
    wide, _ = sheet_size(wall)
    from_left = wall.sheets_from == "left"
    rooms = [
        (numbers[sheet], room if from_left else Rect(wide - room.right, room.bottom, wide - room.left, room.top))
        for sheet, room in done.left
    ]
    if wall.sheathing.sheet.lap:
        rooms += [(blank.cut.sheet, room) for blank in blanks for room in _across(wall, blank.cut.box)]
    return tuple(
        Offcut(f"sheet-{number}", room.left, room.bottom, room.right - room.left, room.top - room.bottom)
        for number, room in sorted(rooms, key=lambda one: (one[0], one[1].left, one[1].bottom))
    )


def _across(wall: Wall, box: Rect) -> list[Rect]:
    """What a shiplap piece leaves of the sheet before and past it, across the sheet."""
    (wide, high), kerf = sheet_size(wall), defaults.KERF
    found = []
    if wall.sheathing.direction == "upright":
        if box.left > kerf:
            found.append(Rect(0, box.bottom, box.left - kerf, box.top))
        if box.right + kerf < wide:
            found.append(Rect(box.right + kerf, box.bottom, wide, box.top))
        return found
    if box.bottom > kerf:
        found.append(Rect(box.left, 0, box.right, box.bottom - kerf))
    if box.top + kerf < high:
        found.append(Rect(box.left, box.top + kerf, box.right, high))
    return found
