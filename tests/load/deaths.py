"""Workers are killed, told to stop, or whole copies replaced, every two seconds under load behind a shipped proxy.

    python -m tests.load.deaths kill --requests 60000
    python -m tests.load.deaths rolling --requests 40000
    python -m tests.load.deaths copies --requests 40000

Targets: none failed with one retry by the caller, and none wrong; rolling none failed without any.
"""

import argparse
import asyncio
import contextlib
import os
import random
import signal
import time
from collections.abc import Callable
from dataclasses import dataclass

from tests.contract.servers import Service, service
from tests.load.proxies import KINDS, proxy
from tests.load.traffic import Tally, drive, learnt, mixed

EVERY_SECONDS = 2.0


@dataclass(frozen=True)
class Asked:
    """At least so many requests, something done every so many seconds and at least so often, and the retries of a caller."""

    requests: int
    every: float
    retries: int
    least: int


async def disturbed(port: int, asked: Asked, disturb: Callable[[int], None], callers: int = 32) -> tuple[Tally, int]:
    """The tally of a load during which something is done every so often, and how often it was."""
    questions = await learnt(port, mixed())
    times = 0

    async def go() -> None:
        nonlocal times
        while True:
            await asyncio.sleep(asked.every)
            await asyncio.to_thread(disturb, times)
            times += 1

    task = asyncio.create_task(go())
    tally = await drive(port, questions, asked.requests, callers, asked.retries)
    while times < asked.least:
        await drive(port, questions, 200, callers, asked.retries, tally)
    task.cancel()
    with contextlib.suppress(asyncio.CancelledError):
        await task
    return tally, times


def on_workers(kind: str, number: int, workers: int, asked: Asked) -> tuple[Tally, int]:
    """A signal to one worker of a copy, a random one, every so often."""
    draw = random.Random(7)
    with service(workers) as one, proxy(kind, one.port) as port:

        def disturb(_: int) -> None:
            with contextlib.suppress(ProcessLookupError, IndexError):
                os.kill(draw.choice(one.workers()), number)

        return asyncio.run(disturbed(port, asked, disturb))


def on_copies(kind: str, asked: Asked) -> tuple[Tally, int]:
    """Each of three copies in turn is told to stop, waited for, and started anew at the same port."""
    copies = [Service(linger_seconds=2) for _ in range(3)]
    try:
        for one in copies:
            one.wait()
        with proxy(kind, *(one.port for one in copies)) as port:

            def disturb(turn: int) -> None:
                old = copies[turn % 3]
                assert old.stop() == 0
                copies[turn % 3] = Service(port=old.port, linger_seconds=2)
                copies[turn % 3].wait()

            return asyncio.run(disturbed(port, asked, disturb))
    finally:
        for one in copies:
            one.process.kill()


def main() -> int:
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("what", choices=["kill", "rolling", "copies"])
    parser.add_argument("--requests", type=int, default=4000)
    parser.add_argument("--every", type=float, default=EVERY_SECONDS)
    parser.add_argument("--workers", type=int, default=3)
    parser.add_argument("--retries", type=int, default=1)
    parser.add_argument("--proxy", choices=KINDS, action="append")
    parser.add_argument("--least", type=int, default=1, help="go on until so many were disturbed")
    options = parser.parse_args()
    asked = Asked(options.requests, options.every, options.retries, options.least)
    bad = 0
    for kind in options.proxy or KINDS:
        began = time.monotonic()
        if options.what == "copies":
            tally, times = on_copies(kind, asked)
        else:
            number = signal.SIGKILL if options.what == "kill" else signal.SIGTERM
            tally, times = on_workers(kind, number, options.workers, asked)
        spent = time.monotonic() - began
        print(f"{options.what} behind {kind}: {times} times in {spent:.0f} s; {tally}", flush=True)
        bad += tally.failed + tally.wrong
    return 1 if bad else 0


if __name__ == "__main__":
    raise SystemExit(main())
