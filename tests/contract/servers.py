"""The service as its command starts it, on a free port, and what it says to raw bytes."""

import http.client
import json
import os
import re
import signal
import socket
import subprocess
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager
from typing import Any

BODY = b'{"units":"in","length":144,"height":96}'
HEAD = b"POST /v1/layout HTTP/1.1\r\nHost: x\r\nContent-Type: application/json\r\n"


def free_port() -> int:
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        return int(probe.getsockname()[1])


def environment(**settings: object) -> dict[str, str]:
    """This environment without settings of the service, but for those given."""
    found = {name: value for name, value in os.environ.items() if not name.startswith("WALLWRIGHT_")}
    return found | {f"WALLWRIGHT_{name.upper()}": str(value) for name, value in settings.items()}


class Service:
    """A running service."""

    def __init__(
        self,
        workers: int = 1,
        log: str | None = None,
        hash_seed: str | None = None,
        port: int | None = None,
        **settings: object,
    ) -> None:
        self.port = port or free_port()
        self.log = open(log, "wb") if log else subprocess.DEVNULL  # noqa: SIM115
        env = environment(**settings)
        if hash_seed is not None:
            env["PYTHONHASHSEED"] = hash_seed
        self.process = subprocess.Popen(
            [sys.executable, "-m", "wallwright.command", "serve", "--port", str(self.port), "--workers", str(workers)],
            env=env,
            stdout=subprocess.DEVNULL,
            stderr=self.log,
        )

    def wait(self, seconds: float = 60) -> None:
        until = time.monotonic() + seconds
        while time.monotonic() < until:
            try:
                if self.get("/ready")[0] == 200:
                    return
            except OSError:
                assert self.process.poll() is None, "the server ended"
                time.sleep(0.02)
        raise AssertionError("the server did not start")

    def get(self, path: str, method: str = "GET", body: bytes | None = None, **headers: str) -> tuple[int, Any, bytes]:
        """Status, headers and body of one answer on a connection of its own."""
        connection = http.client.HTTPConnection("127.0.0.1", self.port, timeout=30)
        try:
            named = {name.replace("_", "-"): value for name, value in headers.items()}
            connection.request(method, path, body, named)
            answer = connection.getresponse()
            return answer.status, answer.headers, answer.read()
        finally:
            connection.close()

    def post(self, path: str, body: bytes, accept: str = "application/json") -> tuple[int, Any, bytes]:
        return self.get(path, "POST", body, content_type="application/json", accept=accept)

    def workers(self) -> list[int]:
        """The process ids of the workers."""
        with open(f"/proc/{self.process.pid}/task/{self.process.pid}/children") as file:
            return [int(pid) for pid in file.read().split()]

    def stop(self, number: int = signal.SIGTERM, seconds: float = 20) -> int:
        self.process.send_signal(number)
        try:
            return self.process.wait(seconds)
        finally:
            self.process.kill()


@contextmanager
def service(workers: int = 1, **settings: Any) -> Iterator[Service]:
    """A service that is ready, and is gone afterwards."""
    one = Service(workers, **settings)
    try:
        one.wait()
        yield one
    finally:
        if one.process.poll() is None:
            one.stop()


def said(port: int, *pieces: bytes, wait: float = 5) -> bytes:
    """What the server answers to bytes sent piece by piece: the first answer whole, or what came in time."""
    with socket.create_connection(("127.0.0.1", port), 5) as line:
        found = b""
        line.settimeout(wait)
        try:
            for piece in pieces:
                line.sendall(piece)
            while more := line.recv(65536):
                found += more
                length = re.search(rb"content-length: ([0-9]+)\r\n", found)
                if length and len(found.partition(b"\r\n\r\n")[2]) >= int(length[1]):
                    break
        except (TimeoutError, ConnectionResetError, BrokenPipeError):
            pass
        return found


def status(answer: bytes) -> int:
    return int(answer.split(b" ", 2)[1]) if answer.startswith(b"HTTP/1.1 ") else 0


def with_length(body: bytes, length: int | None = None) -> bytes:
    return HEAD + b"Content-Length: %d\r\n\r\n" % (len(body) if length is None else length) + body


def lines(path: str) -> list[dict[str, Any]]:
    """The log lines of a file."""
    with open(path, encoding="utf-8") as file:
        return [json.loads(line) for line in file]
