"""The raising answer: weights, lift, hands, restraint, braces, wind, steps."""

from typing import Annotated

from msgspec import UNSET, Meta, UnsetType

from wallwright.wire.answers import Finding, Number, Tape
from wallwright.wire.base import Answer
from wallwright.wire.wall import Wall

Degrees = Annotated[float, Meta(description="Degrees from the floor.")]
Factor = Annotated[float, Meta(description="A multiplier of the lifting equation.")]


class Centre(Answer, frozen=True):
    """A centre of gravity; z runs from the framing's outer face inwards."""

    x: Number
    y: Number
    z: Number


class Weighed(Answer, frozen=True):
    """One member or piece of sheathing."""

    id: str
    kind: Annotated[str, Meta(description="`timber` or `sheet`.")]
    stage: Annotated[str, Meta(description="`before-raising` or `after-raising`.")]
    weight_lb: float
    weight_kg: float
    centre: Centre


class Weight(Answer, frozen=True):
    """Weight and common centre."""

    weight_lb: float
    weight_kg: float
    centre: Centre


class Material(Answer, frozen=True):
    """Densities that the weights are reckoned with."""

    timber_pcf: Annotated[float, Meta(description="Pounds per cubic foot.")]
    timber_kg_m3: float
    timber_source: str
    sheet_pcf: float
    sheet_kg_m3: float
    sheet_source: str


class Count(Answer, frozen=True):
    """People by one rule; where it shares a force, that force and one person's share."""

    rule: Annotated[
        str,
        Meta(
            description="`lifting-equation`, `walking-in`, `length-of-wall`, `never-alone` or `over-the-bolts`; more may come."
        ),
    ]
    people: int
    source: str
    force_lbf: float | UnsetType = UNSET
    force_n: float | UnsetType = UNSET
    each_lbf: float | UnsetType = UNSET
    each_n: float | UnsetType = UNSET


class Lift(Answer, frozen=True):
    """One state of the wall as it is lifted: what is fixed before raising, with or without its sheets."""

    weight_lb: float
    weight_kg: float
    centre: Centre
    lift_lbf: Annotated[float, Meta(description="Upright force at the top plate, the same at every angle.")]
    lift_n: float
    push_lbf: Annotated[float, Meta(description="Greatest push of hands that walk in, square to the wall.")]
    push_n: float
    push_degrees: Degrees
    push_along: Annotated[Number, Meta(description="How far up the wall they then push.")]
    push_along_tape: Tape
    thrust_lbf: Annotated[float, Meta(description="Greatest force that drives the plate along the floor.")]
    thrust_n: float
    thrust_degrees: Degrees
    bears_lbf: Annotated[float, Meta(description="What then still bears on the plate.")]
    bears_n: float
    counts: list[Count]
    hands_needed: Annotated[int, Meta(description="The largest of all counts.")]
    tips_mph: Annotated[float, Meta(description="Wind in which the wall tips, standing free on its plate.")]
    tips_km_h: float
    raise_below_mph: Annotated[float, Meta(description="Wind past which it is not raised by hand.")]
    raise_below_km_h: float


class Force(Answer, frozen=True):
    """What one angle asks."""

    at_plate_lbf: Annotated[float, Meta(description="Push square to the wall, hands at its top.")]
    at_plate_n: float
    walking_lbf: Annotated[float, Meta(description="Push square to the wall, hands walking in.")]
    walking_n: float
    thrust_lbf: Annotated[float, Meta(description="Level force on the bottom plate, hands walking in.")]
    thrust_n: float


class CurvePoint(Answer, frozen=True):
    """One angle on the way up."""

    angle_degrees: int
    hands_along: Annotated[Number, Meta(description="How far up the wall hands that walk in push.")]
    hands_along_tape: Tape
    bare: Force
    skinned: Force


class LiftTask(Answer, frozen=True):
    """A task of the lifting equation, its figures and multipliers: `limit` is one person's share."""

    name: Annotated[str, Meta(description="`first-lift` or `over-the-bolts`.")]
    reach: Annotated[Number, Meta(description="Hands before the ankles.")]
    height: Annotated[Number, Meta(description="Hands above the floor where the lift begins.")]
    way: Annotated[Number, Meta(description="How far up they go.")]
    turn_degrees: float
    grip: str
    per_minute: float
    load_constant_lb: float
    load_constant_kg: float
    reach_factor: Factor
    height_factor: Factor
    way_factor: Factor
    turn_factor: Factor
    frequency_factor: Factor
    grip_factor: Factor
    limit_lb: float
    limit_kg: float
    source: str


class Advice(Answer, frozen=True):
    """What to do with the hands given."""

    skin: Annotated[str, Meta(description="`before-raising` or `after-raising`.")]
    lift: Annotated[str, Meta(description="`whole`, `in-sections`, `with-more-hands` or `by-machine`; more may come.")]
    sections: Annotated[int, Meta(description="Sections parted clear of openings; 1 is whole.")]


class Section(Answer, frozen=True):
    """One section of a wall that is raised in sections: bare, with forces of its own."""

    left: Annotated[
        Number, Meta(description="Where it begins, in x; the stud at a joint is weighed with both sections.")
    ]
    left_tape: Tape
    right: Number
    right_tape: Tape
    weight_lb: float
    weight_kg: float
    lift_lbf: Annotated[float, Meta(description="Upright force at the top plate.")]
    lift_n: float
    push_lbf: Annotated[float, Meta(description="Greatest push of hands that walk in, square to it.")]
    push_n: float
    push_degrees: Degrees
    thrust_lbf: Annotated[float, Meta(description="Greatest force that drives its plate along the floor.")]
    thrust_n: float
    thrust_degrees: Degrees
    bears_lbf: Annotated[float, Meta(description="What then still bears on its plate.")]
    bears_n: float
    hands_needed: int
    held: Annotated[int, Meta(description="At how many places its plate is held.")]
    each_lbf: Annotated[float, Meta(description="Level force on each where the thrust is greatest.")]
    each_n: float


class Restraint(Answer, frozen=True):
    """What holds the bottom plate while the wall is tilted."""

    kind: Annotated[
        str, Meta(description="`straps-or-hinges`, `straps-or-stops` or `stops-clear-of-bolts`; more may come.")
    ]
    count: Annotated[int, Meta(description="Of all sections where it is raised in sections.")]
    each_lbf: Annotated[float, Meta(description="Level force on each where the thrust is greatest.")]
    each_n: float
    lifted_over: Annotated[bool, Meta(description="Whether the wall is lifted over bolts.")]


class Brace(Answer, frozen=True):
    """One temporary brace, inside, square to the wall."""

    member: Annotated[str, Meta(description="The stud that it is nailed to.")]
    x: Annotated[Number, Meta(description="The middle of that stud.")]
    x_tape: Tape
    up: Annotated[Number, Meta(description="How far up the stud.")]
    up_tape: Tape
    out: Annotated[Number, Meta(description="Where its foot stands, from the wall.")]
    out_tape: Tape
    length: Annotated[Number, Meta(description="Of the board, past its nails at both ends.")]
    length_tape: Tape
    angle_degrees: Degrees
    share: Annotated[float, Meta(description="The part of the wall that it holds.")]
    source: str


class WindRow(Answer, frozen=True):
    """What the most loaded brace carries in one wind, level at its head and along it."""

    mph: float
    km_h: float
    pressure_psf: float
    pressure_pa: float
    bare_level_lbf: float
    bare_level_n: float
    bare_along_lbf: float
    bare_along_n: float
    skinned_level_lbf: float
    skinned_level_n: float
    skinned_along_lbf: float
    skinned_along_n: float


class Zone(Answer, frozen=True):
    """What is kept clear while the wall is raised."""

    depth: Annotated[Number, Meta(description="On either side of the wall.")]
    depth_tape: Tape
    along: Number
    lines: Annotated[Number, Meta(description="No overhead line is nearer.")]
    lines_tape: Tape


class RaisingStep(Answer, frozen=True):
    """One step of the order of work; codes are stable, texts may change."""

    number: int
    step: str
    what: str
    where: str
    caution: Annotated[str, Meta(description="Empty where there is nothing in particular to mind.")]
    how_many: Annotated[int, Meta(description="Left out where nothing is counted.")] | UnsetType = UNSET
    counts: (
        Annotated[str, Meta(description="What `how_many` counts, such as `people`; left out with it.")] | UnsetType
    ) = UNSET


class Assumption(Answer, frozen=True):
    """What is taken for granted."""

    text: str
    source: str


class RaisingAnswer(Answer, frozen=True):
    """A wall raised."""

    wall: Wall
    material: Material
    pieces: list[Weighed]
    bare: Lift
    skinned: Lift
    complete: Annotated[Weight, Meta(description="With what is fixed after raising.")]
    top: Annotated[Number, Meta(description="How far up the wall the hands lift: its mean height then.")]
    lift_curve: list[CurvePoint]
    tasks: list[LiftTask]
    advice: Advice
    sections: Annotated[list[Section], Meta(description="Empty where it is raised whole.")]
    restraint: Restraint
    braces: list[Brace]
    winds: list[WindRow]
    zone: Zone
    steps: list[RaisingStep]
    assumptions: list[Assumption]
    findings: list[Finding]
