"""Sheets pieced round openings: where they have to end beside one, and at which sides they do.

An opening's corner is kept out of a piece by a seam that runs on from the opening's side, over its head and under its
sill. Where a course of sheets lies between head and sill all the way, the opening parts it without a seam.
"""

from collections.abc import Iterable

from msgspec.structs import replace

from wallwright.domain.carriers import Carriers, Span
from wallwright.domain.seams import SCRAP, Column, Stretch
from wallwright.domain.wall import Opening, Wall


def is_pieced(wall: Wall) -> bool:
    """Whether there are openings to piece sheets round, and that is asked for."""
    return wall.sheathing.openings == "pieced" and bool(wall.openings)


def pieced(stretch: Stretch, carriers: Carriers, heights: Span) -> Stretch:
    """The stretch with a break at each side of an opening at which the frame carries a seam; ``heights`` are its own.

    The gap lies on the opening's own side, so that the piece beside it ends where the opening does. A side too near a
    face's end, or to the last break, to leave pieces and studs room is left out.
    """
    if not is_pieced(stretch.wall):
        return stretch
    gap, found = stretch.wall.sheathing.gap, list[int]()
    edge, least = stretch.left, 2 * stretch.wall.thickness
    cut = [o for o in stretch.openings if _notches(o, heights) and not _leaves_scrap(o, heights)]
    for at in sorted(at for o in cut for at in (o.left, o.right - gap)):
        if at - edge >= least and stretch.right - at - gap >= least and carriers.studs_for(at, at + gap) is not None:
            found.append(at)
            edge = at + gap
    return replace(stretch, breaks=tuple(found))


def ended_sides(wall: Wall, courses: Iterable[tuple[Span, tuple[Column, ...]]]) -> int:
    """At how many sides of openings sheets end in every course that a corner stands in.

    ``courses`` are heights and sheets; upright sheets are one course.
    """
    edges = [(heights, {c.left for c in columns} | {c.right for c in columns}) for heights, columns in courses]
    sides = [(o, x) for o in wall.openings for x in (o.left, o.right)]
    return sum(all(x in own for heights, own in edges if _notches(o, heights)) for o, x in sides)


def _notches(opening: Opening, heights: Span) -> bool:
    """Whether a sheet of those heights would have a corner of the opening in it."""
    bottom, top = heights
    return opening.sill < top and opening.head > bottom and (bottom < opening.sill or opening.head < top)


def _leaves_scrap(opening: Opening, heights: Span) -> bool:
    """Whether the piece over the head or under the sill would be too low to be fastened."""
    bottom, top = heights
    return 0 < opening.sill - bottom < SCRAP or 0 < top - opening.head < SCRAP
