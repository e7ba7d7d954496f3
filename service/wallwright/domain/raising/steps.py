"""The order of work for one wall, from marked plates to tied corners and lapped caps, as data.

Each step is a code with the values that its texts speak of; the texts stand in `wallwright.findings.raising_steps`.
"""

import msgspec

from wallwright.domain.members import Layout
from wallwright.domain.raising.braces import Brace
from wallwright.domain.raising.hands import Advice, Section, Sections
from wallwright.domain.raising.weighing import AFTER, BEFORE, stage_of
from wallwright.domain.skin import Skin
from wallwright.findings import Value
from wallwright.lengths import FOOT

ENDS_CLEAR = FOOT
"""How far the first strap stands from a plate's end: common practice, no source."""
STRAPS_APART = 4 * FOOT
"""Greatest distance between straps, hinges or stops: that of stops in a trade journal, taken for all."""


class Restraint(msgspec.Struct, frozen=True, gc=False):
    """What keeps the bottom plate from kicking out or lifting while the wall is tilted.

    ``kind`` is ``straps-or-hinges``, ``straps-or-stops`` or ``stops-clear-of-bolts``; ``each_lb`` is the level force in lb
    on one of them where the thrust is greatest.
    """

    kind: str
    count: int
    each_lb: float
    lifted_over: bool


class Zone(msgspec.Struct, frozen=True, gc=False):
    """What is kept clear: so deep on either side of the wall, along so much; and how near no overhead line may be."""

    depth: int
    along: int
    lines: int


class Step(msgspec.Struct, frozen=True, gc=False):
    """One step: its code, what its texts speak of, and how many of the thing it speaks of; None where it counts nothing."""

    number: int
    step: str
    values: tuple[tuple[str, Value], ...] = ()
    how_many: int | None = None


def held_at(length: int) -> int:
    """At how many places the plate of a wall or a section is held: near both ends and evenly between."""
    return max(2, -(-max(0, length - 2 * ENDS_CLEAR) // STRAPS_APART) + 1)


def restraint(layout: Layout, thrust: float, parts: tuple[Section, ...]) -> Restraint:
    """How the plate is held; a wall over projecting bolts is lifted over them, never tilted on them.

    Sections, where it is raised in ``parts``, are each held by themselves: all their places, and the hardest. On a deck a skin that hangs past the rim has no room for cleats there.
    """
    wall = layout.wall
    count = sum(part.held for part in parts) or held_at(wall.length)
    each = max((part.each_lb for part in parts), default=thrust / count)
    hangs = wall.floor.kind == "deck" and wall.sheathing.under_sheet > 0
    kind = "stops-clear-of-bolts" if layout.anchors else "straps-or-hinges" if hangs else "straps-or-stops"
    return Restraint(kind, count, each, bool(layout.anchors))


def steps(
    layout: Layout,
    skin: Skin,
    advice: Advice,
    people: int,
    held: Restraint,
    braced: tuple[Brace, ...],
    zone: Zone,
    centre: int,
    apart: Sections,
) -> tuple[Step, ...]:
    """The steps of one wall, in order; ``people`` lift, about ``centre`` from the plate's left end,
    or those that ``apart`` tells for the hardest section.
    """
    doors = sum(len(member.cut_outs) for member in layout.members)
    plates = sum(member.role in ("bottom-plate", "top-plate") for member in layout.members)
    found: list[tuple[str, tuple[tuple[str, Value], ...], int | None]] = [
        ("mark-plates", (), plates),
        ("cut-pieces", (), sum(row.count for row in layout.cut_list)),
    ]
    if doors:
        found.append(("half-saw-plate", (), 2 * doors))
    if advice.sections > 1:
        found.append(("frame-in-sections", (), advice.sections))
    found += [("fasten-frame", (), None), ("square-frame", (), None)]
    # Sections are braced one after another: the first at both ends, each further one at its free end.
    boards = len(braced) if advice.sections == 1 else max(len(braced), advice.sections + 1)
    lying = _pieces(skin, BEFORE) if advice.skin == BEFORE else 0
    if lying:
        found.append(("skin-lying", (), lying))
    found += [
        (f"hold-with-{held.kind}", (), held.count),
        ("hang-braces", (("lengths", _lengths(braced)),), boards),
        ("clear-zone", (("depth", zone.depth), ("lines", zone.lines)), None),
        *_lifts(advice, people, centre, apart, over_bolts=held.lifted_over),
    ]
    found += [
        ("plumb-and-brace", (("places", _places(braced)),), boards),
        ("tighten-nuts" if layout.anchors else "fasten-plate", (), len(layout.anchors) or None),
    ]
    found += _closing(layout, skin, lying, doors)
    return tuple(Step(number + 1, *one) for number, one in enumerate(found))


def _pieces(skin: Skin, stage: str) -> int:
    return sum(piece.stage == stage for piece in skin.pieces)


def _lengths(braced: tuple[Brace, ...]) -> tuple[int | str, ...]:
    """How long the braces' boards are: one length, or each with its stud."""
    if len({brace.length for brace in braced}) == 1:
        return (braced[0].length,)
    return _listed([(brace.length, f" for {brace.member}") for brace in braced])


def _places(braced: tuple[Brace, ...]) -> tuple[int | str, ...]:
    """Where the braces run from and to: one place for all, or each stud's own."""
    if len({(brace.up, brace.out) for brace in braced}) == 1:
        return (braced[0].up, " up the studs named in `braces` to the floor ", braced[0].out, " inside")
    return _listed([(brace.up, f" up {brace.member} to the floor ", brace.out, " inside") for brace in braced])


def _listed(items: list[tuple[int | str, ...]]) -> tuple[int | str, ...]:
    return tuple(word for number, item in enumerate(items) for word in ((", ",) if number else ()) + item)


def _lifts(
    advice: Advice, people: int, centre: int, apart: Sections, *, over_bolts: bool
) -> list[tuple[str, tuple[tuple[str, Value], ...], int | None]]:
    """The lift, and the way over the bolts with whatever lifts; sections go over theirs one by one, before they are joined."""
    if advice.lift == "by-machine":
        return [("lift-by-machine", (), 1), *([("set-over-bolts-by-machine", (), 1)] if over_bolts else [])]
    if advice.sections > 1:
        step = "lift-sections-over-bolts" if over_bolts else "lift-sections"
        return [(step, (("people", str(apart.people)),), advice.sections)]
    return [("lift-wall", (("centre", centre),), people), *([("lift-over-bolts", (), people)] if over_bolts else [])]


def _closing(
    layout: Layout, skin: Skin, lying: int, doors: int
) -> list[tuple[str, tuple[tuple[str, Value], ...], int | None]]:
    """What is left once the wall stands: corners, caps, sheets, doors, and the braces that stay."""
    wall = layout.wall
    found: list[tuple[str, tuple[tuple[str, Value], ...], int | None]] = []
    met = sum(end.butts is not None for end in (wall.left, wall.right))
    if met:
        found.append(("tie-corners", (), met))
    caps = sum(stage_of(wall, member) == AFTER for member in layout.members)
    if caps:
        found.append(("lap-caps", (), caps))
    if len(skin.pieces) > lying:
        found.append(("skin-standing", (), len(skin.pieces) - lying))
    if doors:
        found.append(("cut-out-doors", (), doors))
    found.append(("leave-braces", (), None))
    return found
