"""The form's fields as one table: what each is called, what it takes, and where it stands in a request."""

from typing import Final, Literal

import msgspec

Kind = Literal["length", "extent", "name", "stock", "word", "words"]


class Field(msgspec.Struct, frozen=True):
    """One field of the form.

    ``path`` is its place in the request (for an opening: within the opening). ``words`` are the values of
    a choice with their texts; an empty value leaves the field to the service.
    """

    name: str
    label: str
    kind: Kind
    path: tuple[str, ...]
    required: bool = False
    hint: str = ""
    words: tuple[tuple[str, str], ...] = ()


class Group(msgspec.Struct, frozen=True):
    """Fields that stand together on the form."""

    title: str
    fields: tuple[Field, ...]


UNITS: Final = (("in", "feet and inches"), ("mm", "millimetres"))

GROUPS: Final = (
    Group(
        "Size",
        (
            Field("name", "Name", "name", ("name",)),
            Field("width", "Width of the front", "length", ("footprint", "width"), True),
            Field("depth", "Depth of the sides", "length", ("footprint", "depth"), True),
            Field("measured_to", "Measured over", "word", ("footprint", "measured_to"),
                  words=(("", "the framing, unless said"), ("framing", "the framing"), ("sheathing", "the sheathing"))),
            Field("wall_height", "Wall height, plates included", "length", ("wall_height",), True),
        ),
    ),
    Group(
        "Floor and roof",
        (
            Field("floor", "Floor", "word", ("floor", "kind"),
                  words=(("", "not known"), ("deck", "framed deck"), ("slab", "slab"))),
            Field("rim", "Depth of the rim", "extent", ("floor", "rim"), hint="deck only"),
            Field("panel", "Thickness of the floor panel", "extent", ("floor", "panel"), hint="deck only"),
            Field("spans", "Joists of the flat roof run along", "word", ("roof", "spans"),
                  words=(("", "the shorter side"), ("width", "the width"), ("depth", "the depth"))),
        ),
    ),
    Group(
        "Timber",
        (
            Field("stud", "Stud", "stock", ("stud",), hint="2x4, 38x89 or 1-1/2x3-1/2; empty is 2x4"),
            Field("spacing", "On-centre spacing", "length", ("spacing",), hint="empty is 16 in"),
            Field("through", "Through walls", "words", ("through_walls",),
                  words=(("", "front and back, unless said"), ("front back", "front and back"),
                         ("right left", "right and left"))),
            Field("slip_gap", "Slip gap", "extent", ("slip_gap",), hint="at each end of a butt wall; empty is 0"),
        ),
    ),
    Group(
        "Sheets",
        (
            Field("sheet_width", "Width", "length", ("sheathing", "sheet", "width"), hint="empty is 48 in"),
            Field("sheet_length", "Length", "length", ("sheathing", "sheet", "length"), hint="empty is 96 in"),
            Field("thickness", "Thickness", "length", ("sheathing", "sheet", "thickness"), hint="empty is 7/16 in"),
            Field("sheet_kind", "Kind", "word", ("sheathing", "sheet", "kind"),
                  words=(("", "OSB, unless said"), ("osb", "OSB"), ("plywood", "plywood"), ("siding", "panel siding"))),
            Field("gap", "Gap between sheets", "extent", ("sheathing", "gap"), hint="empty is 1/8 in"),
        ),
    ),
)  # fmt: skip

SIDES: Final = ("front", "right", "back", "left")

OPENING: Final = (
    Field("name", "Name", "name", ("name",)),
    Field("left", "Left", "extent", ("left",), True),
    Field("width", "Width", "length", ("width",), True),
    Field("height", "Height", "length", ("height",), True),
    Field("sill", "Sill", "extent", ("sill",), hint="empty or 0 is a door"),
    Field("header", "Header", "stock", ("header", "stock"), hint="such as 2x6; may be empty"),
)

PLAIN: Final = tuple(field for group in GROUPS for field in group.fields)
"""Every field that is not one of an opening's."""


def input_name(side: str, row: int, field: Field) -> str:
    """The name of an opening's input, which is also how a fault finds it."""
    return f"{side}.{row}.{field.name}"
