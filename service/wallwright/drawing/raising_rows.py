"""What stands under a raising sketch before its findings: what its letters mean, and the figures."""

from typing import Final

from wallwright.domain.raising.raised import Raised
from wallwright.lengths import Units, tape_text

SHOWN_AT: Final = 45.0
"""The angle of the wall on the way up, in degrees from the floor."""
_SECTIONS_TOLD: Final = 6


def by_machine(found: Raised) -> bool:
    """Whether a machine raises the wall, and nobody by hand."""
    return found.advice.lift == "by-machine"


def who_lifts(found: Raised) -> str:
    """Who lifts what, in a few words."""
    lift = found.skinned if found.advice.skin == "before-raising" else found.bare
    if by_machine(found):
        return f"A machine lifts {_both(lift.weight_lb)}"
    if found.sections:
        people, force = (max(getattr(one, name) for one in found.sections) for name in ("hands_needed", "lift_lb"))
        return f"{people} people or more lift {len(found.sections)} sections, {_both(force)} at most at the top plate"
    return f"{lift.hands_needed} people or more lift {_both(lift.lift_lb)} at the top plate"


def _both(lb: float) -> str:
    return f"{-int(-lb // 1)} lb ({-int(-lb * 0.45359237 // 1)} kg)"


def told(found: Raised, units: Units) -> list[str]:
    """What the letters stand for, and the figures of both states."""

    def tape(length: int) -> str:
        return tape_text(length, units)

    held, machine = found.restraint, by_machine(found)
    ways = ("lift by machine", "slung on the way up") if machine else ("lift at the top plate", "push on the way up")
    rows = [
        f"A {ways[0]}, B {ways[1]} (drawn at {SHOWN_AT:.0f} degrees), C held plate: "
        f"{held.count} {held.kind.replace('-', ' ')}, D wall plumb and braced."
    ]
    for name, lift in (("Bare", found.bare), ("Skinned", found.skinned)):
        weight = f"{name}: {_both(lift.weight_lb)}, centre {tape(lift.centre.x)} from the left and {tape(lift.centre.y)} up; "
        if found.sections:
            rows.append(f"{weight}whole, and never lifted so.")
            continue
        if machine:
            rows.append(weight + "by machine (a crane, a forklift or wall jacks), not by hand.")
            continue
        rows.append(
            f"{weight}lift {_both(lift.lift_lb)}, greatest push {_both(lift.push_lb)} at {lift.push_degrees:.0f} degrees: "
            f"{lift.hands_needed} people."
        )
    return rows + _sections_told(found, units) + _braces_told(found, units)


def _sections_told(found: Raised, units: Units) -> list[str]:
    """Each section with its own forces; of very many only those whose plates are driven hardest."""
    numbered = sorted(enumerate(found.sections, 1), key=lambda one: -one[1].thrust_lb)[:_SECTIONS_TOLD]
    rows = [
        f"Section {number}, bare, {tape_text(one.left, units)} to {tape_text(one.right, units)}: {_both(one.weight_lb)}, lift "
        f"{_both(one.lift_lb)}, push {_both(one.push_lb)} at {one.push_degrees:.0f} degrees, plate driven with "
        f"{_both(one.thrust_lb)} at {one.thrust_degrees:.0f}, held at {one.held} places: {one.hands_needed} people."
        for number, one in sorted(numbered)
    ]
    left = len(found.sections) - len(rows)
    return [*rows, f"{left} sections whose plates are driven less hard are left out here."] if left else rows


def _braces_told(found: Raised, units: Units) -> list[str]:
    """Every different brace with how many there are of it, and where they stand; the longest first."""
    alike: dict[tuple[int, int, int], list[str]] = {}
    for one in found.braces:
        alike.setdefault((one.length, one.up, one.out), []).append(tape_text(one.x, units))
    told = [
        f"{len(places)} of {tape_text(length, units)} at {', '.join(places)} from the plate's left end, nailed "
        f"{tape_text(up, units)} up, foot {tape_text(out, units)} inside"
        for (length, up, out), places in sorted(alike.items(), reverse=True)
    ]
    return [f"Braces: {'; '.join(told)}."] if told else []
