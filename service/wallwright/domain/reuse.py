"""Rectangles on as few sheets as are found: each is cut from what other pieces leave, where it fits.

Every cut runs from edge to edge of what is then in hand (a circular saw's guillotine cuts), with a kerf between pieces. Orders
and ways of parting what is left are tried one after another; a bound tells how few sheets might do at best.
"""

from collections.abc import Callable
from itertools import product

import msgspec

from wallwright.domain.outlines import Rect

Size = tuple[int, int]
"""Width and height of a rectangle as it hangs on the wall."""

WORK = 200_000
"""Free rectangles looked at over all tries: what is found does not depend on how fast the machine is."""
_CANDIDATES = 12
"""Figures tried along each axis for the bound."""


class Slot(msgspec.Struct, frozen=True, gc=False):
    """Where a rectangle is cut: the sheet's number from 0, its lower left corner there, and whether it lies turned."""

    sheet: int
    x: int
    y: int
    turned: bool = False


class Packed(msgspec.Struct, frozen=True):
    """Rectangles on sheets, in the order in which they were given, what is left, and how few sheets might do."""

    slots: tuple[Slot, ...]
    left: tuple[tuple[int, Rect], ...]
    """The rectangles that are left over, each with its sheet's number."""
    sheets: int
    least: int


class Sheets(msgspec.Struct, frozen=True, gc=False):
    """The sheets that are cut: their size as they hang, the kerf, and whether pieces may lie turned."""

    wide: int
    high: int
    kerf: int
    free: bool = False

    def ways(self, size: Size) -> tuple[Size, ...]:
        """The ways in which a rectangle may lie on a sheet, as it hangs first."""
        wide, high = size
        turned = self.free and wide != high
        return tuple(
            way for way in ((size, (high, wide)) if turned else (size,)) if way[0] <= self.wide and way[1] <= self.high
        )

    def share(self, one: Size, other: Size) -> bool:
        """Whether two rectangles can be cut from one sheet."""
        return any(
            a[0] + self.kerf + b[0] <= self.wide or a[1] + self.kerf + b[1] <= self.high
            for a in self.ways(one)
            for b in self.ways(other)
        )


def packed(sizes: list[Size], sheets: Sheets) -> Packed | None:
    """The rectangles on sheets; None where one fits no sheet, or the work allowed ends before they are all placed.

    Of equal rectangles the earlier one is placed first.
    """
    if not all(map(sheets.ways, sizes)):
        return None
    alone = _alone(sizes, sheets)
    rest = [number for number in range(len(sizes)) if number not in alone]
    least = len(alone) + _least([sizes[number] for number in rest], sheets)
    best: _Try | None = None
    work = WORK
    for key, along in product(_ORDERS, _PARTINGS):
        order = sorted(rest, key=lambda number: (*key(sizes[number]), number))
        done = _Try(sheets, along, work)
        if not done.place(order, sizes):
            break
        work = done.work
        if best is None or done.count < best.count:
            best = done
        if len(alone) + best.count <= least:
            break
    if best is None:
        return None
    for number in sorted(alone):
        best.place([number], sizes, fresh=True)
    slots = tuple(best.slots[number] for number in range(len(sizes)))
    left = tuple((sheet, room) for sheet, room in best.rooms if room.right > room.left and room.top > room.bottom)
    return Packed(slots, left, best.count, least)


_ORDERS: tuple[Callable[[Size], tuple[int, ...]], ...] = (
    lambda size: (-size[0] * size[1], -size[1]),
    lambda size: (-size[1], -size[0]),
    lambda size: (-size[0], -size[1]),
    lambda size: (-max(size), -min(size)),
    lambda size: (-min(size), -max(size)),
)
_PARTINGS = ("longer", "shorter", "across", "up")
"""Which of the two cuts beside a piece runs through: the one that leaves the larger or smaller rest, or always one."""


class _Try:
    """One try: rectangles placed one after another where they leave the least beside them."""

    def __init__(self, sheets: Sheets, parting: str, work: int) -> None:
        self.sheets, self.parting, self.work = sheets, parting, work
        self.count = 0
        self.slots: dict[int, Slot] = {}
        self.rooms: list[tuple[int, Rect]] = []

    def place(self, order: list[int], sizes: list[Size], fresh: bool = False) -> bool:
        """Place rectangles, on a new sheet each where ``fresh``; False where the work ends first."""
        whole = Rect(0, 0, self.sheets.wide, self.sheets.high)
        for number in order:
            ways = self.sheets.ways(sizes[number])
            self.work -= len(self.rooms) + 1
            if self.work < 0 and not fresh:
                return False
            at = None if fresh else self._room(ways)
            if at is None:
                self.rooms.append((self.count, whole))
                self.count += 1
                at = len(self.rooms) - 1, ways[0]
            self._cut(number, *at, turned=at[1] != sizes[number])
        return True

    def _room(self, ways: tuple[Size, ...]) -> tuple[int, Size] | None:
        """The room that a rectangle fills best, and how it lies there."""
        best: tuple[tuple[int, ...], int, Size] | None = None
        for place, (sheet, room) in enumerate(self.rooms):
            for rank, way in enumerate(ways):
                beside, above = room.right - room.left - way[0], room.top - room.bottom - way[1]
                if beside < 0 or above < 0:
                    continue
                score = (min(beside, above), max(beside, above), rank, sheet, room.left, room.bottom)
                if best is None or score < best[0]:
                    best = score, place, way
        return None if best is None else best[1:]

    def _cut(self, number: int, place: int, way: Size, turned: bool) -> None:
        """Cut a rectangle from the lower left of a room; what is left is two rooms, or one, past the kerf."""
        sheet, room = self.rooms.pop(place)
        self.slots[number] = Slot(sheet, room.left, room.bottom, turned)
        kerf = self.sheets.kerf
        right, top = room.left + way[0], room.bottom + way[1]
        beside, above = room.right - right - kerf, room.top - top - kerf
        through = {
            "longer": beside >= above, "shorter": beside < above, "across": False, "up": True,
        }[self.parting]  # fmt: skip
        if beside > 0:
            self.rooms.append((sheet, Rect(right + kerf, room.bottom, room.right, room.top if through else top)))
        if above > 0:
            self.rooms.append((sheet, Rect(room.left, top + kerf, right if through else room.right, room.top)))


def _alone(sizes: list[Size], sheets: Sheets) -> set[int]:
    """The rectangles that can share a sheet with no other."""
    alike: dict[Size, list[int]] = {}
    for number, size in enumerate(sizes):
        alike.setdefault(size, []).append(number)
    return {
        number
        for size, own in alike.items()
        if not any(sheets.share(size, other) for other in alike if other != size or len(own) > 1)
        for number in own
    }


def _least(sizes: list[Size], sheets: Sheets) -> int:
    """How many sheets the rectangles take at least: by area, and by pairs that cannot share one."""
    return max(_by_area(sizes, sheets), _by_pairs(sizes, sheets))


def _by_pairs(sizes: list[Size], sheets: Sheets) -> int:
    """How many rectangles are found of which no two can share a sheet."""
    most = 0
    for key in _ORDERS[:3]:
        apart: list[Size] = []
        for size in sorted(sizes, key=key):
            if not any(sheets.share(size, other) for other in apart):
                apart.append(size)
        most = max(most, len(apart))
    return most


def _by_area(sizes: list[Size], sheets: Sheets) -> int:
    """The least by area, each rectangle with its kerf.

    Along each axis what nearly fills the sheet counts as the whole of it, and what then fits beside nothing counted as
    nothing; whatever fits a sheet still does so counted in this way (dual feasible functions).
    """
    kerf = sheets.kerf
    wide, high = sheets.wide + kerf, sheets.high + kerf
    ways = [tuple((a + kerf, b + kerf) for a, b in sheets.ways(size)) for size in sizes]
    least = 0
    for small_x in _smalls([a for own in ways for a, _ in own], wide):
        for small_y in _smalls([b for own in ways for _, b in own], high):
            area = sum(min(_counted(a, small_x, wide) * _counted(b, small_y, high) for a, b in own) for own in ways)
            least = max(least, -(-area // (wide * high)))
    return least


def _smalls(extents: list[int], whole: int) -> list[int]:
    """Figures under which an extent counts as nothing, at most half of the whole."""
    found = {0, whole // 2, *extents, *(whole - extent + 1 for extent in extents)}
    fit = sorted(figure for figure in found if 0 <= 2 * figure <= whole)
    return fit if len(fit) <= _CANDIDATES else [*fit[:: len(fit) // _CANDIDATES + 1], fit[-1]]


def _counted(extent: int, small: int, whole: int) -> int:
    if extent > whole - small:
        return whole
    return extent if extent >= small else 0
