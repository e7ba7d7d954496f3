"""Servers to measure, and what their processes spend: CPU to the nanosecond, resident memory, time to a first answer."""

import asyncio
import itertools
import json
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import NamedTuple

from tests.contract.servers import environment, free_port
from tests.load.traffic import Caller, got

CONNECTIONS = 16
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


class Missing(Exception):
    """What a row needs is not there."""


class Found(NamedTuple):
    """What a row shows: its figure, and what is to be said of it."""

    figure: float
    remark: str = ""


class Server(NamedTuple):
    """A running server: its process and its port."""

    pid: int
    port: int


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


def memory_mib(pid: int) -> dict[str, float]:
    """Resident memory (`Rss`) of a process, and its share of it (`Pss`), what others hold as well being parted among them.

    Raises RuntimeError for a process that has children: they would count what they share twice.
    """
    if len(tree(pid)) > 1:
        raise RuntimeError("one worker has no process above it")
    lines = (line.split() for line in Path(f"/proc/{pid}/smaps_rollup").read_text().splitlines())
    return {words[0].rstrip(":"): int(words[1]) / 1024 for words in lines if words[0] in ("Rss:", "Pss:")}


def memory_over(pid: int, other: int) -> Found:
    """The resident memory of one process over that of another; what others share of it is told beside."""
    own, bare = memory_mib(pid), memory_mib(other)
    return Found(
        own["Rss"] / bare["Rss"],
        f"{own['Rss']:.0f} MiB over {bare['Rss']:.0f}; of shares {own['Pss'] / bare['Pss']:.2f}",
    )


@contextmanager
def running(*command: str, **variables: str) -> Iterator[Server]:
    """A server started by `python` with these arguments, `PORT` standing for a free one; it has answered once."""
    port = free_port()
    process = subprocess.Popen(
        [sys.executable, *(str(port) if word == "PORT" else word for word in command)],
        env=environment() | variables, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL,
    )  # fmt: skip
    try:
        until_answer(port)
        yield Server(process.pid, port)
    finally:
        process.terminate()
        process.wait(20)


@contextmanager
def bare(body: bytes) -> Iterator[Server]:
    """A server that reads each request and sends these bytes, on the parser and event loop of the service."""
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        (folder / "bare_app.py").write_text(BARE)
        (folder / "body").write_bytes(body)
        command = ["-m", "uvicorn", "--app-dir", name, "bare_app:app", "--port", "PORT", "--loop", "asyncio"]
        with running(*command, "--http", "httptools", "--no-access-log", BARE_BODY=str(folder / "body")) as one:
            yield one


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


def cost(server: Server, asked: Callable[[int], bytes], count: int, status: int = 200) -> float:
    """CPU in microseconds for each of so many requests. Raises RuntimeError where one is answered otherwise."""
    numbers = itertools.count()

    async def call() -> None:
        caller = Caller(server.port)
        while (number := next(numbers)) < count:
            seen, body, _ = await caller.ask(asked(number))
            if seen != status:
                raise RuntimeError(f"{seen}: {body[:200]!r}")
        caller.close()

    async def all_calls() -> None:
        await asyncio.gather(*(call() for _ in range(CONNECTIONS)))

    before = cpu_seconds(server.pid)
    asyncio.run(all_calls())
    return (cpu_seconds(server.pid) - before) / count * 1e6
