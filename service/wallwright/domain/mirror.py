"""The mirror image of a wall and of what it is made of.

Every wall is reckoned with the tape hooked at its left end; one that is laid out from the right
is mirrored first and its members are mirrored back, so both follow one rule, the tape's.
"""

from msgspec.structs import replace

from wallwright.domain.parts import Part
from wallwright.domain.slopes import Cut, Edge, mirrored_outline
from wallwright.domain.wall import Opening, Partition, PlateJoints, Run, Side, Wall

_OTHER: dict[Side, Side] = {"left": "right", "right": "left"}
_OTHER_EDGE: dict[Edge, Edge] = {"left": "right", "right": "left", "top": "top", "bottom": "bottom"}


def mirrored_wall(wall: Wall) -> Wall:
    """The wall with left and right exchanged: ends, openings, partitions, tape, slope and anchors."""
    return replace(
        wall,
        left=wall.right,
        right=wall.left,
        tape=replace(wall.tape, start=_OTHER[wall.tape.start]),
        top=replace(
            wall.top,
            up=_OTHER[wall.top.up],
            ridge=None if wall.top.ridge is None else wall.length - wall.top.ridge,
        ),
        sheathing=replace(wall.sheathing, start=None if wall.sheathing.start is None else _OTHER[wall.sheathing.start]),
        openings=tuple(mirrored_opening(opening, wall.length) for opening in reversed(wall.openings)),
        partitions=tuple(mirrored_partition(partition, wall.length) for partition in reversed(wall.partitions)),
        runs=tuple(mirrored_run(run, wall.length) for run in wall.runs),
        floor=replace(wall.floor, anchors=tuple(wall.length - at for at in reversed(wall.floor.anchors))),
        plates=replace(wall.plates, joints=mirrored_joints(wall.plates.joints, wall.length)),
    )


def mirrored_joints(joints: PlateJoints | None, length: int) -> PlateJoints | None:
    """The joints of plates seen in a mirror that stands at the middle of a plate of ``length``."""
    if joints is None:
        return None
    layers = (joints.bottom, joints.second_bottom, joints.top, joints.cap)
    return PlateJoints(*(tuple(length - at for at in reversed(layer)) for layer in layers))


def mirrored_opening(opening: Opening, length: int) -> Opening:
    """The opening seen in a mirror that stands at the middle of a plate of ``length``."""
    return replace(opening, left=length - opening.right)


def mirrored_partition(partition: Partition, length: int) -> Partition:
    """The partition seen in the same mirror."""
    return replace(partition, at=length - partition.right)


def mirrored_run(run: Run, length: int) -> Run:
    """The run of holes or notches seen in the same mirror."""
    left = None if run.right is None else length - run.right
    return replace(run, left=left, right=None if run.left is None else length - run.left)


def mirrored_part(part: Part, length: int) -> Part:
    """The part seen in a mirror that stands at the middle of a plate of ``length``."""
    turned = replace(part, x=length - part.right, cut_outs=tuple((length - b, length - a) for a, b in part.cut_outs))
    if not part.outline:
        return turned
    return replace(
        turned, outline=mirrored_outline(part.outline, length), cuts=tuple(sorted(map(mirrored_cut, part.cuts)))
    )


def mirrored_cut(cut: Cut) -> Cut:
    """The cut as the mirror shows it."""
    return Cut(_OTHER_EDGE[cut.end], cut.angle, _OTHER_EDGE[cut.long])
