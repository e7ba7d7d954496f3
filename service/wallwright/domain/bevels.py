"""Parts cut to a slope: studs, cripples and blocks under it, and the plates that run along it."""

from msgspec.structs import replace

from wallwright.domain.parts import Part
from wallwright.domain.slopes import (
    Cut,
    Line,
    Outline,
    Slope,
    along,
    angle_of,
    clipped,
    slope_of,
    soffit,
    top_edge,
    under,
)
from wallwright.domain.wall import Wall
from wallwright.lengths import SIXTEENTH


def bevelled(wall: Wall, part: Part, slope: Slope) -> Part | None:
    """The part cut off along a slope where it stands above it; None where nothing worth cutting is left.

    An upright keeps its foot; its ``length`` is that to the long point. A level piece is tapered or cut
    shorter; its ``length`` is that of its longer edge.
    """
    square = ((part.x, part.y), (part.right, part.y), (part.right, part.top), (part.x, part.top))
    outline = clipped(square, slope)
    if outline == square:
        return part
    if not outline or max(y for _, y in outline) - part.y < SIXTEENTH:
        return None
    left, right = min(x for x, _ in outline), max(x for x, _ in outline)
    height = max(y for _, y in outline) - part.y
    cut = replace(part, x=left, width=right - left, height=height, outline=outline)
    if part.upright:
        return replace(cut, length=height, short=_lower_side(outline), cuts=_end_cuts(wall, outline))
    top = sum(abs(b[0] - a[0]) for a, b in _sides(outline) if a[1] == b[1] != part.y)
    return replace(cut, length=right - left, short=top, cuts=_tapers(wall, outline))


def _sides(outline: Outline) -> list[tuple[tuple[int, int], tuple[int, int]]]:
    return list(zip(outline, (*outline[1:], outline[0]), strict=True))


def _sloping(outline: Outline) -> list[tuple[tuple[int, int], tuple[int, int]]]:
    """The sides that are neither level nor plumb, each from left to right."""
    found = [(min(a, b), max(a, b)) for a, b in _sides(outline) if a[0] != b[0] and a[1] != b[1]]
    return sorted(found)


def _lower_side(outline: Outline) -> int:
    """How high the lower of an upright's two plumb sides is."""
    bottom = min(y for _, y in outline)
    ends = (min(x for x, _ in outline), max(x for x, _ in outline))
    return min(max(y for x, y in outline if x == end) for end in ends) - bottom


def _end_cuts(wall: Wall, outline: Outline) -> tuple[Cut, ...]:
    """The cuts at the top of an upright, one for each slope that it stands under."""
    angle = angle_of(wall)
    return tuple(sorted(Cut("top", angle, "right" if b[1] > a[1] else "left") for a, b in _sloping(outline)))


def _tapers(wall: Wall, outline: Outline) -> tuple[Cut, ...]:
    """The cuts along the upper side of a level piece; its lower edge is the longer one."""
    angle = round(90 - angle_of(wall), 2)
    return tuple(sorted(Cut("left" if b[1] > a[1] else "right", angle, "bottom") for a, b in _sloping(outline)))


def sloped_plates(wall: Wall) -> list[Part]:
    """The top plate and the cap plate along the slope, each in two at a gable's ridge, cut plumb at every end."""
    under_cap = under(wall, wall.plates.top - 1)
    parts = _course(wall, "top-plate", under_cap, soffit(wall), 0, wall.length)
    if wall.plates.top == 2:
        parts += _course(
            wall, "cap-plate", top_edge(wall), under_cap, -wall.left.cap_lap, wall.length + wall.right.cap_lap
        )
    return parts


def _course(wall: Wall, role: str, upper: Slope, lower: Slope, left: int, right: int) -> list[Part]:
    """One course of plates between two edges: one piece, or two that meet at the ridge."""
    ridge = upper.ridge
    if ridge is None:
        return [_plate(wall, role, upper.lines[0], lower.lines[0], left, right)]
    return [
        _plate(wall, role, upper.lines[0], lower.lines[0], left, ridge),
        _plate(wall, role, upper.lines[1], lower.lines[1], ridge, right),
    ]


def _plate(wall: Wall, role: str, upper: Line, lower: Line, left: int, right: int) -> Part:
    """One plate on the slope. Its edges are equally long; to the long points it takes its thickness x rise / run more."""
    rise, run = slope_of(wall)
    outline = clipped_plate(upper, lower, left, right)
    y, top = min(y for _, y in outline), max(y for _, y in outline)
    edge = along(rise, run, right - left)
    rising = upper.rise > 0
    angle = angle_of(wall)
    cuts = (Cut("left", angle, "bottom" if rising else "top"), Cut("right", angle, "top" if rising else "bottom"))
    return Part(
        role, wall.stud, edge + -(-wall.thickness * rise // run), left, y, 0, right - left, top - y, wall.depth,
        outline=outline, short=edge, cuts=cuts,
    )  # fmt: skip


def plate_between(wall: Wall, role: str, left: int, right: int) -> Part:
    """A piece of the top plate or the cap plate between two x that lie on one side of the ridge, sawn plumb at both."""
    above = wall.plates.top - 1 if role == "top-plate" else 0
    upper, lower = under(wall, above), under(wall, above + 1)
    ridge = upper.ridge
    side = 0 if ridge is None or right <= ridge else 1
    return _plate(wall, role, upper.lines[side], lower.lines[side], left, right)


def clipped_plate(upper: Line, lower: Line, left: int, right: int) -> Outline:
    """The outline between two parallel lines, plumb at both ends, counter-clockwise from its lowest left corner."""
    points = [(left, lower.at(left)), (right, lower.at(right)), (right, upper.at(right)), (left, upper.at(left))]
    first = points.index(min(points, key=lambda point: (point[1], point[0])))
    return tuple(points[first:] + points[:first])
