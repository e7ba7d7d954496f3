"""The installed command: the only place that puts API and viewer together.

What takes long to load is imported where it is used: a probe loads none of it, and a service that starts listens, and
says that it lives, before it has loaded all that it will serve.
"""

import argparse
import contextlib
import functools
import sys
from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING

from wallwright import __version__
from wallwright.api.board import Board
from wallwright.api.logs import start_logs
from wallwright.api.outer import Outer
from wallwright.api.probe import probed
from wallwright.api.server import Do, listener
from wallwright.api.settings import BadSetting, settings_from
from wallwright.api.supervisor import serve
from wallwright.operations.examples import EXAMPLES, example_bytes

if TYPE_CHECKING:
    from wallwright.operations.table import Operation


def whole(base: str, outer: Outer, do: Do) -> None:
    """Make the whole service, API and viewer, behind its outer layer, welcome people to it, and try its own examples."""
    from wallwright.api import golden
    from wallwright.api.app import application
    from wallwright.api.codes import code_pages
    from wallwright.api.links import order_of, packed, wall_of
    from wallwright_viewer.pages import routes

    most = outer.settings.body_bytes
    orders, walls = functools.partial(order_of, most=most), functools.partial(wall_of, most=most)
    do(outer.open, *application(outer, routes(code_pages(), packed, orders, walls)))
    welcome = [
        f"wallwright {__version__} at {base}",
        f"pages for people: {base}/",
        f"the example, drawn: {base}/v1/layout.svg?z={packed(example_bytes('layout'))}",
    ]
    with contextlib.suppress(OSError):  # Nobody may be reading; that stops no service.
        print("\n".join(welcome), flush=True)
    do(outer.tried, golden.differing())


def main(arguments: list[str] | None = None) -> int:
    """Run one command; returns the exit status."""
    options = _parser().parse_args(arguments)
    try:
        return int(options.run(options) or 0)
    except BadSetting as error:
        print(error, file=sys.stderr)
        return 2


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(prog="wallwright", description="Works out the walls of small timber buildings.")
    parser.add_argument("--version", action="version", version=__version__)
    commands = parser.add_subparsers(required=True, metavar="COMMAND")
    serve = commands.add_parser("serve", help="serve API and pages")
    serve.add_argument("--host", default="127.0.0.1")
    serve.add_argument("--port", type=_whole(1, 65_535), default=8137)
    serve.add_argument("--workers", type=_whole(1, 64), default=1)
    serve.set_defaults(run=_serve)
    commands.add_parser("openapi", help="print the OpenAPI document").set_defaults(run=_openapi)
    example = commands.add_parser("example", help="print an example request")
    example.add_argument("name", choices=list(EXAMPLES))
    example.set_defaults(run=_example)
    post = commands.add_parser("post", help="run one operation on a file or standard input, without a server")
    # In words, since the table of operations takes a second to load; a test holds them to it.
    words = "layout, sheathing, raising, fasteners, building, buying, squaring-frame or squaring-deck"
    post.add_argument("operation", type=_operation, help=words)
    post.add_argument("file", help="a JSON file, or - for standard input")
    post.add_argument("--as", dest="form", choices=["json", "svg", "csv"], default="json")
    post.set_defaults(run=_post)
    health = commands.add_parser("health", help="ask a running service whether it answers")
    health.add_argument("--url", default="http://127.0.0.1:8137")
    health.add_argument("--ready", action="store_true", help="ask whether it takes work, not only whether it lives")
    health.add_argument("--timeout", type=_whole(1, 60), default=5, help="seconds to wait")
    health.set_defaults(run=_health)
    return parser


def _whole(least: int, most: int) -> Callable[[str], int]:
    """A reader of whole numbers within a range, for the parser."""

    def read(text: str) -> int:
        if not (text.isascii() and text.isdigit() and len(text) <= 9 and least <= int(text) <= most):
            raise argparse.ArgumentTypeError(f"{text!r} is given; give a whole number from {least} to {most}")
        return int(text)

    return read


def _operation(name: str) -> "Operation":
    """The operation of a name, for the parser."""
    from wallwright.operations.table import BY_NAME

    if name not in BY_NAME:
        raise argparse.ArgumentTypeError(f"{name!r} is given; give one of {', '.join(BY_NAME)}")
    return BY_NAME[name]


def _serve(options: argparse.Namespace) -> int:
    settings = settings_from()
    try:
        socket = listener(options.host, options.port)
    except OSError as error:
        print(f"cannot listen at {options.host} port {options.port}: {error.strerror}", file=sys.stderr)
        return 1
    start_logs()
    host = f"[{options.host}]" if ":" in options.host else options.host
    # While all workers are replaced one after another there is one more of them than asked for.
    outer = Outer(None, settings, Board(options.workers + 1))
    return serve(outer, socket, options.workers, functools.partial(whole, f"http://{host}:{options.port}"))


def _openapi(_: argparse.Namespace) -> int:
    from wallwright.operations.document import document_bytes

    sys.stdout.write(document_bytes().decode())
    return 0


def _example(options: argparse.Namespace) -> int:
    sys.stdout.write(example_bytes(options.name).decode())
    return 0


def _post(options: argparse.Namespace) -> int:
    import msgspec

    from wallwright.api.answers import encoded, plan_refused
    from wallwright.api.problems import Refused
    from wallwright.api.reader import Reader
    from wallwright.findings import PlanRefused

    operation: Operation = options.operation
    try:
        body = sys.stdin.buffer.read() if options.file == "-" else Path(options.file).read_bytes()
    except OSError as error:
        print(f"{options.file} cannot be read: {error.strerror}", file=sys.stderr)
        return 2
    try:
        request = Reader(operation.request).read(body)
        try:
            content = encoded(operation, request, options.form)
        except PlanRefused as refused:
            raise plan_refused(request, refused) from None
    except Refused as refused:
        sys.stderr.write(msgspec.json.format(refused.body(), indent=2).decode() + "\n")
        return 1
    sys.stdout.buffer.write(content)
    if options.form != "csv":
        sys.stdout.buffer.write(b"\n")
    return 0


def _health(options: argparse.Namespace) -> int:
    text = probed(options.url, "/ready" if options.ready else "/health", options.timeout)
    if text:
        print(text, file=sys.stderr)
    return 1 if text else 0


if __name__ == "__main__":
    sys.exit(main())
