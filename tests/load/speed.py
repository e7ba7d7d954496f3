"""What an answer costs, as ratios taken in one run: beside a bare server that sends the same bytes.

    python -m tests.load.speed --rounds 5
    python -m tests.load.speed --only layout --only twin

Printed are the goals and what was measured. CPU is that of the serving processes, to the nanosecond, for each request;
throughput and times of a shared machine say nothing. Bodies differ from request to request, so that no answer that is kept
could hide the cost. The bare server runs on the same parser and event loop as the service, with 16 connections each.

Of the twin (`twin.py`), which is the same calculation by another stack, two rows are told. The whole is what a user of either
would see. The stack alone has the layouts kept on both sides: reading, completing, building the answer, encoding and sending
are left, which is all that a choice of stack can change. What is missing for a row is said, and the command then ends with 1.
"""

import argparse
import asyncio
import importlib.util
import json
import math
import os
import statistics
import sys
import time
from collections.abc import Callable, Iterator

from tests.contract.servers import Service, service
from tests.load import plans
from tests.load.measure import Found, Missing, Server, bare, cost, memory_over, running, wall
from tests.load.traffic import Caller, got, posted

from wallwright.api.links import packed
from wallwright.operations.examples import example_bytes

LENGTHS = (120, 240, 480, 960, 1190)
WALLS = (1, 2, 5, 10, 20)
SERVE = ("serve", "--port", "PORT", "--workers", "1")
SLOW = plans.body(12, 60, 2)
"""An order whose plan takes a second or two."""


def laid_out(number: int) -> bytes:
    """The layout of a wall with three openings, asked for."""
    return posted("/v1/layout", wall(number))


def drawn(number: int) -> bytes:
    """The same as a drawing."""
    return posted("/v1/layout", wall(number), "image/svg+xml")


def small(number: int) -> bytes:
    """A small question: 8 ft of wall without openings."""
    return posted("/v1/layout", json.dumps({"units": "in", "length": 96 - number % 13, "height": 96}).encode())


def together(walls: int, number: int) -> bytes:
    """An order for so many walls, each of its own sizes."""
    priced = (("2x4", 4), ("2x6", 6.5), ("2x8", 9), ("2x10", 12), ("2x12", 16))
    offers = [
        {"stock": stock, "length": length, "price": round(price * length / 96, 2)}
        for stock, price in priced
        for length in (96, 120, 144, 192)
    ]
    asked = [json.loads(wall(number + 7 * place, 180, 2)) for place in range(walls)]
    return posted("/v1/buying", json.dumps({"units": "in", "walls": asked, "offers": offers}).encode())


class Bench:
    """One service, and the measurements made of it."""

    def __init__(self, one: Service, rounds: int, count: int) -> None:
        self.one, self.rounds, self.count = one, rounds, count
        self.server = Server(one.process.pid, one.port)

    def own(self, asked: Callable[[int], bytes], count: int) -> float:
        """What the service spends on each request, the median of all rounds."""
        return statistics.median(cost(self.server, asked, count) for _ in range(self.rounds))

    def over_bare(self, asked: Callable[[int], bytes], status: int = 200) -> Found:
        """The service's CPU for each request over that of the bare server, in alternation, the median of all rounds."""
        body = asyncio.run(Caller(self.server.port).ask(asked(0)))[1] if status == 200 else b"{}"
        ratios = []
        with bare(body) as other:
            cost(other, asked, self.count)
            cost(self.server, asked, self.count // 4, status)
            for _ in range(self.rounds):
                least = cost(other, asked, 4 * self.count)
                ratios.append(cost(self.server, asked, self.count, status) / least)
        return Found(statistics.median(ratios))

    def over_twin(self) -> Found:
        """The service's CPU for each layout over that of the twin, which sends the same bytes."""
        with twin() as other:
            return self.beside(self.server, other)

    def stack_alone(self) -> Found:
        """The same with the layouts kept on both sides."""
        with twin("--kept") as other, running("-m", "tests.load.kept", *SERVE) as own:
            for server in (own, other):
                cost(server, laid_out, 2 * self.count)
            return self.beside(own, other)

    def beside(self, own: Server, other: Server) -> Found:
        """CPU for each layout of one server over that of another, once they were seen to send the same bytes."""
        for number in range(self.count):
            answers = [asyncio.run(Caller(server.port).ask(laid_out(number)))[:2] for server in (own, other)]
            if answers[0] != answers[1] or answers[0][0] != 200:
                raise RuntimeError(f"the twin answers otherwise: {wall(number)!r}")
        ratios = [cost(own, laid_out, self.count) / cost(other, laid_out, self.count) for _ in range(self.rounds)]
        return Found(statistics.median(ratios), f"{self.count} answers the same to the byte")

    def not_modified(self) -> Found:
        """An answer of 304 to one who has it already, over the bare server."""
        link = f"/v1/layout.json?z={packed(wall(0))}"
        tag = self.one.get(link)[1]["etag"]
        raw = got(link).replace(b"\r\n\r\n", f"\r\nIf-None-Match: {tag}\r\n\r\n".encode())
        return self.over_bare(lambda _: raw, 304)

    def building(self) -> Found:
        """A building with all parts, over its four walls' operations asked one by one."""
        body = example_bytes("building")
        answer = json.loads(self.one.post("/v1/building", body)[2])
        walls = [json.dumps(one["wall"]).encode() for one in answer["walls"]]
        parts = ("layout", "sheathing", "fasteners", "raising")
        alone = [posted(f"/v1/{part}", one) for one in walls for part in parts]
        ratios = []
        for _ in range(self.rounds):
            whole = cost(self.server, lambda _: posted("/v1/building", body), 16)
            ratios.append(whole / (16 * cost(self.server, lambda n: alone[n % 16], 64)))
        return Found(statistics.median(ratios))

    def growth(self) -> Found:
        """The exponent of a layout's cost over the wall's length, an opening for every 7 ft."""
        costs = {}
        for length in LENGTHS:
            asked = lambda n, length=length: posted("/v1/layout", wall(n, length, max(1, length // 84)))  # noqa: E731
            costs[length] = self.own(asked, max(16, 60 * 120 // length))
        return Found(exponent(costs))

    def growth_together(self) -> Found:
        """The exponent of an order's cost over the number of its walls."""
        self.one.post("/v1/buying", example_bytes("buying"))
        return Found(exponent({walls: self.own(lambda n, w=walls: together(w, n), 16) for walls in WALLS}))

    def memory(self) -> Found:
        """Resident memory of a fresh service that has answered layouts, over that of the bare server."""
        with bare(b"{}") as other, running("-m", "wallwright.command", *SERVE) as own:
            for server in (other, own):
                cost(server, laid_out, self.count)
            return memory_over(own.pid, other.pid)

    def memory_after_solve(self) -> Found:
        """The same of a fresh service, layouts and one solved order later."""
        with bare(b"{}") as other, running("-m", "wallwright.command", *SERVE) as own:
            for server in (other, own):
                cost(server, laid_out, self.count)
            cost(own, lambda _: posted("/v1/buying", plans.body(12, 60, 1)), 1)
            return memory_over(own.pid, other.pid)

    def start(self) -> Found:
        """Command to first answer, over the bare server."""
        ratios = []
        for _ in range(self.rounds):
            began = time.perf_counter()
            with bare(b"{}"):
                least = time.perf_counter() - began
            began = time.perf_counter()
            with running("-m", "wallwright.command", *SERVE):
                ratios.append((time.perf_counter() - began) / least)
        return Found(statistics.median(ratios))


def exponent(costs: dict[int, float]) -> float:
    """The power of a size that costs grow with."""
    return statistics.linear_regression(list(map(math.log, costs)), list(map(math.log, costs.values()))).slope


def twin(*kept: str):
    """The twin, running. Raises Missing where its stack is not installed."""
    if not all(importlib.util.find_spec(name) for name in ("fastapi", "pydantic")):
        raise Missing("fastapi and pydantic are needed: pip install '.[bench]'")
    return running("-m", "tests.load.twin", "PORT", *kept)


class Beside:
    """A small question asked again and again, alone and beside a slow order; reckoned once for both rows."""

    def __init__(self, bench: Bench) -> None:
        self.bench = bench
        self.found: list[tuple[float, float, float]] = []

    async def asked(self, caller: Caller, going: Callable[[int], bool]) -> list[float]:
        """How long each answer took, in seconds."""
        times: list[float] = []
        while going(len(times)):
            began = time.perf_counter()
            await caller.ask(small(len(times)))
            times.append(time.perf_counter() - began)
        return times

    async def one(self) -> tuple[float, float, float]:
        """Median beside over median alone, the worst over the solve, and the solve in seconds."""
        port = self.bench.server.port
        quick, slow = Caller(port), Caller(port)
        alone = await self.asked(quick, lambda number: number < 200)
        began = time.perf_counter()
        solve = asyncio.create_task(slow.ask(posted("/v1/buying", SLOW)))
        times = await self.asked(quick, lambda _: not solve.done())
        solved = time.perf_counter() - began
        assert (await solve)[0] == 200
        quick.close(), slow.close()
        return statistics.median(times) / statistics.median(alone), max(times) / solved, solved

    def row(self, place: int) -> Found:
        """One of the two figures, the median of all rounds."""
        if not self.found:
            asyncio.run(self.one())
            self.found = [asyncio.run(self.one()) for _ in range(self.bench.rounds)]
        median, worst, solved = map(statistics.median, zip(*self.found, strict=True))
        return Found((median, worst)[place], f"solve {solved:.1f} s on the clock")


def rows(bench: Bench, planned: plans.Planned) -> Iterator[tuple[str, float, Callable[[], Found]]]:
    """What is measured: words, the most it should be, and how."""
    beside = Beside(bench)
    yield "layout of a wall with three openings, JSON: CPU over bare", 10, lambda: bench.over_bare(laid_out)
    yield "the same over a FastAPI and pydantic twin, the whole", 0.5, bench.over_twin
    yield "the same over the twin, the stack alone (layouts kept by both)", 0.5, bench.stack_alone
    yield "layout as a drawing: CPU over bare", 25, lambda: bench.over_bare(drawn)
    yield "a building with all parts over its walls' operations one by one", 0.6, bench.building
    yield "exponent of a layout's CPU over the wall's length, 10 ft to the limit", 1.15, bench.growth
    yield "exponent of an order's CPU over its walls, 1 to 20", 1.15, bench.growth_together
    yield "cut plan, 12 lengths, 60 pieces: median CPU in s", 0.1, lambda: planned.seconds(60)
    yield "cut plan, 12 lengths, 6,000 pieces: median CPU in s", 0.1, lambda: planned.seconds(6000)
    yield "cut plan, 12 lengths: % not proven", 5, planned.unproven
    yield "cut plan, 12 lengths: 6,000 pieces over 60", 4, planned.growth
    yield "cut plan, 40 lengths: largest memory in MiB", 330, planned.memory
    yield "cut plan, 40 lengths: orders without a true bound", 0, planned.untrue
    yield "memory while serving, over bare", 2.2, bench.memory
    yield "memory after a first solve, over bare", 3, bench.memory_after_solve
    yield "command to first answer, over bare", 4, bench.start
    yield "small request beside a slow solve: median over alone", 10, lambda: beside.row(0)
    yield "small request beside a slow solve: worst over the solve", 0.05, lambda: beside.row(1)
    yield "304 to one who has the answer: CPU over bare", 3, bench.not_modified


def main() -> int:
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--rounds", type=int, default=5)
    parser.add_argument("--requests", type=int, default=160, help="requests of a round")
    parser.add_argument("--orders", type=int, default=42, help="orders of 12 lengths, of each number of pieces")
    parser.add_argument("--hard", type=int, default=9, help="orders of 40 lengths")
    parser.add_argument("--only", action="append", default=[], help="rows that hold these words; may be repeated")
    options = parser.parse_args()
    status = 0
    with service(1) as one:
        bench = Bench(one, options.rounds, options.requests)
        print(f"{'what':72} {'goal':>6} {'found':>8}   ({os.cpu_count()} cores, load {os.getloadavg()[0]:.1f})")
        for words, goal, measured in rows(bench, plans.Planned(options.orders, options.hard)):
            if options.only and not any(part in words for part in options.only):
                continue
            try:
                found = measured()
            except Missing as missing:
                status = 1
                print(f"{words:72} {goal:6}        -   not measured: {missing}", flush=True)
                continue
            said = "; ".join(part for part in ("" if found.figure <= goal else "missed", found.remark) if part)
            print(f"{words:72} {goal:6} {found.figure:8.2f}   {said}".rstrip(), flush=True)
    return status


if __name__ == "__main__":
    sys.exit(main())
