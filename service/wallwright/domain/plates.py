"""Plates in pieces no longer than the stock to be had: where each layer is jointed.

A joint of bottom or top plate lies over the middle of an upright, so that each piece bears on half of it (or
of a level top plate, on a layout line over a header or blocking that is tight under it). A layer upon another
is jointed at least the offset away from the joints below. Joints of the cap plate lie over uprights too where
that costs no piece, since a published double top plate may be jointed anywhere. On a slope a joint is cut
plumb, as the plate's ends are, and lengths and offset are those along the slope; a gable's ridge is a joint
of both layers, and others keep the offset from it.
"""

import msgspec
from msgspec.structs import replace

from wallwright.domain.bevels import plate_between
from wallwright.domain.grid import lines_between
from wallwright.domain.parts import Part
from wallwright.domain.plate_joints import LEAST_PIECE, SHORTEST, Joints, Layer, Reach, joints
from wallwright.domain.slopes import along, level_of, slope_of, top_edge
from wallwright.domain.wall import PlateJoints, Wall
from wallwright.findings import Fault, Offer, Value, at_least

_BEARERS = frozenset(("field-stud", "king-stud", "seam-stud", "cripple"))
"""Uprights over whose middle a plate may be jointed; posts and jacks stand too near an end of the piece."""


class Stack(msgspec.Struct, frozen=True):
    """The bottom plates, or the top plates from end to end or to the ridge: one or two, and each as it may be jointed."""

    name: str
    plates: tuple[Part, ...]
    layers: tuple[Layer, ...]
    reach: Reach

    @property
    def joints(self) -> tuple[Joints, Joints] | None:
        """The joints of each layer; None where there are none that are lawful."""
        upper = self.layers[1] if len(self.layers) > 1 else None
        return joints(self.layers[0], upper, self.reach.stock, self.reach.offset)


def in_pieces(wall: Wall, parts: list[Part]) -> tuple[list[Part], list[Fault]]:
    """The parts with every plate cut into pieces of the stock's length; a fault where no lawful joints exist.

    ``wall`` is laid out from its left end; every upright must stand in ``parts`` already.
    """
    if wall.plates.joints is not None:
        return _as_told(wall, parts, wall.plates.joints)
    stock = wall.plates.stock_length
    if stock is None:
        return parts, []
    done = [part for part in parts if not part.role.endswith("plate")]
    offset = wall.plates.cap_offset
    needed: list[tuple[int, str]] = []
    for number, stack in enumerate(stacks(wall, parts, stock)):
        found = stack.joints
        if found is None:
            needed.append((_least_stock(wall, parts, number), stack.name))
            continue
        for plate, cuts in zip(stack.plates, found, strict=False):
            done += _pieces(wall, plate, cuts)
    if needed:
        least, name = max(needed)
        values = (("given", stock), ("least", at_least(least)), ("plates", name), ("offset", offset))
        return parts, [Fault("no-plate-joint", "/plates/stock_length", values)]
    return done, []


def _as_told(wall: Wall, parts: list[Part], told: PlateJoints) -> tuple[list[Part], list[Fault]]:
    """The parts with level plates cut at the joints given, or why they cannot be; those on a slope go by the stock's length."""
    stock = wall.plates.stock_length
    longest = max(max(part.width, part.length) for part in parts if part.role.endswith("plate"))
    done = [part for part in parts if not part.role.endswith("plate")]
    faults: list[Fault] = []
    for stack in stacks(wall, parts, stock or longest + long_point_more(wall)):
        cuts = (told.bottom, told.second_bottom) if stack.name == "bottom plates" else (told.top, told.cap)
        if stack.plates[0].outline:
            faults += [_astray(wall, stack, at, None) for layer in cuts for at in layer]
            cuts = ((), ()) if stock is None else stack.joints or ((), ())
        else:
            faults += [_astray(wall, stack, at, _nearest(stack, cuts, at)) for at in unlawful(stack, cuts)]
        for plate, own in zip(stack.plates, cuts, strict=False):
            done += _pieces(wall, plate, own)
    return (parts, list(dict.fromkeys(faults))) if faults else (done, [])


def _astray(wall: Wall, stack: Stack, at: int, nearest: int | None) -> Fault:
    place: Value = "none while the others stay" if nearest is None else Offer(nearest, nearest, nearest)
    values = (
        ("plates", stack.name), ("given", at), ("shortest", SHORTEST), ("offset", wall.plates.cap_offset), ("nearest", place)
    )  # fmt: skip
    return Fault("plate-joint-astray", "/plates/joints", values)


def _nearest(stack: Stack, cuts: tuple[Joints, Joints], at: int) -> int | None:
    """The lawful place nearest to a joint, the others staying where they are; None where there is none."""
    number = 0 if at in cuts[0] else 1
    if number >= len(stack.layers):
        return None
    apart = (other + way * stack.reach.offset for other in cuts[0] for way in (-1, 1) if number)
    for x in sorted({*stack.layers[number].spots, *apart}, key=lambda x: (abs(x - at), x)):
        moved = tuple(sorted({x, *(joint for joint in cuts[number] if joint != at)}))
        if x not in unlawful(stack, (moved, cuts[1]) if number == 0 else (cuts[0], moved)):
            return x
    return None


def unlawful(stack: Stack, cuts: tuple[Joints, Joints]) -> list[int]:
    """The joints of a level stack that no rule allows: over no stud, in a doorway, too near one another, too far apart.

    A cap plate may be jointed anywhere, the offset away from the joints below it (IRC R602.3.2 asks for no stud there).
    """
    found: list[int] = []
    for number, layer_cuts in enumerate(cuts):
        if number >= len(stack.layers):
            found += layer_cuts
            continue
        layer = stack.layers[number]
        stops = (layer.left, *layer_cuts, layer.right)
        for before, at, after in zip(stops, stops[1:], stops[2:], strict=False):
            spans = (at - before, after - at)
            held = at in layer.spots or (number == 1 and stack.name == "top plates")
            apart = number == 0 or all(abs(at - other) >= stack.reach.offset for other in cuts[0])
            if not held or not apart or min(spans) < SHORTEST or max(spans) > stack.reach.stock:
                found.append(at)
    return found


def _pieces(wall: Wall, plate: Part, cuts: Joints) -> list[Part]:
    """A plate sawn at its joints; each door's cut-out stays in the piece that it lies in."""
    pieces = []
    for left, right in zip((plate.x, *cuts), (*cuts, plate.right), strict=True):
        if plate.outline:
            pieces.append(plate_between(wall, plate.role, left, right) if cuts else plate)
            continue
        outs = tuple((low, high) for low, high in plate.cut_outs if low >= left and high <= right)
        pieces.append(replace(plate, x=left, width=right - left, length=right - left, cut_outs=outs))
    return pieces


def reach_of(wall: Wall, stock: int, *, sloped: bool) -> Reach:
    """How far a plate of ``stock`` reaches along x, and what the cap's offset is there.

    On a slope a piece is sawn plumb at both ends, so that the board takes its thickness x rise / run more than
    the edge of the plate.
    """
    offset = wall.plates.cap_offset
    if not sloped:
        return Reach(stock, offset)
    rise, run = slope_of(wall)
    edge = max(0, stock - long_point_more(wall))
    apart = level_of(rise, run, offset)
    return Reach(level_of(rise, run, edge), apart if along(rise, run, apart) >= offset else apart + 1)


def long_point_more(wall: Wall) -> int:
    """How much longer than its edge a plate on the slope is between its long points: thickness x rise / run, upwards."""
    rise, run = slope_of(wall)
    return -(-wall.thickness * rise // run)


def stacks(wall: Wall, parts: list[Part], stock: int) -> list[Stack]:
    """The bottom plates and the top plates, those of a gable to either side of its ridge."""
    found = []
    for name, plates in _stacked(parts):
        sloped = bool(plates[0].outline)
        reach = reach_of(wall, stock, sloped=sloped)
        spots = _spots_on_slope(wall, parts, reach) if sloped else _bearing_spots(wall, parts, _face(name, plates))
        layers = [_layer(plate, spots) for plate in plates]
        if name != "bottom plates" and len(layers) > 1:
            layers[1] = _loosened(layers[1], layers[0], reach, top_edge(wall).ridge if sloped else None)
        found.append(Stack(name, plates, tuple(layers), reach))
    return found


def _face(name: str, plates: tuple[Part, ...]) -> int:
    """y of the side of a stack that the studs touch."""
    return plates[-1].top if name == "bottom plates" else plates[0].y


def _stacked(parts: list[Part]) -> list[tuple[str, tuple[Part, ...]]]:
    """Each stack's name and its plates, from the lowest up."""
    bottom = sorted((part for part in parts if part.role == "bottom-plate"), key=lambda part: part.y)
    lower = sorted((part for part in parts if part.role == "top-plate"), key=lambda part: part.x)
    upper = sorted((part for part in parts if part.role == "cap-plate"), key=lambda part: part.x)
    tops = [("top plates", (plate, *upper[number : number + 1])) for number, plate in enumerate(lower)]
    return [("bottom plates", tuple(bottom)), *tops]


def _bearing_spots(wall: Wall, parts: list[Part], face: int) -> set[int]:
    """Middles of the uprights that bear on a plate's face at y, and layout lines over solid timber tight under it."""
    spots = set()
    half = wall.thickness // 2
    for part in parts:
        if part.z or face not in (part.y, part.top):
            continue
        if part.upright and part.role in _BEARERS:
            spots.add(part.x + half)
        elif part.top == face and part.role in ("header", "blocking") and not part.upright and part.opening:
            spots.update(lines_between(wall, part.x + wall.thickness, part.right - wall.thickness))
    return spots


def _spots_on_slope(wall: Wall, parts: list[Part], reach: Reach) -> set[int]:
    """Middles of the uprights that are cut to the slope, the offset away from the ridge, which is a joint itself."""
    half, ridge = wall.thickness // 2, top_edge(wall).ridge
    middles = {
        part.x + half
        for part in parts
        if part.upright and part.outline and not part.z and part.role in _BEARERS and part.width == wall.thickness
    }
    return middles if ridge is None else {x for x in middles if abs(x - ridge) >= reach.offset}


def _layer(plate: Part, spots: set[int]) -> Layer:
    """A plate as it may be jointed; no joint lies within a door's cut-out, nor leaves a stump at the plate's end."""
    inside = {
        x for x in spots
        if plate.x + SHORTEST <= x <= plate.right - SHORTEST and not any(a <= x <= b for a, b in plate.cut_outs)
    }  # fmt: skip
    ends = (plate.x, plate.right, *(x for cut in plate.cut_outs for x in cut))
    poor = frozenset(x for x in inside if any(abs(x - end) < LEAST_PIECE for end in ends))
    return Layer(plate.x, plate.right, tuple(sorted(inside)), poor=poor)


def _loosened(cap: Layer, below: Layer, reach: Reach, ridge: int | None) -> Layer:
    """The cap with joints over no upright as well: whole lengths from either end, and just clear of those below.

    A gable's ridge is one of those below, for which every other joint of the cap has to be clear too.
    """
    stock = reach.stock
    more = {x + way * reach.offset for x in below.spots for way in (-1, 1)}
    if stock > 0:
        more |= set(range(cap.left + stock, cap.right, stock)) | set(range(cap.right - stock, cap.left, -stock))
    if ridge is not None:
        more = {x for x in more if abs(x - ridge) >= reach.offset}
    inside = {x for x in more if cap.left + SHORTEST <= x <= cap.right - SHORTEST} - set(cap.spots)
    poor = frozenset(x for x in inside if min(x - cap.left, cap.right - x) < LEAST_PIECE)
    return Layer(cap.left, cap.right, tuple(sorted({*cap.spots, *inside})), frozenset(inside), cap.poor | poor)


def _least_stock(wall: Wall, parts: list[Part], number: int) -> int:
    """A longer stock with which a stack of plates can be jointed, about the shortest; the longest plate's own length serves.

    It is sought among the distances of the places where a joint may lie, by halving.
    """
    given = wall.plates.stock_length or 0
    stack = stacks(wall, parts, given)[number]
    stops = [(layer.left, *layer.spots, layer.right) for layer in stack.layers]
    spans = {b - a for ends in stops for a in ends for b in ends if b > a}
    lengths = sorted({length for span in spans if (length := _board(wall, stack, span)) > given})
    low, high = 0, len(lengths) - 1
    while low < high:
        middle = (low + high) // 2
        if stacks(wall, parts, lengths[middle])[number].joints is None:
            low = middle + 1
        else:
            high = middle
    return lengths[low]


def _board(wall: Wall, stack: Stack, span: int) -> int:
    """The stock that a piece of plate over ``span`` in x is cut from."""
    if not stack.plates[0].outline:
        return span
    return along(*slope_of(wall), span) + 1 + long_point_more(wall)
