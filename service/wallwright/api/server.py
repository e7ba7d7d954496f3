"""One process that serves: uvicorn with deadlines for slow callers, and a stop that ends well."""

import asyncio
import contextlib
import gc
import logging
import signal
import socket
import sys
import threading
from asyncio.events import TimerHandle
from collections.abc import Callable, Generator
from types import FrameType
from typing import Any, Final

import httptools
import uvicorn
from uvicorn.protocols.http.httptools_impl import HttpToolsProtocol

from wallwright.api.outer import Outer

KEEP_ALIVE_SECONDS: Final = 75
_BACKLOG: Final = 2048
_TAKEN_AT_ONCE: Final = 8
_FAREWELL_SECONDS: Final = 1.0
_LOG: Final = logging.getLogger("wallwright")

Do = Callable[..., object]
Make = Callable[[Outer, Do], None]
"""Makes the application of an outer layer and tries it; what it tells the layer goes through the second argument."""


class Protocol(HttpToolsProtocol):
    """HTTP on one connection, closed where the headers of a request take too long, or nothing ever comes.

    The server underneath waits for ever for a caller who sends a byte now and then. The body has a deadline of
    its own in the application, which can still answer 408.
    """

    head_wait: float = 10
    last: bool = False
    _head_timer: TimerHandle | None = None
    _in_head = False
    _fed = _rest = b""
    _again = False

    def connection_made(self, transport: asyncio.Transport) -> None:  # type: ignore[override]
        """A connection that never sends anything is closed as an idle one is."""
        super().connection_made(transport)
        self._wait(self.timeout_keep_alive)

    def data_received(self, data: bytes) -> None:
        """The first byte of a request starts the wait for its headers."""
        if self._between_requests():
            self._in_head = True
            self._wait(self.head_wait)
        while data:
            self._fed, self._rest = data, b""
            super().data_received(data)
            data = self._rest

    def _unsupported_upgrade_warning(self) -> None:
        """An upgrade is passed over (RFC 9110, section 7.8), and its body read as that of any request.

        The parser stops after such a head and would take what follows for a request of its own: an honest client
        that asks for HTTP/2 in passing lost its body, and a body could hold a hidden request. So a new parser is
        told how the body is framed, and reads on from there.
        """
        stopped = sys.exc_info()[1]
        rest = self._fed[stopped.args[0] :] if isinstance(stopped, httptools.HttpParserUpgrade) else b""
        framing = (b"content-length", b"transfer-encoding")
        head = [b"POST / HTTP/%b\r\nhost: x\r\n" % self.scope["http_version"].encode()]
        head += [b"%b: %b\r\n" % header for header in self.headers if header[0] in framing]
        self.parser = httptools.HttpRequestParser(self)
        self._again = True
        self._rest = b"".join([*head, b"\r\n", rest])

    def on_message_begin(self) -> None:
        """A request begins, unless only its body is read on."""
        if not self._again:
            super().on_message_begin()

    def on_url(self, url: bytes) -> None:
        """The target."""
        if not self._again:
            super().on_url(url)

    def on_header(self, name: bytes, value: bytes) -> None:
        """A header."""
        if not self._again:
            super().on_header(name, value)

    def on_message_complete(self) -> None:
        """The body is there, unless the parser only stopped at an upgrade."""
        if not self.parser.should_upgrade():
            super().on_message_complete()

    def on_headers_complete(self) -> None:
        """The headers are there."""
        if self._again:
            self._again = False
            return
        self._in_head = False
        self._wait(0)
        super().on_headers_complete()
        if self.last and self.cycle is not None:
            self.cycle.keep_alive = False

    def connection_lost(self, exc: Exception | None) -> None:
        """Nothing more is waited for."""
        self._wait(0)
        super().connection_lost(exc)

    def _between_requests(self) -> bool:
        return not self._in_head and (self.cycle is None or self.cycle.response_complete)

    def _wait(self, seconds: float) -> None:
        if self._head_timer is not None:
            self._head_timer.cancel()
        self._head_timer = self.loop.call_later(seconds, self._late) if seconds else None

    def _late(self) -> None:
        if not self.transport.is_closing():
            self.transport.abort()


class Listener(socket.socket):
    """A listening socket that keeps its own backlog.

    The event loop accepts as many connections at a time as the backlog that it is told; with workers on one
    socket the first to wake would take them all. So it is told a few, and its own call to listen is passed over.
    """

    def listen(self, backlog: int = 0, /) -> None:
        """Nothing: `listener` has listened."""


def listener(host: str, port: int) -> Listener:
    """A socket that listens. Raises OSError where the address is taken or is none of this machine."""
    family, kind, protocol, _, address = socket.getaddrinfo(host, port, type=socket.SOCK_STREAM)[0]
    found = Listener(family, kind, protocol)
    try:
        found.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        found.bind(address)
        socket.socket.listen(found, _BACKLOG)
        found.setblocking(False)
    except OSError:
        found.close()
        raise
    return found


class Server(uvicorn.Server):
    """A server that ends with status 0 when it is told to stop, and lingers first where it is the only one.

    Once it takes no new connections it still answers, for a moment, one more request on each that is kept, and says
    there that it closes: a proxy that was about to use one would otherwise find it gone.

    ``parent`` is the reading end of a pipe that closes when the process above is gone; then this one stops too.
    With ``make`` it lives at once, and the application is made beside it.
    """

    def __init__(self, app: Outer, parent: int | None = None, make: Make | None = None) -> None:
        settings = app.settings
        self.protocol: type[Protocol] = type("Served", (Protocol,), {"head_wait": settings.head_wait_seconds})
        # Parser and loop are named, so that what happens to be installed changes nothing.
        config = uvicorn.Config(
            app,
            http=self.protocol,
            loop="asyncio",
            ws="none",
            lifespan="off",
            interface="asgi3",
            backlog=_TAKEN_AT_ONCE,
            log_config=None,
            access_log=False,
            server_header=False,
            proxy_headers=False,
            timeout_keep_alive=KEEP_ALIVE_SECONDS,
            timeout_graceful_shutdown=settings.stop_seconds,
        )
        super().__init__(config)
        self.outer = app
        self.parent = parent
        self.make = make
        self.failed = False

    async def startup(self, sockets: list[socket.socket] | None = None) -> None:
        """Start to serve, to make what is served, and to watch the process above."""
        await super().startup(sockets)
        if self.make is not None:
            threading.Thread(target=self._made, args=(self.make, asyncio.get_running_loop()), daemon=True).start()
        if self.parent is not None:
            asyncio.get_running_loop().add_reader(self.parent, self._orphaned)

    def _made(self, make: Make, loop: asyncio.AbstractEventLoop) -> None:
        """Make the application in a thread of its own; the loop alone puts it in. Without one there is nothing to serve."""
        try:
            make(self.outer, loop.call_soon_threadsafe)
            gc.collect()
            gc.freeze()  # The collector need not look again at what stays for good.
        except BaseException as error:
            if not self.should_exit:  # Told to stop meanwhile, it needs none.
                _LOG.error({"message": "no application could be made"}, exc_info=error)
                self.failed = self.force_exit = self.should_exit = True

    def _orphaned(self) -> None:
        asyncio.get_running_loop().remove_reader(self.parent or 0)
        self.should_exit = True

    async def on_tick(self, counter: int) -> bool:
        """Say every second that the loop turns."""
        if counter % 10 == 0:
            self.outer.board.beat()
        if counter % 100 == 0:
            self.outer.board.resident()
        return await super().on_tick(counter)

    @contextlib.contextmanager
    def capture_signals(self) -> Generator[None, None, None]:
        """Stop on a signal, and not be killed by it again once everything has ended well."""
        with contextlib.ExitStack() as restored:
            for number in (signal.SIGTERM, signal.SIGINT):
                if self.parent is not None and number == signal.SIGINT:
                    handler: Any = signal.SIG_IGN  # Ctrl-C reaches the whole group; the process above decides.
                else:
                    handler = self.handle_exit
                restored.callback(signal.signal, number, signal.signal(number, handler))
            yield

    def handle_exit(self, sig: int, frame: FrameType | None) -> None:  # noqa: ARG002 - the server's own signature
        """Say that it is stopping, go on for the linger where there is one, then stop; a second signal stops at once."""
        linger = self.outer.settings.linger_seconds if self.parent is None and sig == signal.SIGTERM else 0
        if self.should_exit or not linger or self.outer.board.stopping:
            self.force_exit = self.should_exit and sig == signal.SIGINT
            self.should_exit = True
        else:
            asyncio.get_running_loop().call_later(linger, self._stop_now)
        if self.parent is None:
            self.outer.board.stop()

    async def shutdown(self, sockets: list[socket.socket] | None = None) -> None:
        """Close the door, say farewell on kept connections, then end as the server underneath does."""
        for server in self.servers:
            server.close()
        for one in sockets or []:
            one.close()
        self.protocol.last = True
        for connection in self.server_state.connections:
            if isinstance(connection, Protocol) and connection.cycle is not None:
                connection.cycle.keep_alive = False
        until = asyncio.get_running_loop().time() + _FAREWELL_SECONDS
        while self.server_state.connections and not self.force_exit and asyncio.get_running_loop().time() < until:
            await asyncio.sleep(0.02)
        await super().shutdown(sockets)

    def _stop_now(self) -> None:
        self.should_exit = True
