"""How a wall is fastened: by a schedule, or as the caller says, and packed as the yard sells it."""

from typing import Annotated, Literal

from msgspec import UNSET, Meta, UnsetType

from wallwright.wire.base import NAME_PATTERN, Length, Request
from wallwright.wire.limits import (
    JOINT_COUNT_MAX,
    NAME_MAX,
    OWN_JOINTS_MAX,
    PACK_MAX,
    PACKS_MAX,
)

JointName = Literal[
    "stud-to-bottom-plate", "stud-to-top-plate", "plate-to-plate", "plate-to-header", "packing", "header-to-king",
    "jack-to-king", "stud-to-stud", "post-studs", "header-plies", "sill-to-jack", "sill-to-cripple",
    "cripple-to-header", "block-to-stud", "cap-splice", "cap-lap", "plate-to-floor", "post-to-post", "tie-plate",
    "sheet-edge", "sheet-field", "sheet-to-rim", "sheet-to-next-post",
]  # fmt: skip


FastenerName = Annotated[
    Literal[
        "6d common", "8d common", "10d common", "12d common", "16d common", "20d common", "8d box", "10d box",
        "16d box", "3 x 0.131", "8d sinker", "10d sinker", "12d sinker", "16d sinker", "2 x 0.113", "2-3/8 x 0.113",
        "2-1/2 x 0.131",
    ],
    Meta(description="A nail by its name, as the published schedule names it."),
]  # fmt: skip


class FastenerSize(Request, frozen=True, kw_only=True):
    """A fastener by its sizes; a screw's diameter is that over its thread."""

    kind: Literal["nail", "screw"]
    length: Length
    diameter: Length


class OwnJoint(Request, frozen=True, kw_only=True):
    """How the caller fastens one kind of joint; the last one given for a kind holds."""

    joint: Annotated[JointName, Meta(description="The kind of joint.")]
    fastener: FastenerName | FastenerSize
    count: (
        Annotated[int, Meta(ge=1, le=JOINT_COUNT_MAX, description="For each joint, or at each place of a row.")]
        | UnsetType
    ) = UNSET
    spacing: Annotated[Length, Meta(description="Of a row; a joint that is no row has none.")] | UnsetType = UNSET


class Pack(Request, frozen=True, kw_only=True):
    """A pack to be had."""

    fastener: Annotated[
        str,
        Meta(max_length=NAME_MAX, pattern=NAME_PATTERN, description="The fastener as the answer's totals name it."),
    ]
    count: Annotated[int, Meta(ge=1, le=PACK_MAX, description="How many are in it.")]


class Fastening(Request, frozen=True):
    """A schedule of fastening, and what is done otherwise."""

    schedule: Literal["nailed", "screwed"] | UnsetType = UNSET
    framing_nail: Literal["16d common", "16d box", "10d box", "3 x 0.131"] | UnsetType = UNSET
    toe_nail: Literal["8d common", "8d box", "10d box", "16d box", "3 x 0.131"] | UnsetType = UNSET
    sheathing_nail: (
        Literal["6d common", "8d common", "10d common", "8d box", "2 x 0.113", "2-3/8 x 0.113", "2-1/2 x 0.131"]
        | UnsetType
    ) = UNSET
    coating: (
        Annotated[
            Literal["plain", "hot-dip", "stainless"],
            Meta(description="Of all fasteners; into treated timber they are coated in any case."),
        ]
        | UnsetType
    ) = UNSET
    joints: Annotated[list[OwnJoint], Meta(max_length=OWN_JOINTS_MAX, description="The caller's own.")] | UnsetType = (
        UNSET
    )
    packs: Annotated[list[Pack], Meta(max_length=PACKS_MAX, description="What is sold.")] | UnsetType = UNSET
    spare_percent: Annotated[float, Meta(ge=0, le=100, description="Bought beyond what is counted.")] | UnsetType = (
        UNSET
    )
