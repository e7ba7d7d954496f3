"""From a wire request's lengths to the grid, with every fault collected."""

from typing import TypeVar

from msgspec import UNSET, Struct, UnsetType
from msgspec.structs import fields, replace

from wallwright.domain.stock import Stock, stock_of_name
from wallwright.findings import Fault, Value
from wallwright.lengths import Units
from wallwright.wire import limits
from wallwright.wire.base import Given
from wallwright.wire.stock import StockSize

Merged = TypeVar("Merged", bound=Struct)


class Reading:
    """One request being read: its units, and the faults found so far."""

    def __init__(self, units: Units) -> None:
        self.units: Units = units
        self.faults: list[Fault] = []

    def length(self, given: Given, pointer: str, least: int, most: int) -> int:
        """A given length on the grid; a fault where it is not from ``least`` to ``most``."""
        measure = given.measure
        if measure is None:
            raise ValueError("a length that is read must have been decoded")
        value = measure.on_grid(self.units)
        if not least <= value <= most:
            # One grid unit is too little for a tape to show.
            lowest = "just above 0" if least == 1 else least
            values: tuple[tuple[str, Value], ...] = (("given", value), ("least", lowest), ("most", most))
            self.faults.append(Fault("length-out-of-range", pointer, values))
            return min(max(value, least), most)
        return value

    def optional(self, given: Given | UnsetType, pointer: str, least: int, most: int, default: int) -> int:
        """The same for a field that may be left out."""
        return default if given is UNSET else self.length(given, pointer, least, most)

    def stock(self, given: str | StockSize, pointer: str, least: tuple[int, int], most: tuple[int, int]) -> Stock:
        """A section by name or by sizes, each size between its ``least`` and ``most``."""
        if isinstance(given, StockSize):
            thickness = self.length(given.thickness, f"{pointer}/thickness", least[0], most[0])
            width = self.length(given.width, f"{pointer}/width", least[1], most[1])
            return Stock(thickness, width)
        try:
            stock = stock_of_name(given)
        except ValueError:
            self.faults.append(Fault("stock-unknown", pointer, (("given", given),)))
            return Stock(least[0], least[1])
        sizes = []
        for size, low, high in ((stock.thickness, least[0], most[0]), (stock.width, least[1], most[1])):
            if not low <= size <= high:
                values = (("given", size), ("least", low), ("most", high))
                self.faults.append(Fault("length-out-of-range", pointer, values))
            # As with lengths, reading goes on with a size that can be reckoned with; a name may say 0.
            sizes.append(min(max(size, low), high))
        return Stock(*sizes)


STUD_LEAST = (limits.STUD_THICKNESS_MIN, limits.STUD_DEPTH_MIN)
STUD_MOST = (limits.STUD_THICKNESS_MAX, limits.STUD_DEPTH_MAX)
STOCK_LEAST = (limits.STOCK_THICKNESS_MIN, limits.STOCK_WIDTH_MIN)
BOUGHT_LEAST = (limits.FILLER_THICKNESS_MIN, limits.STOCK_WIDTH_MIN)
STOCK_MOST = (limits.STUD_THICKNESS_MAX, limits.STOCK_WIDTH_MAX)


def merged(base: Merged | UnsetType, over: Merged | UnsetType) -> Merged | UnsetType:
    """``over`` laid upon ``base`` field by field: what is set above hides what is set below."""
    if base is UNSET or over is UNSET or isinstance(base, UnsetType) or isinstance(over, UnsetType):
        return base if over is UNSET else over
    changes = {}
    for field in fields(over):
        value = getattr(over, field.name)
        below = getattr(base, field.name, UNSET)
        if value is UNSET:
            continue
        both = isinstance(value, Struct) and isinstance(below, Struct) and type(value) is type(below)
        changes[field.name] = merged(below, value) if both else value
    return replace(base, **changes)


def given(**values: object) -> dict[str, object]:
    """Only the values that were given, so that the domain's own defaults fill in the rest."""
    return {name: value for name, value in values.items() if value is not UNSET}
