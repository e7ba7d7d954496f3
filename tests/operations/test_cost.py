"""What an answer costs, in steps of the interpreter: the same count on a busy machine as on an idle one.

Times are measured by ``python -m tests.load.speed``. Here only what would be noticed late is held: work that grows
faster than the wall, and work done twice. The bounds leave a quarter of room for what may be added and for other
versions of the interpreter.
"""

import json
import math
import sys
from collections.abc import Callable
from types import FrameType
from typing import Any

import pytest

from wallwright.api.answers import encoded
from wallwright.api.reader import Reader
from wallwright.operations.examples import example_bytes
from wallwright.operations.table import BY_NAME


def steps(act: Callable[[], object]) -> int:
    """How many steps of the interpreter something takes, once what is kept between requests is there."""
    count = 0

    def trace(frame: FrameType, event: str, _: Any) -> Any:
        nonlocal count
        if event == "call":
            frame.f_trace_opcodes, frame.f_trace_lines = True, False
        elif event == "opcode":
            count += 1
        return trace

    act()
    before = sys.gettrace()
    sys.settrace(trace)
    try:
        act()
    finally:
        sys.settrace(before)
    return count


def asked(operation: str, body: bytes, form: str = "json") -> Callable[[], bytes]:
    one = BY_NAME[operation]
    request = Reader(one.request).read(body)
    return lambda: encoded(one, request, form)


def wall(length: int, openings: int) -> bytes:
    placed = [
        {"left": 20 + n * (length - 40) // openings, "width": 36, "height": 36, "sill": 40} for n in range(openings)
    ]
    return json.dumps({"units": "in", "length": length, "height": 96, "openings": placed}).encode()


@pytest.mark.parametrize(
    ("operation", "form", "most"),
    [
        ("layout", "json", 180_000),
        ("layout", "svg", 410_000),
        ("sheathing", "json", 430_000),
        ("raising", "json", 520_000),
        ("fasteners", "json", 1_370_000),
    ],
)
def test_a_wall_with_three_openings_costs_no_more_than_it_did(operation, form, most):
    assert steps(asked(operation, wall(240, 3), form)) <= most


def test_work_keeps_in_step_with_the_length_of_the_wall():
    costs = {length: steps(asked("layout", wall(length, length // 84))) for length in (480, 1190)}
    assert math.log(costs[1190] / costs[480]) / math.log(1190 / 480) <= 1.25


def test_a_building_works_each_wall_out_once():
    """Its parts share one frame and one skin for each wall: well under the four operations of each asked alone."""
    body = example_bytes("building")
    walls = [json.dumps(one["wall"]).encode() for one in json.loads(asked("building", body)())["walls"]]
    alone = sum(steps(asked(part, one)) for part in ("layout", "sheathing", "fasteners", "raising") for one in walls)
    assert steps(asked("building", body)) <= 0.7 * alone
