"""Callers with kept connections who check every byte of every answer, and count what went wrong."""

import asyncio
import hashlib
import itertools
import json
import time
from collections import Counter
from dataclasses import dataclass, field

from wallwright.api.links import packed
from wallwright.operations.examples import example_bytes

HOST = "127.0.0.1"
WALLS = [
    json.dumps({"units": "in", "length": length, "height": 96, "openings": openings}).encode()
    for length, openings in (
        (96, []),
        (144, [{"left": 48, "width": 36, "height": 80}]),
        (120, [{"left": 40, "width": 30, "height": 36, "sill": 36}]),
    )
]


@dataclass(frozen=True)
class Question:
    """A request as bytes, and what the answer must be: its status and the digest of its body, learnt before."""

    raw: bytes
    status: int = 200
    digest: str = ""


def posted(path: str, body: bytes, accept: str = "application/json") -> bytes:
    head = f"POST {path} HTTP/1.1\r\nHost: load\r\nContent-Type: application/json\r\nAccept: {accept}\r\nContent-Length: {len(body)}\r\n\r\n"
    return head.encode() + body


def got(target: str) -> bytes:
    return f"GET {target} HTTP/1.1\r\nHost: load\r\n\r\n".encode()


def mixed() -> list[bytes]:
    """What people ask: walls posted in every form, drawings by link, an example."""
    asked = [posted("/v1/layout", wall) for wall in WALLS]
    asked.append(posted("/v1/sheathing", WALLS[0]))
    asked.append(posted("/v1/layout", WALLS[0], "text/csv"))
    asked.append(got(f"/v1/layout.svg?z={packed(WALLS[0])}"))
    asked.append(got("/v1/examples/layout"))
    asked.append(posted("/v1/layout", b'{"units":"in","length":0,"height":96}'))
    return asked


def heavy(openings: int = 20) -> bytes:
    """A long wall full of openings: among the longest to work out."""
    each = [{"left": 12 + 57 * number, "width": 30, "height": 36, "sill": 36} for number in range(openings)]
    return json.dumps({"units": "in", "length": 1200, "height": 96, "spacing": 12, "openings": each}).encode()


def largest_building() -> bytes:
    """Four long walls full of openings."""
    side = {"openings": [{"left": 12 + 57 * number, "width": 30, "height": 36, "sill": 36} for number in range(20)]}
    walls = dict.fromkeys(("front", "right", "back", "left"), side)
    return json.dumps(
        {"units": "in", "footprint": {"width": 1190, "depth": 1190}, "wall_height": 96, "spacing": 12, "walls": walls}
    ).encode()


class Cut(Exception):
    """The connection ended before the answer did."""


@dataclass
class Tally:
    """What came of it all."""

    statuses: Counter[int] = field(default_factory=Counter)
    retried: int = 0
    failed: int = 0
    wrong: int = 0
    times: list[float] = field(default_factory=list)
    why: Counter[str] = field(default_factory=Counter)

    @property
    def total(self) -> int:
        return sum(self.statuses.values()) + self.failed

    def at(self, share: float) -> float:
        """The time in ms below which that share of the answers came."""
        ordered = sorted(self.times)
        return round(ordered[min(len(ordered) - 1, int(share * len(ordered)))] * 1000, 1) if ordered else 0.0

    def __str__(self) -> str:
        return (
            f"{self.total} requests: {dict(sorted(self.statuses.items()))}, {self.failed} failed, {self.wrong} wrong, "
            f"{self.retried} tried again {dict(self.why)}; p50 {self.at(0.5)} p99 {self.at(0.99)} max {self.at(1)} ms"
        )


class Caller:
    """One kept connection."""

    def __init__(self, port: int) -> None:
        self.port = port
        self.reader: asyncio.StreamReader | None = None
        self.writer: asyncio.StreamWriter | None = None

    async def ask(self, raw: bytes, seconds: float = 60) -> tuple[int, bytes, bool]:
        """Status, body and whether the connection stays. Raises Cut or OSError."""
        async with asyncio.timeout(seconds):
            if self.writer is None:
                self.reader, self.writer = await asyncio.open_connection(HOST, self.port, limit=1 << 22)
            assert self.reader is not None
            self.writer.write(raw)
            try:
                head = await self.reader.readuntil(b"\r\n\r\n")
                lines = head.lower().split(b"\r\n")
                named = dict(line.split(b": ", 1) for line in lines[1:] if b": " in line)
                if head.split(b" ", 2)[1] == b"304":
                    body = b""
                elif b"content-length" in named:
                    body = await self.reader.readexactly(int(named[b"content-length"]))
                else:
                    body = await self._chunks()
            except asyncio.IncompleteReadError as error:
                raise Cut("cut" if error.partial else "closed") from None
        stays = named.get(b"connection", b"") != b"close"
        if not stays:
            self.close()
        return int(head.split(b" ", 2)[1]), body, stays

    async def _chunks(self) -> bytes:
        assert self.reader is not None
        found = b""
        while size := int((await self.reader.readuntil(b"\r\n")).split(b";")[0], 16):
            found += (await self.reader.readexactly(size + 2))[:-2]
        await self.reader.readexactly(2)
        return found

    def close(self) -> None:
        if self.writer is not None:
            self.writer.close()
        self.reader = self.writer = None


async def learnt(port: int, raws: list[bytes]) -> list[Question]:
    """The questions with their answers, before anything is disturbed."""
    caller = Caller(port)
    found = []
    for raw in raws:
        status, body, _ = await caller.ask(raw)
        found.append(Question(raw, status, hashlib.sha256(body).hexdigest()))
    caller.close()
    return found


async def drive(
    port: int, questions: list[Question], count: int, callers: int = 32, retries: int = 1, tally: Tally | None = None
) -> Tally:
    """Ask so many questions; each that fails is asked again on a new connection, at most ``retries`` times."""
    seen = tally or Tally()
    left = itertools.count()

    async def go(number: int) -> None:
        caller = Caller(port)
        while (place := next(left)) < count:
            await _one(caller, questions[(place + number) % len(questions)], retries, seen)
        caller.close()

    await asyncio.gather(*(go(number) for number in range(callers)))
    return seen


async def _one(caller: Caller, question: Question, retries: int, seen: Tally) -> None:
    began = time.perf_counter()
    for tried in range(retries + 1):
        try:
            status, body, _ = await caller.ask(question.raw)
        except (OSError, Cut, TimeoutError, asyncio.LimitOverrunError) as error:
            caller.close()
            seen.why[f"{type(error).__name__} {error}".split("[")[0].strip()] += 1
        else:
            if status < 500 or tried == retries:
                seen.statuses[status] += 1
                if status != question.status or hashlib.sha256(body).hexdigest() != question.digest:
                    seen.wrong += 1
                break
            seen.why[str(status)] += 1
        if tried < retries:
            seen.retried += 1
            await asyncio.sleep(0.05)
    else:
        seen.failed += 1
    seen.times.append(time.perf_counter() - began)


def example_posts(name: str, path: str, accept: str) -> bytes:
    """An operation's own example, posted."""
    return posted(path, example_bytes(name), accept)
