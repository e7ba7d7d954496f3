"""Far more asked than the service can work out: who is too many is sent away quickly, health answers, and it is soon well again.

    python -m tests.load.overload --seconds 60                  # four times as many requests a second as it can answer
    python -m tests.load.overload --callers 400 --seconds 60    # a crowd that asks again half a second after each refusal

Targets, at four times what it can answer: no status but 200 and 503, every answer of 503 in less than 50 ms (a busy machine:
99 of 100), health p99 below 100 ms, well again within 2 s. A crowd is told, and held to its statuses alone: its callers share
one process and wait for each other. Health is asked from a process of its own, as a probe does.
"""

import argparse
import asyncio
import time
from collections import Counter
from concurrent.futures import ProcessPoolExecutor

from tests.contract.servers import service
from tests.load.traffic import Caller, got, heavy, posted


def health_times(port: int, seconds: float) -> list[float]:
    """How long health took each time that it was asked, twenty times a second. Raises RuntimeError where it is not told."""

    async def ask() -> list[float]:
        caller, found, end = Caller(port), list[float](), time.perf_counter() + seconds
        while time.perf_counter() < end:
            began = time.perf_counter()
            status, _, _ = await caller.ask(got("/health"))
            if status != 200:
                raise RuntimeError(f"health {status}")
            found.append(time.perf_counter() - began)
            await asyncio.sleep(0.05)
        return found

    return asyncio.run(ask())


RAW = posted("/v1/layout", heavy())


class Seen:
    """Statuses and times in seconds of what was sent away, of one run."""

    def __init__(self, port: int) -> None:
        self.port = port
        self.statuses: Counter[int] = Counter()
        self.away: list[float] = []

    async def one(self, caller: Caller) -> int:
        began = time.perf_counter()
        try:
            status, _, _ = await caller.ask(RAW)
        except Exception:
            status = 0
            caller.close()
        self.statuses[status] += 1
        if status == 503:
            self.away.append(time.perf_counter() - began)
        return status

    async def well_again(self) -> float:
        """Seconds until a small wall is answered."""
        began = time.perf_counter()
        while (await Caller(self.port).ask(posted("/v1/layout", b'{"units":"in","length":96,"height":96}')))[0] != 200:
            await asyncio.sleep(0.05)
        return time.perf_counter() - began


async def saturation(port: int, seconds: float = 4) -> float:
    """How many a second are answered where a few callers ask without a pause."""
    seen, end = Seen(port), time.perf_counter() + seconds

    async def go() -> None:
        caller = Caller(port)
        while time.perf_counter() < end:
            await seen.one(caller)

    await asyncio.gather(*(go() for _ in range(8)))
    return seen.statuses[200] / seconds


async def paced(seen: Seen, rate: float, seconds: float) -> float:
    """Ask so many a second, whatever becomes of those before; when it is well again."""
    idle: list[Caller] = []

    async def one() -> None:
        caller = idle.pop() if idle else Caller(seen.port)
        await seen.one(caller)
        idle.append(caller)

    began, asked = time.perf_counter(), []
    for number in range(int(rate * seconds)):
        await asyncio.sleep(max(0.0, began + number / rate - time.perf_counter()))
        asked.append(asyncio.create_task(one()))
    await asyncio.gather(*asked)
    return await seen.well_again()


async def crowd(seen: Seen, callers: int, seconds: float) -> float:
    """So many callers that come again soon after they were sent away; when it is well again."""
    end = time.perf_counter() + seconds

    async def go() -> None:
        caller = Caller(seen.port)
        while time.perf_counter() < end:
            if await seen.one(caller) == 503:
                await asyncio.sleep(0.5)

    await asyncio.gather(*(go() for _ in range(callers)))
    return await seen.well_again()


def at(times: list[float], share: float) -> float:
    """The time in ms below which that share of them lies."""
    ordered = sorted(times)
    return ordered[min(len(ordered) - 1, int(share * len(ordered)))] * 1000 if ordered else 0.0


def main() -> int:
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--times", type=float, default=4, help="so many times what it can answer")
    parser.add_argument("--callers", type=int, default=0, help="a crowd of so many instead")
    parser.add_argument("--seconds", type=float, default=5)
    options = parser.parse_args()
    with service(1) as copy, ProcessPoolExecutor(1) as beside:
        rate = asyncio.run(saturation(copy.port)) * options.times
        seen = Seen(copy.port)
        asked = beside.submit(health_times, copy.port, options.seconds)
        run = crowd(seen, options.callers, options.seconds) if options.callers else paced(seen, rate, options.seconds)
        well = asyncio.run(run)
        health = asked.result()

    who = (
        f"{options.callers} callers"
        if options.callers
        else f"{rate:.0f} requests a second, {options.times:g} times what it answers"
    )
    print(
        f"overload, {who}, one worker: {dict(seen.statuses)}; sent away p50 {at(seen.away, 0.5):.0f} p99 {at(seen.away, 0.99):.0f} "
        f"worst {at(seen.away, 1):.0f} ms; health p50 {at(health, 0.5):.0f} p99 {at(health, 0.99):.0f} ms; well again after {well:.1f} s"
    )
    if set(seen.statuses) - {200, 503} or not seen.away:
        return 1
    slow = at(seen.away, 0.99) >= 50 or at(health, 0.99) >= 100 or well > 2
    return 1 if slow and not options.callers else 0


if __name__ == "__main__":
    raise SystemExit(main())
