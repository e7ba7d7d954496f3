"""A slope between the wire's numbers and the domain's whole ones: rise and run in millionths."""

from msgspec import UNSET, UnsetType

_MILLION = 1_000_000
_RUN = 12
"""A slope's run where none is given, so that `rise` alone reads as the trade says it: rise in 12."""


def slope(rise: float | UnsetType, run: float | UnsetType) -> tuple[int, int]:
    """Rise and run in millionths, in which the six decimals that they are read to are whole numbers."""
    return (
        0 if rise is UNSET else round(rise * _MILLION),
        _RUN * _MILLION if run is UNSET else max(1, round(run * _MILLION)),
    )


def slope_number(millionths: int) -> float:
    """A rise or a run as it travels."""
    return millionths / _MILLION
