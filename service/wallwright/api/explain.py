"""All the faults of a body that does not fit its schema: the strict decoder decides, this only explains.

The decoder stops at the first fault; this walks the untyped document beside the wire types and tells
every one, with a pointer, what was given, what is allowed and how to mend it. It is total over any JSON.
"""

import difflib
from typing import Annotated, Any, Final

import msgspec
from msgspec import inspect

from wallwright.lengths import STOCK_PATTERN
from wallwright.wire.answers import ErrorItem
from wallwright.wire.base import LENGTH_TYPES, NAME_PATTERN, read_length

MOST_FAULTS: Final = 50
_FIELDS: Final = 8
"""So many fields of an object are named to who gave something else."""
_FORMS: Final = {
    STOCK_PATTERN: "give a stock name in small letters and without spaces, such as 2x4, 38x89 or 1-1/2x3-1/2.",
    NAME_PATTERN: "give a name without line breaks, control characters and marks that turn the direction of writing.",
}
_TYPES: Final[dict[type, inspect.Type]] = {}


def prepare(kind: type) -> None:
    """Read a request type's description once, at start, so that no request pays for it."""
    _TYPES[kind] = inspect.type_info(kind)


def explain(document: Any, kind: type) -> list[ErrorItem]:
    """Every fault of an untyped document, the first `MOST_FAULTS`; empty where it fits ``kind``."""
    faults: list[ErrorItem] = []
    _walk(document, _TYPES[kind], "", faults)
    return faults[:MOST_FAULTS]


def _walk(value: Any, kind: inspect.Type, at: str, faults: list[ErrorItem]) -> None:
    kind = _bare(kind)
    if value is None:
        faults.append(ErrorItem(pointer=at, code="null", detail="null is given; leave the field out, or give a value."))
    elif isinstance(kind, inspect.UnionType):
        _union(value, kind, at, faults)
    elif isinstance(kind, inspect.StructType):
        _struct(value, kind, at, faults)
    elif isinstance(kind, inspect.ListType):
        _list(value, kind, at, faults)
    elif isinstance(kind, inspect.CustomType):
        _custom(value, kind, at, faults)
    else:
        text = _leaf(value, kind)
        if text:
            faults.append(ErrorItem(pointer=at, code="value", detail=text))


def _union(value: Any, kind: inspect.UnionType, at: str, faults: list[ErrorItem]) -> None:
    members = [_bare(member) for member in kind.types]
    members = [member for member in members if type(member).__name__ != "UnsetType"]
    if len(members) == 1:
        _walk(value, members[0], at, faults)
        return
    struct = next((member for member in members if isinstance(member, inspect.StructType)), None)
    if isinstance(value, dict) and struct is not None:
        _struct(value, struct, at, faults)
        return
    text = next((member for member in members if isinstance(member, inspect.StrType)), None)
    if isinstance(value, str) and text is not None:
        _walk(value, text, at, faults)
        return
    what = "a text or " + _object(struct) if struct is not None else "a text or an object"
    faults.append(ErrorItem(pointer=at, code="type", detail=f"{_shown(value)} is given; give {what}."))


def _object(kind: inspect.StructType) -> str:
    """An object told by its fields: those that are required first, and not all where there are many."""
    names = [field.encode_name for field in sorted(kind.fields, key=lambda field: not field.required)]
    more = " and more" if len(names) > _FIELDS else ""
    return f"an object with {', '.join(names[:_FIELDS])}{more}"


def _bare(kind: inspect.Type) -> inspect.Type:
    return kind.type if isinstance(kind, inspect.Metadata) else kind


def _struct(value: Any, kind: inspect.StructType, at: str, faults: list[ErrorItem]) -> None:
    if not isinstance(value, dict):
        faults.append(ErrorItem(pointer=at, code="type", detail=f"{_shown(value)} is given; give {_object(kind)}."))
        return
    fields = {field.encode_name: field for field in kind.fields}
    for name, inner in value.items():
        if len(faults) >= MOST_FAULTS:
            return
        here = f"{at}/{_escaped(name)}"
        if name in fields:
            _walk(inner, fields[name].type, here, faults)
        else:
            faults.append(ErrorItem(pointer=here, code="unknown-field", detail=_unknown(name, list(fields))))
    for name, field in fields.items():
        if field.required and name not in value:
            detail = f"{name} is missing; it is required."
            faults.append(ErrorItem(pointer=f"{at}/{_escaped(name)}", code="missing-field", detail=detail))


def _unknown(name: str, known: list[str]) -> str:
    close = difflib.get_close_matches(name, known, 1, 0.5)
    hint = f"did you mean {close[0]}?" if close else f"known here are {', '.join(sorted(known))}."
    return f"{_shown(name)} is no field; {hint}"


def _list(value: Any, kind: inspect.ListType, at: str, faults: list[ErrorItem]) -> None:
    if not isinstance(value, list):
        faults.append(ErrorItem(pointer=at, code="type", detail=f"{_shown(value)} is given; give a list."))
        return
    low, high = kind.min_length or 0, kind.max_length
    if len(value) < low or (high is not None and len(value) > high):
        span = f"exactly {low}" if low == high else f"from {low} to {high}"
        detail = f"{len(value)} entries are given; give {span}."
        faults.append(ErrorItem(pointer=at, code="count", detail=detail))
    for number, inner in enumerate(value[:1000]):
        if len(faults) >= MOST_FAULTS:
            return
        _walk(inner, kind.item_type, f"{at}/{number}", faults)


def _custom(value: Any, kind: inspect.CustomType, at: str, faults: list[ErrorItem]) -> None:
    if kind.cls not in LENGTH_TYPES:
        return
    try:
        read_length(kind.cls, value)
    except ValueError as error:
        faults.append(ErrorItem(pointer=at, code="length", detail=f"{error}."))


def _leaf(value: Any, kind: inspect.Type) -> str:
    """Why a leaf does not fit, or an empty text."""
    if isinstance(kind, inspect.LiteralType):
        words = ", ".join(str(word) for word in kind.values)
        return (
            "" if isinstance(value, str) and value in kind.values else f"{_shown(value)} is given; give one of {words}."
        )
    if isinstance(kind, inspect.BoolType):
        return "" if isinstance(value, bool) else f"{_shown(value)} is given; give true or false."
    if isinstance(kind, inspect.StrType):
        return _text(value, kind)
    if isinstance(kind, inspect.IntType | inspect.FloatType):
        return _number(value, kind)
    return ""


def _text(value: Any, kind: inspect.StrType) -> str:
    if not isinstance(value, str):
        return f"{_shown(value)} is given; give a text."
    if kind.max_length is not None and len(value) > kind.max_length:
        return f"a text of {len(value)} characters is given; the most is {kind.max_length}."
    try:
        msgspec.convert(value, _annotated(kind))
    except msgspec.ValidationError:
        form = _FORMS.get(kind.pattern or "", "it is not of the form that this field takes.")
        return f"{_shown(value)} is given; {form}"
    return ""


def _annotated(kind: inspect.StrType) -> Any:
    return Annotated[str, msgspec.Meta(pattern=kind.pattern)] if kind.pattern else str


def _number(value: Any, kind: inspect.IntType | inspect.FloatType) -> str:
    whole = isinstance(kind, inspect.IntType)
    word = "a whole number" if whole else "a number"
    low = kind.ge if kind.ge is not None else kind.gt
    span = f"{word} {'above' if kind.ge is None else 'from'} {low} to {kind.le}"
    if isinstance(value, bool) or (not isinstance(value, int | float) and not hasattr(value, "is_finite")):
        return f"{_shown(value)} is given; give {span}."
    too_low = (kind.ge is not None and value < kind.ge) or (kind.gt is not None and value <= kind.gt)
    # The range is looked at first: what lies within it can be made an int without harm.
    if too_low or (kind.le is not None and value > kind.le) or (whole and value != int(value)):
        return f"{_shown(value)} is given; give {span}."
    return ""


def _shown(value: Any) -> str:
    """A value as a person reads it back, cut short."""
    if isinstance(value, dict):
        return "an object"
    if isinstance(value, list):
        return "a list"
    text = (
        str(value).lower()
        if isinstance(value, bool) or value is None
        else repr(value)
        if isinstance(value, str)
        else str(value)
    )
    text = "null" if value is None else text
    return text if len(text) <= 60 else f"{text[:60]}…"


def _escaped(name: str) -> str:
    return name[:100].replace("~", "~0").replace("/", "~1")
