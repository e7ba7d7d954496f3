"""Parting a wall into sections that are raised one after another: only clear of openings, so that nothing heavy is cut."""

from collections.abc import Callable

import msgspec

from wallwright.domain.members import Member
from wallwright.domain.raising.braces import upright
from wallwright.domain.raising.hands import LEAST_SECTION, REACH, Section, Sections, counts, people, room_for
from wallwright.domain.raising.statics import Tilt, bearing
from wallwright.domain.raising.steps import held_at
from wallwright.domain.raising.weighing import BEFORE, lever, of_member, stage_of
from wallwright.domain.wall import Wall
from wallwright.lengths import FOOT

_Sum = tuple[float, float]
"""Weight in lb, and its moment about the plate's underside."""


class _Joint(msgspec.Struct, frozen=True, gc=False):
    """A stud at which the wall may be parted, or an end: what lies left of its left and of its right side."""

    left: int
    right: int
    before: _Sum
    through: _Sum


class _Part(msgspec.Struct, frozen=True, gc=False):
    """A length of wall that may be a section: where it lies, how it tilts, and the people that it takes."""

    left: int
    right: int
    tilt: Tilt
    people: int


class _Way(msgspec.Struct, frozen=True, gc=False):
    """Sections from the wall's left end to a joint: people for the hardest (at least those given), how many, the heaviest.

    ``last`` is the section that ends there, ``before`` the way to where it begins; None where nothing is raised yet.
    """

    people: int
    sections: int
    heaviest_lb: float
    needed: int
    last: _Part | None = None
    before: "_Way | None" = None

    def parts(self) -> tuple[Section, ...]:
        """The sections in order."""
        found: list[Section] = []
        way: _Way | None = self
        while way is not None and way.last is not None:
            found.append(_told(way.last))
            way = way.before
        return tuple(reversed(found))


def wholes(wall: Wall, members: tuple[Member, ...]) -> dict[str, tuple[int, int]]:
    """From where to where each opening's framing stays whole: king to king, in x."""
    found = {opening.name: (opening.left, opening.right) for opening in wall.openings}
    for member in members:
        if member.opening in found:
            left, right = found[member.opening]
            found[member.opening] = (min(left, member.x), max(right, member.right))
    return found


def parted(wall: Wall, members: tuple[Member, ...], pcf: float, *, over_bolts: bool) -> Sections:
    """The sections that the fewest hands can raise, not fewer than those given; as few sections as may be, then as even.

    A section is weighed with the studs at both its joints. ``pcf`` is the timber's density in lb per cubic foot.
    """
    lifted = tuple(member for member in members if stage_of(wall, member) == BEFORE)
    kept = wholes(wall, lifted)

    def joint(left: int, right: int) -> _Joint:
        return _Joint(left, right, _until(wall, lifted, left, pcf), _until(wall, lifted, right, pcf))

    def section(a: _Joint, b: _Joint) -> _Part:
        weight, moment = b.through[0] - a.before[0], b.through[1] - a.before[1]
        left, right = max(0, a.left), min(wall.length, b.right)
        tilt = Tilt(weight, round(moment / weight), lever(wall, members, left, right), REACH)
        push = tilt.walking(tilt.hardest_push())
        found = counts(tilt.first_lift, push, weight, right - left, over_bolts=over_bolts)
        return _Part(left, right, tilt, people(found))

    joints = [
        joint(-wall.length, 0),
        *(joint(stud.x, stud.right) for stud in sorted(lifted, key=lambda one: one.x) if _clear(wall, stud, kept)),
        joint(wall.length, 2 * wall.length),
    ]
    whole = tuple((name, section(joint(left, left), joint(right, right))) for name, (left, right) in kept.items())
    best = _best(joints, wall.hands, section)
    hardest = max(whole, key=lambda one: (one[1].people, one[1].tilt.weight_lb, one[0]), default=None)
    return Sections(
        best.sections if best else 0, best.needed if best else 0, best.heaviest_lb if best else 0.0,
        hardest[0] if hardest else "", _told(hardest[1]) if hardest else None, best.parts() if best else (),
    )  # fmt: skip


def _told(part: _Part) -> Section:
    """A section with its own forces."""
    tilt = part.tilt
    push, thrust, held = tilt.hardest_push(), tilt.hardest_thrust(), held_at(part.right - part.left)
    return Section(
        part.left, part.right, tilt.weight_lb, tilt.first_lift, tilt.walking(push), push, tilt.thrust(thrust), thrust,
        bearing(tilt, thrust), part.people, held, tilt.thrust(thrust) / held,
    )  # fmt: skip


def _clear(wall: Wall, stud: Member, kept: dict[str, tuple[int, int]]) -> bool:
    """Whether the wall may be parted at a stud: it reaches from plate to plate, clear of openings and of both ends."""
    ends = stud.x >= LEAST_SECTION and stud.right <= wall.length - LEAST_SECTION
    return ends and upright(wall, stud) and not any(a < stud.x and stud.right < b for a, b in kept.values())


def _best(joints: list[_Joint], hands: int, section: Callable[[_Joint, _Joint], _Part]) -> _Way | None:
    """The best way to the last joint; None where along no section there is room for those that it takes."""
    ways: list[_Way | None] = [_Way(hands, 0, 0.0, 0)]
    for number, end in enumerate(joints[1:], 1):
        best: _Way | None = None
        for start, way in zip(reversed(joints[:number]), reversed(ways), strict=True):
            if way is None or end.left - start.right < LEAST_SECTION:
                continue
            one = section(start, end)
            if best is not None and best.people == hands < one.people:
                # Sections that begin further off are heavier still.
                break
            if one.people > room_for(one.right - one.left):
                continue
            new = _Way(
                max(way.people, one.people), way.sections + 1, max(way.heaviest_lb, one.tilt.weight_lb),
                max(way.needed, one.people), one, way,
            )  # fmt: skip
            if best is None or _rank(new) < _rank(best):
                best = new
        ways.append(best)
    return ways[-1]


def _rank(way: _Way) -> tuple[int, int, float]:
    return way.people, way.sections, way.heaviest_lb


def _until(wall: Wall, members: tuple[Member, ...], x: int, pcf: float) -> _Sum:
    """What of the members lies left of x; a member that is cut there gives its share by length."""
    weight = moment = 0.0
    for member in members:
        if member.x >= x:
            continue
        bulk = of_member(member)
        cut = min(x, member.right)
        share = (cut - member.x) / member.width
        high = bulk.y / bulk.volume
        if share < 1 and member.outline:
            # A plate on a slope lies lower or higher there than on the whole.
            left, right = max(0, member.x), min(wall.length, member.right)
            if left < min(cut, right):
                high += lever(wall, members, left, min(cut, right)) - lever(wall, members, left, right)
        own = share * bulk.volume / (12 * FOOT**3) * pcf
        weight, moment = weight + own, moment + own * high
    return weight, moment
