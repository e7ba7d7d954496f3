"""The ways to cut one board: how long a set of pieces is with its saw cuts, the best set, and every set worth having.

Sizes are a piece's length and one kerf; a board's room is its length less the trims at both ends, and one kerf, so that pieces
fit where their sizes add up to no more than the room (the last piece may end with the board, without a cut).

Pieces with a slanted end nest: where two slanted ends of one `group` meet, one cut serves both and what it saves is
taken off. Of any number of pieces with two such ends (parallelograms) and with one, the most joints are had by chaining the
former first and ending the chain with one of the latter at either side, which is the order of the items.
"""

from bisect import bisect_right
from collections.abc import Iterator

import msgspec


class Item(msgspec.Struct, frozen=True, gc=False):
    """Equal pieces: the room that one takes, how many are wanted, and its slanted ends with what a joint of two saves."""

    size: int
    most: int
    group: int = 0
    ends: int = 0
    saves: int = 0


Counts = tuple[int, ...]
_Front = tuple[list[int], list[int]]
"""Sizes in rising order, and the value that is had within each: only those where the value rises."""


class Work:
    """How much work is left, counted in steps that are the same on every machine."""

    def __init__(self, steps: int) -> None:
        self.left = steps

    def take(self, steps: int) -> bool:
        """Whether there was so much work left."""
        self.left -= steps
        return self.left >= 0


def ordered(items: list[Item]) -> list[int]:
    """The order in which items are gone through: groups together, chains first, the largest first."""
    return sorted(range(len(items)), key=lambda n: (items[n].group, -items[n].ends, -items[n].size, n))


def step(item: Item, loose: int) -> tuple[int, int]:
    """What one more piece takes where ``loose`` slanted ends are free, and how many are free then."""
    if not item.ends:
        return item.size, loose
    if loose:
        return item.size - item.saves, loose + item.ends - 2
    return item.size, item.ends


def used(items: list[Item], counts: Counts) -> int:
    """The room that so many of each item (in their order) take on one board."""
    total = loose = group = 0
    for item, count in zip(items, counts, strict=True):
        if item.group != group:
            loose, group = 0, item.group
        for _ in range(count if item.ends else 0):
            size, loose = step(item, loose)
            total += size
        if not item.ends:
            total += item.size * count
    return total


class Fronts:
    """The best value within any room, for items of given values, from each item on to the last.

    Pareto fronts of (size, value), built from the last item backwards; for items with slanted ends there is one for each
    number of free ends (0 to 2). Exact, since all are whole numbers.
    """

    def __init__(self, items: list[Item], values: list[int], room: int, work: Work) -> None:
        self.items = items
        self.values = values
        self.room = room
        self.complete = True
        self._least = min(item.size - item.saves for item in items)
        self._merges = 0
        self._fronts: list[tuple[_Front, ...]] = [()] * len(items) + [(([0], [0]),)]
        for place in range(len(items) - 1, -1, -1):
            self._merges = 0
            self._fronts[place] = self._added(place)
            if not work.take(self._merges + sum(len(front[0]) for front in self._fronts[place])):
                self.complete = False
                return

    def _added(self, place: int) -> tuple[_Front, ...]:
        item, value = self.items[place], self.values[place]
        if item.ends:
            first = not place or self.items[place - 1].group != item.group
            return tuple(self._chained(place, loose) for loose in range(1 if first else 3))
        front = self._after(place, 0)
        left = min(item.most, self.room // item.size) if value else 0
        many = 1
        while left > 0:
            take = min(many, left)
            front = self._merge(front, _moved(front, item.size * take, value * take, self.room))
            left -= take
            many *= 2
        # A plain item leaves free ends alone, but none of its group has any.
        return (front,)

    def _chained(self, place: int, loose: int) -> _Front:
        item, value = self.items[place], self.values[place]
        front = self._after(place, loose)
        size = worth = 0
        for _ in range(item.most if value else 0):
            one, loose = step(item, loose)
            size, worth = size + one, worth + value
            if size > self.room:
                break
            front = self._merge(front, _moved(self._after(place, loose), size, worth, self.room))
        return front

    def _merge(self, one: _Front, other: _Front) -> _Front:
        self._merges += len(other[0])
        return _merged(one, other)

    def _after(self, place: int, loose: int) -> _Front:
        """The front of the items after this one, where so many slanted ends are free."""
        fronts = self._fronts[place + 1]
        same = place + 1 < len(self.items) and self.items[place + 1].group == self.items[place].group
        return fronts[loose] if same and len(fronts) > 1 else fronts[0]

    def best(self, room: int) -> int:
        """The greatest value within a room."""
        return _at(self._fronts[0][0], room)

    def pattern(self, room: int) -> Counts:
        """One set of pieces of the greatest value within a room: of several the one with fewest of the first items."""
        counts = []
        loose = 0
        for place, item in enumerate(self.items):
            if place and item.group != self.items[place - 1].group:
                loose = 0
            want = self._value(place, loose, room)
            size = count = 0
            while _at(self._after(place, loose), room - size) + count * self.values[place] < want:
                one, loose = step(item, loose)
                size, count = size + one, count + 1
            counts.append(count)
            room -= size
        return tuple(counts)

    def _value(self, place: int, loose: int, room: int) -> int:
        fronts = self._fronts[place]
        return _at(fronts[loose] if len(fronts) > 1 else fronts[0], room)

    def worth(self, room: int, least: int, work: Work, *, full: bool) -> Iterator[Counts]:
        """Every set of pieces within a room that is worth at least ``least``; stops where the work is used up.

        With ``full`` only sets to which nothing that is wanted can be added.
        """
        counts = [0] * len(self.items)
        for found, rest in self._worth(0, 0, room, least, counts, work):
            if any(found) and (not full or self._full(found, room, rest)):
                yield found

    def _worth(
        self, place: int, loose: int, room: int, least: int, counts: list[int], work: Work
    ) -> Iterator[tuple[Counts, int]]:
        """The sets, and the room that each leaves."""
        if not work.take(1):
            return
        if place == len(self.items):
            yield tuple(counts), room
            return
        item = self.items[place]
        if place and item.group != self.items[place - 1].group:
            loose = 0
        steps = [(0, loose)]
        while len(steps) <= item.most:
            one, loose = step(item, steps[-1][1])
            if steps[-1][0] + one > room:
                break
            steps.append((steps[-1][0] + one, loose))
        for count in range(len(steps) - 1, -1, -1):
            size, free = steps[count]
            rest = least - count * self.values[place]
            if _at(self._after(place, free), room - size) >= rest:
                counts[place] = count
                yield from self._worth(place + 1, free, room - size, rest, counts, work)
        counts[place] = 0

    def _full(self, counts: Counts, room: int, left: int) -> bool:
        """Whether nothing more that is wanted fits, where so much of the room is left."""
        if left < self._least:
            return True
        for place, item in enumerate(self.items):
            if counts[place] >= item.most:
                continue
            if not item.ends and item.size <= left:
                return False
            if item.ends and item.size - item.saves <= left:
                more = (*counts[:place], counts[place] + 1, *counts[place + 1 :])
                if used(self.items, more) <= room:
                    return False
        return True


def filled(items: list[Item], counts: Counts, most: Counts, room: int, order: list[int] | None = None) -> Counts:
    """The same set with as much more as fits, the largest pieces first (``order``, see `by_size`), none beyond ``most``."""
    found = list(counts)
    taken = used(items, counts) if any(counts) else 0
    for place in by_size(items) if order is None else order:
        item = items[place]
        if found[place] >= most[place]:
            continue
        if not item.ends:
            more = max(0, min(most[place] - found[place], (room - taken) // item.size))
            found[place] += more
            taken += more * item.size
            continue
        while found[place] < most[place]:
            found[place] += 1
            longer = used(items, tuple(found))
            if longer > room:
                found[place] -= 1
                break
            taken = longer
    return tuple(found)


def by_size(items: list[Item]) -> list[int]:
    """The places of the items, the largest first."""
    return sorted(range(len(items)), key=lambda n: (-items[n].size, n))


def _at(front: _Front, room: int) -> int:
    place = bisect_right(front[0], room)
    return front[1][place - 1] if place else -(10**30)


def _moved(front: _Front, size: int, value: int, room: int) -> _Front:
    end = bisect_right(front[0], room - size)
    return [one + size for one in front[0][:end]], [one + value for one in front[1][:end]]


def _merged(one: _Front, other: _Front) -> _Front:
    """Both fronts as one: what takes more room without being worth more is left out."""
    sizes: list[int] = []
    values: list[int] = []
    best = -1
    a = b = 0
    ends_a, ends_b = len(one[0]), len(other[0])
    while a < ends_a or b < ends_b:
        if b == ends_b or (a < ends_a and one[0][a] <= other[0][b]):
            size, value = one[0][a], one[1][a]
            a += 1
        else:
            size, value = other[0][b], other[1][b]
            b += 1
        if value > best:
            if sizes and sizes[-1] == size:
                values[-1] = value
            else:
                sizes.append(size)
                values.append(value)
            best = value
    return sizes, values
