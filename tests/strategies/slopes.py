"""Random rakes and gables that a framer would call buildable, as domain values."""

from fractions import Fraction
from math import ceil, hypot

from hypothesis import strategies as st
from msgspec.structs import replace
from tests.strategies.walls import (
    LEAST_ROOM,
    SCALES,
    Scale,
    ends,
    floors,
    king_line,
    openings,
    partitions,
    post_width,
    sheathings,
    sheets,
)

from wallwright.domain.wall import Opening, Plates, Tape, Top, Wall
from wallwright.lengths import FOOT

SLOPES = ((3, 12), (6, 12), (1, 12), (7, 12), (9, 12), (12, 12), (4, 12), (35, 120), (1, 50), (24, 12), (5, 7))
"""Rises in a run: common ones, one in fractions of an inch, one so flat that it barely drains, and the steepest."""
HIGHEST = 20 * FOOT


def top_at(wall: Wall, x: int) -> Fraction:
    """The top of the uppermost plate at x."""
    slope = Fraction(wall.top.rise, wall.top.run)
    if wall.top.shape == "rake":
        return wall.height + slope * (x if wall.top.up == "right" else wall.length - x)
    ridge = Fraction(wall.length, 2) if wall.top.ridge is None else Fraction(wall.top.ridge)
    return wall.height + slope * (max(ridge, wall.length - ridge) - abs(x - ridge))


def taken(wall: Wall) -> int:
    """What the top plates take plumb, rounded up generously."""
    return ceil(wall.plates.top * wall.stud.thickness * hypot(1, wall.top.rise / wall.top.run)) + 2


@st.composite
def tops(draw: st.DrawFn, scale: Scale, length: int, thick: int) -> Top:
    """A rake either way, or a gable with its ridge in the middle or off it."""
    rise, run = draw(st.sampled_from(SLOPES))
    if draw(st.booleans()):
        return Top("rake", rise, run, draw(st.sampled_from(("left", "right"))))
    ridge = draw(st.none() | scale.between(8 * thick, length - 8 * thick)) if length > 17 * thick else None
    return Top("gable", rise, run, ridge=ridge)


@st.composite
def sloped_walls(draw: st.DrawFn) -> Wall:
    """A wall under a slope, complete, that can be framed and skinned."""
    scale = draw(st.sampled_from(SCALES))
    stud, sheet = draw(st.sampled_from(scale.studs)), draw(sheets(scale))
    plates = draw(st.sampled_from((2, 2, 1)))
    left, right = draw(ends(scale, stud, sheet, plates)), draw(ends(scale, stud, sheet, plates))
    shortest = max(post_width(stud, left.post) + post_width(stud, right.post), 3 * stud.width, scale.size(24))
    length = draw(scale.between(shortest, scale.size(draw(st.sampled_from((60, 144, 240))))))
    top = draw(tops(scale, length, stud.thickness))
    climb = Fraction(top.rise, top.run) * length
    # Room for plates and a short stud at the low end, and for what laps past it down the slope.
    least = scale.size(12) + ceil(
        3 * stud.thickness * hypot(1, top.rise / top.run) + top.rise / top.run * scale.size(12)
    )
    most = max(least + 2 * scale.unit, min(scale.size(144), HIGHEST - ceil(climb) - scale.step))
    floor, under = draw(floors(scale))
    wall = Wall(
        length=length, height=draw(scale.between(least, most)), name="boat store, east", top=top, stud=stud,
        spacing=draw(st.sampled_from(scale.spacings)), plates=Plates(draw(st.sampled_from((1, 1, 2))), plates),
        tape=Tape(
            draw(st.sampled_from(("left", "right"))),
            draw(st.sampled_from(("sheathing", "plate"))),
            draw(st.just(0) | scale.between(-scale.size(12), scale.size(12))),
        ),
        left=left, right=right, floor=floor,
        sheathing=draw(sheathings(scale, sheet, under)),
    )  # fmt: skip
    peak = max(top_at(wall, x) for x in (0, length, *([top.ridge or length // 2] if top.shape == "gable" else [])))
    if peak > HIGHEST:
        flat = replace(top, rise=1, run=50)
        wall = replace(wall, top=flat)
    # Openings are drawn for a level wall of a middling height, and those kept that the slope leaves room for.
    middle = (wall.height + int(max(top_at(wall, x) for x in (0, length, length // 2)))) // 2 // scale.step * scale.step
    if middle >= scale.size(48):
        asked = draw(openings(scale, replace(wall, top=Top(), height=middle)))
        wall = replace(wall, openings=tuple(o for o in asked if fits(wall, o)))
    inside = draw(partitions(scale, wall)) if draw(st.booleans()) else ()
    return replace(wall, partitions=inside, lining=draw(st.booleans()))


def fits(wall: Wall, opening: Opening) -> bool:
    """Whether the opening's header fits under the slope wherever its kings may stand."""
    reach = (opening.jacks + 1) * wall.stud.thickness
    ends = (max(0, opening.left - reach), min(wall.length, opening.right + reach))
    deep = opening.header.stock.width if opening.header else LEAST_ROOM
    return min(top_at(wall, x) for x in ends) - taken(wall) >= opening.head + deep


__all__ = ["king_line", "sloped_walls"]
