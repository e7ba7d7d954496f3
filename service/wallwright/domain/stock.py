"""Timber sections: a nominal size's dressed size, and the one name of a section.

Dressed sizes come from `wallwright.published.softwood_lumber`.
"""

import re
from typing import Final

import msgspec

from wallwright.lengths import INCH, MILLIMETRE, STOCK_PATTERN, inch_name, inches, measure_of_text
from wallwright.published.softwood_lumber import DRESSED, DRESSED_MM


class Stock(msgspec.Struct, frozen=True, gc=False):
    """A rectangular timber section on the grid; ``thickness`` is the narrow face, ``width`` the wide one."""

    thickness: int
    width: int

    @property
    def name(self) -> str:
        """The section's one name: ``2x4`` where dressed so, else ``38x89`` (mm) or ``1-1/2x3-1/2`` (in)."""
        return stock_name(self)


NOMINAL: Final[dict[str, Stock]] = {name: Stock(*sizes) for name, sizes in DRESSED.items()}
_IN_MILLIMETRES: Final[dict[str, Stock]] = {name: Stock(*sizes) for name, sizes in DRESSED_MM.items()}
_NOMINAL_NAMES: Final = {stock: name for name, stock in NOMINAL.items()}

_STOCK: Final = re.compile(STOCK_PATTERN)


def of_the_yard(name: str, timber: Stock) -> Stock:
    """The section of a nominal size as the yard has it that has ``timber``: in whole millimetres where that is dressed to them."""
    return (_IN_MILLIMETRES if timber in _IN_MILLIMETRES.values() else NOMINAL)[name]


def is_named(stock: Stock) -> bool:
    """Whether a section's name is one that can be read: the least size in millimetres has two digits."""
    return _STOCK.match(stock.name) is not None and stock_of_name(stock.name) == stock


def stock_of_name(name: str) -> Stock:
    """The section named, such as ``2x4``, ``38x89`` or ``1-1/2x3-1/2``.

    Raises ValueError where the name is not of a known form or the nominal size has no dressed size.
    """
    if name in NOMINAL:
        return NOMINAL[name]
    if _STOCK.match(name) is None:
        raise ValueError(f"{name[:24]!r} names no section; write 2x4, 38x89 (mm) or 1-1/2x3-1/2 (in)")
    thickness, width = name.split("x")
    if "/" in name:
        return Stock(inches(thickness), inches(width))
    if float(thickness) < 10:
        raise ValueError(f"{name!r} has no dressed size in PS 20; known are {', '.join(NOMINAL)}")
    return Stock(measure_of_text(f"{thickness} mm").on_grid("mm"), measure_of_text(f"{width} mm").on_grid("mm"))


def stock_name(stock: Stock) -> str:
    """The one name of a section, the same whatever text it came from."""
    known = _NOMINAL_NAMES.get(stock)
    if known is not None:
        return known
    in_64ths = stock.thickness % (INCH // 64) == 0 and stock.width % (INCH // 64) == 0
    # Two whole inches would read as a nominal size, so they are named in millimetres.
    if in_64ths and (stock.thickness % INCH or stock.width % INCH):
        return f"{inch_name(stock.thickness)}x{inch_name(stock.width)}"
    return f"{_mm_name(stock.thickness)}x{_mm_name(stock.width)}"


def _mm_name(length: int) -> str:
    whole, rest = divmod(length, MILLIMETRE)
    if not rest:
        return str(whole)
    return f"{whole}.{str(rest * 100_000 // MILLIMETRE).zfill(5).rstrip('0')}"
