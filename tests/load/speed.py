"""What an answer costs, as ratios taken in one run: beside a bare server that sends the same bytes.

    python -m tests.load.speed --rounds 5

Printed are the goals and what was measured. CPU is that of the serving processes, to the nanosecond, for each request;
throughput and times of a shared machine say nothing. Bodies differ from request to request, so that no answer that is kept
could hide the cost. The bare server runs on the same parser and event loop as the service, with 16 connections each.
"""

import argparse
import asyncio
import itertools
import json
import math
import os
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path

from tests.contract.servers import Service, environment, free_port, service
from tests.load.traffic import Caller, got, posted

from wallwright.api.links import packed
from wallwright.operations.examples import example_bytes
from wallwright.operations.table import BY_NAME

CONNECTIONS = 16
LENGTHS = (120, 240, 480, 960, 1190)
BARE = """
import os
body = open(os.environ["BARE_BODY"], "rb").read()
start = {"type": "http.response.start", "status": 200, "headers": [
    (b"content-type", b"application/json"), (b"content-length", str(len(body)).encode())]}
async def app(scope, receive, send):
    if scope["type"] == "lifespan":
        while True:
            kind = (await receive())["type"]
            await send({"type": kind + ".complete"})
            if kind == "lifespan.shutdown":
                return
    while (await receive()).get("more_body"):
        pass
    await send(start)
    await send({"type": "http.response.body", "body": body})
"""


def wall(number: int, length: int = 240, openings: int = 3) -> bytes:
    """A wall with openings spread along it, a little different for each number."""
    length -= number % 23
    placed = [
        {
            "left": 20 + (number * 7 + index) % 9 + index * (length - 40) // openings,
            "width": 36,
            "height": 36,
            "sill": 40,
        }
        for index in range(openings)
    ]
    return json.dumps({"units": "in", "length": length, "height": 96, "openings": placed}).encode()


def tree(pid: int) -> list[int]:
    """A process and all its descendants."""
    found = [pid]
    for one in found:
        for task in Path(f"/proc/{one}/task").iterdir():
            found += map(int, (task / "children").read_text().split())
    return found


def cpu_seconds(pid: int) -> float:
    """CPU time of a process and its descendants so far."""
    stats = [task / "schedstat" for one in tree(pid) for task in Path(f"/proc/{one}/task").iterdir()]
    return sum(int(stat.read_text().split()[0]) for stat in stats) / 1e9


def resident_mib(pid: int) -> float:
    """The resident memory of a process and its descendants, what they share counted once among them."""
    total = 0
    for one in tree(pid):
        rollup = Path(f"/proc/{one}/smaps_rollup").read_text()
        total += int(next(line for line in rollup.splitlines() if line.startswith("Pss:")).split()[1])
    return total / 1024


@contextmanager
def bare(body: bytes, folder: Path) -> Iterator[tuple[int, int]]:
    """A server that reads each request and sends these bytes: its process id and port."""
    (folder / "bare_app.py").write_text(BARE)
    (folder / "body").write_bytes(body)
    port = free_port()
    command = [sys.executable, "-m", "uvicorn", "--app-dir", str(folder), "bare_app:app", "--port", str(port)]
    command += ["--loop", "asyncio", "--http", "httptools", "--no-access-log", "--log-level", "warning"]
    process = subprocess.Popen(command, env=environment(bare="") | {"BARE_BODY": str(folder / "body")})
    try:
        until_answer(port)
        yield process.pid, port
    finally:
        process.terminate()
        process.wait(20)


def until_answer(port: int, seconds: float = 60) -> None:
    """Ask until there is an answer."""

    async def ask() -> int:
        return (await Caller(port).ask(got("/health")))[0]

    until = time.monotonic() + seconds
    while True:
        try:
            if asyncio.run(ask()) == 200:
                return
        except OSError:
            if time.monotonic() > until:
                raise
            time.sleep(0.005)


def cost(pid: int, port: int, asked: Callable[[int], bytes], count: int, status: int = 200) -> float:
    """CPU in microseconds for each of so many requests. Raises RuntimeError where one is answered otherwise."""
    numbers = itertools.count()

    async def call() -> None:
        caller = Caller(port)
        while (number := next(numbers)) < count:
            seen, body, _ = await caller.ask(asked(number))
            if seen != status:
                raise RuntimeError(f"{seen}: {body[:200]!r}")
        caller.close()

    async def all_calls() -> None:
        await asyncio.gather(*(call() for _ in range(CONNECTIONS)))

    before = cpu_seconds(pid)
    asyncio.run(all_calls())
    return (cpu_seconds(pid) - before) / count * 1e6


class Bench:
    """One service, and the measurements made of it."""

    def __init__(self, one: Service, folder: Path, rounds: int, count: int) -> None:
        self.one, self.folder, self.rounds, self.count = one, folder, rounds, count
        self.pid, self.port = one.process.pid, one.port

    def own(self, asked: Callable[[int], bytes], count: int, status: int = 200) -> float:
        """What the service spends on each request, the median of all rounds."""
        return statistics.median(cost(self.pid, self.port, asked, count, status) for _ in range(self.rounds))

    def over_bare(self, asked: Callable[[int], bytes], status: int = 200) -> float:
        """The service's CPU for each request over that of the bare server, in alternation, the median of all rounds."""
        body = asyncio.run(Caller(self.port).ask(asked(0)))[1] if status == 200 else b"{}"
        ratios = []
        with bare(body, self.folder) as (pid, port):
            cost(pid, port, asked, self.count)
            cost(self.pid, self.port, asked, self.count // 4, status)
            for _ in range(self.rounds):
                least = cost(pid, port, asked, 4 * self.count)
                ratios.append(cost(self.pid, self.port, asked, self.count, status) / least)
        return statistics.median(ratios)

    def not_modified(self) -> float:
        """An answer of 304 to one who has it already, over the bare server."""
        link = f"/v1/layout.json?z={packed(wall(0))}"
        tag = self.one.get(link)[1]["etag"]
        raw = got(link).replace(b"\r\n\r\n", f"\r\nIf-None-Match: {tag}\r\n\r\n".encode())
        return self.over_bare(lambda _: raw, 304)

    def building(self) -> float:
        """A building with all parts, over its four walls' operations asked one by one."""
        body = example_bytes("building")
        answer = json.loads(self.one.post("/v1/building", body)[2])
        walls = [json.dumps(one["wall"]).encode() for one in answer["walls"]]
        parts = ("layout", "sheathing", "fasteners", "raising")
        alone = [posted(f"/v1/{part}", one) for one in walls for part in parts]
        ratios = []
        for _ in range(self.rounds):
            whole = cost(self.pid, self.port, lambda _: posted("/v1/building", body), 16)
            ratios.append(whole / (16 * cost(self.pid, self.port, lambda n: alone[n % 16], 64)))
        return statistics.median(ratios)

    def growth(self) -> float:
        """The exponent of a layout's cost over the wall's length, an opening for every 7 ft."""
        logs = []
        for length in LENGTHS:
            asked = lambda n, length=length: posted("/v1/layout", wall(n, length, max(1, length // 84)))  # noqa: E731
            logs.append((math.log(length), math.log(self.own(asked, max(16, 60 * 120 // length)))))
        return statistics.linear_regression(*zip(*logs, strict=True)).slope

    def memory(self) -> float:
        """Resident memory while serving over that of the bare server."""
        with bare(b"{}", self.folder) as (pid, port):
            cost(pid, port, lambda n: posted("/v1/layout", wall(n)), self.count)
            return resident_mib(self.pid) / resident_mib(pid)

    def start(self) -> float:
        """Command to first answer, over the bare server."""
        ratios = []
        for _ in range(self.rounds):
            began = time.perf_counter()
            with bare(b"{}", self.folder):
                least = time.perf_counter() - began
            began = time.perf_counter()
            with started() as port:
                until_answer(port)
                ratios.append((time.perf_counter() - began) / least)
        return statistics.median(ratios)


@contextmanager
def started() -> Iterator[int]:
    """A service just started: its port."""
    one = Service(1)
    try:
        yield one.port
    finally:
        one.stop()


def rows(bench: Bench) -> Iterator[tuple[str, float, Callable[[], float]]]:
    """What is measured: words, the most it should be, and how."""
    yield (
        "layout of a wall with three openings, JSON: CPU over bare",
        10,
        lambda: bench.over_bare(lambda n: posted("/v1/layout", wall(n))),
    )
    yield (
        "the same as a drawing: CPU over bare",
        25,
        lambda: bench.over_bare(lambda n: posted("/v1/layout", wall(n), "image/svg+xml")),
    )
    yield "a building with all parts over its walls' operations one by one", 0.6, bench.building
    yield "exponent of a layout's CPU over the wall's length, 10 ft to the limit", 1.15, bench.growth
    yield "304 to one who has the answer: CPU over bare", 3, bench.not_modified
    yield "resident memory while serving, over bare", 2.2, bench.memory
    yield "command to first answer, over bare", 4, bench.start
    if "buying" in BY_NAME:
        few, many = (lambda n, k=k: posted("/v1/buying", order(k, n)) for k in (5, 500))  # type: ignore[misc]
        yield "boards of 12 lengths, 6,000 pieces over 60: CPU", 4, lambda: bench.own(many, 16) / bench.own(few, 16)


def order(each: int, number: int) -> bytes:
    """Twelve lengths of one board, so many pieces of each, and three lengths to buy."""
    pieces = [{"stock": "2x4", "length": 20 + 7 * n + number % 3, "count": each} for n in range(12)]
    offers = [{"stock": "2x4", "length": length, "price": price} for length, price in ((96, 4), (144, 6.5), (192, 9))]
    return json.dumps({"units": "in", "pieces": pieces, "offers": offers}).encode()


def main() -> int:
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--rounds", type=int, default=5)
    parser.add_argument("--requests", type=int, default=160, help="requests of a round")
    options = parser.parse_args()
    with tempfile.TemporaryDirectory() as folder, service(1) as one:
        bench = Bench(one, Path(folder), options.rounds, options.requests)
        print(f"{'what':72} {'goal':>6} {'found':>8}   ({os.cpu_count()} cores, load {os.getloadavg()[0]:.1f})")
        for words, goal, measured in rows(bench):
            found = measured()
            print(f"{words:72} {goal:6} {found:8.2f}   {'' if found <= goal else 'missed'}", flush=True)
    return 0


if __name__ == "__main__":
    sys.exit(main())
