"""Computing stands off the event loop: a few threads, and a bounded line in front of them.

The loop reads, answers for its own health and sends while a wall is computed. What is computed is pure, so
that any number of threads may compute at once; beyond the limit a request is sent away at once instead of waiting.

Under the interpreter's one lock two threads compute no faster than one, but take it from each other all the time, and
the loop, which gives it up at each read and write, then has to wait for both. So a thread computes alone for its
turn; only one that goes on beyond that has another beside it, so that a long question does not hold up short ones.
"""

import asyncio
import contextlib
import threading
import time
from collections.abc import Callable, Iterator
from concurrent.futures import ThreadPoolExecutor
from typing import Final, Generic, TypeVar

from wallwright.api.problems import Refused

_T = TypeVar("_T")
RETRY_AFTER: Final = {"Retry-After": "1"}
SLOW_THREADS: Final = 2
"""How many slow operations run at once in a process."""
TURN_SECONDS: Final = 0.05


class Timed(Generic[_T]):
    """What a task gave, and how long it stood in line before."""

    def __init__(self, result: _T, waited: float) -> None:
        self.result = result
        self.waited = waited


class Work:
    """Runs tasks in threads, at most ``most`` at once, those that stand in line included."""

    def __init__(self, threads: int, most: int) -> None:
        self.threads = threads
        self.most = most
        self.under_way = 0
        self._pool: ThreadPoolExecutor | None = None
        self._turn = threading.Lock()
        self._since = 0.0

    @property
    def full(self) -> bool:
        """Whether one more task would be sent away."""
        return self.under_way >= self.most

    async def run(self, task: Callable[[], _T]) -> _T:
        """What the task returns. Raises what it raises, and Refused with 503 where as much is under way as may be."""
        return (await self.timed(task)).result

    async def timed(self, task: Callable[[], _T]) -> Timed[_T]:
        """As `run`, with the time that the task stood in line, in seconds."""
        if self.full:
            raise Refused("busy", headers=RETRY_AFTER)
        if self._pool is None:
            # Made by the process that computes, so that a worker never inherits threads that it does not have.
            self._pool = ThreadPoolExecutor(self.threads, "wallwright-work")
        asked = time.perf_counter()

        def go() -> Timed[_T]:
            with self._in_turn():
                waited = time.perf_counter() - asked
                try:
                    return Timed(task(), waited)
                except StopIteration as error:
                    # No future can carry this one: whoever waits would wait for ever.
                    raise RuntimeError("a task ended with StopIteration") from error

        self.under_way += 1
        try:
            return await asyncio.get_running_loop().run_in_executor(self._pool, go)
        finally:
            self.under_way -= 1

    @contextlib.contextmanager
    def _in_turn(self) -> Iterator[None]:
        """Alone, or beside one whose turn is over."""
        left = self._since + TURN_SECONDS - time.monotonic()
        alone = self._turn.acquire(timeout=max(left, 0.0))
        if alone:
            self._since = time.monotonic()
        try:
            yield
        finally:
            if alone:
                self._turn.release()
