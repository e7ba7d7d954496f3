"""Computing off the event loop: a bounded line, errors passed on, the loop never held."""

import asyncio
import functools
import json
import threading
import time

import httpx
import pytest
from tests.api.client import APP, JSON, WALL

from wallwright.api.problems import Refused
from wallwright.api.work import TURN_SECONDS, Work
from wallwright.operations.examples import example_bytes
from wallwright.operations.table import OPERATIONS


def test_a_task_runs_in_another_thread_and_its_errors_come_back():
    work = Work(1, 2)
    assert asyncio.run(work.run(threading.current_thread)) is not threading.current_thread()
    with pytest.raises(ZeroDivisionError):
        asyncio.run(work.run(lambda: 1 // 0))
    with pytest.raises(RuntimeError, match="StopIteration"):
        asyncio.run(asyncio.wait_for(work.run(lambda: next(iter(()))), 5))
    assert work.under_way == 0


def test_what_stands_past_the_line_is_sent_away_at_once_and_the_loop_goes_on():
    gate = threading.Event()
    wait = functools.partial(gate.wait, 20)

    async def go():
        work = Work(1, 2)
        first, second = (asyncio.create_task(work.timed(wait)) for _ in range(2))
        await asyncio.sleep(0.05)
        assert work.full
        with pytest.raises(Refused) as refused:
            await work.run(wait)
        gate.set()
        assert (await first).waited < (await second).waited
        assert not work.full
        return refused.value

    found = asyncio.run(go())
    assert (found.code, found.headers) == ("busy", {"Retry-After": "1"})


def test_a_thread_computes_alone_for_its_turn_and_a_long_question_holds_up_no_other():
    inside: list[int] = []
    seen: list[int] = []

    def short() -> None:
        inside.append(1)
        time.sleep(0.002)  # As a computing thread it lets the others run.
        seen.append(len(inside))
        inside.pop()

    async def many(work: Work) -> None:
        await asyncio.gather(*(work.run(short) for _ in range(12)))

    asyncio.run(many(Work(3, 20)))
    # On a busy machine one may sleep past its turn; without turns hardly any would be alone.
    assert seen.count(1) >= 8

    async def beside(work: Work) -> float:
        gate = threading.Event()
        long = asyncio.create_task(work.run(functools.partial(gate.wait, 20)))
        await asyncio.sleep(2 * TURN_SECONDS)
        began = time.perf_counter()
        await many(work)
        spent = time.perf_counter() - began
        gate.set()
        await long
        return spent

    # Each short one that waited for a turn of the long one would wait that long, twelve turns in all, however often it is tried.
    assert min(asyncio.run(beside(Work(2, 20))) for _ in range(3)) < 6 * TURN_SECONDS


def test_questions_computed_side_by_side_are_answered_as_those_computed_alone():
    asked = [
        (one.path, accept, example_bytes(one.name))
        for one in OPERATIONS
        for accept in ("application/json", "image/svg+xml")
    ]
    asked += [
        ("/v1/layout", "text/csv", json.dumps({**WALL, "length": length}).encode()) for length in range(100, 140, 4)
    ]

    async def go(together: bool) -> list[bytes]:
        async with httpx.AsyncClient(transport=httpx.ASGITransport(app=APP), base_url="http://test") as client:
            calls = [
                client.post(path, content=body, headers={**JSON, "accept": accept}) for path, accept, body in asked * 2
            ]
            answers = await asyncio.gather(*calls) if together else [await one for one in calls]
            return [answer.content for answer in answers]

    assert asyncio.run(go(True)) == asyncio.run(go(False))
