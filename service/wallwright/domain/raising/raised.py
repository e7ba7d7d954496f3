"""One wall raised: its weights, the lift, hands, what holds and braces it, the wind, the steps, and what to say."""

from typing import Final

import msgspec

from wallwright.domain.members import Layout, Member
from wallwright.domain.raising import wind
from wallwright.domain.raising.braces import Brace, braces
from wallwright.domain.raising.hands import (
    NOT_PARTED,
    REACH,
    Advice,
    Count,
    LiftTask,
    Section,
    advice,
    counts,
    people,
    room_for,
    tasks,
)
from wallwright.domain.raising.notes import (
    LINES_BEYOND,
    hand_findings,
    holding_findings,
    other_findings,
    wind_findings,
)
from wallwright.domain.raising.parting import parted
from wallwright.domain.raising.statics import CurvePoint, Tilt, bearing, curve
from wallwright.domain.raising.steps import Restraint, Step, Zone, restraint, steps
from wallwright.domain.raising.weighing import (
    BEFORE,
    NOTHING,
    Bulk,
    Heap,
    Place,
    Weighed,
    Weight,
    lever,
    of_member,
    of_piece,
    stage_of,
    total,
    weighed,
)
from wallwright.domain.skin import Piece, Skin
from wallwright.domain.slopes import top_edge
from wallwright.domain.wall import Wall
from wallwright.findings import Finding
from wallwright.published.raising import ZONE_MORE
from wallwright.published.weights import TIMBER_SOURCE, panel_pcf, panel_source, timber_pcf
from wallwright.sources import Source

SAID: Final = (
    "flat-wall",
    "reach",
    "edge-lift",
    "even-hands",
    "no-fasteners",
    "drag-skinned",
    "drag-bare",
    "steady-wind",
)
"""What is taken for granted, by code; the texts stand in `wallwright.findings.raising`."""


class Material(msgspec.Struct, frozen=True):
    """What the weights are reckoned with: densities in lb per cubic foot, and where they are written."""

    timber_pcf: float
    sheet_pcf: float
    timber_source: Source
    sheet_source: Source


class Lift(msgspec.Struct, frozen=True):
    """One state of the wall, bare or skinned, as it is lifted.

    ``push`` and ``thrust`` are the greatest of hands that walk in, each at its angle; ``bears_lb`` is what is then left on
    the bottom plate. Winds are in miles an hour.
    """

    weight_lb: float
    centre: Place
    lift_lb: float
    push_lb: float
    push_degrees: float
    push_along: int
    thrust_lb: float
    thrust_degrees: float
    bears_lb: float
    counts: tuple[Count, ...]
    hands_needed: int
    tips_mph: float
    raise_below_mph: float


class Raised(msgspec.Struct, frozen=True):
    """A wall raised. ``complete`` holds what is fixed after raising too; ``top`` is how far up the hands lift.

    ``sections`` are those that it is raised in; none where it is raised whole.
    """

    wall: Wall
    material: Material
    pieces: tuple[Weighed, ...]
    bare: Lift
    skinned: Lift
    complete: Weight
    top: int
    lift_curve: tuple[CurvePoint, ...]
    tasks: tuple[LiftTask, ...]
    advice: Advice
    sections: tuple[Section, ...]
    restraint: Restraint
    braces: tuple[Brace, ...]
    winds: tuple[wind.WindRow, ...]
    zone: Zone
    steps: tuple[Step, ...]
    assumptions: tuple[str, ...]
    findings: tuple[Finding, ...]


class _Weights(msgspec.Struct, frozen=True):
    """Every piece weighed, and what is lifted together."""

    pieces: tuple[Weighed, ...]
    bare: Weight
    skinned: Weight
    complete: Weight


def raised(layout: Layout, skin: Skin, braced: tuple[Brace, ...] | None = None) -> Raised:
    """Everything about raising a wall that is framed and skinned; ``braced`` are its braces where the building says them."""
    wall = layout.wall
    weights = _weigh(layout, skin)
    first = tuple(member for member in layout.members if stage_of(wall, member) == BEFORE)
    sheets = tuple(piece for piece in skin.pieces if piece.stage == BEFORE)
    top = lever(wall, layout.members, 0, wall.length)
    tilts = tuple(Tilt(one.weight_lb, one.centre.y, top, REACH) for one in (weights.bare, weights.skinned))
    sails = _sails(first, sheets)
    bare, skinned = (
        _lift(layout, one, tilt, sail)
        for one, tilt, sail in zip((weights.bare, weights.skinned), tilts, sails, strict=True)
    )
    height = top_edge(wall).most(0, wall.length)
    too_few = people(bare.counts) > min(wall.hands, room_for(wall.length))
    density = float(timber_pcf(wall.species, wall.moisture_percent))
    apart = parted(wall, layout.members, density, over_bolts=bool(layout.anchors)) if too_few else NOT_PARTED
    todo = advice(wall.hands, wall.length, height, bare.counts, skinned.counts, apart)
    as_lifted, tilt = (skinned, tilts[1]) if todo.skin == BEFORE else (bare, tilts[0])
    parts = apart.parts if todo.sections > 1 else ()
    held = restraint(layout, as_lifted.thrust_lb, parts)
    braced = braces(wall, layout.members) if braced is None else braced
    zone = Zone(height + ZONE_MORE, wall.length, height + LINES_BEYOND)
    winds = _winds(wall, braced, sails[0], _sails(layout.members, skin.pieces)[1])
    left_out = tuple(one.id for one in weights.pieces if one.stage != BEFORE)
    design = winds[-1] if winds and wall.site is not None and wall.site.wind_mph else None
    findings = (
        *hand_findings(wall, height, todo, bare.counts, skinned.counts, apart),
        *holding_findings(height, held, tilt, tilts[1], todo, apart),
        *wind_findings(
            wind.tipping(wall, weights.bare, sails[0]), wind.tipping(wall, weights.skinned, sails[1]), design
        ),
        *other_findings(layout, skin, zone, left_out),
    )
    return Raised(
        wall, _material(wall), weights.pieces, bare, skinned, weights.complete, top, curve(*tilts),
        tasks(over_bolts=held.lifted_over), todo, parts, held, braced, winds, zone,
        steps(layout, skin, todo, as_lifted.hands_needed, held, braced, zone, as_lifted.centre.x, apart), SAID, findings,
    )  # fmt: skip


def _weigh(layout: Layout, skin: Skin) -> _Weights:
    """Every member and piece weighed, and the sums of what is lifted bare, skinned, and of all."""
    wall = layout.wall
    sheet = wall.sheathing.sheet
    timber, panel = timber_pcf(wall.species, wall.moisture_percent), panel_pcf(sheet.kind)
    framing = [(member, stage_of(wall, member), of_member(member)) for member in layout.members]
    sheets = [(piece, piece.stage, of_piece(piece, sheet.thickness)) for piece in skin.pieces]
    pieces = (
        *(weighed(member.id, "timber", stage, bulk, float(timber)) for member, stage, bulk in framing),
        *(weighed(piece.id, "sheet", stage, bulk, float(panel)) for piece, stage, bulk in sheets),
    )

    def heap(timbers: Bulk, panels: Bulk) -> Weight:
        return Heap(timbers, panels, timber, panel).weight()

    before = total(bulk for _, stage, bulk in framing if stage == BEFORE)
    skinned = total(bulk for _, stage, bulk in sheets if stage == BEFORE)
    every = (total(bulk for _, _, bulk in framing), total(bulk for _, _, bulk in sheets))
    return _Weights(pieces, heap(before, NOTHING), heap(before, skinned), heap(*every))


def _sails(members: tuple[Member, ...], pieces: tuple[Piece, ...]) -> tuple[wind.Sail, wind.Sail]:
    """What the wind takes hold of, bare and skinned; few sheets never shelter a frame."""
    bare, sheets = wind.bare_sail(members), wind.skinned_sail(pieces)
    return bare, wind.Sail(max(bare.drag_area, sheets.drag_area), max(bare.drag_moment, sheets.drag_moment))


def _lift(layout: Layout, weight: Weight, tilt: Tilt, sail: wind.Sail) -> Lift:
    push, thrust = tilt.hardest_push(), tilt.hardest_thrust()
    wall = layout.wall
    found = counts(tilt.first_lift, tilt.walking(push), weight.weight_lb, wall.length, over_bolts=bool(layout.anchors))
    blown = wind.tipping(wall, weight, sail)
    return Lift(
        weight.weight_lb, weight.centre, tilt.first_lift, tilt.walking(push), push, round(tilt.hands_along(push)),
        tilt.thrust(thrust), thrust, bearing(tilt, thrust), found, people(found), blown.tips_mph, blown.raise_below_mph,
    )  # fmt: skip


def _winds(wall: Wall, braced: tuple[Brace, ...], bare: wind.Sail, skinned: wind.Sail) -> tuple[wind.WindRow, ...]:
    """What the most loaded brace carries in each wind told, that of the site last where it is known."""
    if not braced:
        return ()
    most = max(braced, key=lambda brace: brace.share / brace.up)
    site = wall.site.wind_mph if wall.site is not None else None
    mph = (*wind.WINDS_MPH, site) if site else wind.WINDS_MPH
    along = (most.up**2 + most.out**2) ** 0.5 / most.out
    return wind.wind_rows(mph, bare, skinned, most.share, most.up, along)


def _material(wall: Wall) -> Material:
    kind = wall.sheathing.sheet.kind
    return Material(
        float(timber_pcf(wall.species, wall.moisture_percent)),
        float(panel_pcf(kind)),
        TIMBER_SOURCE,
        panel_source(kind),
    )
