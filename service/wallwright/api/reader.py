"""Bodies are decoded strictly by this reader: the raw bytes, once, with every fault told at once."""

import json
from decimal import Decimal, InvalidOperation
from typing import Any, Final

import msgspec

from wallwright.api.explain import explain, prepare
from wallwright.api.problems import Refused
from wallwright.wire.answers import ErrorItem
from wallwright.wire.base import read_length

_DEEPEST: Final = 32
_LARGEST_EXPONENT: Final = 400
_AGAIN: Final = msgspec.json.Encoder(decimal_format="number")


def number_of(text: str) -> Decimal:
    """A JSON number with a point or an exponent, exactly.

    Past what a binary float can hold it is infinite or nothing, as for every other reader of JSON, so that
    no arithmetic on it can overflow or take long.
    """
    try:
        value = Decimal(text)
    except InvalidOperation:
        return Decimal(float(text))
    return value if abs(value.adjusted()) <= _LARGEST_EXPONENT else Decimal(float(text))


def _no_number(word: str) -> None:
    """NaN and Infinity, which the standard library reads and JSON does not have."""
    raise ValueError(word)


class Reader:
    """Decodes one request type from JSON bytes."""

    def __init__(self, kind: type) -> None:
        self.kind = kind
        # Numbers with a point come as Decimal, so that no length passes through a binary float.
        self._decoder: msgspec.json.Decoder[Any] = msgspec.json.Decoder(
            kind, strict=True, dec_hook=read_length, float_hook=number_of
        )
        prepare(kind)

    def read(self, body: bytes) -> Any:
        """The request in a body. Raises Refused with 400 and every fault where it is not one."""
        try:
            request = self._decoder.decode(body)
        except msgspec.ValidationError:
            return self._second_look(body)
        except (msgspec.DecodeError, UnicodeDecodeError, RecursionError, ValueError) as error:
            raise _not_json(body, error) from None
        repeated = _untyped(body)[1]
        if repeated:
            raise _repeated(repeated)
        return request

    def _second_look(self, body: bytes) -> Any:
        """JSON Schema counts 2.0 as an integer, the strict decoder does not: such numbers are mended first."""
        document, repeated = _untyped(body)
        whole = _whole_numbers(document)
        if repeated:
            raise _repeated(repeated, explain(whole, self.kind))
        try:
            return self._decoder.decode(_AGAIN.encode(whole))
        except (msgspec.MsgspecError, ValueError, OverflowError):
            faults = explain(whole, self.kind)
            if not faults:
                faults = [ErrorItem(pointer="", code="value", detail="The body does not fit the schema.")]
            raise Refused("not-of-the-schema", errors=faults) from None


def _not_json(body: bytes, error: Exception) -> Refused:
    if not body.strip():
        return Refused("not-json", "A JSON body is required; none was sent.")
    if isinstance(error, RecursionError):
        return Refused("not-json", "The body is nested too deeply.")
    if isinstance(error, UnicodeDecodeError):
        return Refused("not-json", "The body is not valid UTF-8.")
    return Refused("not-json", "The body is not JSON (RFC 8259).")


def _repeated(pointers: list[str], more: list[ErrorItem] | None = None) -> Refused:
    errors = [
        ErrorItem(pointer=pointer, code="repeated-key", detail="The key stands twice; give it once.")
        for pointer in pointers[:50]
    ]
    return Refused("repeated-key", errors=errors + (more or []))


def _untyped(body: bytes) -> tuple[Any, list[str]]:
    """The document as plain values, and the pointers of repeated keys."""
    repeated_in: dict[int, list[str]] = {}
    keep: list[Any] = []

    def pairs(items: list[tuple[str, Any]]) -> dict[str, Any]:
        found = dict(items)
        if len(found) < len(items):
            seen: set[str] = set()
            twice = []
            for name, _ in items:
                if name in seen:
                    twice.append(name)
                seen.add(name)
            repeated_in[id(found)] = list(dict.fromkeys(twice))
            keep.append(found)
        return found

    try:
        text = body.decode("utf-8")
        document = json.loads(text, object_pairs_hook=pairs, parse_float=number_of, parse_constant=_no_number)
    except (ValueError, RecursionError) as error:
        raise _not_json(body, error) from None
    pointers: list[str] = []
    if repeated_in:
        _locate(document, "", repeated_in, pointers, 0)
        if not pointers:
            pointers = [f"/{names[0]}" for names in repeated_in.values()]
    return document, pointers


def _locate(value: Any, at: str, repeated_in: dict[int, list[str]], pointers: list[str], depth: int) -> None:
    if depth > _DEEPEST:
        return
    if isinstance(value, dict):
        for name in repeated_in.get(id(value), ()):
            pointers.append(f"{at}/{_escaped(name)}")
        for name, inner in value.items():
            _locate(inner, f"{at}/{_escaped(name)}", repeated_in, pointers, depth + 1)
    elif isinstance(value, list):
        for number, inner in enumerate(value[:1000]):
            _locate(inner, f"{at}/{number}", repeated_in, pointers, depth + 1)


def _escaped(name: str) -> str:
    return name[:100].replace("~", "~0").replace("/", "~1")


def _whole_numbers(value: Any, depth: int = 0) -> Any:
    """The document with every integral decimal made an int. Refuses what no UTF-8 text can hold."""
    if depth > _DEEPEST:
        raise Refused("not-json", "The body is nested too deeply.")
    if isinstance(value, dict):
        return {_whole_numbers(name): _whole_numbers(inner, depth + 1) for name, inner in value.items()}
    if isinstance(value, list):
        return [_whole_numbers(inner, depth + 1) for inner in value]
    if isinstance(value, str) and not value.isascii():
        try:
            value.encode()
        except UnicodeEncodeError:
            raise Refused("not-json", "A text holds half of a surrogate pair.") from None
    if isinstance(value, Decimal) and value.is_finite() and abs(value) < 10**12 and value == value.to_integral_value():
        return int(value)
    return value
