"""What is to be said about raising a wall: the gravest first."""

from typing import Final

from wallwright.domain.members import Layout
from wallwright.domain.raising.braces import Brace, steep
from wallwright.domain.raising.hands import Advice, Count, Section, Sections, people, room_for
from wallwright.domain.raising.statics import Tilt, bearing
from wallwright.domain.raising.steps import Restraint, Zone
from wallwright.domain.raising.wind import Tipping, WindRow
from wallwright.domain.skin import Skin
from wallwright.domain.wall import Wall
from wallwright.findings import Compared, Finding, Value
from wallwright.lengths import FOOT
from wallwright.published.raising import (
    MACHINE_HEIGHT,
    MACHINE_SOURCE,
    RESTRAINT_HEIGHT,
    RESTRAINT_SOURCE,
    ZONE_SOURCE,
)
from wallwright.published.weights import NO_WEIGHT_OF_ITS_OWN

KM: Final = 1.609344
KG: Final = 0.45359237


def whole_wind(mph: float) -> str:
    """A wind that must not be passed, in whole miles and kilometres an hour, rounded down."""
    return f"{int(mph)} mph ({int(mph * KM)} km/h)"


def hand_findings(
    wall: Wall, height: int, advice: Advice, bare: tuple[Count, ...], skinned: tuple[Count, ...], apart: Sections
) -> list[Finding]:
    """The people that a lift takes beside those given, and what to do."""
    found = []
    if height >= MACHINE_HEIGHT:
        figures = Compared(height, MACHINE_HEIGHT, "length")
        values: tuple[tuple[str, Value], ...] = (("height", height), ("limit", MACHINE_HEIGHT))
        found.append(Finding("raise-by-machine", "/height", values, source=MACHINE_SOURCE, compared=figures))
    for code, counts in (("hands-too-few-bare", bare), ("hands-too-few-skinned", skinned)):
        needed = people(counts)
        if needed > wall.hands:
            values = (("needed", str(needed)), ("hands", str(wall.hands)))
            ruling = next(count for count in counts if count.people == needed)
            figures = Compared(needed, wall.hands, "people")
            found.append(Finding(code, "/hands", values, source=ruling.source, compared=figures))
            break
    room = room_for(wall.length)
    if people(bare) > room:
        values = (("needed", str(people(bare))), ("room", str(room)))
        found.append(Finding("no-room-for-hands", "/length", values, compared=Compared(people(bare), room, "people")))
    if advice.lift == "in-sections":
        values = (
            ("sections", str(advice.sections)), ("people", str(apart.people)), ("weight", pounds(apart.heaviest_lb)),
        )  # fmt: skip
        found.append(Finding("raise-in-sections", "/hands", values))
    elif advice.lift == "with-more-hands":
        found += _more_hands(wall, people(bare), apart)
    elif advice.lift == "whole":
        found.append(Finding(f"skin-{advice.skin}", "/sheathing"))
    return found


def _more_hands(wall: Wall, whole: int, apart: Sections) -> list[Finding]:
    """How many hands are the fewest, and the opening's framing that cannot be parted where that is what asks for them."""
    found = []
    fewest = apart.people if apart.sections else whole
    figures = Compared(fewest, wall.hands, "people")
    way = f" in {apart.sections} sections, {whole} to raise it whole" if apart.sections > 1 else ""
    values: tuple[tuple[str, Value], ...] = (("fewest", str(fewest)), ("way", way), ("hands", str(wall.hands)))
    found.append(Finding("with-more-hands", "/hands", values, compared=figures))
    if apart.whole is not None and apart.whole.hands_needed > wall.hands:
        values = (
            ("opening", apart.opening), ("people", str(apart.whole.hands_needed)), ("weight", pounds(apart.whole.weight_lb)),
            ("hands", str(wall.hands)),
        )  # fmt: skip
        found.append(Finding("opening-stays-whole", "/openings", values))
    return found


def holding_findings(
    height: int, held: Restraint, tilt: Tilt, skinned: Tilt, advice: Advice, apart: Sections
) -> list[Finding]:
    """What keeps the foot of the wall where it is; ``tilt`` is the state that it is raised in, unless in sections."""
    found = [_hold(tilt, apart.parts if advice.sections > 1 else ())]
    if height >= RESTRAINT_HEIGHT:
        figures = Compared(height, RESTRAINT_HEIGHT, "length")
        values = (("height", height), ("limit", RESTRAINT_HEIGHT))
        found.append(Finding("restraint-by-rule", "/height", values, source=RESTRAINT_SOURCE, compared=figures))
    if held.kind == "straps-or-hinges":
        found.append(Finding("no-cleats-under-skin", "/sheathing/under_sheet"))
    if held.lifted_over:
        weight = apart.heaviest_lb if advice.sections > 1 else tilt.weight_lb
        code = (
            "machine-over-bolts" if advice.lift == "by-machine"
            else "section-over-bolts" if advice.sections > 1
            else "whole-weight-over-bolts"
        )  # fmt: skip
        found.append(Finding(code, "/floor", (("weight", pounds(weight)),)))
    return found + _harder(skinned, apart.parts if advice.sections > 1 else ())


def _hold(tilt: Tilt, parts: tuple[Section, ...]) -> Finding:
    """How hard the plate is driven: that of the whole wall, or of the section where it is driven hardest."""
    what, angle = "it", tilt.hardest_thrust()
    thrust, bears = tilt.thrust(angle), bearing(tilt, angle)
    if parts:
        number, one = max(enumerate(parts, 1), key=lambda part: (round(part[1].thrust_lb, 6), -part[0]))
        what, angle, thrust, bears = f"that of section {number}", one.thrust_degrees, one.thrust_lb, one.bears_lb
    values = (("what", what), ("thrust", pounds(thrust)), ("angle", f"{angle:.0f}"), ("bears", pounds_left(bears)))
    return Finding("hold-the-plate", "/floor", values)


def _harder(skinned: Tilt, parts: tuple[Section, ...]) -> list[Finding]:
    """Whether walking in is harder than the first lift, under the skinned wall, or under the hardest section, which is bare."""
    what, angle = "the skinned wall", skinned.hardest_push()
    push, first = skinned.walking(angle), skinned.first_lift
    if parts:
        number, one = max(enumerate(parts, 1), key=lambda part: (round(part[1].push_lb, 6), -part[0]))
        what, angle, push, first = f"section {number}", one.push_degrees, one.push_lb, one.lift_lb
    if angle <= 0:
        return []
    values = (("what", what), ("push", pounds(push)), ("angle", f"{angle:.0f}"), ("first", pounds(first)))
    return [Finding("harder-on-the-way-up", "/height", values)]


def pounds(force: float) -> str:
    """A force or a weight as it is told, in both systems, rounded up."""
    return f"{_up(force)} lb ({_up(force * KG)} kg)"


def pounds_left(force: float) -> str:
    """The same of what helps, rounded down."""
    return f"{int(force)} lb ({int(force * KG)} kg)"


def _up(value: float) -> int:
    return int(-(-value // 1))


def wind_findings(bare: Tipping, skinned: Tipping, design: WindRow | None) -> list[Finding]:
    """Winds in which nobody raises the wall, in which it tips, and what a braced wall does not stand."""
    values: tuple[tuple[str, Value], ...] = (
        ("bare", whole_wind(bare.raise_below_mph)), ("skinned", whole_wind(skinned.raise_below_mph)),
    )  # fmt: skip
    found = [Finding("wind-while-raising", "/sheathing", values)]
    values = (("bare", whole_wind(bare.tips_mph)), ("skinned", whole_wind(skinned.tips_mph)))
    found.append(Finding("tips-standing-free", "", values))
    if design is not None:
        values = (("wind", whole_wind(design.mph)), ("force", pounds(design.skinned_along_lb)))
        found.append(Finding("braces-and-site-wind", "/site/wind_mph", values))
    return found


def room_findings(
    one: tuple[Brace, ...], other: tuple[Brace, ...], clear: int, names: tuple[str, str], pointer: str
) -> list[Finding]:
    """Braces of two walls that stand opposite each other, ``clear`` apart inside, and would cross."""
    outs = [max((brace.out for brace in braced), default=0) for braced in (one, other)]
    both = sum(outs)
    if clear >= both:
        return []
    board = steep(max(brace.up for brace in (*one, *other)))
    values: tuple[tuple[str, Value], ...] = (
        ("one", names[0]), ("other", names[1]), ("clear", clear), ("both", both), ("length", board.length),
        ("out", board.out),
    )  # fmt: skip
    return [Finding("no-room-for-braces", pointer, values, compared=Compared(both, clear, "length"))]


def other_findings(layout: Layout, skin: Skin, zone: Zone, left_out: tuple[str, ...]) -> list[Finding]:
    """Cautions that hold for every wall, and what the weights leave open."""
    wall = layout.wall
    found = [
        Finding("two-people", ""),
        Finding("fall-zone", "", (("depth", zone.depth),), source=ZONE_SOURCE),
        Finding("overhead-lines", "", (("lines", zone.lines),)),
        Finding("braces-stay", ""),
    ]
    if wall.floor.kind == "deck":
        found.append(Finding("exposed-edge", "/floor"))
    if left_out:
        found.append(Finding("left-out-of-lift", "/ends", (("count", str(len(left_out))),), left_out))
    if any(member.treated for member in layout.members):
        found.append(Finding("treated-weighs-more", "/floor/treated_plate"))
    if wall.sheathing.sheet.kind == NO_WEIGHT_OF_ITS_OWN and skin.pieces:
        found.append(Finding("siding-weight-taken", "/sheathing/sheet/kind"))
    return [*found, Finding("lifting-equation-scope", ""), Finding("not-checked-raising", "")]


LINES_BEYOND: Final = 10 * FOOT
"""How much further than the wall is high overhead lines must be: common practice, no source."""
