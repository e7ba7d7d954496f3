"""Far more callers than the service takes at once: they are sent away quickly, health answers, and it is soon well again.

    python -m tests.load.overload --callers 400 --seconds 60

Targets: no status but 200 and 503, answers of 503 in less than 50 ms, health p99 below 100 ms, well again within 2 s. Health is
asked from a process of its own, as a probe does: beside 400 callers it would wait for them, not for the service.
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


async def measured(port: int, callers: int, seconds: float) -> tuple[Counter[int], list[float], float]:
    """Statuses, times of those sent away, and when it was well again."""
    raw = posted("/v1/layout", heavy())
    statuses: Counter[int] = Counter()
    away: list[float] = []
    end = time.perf_counter() + seconds

    async def go() -> None:
        caller = Caller(port)
        while time.perf_counter() < end:
            began = time.perf_counter()
            try:
                status, _, _ = await caller.ask(raw)
            except Exception:
                status = 0
                caller.close()
            statuses[status] += 1
            if status == 503:
                away.append(time.perf_counter() - began)
                await asyncio.sleep(0.5)

    await asyncio.gather(*(go() for _ in range(callers)))
    began = time.perf_counter()
    while (await Caller(port).ask(posted("/v1/layout", b'{"units":"in","length":96,"height":96}')))[0] != 200:
        await asyncio.sleep(0.05)
    return statuses, sorted(away), time.perf_counter() - began


def main() -> int:
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--callers", type=int, default=200)
    parser.add_argument("--seconds", type=float, default=5)
    options = parser.parse_args()
    with service(1) as copy, ProcessPoolExecutor(1) as beside:
        asked = beside.submit(health_times, copy.port, options.seconds)
        statuses, away, well = asyncio.run(measured(copy.port, options.callers, options.seconds))
        health = sorted(asked.result())

    def at(times: list[float], share: float) -> str:
        return f"{times[min(len(times) - 1, int(share * len(times)))] * 1000:.0f}" if times else "-"

    print(
        f"overload, {options.callers} callers on one worker: {dict(statuses)}; sent away p50 {at(away, 0.5)} p99 {at(away, 0.99)} ms; "
        f"health p50 {at(health, 0.5)} p99 {at(health, 0.99)} ms; well again after {well:.1f} s"
    )
    return 1 if set(statuses) - {200, 503} or not away else 0


if __name__ == "__main__":
    raise SystemExit(main())
