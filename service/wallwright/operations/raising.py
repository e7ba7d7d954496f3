"""Raising a wall: wire request to domain, and back as JSON, drawing or list of steps."""

from msgspec import UNSET

from wallwright.domain import framed
from wallwright.domain.raising.braces import Brace
from wallwright.domain.raising.hands import Count, LiftTask, Section
from wallwright.domain.raising.raised import Lift, Raised
from wallwright.domain.raising.statics import CurvePoint, Force
from wallwright.domain.raising.steps import Step
from wallwright.domain.raising.weighing import Place
from wallwright.domain.raising.wind import WindRow
from wallwright.drawing.raising import raising_sketch
from wallwright.findings.raising import ASSUMPTIONS, STEPS
from wallwright.lengths import Units
from wallwright.operations.canonical import revision_of
from wallwright.operations.completed import to_wire
from wallwright.operations.converters import CONVERTERS, Converter
from wallwright.operations.csv import csv_text
from wallwright.operations.walls import to_domain
from wallwright.wire import raising as wire
from wallwright.wire.wall import Wall

_KG = 0.45359237
_NEWTON = 4.4482216152605
_KG_M3 = 16.018463373960138
_PASCAL = 47.88025898033584
_KM = 1.609344


def answer(request: Wall) -> wire.RaisingAnswer:
    """What raising the wall takes, as it travels. Raises PlanRefused with every fault found."""
    return raising_answer(framed.raising(to_domain(request)), request.units)


def drawing(request: Wall) -> str:
    """The raising sketch, as SVG."""
    wall = to_domain(request)
    found = framed.raising(wall)
    texts = [one.text for one in map(CONVERTERS[request.units].finding, found.findings)]
    return raising_sketch(found, request.units, revision_of(wall, request.units), texts)


def table(request: Wall) -> str:
    """The steps as CSV."""
    c = CONVERTERS[request.units]
    header = ["number", "step", "what", "where", "how_many", "caution", "counts"]
    rows: list[list[object]] = []
    for step in framed.raising(to_domain(request)).steps:
        one = step_answer(c, step)
        counted = ("", "") if one.how_many is UNSET else (one.how_many, one.counts)
        rows.append([one.number, one.step, one.what, one.where, counted[0], one.caution, counted[1]])
    return csv_text(header, rows)


def raising_answer(found: Raised, units: Units) -> wire.RaisingAnswer:
    """A domain result as it travels, in ``units``."""
    c = CONVERTERS[units]
    n, t = c.number, c.tape
    material, held, zone = found.material, found.restraint, found.zone
    return wire.RaisingAnswer(
        wall=to_wire(found.wall, units),
        material=wire.Material(
            _r(material.timber_pcf), _r(material.timber_pcf * _KG_M3), material.timber_source.text(),
            _r(material.sheet_pcf), _r(material.sheet_pcf * _KG_M3), material.sheet_source.text(),
        ),
        pieces=[
            wire.Weighed(p.id, p.kind, p.stage, _r(p.weight_lb), _r(p.weight_lb * _KG), _centre(c, p.centre))
            for p in found.pieces
        ],
        bare=_lift(c, found.bare),
        skinned=_lift(c, found.skinned),
        complete=wire.Weight(
            _r(found.complete.weight_lb), _r(found.complete.weight_lb * _KG), _centre(c, found.complete.centre)
        ),
        top=n(found.top),
        lift_curve=[_point(c, point) for point in found.lift_curve],
        tasks=[_task(c, task) for task in found.tasks],
        advice=wire.Advice(found.advice.skin, found.advice.lift, found.advice.sections),
        sections=[_section(c, one) for one in found.sections],
        restraint=wire.Restraint(held.kind, held.count, *_force(held.each_lb), held.lifted_over),
        braces=[_brace(c, brace) for brace in found.braces],
        winds=[_wind(row) for row in found.winds],
        zone=wire.Zone(n(zone.depth), t(zone.depth), n(zone.along), n(zone.lines), t(zone.lines)),
        steps=[step_answer(c, step) for step in found.steps],
        assumptions=[
            wire.Assumption(ASSUMPTIONS[code].text, ASSUMPTIONS[code].source.text()) for code in found.assumptions
        ],
        findings=[c.finding(finding) for finding in found.findings],
    )  # fmt: skip


def _r(value: float) -> float:
    """A float that is no length, to the thousandth."""
    return round(value, 3)


def _force(lb: float) -> tuple[float, float]:
    return _r(lb), _r(lb * _NEWTON)


def _speed(mph: float) -> tuple[float, float]:
    return round(mph, 2), round(mph * _KM, 2)


def _centre(c: Converter, at: Place) -> wire.Centre:
    return wire.Centre(c.number(at.x), c.number(at.y), c.number(at.z))


def _lift(c: Converter, one: Lift) -> wire.Lift:
    return wire.Lift(
        _r(one.weight_lb), _r(one.weight_lb * _KG), _centre(c, one.centre), *_force(one.lift_lb), *_force(one.push_lb),
        _r(one.push_degrees), c.number(one.push_along), c.tape(one.push_along), *_force(one.thrust_lb),
        _r(one.thrust_degrees), *_force(one.bears_lb), [_count(count) for count in one.counts], one.hands_needed,
        *_speed(one.tips_mph), *_speed(one.raise_below_mph),
    )  # fmt: skip


def _section(c: Converter, one: Section) -> wire.Section:
    n, t = c.number, c.tape
    return wire.Section(
        n(one.left), t(one.left), n(one.right), t(one.right), _r(one.weight_lb), _r(one.weight_lb * _KG),
        *_force(one.lift_lb), *_force(one.push_lb), _r(one.push_degrees), *_force(one.thrust_lb), _r(one.thrust_degrees),
        *_force(one.bears_lb), one.hands_needed, one.held, *_force(one.each_lb),
    )  # fmt: skip


def _count(one: Count) -> wire.Count:
    if not one.each_lb:
        return wire.Count(one.rule, one.people, one.source.text())
    return wire.Count(one.rule, one.people, one.source.text(), *_force(one.force_lb), *_force(one.each_lb))


def _point(c: Converter, one: CurvePoint) -> wire.CurvePoint:
    along = one.hands_along
    return wire.CurvePoint(one.angle_degrees, c.number(along), c.tape(along), _forces(one.bare), _forces(one.skinned))


def _forces(one: Force) -> wire.Force:
    return wire.Force(*_force(one.at_plate_lb), *_force(one.walking_lb), *_force(one.thrust_lb))


def _task(c: Converter, one: LiftTask) -> wire.LiftTask:
    task, limit, n = one.task, one.limit, c.number
    return wire.LiftTask(
        name=one.name,
        reach=n(task.reach),
        height=n(task.height),
        way=n(task.way),
        turn_degrees=task.turn_degrees,
        grip=task.grip,
        per_minute=task.per_minute,
        load_constant_lb=limit.constant_lb,
        load_constant_kg=_r(limit.constant_lb * _KG),
        reach_factor=round(limit.reach_factor, 4),
        height_factor=round(limit.height_factor, 4),
        way_factor=round(limit.way_factor, 4),
        turn_factor=round(limit.turn_factor, 4),
        frequency_factor=round(limit.frequency_factor, 4),
        grip_factor=round(limit.grip_factor, 4),
        limit_lb=_r(limit.limit_lb),
        limit_kg=_r(limit.limit_lb * _KG),
        source=one.source.text(),
    )


def _brace(c: Converter, one: Brace) -> wire.Brace:
    n, t = c.number, c.tape
    return wire.Brace(
        one.member, n(one.x), t(one.x), n(one.up), t(one.up), n(one.out), t(one.out), n(one.length), t(one.length),
        one.angle_degrees, round(one.share, 4), one.source.text(),
    )  # fmt: skip


def _wind(one: WindRow) -> wire.WindRow:
    return wire.WindRow(
        *_speed(one.mph), _r(one.pressure_psf), _r(one.pressure_psf * _PASCAL), *_force(one.bare_level_lb),
        *_force(one.bare_along_lb), *_force(one.skinned_level_lb), *_force(one.skinned_along_lb),
    )  # fmt: skip


def step_answer(c: Converter, one: Step) -> wire.RaisingStep:
    """One step with its texts filled in."""
    kind = STEPS[one.step]
    what, where, caution = (c.filled(text, one.values) for text in (kind.what, kind.where, kind.caution))
    counted = (UNSET, UNSET) if one.how_many is None else (one.how_many, kind.counts)
    return wire.RaisingStep(one.number, one.step, what, where, caution, *counted)
