"""From a form's texts to the request, with every fault told at its field."""

import re
from collections.abc import Callable, Iterable, Mapping
from typing import Any, Final

import msgspec
from msgspec.structs import replace

from wallwright.findings import PlanRefused
from wallwright.operations.converters import CONVERTERS
from wallwright.operations.table import BY_NAME
from wallwright.wire.base import Extent, Length, Name, Offset, Units, read_length
from wallwright.wire.building import Building
from wallwright.wire.stock import StockName
from wallwright_viewer.fields import PLAIN, ROWS, SIDES, Field, input_name
from wallwright_viewer.form import Form

GENERAL: Final = ""
"""Where a fault stands that belongs to no one field."""
_LENGTHS: Final[dict[str, type]] = {"length": Length, "extent": Extent, "offset": Offset}
_ROW_POINTER: Final = re.compile(r"/walls/(front|right|back|left)/(openings|partitions)/([0-9]+)(?:/([a-z_]+))?.*")
_ROW_NAME: Final = re.compile(r"(front|right|back|left)\.(p?)([0-9]+)\.([a-z]+)")
_NUMBER: Final = re.compile(r"[0-9]{1,6}(?:\.[0-9]{1,6})?")
_PACK: Final = re.compile(r"(\S.{0,78}?) +([0-9]{1,6})")
_MISSING: Final = re.compile(r"Object missing required field `([a-z_]+)`")
_PLACE: Final = re.compile(r" - at `\$\.?([^`]*)`$")
_NAMES: Final = {"name": "a name of at most 80 characters, without control characters"}
_STOCK_HINT: Final = "a section such as 2x4, 38x89 or 1-1/2x3-1/2"
_PLACES_STAND: Final = frozenset({
    "name", "hands", *(field.name for field in PLAIN if field.path[0] == "fastening"),
})  # fmt: skip
"""Plain fields without which the places in the walls stay what they are."""

Errors = dict[str, list[str]]
"""What is wrong, by the name of the input."""


class Question(msgspec.Struct):
    """The request in a form, or what is wrong with it."""

    request: Building | None
    errors: Errors


def asked(form: Form) -> Question:
    """The request that a filled form stands for.

    Rows with faults of writing are left aside, so that faults of place elsewhere are told in the same round.
    """
    document: dict[str, Any] = {"units": form.units, "roof": {"shape": "flat"}, "walls": {}}
    errors = laid(document, PLAIN, form.values)
    kept: dict[str, list[int]] = {}
    for kind in ROWS:
        for side in SIDES:
            whole: list[dict[str, Any]] = []
            numbers = kept.setdefault(f"{side}.{kind.mark}", [])
            for number, row in enumerate(form.rows(kind)[side], 1):
                inner: dict[str, Any] = {}
                names = {field.name: input_name(side, number, field, kind) for field in kind.fields}
                faults = laid(inner, kind.fields, row, names)
                errors |= faults
                if not faults:
                    whole.append(inner)
                    numbers.append(number)
            if whole:
                document["walls"].setdefault(side, {})[kind.key] = whole
    if any(field.required and field.name in errors for field in PLAIN):
        return Question(None, errors)
    found, more = converted(document, Building, place_of)
    errors |= {_renumbered(name, kept): texts for name, texts in more.items() if name not in errors}
    if not errors:
        return Question(found, {})
    if found is not None and all(_ROW_NAME.fullmatch(name) or name in _PLACES_STAND for name in errors):
        try:
            BY_NAME["building"].answer(replace(found, parts=["layout"]))
        except PlanRefused as refusal:
            for name, texts in refused(found.units, refusal, place_of).items():
                errors.setdefault(_renumbered(name, kept), texts)
    return Question(None, errors)


def _renumbered(name: str, kept: Mapping[str, list[int]]) -> str:
    """An input's name with the number that its row has on the form, where rows before it were left aside."""
    found = _ROW_NAME.fullmatch(name)
    if not found:
        return name
    numbers = kept[f"{found[1]}.{found[2]}"]
    place = int(found[3]) - 1
    number = numbers[place] if place < len(numbers) else found[3]
    return f"{found[1]}.{found[2]}{number}.{found[4]}"


def laid(
    document: dict[str, Any], fields: Iterable[Field], values: Mapping[str, str], names: Mapping[str, str] | None = None
) -> Errors:
    """Lay the fields' values into a request; what is wrong with their writing, by input (``names`` where it differs)."""
    errors: Errors = {}
    for field in fields:
        name = names[field.name] if names else field.name
        text = values.get(field.name, "").strip()
        if not text:
            if field.required:
                errors[name] = [f"{field.label} is missing; it is required."]
            continue
        fault = _fault(field, text)
        if fault:
            errors[name] = [fault]
            continue
        place = document
        for step in field.path[:-1]:
            place = place.setdefault(step, {})
        place[field.path[-1]] = _value(field, text)
    return errors


def converted(document: dict[str, Any], kind: type, place: Callable[[str], str]) -> tuple[Any, Errors]:
    """The request in a document, and what breaks the schema told at its fields; such parts are left out of the request."""
    errors: Errors = {}
    while True:
        try:
            return msgspec.convert(document, kind, dec_hook=read_length), errors
        except msgspec.ValidationError as error:
            pointer, part, text = _said(str(error))
            errors.setdefault(place(pointer), []).append(text)
            if not _left_out(document, part):
                return None, errors


def _said(text: str) -> tuple[str, list[str], str]:
    """Where a breach of the schema is, what to leave out for it, and what to say."""
    found = _PLACE.search(text)
    steps = [step for step in re.split(r"[.\[\]]+", found[1] if found else "") if step]
    what = _PLACE.sub("", text)
    missing = _MISSING.match(what)
    if missing:
        word = missing[1].replace("_", " ")
        return (
            "/" + "/".join([*steps, missing[1]]),
            steps,
            f"{word.capitalize()} is missing; what stands beside it needs it.",
        )
    wanted = re.sub(r"Expected `(?:float|int)`", "A number", what).replace("`", "")
    return "/" + "/".join(steps), steps, f"{wanted} is wanted."


def _left_out(document: Any, steps: list[str]) -> bool:
    """Take a part out of a document; False where there is none to take out."""
    for step in steps[:-1]:
        document = document[int(step)] if isinstance(document, list) else document.get(step, {})
    if not steps or not isinstance(document, dict) or steps[-1] not in document:
        return False
    del document[steps[-1]]
    return True


def _value(field: Field, text: str) -> Any:
    """A field's text as it stands in a request."""
    if field.kind == "words":
        return text.split()
    if field.kind == "packs":
        found = [_PACK.fullmatch(part.strip()) for part in text.split(",")]
        return [{"fastener": pack[1], "count": int(pack[2])} for pack in found if pack]
    if field.kind == "flag":
        return text == "yes"
    if field.kind == "count":
        return int(text)
    return float(text) if field.kind == "number" else text


def _fault(field: Field, text: str) -> str:
    """Why a text does not fit its field, or an empty text."""
    try:
        if field.kind in _LENGTHS:
            read_length(_LENGTHS[field.kind], text)
        elif field.kind == "stock":
            msgspec.convert(text, StockName)
        elif field.kind == "name":
            msgspec.convert(text, Name)
        elif field.kind == "number":
            if not _NUMBER.fullmatch(text):
                return f"{text[:40]} is given; give a plain number such as 4 or 2.5."
        elif field.kind == "packs":
            if not all(_PACK.fullmatch(part.strip()) for part in text.split(",")):
                return f"{text[:40]} is given; give a name and a count each, such as 16d common 350, 8d common 530."
        elif field.kind == "count":
            if not re.fullmatch(r"[0-9]{1,6}", text):
                return f"{text[:40]} is given; give a whole number such as 2."
        elif text not in dict(field.words):
            return f"{text[:40]} is given; choose one of the words offered."
    except msgspec.ValidationError:
        return f"{text[:40]} is given; give {_NAMES.get(field.kind, _STOCK_HINT)}."
    except ValueError as error:
        return f"{error}."
    return ""


def refused(units: Units, refusal: PlanRefused, place: Callable[[str], str]) -> Errors:
    """A plan's faults, each at the field that it points to."""
    errors: Errors = {}
    converter = CONVERTERS[units]
    for fault in refusal.faults:
        item = converter.fault(fault)
        found = errors.setdefault(place(item.pointer), [])
        if item.detail not in found:
            found.append(item.detail)
    return errors


def place_of(pointer: str) -> str:
    """The building's input that a pointer into the request speaks of, or `GENERAL`."""
    found = _ROW_POINTER.fullmatch(pointer)
    if found:
        kind = next(kind for kind in ROWS if kind.key == found[2])
        usual = next(field for field in kind.fields if field.name in ("left", "at"))
        named = next((field for field in kind.fields if field.path[0] == found[4]), usual)
        return input_name(found[1], int(found[3]) + 1, named, kind)
    # A field of the building that is faulty in one wall is told at the building's field.
    return place_in(PLAIN, re.sub(r"^/walls/(?:front|right|back|left)(?=/)", "", pointer))


def place_in(fields: Iterable[Field], pointer: str) -> str:
    """The field of some that a pointer speaks of: its own, else the one nearest to its place, else `GENERAL`."""
    fields = tuple(fields)
    steps = pointer.split("/")[1:]
    for length in range(len(steps), 0, -1):
        for field in fields:
            if list(field.path[:length]) == steps[:length]:
                return field.name
    return GENERAL
