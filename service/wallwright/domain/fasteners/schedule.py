"""Which fastener goes into which joint, how many, and how far apart: nailed, screwed, or as the caller says.

Nailed: IRC Table R602.3(1) by edition, and Table R602.3(3) for sheets; a joint that no row names is nailed as the
row most like it (common practice). Screwed: common practice, no source.
"""

from typing import Final

import msgspec
from msgspec.structs import replace

from wallwright.domain.fasteners.values import Fastener
from wallwright.domain.joining import OwnJoint
from wallwright.domain.wall import Wall
from wallwright.lengths import INCH, inch_name, inches
from wallwright.published import fastening, sheathing_wind
from wallwright.published.fastening import NAILS, SCREWS, Nailing, Screw
from wallwright.published.tables import OutsideTable
from wallwright.sources import COMMON_PRACTICE, Source

INSIDE: Final = inches("1/4")
"""A screw's point stays this far inside the second piece (common practice, no source)."""
ROW: Final = 16 * INCH
"""Rows of screws, and of sheets' field screws (common practice, no source)."""
EACH_WIDTH: Final = 2 * INCH
LEAST_COUNT: Final = 2
TOLERANCE: Final = inches("1/64")
"""A panel within this of a row's thickness counts as that row's, so that 11 mm reads as 7/16 in."""
OWN: Final = Source("the caller's own schedule")

_END, _FACE, _STUDS = "plate-to-stud-end", "top-plate-to-top-plate", "stud-to-stud-not-braced"
_ROWS: Final[dict[str, tuple[str, bool]]] = {
    "stud-to-bottom-plate": (_END, True),
    "stud-to-top-plate": (_END, True),
    "plate-to-plate": (_FACE, True),
    "plate-to-header": (_FACE, False),
    "packing": (_FACE, False),
    "header-to-king": ("full-height-stud-to-header-end", True),
    "jack-to-king": (_STUDS, True),
    "stud-to-stud": (_STUDS, True),
    "post-studs": ("stud-to-stud-corner-braced", True),
    "header-plies": ("built-up-header", True),
    "sill-to-jack": (_END, False),
    "sill-to-cripple": (_END, False),
    "cripple-to-header": ("plate-to-stud-toe", True),
    "block-to-stud": (_END, False),
    "cap-splice": ("double-top-plate-splice", True),
    "cap-lap": ("top-plate-laps", True),
    "plate-to-floor": ("bottom-plate-to-floor-braced", True),
    "post-to-post": ("stud-to-stud-corner-braced", True),
}
"""The published row of each joint, and whether the row names that joint or only one like it."""
JOINTS: Final = (*_ROWS, "tie-plate", "anchor", "sheet-edge", "sheet-field", "sheet-to-rim", "sheet-to-next-post")
"""Every kind of joint, in the order in which a wall is put together."""


class Rule(msgspec.Struct, frozen=True, gc=False):
    """How one joint is fastened: ``count`` for each joint, or at each place of a row ``spacing`` apart."""

    fastener: Fastener
    count: int
    spacing: int | None
    source: Source


def nail(name: str, coating: str = "plain") -> Fastener:
    """A nail by its published name."""
    length, diameter = NAILS[name]
    return Fastener(name, "nail", length, diameter, diameter, coating=coating)


def screw(one: Screw, coating: str = "plain") -> Fastener:
    """A wood screw, named by gauge and length."""
    return Fastener(f"#{one.gauge} x {inch_name(one.length)} in", "screw", one.length, one.diameter, one.root, one.gauge, coating)  # fmt: skip


class Schedule:
    """The wall's schedule, asked joint by joint."""

    def __init__(self, wall: Wall) -> None:
        self.wall = wall
        self._asked = wall.fastening
        self._own: dict[str, OwnJoint] = {one.joint: one for one in wall.fastening.joints}
        self._known: dict[tuple[object, ...], Rule] = {}

    def rule(self, joint: str, *, held: int, room: int, width: int, treated: bool = False) -> Rule:
        """How a joint is fastened.

        ``held`` is the thickness that the fastener passes before the last piece, ``room`` all the timber in its way,
        ``width`` that of the piece held, all on the grid; into ``treated`` timber fasteners are coated.
        """
        key = (joint, held, room, width, treated)
        if key not in self._known:
            self._known[key] = self._made(joint, held, room, width, treated)
        return self._known[key]

    def _made(self, joint: str, held: int, room: int, width: int, treated: bool) -> Rule:
        screwed = self._asked.schedule == "screwed"
        rule = self._screwed(joint, held, room, width) if screwed else self._nailed(joint)
        own = self._own.get(joint)
        if own is not None:
            rule = _as_own(rule, own)
        return replace(rule, fastener=replace(rule.fastener, coating=self._coating(rule.fastener.kind, treated)))

    def _coating(self, kind: str, treated: bool) -> str:
        if not treated or self._asked.coating != "plain":
            return self._asked.coating
        return "coated" if kind == "screw" else "hot-dip"

    def _nailed(self, joint: str) -> Rule:
        rules = self.wall.rules
        if joint.startswith("sheet-"):
            return self._sheet_nails(joint)
        if joint == "tie-plate":
            return Rule(nail("8d box"), 1, None, Source("International Residential Code", "", "R602.3.2"))
        row, named = _ROWS[joint]
        header_end = row == "full-height-stud-to-header-end"
        equal = fastening.header_end_choices(rules) if header_end else fastening.choices(rules, row)
        wanted = self._asked.toe_nail if row.endswith("-toe") else self._asked.framing_nail
        chosen = _chosen(equal, wanted)
        source = fastening.header_end_source(rules) if header_end else fastening.source(rules, row)
        return Rule(nail(chosen.nail), chosen.count or 1, chosen.spacing, source if named else COMMON_PRACTICE)

    def _sheet_nails(self, joint: str) -> Rule:
        """Nails of sheets by their thickness: the table for panels that take the wind, else as that for others."""
        wall, thick = self.wall, self.wall.sheathing.sheet.thickness + TOLERANCE
        edge, field, source = 6 * INCH, 12 * INCH, COMMON_PRACTICE
        name = "6d common" if thick < inches("7/16") else "8d common"
        try:
            row = sheathing_wind.strongest_row(wall.rules, thick, wall.spacing)
            name, source = row["nail"], sheathing_wind.source(wall.rules)
            edge, field = int(row["edge_in"] * INCH), int(row["field_in"] * INCH)
        except OutsideTable:
            pass
        if thick >= inches("7/8"):
            name, source = "10d common", COMMON_PRACTICE
        asked = self._asked.sheathing_nail
        if asked and asked != name:
            name, source = asked, COMMON_PRACTICE
        return Rule(nail(name), 1, field if joint == "sheet-field" else edge, source)

    def _screwed(self, joint: str, held: int, room: int, width: int) -> Rule:
        count = max(LEAST_COUNT, -(-width // EACH_WIDTH))
        if joint.startswith("sheet-"):
            need = max(2 * held, held + inches("1 1/4"))
            spacing = ROW if joint == "sheet-field" else 6 * INCH
            return Rule(screw(_holding(need, held, room)), 1, spacing, COMMON_PRACTICE)
        if joint == "tie-plate":
            return self._nailed(joint)
        nailed = self._nailed(joint)
        ply_to_ply = joint in ("header-plies", "stud-to-stud", "jack-to-king", "plate-to-plate", "packing")
        need = room if ply_to_ply else 2 * held
        between = None if nailed.spacing is None else ROW
        if joint == "cap-splice":
            count = max(count, nailed.count)
        return Rule(screw(_holding(need, held, room)), count, between, COMMON_PRACTICE)


def _chosen(equal: tuple[Nailing, ...], wanted: str) -> Nailing:
    """The choice with the nail at hand, else the first of the row."""
    return next((one for one in equal if one.nail == wanted), equal[0])


def _holding(need: int, held: int, room: int) -> Screw:
    """The screw of the next stock length from ``need`` up whose point stays inside; else the longest that does.

    Of screws as long the thickest that still reaches 6 diameters into the second piece, else the thinnest.
    """
    inside = [one for one in SCREWS if one.length <= room - INSIDE]
    if not inside:
        return SCREWS[0]
    enough = [one for one in inside if one.length >= need]
    lengths = [one.length for one in enough or inside]
    length = min(lengths) if enough else max(lengths)
    alike = [one for one in inside if one.length == length]
    holding = [one for one in alike if length - held >= 6 * one.diameter]
    return holding[-1] if holding else alike[0]


def _as_own(rule: Rule, own: OwnJoint) -> Rule:
    name = own.name or f"{inch_name(own.length)} x {own.diameter / INCH:.3f} {own.kind}"
    one = Fastener(name, own.kind, own.length, own.diameter, own.diameter)
    spacing = rule.spacing if own.spacing is None or rule.spacing is None else own.spacing
    return Rule(one, own.count or rule.count, spacing, OWN)
