"""The lawful ways to joint a wall's level plates, for whoever may choose among them.

Joints of the plates beside the studs lie over uprights, those of the cap there too, or a board's length from an end, or
just clear of those below. A layer takes at most one piece more than it must, and no piece is under `LEAST_PIECE`
(common practice, no source).
"""

import msgspec
from msgspec.structs import replace

from wallwright.domain.mirror import mirrored_joints, mirrored_wall
from wallwright.domain.parts import Part
from wallwright.domain.plate_joints import LEAST_PIECE, Joints, Layer
from wallwright.domain.plates import stacks
from wallwright.domain.wall import PlateJoints, Wall

_LAYER_MOST = 600
"""Ways to joint one layer that are looked at."""


class Way(msgspec.Struct, frozen=True):
    """One way to joint a stack of plates, joints from the wall's left end, and the lengths of its pieces."""

    joints: tuple[Joints, Joints]
    lengths: tuple[int, ...]


class Choice(msgspec.Struct, frozen=True):
    """The ways to joint the bottom plates or the top plates; ``complete`` where these are all."""

    name: str
    ways: tuple[Way, ...]
    complete: bool


def choices(wall: Wall, parts: list[Part], longest: int, most: int) -> list[Choice]:
    """The ways to joint each stack of level plates in pieces of at most ``longest``, as many as ``most``.

    ``parts`` run from the tape's end, plates whole. Ways that yield the same pieces are one.
    """
    from_right = wall.tape.start == "right"
    straight = mirrored_wall(wall) if from_right else wall
    found = []
    for stack in stacks(straight, parts, longest):
        if stack.plates[0].outline:
            continue
        made, complete = _ways(stack.layers, longest, stack.reach.offset, most)
        if from_right:
            made = [replace(way, joints=_turned(way.joints, wall.length)) for way in made]
        found.append(Choice(stack.name, tuple(made), complete))
    return found


def _turned(cuts: tuple[Joints, Joints], length: int) -> tuple[Joints, Joints]:
    turned = mirrored_joints(PlateJoints(*cuts), length) or PlateJoints()
    return turned.bottom, turned.second_bottom


def _ways(layers: tuple[Layer, ...], longest: int, offset: int, most: int) -> tuple[list[Way], bool]:
    lower, complete = _of_layer(layers[0], longest)
    upper, more = _of_layer(layers[1], longest) if len(layers) > 1 else ([()], True)
    complete = complete and more
    found: dict[tuple[int, ...], Way] = {}
    steps = 100 * most
    for one in lower:
        for other in upper:
            steps -= 1
            if steps < 0 or len(found) >= most:
                return list(found.values()), False
            if any(abs(a - b) < offset for a in one for b in other):
                continue
            lengths = _lengths(layers[0], one) + (_lengths(layers[1], other) if len(layers) > 1 else ())
            found.setdefault(tuple(sorted(lengths)), Way((one, other), lengths))
    return list(found.values()), complete


def _lengths(layer: Layer, cuts: Joints) -> tuple[int, ...]:
    stops = (layer.left, *cuts, layer.right)
    return tuple(b - a for a, b in zip(stops, stops[1:], strict=False))


def _of_layer(layer: Layer, longest: int) -> tuple[list[Joints], bool]:
    """The ways to joint one layer, the fewest joints first, with one more than there must be at most."""
    spots = [x for x in layer.spots if x not in layer.poor]
    now: list[Joints] = [()]
    done: list[Joints] = []
    for _ in range(len(spots) + 1):
        ended = [cuts for cuts in now if layer.right - (cuts[-1] if cuts else layer.left) <= longest]
        last = bool(done)
        done += ended
        if last:
            break
        begun = [
            (*cuts, x)
            for cuts in now
            for x in spots
            if LEAST_PIECE <= x - (cuts[-1] if cuts else layer.left) <= longest and layer.right - x >= LEAST_PIECE
        ]
        if len(begun) > _LAYER_MOST * 20:
            return done[:_LAYER_MOST], False
        now = begun
    return done[:_LAYER_MOST], len(done) <= _LAYER_MOST
