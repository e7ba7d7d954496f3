"""Worked example requests, in a scenario of our own: a pump house on a deck, a boat store on a slab, a field office under snow."""

import json
from typing import Any, Final

_WALL: Final[dict[str, Any]] = {
    "units": "in",
    "name": "pump house north",
    "length": "14'",
    "height": "7' 5\"",
    "stud": "2x4",
    "spacing": 16,
    "plates": {"bottom": 1, "top": 2},
    "layout": {"from": "left", "tape_zero": "sheathing", "tape_offset": 0},
    "ends": {"left": {"post": "three-stud"}, "right": {"post": "three-stud"}},
    "openings": [
        {"name": "door", "left": "3' 2\"", "width": "3' 2\"", "height": "6' 8\""},
        {"name": "window", "left": "9'", "width": "2' 6\"", "height": "3'", "sill": "3' 6\"",
         "header": {"stock": "2x6", "plies": 2, "seat": "jacks"}},
    ],
    "floor": {"kind": "deck", "rim": "5 1/2\"", "panel": "3/4\""},
    "sheathing": {"sheet": {"width": 48, "length": 96, "thickness": "7/16\"", "kind": "osb"}, "direction": "upright",
                  "gap": "1/8\"", "under_sheet": "6 1/4\""},
}  # fmt: skip

_NAILED: Final[dict[str, Any]] = {
    **_WALL,
    "ends": {"left": {"post": "single", "sheathing_lap": '4"', "cap_lap": '3 9/16"',
                      "meets": {"depth": '3 1/2"', "post": "three-stud", "slip_gap": '1/16"'}},
             "right": {"post": "three-stud"}},
    "floor": {"kind": "deck", "rim": "5 1/2\"", "panel": "3/4\"", "treated_plate": True},
    "fastening": {"schedule": "nailed", "framing_nail": "16d box", "spare_percent": 10,
                  "packs": [{"fastener": "16d box", "count": 350}, {"fastener": "8d common", "count": 530}]},
}  # fmt: skip

_BUILDING: Final[dict[str, Any]] = {
    "units": "in",
    "name": "pump house",
    "footprint": {"width": "14'", "depth": "10'", "measured_to": "framing"},
    "wall_height": "7' 5\"",
    "roof": {"shape": "flat"},
    "floor": {"kind": "deck", "rim": '5 1/2"', "panel": '3/4"'},
    "slip_gap": '1/16"',
    "through_walls": ["front", "back"],
    "walls": {
        "front": {"openings": [{"name": "door", "left": "5'", "width": "3' 2\"", "height": "6' 8\""}]},
        "right": {"openings": [{"name": "window", "left": "4'", "width": "2' 6\"", "height": "3'", "sill": "3'"}]},
    },
    "sheathing": {"sheet": {"width": 48, "length": 96, "thickness": '7/16"', "kind": "osb"}, "gap": '1/8"'},
    "parts": ["layout", "sheathing", "fasteners", "raising"],
}

_METRIC: Final[dict[str, Any]] = {
    "units": "mm",
    "name": "boat store east",
    "length": 4800,
    "height": 2400,
    "stud": "45x95",
    "spacing": 600,
    "openings": [{"name": "window", "left": 1500, "width": 900, "height": 900, "sill": 1000}],
    "floor": {"kind": "slab"},
    "sheathing": {"sheet": {"width": 1200, "length": 2400, "thickness": 11, "kind": "osb"}, "gap": 3, "under_sheet": 0},
}

_SIZED: Final[dict[str, Any]] = {
    "units": "in",
    "name": "field office south",
    "length": "18'",
    "height": "8' 1 1/8\"",
    "stud": "2x6",
    "openings": [
        {"name": "door", "left": "2'", "width": "3' 2\"", "height": "6' 10 1/2\""},
        {"name": "window", "left": "8'", "width": "6'", "height": "4'", "sill": "2' 10 1/2\""},
    ],
    "partitions": [{"at": "7'", "depth": '3 1/2"'}],
    "runs": [{"cut": "bore", "size": '3/4"', "y": '18"', "left": "5' 6\""}],
    "lining": True,
    "carries": {"load": "roof", "building_width": "16'"},
    "site": {"ground_snow_psf": 40, "wind_mph": 120, "exposure": "B", "seismic": "A"},
    "rules": "irc-2021",
}

_FRAME: Final[dict[str, Any]] = {
    "units": "in",
    "name": "pump house north",
    "width": "14'",
    "height": "7' 5\"",
    "top": "14'",
    "right": "7' 5\"",
    "rising": "15' 10 1/4\"",
    "falling": "15' 9 15/16\"",
    "tape_class": "II",
    "tolerance": '1/8"',
    "sheet": {"corner": "bottom-right", "along": "8'", "off": '3/16"'},
    "plumb": {"offset": '1/4"', "over": "6' 6\"", "brace": {"up": "5'", "out": "5'"}},
}

_DECK: Final[dict[str, Any]] = {
    "units": "in",
    "name": "pump house deck",
    "sides": {"front": "14' 0 1/8\"", "right": "10'", "back": "14'", "left": "10' 0 1/16\""},
    "diagonals": {"front_left_to_back_right": "17' 2 3/4\"", "front_right_to_back_left": "17' 2 5/16\""},
    "tape_class": "II",
    "wanted": {"width": "14'", "depth": "10'"},
    "levels": {"front_left": 0, "front_right": '1/8"', "back_right": '3/16"', "back_left": '-1/16"'},
}

_PRICES: Final = {
    "2x4": {8: 3.98, 10: 5.47, 12: 6.58, 14: 7.99, 16: 9.24},
    "2x6": {8: 6.12, 10: 7.95, 12: 9.48, 14: 11.6, 16: 13.4},
}

_BUYING: Final[dict[str, Any]] = {
    "units": "in",
    "pieces": [{"stock": "2x4", "length": "5' 6\"", "count": 6, "mark": "brace"}],
    "buildings": [_BUILDING],
    "offers": [
        {"stock": stock, "length": f"{feet}'", "price": price}
        for stock, prices in _PRICES.items()
        for feet, price in prices.items()
    ]
    + [{"stock": "2x4", "length": "7' 10 1/2\"", "price": 0, "at_most": 3}],
    "sheet_offers": [
        {"thickness": '7/16"', "width": 48, "length": 96, "price": 17.85},
        {"thickness": '7/16"', "width": 48, "length": 108, "price": 22.4},
    ],
    "kerf": '1/8"',
    "spare_percent": 5,
    "least_offcut": "2'",
    "tax_percent": 6.5,
}

EXAMPLES: Final[dict[str, dict[str, Any]]] = {
    "layout": _WALL,
    "sheathing": _WALL,
    "raising": {**_WALL, "hands": 6},
    "fasteners": _NAILED,
    "building": _BUILDING,
    "buying": _BUYING,
    "squaring-frame": _FRAME,
    "squaring-deck": _DECK,
    "boat-store": _METRIC,
    "field-office": _SIZED,
}
"""Example requests by name; an operation's own example has the operation's name."""


def example_bytes(name: str) -> bytes:
    """An example request as JSON, as a person would write it."""
    return (json.dumps(EXAMPLES[name], indent=2, ensure_ascii=False) + "\n").encode()
