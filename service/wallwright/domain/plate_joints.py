"""Where two layers of plate are jointed: a search over the places where each may be, the fewest pieces first."""

import msgspec

from wallwright.lengths import INCH

LEAST_PIECE = 24 * INCH
"""A piece shorter than this, or one that a door's cut-out leaves so, is avoided (common practice, no source)."""
SHORTEST = 12 * INCH
"""No piece is cut shorter than this: it would reach no second stud."""

Joints = tuple[int, ...]
Cost = tuple[int, int, int]
"""Pieces, then pieces that are too short, then joints over no upright."""


class Reach(msgspec.Struct, frozen=True, gc=False):
    """How far a piece of the stock reaches along x, and how far apart joints of two layers must lie in x."""

    stock: int
    offset: int


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
