"""How the members of a wall are joined, as it is asked for: one schedule or the caller's own, and the packs that fasteners come in."""

from typing import Literal

import msgspec

from wallwright.domain import defaults


class OwnJoint(msgspec.Struct, frozen=True, gc=False):
    """How the caller fastens one kind of joint: with what, how many for each joint, and how far apart in a row."""

    joint: str
    name: str
    kind: str
    """``nail`` or ``screw``."""
    length: int
    diameter: int
    count: int | None = None
    spacing: int | None = None


class Pack(msgspec.Struct, frozen=True, gc=False):
    """A pack to be had: so many of a fastener."""

    fastener: str
    count: int


class Fastening(msgspec.Struct, frozen=True):
    """How members are joined: a schedule, which of its equal nails are at hand, and what the caller does otherwise."""

    schedule: Literal["nailed", "screwed"] = defaults.FASTENING
    framing_nail: str = defaults.FRAMING_NAIL
    toe_nail: str = defaults.TOE_NAIL
    sheathing_nail: str = ""
    """Empty where it follows from the sheets' thickness."""
    coating: str = defaults.COATING
    joints: tuple[OwnJoint, ...] = ()
    packs: tuple[Pack, ...] = ()
    spare_percent: float = defaults.SPARE_PERCENT
