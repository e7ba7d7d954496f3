"""One wall, from its description to its layout and its skin: the stages chained once.

A wall that is laid out from its right end is mirrored, framed, and mirrored back.
"""

import msgspec
from msgspec.structs import replace

from wallwright.domain.bays import bay_blocks
from wallwright.domain.checks import check
from wallwright.domain.fasteners import Fasteners, fasten
from wallwright.domain.full_height import stiffened
from wallwright.domain.layout import lay_out
from wallwright.domain.lying import Course, course_blocks
from wallwright.domain.members import Layout
from wallwright.domain.mirror import mirrored_opening, mirrored_part, mirrored_wall
from wallwright.domain.offers import with_offers
from wallwright.domain.openings import Plan, plan_openings
from wallwright.domain.partitions import backing, misplaced_partitions
from wallwright.domain.parts import Part
from wallwright.domain.plates import in_pieces
from wallwright.domain.raising.raised import Raised, raised
from wallwright.domain.rows import Row
from wallwright.domain.seams import Columns
from wallwright.domain.sheathing import lying_skin, skin
from wallwright.domain.skin import Skin
from wallwright.domain.skin_notes import Saved
from wallwright.domain.slope_rows import courses_of
from wallwright.domain.sloped import above_slope, cut_to_top, frame, standing
from wallwright.domain.starts import Laid
from wallwright.domain.starts import laid as laid_on
from wallwright.domain.wall import Side, Wall
from wallwright.findings import Fault, Offer, PlanRefused, Value


class Framed(msgspec.Struct, frozen=True):
    """Everything known of a wall once it is framed. ``plan``, ``columns`` and ``parts`` run from the tape's end."""

    wall: Wall
    plan: Plan
    parts: tuple[Part, ...]
    columns: Columns | None
    courses: tuple[Row, ...]
    layout: Layout
    lying: tuple[Course, ...] = ()
    """The courses of lying sheets, from the bottom up."""


class _Frame(msgspec.Struct, frozen=True):
    """A wall framed from its left end, or as far as its faults let it be."""

    plan: Plan
    parts: list[Part] = []
    columns: Columns | None = None
    courses: tuple[Row, ...] = ()
    lying: tuple[Course, ...] = ()
    faults: list[Fault] = []


def framed(wall: Wall) -> Framed:
    """Frame a wall. Raises PlanRefused with every fault found."""
    from_right = wall.tape.start == "right"
    straight = mirrored_wall(wall) if from_right else wall
    one = _frame(straight)
    plan, parts = one.plan, one.parts
    if one.faults:
        raise PlanRefused(with_offers(wall, _as_given(wall, one.faults), _faults_of))
    own = [mirrored_part(part, wall.length) for part in parts] if from_right else parts
    opened = (
        tuple(mirrored_opening(o, wall.length) for o in reversed(plan.wall.openings))
        if from_right
        else plan.wall.openings
    )
    done = replace(wall, openings=opened)
    laid_out = lay_out(done, plan, own, one.columns)
    return Framed(done, plan, tuple(parts), one.columns, one.courses, laid_out, one.lying)


def layout(wall: Wall) -> Layout:
    """The layout of a wall: members, marks, cut list, findings. Raises PlanRefused with every fault found."""
    return framed(wall).layout


def sheathing(wall: Wall) -> Skin:
    """The skin of a wall: pieces, seams, sheets, blocking. Raises PlanRefused with every fault found."""
    return skinned(framed(wall))


def raising(wall: Wall) -> Raised:
    """What raising a wall takes. Raises PlanRefused with every fault found."""
    done = framed(wall)
    return raised(done.layout, skinned(done))


def skinned(done: Framed) -> Skin:
    """The skin of a wall that is framed."""
    laid = done.columns
    if laid is None:
        raise ValueError("a wall that is framed has its sheets laid")
    other = _begun_otherwise(done)
    if done.lying:
        return lying_skin(done.wall, laid, done.lying, done.layout, _saved(done), other)
    return skin(done.wall, laid, done.courses, done.layout, _saved(done), other)


def _begun_otherwise(done: Framed) -> Laid | None:
    """The sheets as they would lie if they began at the other end; None where each course is one sheet."""
    plan, laid = done.plan, done.columns
    if laid is None or (len(laid.columns) == 1 and not done.lying):
        return None
    end: Side = "left" if plan.wall.sheets_from == "right" else "right"
    return laid_on(plan, standing(plan, frame(plan)), end, done.courses)


def fastened(wall: Wall) -> Fasteners:
    """The fasteners of a wall. Raises PlanRefused with every fault found."""
    done = framed(wall)
    return fasten(done.layout, skinned(done))


def _saved(done: Framed) -> Saved | None:
    """What sheets sized for spacing would save in added studs and rips; None where nothing could be saved."""
    laid, wall = done.columns, done.plan.wall
    if laid is None or wall.sheathing.sheet.sized_for_spacing or not (laid.studs or laid.rips):
        return None
    sheet = replace(wall.sheathing.sheet, sized_for_spacing=True)
    plan = replace(done.plan, wall=replace(wall, sheathing=replace(wall.sheathing, sheet=sheet)))
    sized = laid_on(plan, standing(plan, frame(plan))).columns
    if sized is None:
        return None
    return Saved(max(0, len(laid.studs) - len(sized.studs)), max(0, laid.rips - sized.rips))


def _frame(wall: Wall) -> _Frame:
    """A wall laid out from its left end: plan, parts, columns and courses, or faults."""
    faults = check(wall)
    if faults:
        # Openings are judged once the wall itself can be: their room is measured between its posts and plates.
        return _Frame(Plan((), (), wall), faults=faults)
    anyway: frozenset[str] = frozenset()
    while True:
        plan, faults = plan_openings(wall, anyway)
        faults = faults or misplaced_partitions(plan)
        if faults:
            return _Frame(plan, faults=faults)
        plan = stiffened(plan)
        parts = frame(plan)
        sheets = laid_on(plan, standing(plan, parts))
        laid, lying, faults = sheets.columns, sheets.courses, list(sheets.faults)
        if laid is not None:
            parts += cut_to_top(plan, _distinct(laid.studs))
        level = standing(plan, parts)
        blocks, conflicts = bay_blocks(level.plan, level.parts)
        conflicts |= above_slope(plan, blocks)
        if not conflicts:
            break
        # An opening that meets a member in its bay is framed with jacks; each round settles one at least.
        anyway = anyway | conflicts
    if wall.partitions or wall.lining:
        # Set once it is settled which openings lie in a bay: backing parts their blocks and changes nothing else.
        parts += cut_to_top(plan, backing(level.plan, level.parts))
        level = standing(plan, parts)
        blocks = bay_blocks(level.plan, level.parts)[0]
    parts += blocks
    courses = tuple(course.row for course in lying)
    level = standing(plan, parts)
    if lying:
        blocking, faults = course_blocks(plan, level, courses)
        parts += blocking
    elif laid is not None:
        courses, blocking, faults = courses_of(plan, level, laid.columns)
        parts += blocking
    parts, more = in_pieces(plan.wall, parts)
    return _Frame(plan, parts, laid, courses, lying, faults + more)


def _distinct(studs: tuple[Part, ...]) -> list[Part]:
    return list(dict.fromkeys(studs))


def _faults_of(wall: Wall) -> list[Fault]:
    """The faults of a wall as its caller sees it; none where it can be built."""
    straight = mirrored_wall(wall) if wall.tape.start == "right" else wall
    return _as_given(wall, _frame(straight).faults)


def _as_given(wall: Wall, faults: list[Fault]) -> list[Fault]:
    """Faults found in a wall laid out from its left end, at the fields of the wall as its caller gave it."""
    return [_turned(fault, wall) for fault in faults] if wall.tape.start == "right" else faults


def _turned(fault: Fault, wall: Wall) -> Fault:
    if fault.pointer.startswith("/ends/left"):
        return replace(fault, pointer=fault.pointer.replace("/ends/left", "/ends/right"))
    if fault.pointer in ("/top/ridge", "/plates/joints"):
        return replace(fault, values=tuple((name, _seen_from_right(name, value, wall)) for name, value in fault.values))
    if fault.pointer.startswith("/floor/anchors/"):
        bolt = len(wall.floor.anchors) - 1 - int(fault.pointer.rpartition("/")[2])
        turned = ((n, wall.floor.anchors[bolt] if n == "given" else v) for n, v in fault.values)
        return Fault(fault.code, f"/floor/anchors/{bolt}", tuple(turned))
    if fault.pointer.startswith("/partitions/"):
        return _turned_partition(fault, wall)
    if not fault.pointer.startswith("/openings/"):
        return fault
    _, _, number, *rest = fault.pointer.split("/")
    index = len(wall.openings) - 1 - int(number)
    return replace(fault, pointer="/".join(["", "openings", str(index), *rest]))


def _seen_from_right(name: str, value: Value, wall: Wall) -> Value:
    if name == "nearest" and isinstance(value, Offer):
        return value.mirrored(wall.length)
    return wall.length - value if name == "given" and isinstance(value, int) else value


def _turned_partition(fault: Fault, wall: Wall) -> Fault:
    """A fault of a partition in the mirror, at the partition's own number and with its places as the caller reads them."""
    number = len(wall.partitions) - 1 - int(fault.pointer.split("/")[2])
    own = wall.partitions[number]
    places = {name: value for name, value in fault.values if isinstance(value, Offer)}
    values: list[tuple[str, Value]] = [("given", own.at)]
    for name, offer in places.items():
        values.append((name, offer.mirrored(wall.length - own.depth) if name == "nearest" else offer))
    return Fault(fault.code, f"/partitions/{number}/at", tuple(values))
