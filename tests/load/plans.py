"""Orders of boards drawn by chance, and what answering them takes, in a process of its own.

    python -m tests.load.plans --lengths 12 --pieces 60 --orders 42

A third of the lengths lies from 10 to 30 in, from 30 to 66 in and from 66 to 95 15/16 in each, on sixteenths, no two alike; boards
are 96, 120, 144, 168 and 192 in long, a saw cut 1/8 in. By the foot longer boards cost more (`rising`), all the same (`flat`), or
each up to a fifth more or less (`random`), in turn. Printed is a line of JSON for each order, then the largest memory of the process.
"""

import argparse
import importlib.util
import json
import random
import resource
import statistics
import subprocess
import sys
import time
from typing import Any

from tests.load.measure import Found, Missing

from wallwright.api.reader import Reader
from wallwright.operations.buying import TookTooLong, answer
from wallwright.wire.buying_asked import Order

STOCKS = (96, 120, 144, 168, 192)
KINDS = ("rising", "flat", "random")
BANDS = ((160, 480), (480, 1056), (1056, 1536))
"""In sixteenths of an inch."""


def price(stock: int, kind: str, chance: random.Random) -> float:
    """What a board of so many inches costs."""
    by_the_foot = {"rising": 0.4 + stock / 1200, "flat": 0.55, "random": 0.55 * chance.uniform(0.8, 1.2)}[kind]
    return round(stock / 12 * by_the_foot, 2)


def order(lengths: int, pieces: int, number: int) -> dict[str, Any]:
    """The order of a number. Where it has more pieces it has the same lengths, of each so many times as many."""
    chance = random.Random(f"{lengths} {number}")
    sizes: set[int] = set()
    while len(sizes) < lengths:
        sizes.add(chance.randrange(*BANDS[len(sizes) % 3]))
    counts = [1] * lengths
    base = 5 * lengths
    while sum(counts) < base:
        counts[chance.choice([place for place, count in enumerate(counts) if count < 10])] += 1
    rows = [
        {"stock": "2x4", "length": size / 16, "count": count * pieces // base}
        for size, count in zip(sorted(sizes), counts, strict=True)
    ]
    offers = [{"stock": "2x4", "length": one, "price": price(one, KINDS[number % 3], chance)} for one in STOCKS]
    return {"units": "in", "pieces": rows, "offers": offers}


def body(lengths: int, pieces: int, number: int) -> bytes:
    """The same as it is posted."""
    return json.dumps(order(lengths, pieces, number)).encode()


def answered(lengths: int, pieces: int, orders: int) -> tuple[list[dict[str, Any]], float]:
    """What each order took and gave, and the largest memory of the process that answered them, in MiB."""
    command = [sys.executable, "-m", "tests.load.plans", "--lengths", str(lengths), "--pieces", str(pieces)]
    ended = subprocess.run([*command, "--orders", str(orders)], stdout=subprocess.PIPE, check=True, text=True)
    *lines, last = map(json.loads, ended.stdout.splitlines())
    return lines, last["mib"]


def cheaper_than_bound(asked: dict[str, Any], bound: float, seconds: float = 3) -> bool:
    """Whether a plan is found that costs less than a bound says any must. It is sought with another solver, and cut in whole numbers."""
    import numpy
    from scipy.optimize import Bounds, LinearConstraint, linprog, milp

    sizes = [round(16 * row["length"]) + 2 for row in asked["pieces"]]
    need = numpy.array([row["count"] for row in asked["pieces"]])
    boards = [(16 * offer["length"] + 2, offer["price"]) for offer in asked["offers"]]
    cuts = [
        ([max(room for room, _ in boards) // size if n == m else 0 for m in range(len(sizes))])
        for n, size in enumerate(sizes)
    ]
    costs = [boards[-1][1]] * len(cuts)
    for _ in range(300):
        solved = linprog(costs, A_ub=-numpy.array(cuts).T, b_ub=-need, method="highs")
        worth = -solved.ineqlin.marginals
        found = [(paid - cost, counts, cost) for room, cost in boards for paid, counts in [filled(room, sizes, worth)]]
        new = [one for one in found if one[0] > 1e-7]
        if not new:
            break
        cuts += [counts for _, counts, _ in new]
        costs += [cost for _, _, cost in new]
    plan = milp(
        costs, constraints=LinearConstraint(numpy.array(cuts).T, need), integrality=numpy.ones(len(costs)),
        bounds=Bounds(0), options={"time_limit": seconds},
    )  # fmt: skip
    return plan.x is not None and float(numpy.round(plan.x) @ numpy.array(costs)) < bound - 0.005


def filled(room: int, sizes: list[int], worth: Any) -> tuple[float, list[int]]:
    """The pieces worth most that one board yields, any number of each."""
    best = [0.0] * (room + 1)
    last = [-1] * (room + 1)
    for place in range(1, room + 1):
        best[place], last[place] = best[place - 1], -1
        for number, size in enumerate(sizes):
            if size <= place and best[place - size] + worth[number] > best[place]:
                best[place], last[place] = best[place - size] + worth[number], number
    counts = [0] * len(sizes)
    while room > 0:
        number = last[room]
        room -= 1 if number < 0 else sizes[number]
        if number >= 0:
            counts[number] += 1
    return best[-1], counts


class Planned:
    """Orders of boards answered in processes of their own; reckoned once for all rows."""

    def __init__(self, orders: int, hard: int) -> None:
        self.orders, self.hard = orders, hard
        self.kept: dict[tuple[int, int], tuple[list[dict], float]] = {}

    def answered(self, lengths: int, pieces: int) -> tuple[list[dict], float]:
        asked = (lengths, pieces, self.hard if lengths == 40 else self.orders)
        if asked[:2] not in self.kept:
            self.kept[asked[:2]] = answered(*asked)
        return self.kept[asked[:2]]

    def seconds(self, pieces: int) -> Found:
        """The median CPU of an order of 12 lengths."""
        found = [one["seconds"] for one in self.answered(12, pieces)[0]]
        by_kind = ", ".join(
            f"{kind} {statistics.median(found[place :: len(KINDS)]):.2f}" for place, kind in enumerate(KINDS)
        )
        return Found(statistics.median(found), f"{by_kind}; worst {max(found):.1f}")

    def unproven(self) -> Found:
        """The share of orders of 12 lengths without proof, in per cent."""
        found = [one["proven"] for pieces in (60, 6000) for one in self.answered(12, pieces)[0]]
        return Found(100 * (1 - sum(found) / len(found)), f"of {len(found)}")

    def growth(self) -> Found:
        """6,000 pieces over 60."""
        return Found(self.seconds(6000).figure / self.seconds(60).figure)

    def memory(self) -> Found:
        """The largest memory of a process that answers orders of 40 lengths, in MiB."""
        found, mib = self.answered(40, 600)
        return Found(mib, f"{len(found)} orders, worst {max(one['seconds'] for one in found):.1f} s")

    def untrue(self) -> Found:
        """Orders of 40 lengths without a true bound: none at all, above the price, or above another solver's plan."""
        if importlib.util.find_spec("scipy") is None:
            raise Missing("scipy is needed: pip install '.[test]'")
        found = self.answered(40, 600)[0]
        bad = [
            one
            for one in found
            if "bound" not in one
            or not 0 < one["bound"] <= one["cost"]
            or cheaper_than_bound(order(40, 600, one["number"]), one["bound"])
        ]
        gaps = [100 * (1 - one["bound"] / one["cost"]) for one in found if "bound" in one]
        proven = sum(one["proven"] for one in found)
        return Found(len(bad), f"{proven} of {len(found)} proven, widest gap {max(gaps, default=100):.2f} %")


def main() -> int:
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--lengths", type=int, default=12)
    parser.add_argument("--pieces", type=int, default=60)
    parser.add_argument("--orders", type=int, default=42)
    asked = parser.parse_args()
    reader = Reader(Order)
    answer(reader.read(body(2, 10, 0)))  # The solver is loaded.
    for number in range(asked.orders):
        request = reader.read(body(asked.lengths, asked.pieces, number))
        began = time.process_time()
        told: dict[str, Any] = {"number": number, "kind": KINDS[number % 3], "proven": False}
        try:
            found = answer(request)
            told |= {"cost": found.cost, "bound": found.lower_bound, "proven": found.proven}
        except TookTooLong:
            told["too_long"] = True
        print(json.dumps(told | {"seconds": round(time.process_time() - began, 4)}), flush=True)
    print(json.dumps({"mib": round(resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024, 1)}))
    return 0


if __name__ == "__main__":
    sys.exit(main())
