"""What would work where a wall is refused: for each fault the nearest value that mends it.

Faults are mended one after another, in the order in which they are found, and the mended wall is framed
again, until it can be built: so all faults are told at once, and the values offered work together.
"""

from collections.abc import Callable

from msgspec.structs import replace

from wallwright.domain.mirror import mirrored_opening, mirrored_wall
from wallwright.domain.openings import fits_one_bay, jacks_beside
from wallwright.domain.posts import king_line
from wallwright.domain.slope_checks import STEEPEST
from wallwright.domain.wall import Opening, Top, Wall
from wallwright.findings import Fault, Offer, Value, at_least, at_most

FaultsOf = Callable[[Wall], list[Fault]]
Values = tuple[tuple[str, Value], ...]
_PLACED = frozenset(("opening-outside-wall", "openings-collide", "opening-too-near-end", "openings-too-near"))


def with_offers(wall: Wall, faults: list[Fault], faults_of: FaultsOf) -> tuple[Fault, ...]:
    """The faults of a wall with the values that would work, and those that show once the first are mended.

    ``faults`` and ``faults_of`` speak of the wall as the caller gave it, not of its mirror.
    """
    mending = _Mending(wall, lenient=True)
    if not mending.mended(faults, faults_of):
        # An opening that seemed to fit one bay is framed with jacks after all; so all may be.
        mending = _Mending(wall, lenient=False)
        mending.mended(faults, faults_of)
    return tuple(mending.told.values())


class _Mending:
    """A wall on its way to one that can be built, and what was told of it."""

    def __init__(self, wall: Wall, *, lenient: bool) -> None:
        self.given = wall
        self.wall = wall
        self.openings = dict(enumerate(wall.openings))
        self.partitions = dict(enumerate(wall.partitions))
        self.lenient = lenient
        self.told: dict[str, Fault] = {}

    def mended(self, faults: list[Fault], faults_of: FaultsOf) -> bool:
        """Mend and frame again until nothing is refused; False where that finds no end."""
        for _ in range(3 * len(self.openings) + len(self.partitions) + 8):
            if self.lenient and any(fault.pointer in self.told for fault in faults if fault.code in _PLACED):
                return False
            self._mend(faults)
            numbers = {"openings": sorted(self.openings), "partitions": sorted(self.partitions)}
            self.wall = replace(
                self.wall,
                openings=tuple(self.openings[number] for number in numbers["openings"]),
                partitions=tuple(self.partitions[number] for number in numbers["partitions"]),
            )
            faults = [_renumbered(fault, numbers) for fault in faults_of(self.wall)]
            if not faults:
                return True
        return False

    def _mend(self, faults: list[Fault]) -> None:
        # Those that are to be moved make way for one another; what is moved first is then in the way of the rest.
        away = {fault.pointer: self._number(fault) for fault in faults if fault.code in _PLACED}
        moving = {number: self.openings.pop(number) for number in away.values()}
        for fault in faults:
            if fault.pointer in away:
                number = away[fault.pointer]
                self._place(fault, number, moving[number])
            elif fault.pointer.startswith("/openings/"):
                self._size(fault, self._number(fault))
            else:
                self._whole(fault)

    def _number(self, fault: Fault) -> int:
        return int(fault.pointer.split("/")[2])

    def _tell(self, code: str, pointer: str, values: Values) -> None:
        if pointer.startswith("/openings/"):
            number = int(pointer.split("/")[2])
            values = (("opening", self.given.openings[number].name or str(number + 1)), *values)
        self.told[pointer] = Fault(code, pointer, values)

    def _place(self, fault: Fault, number: int, opening: Opening) -> None:
        """Move an opening to the nearest place, or say which width would find one, or that none does."""
        given, at = self.given.openings[number].left, f"/openings/{number}"
        room = _clear_stretches(self.wall, list(self.openings.values()), lenient=self.lenient)
        jacks = jacks_beside(self.wall, opening) * self.wall.thickness
        places = [(low + jacks, high - jacks - opening.width) for low, high in room]
        offers = [Offer(min(max(opening.left, low), high), low, high) for low, high in places if low <= high]
        if offers:
            best = min(offers, key=lambda offer: (abs(offer.value - given), offer.value))
            self._tell(fault.code, fault.pointer, (*fault.values, ("given", given), ("nearest", best)))
            self.openings[number] = replace(opening, left=best.value)
            return
        low, high = max(room, key=lambda stretch: (stretch[1] - stretch[0], -stretch[0]))
        widest = high - low - 2 * jacks
        if widest < self.wall.thickness:
            missing = opening.width + 2 * jacks - (room[-1][1] - room[-1][0])
            self._tell("no-room-for-opening", at, (("least", at_least(self.wall.length + missing)),))
            return
        place = low + jacks
        values: Values = (("given", opening.width), ("most", at_most(widest)), ("nearest", Offer(place, place, place)))
        self._tell("opening-has-no-place", f"{at}/width", values)
        self.openings[number] = replace(opening, left=place, width=widest)

    def _size(self, fault: Fault, number: int) -> None:
        """Give an opening the size that was offered; what no size mends is left out of the mended wall."""
        opening = self.openings.pop(number, None)
        if opening is None:
            # It is being moved as well; its size is looked at again where it comes to stand.
            return
        self._tell(fault.code, fault.pointer, fault.values)
        values = dict(fault.values)
        field = fault.pointer.rsplit("/", 1)[1]
        smallest = fault.code in ("opening-too-narrow", "opening-too-low", "sill-too-low")
        offer = values.get("least") if smallest else values.get("most")
        if fault.code == "header-too-thick":
            self.openings[number] = replace(opening, header=None)
        elif isinstance(offer, Offer) and field in ("width", "height", "sill"):
            self.openings[number] = replace(opening, **{field: offer.value})

    def _whole(self, fault: Fault) -> None:
        """Give the wall itself what was offered."""
        self._tell(fault.code, fault.pointer, fault.values)
        wall, values = self.wall, dict(fault.values)
        offer = values.get("height", values.get("least"))
        size = offer.value if isinstance(offer, Offer) else 0
        if fault.code == "slope-missing":
            self.wall = replace(wall, top=Top())
        elif fault.code == "slope-too-steep":
            self.wall = replace(wall, top=replace(wall.top, rise=STEEPEST * wall.top.run))
        elif fault.code == "slope-reaches-too-high":
            rise, run = str(values["slope"]).split(" in ")
            self.wall = replace(wall, top=replace(wall.top, rise=int(rise), run=int(run)))
        elif fault.pointer == "/top/ridge":
            self.wall = replace(wall, top=replace(wall.top, ridge=None))
        elif fault.pointer in ("/length", "/height", "/spacing"):
            self.wall = replace(wall, **{fault.pointer[1:]: size})
        elif fault.pointer.startswith("/floor/anchors/"):
            # Bolts stop no wall from being framed, wherever on the plate they are: the mended wall has none.
            self.wall = replace(wall, floor=replace(wall.floor, anchors=()))
        elif fault.pointer.startswith("/partitions/"):
            self._partition(fault)
        elif fault.pointer == "/plates/joints":
            self.wall = replace(wall, plates=replace(wall.plates, joints=None))
        elif fault.pointer == "/plates/stock_length":
            self.wall = replace(wall, plates=replace(wall.plates, stock_length=size))
        elif fault.code == "lap-too-short":
            sheet = replace(wall.sheathing.sheet, lap=size)
            self.wall = replace(wall, sheathing=replace(wall.sheathing, sheet=sheet))
        elif fault.code == "no-lying-seam":
            self.wall = replace(wall, sheathing=replace(wall.sheathing, direction="upright"))
        elif fault.pointer == "/sheathing/sheet/length":
            sheet = replace(wall.sheathing.sheet, length=size)
            self.wall = replace(wall, sheathing=replace(wall.sheathing, sheet=sheet))
        elif fault.pointer.startswith("/ends/"):
            _, _, side, field = fault.pointer.split("/")
            self.wall = replace(wall, **{side: replace(getattr(wall, side), **{field: size})})

    def _partition(self, fault: Fault) -> None:
        """Move a partition to the place offered; one that has none is left out of the mended wall."""
        number = int(fault.pointer.split("/")[2])
        values = (("given", self.given.partitions[number].at), *fault.values[1:])
        self._tell(fault.code, fault.pointer, values)
        nearest, partition = dict(values).get("nearest"), self.partitions.pop(number)
        if isinstance(nearest, Offer):
            self.partitions[number] = replace(partition, at=nearest.value)


def _renumbered(fault: Fault, numbers: dict[str, list[int]]) -> Fault:
    """A fault of the wall that has these of the openings and partitions, at the number that was given to each."""
    _, kind, *rest = fault.pointer.split("/")
    if kind not in numbers or not rest:
        return fault
    return replace(fault, pointer="/".join(["", kind, str(numbers[kind][int(rest[0])]), *rest[1:]]))


def _clear_stretches(wall: Wall, others: list[Opening], *, lenient: bool) -> list[tuple[int, int]]:
    """Where jacks and void of one more opening may stand: stretches of x from king line to king line.

    ``lenient``: an opening that lies within one bay keeps no room for jacks of its own.
    """
    thick = wall.thickness
    end = wall.length - king_line(wall, wall.right)
    start = king_line(wall, wall.left)
    found = []
    for other in sorted(others, key=lambda other: other.left):
        jacks = 0 if lenient and _within_one_bay(wall, other) else jacks_beside(wall, other) * thick
        found.append((start, other.left - jacks - thick))
        start = max(start, other.right + jacks + thick)
    return [*found, (start, end)]


def _within_one_bay(wall: Wall, opening: Opening) -> bool:
    if wall.tape.start == "right":
        wall, opening = mirrored_wall(wall), mirrored_opening(opening, wall.length)
    return opening.header is None and fits_one_bay(wall, opening)
