"""How members are joined: the request's word or object to the domain's value, and back."""

from typing import Literal

from msgspec import UNSET, UnsetType

from wallwright.domain import joining as domain
from wallwright.operations.converters import Converter
from wallwright.operations.reading import Reading, given
from wallwright.published.fastening import NAILS
from wallwright.wire import fastening as wire_joints
from wallwright.wire import limits

Asked = Literal["nailed", "screwed"] | wire_joints.Fastening | UnsetType


def fastening(reading: Reading, asked: Asked, at: str) -> domain.Fastening | UnsetType:
    """The schedule asked for, complete."""
    if asked is UNSET or isinstance(asked, UnsetType):
        return UNSET
    if not isinstance(asked, wire_joints.Fastening):
        return domain.Fastening(asked)
    values = given(
        schedule=asked.schedule,
        framing_nail=asked.framing_nail,
        toe_nail=asked.toe_nail,
        sheathing_nail=asked.sheathing_nail,
        coating=asked.coating,
        joints=UNSET if asked.joints is UNSET else _joints(reading, asked.joints, f"{at}/joints"),
        packs=UNSET if asked.packs is UNSET else tuple(domain.Pack(p.fastener, p.count) for p in asked.packs),
        spare_percent=asked.spare_percent,
    )
    return domain.Fastening(**values)  # type: ignore[arg-type]


def _joints(reading: Reading, asked: list[wire_joints.OwnJoint], at: str) -> tuple[domain.OwnJoint, ...]:
    found = []
    for number, one in enumerate(asked):
        here = f"{at}/{number}"
        if isinstance(one.fastener, wire_joints.FastenerSize):
            kind: str = one.fastener.kind
            length = reading.length(
                one.fastener.length, f"{here}/fastener/length", limits.FASTENER_LENGTH_MIN, limits.FASTENER_LENGTH_MAX
            )
            diameter = reading.length(
                one.fastener.diameter, f"{here}/fastener/diameter",
                limits.FASTENER_DIAMETER_MIN, limits.FASTENER_DIAMETER_MAX,
            )  # fmt: skip
            name = ""
        else:
            kind, name = "nail", one.fastener
            length, diameter = NAILS[name]
        spacing = None
        if one.spacing is not UNSET:
            least, most = limits.FASTENER_SPACING_MIN, limits.FASTENER_SPACING_MAX
            spacing = reading.length(one.spacing, f"{here}/spacing", least, most)
        count = None if one.count is UNSET else one.count
        found.append(domain.OwnJoint(one.joint, name, kind, length, diameter, count, spacing))
    return tuple(found)


def wire_fastening(c: Converter, done: domain.Fastening) -> Literal["nailed", "screwed"] | wire_joints.Fastening:
    """The schedule as it travels: its word where that says all, else the object."""
    if done == domain.Fastening(done.schedule):
        return done.schedule
    return wire_joints.Fastening(
        schedule=done.schedule,
        framing_nail=done.framing_nail,  # type: ignore[arg-type]
        toe_nail=done.toe_nail,  # type: ignore[arg-type]
        sheathing_nail=done.sheathing_nail or UNSET,  # type: ignore[arg-type]
        coating=done.coating,  # type: ignore[arg-type]
        joints=[_own(c, one) for one in done.joints],
        packs=[wire_joints.Pack(fastener=pack.fastener, count=pack.count) for pack in done.packs],
        spare_percent=done.spare_percent,
    )


def _own(c: Converter, one: domain.OwnJoint) -> wire_joints.OwnJoint:
    size = wire_joints.FastenerSize(kind=one.kind, length=c.length(one.length), diameter=c.length(one.diameter))  # type: ignore[arg-type]
    return wire_joints.OwnJoint(
        joint=one.joint,  # type: ignore[arg-type]
        fastener=one.name or size,  # type: ignore[arg-type]
        count=UNSET if one.count is None else one.count,
        spacing=UNSET if one.spacing is None else c.length(one.spacing),
    )
