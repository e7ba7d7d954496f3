"""Several workers on one listening socket, forked from a process that has read and tried everything once.

A supervisor of our own rather than uvicorn's, because that one starts each worker from nothing: one to two seconds
of imports, in which a second death leaves nobody; leaves the socket open while workers drain, so that callers hang
in its line; leaves workers behind when it is itself killed; and has no readiness. A forked worker serves within some
milliseconds and shares its parent's memory. The parent keeps the socket, so that callers wait in its line while a
worker is replaced, and it computes nothing, so that nothing of a request can harm it.
"""

import contextlib
import functools
import gc
import logging
import os
import signal
import sys
import time
from collections.abc import Callable
from typing import Final

from wallwright.api.outer import Outer
from wallwright.api.server import Listener, Make, Server

SILENT_SECONDS: Final = 30.0
_QUICK_DEATH_SECONDS: Final = 1.0
_MARGIN_SECONDS: Final = 3
# The loop lets go of the interpreter at each read and write; computing threads give it back after this long. With
# Python's own 5 ms a busy worker answers for its health and sends callers away many times slower, and computes no more.
_SWITCH_SECONDS: Final = 0.0001
_LONGEST_PAUSE_SECONDS: Final = 5.0
_WATCHED: Final = (signal.SIGTERM, signal.SIGINT, signal.SIGHUP, signal.SIGCHLD)
_LOG: Final = logging.getLogger("wallwright.workers")


class Worker:
    """A process on a row of the board."""

    def __init__(self, pid: int, row: int) -> None:
        self.pid = pid
        self.row = row
        self.began = time.monotonic()


class Supervisor:
    """Starts workers, replaces those that die, and ends them all."""

    def __init__(self, app: Outer, socket: Listener, workers: int) -> None:
        self.app = app
        self.socket = socket
        self.wanted = workers
        self.workers: dict[int, Worker] = {}
        self.retiring: set[int] = set()
        self.quick_deaths = 0
        self.start_after = 0.0
        self.pipe = os.pipe()

    def run(self) -> int:
        """Serve until told to stop; the exit status."""
        gc.freeze()  # What is shared with workers stays shared: the collector does not touch it.
        mask = signal.pthread_sigmask(signal.SIG_BLOCK, _WATCHED)
        try:
            for _ in range(self.wanted):
                self._start(mask)
            while True:
                told = self._next_signal()
                self._bury()
                if told in (signal.SIGTERM, signal.SIGINT):
                    return self._stop(told)
                if told == signal.SIGHUP:
                    self._replace_all(mask)
                self._mend(mask)
        finally:
            signal.pthread_sigmask(signal.SIG_SETMASK, mask)

    def _next_signal(self, seconds: float = 0.5) -> int:
        found = signal.sigtimedwait(_WATCHED, seconds)
        return 0 if found is None else found.si_signo

    def _start(self, mask: set[signal.Signals] | set[int]) -> Worker:
        row = min(set(range(self.app.board.rows)) - {worker.row for worker in self.workers.values()})
        self.app.board.started(row)
        pid = os.fork()
        if pid == 0:
            self._work(row, mask)
        worker = Worker(pid, row)
        self.workers[pid] = worker
        _LOG.info({"message": "worker started", "worker": row, "pid": pid})
        return worker

    def _work(self, row: int, mask: set[signal.Signals] | set[int]) -> None:
        """The life of a worker; never returns."""
        status = 1
        try:
            os.close(self.pipe[1])
            self.app.board.row = row
            server = Server(self.app, parent=self.pipe[0])
            signal.signal(signal.SIGHUP, signal.SIG_IGN)
            with server.capture_signals():  # A signal that came in between is not lost.
                signal.pthread_sigmask(signal.SIG_SETMASK, mask)
                server.run(sockets=[self.socket])
            status = 0
        except BaseException as error:
            _LOG.error({"message": "worker failed", "worker": row}, exc_info=error)
        finally:
            # Without the interpreter's own end, which would wait for threads that no answer waits for.
            os._exit(status)

    def _bury(self) -> None:
        """Take note of every worker that has ended."""
        while True:
            try:
                pid, status = os.waitpid(-1, os.WNOHANG)
            except ChildProcessError:
                return
            if not pid:
                return
            worker = self.workers.pop(pid, None)
            if worker is None:
                continue
            self.app.board.ended(worker.row)
            code = os.waitstatus_to_exitcode(status)
            quick = code != 0 and time.monotonic() - worker.began < _QUICK_DEATH_SECONDS
            self.quick_deaths = self.quick_deaths + 1 if quick else 0
            pause = min(0.05 * 2**self.quick_deaths, _LONGEST_PAUSE_SECONDS) if quick else 0.0
            self.start_after = time.monotonic() + pause
            self.retiring.discard(pid)
            _LOG.info({"message": "worker ended", "worker": worker.row, "pid": pid, "exit": code})

    def _mend(self, mask: set[signal.Signals] | set[int]) -> None:
        """Kill workers whose loop has stopped, and start those that are missing."""
        for worker in list(self.workers.values()):
            if self.app.board.silent(worker.row) > SILENT_SECONDS:
                _LOG.error({"message": "worker does not answer", "worker": worker.row, "pid": worker.pid})
                self._send(worker.pid, signal.SIGKILL)
        while len(self.workers) - len(self.retiring) < self.wanted and time.monotonic() >= self.start_after:
            self._start(mask)

    def _replace_all(self, mask: set[signal.Signals] | set[int]) -> None:
        """One after another: start a new worker, then let an old one end what it has under way."""
        for old in list(self.workers.values()):
            if len(self.workers) >= self.app.board.rows or self._told_to_stop():
                return
            self._start(mask)
            self.retiring.add(old.pid)
            self._send(old.pid, signal.SIGTERM)
            gone = functools.partial(self._gone, old.pid)
            self._until(lambda: gone() or self._told_to_stop(), self.app.settings.stop_seconds + _MARGIN_SECONDS)  # noqa: B023
            if not gone() and not self._told_to_stop():
                self._send(old.pid, signal.SIGKILL)
                self._until(gone, 2)

    def _gone(self, pid: int) -> bool:
        return pid not in self.workers

    @staticmethod
    def _told_to_stop() -> bool:
        return not signal.sigpending().isdisjoint((signal.SIGTERM, signal.SIGINT))

    def _until(self, done: Callable[[], bool], seconds: float) -> None:
        """Bury what ends until something holds, at most for so long."""
        until = time.monotonic() + seconds
        while not done() and time.monotonic() < until:
            time.sleep(0.01)
            self._bury()

    def _stop(self, told: int) -> int:
        """Say that the service is stopping, linger, close the door, and let workers end what is under way."""
        self.app.board.stop()
        linger = self.app.settings.linger_seconds if told == signal.SIGTERM else 0
        until = time.monotonic() + linger
        while (left := until - time.monotonic()) > 0:
            if self._next_signal(left) in (signal.SIGTERM, signal.SIGINT):
                break
            self._bury()
        self.socket.close()
        for pid in list(self.workers):
            self._send(pid, signal.SIGTERM)
        self._until(lambda: not self.workers, self.app.settings.stop_seconds + _MARGIN_SECONDS)
        killed = len(self.workers)
        for pid in list(self.workers):
            self._send(pid, signal.SIGKILL)
        self._until(lambda: not self.workers, 2)
        return 1 if killed else 0

    @staticmethod
    def _send(pid: int, number: int) -> None:
        with contextlib.suppress(ProcessLookupError):
            os.kill(pid, number)


def serve(app: Outer, socket: Listener, workers: int, make: Make) -> int:
    """Serve with so many workers; the exit status. One worker needs no process above it, and lives while it gets ready."""
    sys.setswitchinterval(_SWITCH_SECONDS)
    if workers > 1:
        make(app, lambda told, *given: told(*given))
        return Supervisor(app, socket, workers).run()
    app.board.started(0)
    server = Server(app, make=make)
    server.run(sockets=[socket])
    with contextlib.suppress(OSError):
        sys.stdout.flush()
    # As a worker ends: the interpreter would wait for threads that no answer waits for any more.
    os._exit(1 if server.failed else 0)
