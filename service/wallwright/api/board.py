"""What all workers of one service share: counters, and whether it is stopping, in memory mapped before they are forked.

Each worker writes into a row of its own, so nothing is locked; a scrape adds the rows, so that one scrape of any
worker shows the whole service. A row outlives its worker: counters never fall. Nothing is written to a file.
"""

import bisect
import mmap
import resource
import sys
import time
from collections.abc import Sequence
from typing import Final

from wallwright.api.problems import PROBLEMS

BUCKETS: Final = (0.001, 0.0025, 0.005, 0.01, 0.025, 0.05, 0.1, 0.25, 0.5, 1.0, 2.5, 5.0, 10.0)
STATUSES: Final = tuple(sorted({200, 204, 303, 304} | {kind.status for kind in PROBLEMS.values()}))
UNMATCHED: Final = "unmatched"
_OTHER: Final = len(STATUSES)
_ALL_STATUSES: Final = (*(str(status) for status in STATUSES), "other")
_CODES: Final = tuple(PROBLEMS)
# The first numbers of a row; then problems by code, then for each route statuses, buckets and the sum of seconds.
_BEAT, _RESIDENT, _INSIDE, _WORKING, _FIRST = 0, 1, 2, 3, 4
_STOPPING, _STARTS, _HEAD = 0, 1, 2
_ROUTES: Final = _FIRST + len(_CODES)
_ROUTE: Final = len(STATUSES) + 1 + len(BUCKETS) + 2


class Board:
    """Counters by route template in one row a worker. Named before workers are forked; ``row`` is set after."""

    def __init__(self, rows: int = 1) -> None:
        self.rows = rows
        self.row = 0
        self.routes: dict[str, int] = {}
        self._name([UNMATCHED])

    def name(self, routes: Sequence[str]) -> None:
        """Make room for the templates of all routes. What was counted for those named before is kept."""
        before, numbers, row_size = self.routes, self._numbers, self._row_size
        self._name([*dict.fromkeys(routes), UNMATCHED])
        self._numbers[:_HEAD] = numbers[:_HEAD]
        for row in range(self.rows):
            old, new = _HEAD + row * row_size, self._at(0, row)
            self._numbers[new : new + _ROUTES] = numbers[old : old + _ROUTES]
            for route in before.keys() & self.routes.keys():
                was, now = (at + _ROUTES + known[route] * _ROUTE for at, known in ((old, before), (new, self.routes)))
                self._numbers[now : now + _ROUTE] = numbers[was : was + _ROUTE]

    def _name(self, routes: Sequence[str]) -> None:
        self.routes = {route: number for number, route in enumerate(routes)}
        self._row_size = _ROUTES + len(self.routes) * _ROUTE
        self._numbers = memoryview(mmap.mmap(-1, 8 * (_HEAD + self.rows * self._row_size))).cast("d")

    def _at(self, place: int, row: int | None = None) -> int:
        return _HEAD + (self.row if row is None else row) * self._row_size + place

    @property
    def stopping(self) -> bool:
        """Whether the service is stopping: it still answers, and is not ready for more."""
        return self._numbers[_STOPPING] > 0

    def stop(self) -> None:
        """Say, for all workers, that the service is stopping."""
        self._numbers[_STOPPING] = 1

    def started(self, row: int) -> None:
        """A worker starts on a row."""
        self._numbers[_STARTS] += 1
        self.beat(row)

    def ended(self, row: int) -> None:
        """The worker of a row is gone, and with it what was under way there; what it counted stays."""
        for place in (_BEAT, _RESIDENT, _INSIDE, _WORKING):
            self._numbers[self._at(place, row)] = 0

    def beat(self, row: int | None = None) -> None:
        """Say that the worker's loop turns."""
        self._numbers[self._at(_BEAT, row)] = time.monotonic()

    def silent(self, row: int) -> float:
        """For how many seconds a worker has not said that its loop turns."""
        return time.monotonic() - self._numbers[self._at(_BEAT, row)]

    def load(self, inside: int, working: int) -> None:
        """How many requests this worker holds, and how many of them are computed or in line for it."""
        self._numbers[self._at(_INSIDE)] = inside
        self._numbers[self._at(_WORKING)] = working

    def resident(self) -> None:
        """Note the largest memory that this worker has had, in bytes."""
        unit = 1 if sys.platform == "darwin" else 1024
        self._numbers[self._at(_RESIDENT)] = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss * unit

    def count(self, route: str, status: int, seconds: float, code: str = "") -> None:
        """Count one answer."""
        number = self.routes.get(route, self.routes[UNMATCHED])
        start = self._at(_ROUTES + number * _ROUTE)
        place = bisect.bisect_left(STATUSES, status)
        known = place < _OTHER and STATUSES[place] == status
        self._numbers[start + (place if known else _OTHER)] += 1
        buckets = start + _OTHER + 1
        self._numbers[buckets + bisect.bisect_left(BUCKETS, seconds)] += 1
        self._numbers[buckets + len(BUCKETS) + 1] += seconds
        if code in PROBLEMS:
            self._numbers[self._at(_FIRST + _CODES.index(code))] += 1

    def _sum(self, place: int) -> float:
        return sum(self._numbers[self._at(place, row)] for row in range(self.rows))

    def text(self, version: str) -> str:
        """All of it in the text format of Prometheus, 0.0.4."""
        lines = [
            *_family("wallwright_build_info", "gauge", "The version that runs.", [(f'{{version="{version}"}}', 1)]),
            *_family("wallwright_stopping", "gauge", "1 while the service stops.", [("", self._numbers[_STOPPING])]),
            *_family("wallwright_worker_starts_total", "counter", "Workers started.", [("", self._numbers[_STARTS])]),
            *self._workers(),
            *_family("wallwright_inside", "gauge", "Requests inside the service.", [("", self._sum(_INSIDE))]),
            *_family("wallwright_working", "gauge", "Requests computed or in line.", [("", self._sum(_WORKING))]),
            *_family(
                "wallwright_problems_total", "counter", "Answers that were problems, by code.",
                [(f'{{code="{code}"}}', self._sum(_FIRST + place)) for place, code in enumerate(_CODES)],
            ),
            *self._routes(),
        ]  # fmt: skip
        return "\n".join(lines) + "\n"

    def _workers(self) -> list[str]:
        alive = [row for row in range(self.rows) if self._numbers[self._at(_BEAT, row)]]
        memory = [(f'{{worker="{row}"}}', self._numbers[self._at(_RESIDENT, row)]) for row in alive]
        return [
            *_family("wallwright_workers", "gauge", "Workers that run.", [("", len(alive))]),
            *_family("wallwright_worker_peak_resident_bytes", "gauge", "Largest memory of each worker so far.", memory),
        ]

    def _routes(self) -> list[str]:
        totals: list[tuple[str, float]] = []
        spent: list[str] = []
        for route, number in self.routes.items():
            start = _ROUTES + number * _ROUTE
            counts = [self._sum(start + place) for place in range(_OTHER + 1)]
            if not sum(counts):
                continue
            totals += [
                (f'{{route="{route}",status="{status}"}}', count)
                for status, count in zip(_ALL_STATUSES, counts, strict=True)
                if count
            ]
            spent += self._histogram(route, start + _OTHER + 1)
        return [
            *_family("wallwright_requests_total", "counter", "Answers, by route template and status.", totals),
            "# HELP wallwright_request_seconds Time from headers to the answer's last byte, by route template.",
            "# TYPE wallwright_request_seconds histogram",
            *spent,
        ]

    def _histogram(self, route: str, start: int) -> list[str]:
        name = "wallwright_request_seconds"
        lines, so_far = [], 0.0
        for place, edge in enumerate((*map(str, BUCKETS), "+Inf")):
            so_far += self._sum(start + place)
            lines.append(f'{name}_bucket{{route="{route}",le="{edge}"}} {so_far:.0f}')
        lines.append(f'{name}_sum{{route="{route}"}} {self._sum(start + len(BUCKETS) + 1):.6f}')
        lines.append(f'{name}_count{{route="{route}"}} {so_far:.0f}')
        return lines


def _family(name: str, kind: str, text: str, samples: Sequence[tuple[str, float]]) -> list[str]:
    return [
        f"# HELP {name} {text}",
        f"# TYPE {name} {kind}",
        *(f"{name}{labels} {value:.0f}" for labels, value in samples),
    ]
