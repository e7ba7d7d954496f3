"""Slow senders: thousands of connections that send a byte of their headers each second, and healthy callers beside them.

    python -m tests.load.slow --senders 2000

Targets: all closed within 7 s behind a shipped proxy and within the service's own wait alone; healthy callers: none failed.
"""

import argparse
import asyncio
import contextlib
import time

from tests.contract.servers import service
from tests.load.many import room
from tests.load.proxies import KINDS, proxy
from tests.load.traffic import HOST, Tally, drive, learnt, mixed

HEAD = b"GET /v1/examples/layout HTTP/1.1\r\nHost: load\r\nX-Slow: " + b"y" * 1000


async def one(port: int, seconds: float) -> float:
    """After how many seconds a slow sender was closed; 0 where it never was."""
    reader, writer = await asyncio.open_connection(HOST, port)
    began = time.perf_counter()
    try:
        for byte in HEAD:
            writer.write(bytes([byte]))
            with contextlib.suppress(TimeoutError):
                if not await asyncio.wait_for(reader.read(4096), 1):
                    return time.perf_counter() - began
            if time.perf_counter() - began > seconds:
                return 0.0
    except OSError:
        return time.perf_counter() - began
    finally:
        writer.close()
    return 0.0


async def measured(port: int, senders: int, seconds: float, healthy: int) -> tuple[list[float], Tally]:
    questions = await learnt(port, mixed())
    slow = [asyncio.create_task(one(port, seconds)) for _ in range(senders)]
    tally = await drive(port, questions, healthy, callers=4, retries=0)
    return list(await asyncio.gather(*slow)), tally


def main() -> int:
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--senders", type=int, default=500)
    parser.add_argument("--healthy", type=int, default=500)
    parser.add_argument("--front", choices=[*KINDS, "alone"], action="append")
    options = parser.parse_args()
    room()
    bad = 0
    for front in options.front or [*KINDS, "alone"]:
        with service(2) as copy, contextlib.ExitStack() as stack:
            port = copy.port if front == "alone" else stack.enter_context(proxy(front, copy.port))
            times, tally = asyncio.run(measured(port, options.senders, 20, options.healthy))
        closed = sorted(spent for spent in times if spent)
        print(
            f"slow senders, {front}: {len(closed)} of {len(times)} closed, from {closed[0]:.1f} to {closed[-1]:.1f} s; healthy: {tally}",
            flush=True,
        )
        bad += len(times) - len(closed) + tally.failed + tally.wrong
    return 1 if bad else 0


if __name__ == "__main__":
    raise SystemExit(main())
