"""The contract's limits: the same for every copy of the service, and part of the document.

Lengths are in grid units (1/40,000 mm); counts are plain.
"""

from typing import Final

from wallwright.lengths import FOOT, INCH, inches

NUMBER_MAX: Final = 100_000
"""No JSON number that stands for a length is larger, whatever the units."""
WALL_LENGTH_MAX: Final = 100 * FOOT
WALL_HEIGHT_MAX: Final = 20 * FOOT
FOOTPRINT_MAX: Final = 100 * FOOT
SPACING_MIN: Final = 6 * INCH
SPACING_MAX: Final = 48 * INCH
LAP_MAX: Final = 24 * INCH
TAPE_OFFSET_MAX: Final = 48 * INCH
STUD_THICKNESS_MIN: Final = inches("1 1/4")
STUD_THICKNESS_MAX: Final = 6 * INCH
STOCK_THICKNESS_MIN: Final = inches("1/2")
FILLER_THICKNESS_MIN: Final = inches("1/16")
"""Of a section in an order: the filler between a header's plies is bought too."""
STOCK_WIDTH_MIN: Final = inches("1 1/2")
STOCK_WIDTH_MAX: Final = 16 * INCH
STUD_DEPTH_MIN: Final = inches("2 1/4")
STUD_DEPTH_MAX: Final = 12 * INCH
PARTITION_DEPTH_MIN: Final = STUD_THICKNESS_MIN
SHEET_WIDTH_MIN: Final = 24 * INCH
SHEET_WIDTH_MAX: Final = 120 * INCH
SHEET_LENGTH_MIN: Final = 48 * INCH
SHEET_LENGTH_MAX: Final = 240 * INCH
SHEET_THICKNESS_MIN: Final = inches("1/8")
SHEET_THICKNESS_MAX: Final = 2 * INCH
SHEET_LAP_MIN: Final = inches("1/8")
SHEET_LAP_MAX: Final = 3 * INCH
SHEET_GAP_MAX: Final = inches("1/4")
UNDER_SHEET_MAX: Final = 36 * INCH
SLIP_GAP_MAX: Final = 2 * INCH
RIM_MAX: Final = 24 * INCH
PANEL_MAX: Final = 3 * INCH
STOCK_LENGTH_MIN: Final = 4 * FOOT
STOCK_LENGTH_MAX: Final = 40 * FOOT
CAP_OFFSET_MAX: Final = 8 * FOOT
MEASURED_MIN: Final = 6 * INCH
MEASURED_DIAGONAL_MAX: Final = 200 * FOOT
TOLERANCE_MAX: Final = 2 * INCH
READING_MAX: Final = inches("1/2")
OUT_OF_LINE_MAX: Final = 12 * INCH
BRACE_OUT_MAX: Final = 40 * FOOT
FASTENER_LENGTH_MIN: Final = inches("1/2")
FASTENER_LENGTH_MAX: Final = 12 * INCH
FASTENER_DIAMETER_MIN: Final = inches("1/20")
FASTENER_DIAMETER_MAX: Final = inches("1/2")
FASTENER_SPACING_MIN: Final = inches("1 1/2")
FASTENER_SPACING_MAX: Final = 48 * INCH
OWN_JOINTS_MAX: Final = 40
JOINT_COUNT_MAX: Final = 12
PACKS_MAX: Final = 20
PACK_MAX: Final = 100_000
OPENINGS_MAX: Final = 24
ANCHORS_MAX: Final = 60
PLATE_JOINTS_MAX: Final = 40
PARTITIONS_MAX: Final = 24
RUNS_MAX: Final = 24
PLIES_MAX: Final = 4
JACKS_MAX: Final = 4
NAME_MAX: Final = 80
STOCK_NAME_MAX: Final = 24
SLOPE_MAX: Final = 1000
PIECES_MAX: Final = 100
"""Rows of loose pieces in an order."""
PIECE_COUNT_MAX: Final = 1_000
PIECE_LENGTH_MIN: Final = INCH
SHEET_PIECES_MAX: Final = 40
"""Rows of loose pieces of sheet in an order."""
SHEET_PIECE_COUNT_MAX: Final = 200
ORDER_WALLS_MAX: Final = 20
ORDER_BUILDINGS_MAX: Final = 10
OFFERS_MAX: Final = 60
FASTENER_OFFERS_MAX: Final = 40
PRICE_MAX: Final = 100_000
TAX_PERCENT_MAX: Final = 100
SPARE_PERCENT_MAX: Final = 100
SHEET_PIECE_MIN: Final = INCH
KERF_MAX: Final = inches("1/2")
END_TRIM_MAX: Final = 12 * INCH
BOARD_LENGTH_MIN: Final = 6 * INCH
BOARD_LENGTH_MAX: Final = 60 * FOOT
Z_MAX: Final = 8_192
"""Characters of the packed request in a link."""

COUNTS: Final = frozenset({
    "OWN_JOINTS_MAX", "JOINT_COUNT_MAX", "PACKS_MAX", "PACK_MAX",
    "NUMBER_MAX", "OPENINGS_MAX", "ANCHORS_MAX", "PLATE_JOINTS_MAX", "PARTITIONS_MAX", "RUNS_MAX", "PLIES_MAX", "JACKS_MAX", "NAME_MAX", "STOCK_NAME_MAX", "SLOPE_MAX", "Z_MAX",
    "PIECES_MAX", "PIECE_COUNT_MAX", "SHEET_PIECES_MAX", "SHEET_PIECE_COUNT_MAX", "ORDER_WALLS_MAX", "ORDER_BUILDINGS_MAX", "OFFERS_MAX", "FASTENER_OFFERS_MAX", "PRICE_MAX", "TAX_PERCENT_MAX",
    "SPARE_PERCENT_MAX",
})  # fmt: skip
"""The limits that are plain numbers; every other one is a length."""
