"""The fasteners answer: joints, totals, points, and what they hold."""

from typing import Annotated

from msgspec import UNSET, Meta, UnsetType

from wallwright.wire.answers import Finding, Number, Tape
from wallwright.wire.base import Answer
from wallwright.wire.wall import Wall


class Joint(Answer, frozen=True):
    """All joints of one kind that are fastened alike; `total` is `per_joint` times `joints`."""

    joint: Annotated[
        str,
        Meta(
            description="One of stud-to-bottom-plate, stud-to-top-plate, plate-to-plate, plate-to-header, packing, "
            "header-to-king, jack-to-king, stud-to-stud, post-studs, header-plies, sill-to-jack, sill-to-cripple, "
            "cripple-to-header, block-to-stud, cap-splice, cap-lap, plate-to-floor, post-to-post, tie-plate, anchor, "
            "sheet-edge, sheet-field, sheet-to-rim, sheet-to-next-post; more may come."
        ),
    ]
    fastener: Annotated[str, Meta(description="Trade name.")]
    coating: Annotated[str, Meta(description="`plain`, `hot-dip`, `coated`, `stainless` or `galvanized`.")]
    length: Number
    length_tape: Tape
    diameter: Number
    per_joint: Annotated[int, Meta(description="For each joint, or at each place of a row.")]
    joints: Annotated[int, Meta(description="How many joints, or places of rows.")]
    total: int
    source: str
    spacing: Annotated[Number, Meta(description="Of a row: places are at most so far apart.")] | UnsetType = UNSET


class Total(Answer, frozen=True):
    """All fasteners of one name and coating; the weight is that of the count, by the shank, about."""

    fastener: str
    kind: Annotated[str, Meta(description="`nail`, `screw`, `bolt` or `plate`.")]
    coating: str
    length: Number
    diameter: Number
    count: int
    to_buy: Annotated[int, Meta(description="The count and the spare.")]
    weight_lb: float
    weight_kg: float
    pack: Annotated[int, Meta(description="How many are in the pack that leaves least over.")] | UnsetType = UNSET
    boxes: Annotated[int, Meta(description="How many of that pack.")] | UnsetType = UNSET


class Point(Answer, frozen=True):
    """One fastener: its head in wall coordinates (z from the framing's outer face inwards), and the way it goes."""

    joint: str
    fastener: str
    x: Number
    y: Number
    z: Number
    direction: Annotated[list[float], Meta(min_length=3, max_length=3, description="A unit vector, [x, y, z].")]
    pieces: Annotated[
        list[str],
        Meta(
            description="Members and pieces of sheathing by id in the order that the point meets them; `rim`, `floor` "
            "and `slab` lie below, `met-post-left` and the like are the wall's that is met."
        ),
    ]


class Strength(Answer, frozen=True):
    """Reference values of one fastener by the wood standard's formulas: information, never a design."""

    joint: str
    fastener: str
    penetration: Annotated[Number, Meta(description="Into the last piece.")]
    mode: Annotated[str, Meta(description="The mode of yielding that governs; empty where there is no value.")]
    withdrawal_lbf: float
    withdrawal_n: float
    assumptions: str
    lateral_lbf: float | UnsetType = UNSET
    lateral_n: float | UnsetType = UNSET


class Shear(Answer, frozen=True):
    """Nominal unit shear of the sheathing for its nailing, the factor for the timber's density taken: no design value."""

    wind_plf: float
    wind_kn_per_m: float
    seismic_plf: float
    seismic_kn_per_m: float
    gravity_factor: float
    panel: Annotated[Number, Meta(description="Thickness of the row that was read.")]
    nail: str
    spacing: Number
    source: str


class FastenersAnswer(Answer, frozen=True):
    """A wall fastened. `points` are given where `positions` is true."""

    wall: Wall
    joints: list[Joint]
    totals: list[Total]
    strengths: list[Strength]
    findings: list[Finding]
    unit_shear: Shear | UnsetType = UNSET
    points: list[Point] | UnsetType = UNSET
