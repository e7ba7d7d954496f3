"""How a section of timber is given: by its name, or by its two sizes."""

from typing import Annotated

from msgspec import Meta

from wallwright.lengths import STOCK_PATTERN
from wallwright.wire.base import Length, Request
from wallwright.wire.limits import (
    STOCK_NAME_MAX,
)

StockName = Annotated[
    str,
    Meta(
        max_length=STOCK_NAME_MAX,
        pattern=STOCK_PATTERN,
        description="A section by name: nominal `2x4`, millimetres `38x89`, or dressed inches `1-1/2x3-1/2`.",
    ),
]


class StockSize(Request, frozen=True):
    """A section by its dressed sizes."""

    thickness: Annotated[Length, Meta(description="The narrow face.")]
    width: Annotated[Length, Meta(description="The wide face.")]
