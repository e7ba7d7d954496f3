"""What the document says of each field beyond the wire types: its default and its range, from where they are set.

The wire types cannot know the domain's defaults, so they are joined to the descriptions here and nowhere typed twice.
"""

from typing import Any, Final

from wallwright.domain import defaults
from wallwright.lengths import tape_text, to_number
from wallwright.wire import limits


def _size(length: int) -> str:
    return f"{tape_text(length, 'in')} ({to_number(length, 'mm'):.7g} mm)"


def _default(value: int | str) -> str:
    return f"Default {_size(value) if isinstance(value, int) else f'`{value}`'}."


def _range(least: int, most: int) -> str:
    return f"From {_size(least)} to {_size(most)}."


def _most(most: int) -> str:
    return f"At most {_size(most)}."


_COMMON: Final = {
    "stud": f"The wall's studs and plates. {_default(defaults.STUD_NAME)}",
    "spacing": f"{_default(defaults.SPACING)} {_range(limits.SPACING_MIN, limits.SPACING_MAX)}",
    "plates": "Bottom and top plates.",
    "layout": "Where the tape is hooked.",
    "floor": "What the wall stands on.",
    "sheathing": "How the wall is skinned.",
    "lining": "Default false.",
    "fastening": f"How members are joined. {_default(defaults.FASTENING)}",
    "positions": "Default false.",
    "site": "Loads of the place; nothing is assumed where it is left out.",
    "species": f"Of the framing timber. {_default(defaults.SPECIES)}",
    "moisture_percent": f"Moisture of the framing timber when it is raised. Default {defaults.MOISTURE_PERCENT:g}.",
    "hands": f"Default {defaults.HANDS}.",
    "rules": f"{_default(defaults.RULES)} It fixes the figures: an old edition keeps its own.",
}

_TAPE_USE: Final = {
    "tape_class": _default(defaults.TAPE_CLASS),
    "hooked": f"Default {str(defaults.TAPE_HOOKED).lower()}.",
    "reading": f"{_default(defaults.TAPE_READING)} {_most(limits.READING_MAX)}",
}

_ROOF_SLOPE: Final = "Of the slope `rise` in `run`, both in the same measure."

INPUT_WORDS: Final[dict[str, dict[str, str]]] = {
    "Wall": _COMMON
    | {
        "length": _most(limits.WALL_LENGTH_MAX),
        "height": _most(limits.WALL_HEIGHT_MAX),
        "top": "Default level.",
        "ends": "Posts, laps and the walls met at either end.",
        "openings": "Doors and windows, in any order. Default none.",
        "partitions": "Inside walls that end against this one, in any order. Default none.",
        "runs": "Pipes and cables that cross the studs, to be compared with the published rule. Default none.",
        "carries": "What the wall carries. Left out, headers are a plain default that is not sized.",
    },
    "Building": _COMMON
    | {
        "footprint": "Size out to out.",
        "wall_height": f"Of the low walls, as a wall's `height`. {_most(limits.WALL_HEIGHT_MAX)}",
        "roof": "Default flat.",
        "slip_gap": _most(limits.SLIP_GAP_MAX),
        "walls": "What single walls have of their own.",
    },
    "SideOptions": _COMMON
    | {
        "ends": "The wall's posts.",
        "openings": "Doors and windows, each `left` from the building's framing corner.",
        "partitions": "Inside walls that end against this one, each `at` from the building's framing corner.",
        "runs": "Pipes and cables that cross the studs, `left` and `right` from the building's framing corner.",
        "carries": "What this wall carries; default what follows from the roof.",
    },
    "Footprint": {"width": _most(limits.FOOTPRINT_MAX), "depth": _most(limits.FOOTPRINT_MAX)},
    "Roof": {
        "shape": "Default flat.",
        "rise": _ROOF_SLOPE,
        "run": _ROOF_SLOPE,
        "high_side": "The high wall of a lean-to.",
        "ridge_along": "The way a gable's ridge runs; default the longer side.",
        "ridge": "Whether ties hold the rafters' feet, or a beam carries the ridge.",
    },
    "Sides": {side: f"The {side} wall's own." for side in ("front", "right", "back", "left")},
    "SideEnds": {side: f"The {side} end." for side in ("left", "right")},
    "Ends": {side: f"The {side} end." for side in ("left", "right")},
    "StockSize": {
        "thickness": f"{_range(limits.STOCK_THICKNESS_MIN, limits.STUD_THICKNESS_MAX)} In an order from {_size(limits.FILLER_THICKNESS_MIN)}.",
        "width": _range(limits.STOCK_WIDTH_MIN, limits.STOCK_WIDTH_MAX),
    },
    "PlateJoints": dict.fromkeys(("bottom", "second_bottom", "top", "cap"), "Default none."),
    "Plates": {
        "bottom": f"Default {defaults.BOTTOM_PLATES}.",
        "top": f"Default {defaults.TOP_PLATES}.",
        "stock_length": (
            f"The longest piece; left out, plates run the wall's whole length. "
            f"{_range(limits.STOCK_LENGTH_MIN, limits.STOCK_LENGTH_MAX)}"
        ),
        "joints": "Left out, joints are found where `stock_length` asks for them.",
        "cap_offset": f"{_default(defaults.CAP_OFFSET)} {_most(limits.CAP_OFFSET_MAX)}",
    },
    "Layout": {
        "from": _default(defaults.LAYOUT_FROM),
        "tape_zero": _default(defaults.TAPE_ZERO),
        "tape_offset": f"Towards the wall's middle. Default 0. {_most(limits.TAPE_OFFSET_MAX)}",
    },
    "Floor": {
        "kind": _default(defaults.FLOOR),
        "rim": f"Default 0. {_most(limits.RIM_MAX)}",
        "panel": f"Default 0. {_most(limits.PANEL_MAX)}",
        "anchors": "Left out on a slab, bolts are placed by the published rule.",
        "treated_plate": "Whether the bottom plate is treated timber, as on a slab.",
    },
    "Sheathing": {
        "sheet": "The sheet to be had.",
        "direction": f"Which way the sheet's length runs. {_default(defaults.SHEET_DIRECTION)}",
        "gap": f"Left between sheets. {_default(defaults.SHEET_GAP)} {_most(limits.SHEET_GAP_MAX)}",
        "start": "Left out, the end that the tape starts from.",
        "under_sheet": f"Default 0; in a building on a deck, rim and panel. {_most(limits.UNDER_SHEET_MAX)}",
    },
    "Sheet": {
        "width": f"{_default(defaults.SHEET_WIDTH)} {_range(limits.SHEET_WIDTH_MIN, limits.SHEET_WIDTH_MAX)}",
        "length": f"{_default(defaults.SHEET_LENGTH)} {_range(limits.SHEET_LENGTH_MIN, limits.SHEET_LENGTH_MAX)}",
        "thickness": (
            f"{_default(defaults.SHEET_THICKNESS)} {_range(limits.SHEET_THICKNESS_MIN, limits.SHEET_THICKNESS_MAX)}"
        ),
        "kind": _default(defaults.SHEET_KIND),
        "edge": "Default square.",
        "lap": f"{_default(defaults.SHEET_LAP)} {_range(limits.SHEET_LAP_MIN, limits.SHEET_LAP_MAX)}",
        "sized_for_spacing": "Whether it is made a gap narrower and shorter than its module. Default false.",
    },
    "OwnJoint": {
        "joint": "One of the list.",
        "fastener": "A nail by name, or any nail or screw by its sizes.",
        "count": "Left out, what the schedule says.",
        "spacing": f"{_range(limits.FASTENER_SPACING_MIN, limits.FASTENER_SPACING_MAX)}",
    },
    "FastenerSize": {
        "kind": "What it is.",
        "length": f"Under the head. {_range(limits.FASTENER_LENGTH_MIN, limits.FASTENER_LENGTH_MAX)}",
        "diameter": f"{_range(limits.FASTENER_DIAMETER_MIN, limits.FASTENER_DIAMETER_MAX)}",
    },
    "Fastening": {
        "schedule": _default(defaults.FASTENING),
        "framing_nail": f"Which of a row's equal choices, where it has this one. {_default(defaults.FRAMING_NAIL)}",
        "toe_nail": f"The same for toe-nailed joints. {_default(defaults.TOE_NAIL)}",
        "sheathing_nail": "Default what the published tables ask for the sheets' thickness.",
        "coating": _default(defaults.COATING),
        "joints": "Default none.",
        "packs": "Default none: then weight and count are told, and no boxes.",
        "spare_percent": f"Default {defaults.SPARE_PERCENT:g}.",
    },
    "Site": {
        "ground_snow_psf": "Ground snow load, in pounds per square foot.",
        "wind_mph": "Design wind speed, in miles per hour.",
        "exposure": "Wind exposure category.",
        "seismic": "Seismic design category.",
    },
    "Top": {
        "shape": "Default level.",
        "rise": "Of the slope `rise` in `run`, both in the same measure.",
        "run": "Of the slope `rise` in `run`, both in the same measure.",
    },
    "End": {
        "post": _default(defaults.POST),
        "sheathing_lap": f"How far the sheathing runs past the plate. Default 0. {_most(limits.LAP_MAX)}",
        "cap_lap": f"How far the cap plate runs past the plate. Default 0. {_most(limits.LAP_MAX)}",
        "meets": "The wall that stands at this end.",
    },
    "Meets": {
        "depth": f"Of the other wall's studs. {_range(limits.STUD_DEPTH_MIN, limits.STUD_DEPTH_MAX)}",
        "post": _default(defaults.POST),
        "slip_gap": f"Default 0. {_most(limits.SLIP_GAP_MAX)}",
    },
    "SideEnd": {"post": f"Default `three-stud` on through walls, `{defaults.POST}` on the others."},
    "Opening": {
        "height": "Clear from sill to head.",
        "width": "Clear between jacks.",
        "sill": "Height of the sill's top; 0, the default, is a door.",
        "header": (
            "Left out, the service takes the shallowest that the published table allows and that fits, where `carries` "
            "and `site` tell load, width and snow; else a plain default that is not sized."
        ),
        "jacks": (
            f"Default {defaults.JACKS}. With `carries` and `site` given, the published table's number; jacks that are "
            "given are kept and compared."
        ),
    },
    "Partition": {
        "at": "5/8 in (15.875 mm) at least is left on either side of it for the edge of the lining.",
        "depth": _range(limits.PARTITION_DEPTH_MIN, limits.STUD_DEPTH_MAX),
    },
    "Run": {
        "size": _most(limits.STUD_DEPTH_MAX),
        "y": _most(limits.WALL_HEIGHT_MAX),
        "edge": "Left out of account for a notch.",
    },
    "Header": {"stock": "Section of one ply.", "seat": _default(defaults.HEADER_SEAT)},
    "Frame": _TAPE_USE
    | {
        "tolerance": "Default the published tolerance of layout, taken for the diagonals by common practice: 1/8 in "
        "(3.175 mm) where the longer side is under 10 ft, else 1/4 in (6.35 mm)."
    },
    "Deck": _TAPE_USE,
    "DeckSides": {side: f"The {side} edge." for side in ("front", "right", "back", "left")},
    "DeckDiagonals": {
        "front_left_to_back_right": "Corner to corner.",
        "front_right_to_back_left": "Corner to corner.",
    },
    "DeckWanted": {"width": "Along the front.", "depth": "From front to back."},
    "DeckLevels": dict.fromkeys(("front_left", "front_right", "back_right", "back_left"), "Its height."),
    "Carries": {
        "load": "`roof` where rafters or joists rest on the wall; with a floor above it as well, one borne at its "
        "middle or one of a single clear span."
    },
}
"""Words joined to the wire's own for fields of requests, by schema and field."""


def worded(schemas: dict[str, Any]) -> dict[str, Any]:
    """The schemas with those words joined to the descriptions of their fields."""
    for name, words in INPUT_WORDS.items():
        for field, text in words.items():
            described = schemas[name]["properties"][field]
            described["description"] = f"{described.get('description', '')} {text}".strip()
    return schemas
