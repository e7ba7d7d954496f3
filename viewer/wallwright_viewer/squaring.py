"""The squaring page: what was measured of a frame or a deck, filled in, and what the measurements say."""

from collections.abc import Mapping
from typing import Any, Final, Literal
from urllib.parse import parse_qsl, urlencode

import msgspec

from wallwright.findings import PlanRefused
from wallwright.operations.examples import EXAMPLES
from wallwright.operations.table import BY_NAME
from wallwright.wire.answers import Finding
from wallwright.wire.base import Units, encode_length
from wallwright.wire.squaring import DeckAnswer, FrameAnswer
from wallwright_viewer.drawn import Drawing, Packer, drawing, ordered, tape_of
from wallwright_viewer.fields import Field, Group
from wallwright_viewer.question import Errors, converted, laid, place_in, refused

Of = Literal["frame", "deck"]
_MOST_INPUTS: Final = 200
_ENCODER: Final = msgspec.json.Encoder(enc_hook=encode_length)
_CLASSES: Final = (("", "II, unless said"), ("I", "I"), ("II", "II"), ("III", "III"))
_CORNERS: Final = (
    ("", "none laid"),
    *((word, word.replace("-", " ")) for word in ("bottom-left", "bottom-right", "top-right", "top-left")),
)


def _tape(of: Of) -> Group:
    return Group(
        "The tape",
        (
            Field(f"{of}_class", "Class printed on it", "word", ("tape_class",), words=_CLASSES),
            Field(f"{of}_hooked", "Hooked at its end", "flag", ("hooked",),
                  words=(("", "yes, unless said"), ("yes", "yes"), ("no", "no, held at a mark"))),
            Field(f"{of}_reading", "Read to the nearest, either way", "extent", ("reading",), hint="empty is 1/32 in"),
        ),
        folded=True,
        about="What the tape is good for decides whether a difference means anything.",
    )  # fmt: skip


FRAME: Final = (
    Group(
        "A frame as it lies, seen from outside",
        (
            Field("frame_name", "Name", "name", ("name",)),
            Field("frame_width", "Bottom plate", "length", ("width",), True),
            Field("frame_height", "Left side, over the plates", "length", ("height",), True),
            Field("frame_rising", "Diagonal, bottom left to top right", "length", ("rising",), True),
            Field("frame_falling", "Diagonal, top left to bottom right", "length", ("falling",), True),
            Field("frame_top", "Top plate", "length", ("top",), hint="with the right side, or neither"),
            Field("frame_right", "Right side", "length", ("right",), hint="with the top plate, or neither"),
            Field("frame_tolerance", "Difference that is let pass", "length", ("tolerance",),
                  hint="of the diagonals; empty is the published one"),
        ),
    ),
    Group(
        "A sheet in its corner, and the standing wall",
        (
            Field("sheet_corner", "Sheet's corner laid in the frame's", "word", ("sheet", "corner"), words=_CORNERS),
            Field("sheet_along", "Read how far along the sheet", "length", ("sheet", "along")),
            Field("sheet_off", "Frame off the sheet's edge there", "offset", ("sheet", "off"),
                  hint="below 0 where the sheet is proud"),
            Field("plumb_offset", "Out of plumb", "offset", ("plumb", "offset"),
                  hint="above 0 where the wall leans out, away from the brace's side"),
            Field("plumb_over", "Read over a height of", "length", ("plumb", "over")),
            Field("brace_up", "Brace fixed how far up", "length", ("plumb", "brace", "up")),
            Field("brace_out", "Brace's foot from the wall", "length", ("plumb", "brace", "out")),
        ),
        folded=True,
        about="A second opinion on the corner by a sheet's factory edges, and how far the brace moves to plumb the wall.",
    ),
    _tape("frame"),
)  # fmt: skip

DECK: Final = (
    Group(
        "A deck or slab, seen from above with the front at the foot",
        (
            Field("deck_name", "Name", "name", ("name",)),
            *(Field(f"deck_{side}", f"{side.capitalize()} side", "length", ("sides", side), True)
              for side in ("front", "right", "back", "left")),
            Field("deck_rising", "Diagonal, front left to back right", "length",
                  ("diagonals", "front_left_to_back_right"), True),
            Field("deck_falling", "Diagonal, front right to back left", "length",
                  ("diagonals", "front_right_to_back_left"), True),
            Field("wanted_width", "Width wanted", "length", ("wanted", "width"), hint="over the framing; may be empty"),
            Field("wanted_depth", "Depth wanted", "length", ("wanted", "depth")),
        ),
    ),
    Group(
        "Heights of its corners",
        tuple(
            Field(f"deck_{corner}_level", corner.replace("_", " ").capitalize(), "offset", ("levels", corner))
            for corner in ("front_left", "front_right", "back_right", "back_left")
        ),
        folded=True,
        about="All four or none, against any one level; below it they are less than 0.",
    ),
    _tape("deck"),
)  # fmt: skip

GROUPS: Final[dict[Of, tuple[Group, ...]]] = {"frame": FRAME, "deck": DECK}


def fields_of(of: Of) -> tuple[Field, ...]:
    """Every field of one of the two forms."""
    return tuple(field for group in GROUPS[of] for field in group.fields)


class Half(msgspec.Struct):
    """One of the two forms: what stands in it, what is wrong with it, and its answer where it was sent."""

    of: Of
    units: Units
    values: dict[str, str]
    errors: Errors = {}
    answer: FrameAnswer | DeckAnswer | None = None
    drawing: Drawing | None = None
    findings: list[Finding] = []

    @property
    def link(self) -> str:
        """The form as a query string."""
        pairs = {"of": self.of, "units": self.units, **{name: value for name, value in self.values.items() if value}}
        return urlencode(pairs)


def example(of: Of) -> Half:
    """The worked example, filled in."""
    asked = EXAMPLES[f"squaring-{of}"]
    return Half(of, asked["units"], {field.name: _text(asked, field) for field in fields_of(of)})


def _text(document: Any, field: Field) -> str:
    for step in field.path:
        document = document.get(step, {})
    return "" if document == {} else str(document)


def read(query: bytes) -> Half | None:
    """The form in a link's query; None where it names neither. Raises ValueError past 200 inputs."""
    known = dict(
        parse_qsl(query.decode("utf-8", "replace"), keep_blank_values=True, max_num_fields=_MOST_INPUTS)
    )  # fmt: skip
    of: Of | None = {"frame": "frame", "deck": "deck"}.get(known.get("of", ""))  # type: ignore[assignment]
    if of is None:
        return None
    units: Units = "mm" if known.get("units") == "mm" else "in"
    return Half(of, units, {field.name: known.get(field.name, "") for field in fields_of(of)})


def answered(half: Half, packed: Packer) -> Half:
    """The form with its answer, or with what is wrong beside each field."""
    fields = fields_of(half.of)
    document: dict[str, Any] = {"units": half.units}
    half.errors = laid(document, fields, half.values)
    if half.errors:
        return half
    operation = BY_NAME[f"squaring-{half.of}"]

    def place(pointer: str) -> str:
        return place_in(fields, pointer)

    request, half.errors = converted(document, operation.request, place)
    if half.errors:
        return half
    try:
        half.answer = operation.answer(request)
    except PlanRefused as refusal:
        half.errors = refused(half.units, refusal, place)
        return half
    body = _ENCODER.encode(getattr(half.answer, half.of))
    title = f"Squaring of {half.values[f'{half.of}_name'] or 'the ' + half.of}"
    half.drawing = drawing(operation.name, half.of, title, operation.drawing(request), body, packed)
    half.findings = ordered(half.answer.findings)
    return half


def labels(of: Of) -> Mapping[str, str]:
    """What each input is called, for the list of what is wrong."""
    return {field.name: field.label for field in fields_of(of)}


def proud(number: float, units: Units) -> str:
    """How far something lies past a line (above 0) or short of it."""
    tape = tape_of(abs(number), units)
    if tape in ('0"', "0 mm"):
        return "on the line"
    return f"{tape} {'past it' if number > 0 else 'short of it'}"
