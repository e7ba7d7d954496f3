"""The form's fields as one table: what each is called, what it takes, and where it stands in a request."""

from collections.abc import Mapping
from typing import Final, Literal

import msgspec

from wallwright.wire.limits import OPENINGS_MAX, PARTITIONS_MAX

Kind = Literal["length", "extent", "offset", "name", "stock", "word", "words", "number", "count", "flag", "packs"]
"""What a field takes. A flag's words are `yes` and `no`; a count is a whole number; packs are names with counts."""


class Field(msgspec.Struct, frozen=True):
    """One field of the form.

    ``path`` is its place in the request (for an opening or a partition: within that). ``words`` are the values of
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
    """Fields that stand together on the form; those that few need are folded away, under what they are ``about``."""

    title: str
    fields: tuple[Field, ...]
    folded: bool = False
    about: str = ""


class Rows(msgspec.Struct, frozen=True):
    """What each wall can have several of: added and removed on the form, each row under a number."""

    key: str
    word: str
    fields: tuple[Field, ...]
    most: int
    mark: str = ""
    """Stands before the row's number in an input's name."""


def _nails(*names: str) -> tuple[tuple[str, str], ...]:
    return (("", "as the schedule says"), *((name, name) for name in names))


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
        "Floor",
        (
            Field("floor", "Floor", "word", ("floor", "kind"),
                  words=(("", "not known"), ("deck", "framed deck"), ("slab", "slab"))),
            Field("rim", "Depth of the rim", "extent", ("floor", "rim"), hint="deck only"),
            Field("panel", "Thickness of the floor panel", "extent", ("floor", "panel"), hint="deck only"),
        ),
    ),
    Group(
        "Roof",
        (
            Field("roof", "Shape", "word", ("roof", "shape"),
                  words=(("", "flat, unless said"), ("flat", "flat"), ("lean-to", "lean-to"), ("gable", "gable"))),
            Field("rise", "Rise in 12", "number", ("roof", "rise"), hint="lean-to or gable, such as 4"),
            Field("high_side", "High wall of a lean-to", "word", ("roof", "high_side"),
                  words=(("", "the front, unless said"), ("front", "the front"), ("right", "the right"),
                         ("back", "the back"), ("left", "the left"))),
            Field("ridge_along", "Ridge of a gable runs along", "word", ("roof", "ridge_along"),
                  words=(("", "the longer side"), ("width", "the width"), ("depth", "the depth"))),
            Field("ridge", "Ridge held by", "word", ("roof", "ridge"),
                  words=(("", "ties, unless said"), ("ties", "ties"), ("beam", "a beam on the gables"))),
            Field("spans", "Joists of a flat roof run along", "word", ("roof", "spans"),
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
            Field("stock_length", "Longest plate to be had", "length", ("plates", "stock_length"),
                  hint="empty is as long as the wall"),
            Field("lining", "Lined inside with boards", "flag", ("lining",),
                  words=(("", "no, unless said"), ("yes", "yes, with backing in the corners"), ("no", "no"))),
            Field("slip_gap", "Slip gap", "extent", ("slip_gap",), hint="at each end of a butt wall; empty is 0"),
        ),
        folded=True,
        about="What the walls are framed of, and how they stand against one another.",
    ),
    Group(
        "Sheets",
        (
            Field("sheet_width", "Width", "length", ("sheathing", "sheet", "width"), hint="empty is 48 in"),
            Field("sheet_length", "Length", "length", ("sheathing", "sheet", "length"), hint="empty is 96 in; 108, 120, 2400 mm and others serve"),
            Field("thickness", "Thickness", "length", ("sheathing", "sheet", "thickness"), hint="empty is 7/16 in"),
            Field("sheet_kind", "Kind", "word", ("sheathing", "sheet", "kind"),
                  words=(("", "OSB, unless said"), ("osb", "OSB"), ("plywood", "plywood"), ("siding", "panel siding"))),
            Field("direction", "They stand", "word", ("sheathing", "direction"),
                  words=(("", "upright, unless said"), ("upright", "upright"), ("lying", "lying, in courses"))),
            Field("gap", "Gap between sheets", "extent", ("sheathing", "gap"), hint="empty is 1/8 in"),
            Field("under_sheet", "Hang below the plate", "extent", ("sheathing", "under_sheet"),
                  hint="empty is over rim and panel of a deck"),
            Field("sheets_start", "First sheet at", "word", ("sheathing", "start"),
                  words=(("", "the tape's end, unless said"), ("left", "the left end"), ("right", "the right end"))),
            Field("round_openings", "At openings", "word", ("sheathing", "openings"),
                  words=(("", "cut out, unless said"), ("cut-out", "cut out of the sheets"),
                         ("pieced", "pieced round, in rectangles"))),
            Field("reuse_offcuts", "Cut pieces from offcuts", "flag", ("sheathing", "reuse_offcuts"),
                  words=(("", "no, unless said"), ("yes", "yes, within each wall"), ("no", "no"))),
            Field("grain", "Grain of such pieces", "word", ("sheathing", "grain"),
                  words=(("", "kept, unless said"), ("kept", "kept"), ("free", "free, pieces may be turned"))),
            Field("sized_for_spacing", "Made the gap smaller", "flag", ("sheathing", "sheet", "sized_for_spacing"),
                  words=(("", "no, unless said"), ("yes", "yes, sized for spacing"), ("no", "no, full size"))),
            Field("sheet_edge", "Long edges", "word", ("sheathing", "sheet", "edge"),
                  words=(("", "square, unless said"), ("square", "square"), ("shiplap", "shiplap"))),
            Field("sheet_lap", "Shiplap's lap", "length", ("sheathing", "sheet", "lap")),
        ),
        folded=True,
        about="What the walls are skinned with.",
    ),
    Group(
        "Hands and fasteners",
        (
            Field("hands", "Hands to raise a wall", "count", ("hands",), hint="people; empty is 2"),
            Field("fastening", "Fastened with", "word", ("fastening", "schedule"),
                  words=(("", "nails, unless said"), ("nailed", "nails"), ("screwed", "screws"))),
            Field("framing_nail", "Nail of the framing", "word", ("fastening", "framing_nail"),
                  words=_nails("16d common", "16d box", "10d box", "3 x 0.131")),
            Field("toe_nail", "Nail driven at a slant", "word", ("fastening", "toe_nail"),
                  words=_nails("8d common", "8d box", "10d box", "16d box", "3 x 0.131")),
            Field("sheathing_nail", "Nail of the sheets", "word", ("fastening", "sheathing_nail"),
                  words=_nails("6d common", "8d common", "10d common", "8d box", "2 x 0.113", "2-3/8 x 0.113", "2-1/2 x 0.131")),
            Field("coating", "Coating", "word", ("fastening", "coating"),
                  words=(("", "plain, unless said"), ("plain", "plain"), ("hot-dip", "hot-dip"), ("stainless", "stainless")),
                  hint="into treated timber they are coated in any case"),
            Field("spare_percent", "Spare, per cent", "number", ("fastening", "spare_percent"), hint="bought beyond what is counted"),
            Field("packs", "Packs to be had", "packs", ("fastening", "packs"),
                  hint="name and count, such as 16d common 350, 8d common 530"),
        ),
        folded=True,
        about="Who lifts, and what holds it together.",
    ),
    Group(
        "The place",
        (
            Field("snow", "Ground snow load, psf", "number", ("site", "ground_snow_psf")),
            Field("wind", "Design wind speed, mph", "number", ("site", "wind_mph")),
            Field("exposure", "Exposure to wind", "word", ("site", "exposure"),
                  words=(("", "not given"), ("B", "B, among buildings or trees"), ("C", "C, open land"),
                         ("D", "D, by open water"))),
            Field("seismic", "Seismic design category", "word", ("site", "seismic"),
                  words=(("", "not given"), *((word, word) for word in ("A", "B", "C", "D0", "D1", "D2", "E")))),
            Field("rules", "Edition of the published figures", "word", ("rules",),
                  words=(("", "irc-2021, unless said"),
                         *((f"irc-{year}", f"irc-{year}") for year in (2015, 2018, 2021, 2024)))),
        ),
        folded=True,
        about="What the local authority gives. With it, headers, studs and bracing are compared with published tables; "
        "without it nothing is sized.",
    ),
    Group(
        "The deck or slab as measured",
        (
            *(Field(f"deck_{side}", f"{side.capitalize()} side", "length", ("deck", "sides", side))
              for side in ("front", "right", "back", "left")),
            Field("deck_rising", "Front left to back right", "length",
                  ("deck", "diagonals", "front_left_to_back_right")),
            Field("deck_falling", "Front right to back left", "length",
                  ("deck", "diagonals", "front_right_to_back_left")),
            *(Field(f"deck_{corner}_level", f"Height, {corner.replace('_', ' ')}", "offset", ("deck", "levels", corner))
              for corner in ("front_left", "front_right", "back_right", "back_left")),
        ),
        folded=True,
        about="With all six lengths the framing lines are laid where they fit best on what was built, and each corner is told "
        "how far the deck sticks out or lacks. Heights, all four or none, are against any one level. Empty, the deck is "
        "taken as true.",
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

PARTITION: Final = (
    Field("at", "Left face", "extent", ("at",), True),
    Field("depth", "Width of its plate", "length", ("depth",), True, hint='3 1/2" for studs 2x4'),
)

ROWS: Final = (
    Rows("openings", "opening", OPENING, OPENINGS_MAX),
    Rows("partitions", "partition", PARTITION, PARTITIONS_MAX, "p"),
)
OPENINGS, PARTITIONS = ROWS

PLAIN: Final = tuple(field for group in GROUPS for field in group.fields)
"""Every field that is not one of an opening's."""


def input_name(side: str, row: int, field: Field, rows: Rows = OPENINGS) -> str:
    """The name of a row's input, which is also how a fault finds it."""
    return f"{side}.{rows.mark}{row}.{field.name}"


def said(group: Group, values: Mapping[str, str]) -> str:
    """What stands in a group's fields, for where they are folded away."""
    filled = [(field, values.get(field.name, "")) for field in group.fields]
    return "; ".join(f"{field.label.lower()} {dict(field.words).get(value, value)}" for field, value in filled if value)
