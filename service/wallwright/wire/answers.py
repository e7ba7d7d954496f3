"""Parts that several answers share: points, findings, problems."""

from typing import Annotated, Literal

from msgspec import UNSET, Meta, UnsetType

from wallwright.wire.base import Answer

Number = Annotated[float, Meta(description="A length in the document's units, exact to the grid.")]
Tape = Annotated[str, Meta(description="The same for the tape: to the nearest 1/16 in or whole mm.")]
PointPair = Annotated[list[float], Meta(min_length=2, max_length=2, description="[x, y]")]
Polygon = Annotated[list[PointPair], Meta(description="A closed outline, counter-clockwise.")]


class Compared(Answer, frozen=True):
    """Two figures that were compared."""

    value: float
    limit: float
    unit: str


class Finding(Answer, frozen=True):
    """One thing to say about a plan. Codes are stable within v1; texts may change."""

    level: Annotated[str, Meta(description="`note`, `caution` or `stop`.")]
    code: str
    about: Annotated[str, Meta(description="A JSON pointer into the answer's `wall` or `building`.")]
    members: list[str]
    text: str
    source: str
    compared: Compared | UnsetType = UNSET


class ErrorItem(Answer, frozen=True):
    """One fault: where, what, and how to mend it."""

    pointer: Annotated[str, Meta(description="RFC 6901 pointer into the request; a missing field points at itself.")]
    code: str
    detail: str


class Problem(Answer, frozen=True):
    """RFC 9457 problem details; `errors` holds every fault found."""

    type: str
    title: str
    status: int
    detail: str
    code: str
    errors: list[ErrorItem] | UnsetType = UNSET


Sign = Literal["X", "C"]
