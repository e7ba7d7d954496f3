"""What a fastened wall is made of: kinds of joint with their counts, points, totals, and what the joints hold."""

import msgspec

from wallwright.domain.wall import Wall
from wallwright.findings import Finding
from wallwright.sources import Source

Direction = tuple[float, float, float]
"""A unit vector in wall coordinates, the way that the fastener is driven."""


class Fastener(msgspec.Struct, frozen=True, gc=False):
    """A nail, screw, bolt or tie plate by its trade name, its sizes on the grid, and its coating.

    ``root`` is the diameter that the formulas take: a screw's under its thread, a nail's own.
    """

    name: str
    kind: str
    length: int
    diameter: int
    root: int
    gauge: int = 0
    coating: str = "plain"


class Joint(msgspec.Struct, frozen=True, gc=False):
    """All joints of one kind that are fastened alike: ``per_joint`` fasteners at each of ``joints`` joints or places.

    ``spacing`` is the greatest distance between the places of a row, None where each joint stands by itself.
    """

    joint: str
    fastener: str
    coating: str
    length: int
    diameter: int
    per_joint: int
    joints: int
    total: int
    spacing: int | None
    source: Source


class Point(msgspec.Struct, frozen=True, gc=False):
    """One fastener: where its head lies, the way it goes, and the pieces that it joins, in the order that it meets them."""

    joint: str
    fastener: str
    x: int
    y: int
    z: int
    direction: Direction
    pieces: tuple[str, ...]


class Total(msgspec.Struct, frozen=True, gc=False):
    """All fasteners of one name and coating: counted, with the spare, what they weigh, and packs to buy.

    ``to_buy`` is the count and the spare, rounded up; ``pack`` and ``boxes`` are None where no pack was given for it.
    """

    fastener: str
    kind: str
    coating: str
    length: int
    diameter: int
    count: int
    to_buy: int
    weight_lb: float
    pack: int | None = None
    boxes: int | None = None


class Strength(msgspec.Struct, frozen=True, gc=False):
    """Reference values of one fastener of a joint by the wood standard's formulas: information, not a design."""

    joint: str
    fastener: str
    penetration: int
    """Into the last piece, on the grid."""
    lateral_lbf: float | None
    mode: str
    withdrawal_lbf: float
    assumptions: str


class Shear(msgspec.Struct, frozen=True, gc=False):
    """Nominal unit shear of the sheathing for its nailing, from the published table, times the factor for the timber."""

    wind_plf: float
    seismic_plf: float
    gravity_factor: float
    panel: int
    nail: str
    spacing: int
    source: Source


class Fasteners(msgspec.Struct, frozen=True):
    """A wall fastened. ``points`` are always all there, from joint to joint in the order of ``joints``."""

    wall: Wall
    joints: tuple[Joint, ...]
    totals: tuple[Total, ...]
    points: tuple[Point, ...]
    strengths: tuple[Strength, ...]
    shear: Shear | None
    findings: tuple[Finding, ...]
