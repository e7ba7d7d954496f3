"""The fasteners of a wall: wire request to domain, and back as JSON, drawing or list."""

from typing import Final

from wallwright.domain import fasteners as domain
from wallwright.domain import framed
from wallwright.drawing.fasteners import nailing_elevation
from wallwright.lengths import Units
from wallwright.operations.canonical import revision_of
from wallwright.operations.completed import to_wire
from wallwright.operations.converters import CONVERTERS, Converter
from wallwright.operations.csv import csv_text
from wallwright.operations.walls import to_domain
from wallwright.published.connections import LBF_IN_N
from wallwright.wire import fasteners as wire
from wallwright.wire.base import UNSET
from wallwright.wire.wall import Wall

KG_IN_LB: Final = 0.45359237
_KN_PER_M: Final = LBF_IN_N / 0.3048 / 1000


def answer(request: Wall) -> wire.FastenersAnswer:
    """The fasteners as they travel. Raises PlanRefused with every fault found."""
    return fasteners_answer(framed.fastened(to_domain(request)), request.units)


def drawing(request: Wall) -> str:
    """The nailing elevation, as SVG."""
    wall = to_domain(request)
    done = framed.framed(wall)
    skin = framed.skinned(done)
    found = domain.fasten(done.layout, skin)
    return nailing_elevation(found, skin, done.layout, request.units, revision_of(wall, request.units))


def table(request: Wall) -> str:
    """The joints with their counts as CSV, then what to buy."""
    found = framed.fastened(to_domain(request))
    c = CONVERTERS[request.units]
    header = ["joint", "fastener", "coating", f"length_{request.units}", "length_tape", f"diameter_{request.units}",
              "per_joint", "joints", "total", f"spacing_{request.units}", "to_buy", "weight_lb", "weight_kg", "pack", "boxes",
              "source"]  # fmt: skip
    rows: list[list[object]] = [
        [
            j.joint, j.fastener, j.coating, c.number(j.length), c.tape(j.length), c.number(j.diameter), j.per_joint,
            j.joints, j.total, "" if j.spacing is None else c.number(j.spacing), "", "", "", "", "", j.source.text(),
        ]
        for j in found.joints
    ]  # fmt: skip
    rows += [
        [
            "all", t.fastener, t.coating, c.number(t.length), c.tape(t.length), c.number(t.diameter), "", "", t.count, "",
            t.to_buy, round(t.weight_lb, 3), round(t.weight_lb * KG_IN_LB, 3), "" if t.pack is None else t.pack,
            "" if t.boxes is None else t.boxes, "",
        ]
        for t in found.totals
    ]  # fmt: skip
    return csv_text(header, rows)


def fasteners_answer(found: domain.Fasteners, units: Units) -> wire.FastenersAnswer:
    """A domain value as it travels, in ``units``."""
    c = CONVERTERS[units]
    return wire.FastenersAnswer(
        wall=to_wire(found.wall, units),
        joints=[_joint(c, joint) for joint in found.joints],
        totals=[total_answer(c, total) for total in found.totals],
        strengths=[_strength(c, one) for one in found.strengths],
        findings=[c.finding(finding) for finding in found.findings],
        unit_shear=UNSET if found.shear is None else _shear(c, found.shear),
        points=[_point(c, point) for point in found.points] if found.wall.positions else UNSET,
    )


def _joint(c: Converter, j: domain.Joint) -> wire.Joint:
    return wire.Joint(
        j.joint, j.fastener, j.coating, c.number(j.length), c.tape(j.length), c.number(j.diameter), j.per_joint, j.joints,
        j.total, j.source.text(), UNSET if j.spacing is None else c.number(j.spacing),
    )  # fmt: skip


def total_answer(c: Converter, t: domain.Total) -> wire.Total:
    """A total as it travels."""
    return wire.Total(
        t.fastener, t.kind, t.coating, c.number(t.length), c.number(t.diameter), t.count, t.to_buy,
        round(t.weight_lb, 3), round(t.weight_lb * KG_IN_LB, 3), UNSET if t.pack is None else t.pack,
        UNSET if t.boxes is None else t.boxes,
    )  # fmt: skip


def _point(c: Converter, p: domain.Point) -> wire.Point:
    return wire.Point(
        p.joint, p.fastener, c.number(p.x), c.number(p.y), c.number(p.z), list(p.direction), list(p.pieces)
    )  # fmt: skip


def _strength(c: Converter, s: domain.Strength) -> wire.Strength:
    lateral = s.lateral_lbf
    return wire.Strength(
        s.joint, s.fastener, c.number(s.penetration), s.mode, round(s.withdrawal_lbf, 1),
        round(s.withdrawal_lbf * LBF_IN_N, 1), s.assumptions, UNSET if lateral is None else round(lateral, 1),
        UNSET if lateral is None else round(lateral * LBF_IN_N, 1),
    )  # fmt: skip


def _shear(c: Converter, s: domain.Shear) -> wire.Shear:
    return wire.Shear(
        round(s.wind_plf, 1), round(s.wind_plf * _KN_PER_M, 3), round(s.seismic_plf, 1),
        round(s.seismic_plf * _KN_PER_M, 3), round(s.gravity_factor, 4), c.number(s.panel), s.nail, c.number(s.spacing),
        s.source.text(),
    )  # fmt: skip
