"""A stop under load: requests that are computed or in line are all answered, new connections refused, the end is clean.

    python -m tests.load.drain --requests 40

Targets: all answered with Connection: close, exit status 0 within 10 s; lingering, /ready says 503 within 100 ms.
"""

import argparse
import asyncio
import signal
import time

from tests.contract.servers import Service, service
from tests.load.traffic import Caller, got, heavy, posted


async def measured(copy: Service, count: int) -> tuple[int, int, bool]:
    """How many were answered, how many of them closed, and whether a new connection was refused."""
    raw = posted("/v1/layout", heavy(2))

    async def ask() -> tuple[int, bool]:
        status, _, stays = await Caller(copy.port).ask(raw)
        return status, stays

    tasks = [asyncio.create_task(ask()) for _ in range(count)]
    await asyncio.sleep(0.3)
    early = sum(task.done() for task in tasks)
    copy.process.send_signal(signal.SIGTERM)
    await asyncio.sleep(0.4)
    refused = False
    try:
        await Caller(copy.port).ask(got("/health"))
    except Exception:
        refused = True
    answers = await asyncio.gather(*tasks, return_exceptions=True)
    good = [answer for answer in answers if not isinstance(answer, BaseException) and answer[0] == 200]
    return len(good), sum(not stays for _, stays in good) + early, refused


async def readiness(copy: Service) -> float:
    """How many ms after the signal /ready says 503."""
    caller = Caller(copy.port)
    await caller.ask(got("/ready"))
    copy.process.send_signal(signal.SIGTERM)
    began = time.perf_counter()
    while (await caller.ask(got("/ready")))[0] != 503:
        await asyncio.sleep(0.002)
    return (time.perf_counter() - began) * 1000


def main() -> int:
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--requests", type=int, default=40)
    options = parser.parse_args()
    bad = 0
    for workers in (1, 2):
        with service(workers) as copy:
            answered, closed, refused = asyncio.run(measured(copy, options.requests))
            began = time.perf_counter()
            code = copy.process.wait(20)
            spent = time.perf_counter() - began
        with service(workers, linger_seconds=2) as copy:
            ready = asyncio.run(readiness(copy))
            lingered = copy.process.wait(20)
        print(
            f"drain, {workers} workers: {answered} of {options.requests} answered, {closed} closed, new connections "
            f"{'refused' if refused else 'TAKEN'}, exit {code} {spent:.1f} s after the last answer; "
            f"lingering: /ready 503 after {ready:.0f} ms, exit {lingered}",
            flush=True,
        )
        bad += answered != options.requests or not refused or code != 0 or lingered != 0
    return 1 if bad else 0


if __name__ == "__main__":
    raise SystemExit(main())
