"""Whether measurements that should close do, and which of them is most likely wrong.

There is one length more than the figure needs. So the lengths contradict one another by one figure, which is compared
with what the tape and its reading explain. One contradiction cannot prove which length is wrong: any of them, changed
by the right amount, closes the figure. What is told first is the change that would be the likeliest slip.
"""

from collections.abc import Sequence
from math import sqrt
from typing import Final

import msgspec

from wallwright.domain.squaring.adjusting import Adjusted
from wallwright.lengths import INCH, MILLIMETRE
from wallwright.sources import Source

LIMIT: Final = 3.29
"""Standard errors past which a contradiction is no longer put down to the tape: one honest set in a thousand is past it."""
LIMIT_SOURCE: Final = Source("test for blunders at a risk of 0.1 % (Baarda, 1968)", "", "from memory")
_MOST_SUSPECTS: Final = 3
_LEAST_SHARE: Final = 1e-6


class Suspect(msgspec.Struct, frozen=True, gc=False):
    """A measurement that alone would explain a contradiction: what to add to it, and what it would then read."""

    name: str
    by: int
    reads: int


class Consistency(msgspec.Struct, frozen=True):
    """How far the lengths contradict one another, and whether the tape explains it.

    ``statistic`` is the contradiction in standard errors; ``suspects``, the likeliest first, are told only past ``limit``.
    """

    contradiction: int
    explained_by_tape: int
    statistic: float
    limit: float
    explained: bool
    suspects: tuple[Suspect, ...]


def consistency(
    names: Sequence[str], measured: Sequence[int], fit: Adjusted, pairs: Sequence[tuple[int, ...]], told: Sequence[int]
) -> Consistency:
    """How well the lengths close. ``pairs`` are the measurements that are equal in a true figure.

    The contradiction is told as the change that all of ``told``, made alike, would need; where ``told`` is empty, as the
    least change of a single length.
    """
    alone = [c / share if share > _LEAST_SHARE else 0.0 for c, share in zip(fit.corrections, fit.shares, strict=True)]
    weights = [sqrt(share) / sigma for share, sigma in zip(fit.shares, fit.sigmas, strict=True)]
    if told:
        weight = sum(weights[i] for i in told)
        inverse = sum(1 / alone[i] for i in told if alone[i])
        contradiction = -1 / inverse if inverse else 0.0
    else:
        strongest = max(range(len(weights)), key=lambda i: weights[i])
        weight, contradiction = weights[strongest], abs(alone[strongest])
    explained = fit.misfit <= LIMIT
    suspects = () if explained else _suspects(names, measured, alone, fit, pairs)
    return Consistency(round(contradiction), round(LIMIT / weight), round(fit.misfit, 6), LIMIT, explained, suspects)


def _suspects(
    names: Sequence[str],
    measured: Sequence[int],
    alone: Sequence[float],
    fit: Adjusted,
    pairs: Sequence[tuple[int, ...]],
) -> tuple[Suspect, ...]:
    """The measurements by how likely each alone is wrong.

    A slip is likelier the truer the figure is without it (what should be equal is), and the nearer it is to whole
    inches or whole centimetres, since a tape is misread by whole marks.
    """
    ranked = []
    for number, name in enumerate(names):
        if fit.shares[number] <= _LEAST_SHARE or measured[number] + alone[number] <= 0:
            continue
        mended = [length + (alone[number] if i == number else 0.0) for i, length in enumerate(measured)]
        untrue = sum(abs(mended[one] - mended[other]) for one, other in pairs)
        ranked.append((untrue + _from_whole_marks(alone[number]), number, name))
    ranked.sort()
    return tuple(
        Suspect(name, round(alone[number]), round(measured[number] + alone[number]))
        for _, number, name in ranked[:_MOST_SUSPECTS]
    )


def _from_whole_marks(change: float) -> float:
    return min(abs(change - mark * round(change / mark)) for mark in (INCH, 10 * MILLIMETRE))
