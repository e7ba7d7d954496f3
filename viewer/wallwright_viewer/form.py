"""What the form holds, read from a link and written back to one. Everything is text, kept as it was typed."""

import re
from typing import Any, Final
from urllib.parse import parse_qsl, urlencode

import msgspec

from wallwright.operations.converters import CONVERTERS
from wallwright.wire.base import Extent, Given, Length, Offset, Units, read_length
from wallwright_viewer.fields import OPENINGS, PARTITIONS, PLAIN, ROWS, SIDES, Field, Rows, input_name
from wallwright_viewer.worked import WORKED

Row = dict[str, str]
_MOST_INPUTS: Final = 1_000
_ROW: Final = re.compile(r"(front|right|back|left)\.(p?)([0-9]{1,3})\.([a-z]+)")
_ACTION: Final = re.compile(r"(add|remove)-(front|right|back|left)(-partition)?(?:-([0-9]{1,3}))?")
_KINDS: Final[dict[str, type]] = {"length": Length, "extent": Extent, "offset": Offset}


class Form(msgspec.Struct):
    """The form's values. ``was`` is the units that its bare numbers were typed in.

    While it is being edited (an opening was just added, say) it is shown again and not yet answered.
    """

    units: Units
    was: Units
    values: dict[str, str]
    openings: dict[str, list[Row]]
    partitions: dict[str, list[Row]]
    action: str = ""
    editing: bool = False
    read_as: str = ""
    """The units in which bare numbers were read just now, where these were then changed."""

    @property
    def changes(self) -> bool:
        """Whether this asks for another form rather than for an answer."""
        return bool(self.action) or self.units != self.was

    def rows(self, kind: Rows) -> dict[str, list[Row]]:
        """The rows of a kind, by side."""
        return self.openings if kind is OPENINGS else self.partitions


def example(name: str = "pump-house") -> Form:
    """A worked example, filled in."""
    _, building = WORKED[name]
    values = {field.name: _text(building, field) for field in PLAIN}
    rows = {
        kind.key: {
            side: [
                {field.name: _text(row, field) for field in kind.fields}
                for row in building["walls"].get(side, {}).get(kind.key, [])
            ]
            for side in SIDES
        }
        for kind in ROWS
    }
    return Form(building["units"], building["units"], values, rows["openings"], rows["partitions"])


def _text(document: Any, field: Field) -> str:
    """A request's value as it would be typed."""
    for step in field.path:
        document = document.get(step, {})
    if document == {}:
        return ""
    if field.kind == "packs":
        return ", ".join(f"{pack['fastener']} {pack['count']}" for pack in document)
    return " ".join(document) if isinstance(document, list) else str(document)


def read(query: bytes) -> Form:
    """The form in a link's query. What is not of the form is passed over. Raises ValueError past 1,000 inputs."""
    pairs = parse_qsl(query.decode("utf-8", "replace"), keep_blank_values=True, max_num_fields=_MOST_INPUTS)
    known = dict(pairs)
    units: Units = "mm" if known.get("units") == "mm" else "in"
    was: Units = units
    if known.get("was") in ("in", "mm"):
        was = "mm" if known["was"] == "mm" else "in"
    return Form(
        units,
        was,
        {field.name: known.get(field.name, "") for field in PLAIN},
        _rows(pairs, OPENINGS),
        _rows(pairs, PARTITIONS),
        known.get("do", ""),
        "edit" in known,
        known.get("read", "") if known.get("read") in ("in", "mm") else "",
    )


def _rows(pairs: list[tuple[str, str]], kind: Rows) -> dict[str, list[Row]]:
    """The rows of one kind, by side, in the order of their numbers."""
    names = {field.name for field in kind.fields}
    rows: dict[str, dict[int, Row]] = {side: {} for side in SIDES}
    for name, value in pairs:
        found = _ROW.fullmatch(name)
        if found and found[2] == kind.mark and found[4] in names:
            rows[found[1]].setdefault(int(found[3]), {})[found[4]] = value
    return {side: [rows[side][number] for number in sorted(rows[side])][: kind.most] for side in SIDES}


def changed(form: Form) -> Form:
    """The form with its action done: a row added or removed, the units changed and the lengths with them."""
    all_rows = {
        kind.key: {side: [dict(row) for row in rows] for side, rows in form.rows(kind).items()} for kind in ROWS
    }
    found = _ACTION.fullmatch(form.action)
    if found:
        kind = PARTITIONS if found[3] else OPENINGS
        rows = all_rows[kind.key][found[2]]
        number = int(found[4] or 0)
        if found[1] == "add" and len(rows) < kind.most:
            rows.append({})
        elif found[1] == "remove" and 1 <= number <= len(rows):
            del rows[number - 1]
    values = {field.name: _in_units(form, field, form.values.get(field.name, "")) for field in PLAIN}
    for kind in ROWS:
        for side, rows in all_rows[kind.key].items():
            all_rows[kind.key][side] = [
                {field.name: _in_units(form, field, row.get(field.name, "")) for field in kind.fields} for row in rows
            ]
    return Form(form.units, form.units, values, all_rows["openings"], all_rows["partitions"])


def _in_units(form: Form, field: Field, text: str) -> str:
    """A length written in the form's units where it was in others; anything else as it stands."""
    kind = _KINDS.get(field.kind)
    if form.units == form.was or kind is None or not text.strip():
        return text
    try:
        given: Given = read_length(kind, text)
    except ValueError:
        return text
    assert given.measure is not None  # noqa: S101 - a length that was read has its measure
    length = given.measure.on_grid(form.was)
    converter = CONVERTERS[form.units]
    shown = converter.tape(length)
    # What the tape cannot show is written as a number, so that nothing is lost by changing units.
    exact: Given = read_length(kind, shown)
    if exact.measure is not None and exact.measure.on_grid(form.units) == length:
        return shown
    return f"{converter.number(length):.7f}".rstrip("0").rstrip(".") + f" {form.units}"


def link(form: Form) -> str:
    """The form as a query string; empty fields are left out, an empty row keeps its place."""
    pairs: list[tuple[str, str]] = [("units", form.units)]
    pairs += [(name, value) for name, value in form.values.items() if value]
    for kind in ROWS:
        for side in SIDES:
            for number, row in enumerate(form.rows(kind)[side], 1):
                filled = [(field, row[field.name]) for field in kind.fields if row.get(field.name)]
                filled = filled or [(kind.fields[0], "")]
                pairs += [(input_name(side, number, field, kind), value) for field, value in filled]
    return urlencode(pairs)


def edit_link(form: Form) -> str:
    """The same, to be shown as a form again."""
    return f"{link(form)}&edit=1"
