"""Plates in pieces no longer than the stock to be had: where each layer is jointed.

A joint of bottom or top plate lies over the middle of an upright, so that each piece bears on half of it (or
of the top plate, on a layout line over a header or blocking that is tight under it). A layer upon another is
jointed at least the offset away from the joints below. Joints of the cap plate lie over uprights too where
that costs no piece, since a published double top plate may be jointed anywhere.
"""

import msgspec
from msgspec.structs import replace

from wallwright.domain.grid import lines_between
from wallwright.domain.parts import Part
from wallwright.domain.wall import Wall
from wallwright.findings import Fault, at_least
from wallwright.lengths import INCH

LEAST_PIECE = 24 * INCH
"""A piece shorter than this, or one that a door's cut-out leaves so, is avoided (common practice, no source)."""
SHORTEST = 12 * INCH
"""No piece is cut shorter than this: it would reach no second stud."""
_BEARERS = frozenset(("field-stud", "king-stud", "seam-stud", "cripple"))
"""Uprights over whose middle a plate may be jointed; posts and jacks stand too near an end of the piece."""

Joints = tuple[int, ...]
Cost = tuple[int, int, int]
"""Pieces, then pieces that are too short, then joints over no upright."""


class Layer(msgspec.Struct, frozen=True):
    """One layer of plate: from ``left`` to ``right``, and the places where it may be jointed, from the left."""

    left: int
    right: int
    spots: Joints
    loose: frozenset[int] = frozenset()
    """Spots over no upright."""
    poor: frozenset[int] = frozenset()
    """Spots that leave a piece shorter than `LEAST_PIECE` beside an end or a door's cut-out."""


class _Chain(msgspec.Struct, frozen=True):
    """The best way to lay what is left of two layers: its cost, and the joints still to come in each."""

    cost: Cost
    lower: Joints
    upper: Joints


class _Stack(msgspec.Struct, frozen=True):
    """The bottom plates or the top plates, one or two, from the lowest up, and each as it may be jointed."""

    name: str
    plates: tuple[Part, ...]
    layers: tuple[Layer, ...]

    def jointed(self, stock: int, offset: int) -> tuple[Joints, Joints] | None:
        """The joints of each layer; None where there are none that are lawful."""
        return joints(self.layers[0], self.layers[1] if len(self.layers) > 1 else None, stock, offset)


def in_pieces(wall: Wall, parts: list[Part]) -> tuple[list[Part], list[Fault]]:
    """The parts with every plate cut into pieces of the stock's length; a fault where no lawful joints exist.

    ``wall`` is level and laid out from its left end; every upright must stand in ``parts`` already.
    """
    stock = wall.plates.stock_length
    if stock is None:
        return parts, []
    kept = ("top-plate", "cap-plate") if wall.top.shape != "level" else ()
    done = [part for part in parts if not part.role.endswith("plate") or part.role in kept]
    offset = wall.plates.cap_offset
    needed: list[tuple[int, str]] = []
    for number, stack in enumerate(_stacks(wall, parts)):
        found = stack.jointed(stock, offset)
        if found is None:
            needed.append((_least_stock(wall, parts, number), stack.name))
            continue
        for plate, cuts in zip(stack.plates, found, strict=False):
            done += _pieces(plate, cuts)
    if needed:
        least, name = max(needed)
        values = (("given", stock), ("least", at_least(least)), ("plates", name), ("offset", offset))
        return parts, [Fault("no-plate-joint", "/plates/stock_length", values)]
    return done, []


def _pieces(plate: Part, cuts: Joints) -> list[Part]:
    """A plate sawn at its joints; each door's cut-out stays in the piece that it lies in."""
    pieces = []
    for left, right in zip((plate.x, *cuts), (*cuts, plate.right), strict=True):
        outs = tuple((low, high) for low, high in plate.cut_outs if low >= left and high <= right)
        pieces.append(replace(plate, x=left, width=right - left, length=right - left, cut_outs=outs))
    return pieces


def _stacks(wall: Wall, parts: list[Part]) -> list[_Stack]:
    """The bottom plates and the top plates."""
    found = []
    kinds: list[tuple[str, tuple[str, ...]]] = [("bottom plates", ("bottom-plate",))]
    if wall.top.shape == "level":
        # Plates on a slope are not jointed: each runs from an end to the ridge or to the other end.
        kinds.append(("top plates", ("top-plate", "cap-plate")))
    for name, roles in kinds:
        plates = sorted((part for part in parts if part.role in roles), key=lambda part: part.y)
        face = plates[0].y if name == "top plates" else plates[-1].top
        layers = [_layer(plate, _bearing_spots(wall, parts, face)) for plate in plates]
        if name == "top plates" and len(layers) > 1:
            layers[1] = _loosened(layers[1], layers[0], wall)
        found.append(_Stack(name, tuple(plates), tuple(layers)))
    return found


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


def _layer(plate: Part, spots: set[int]) -> Layer:
    """A plate as it may be jointed; no joint lies within a door's cut-out, nor leaves a stump at the plate's end."""
    inside = {
        x for x in spots
        if plate.x + SHORTEST <= x <= plate.right - SHORTEST and not any(a <= x <= b for a, b in plate.cut_outs)
    }  # fmt: skip
    ends = (plate.x, plate.right, *(x for cut in plate.cut_outs for x in cut))
    poor = frozenset(x for x in inside if any(abs(x - end) < LEAST_PIECE for end in ends))
    return Layer(plate.x, plate.right, tuple(sorted(inside)), poor=poor)


def _loosened(cap: Layer, below: Layer, wall: Wall) -> Layer:
    """The cap with joints over no upright as well: whole lengths from either end, and just clear of those below."""
    stock, offset = wall.plates.stock_length or 0, wall.plates.cap_offset
    more = {x + way * offset for x in below.spots for way in (-1, 1)}
    more |= set(range(cap.left + stock, cap.right, stock)) | set(range(cap.right - stock, cap.left, -stock))
    inside = {x for x in more if cap.left + SHORTEST <= x <= cap.right - SHORTEST} - set(cap.spots)
    poor = frozenset(x for x in inside if min(x - cap.left, cap.right - x) < LEAST_PIECE)
    return Layer(cap.left, cap.right, tuple(sorted({*cap.spots, *inside})), frozenset(inside), cap.poor | poor)


def joints(lower: Layer, upper: Layer | None, stock: int, offset: int) -> tuple[Joints, Joints] | None:
    """Where two layers are jointed, the fewest pieces first, whole lengths from the left; None where they cannot be.

    Of ways with equally many pieces the one with fewest short pieces is taken, then with fewest joints over no
    upright, then with the longest first pieces.
    """
    over = upper or Layer(0, 0, ())
    chain = _Jointing(lower, over, stock, 0 if upper is None else offset).best(
        _At(lower.left, over.left, False, not upper)
    )
    return None if chain is None else (chain.lower, chain.upper)


class _At(msgspec.Struct, frozen=True, gc=False):
    """How far two layers are laid: the last joint (or the left end) of each, and whether it is finished."""

    lower: int
    upper: int
    lower_done: bool
    upper_done: bool


class _Jointing:
    """Two layers being jointed; each way that both are laid so far is thought through once."""

    def __init__(self, lower: Layer, upper: Layer, stock: int, offset: int) -> None:
        self.lower, self.upper, self.stock, self.offset = lower, upper, stock, offset
        self._known: dict[_At, _Chain | None] = {}

    def best(self, at: _At) -> _Chain | None:
        """The best way to lay what is left; None where there is none."""
        if at.lower_done and at.upper_done:
            return _Chain((0, 0, 0), (), ())
        if at not in self._known:
            # The layer that is further behind goes on, so that of the other only its last joint can be near.
            lower_next = at.upper_done or (not at.lower_done and at.lower <= at.upper)
            self._known[at] = self._lower_on(at) if lower_next else self._upper_on(at)
        return self._known[at]

    def _lower_on(self, at: _At) -> _Chain | None:
        if self.lower.right - at.lower <= self.stock:
            rest = self.best(_At(at.lower, at.upper, True, at.upper_done))
            return _with(rest, self.lower, at.lower, None, below=True)
        found: _Chain | None = None
        for x in self._spots(self.lower, at.lower, None if at.upper == self.upper.left else at.upper):
            rest = self.best(_At(x, at.upper, False, at.upper_done))
            found = _better(found, _with(rest, self.lower, at.lower, x, below=True))
        return found

    def _upper_on(self, at: _At) -> _Chain | None:
        if self.upper.right - at.upper <= self.stock:
            rest = self.best(_At(at.lower, at.upper, at.lower_done, True))
            return _with(rest, self.upper, at.upper, None, below=False)
        found: _Chain | None = None
        for x in self._spots(self.upper, at.upper, None if at.lower == self.lower.left else at.lower):
            rest = self.best(_At(at.lower, x, at.lower_done, False))
            found = _better(found, _with(rest, self.upper, at.upper, x, below=False))
        return found

    def _spots(self, layer: Layer, here: int, other: int | None) -> list[int]:
        """Where the piece that begins ``here`` may end, the longest first, clear of the other layer's last joint."""
        low, high = here + SHORTEST, here + self.stock
        return [
            x for x in reversed(layer.spots) if low <= x <= high and (other is None or abs(x - other) >= self.offset)
        ]


def _better(one: _Chain | None, other: _Chain | None) -> _Chain | None:
    """The cheaper of two ways; the first where both cost the same."""
    if one is None or other is None:
        return one or other
    return other if other.cost < one.cost else one


def _with(rest: _Chain | None, layer: Layer, here: int, joint: int | None, *, below: bool) -> _Chain | None:
    """The way ``rest`` with one more piece before it, from ``here`` to a joint, or to the plate's end where that is None."""
    if rest is None:
        return None
    pieces, short, loose = rest.cost
    end = layer.right if joint is None else joint
    cost = (pieces + 1, short + int(end - here < LEAST_PIECE) + int(end in layer.poor), loose + int(end in layer.loose))
    cuts = () if joint is None else (joint,)
    return _Chain(cost, cuts + rest.lower, rest.upper) if below else _Chain(cost, rest.lower, cuts + rest.upper)


def _least_stock(wall: Wall, parts: list[Part], number: int) -> int:
    """A longer stock with which a stack of plates can be jointed, about the shortest; the longest plate's own length serves.

    It is sought among the distances of the places where a joint may lie, by halving.
    """
    given = wall.plates.stock_length or 0
    stops = [(layer.left, *layer.spots, layer.right) for layer in _stacks(wall, parts)[number].layers]
    lengths = sorted({b - a for ends in stops for a in ends for b in ends if b - a > given})
    low, high = 0, len(lengths) - 1
    while low < high:
        middle = (low + high) // 2
        tried = replace(wall, plates=replace(wall.plates, stock_length=lengths[middle]))
        if _stacks(tried, parts)[number].jointed(lengths[middle], wall.plates.cap_offset) is None:
            low = middle + 1
        else:
            high = middle
    return lengths[low]
