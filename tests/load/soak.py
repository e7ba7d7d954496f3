"""A long load on one process: does its memory or its number of open files grow?

    python -m tests.load.soak --requests 1000000

Targets for a million: memory grows by at most 2 % after the first 5,000, open files by none.
"""

import argparse
import asyncio
import gc
import os
import time

from tests.contract.servers import service
from tests.load.many import resident
from tests.load.traffic import Tally, drive, learnt, mixed


def files(pid: int) -> int:
    return len(os.listdir(f"/proc/{pid}/fd"))


def main() -> int:
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--requests", type=int, default=20_000)
    parser.add_argument("--warm", type=int, default=5_000)
    options = parser.parse_args()

    async def loaded(port: int, count: int, callers: int) -> Tally:
        return await drive(port, await learnt(port, mixed()), count, callers, retries=0)

    with service(1) as copy:
        pid = copy.process.pid
        warm = asyncio.run(loaded(copy.port, options.warm, 16))
        time.sleep(1)
        before, open_before = resident(pid), files(pid)
        gc.disable()
        began = time.perf_counter()
        tally = Tally()
        done = 0
        while done < options.requests:
            step = min(20_000, options.requests - done)
            part = asyncio.run(loaded(copy.port, step, 16))
            tally.statuses += part.statuses
            tally.failed += part.failed
            tally.wrong += part.wrong
            tally.times = part.times
            done += step
        spent = time.perf_counter() - began
        time.sleep(1)
        after, open_after = resident(pid), files(pid)
    growth = (after - before) / before * 100
    print(
        f"soak: {tally}; {options.requests / spent:.0f} a second; memory {before} to {after} kB ({growth:+.1f} %), "
        f"open files {open_before} to {open_after}",
        flush=True,
    )
    return 1 if tally.failed + tally.wrong + warm.failed or growth > 2 or open_after > open_before else 0


if __name__ == "__main__":
    raise SystemExit(main())
