"""Many open connections: all are opened, health is asked while they are idle, then each asks twice.

    python -m tests.load.many --connections 10000

Targets: no error; memory of a worker at most 350 MB; health while they are idle p99 below 100 ms.
"""

import argparse
import asyncio
import contextlib
import resource
import time

from tests.contract.servers import service
from tests.load.proxies import proxy
from tests.load.traffic import WALLS, Caller, Tally, got, learnt, posted


def room() -> None:
    """As many open files as this process may have."""
    most = resource.getrlimit(resource.RLIMIT_NOFILE)[1]
    resource.setrlimit(resource.RLIMIT_NOFILE, (most, most))


def resident(pid: int) -> int:
    """A process's memory in kB."""
    with open(f"/proc/{pid}/status") as file:
        return next(int(line.split()[1]) for line in file if line.startswith("VmRSS"))


async def measured(port: int, direct: int, connections: int) -> tuple[Tally, list[float], float]:
    """Both rounds, the times of health while all are idle, and how long opening took."""
    (question,) = await learnt(port, [posted("/v1/layout", WALLS[0])])
    callers = [Caller(port) for _ in range(connections)]
    gate = asyncio.Semaphore(100)
    tally = Tally()

    async def round_of(caller: Caller, raw: bytes) -> None:
        async with gate:
            began = time.perf_counter()
            try:
                status, _, _ = await caller.ask(raw)
                tally.statuses[status] += 1
            except Exception as error:
                tally.failed += 1
                tally.why[repr(error)[:60]] += 1
            tally.times.append(time.perf_counter() - began)

    began = time.perf_counter()
    await asyncio.gather(*(round_of(caller, got("/health")) for caller in callers))
    opened = time.perf_counter() - began
    health = Caller(direct)
    times = []
    for _ in range(100):
        asked = time.perf_counter()
        await health.ask(got("/health"))
        times.append(time.perf_counter() - asked)
    await asyncio.gather(
        *(
            round_of(caller, question.raw if number % 10 == 0 else got("/health"))
            for number, caller in enumerate(callers)
        )
    )
    for caller in [*callers, health]:
        caller.close()
    return tally, sorted(times), opened


def main() -> int:
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--connections", type=int, default=1000)
    parser.add_argument("--front", choices=["nginx", "alone"], action="append")
    options = parser.parse_args()
    room()
    bad = 0
    for front in options.front or ["nginx", "alone"]:
        with service(2) as copy, contextlib.ExitStack() as stack:
            port = copy.port if front == "alone" else stack.enter_context(proxy(front, copy.port))
            tally, health, opened = asyncio.run(measured(port, copy.port, options.connections))
            memory = [resident(pid) // 1024 for pid in copy.workers()]
        p99 = health[int(0.99 * len(health))] * 1000
        print(
            f"{options.connections} connections, {front}: opened and asked once in {opened:.1f} s; {tally}; "
            f"health while idle p99 {p99:.1f} ms; memory of workers {memory} MB",
            flush=True,
        )
        bad += tally.failed + sum(count for status, count in tally.statuses.items() if status != 200)
    return 1 if bad else 0


if __name__ == "__main__":
    raise SystemExit(main())
