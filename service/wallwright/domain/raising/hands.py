"""How many people a lift takes: by the published lifting equation for the task, by the trade's rule; the larger counts."""

from math import ceil
from typing import Final

import msgspec

from wallwright.lengths import FOOT, INCH
from wallwright.published import lifting
from wallwright.published.raising import CREW_LENGTH, CREW_SOURCE, MACHINE_HEIGHT
from wallwright.sources import COMMON_PRACTICE, Source

REACH: Final = 5 * FOOT
"""How high hands push that walk in under the wall: common practice, no source."""
EDGE_LIFT: Final = lifting.Task(reach=12 * INCH, height=8 * INCH, way=28 * INCH)
"""The first lift: the top plate, blocked up so that hands get under it at 8 in, lifted to 36 in, 12 in before the ankles.
The inputs are common practice, no source."""
CARRY_OVER: Final = lifting.Task(reach=12 * INCH, height=30 * INCH, way=10 * INCH)
"""The upright wall lifted over the bolts by its studs, hands at 30 in: common practice, no source."""
LEAST_PEOPLE: Final = 2
ROOM: Final = 24 * INCH
"""Length of wall that one person takes: common practice, no source."""
LEAST_SECTION: Final = 4 * FOOT
"""Shorter sections are not thought of: common practice, no source."""


class LiftTask(msgspec.Struct, frozen=True, gc=False):
    """A task of the lifting equation: what is lifted, the task's figures, and the limit for one person with its factors."""

    name: str
    task: lifting.Task
    limit: lifting.Limit
    source: Source


class Count(msgspec.Struct, frozen=True, gc=False):
    """People by one rule; ``force_lb`` is shared at ``each_lb`` a person, both 0 where the rule knows no force."""

    rule: str
    people: int
    force_lb: float
    each_lb: float
    source: Source


class Advice(msgspec.Struct, frozen=True, gc=False):
    """What to do with the hands given.

    ``skin`` is ``before-raising`` or ``after-raising``; ``lift`` is ``whole``, ``in-sections``, ``with-more-hands`` or
    ``by-machine``; ``sections`` part clear of openings.
    """

    skin: str
    lift: str
    sections: int


class Section(msgspec.Struct, frozen=True, gc=False):
    """A length of wall that is raised bare by itself, from ``left`` to ``right`` with the studs at both.

    Forces are its own, as those of a whole wall: the lift, the greatest push and thrust of hands that walk in, each at its
    angle, what is then left on its plate, and the level force on each of the ``held`` places that hold the plate.
    """

    left: int
    right: int
    weight_lb: float
    lift_lb: float
    push_lb: float
    push_degrees: float
    thrust_lb: float
    thrust_degrees: float
    bears_lb: float
    hands_needed: int
    held: int
    each_lb: float


class Sections(msgspec.Struct, frozen=True, gc=False):
    """A wall parted clear of its openings: the people for the hardest section, and the weight of the heaviest.

    ``sections`` is 0 where no parting gives the people room, ``parts`` are they, from the left to the right. ``opening`` is the one whose framing, king to king, is hardest
    to raise, ``whole`` that framing; empty and None in a wall without openings.
    """

    sections: int
    people: int
    heaviest_lb: float
    opening: str
    whole: Section | None
    parts: tuple[Section, ...] = ()


NOT_PARTED: Final = Sections(0, 0, 0.0, "", None)


def tasks(*, over_bolts: bool) -> tuple[LiftTask, ...]:
    """The tasks that the wall is lifted by."""
    found = [LiftTask("first-lift", EDGE_LIFT, lifting.limit(EDGE_LIFT), lifting.SOURCE)]
    if over_bolts:
        found.append(LiftTask("over-the-bolts", CARRY_OVER, lifting.limit(CARRY_OVER), lifting.SOURCE))
    return tuple(found)


def counts(first_lift: float, push: float, weight: float, length: int, *, over_bolts: bool) -> tuple[Count, ...]:
    """People by each rule, from forces in lb and the wall's length on the grid.

    The push of hands that walk in is shared at the first lift's limit, though the equation is made for lifts alone.
    """
    edge = lifting.limit(EDGE_LIFT).limit_lb
    found = [
        _by_force("lifting-equation", first_lift, edge, lifting.SOURCE),
        _by_force("walking-in", push, edge, COMMON_PRACTICE),
        Count("length-of-wall", -(-length // CREW_LENGTH), 0.0, 0.0, CREW_SOURCE),
        Count("never-alone", LEAST_PEOPLE, 0.0, 0.0, COMMON_PRACTICE),
    ]
    if over_bolts:
        found.append(_by_force("over-the-bolts", weight, lifting.limit(CARRY_OVER).limit_lb, lifting.SOURCE))
    return tuple(found)


def _by_force(rule: str, force: float, each: float, source: Source) -> Count:
    # A hair over a whole number of people is a rounding of floats, not a person.
    return Count(rule, max(1, ceil(force / each - 1e-9)), force, each, source)


def people(found: tuple[Count, ...]) -> int:
    """The larger of all counts."""
    return max(count.people for count in found)


def room_for(length: int) -> int:
    """How many people find room along a wall."""
    return max(LEAST_PEOPLE, length // ROOM)


def advice(
    hands: int, length: int, height: int, bare: tuple[Count, ...], skinned: tuple[Count, ...], apart: Sections
) -> Advice:
    """Skin before or after, whole or in sections, with the hands given; by machine where no hands find room.

    A wall is skinned before raising where the hands can lift it so, since it is easier to skin lying.
    """
    if height >= MACHINE_HEIGHT:
        return Advice("before-raising", "by-machine", 1)
    room = room_for(length)
    able = min(hands, room)
    if people(skinned) <= able:
        return Advice("before-raising", "whole", 1)
    if people(bare) <= able:
        return Advice("after-raising", "whole", 1)
    if apart.sections > 1 and apart.people <= hands:
        return Advice("after-raising", "in-sections", apart.sections)
    if people(bare) <= room:
        return Advice("after-raising", "with-more-hands", 1)
    if apart.sections > 1:
        return Advice("after-raising", "with-more-hands", apart.sections)
    return Advice("before-raising", "by-machine", 1)
