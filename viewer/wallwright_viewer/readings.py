"""Lengths that read well and may mean something else: told beside their fields as they were read, and left as they are."""

import re
from collections.abc import Iterator
from typing import Final

from wallwright.operations.converters import CONVERTERS
from wallwright.wire.base import Extent, Given, Length, Offset, Units, read_length
from wallwright_viewer.fields import PLAIN, ROWS, SIDES, Field, input_name
from wallwright_viewer.form import Form

_KINDS: Final[dict[str, type]] = {"length": Length, "extent": Extent, "offset": Offset}
_BARE: Final = re.compile(r"[0-9]+(?:\.([0-9]+))?")
_FEET_AND: Final = re.compile(r"(?:'|\u2019|\u2032|ft)[ -]*([0-9]+(?:\.[0-9]+)?)")
_SMALL: Final = {"in": 60, "mm": 600}
"""A building's size below this was hardly meant in the document's units."""


def readings(form: Form) -> dict[str, str]:
    """What is to be looked at again, by the name of the input; texts that are no lengths have none."""
    found = {}
    for name, field, text in _lengths(form):
        told = reading(field, text.strip(), form.units)
        if told:
            found[name] = told
    return found


def _lengths(form: Form) -> Iterator[tuple[str, Field, str]]:
    for field in PLAIN:
        yield field.name, field, form.values.get(field.name, "")
    for kind in ROWS:
        for side in SIDES:
            for number, row in enumerate(form.rows(kind)[side], 1):
                for field in kind.fields:
                    yield input_name(side, number, field, kind), field, row.get(field.name, "")


def reading(field: Field, text: str, units: Units) -> str:
    """How one text was read where that may surprise; else an empty text."""
    kind = _KINDS.get(field.kind)
    if kind is None or not text:
        return ""
    try:
        given: Given = read_length(kind, text)
    except ValueError:
        return ""
    assert given.measure is not None  # noqa: S101 - a length that was read has its measure
    tape = CONVERTERS[units].tape(given.measure.on_grid(units))
    bare = _BARE.fullmatch(text)
    if bare and (bare[1] or (field.required and float(text) < _SMALL[units] and field in PLAIN)):
        word, other = ("inches", f"{text}'") if units == "in" else ("millimetres", f"{text} m")
        return f"{text} was read in {word}: {tape}. Write {other} for {'feet' if units == 'in' else 'metres'}."
    beyond = _FEET_AND.search(text)
    if beyond and float(beyond[1]) >= 12:
        return f"{beyond[1]} inches are a foot or more; {text} was read as {tape}."
    return ""
