"""What every travelling Struct is made of."""

from typing import Annotated, Any, Final, Literal

import msgspec
from msgspec import UNSET, Meta, UnsetType

from wallwright.lengths import TAPE_MAX_LENGTH, TAPE_PATTERN, Measure, measure_of_number, measure_of_text
from wallwright.wire.limits import NAME_MAX, NUMBER_MAX

__all__ = [
    "UNSET", "Answer", "Extent", "Given", "Length", "Name", "Offset", "Request", "Units", "UnsetType", "encode_length",
    "length_schema", "read_length",
]  # fmt: skip


class Request(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """Base of all that comes in: a field that is not known is refused, since a typing slip costs timber."""


class Answer(msgspec.Struct, frozen=True, kw_only=True, gc=False):
    """Base of all that goes out: fields may be added within v1, so readers skip what they do not know."""


class Given:
    """A length as it travels: a number in the document's units, or a tape text that names its own.

    Going out it is always a number. The subclasses differ in the range that a number may have.
    """

    __slots__ = ("measure", "number")
    low: float = -NUMBER_MAX
    above_zero = False
    words = "a length"

    def __init__(self, measure: Measure | None = None, number: float = 0.0) -> None:
        self.measure = measure
        self.number = number


class Length(Given):
    """A length greater than 0."""

    low = 0
    above_zero = True
    words = "a length greater than 0"


class Extent(Given):
    """A length of 0 or more."""

    low = 0
    words = "a length of 0 or more"


class Offset(Given):
    """A length that may be negative."""


LENGTH_TYPES: Final = (Length, Extent, Offset)
# Each hook below answers for these types alone. msgspec asks a hook to say of any other type that it is not its own by
# raising NotImplementedError, and tells TypeError and ValueError to the caller as faults of the request.


def read_length(kind: type, raw: Any) -> Any:
    """Decoding hook for the length types. Raises ValueError with a text fit for the caller."""
    if kind not in LENGTH_TYPES:
        raise NotImplementedError(str(kind))
    if isinstance(raw, str):
        return kind(measure_of_text(raw))
    if isinstance(raw, bool) or raw is None or isinstance(raw, dict | list):
        raise ValueError(f"give {kind.words}, as a number or as a tape text")
    measure = measure_of_number(raw)
    if raw < kind.low or (kind.above_zero and raw == 0):
        raise ValueError(f"{_short(raw)} is given; give {kind.words}")
    if raw > NUMBER_MAX:
        raise ValueError(f"{_short(raw)} is given; a length is at most {NUMBER_MAX}")
    if raw < -NUMBER_MAX:
        raise ValueError(f"{_short(raw)} is given; a length is at least -{NUMBER_MAX}")
    return kind(measure)


def _short(raw: Any) -> str:
    text = str(raw)
    return text if len(text) <= 24 else f"{text[:24]}…"


def encode_length(value: Any) -> Any:
    """Encoding hook: a length goes out as its number."""
    if isinstance(value, Given):
        return value.number
    raise NotImplementedError(str(type(value)))


def length_schema(kind: type) -> dict[str, Any]:
    """JSON Schema hook for the length types."""
    if kind not in LENGTH_TYPES:
        raise NotImplementedError(str(kind))
    low: dict[str, Any] = {"exclusiveMinimum": 0} if kind.above_zero else {"minimum": kind.low}
    return {
        "description": f"{kind.words.capitalize()}: a number in `units`, or a tape text in any mix.",
        "anyOf": [
            {"type": "number", **low, "maximum": NUMBER_MAX},
            {"type": "string", "pattern": TAPE_PATTERN, "maxLength": TAPE_MAX_LENGTH},
        ],
    }


Units = Annotated[
    Literal["in", "mm"], Meta(description="Units of every length that is a number, here and in the answer.")
]

# Control characters, marks that turn the direction of text, and characters that XML forbids.
NAME_PATTERN: Final = "^[^\\u0000-\\u001f\\u007f-\\u009f\\u202a-\\u202e\\u2066-\\u2069\\ufffe\\uffff]*$(?!\\n)"
Name = Annotated[str, Meta(max_length=NAME_MAX, pattern=NAME_PATTERN, description="A name, shown as it is given.")]
