"""The one table of defaults. Each is a physical size, the same in both systems of units.

They stay for the life of version 1 of the contract.
"""

from typing import Final

from wallwright.lengths import INCH, inches
from wallwright.published.plates import END_JOINT_OFFSET

STUD_NAME: Final = "2x4"
SPACING: Final = 16 * INCH
BOTTOM_PLATES: Final = 1
TOP_PLATES: Final = 2
CAP_OFFSET: Final = END_JOINT_OFFSET
LAYOUT_FROM: Final = "left"
TAPE_ZERO: Final = "sheathing"
POST: Final = "single"
FLOOR: Final = "none"
SHEET_WIDTH: Final = 48 * INCH
SHEET_LENGTH: Final = 96 * INCH
SHEET_THICKNESS: Final = inches("7/16")
SHEET_KIND: Final = "osb"
SHEET_LAP: Final = inches("1/2")
"""How far a shiplap edge runs under the next sheet: from memory."""
SHEET_GAP: Final = inches("1/8")
SHEET_DIRECTION: Final = "upright"
SHEET_GRAIN: Final = "kept"
REUSE_OFFCUTS: Final = False
SHEET_OPENINGS: Final = "cut-out"
FASTENING: Final = "nailed"
FRAMING_NAIL: Final = "16d common"
TOE_NAIL: Final = "8d common"
COATING: Final = "plain"
SPARE_PERCENT: Final = 0.0
SPECIES: Final = "spruce-pine-fir"
MOISTURE_PERCENT: Final = 19.0
HANDS: Final = 2
RULES: Final = "irc-2021"
KERF: Final = inches("1/8")
END_TRIM: Final = 0
HEADER_SEAT: Final = "jacks"
JACKS: Final = 1
POST_BLOCK_LENGTH: Final = 12 * INCH
"""Length of the blocks between the studs of a three-stud post."""
TAPE_CLASS: Final = "II"
TAPE_HOOKED: Final = True
TAPE_READING: Final = inches("1/32")
"""How near a length is read from a tape, either way: common practice, no source."""
