"""Worked examples to choose from, as a person would ask them; the first is the service's own."""

from typing import Any, Final

from wallwright.operations.examples import EXAMPLES

_BOAT_STORE: Final[dict[str, Any]] = {
    "units": "mm",
    "name": "boat store",
    "footprint": {"width": "4800", "depth": "7200"},
    "wall_height": "2500",
    "roof": {"shape": "gable", "rise": "6", "ridge_along": "depth", "ridge": "ties"},
    "floor": {"kind": "slab"},
    "stud": "45x95",
    "spacing": "600",
    "plates": {"stock_length": "5400"},
    "slip_gap": "2",
    "hands": "4",
    "fastening": {"schedule": "screwed", "spare_percent": "10"},
    "sheathing": {
        "sheet": {"width": "1200", "length": "2700", "thickness": "11", "kind": "osb"}, "direction": "upright", "gap": "3",
        "under_sheet": "0",
    },
    "walls": {
        "front": {"openings": [{"name": "boat door", "left": "1150", "width": "2500", "height": "2050"}]},
        "right": {"openings": [{"name": "window", "left": "3000", "width": "900", "height": "900", "sill": "1000"}]},
        "left": {"openings": [{"name": "door", "left": "600", "width": "960", "height": "2050"}]},
    },
}  # fmt: skip

_FIELD_OFFICE: Final[dict[str, Any]] = {
    "units": "in",
    "name": "field office",
    "footprint": {"width": "20'", "depth": "12'", "measured_to": "framing"},
    "wall_height": "8' 1 1/8\"",
    "roof": {"shape": "lean-to", "rise": "2", "high_side": "front"},
    "floor": {"kind": "deck", "rim": '7 1/4"', "panel": '3/4"'},
    "site": {"ground_snow_psf": "40", "wind_mph": "115", "exposure": "B", "seismic": "A"},
    "rules": "irc-2021",
    "stud": "2x6",
    "spacing": '16"',
    "lining": "yes",
    "plates": {"stock_length": "16'"},
    "slip_gap": '1/16"',
    "hands": "6",
    "fastening": {"schedule": "nailed", "packs": [{"fastener": "16d common", "count": "350"}]},
    "sheathing": {
        "sheet": {"width": "4'", "length": "9'", "thickness": '7/16"', "kind": "osb"}, "direction": "upright", "gap": '1/8"',
    },
    "walls": {
        "front": {
            "openings": [
                {"name": "door", "left": "2' 6\"", "width": "3' 2\"", "height": "6' 10 1/2\""},
                {"name": "window", "left": "12'", "width": "4'", "height": "3' 6\"", "sill": "3' 4 1/2\""},
            ],
            "partitions": [{"at": "9'", "depth": '3 1/2"'}],
        },
        "back": {"partitions": [{"at": "10' 8 1/2\"", "depth": '3 1/2"'}]},
        "right": {"openings": [{"name": "window", "left": "4'", "width": "3'", "height": "3'", "sill": "3' 10 1/2\""}]},
    },
}  # fmt: skip

WORKED: Final[dict[str, tuple[str, dict[str, Any]]]] = {
    "pump-house": (
        "Pump house: 14 by 10 ft on a deck, flat roof, a door and a window",
        EXAMPLES["building"] | {"stud": "2x4", "spacing": '16"'},
    ),
    "boat-store": ("Boat store: 4.8 by 7.2 m on a slab, gable, a wide door, screwed", _BOAT_STORE),
    "field-office": (
        "Field office: 20 by 12 ft under snow, lean-to, lined, with a partition, sizes compared with tables",
        _FIELD_OFFICE,
    ),
}
"""What each is, and the request, by the name in its link."""
