"""The posts at a wall's ends: how far they reach, and where bays and the room for jacks begin beside them."""

from wallwright.domain.grid import Bound
from wallwright.domain.wall import End, Wall


def post_edge(wall: Wall, end: End) -> int:
    """How far the end's post reaches along the plate."""
    if end.post == "two-stud":
        return wall.thickness + wall.depth
    return wall.thickness if end.post == "single" else 3 * wall.thickness


def left_bound(wall: Wall) -> Bound:
    """The left end's post as the bound of the first bay: a two-stud post's bays count to its outer stud."""
    edge = post_edge(wall, wall.left)
    half = wall.thickness // 2
    return Bound(edge, half if wall.left.post == "two-stud" else edge - wall.thickness + half)


def right_bound(wall: Wall) -> Bound:
    """The right end's post as the bound of the last bay."""
    edge = post_edge(wall, wall.right)
    half = wall.thickness // 2
    inner = half if wall.right.post == "two-stud" else edge - wall.thickness + half
    return Bound(wall.length - edge, wall.length - inner)


def king_line(wall: Wall, end: End) -> int:
    """How far from an end the room for jacks begins: its post serves as king, save a flat stud, which cannot."""
    return post_edge(wall, end) + (wall.thickness if end.post == "two-stud" else 0)
