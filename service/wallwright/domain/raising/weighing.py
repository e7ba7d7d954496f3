"""The weight and the centre of gravity of every member and sheet, and of what is lifted together.

Volumes and first moments are integers of the grid, taken twelvefold so that outlines are exact too; they are added up
before anything is rounded, so that parts and whole agree.
"""

from collections.abc import Iterable
from fractions import Fraction
from typing import Final

import msgspec

from wallwright.domain.members import Member
from wallwright.domain.outlines import Outline
from wallwright.domain.skin import Piece
from wallwright.domain.slopes import top_edge, under
from wallwright.domain.wall import Wall
from wallwright.lengths import FOOT, nearest

BEFORE: Final = "before-raising"
AFTER: Final = "after-raising"


class Place(msgspec.Struct, frozen=True, gc=False):
    """A centre of gravity: along the wall, up from the plate's underside, and inwards from the framing's outer face."""

    x: int
    y: int
    z: int


class Bulk(msgspec.Struct, frozen=True, gc=False):
    """A volume and its first moments about x = y = z = 0, all twelvefold."""

    volume: int
    x: int
    y: int
    z: int

    def plus(self, other: "Bulk", times: int = 1) -> "Bulk":
        """Both together, the other one ``times`` over."""
        return Bulk(
            self.volume + times * other.volume, self.x + times * other.x, self.y + times * other.y,
            self.z + times * other.z,
        )  # fmt: skip


NOTHING: Final = Bulk(0, 0, 0, 0)


class Weighed(msgspec.Struct, frozen=True, gc=False):
    """One member or piece of sheathing: what it weighs, where its centre lies, and when it is fixed."""

    id: str
    kind: str
    """``timber`` or ``sheet``."""
    stage: str
    weight_lb: float
    centre: Place


class Weight(msgspec.Struct, frozen=True, gc=False):
    """What some members and pieces weigh together, and where their common centre lies."""

    weight_lb: float
    centre: Place


class Heap(msgspec.Struct, frozen=True, gc=False):
    """Timber and sheets of two densities (lb per cubic foot) that are lifted together."""

    timber: Bulk
    sheets: Bulk
    timber_pcf: Fraction
    sheet_pcf: Fraction

    def weight(self) -> Weight:
        """Weight and common centre, rounded once at the end."""
        shares = ((self.timber, self.timber_pcf), (self.sheets, self.sheet_pcf))
        heavy = sum((bulk.volume * pcf for bulk, pcf in shares), Fraction(0))
        x, y, z = (
            nearest(sum((getattr(bulk, axis) * pcf for bulk, pcf in shares), Fraction(0)) / heavy) for axis in "xyz"
        )
        return Weight(float(heavy / (12 * FOOT**3)), Place(x, y, z))


def of_member(member: Member) -> Bulk:
    """The bulk of a member: its box, all plies of it, or its outline as thick as the box is deep."""
    if member.outline:
        return _prism(member.outline, member.z, member.depth)
    volume = member.width * member.height * member.depth
    return Bulk(
        12 * volume, 6 * volume * (2 * member.x + member.width), 6 * volume * (2 * member.y + member.height),
        6 * volume * (2 * member.z + member.depth),
    )  # fmt: skip


def of_piece(piece: Piece, thickness: int) -> Bulk:
    """The bulk of a piece of sheathing, its cut-outs taken off; it lies on the framing's outer face."""
    found = _prism(piece.outline, -thickness, thickness)
    for hole in piece.cut_outs:
        found = found.plus(_prism(hole, -thickness, thickness), -1)
    return found


def _prism(outline: Outline, z: int, depth: int) -> Bulk:
    """The bulk over an outline in x, y, whichever way it runs round."""
    double_area = sixfold_x = sixfold_y = 0
    for (x1, y1), (x2, y2) in zip(outline, (*outline[1:], outline[0]), strict=True):
        cross = x1 * y2 - x2 * y1
        double_area += cross
        sixfold_x += (x1 + x2) * cross
        sixfold_y += (y1 + y2) * cross
    if double_area < 0:
        double_area, sixfold_x, sixfold_y = -double_area, -sixfold_x, -sixfold_y
    return Bulk(
        6 * double_area * depth, 2 * sixfold_x * depth, 2 * sixfold_y * depth, 3 * double_area * depth * (2 * z + depth)
    )


def total(bulks: Iterable[Bulk]) -> Bulk:
    """All bulks together."""
    found = NOTHING
    for bulk in bulks:
        found = found.plus(bulk)
    return found


def stage_of(wall: Wall, member: Member) -> str:
    """When a member is fixed: a cap that crosses the end of a wall which stands between two others waits until it stands."""
    crosses_left = wall.left.meets is not None and member.x < 0
    crosses_right = wall.right.meets is not None and member.right > wall.length
    return AFTER if member.role == "cap-plate" and (crosses_left or crosses_right) else BEFORE


def lever(wall: Wall, members: tuple[Member, ...], left: int, right: int) -> int:
    """How far up hands lift between two x: the mean height of what is uppermost then, the cap left out where it waits."""
    waits = any(stage_of(wall, member) != BEFORE for member in members)
    edge = under(wall, 1) if waits else top_edge(wall)
    stops = sorted({left, right} | ({edge.ridge} if edge.ridge and left < edge.ridge < right else set()))
    area = sum((b - a) * (edge.at(a) + edge.at(b)) for a, b in zip(stops, stops[1:], strict=False))
    return round(Fraction(area, 2 * (right - left)))


def weighed(name: str, kind: str, stage: str, bulk: Bulk, pcf: float) -> Weighed:
    """One member or piece by itself, of a density in lb per cubic foot."""
    twice = 2 * bulk.volume
    # The nearest integer to each moment over the volume; halves go up.
    x, y, z = ((2 * moment + bulk.volume) // twice for moment in (bulk.x, bulk.y, bulk.z))
    return Weighed(name, kind, stage, bulk.volume / (12 * FOOT**3) * pcf, Place(x, y, z))
