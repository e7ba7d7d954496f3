"""From the form's texts to the request, with every fault told at its field."""

import re
from typing import Any, Final

import msgspec

from wallwright.findings import PlanRefused
from wallwright.operations.converters import CONVERTERS
from wallwright.wire.base import Extent, Length, Name, read_length
from wallwright.wire.building import Building
from wallwright.wire.wall import StockName
from wallwright_viewer.fields import OPENING, PLAIN, SIDES, Field, input_name
from wallwright_viewer.form import Form

GENERAL: Final = ""
"""Where a fault stands that belongs to no one field."""
_OPENING_POINTER: Final = re.compile(r"/walls/(front|right|back|left)/openings/([0-9]+)(?:/([a-z_]+))?.*")
_NUMBER: Final = re.compile(r"[0-9]{1,6}(?:\.[0-9]{1,6})?")
_NAMES: Final = {"name": "a name of at most 80 characters, without control characters"}
_STOCK_HINT: Final = "a section such as 2x4, 38x89 or 1-1/2x3-1/2"

Errors = dict[str, list[str]]
"""What is wrong, by the name of the input."""


class Question(msgspec.Struct):
    """The request in a form, or what is wrong with it."""

    request: Building | None
    errors: Errors


def asked(form: Form) -> Question:
    """The request that a filled form stands for."""
    errors: Errors = {}
    document: dict[str, Any] = {"units": form.units, "roof": {"shape": "flat"}, "walls": {}}
    for field in PLAIN:
        _put(document, field, field.name, form.values.get(field.name, ""), errors)
    for side in SIDES:
        openings: list[dict[str, Any]] = []
        for number, row in enumerate(form.openings[side], 1):
            opening: dict[str, Any] = {}
            for field in OPENING:
                _put(opening, field, input_name(side, number, field), row.get(field.name, ""), errors)
            openings.append(opening)
        if openings:
            document["walls"][side] = {"openings": openings}
    if errors:
        return Question(None, errors)
    try:
        return Question(msgspec.convert(document, Building, dec_hook=read_length), {})
    except msgspec.ValidationError as error:
        return Question(None, _out_of_range(str(error)))


def _out_of_range(said: str) -> Errors:
    """What the schema says of a number past its bounds, at the number's field."""
    what, _, place = said.partition(" - at `$.")
    name = place_of("/" + place.rstrip("`").replace(".", "/")) if place else GENERAL
    return {name: [f"{what.replace('Expected `float`', 'A number').replace('`', '')} is wanted."]}


def _put(document: dict[str, Any], field: Field, name: str, text: str, errors: Errors) -> None:
    """Lay a field's value into the request, or say what is wrong with it."""
    text = text.strip()
    if not text:
        if field.required:
            errors[name] = [f"{field.label} is missing; it is required."]
        return
    fault = _fault(field, text)
    if fault:
        errors[name] = [fault]
        return
    for step in field.path[:-1]:
        document = document.setdefault(step, {})
    document[field.path[-1]] = _value(field, text)


def _value(field: Field, text: str) -> Any:
    """A field's text as it stands in a request."""
    if field.kind == "words":
        return text.split()
    return float(text) if field.kind == "number" else text


def _fault(field: Field, text: str) -> str:
    """Why a text does not fit its field, or an empty text."""
    try:
        if field.kind in ("length", "extent"):
            read_length(Length if field.kind == "length" else Extent, text)
        elif field.kind == "stock":
            msgspec.convert(text, StockName)
        elif field.kind == "name":
            msgspec.convert(text, Name)
        elif field.kind == "number":
            if not _NUMBER.fullmatch(text):
                return f"{text[:40]} is given; give a plain number such as 4 or 2.5."
        elif text not in dict(field.words):
            return f"{text[:40]} is given; choose one of the words offered."
    except msgspec.ValidationError:
        return f"{text[:40]} is given; give {_NAMES.get(field.kind, _STOCK_HINT)}."
    except ValueError as error:
        return f"{error}."
    return ""


def refused(request: Building, refusal: PlanRefused) -> Errors:
    """A plan's faults, each at the field that it points to."""
    errors: Errors = {}
    converter = CONVERTERS[request.units]
    for fault in refusal.faults:
        item = converter.fault(fault)
        found = errors.setdefault(place_of(item.pointer), [])
        if item.detail not in found:
            found.append(item.detail)
    return errors


def place_of(pointer: str) -> str:
    """The input that a pointer into the request speaks of, or `GENERAL`."""
    found = _OPENING_POINTER.fullmatch(pointer)
    if found:
        named = next((field for field in OPENING if field.path[0] == found[3]), OPENING[1])
        return input_name(found[1], int(found[2]) + 1, named)
    # A field of the building that is faulty in one wall is told at the building's field.
    shared = re.sub(r"^/walls/(?:front|right|back|left)(?=/)", "", pointer)
    for field in PLAIN:
        if shared == "/" + "/".join(field.path):
            return field.name
    return next((field.name for field in PLAIN if shared == f"/{field.path[0]}"), GENERAL)
