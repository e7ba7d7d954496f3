"""What there is to say about a wall as it is skinned."""

import msgspec

from wallwright.domain.checks import lowest_height
from wallwright.domain.lying import Course, lying_size
from wallwright.domain.piecing import ended_sides, is_pieced
from wallwright.domain.rows import Row
from wallwright.domain.seams import SLIVER, Column, Columns
from wallwright.domain.skin import Piece
from wallwright.domain.slopes import top_edge
from wallwright.domain.wall import Wall
from wallwright.findings import Finding, Value, at_most
from wallwright.lengths import INCH

BRACING_LEAST = 24 * INCH
"""Full-height strips narrower than this are not counted as bracing."""
LOW_COURSE = 12 * INCH
"""A course of lying sheets that whole ones miss by up to this is told of."""
SMALL_CHANGE = 4 * INCH
"""A change of length up to this is offered where it saves a rip."""

Values = tuple[tuple[str, Value], ...]


class Saved(msgspec.Struct, frozen=True, gc=False):
    """What sheets sized for spacing would save: added studs and rips."""

    studs: int
    rips: int


class Cost(msgspec.Struct, frozen=True, gc=False):
    """What sheets laid from one end come to: sheets, pieces and legs under `SLIVER`, added studs."""

    sheets: int
    narrow: int
    studs: int


Costs = tuple[Cost, Cost] | None
"""As laid, and begun at the other end."""


def skin_findings(
    wall: Wall, columns: tuple[Column, ...], courses: tuple[Row, ...], pieces: tuple[Piece, ...], laid: Columns,
    saved: Saved | None, costs: Costs, reused: list[Finding],
) -> tuple[Finding, ...]:  # fmt: skip
    """The findings of a wall skinned with upright sheets."""
    saving = [
        *_other_start(wall, costs),
        *_strip(wall, courses),
        *_whole_sheets(wall, columns),
        *_pieced(wall, ended_sides(wall, (((wall.face_bottom, _crest(wall)), columns),)), pieces),
        *reused,
    ]
    return _findings(wall, pieces, laid, saved, saving)


def _crest(wall: Wall) -> int:
    """The greatest height that sheets reach."""
    return wall.height if wall.top.shape == "level" else top_edge(wall).most(wall.face_left, wall.face_right)


def lying_findings(
    wall: Wall, courses: tuple[Course, ...], pieces: tuple[Piece, ...], laid: Columns, saved: Saved | None,
    costs: Costs, reused: list[Finding],
) -> tuple[Finding, ...]:  # fmt: skip
    """The findings of a wall skinned with lying sheets."""
    ended = ended_sides(wall, [((c.row.bottom, c.row.top), c.columns) for c in courses])
    saving = [*_other_start(wall, costs), *_low_course(wall, courses), *_pieced(wall, ended, pieces), *reused]
    if laid.close:
        saving.append(Finding("joints-not-staggered", "/sheathing/direction", (("count", str(laid.close)),)))
    return _findings(wall, pieces, laid, saved, saving)


def _findings(
    wall: Wall, pieces: tuple[Piece, ...], laid: Columns, saved: Saved | None, own: list[Finding]
) -> tuple[Finding, ...]:
    """What is said of every skin, with what is said of ``own`` direction of sheets."""
    found: list[Finding] = []
    narrow = laid.slivers + laid.legs
    if narrow:
        found.append(Finding("narrow-piece", "/sheathing", (("count", str(narrow)), ("least", SLIVER))))
    strips = sum(1 for width in full_height_strips(wall) if width < BRACING_LEAST)
    if strips:
        values: Values = (("count", str(strips)), ("least", BRACING_LEAST))
        found.append(Finding("narrow-strip-no-bracing", "/openings", values))
    for end, one in (("left", wall.left), ("right", wall.right)):
        if one.sheathing_lap > 0 and one.meets is None:
            values = (("lap", one.sheathing_lap), ("end", end))
            found.append(Finding("lap-meets-nothing", f"/ends/{end}/sheathing_lap", values))
    found += own
    if saved is not None and (saved.studs or saved.rips):
        values = (("studs", str(saved.studs)), ("rips", str(saved.rips)))
        found.append(Finding("sheets-sized-for-spacing-save", "/sheathing/sheet/sized_for_spacing", values))
    recut = sum(1 for piece in pieces if piece.lap_recut)
    if recut:
        found.append(Finding("lap-cut-anew", "/sheathing/sheet/edge", (("count", str(recut)),)))
    after = sum(1 for piece in pieces if piece.stage == "after-raising")
    if after:
        found.append(Finding("after-raising", "/sheathing", (("count", str(after)),)))
    if wall.floor.kind == "deck":
        found.append(Finding("exposed-edge", "/floor"))
    found.append(Finding("two-people", ""))
    found.append(Finding("not-checked", ""))
    return tuple(found)


def _pieced(wall: Wall, ended: int, pieces: tuple[Piece, ...]) -> list[Finding]:
    """Sides of openings at which sheets end, those that are still cut out, and low pieces over heads and under sills."""
    if not is_pieced(wall):
        return []
    found = []
    low = sum(_is_low(wall, piece) for piece in pieces)
    if low:
        found.append(Finding("low-piece", "/openings", (("count", str(low)), ("least", SLIVER))))
    if ended:
        found.append(Finding("seams-in-line-with-corners", "/sheathing/openings", (("count", str(ended)),)))
    if ended < 2 * len(wall.openings):
        values: Values = (("count", str(2 * len(wall.openings) - ended)),)
        found.append(Finding("opening-still-cut-out", "/sheathing/openings", values))
    return found


def _is_low(wall: Wall, piece: Piece) -> bool:
    """Whether a piece is less than `SLIVER` high and lies on a head, or ends under a sill, for all its width."""
    xs, ys = [x for x, _ in piece.outline], [y for _, y in piece.outline]
    left, right, bottom, top = min(xs), max(xs), min(ys), max(ys)
    within = any(o.left <= left and right <= o.right and (bottom == o.head or top == o.sill) for o in wall.openings)
    return len(piece.outline) == 4 and within and top - bottom < SLIVER


def _other_start(wall: Wall, costs: Costs) -> list[Finding]:
    """What the sheets would come to if they began at the other end; told where that differs, or an end was asked for."""
    if costs is None or (wall.sheathing.start is None and costs[0] == costs[1]):
        return []
    own, other = costs
    values: Values = (
        ("end", "right" if wall.sheets_from == "left" else "left"), ("least", SLIVER),
        ("sheets", str(other.sheets)), ("narrow", str(other.narrow)), ("studs", str(other.studs)),
        ("own_sheets", str(own.sheets)), ("own_narrow", str(own.narrow)), ("own_studs", str(own.studs)),
    )  # fmt: skip
    return [Finding("other-start-compared", "/sheathing", values)]


def _low_course(wall: Wall, courses: tuple[Course, ...]) -> list[Finding]:
    """How much lower the wall would be without its top course, where that is a strip of a sheet."""
    _, high = lying_size(wall)
    gap, top = wall.sheathing.gap, courses[-1].row.top
    over = top - wall.face_bottom - (len(courses) - 1) * (high + gap) + gap
    if len(courses) < 2 or over > LOW_COURSE:
        return []
    values: Values = (("strip", top - courses[-1].row.bottom), ("lower", over))
    return [Finding("top-course-a-strip", "/height", values), *_greatest_height(wall, over, len(courses) - 1)]


def _greatest_height(wall: Wall, over: int, courses: int) -> list[Finding]:
    """The greatest height that whole courses cover, where a wall can be so low."""
    most = wall.height - over
    if most < lowest_height(wall):
        return []
    return [Finding("greatest-height-covered", "/height", (("most", at_most(most)), ("courses", str(courses))))]


def full_height_strips(wall: Wall) -> list[int]:
    """Widths of the stretches of face that no opening interrupts, from left to right."""
    widths = []
    edge = wall.face_left
    for opening in sorted(wall.openings, key=lambda opening: opening.left):
        widths.append(opening.left - edge)
        edge = opening.right
    widths.append(wall.face_right - edge)
    return [width for width in widths if width > 0]


def _strip(wall: Wall, courses: tuple[Row, ...]) -> list[Finding]:
    """What would save the strip above the sheets."""
    if len(courses) < 2:
        return []
    sheet = wall.sheathing.sheet
    length = sheet.length - (wall.sheathing.gap if sheet.sized_for_spacing else 0)
    over = courses[-1].top - wall.face_bottom - length
    values: Values = (("strip", courses[-1].top - courses[-1].bottom), ("lower", over))
    return [Finding("sheet-too-short", "/sheathing/sheet/length", values), *_greatest_height(wall, over, 1)]


def _whole_sheets(wall: Wall, columns: tuple[Column, ...]) -> list[Finding]:
    """A change of length, up to a few inches, with which the sheathing comes out in whole sheets."""
    sheet, gap = wall.sheathing.sheet, wall.sheathing.gap
    module = sheet.net_width if sheet.sized_for_spacing else sheet.net_width + gap
    face = wall.face_right - wall.face_left
    count = max(1, (2 * (face + gap) + module) // (2 * module))
    change = count * module - gap - face
    last = columns[-1] if wall.sheets_from == "left" else columns[0]
    # Full-size sheets whose gaps drift, or sized ones that stop a gap short, come out whole as they stand.
    if is_pieced(wall) or abs(change) <= count * gap or abs(change) > SMALL_CHANGE:
        return []
    values: Values = (
        ("last", last.right - last.left),
        ("change", abs(change)),
        ("way", "longer" if change > 0 else "shorter"),
    )
    return [Finding("small-change-saves-rip", "/length", values)]
