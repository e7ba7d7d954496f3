"""Corner details: how two walls, their posts, plates, caps and sheets meet, in plan at a larger scale."""

from collections.abc import Callable
from typing import Final, NamedTuple

import msgspec

from wallwright.domain.building import Built, BuiltWall
from wallwright.domain.built import Corner
from wallwright.domain.members import Member
from wallwright.domain.wall import End
from wallwright.drawing.dimensions import Shapes
from wallwright.drawing.foot import foot_caption, foot_section, foot_size
from wallwright.drawing.paper import MARGIN, View, detail_scale
from wallwright.drawing.scene import Area, Lines, Text, folded
from wallwright.lengths import INCH, MILLIMETRE, Units, tape_text

WIDTH: Final = 62.0
"""Width of the column of details at the right of the paper, in millimetres."""
_SEEN: Final = 9 * INCH
"""How much of a wall is seen past the wall that it meets."""
_AROUND: Final = INCH // 2
_LINE: Final = 3.4
_HEADING: Final = 9.0
_BESIDE: Final = 28.0
"""Where a caption that stands beside its detail begins."""


class Box(NamedTuple):
    """A rectangle of the plan: from the building's front left corner, X along the front, Y inwards."""

    left: int
    front: int
    right: int
    back: int

    def clipped(self, to: "Box") -> "Box | None":
        """What of it lies in another; None where nothing does."""
        own = Box(
            max(self.left, to.left), max(self.front, to.front), min(self.right, to.right), min(self.back, to.back)
        )
        return own if own.left < own.right and own.front < own.back else None


class _Detail(msgspec.Struct, frozen=True):
    """One kind of corner: the corner that is drawn, and all that are like it or its mirror image."""

    shown: Corner
    names: tuple[str, ...]


def placer(built: Built, one: BuiltWall) -> tuple[int, int, int, int, int, int]:
    """Where a wall's left end stands at its outer face, the way it runs, and the way inwards."""
    width, depth = built.framing_width, built.framing_depth
    start = 0
    if one.side not in built.building.through:
        # A butt wall starts past the through wall's depth and the slip gap.
        start = (one.wall.left.meets.depth + one.wall.left.meets.slip_gap) if one.wall.left.meets else 0
    return {
        "front": (start, 0, 1, 0, 0, 1),
        "right": (width, start, 0, 1, -1, 0),
        "back": (width - start, depth, -1, 0, 0, -1),
        "left": (0, depth - start, 0, -1, 1, 0),
    }[one.side]


def boxed(built: Built, one: BuiltWall, along: tuple[int, int], inward: tuple[int, int]) -> Box:
    """A stretch of a wall from above: from x to x of the wall, from z to z."""
    ox, oy, rx, ry, ix, iy = placer(built, one)
    xs = sorted(ox + rx * a + ix * i for a, i in zip(along, inward, strict=True))
    ys = sorted(oy + ry * a + iy * i for a, i in zip(along, inward, strict=True))
    return Box(xs[0], ys[0], xs[1], ys[1])


def corner_details(view: View, built: Built, units: Units) -> Shapes:
    """The kinds of corner and the foot of the front wall, one under another in a column at the right of the paper."""
    details, base = _kinds(built), built.walls[0]
    left, top = view.width - MARGIN - WIDTH, MARGIN + _HEADING
    # Where many corners differ, each caption stands beside its detail instead of under it.
    beside = len(details) > 2
    folding = WIDTH - _BESIDE - 4 if beside else WIDTH - 8
    captions = [folded(_caption(built, detail, units), folding) for detail in details]
    captions.append(folded(f"foot of the {base.side} wall: {foot_caption(base.wall, units)}", folding))
    windows = [_window(built, detail.shown) for detail in details]
    sizes = [*((box.right - box.left, box.back - box.front) for box in windows), foot_size(base.wall)]
    slot = (view.foot_of_frame - top) / len(sizes)
    under = 0 if beside else _LINE * max(map(len, captions)) + 1
    widest, tallest = max(size[0] for size in sizes), max(size[1] for size in sizes)
    ratio, scale = detail_scale(units, widest, tallest, _BESIDE - 6 if beside else WIDTH - 8, slot - under - 5)
    shapes: Shapes = [Lines("dim", ((left, MARGIN, left, view.foot_of_frame),))]
    shapes.append(Text(left + 4, MARGIN + 5, f"Details {scale}"))
    for number, caption in enumerate(captions):
        y = top + number * slot
        if number < len(details):
            shapes += _drawn(built, details[number].shown, windows[number], left + 4, y, ratio)
        else:
            shapes += foot_section(base.wall, left + 4, y, ratio)
        x, y = (left + _BESIDE, y + 2.5) if beside else (left + 4, y + sizes[number][1] / (MILLIMETRE * ratio) + 4)
        shapes += [Text(x, y + _LINE * row, line) for row, line in enumerate(caption)]
    return shapes


def _kinds(built: Built) -> list[_Detail]:
    """The corners, those that are alike or mirror images told once."""
    found: dict[tuple[object, ...], list[Corner]] = {}
    for corner in built.corners:
        through, butt = _walls(built, corner)
        own, other = _end(through, butt), _end(butt, through)
        key = (
            own.post, own.cap_lap, through.wall.stud, through.wall.sheathing.sheet.thickness, other.post, other.cap_lap,
            other.sheathing_lap, butt.wall.stud, butt.wall.sheathing.sheet.thickness, corner.slip_gap,
        )  # fmt: skip
        found.setdefault(key, []).append(corner)
    return [_Detail(alike[0], tuple(corner.name for corner in alike)) for alike in found.values()]


def _walls(built: Built, corner: Corner) -> tuple[BuiltWall, BuiltWall]:
    by_side = {one.side: one for one in built.walls}
    return by_side[corner.through], by_side[corner.butt]


_LEFT_OF: Final = {"front": "left", "right": "front", "back": "right", "left": "back"}
"""The wall that each wall meets at its left end."""


def _end(one: BuiltWall, met: BuiltWall) -> End:
    """The end of a wall at which it meets another."""
    return one.wall.left if _LEFT_OF[one.side] == met.side else one.wall.right


def _window(built: Built, corner: Corner) -> Box:
    """The part of the plan that a detail shows."""
    through, butt = _walls(built, corner)
    seen = max(through.wall.depth, butt.wall.depth) + _SEEN
    around = max(one.wall.sheathing.sheet.thickness for one in (through, butt)) + _AROUND
    at_left, at_front = "left" in corner.name, "front" in corner.name
    x = (-around, seen) if at_left else (built.framing_width - seen, built.framing_width + around)
    y = (-around, seen) if at_front else (built.framing_depth - seen, built.framing_depth + around)
    return Box(x[0], y[0], x[1], y[1])


def _caption(built: Built, detail: _Detail, units: Units) -> str:
    """What is said of a detail."""
    through, butt = _walls(built, detail.shown)
    corner = detail.shown
    posts = _end(through, butt).post, _end(butt, through).post
    where = corner.name if len(detail.names) == 1 else f"{', '.join(detail.names)} ({corner.name} shown)"
    gap, lap = tape_text(corner.slip_gap, units), tape_text(corner.sheathing_lap, units)
    said = f"{where}: through {posts[0]}, butt {posts[1]}, slip gap {gap}; butt sheets lap {lap}; "
    if corner.cap_lap:
        return said + f"cap (dashed) laps {tape_text(corner.cap_lap, units)}"
    return said + "no cap laps: tie by plate or strap"


def _drawn(built: Built, corner: Corner, window: Box, left: float, top: float, ratio: int) -> Shapes:
    """The two walls within the window: sheets, plates, what stands on them in section, and the caps dashed."""
    foot = top + (window.back - window.front) / (MILLIMETRE * ratio)

    def area(kind: str, box: Box, title: str = "") -> Area:
        x1, x2 = (left + (x - window.left) / (MILLIMETRE * ratio) for x in (box.left, box.right))
        y1, y2 = (foot - (y - window.front) / (MILLIMETRE * ratio) for y in (box.front, box.back))
        return Area(kind, ((x1, y1), (x2, y1), (x2, y2), (x1, y2)), title)

    pair = _walls(built, corner)
    shapes: Shapes = []
    for one in pair:
        wall = one.wall
        for kind, span, deep, title in (
            ("sheet", (wall.face_left, wall.face_right), (-wall.sheathing.sheet.thickness, 0), "sheathing"),
            ("plate", (0, wall.length), (0, wall.depth), "bottom plate"),
        ):
            box = boxed(built, one, span, deep).clipped(window)
            if box is not None:
                shapes.append(area(kind, box, f"{one.side} {title}"))
    for one in pair:
        shapes += _section(built, one, window, area)
    for one in pair:
        for cap in (member for member in one.layout.members if member.role == "cap-plate"):
            box = boxed(built, one, (cap.x, cap.right), (0, cap.depth)).clipped(window)
            if box is not None:
                shapes.append(area("behind", box, f"{one.side} cap plate, above"))
    return shapes


def _section(built: Built, one: BuiltWall, window: Box, area: Callable[[str, Box, str], Area]) -> Shapes:
    """The uprights that stand on the plate wholly within the window, each crossed, as timber cut across is."""
    shapes: Shapes = []
    for member in one.layout.members:
        box = boxed(built, one, (member.x, member.right), (member.z, member.z + member.depth))
        if not _stands(one, member) or box.clipped(window) != box:
            continue
        drawn = area("block" if member.role == "blocking" else "member", box, f"{one.side} {member.mark} {member.role}")
        (x1, y1), (x2, y2), (x3, y3), (x4, y4) = drawn.points
        shapes.append(drawn)
        # A block is crossed once: it does not run through.
        ways = ((x1, y1, x3, y3),) if member.role == "blocking" else ((x1, y1, x3, y3), (x2, y2, x4, y4))
        shapes.append(Lines("thin", ways))
    return shapes


def _stands(one: BuiltWall, member: Member) -> bool:
    return member.y == one.wall.stud_bottom and not member.role.endswith("plate") and member.height > member.width
