"""The installed command: the only place that puts API and viewer together."""

import argparse
import contextlib
import functools
import sys
from collections.abc import Callable
from pathlib import Path

import msgspec

from wallwright import __version__
from wallwright.api.answers import encoded, plan_refused
from wallwright.api.app import code_pages, create_app
from wallwright.api.links import order_of, packed, wall_of
from wallwright.api.logs import start_logs
from wallwright.api.outer import Outer
from wallwright.api.probe import probed
from wallwright.api.problems import Refused
from wallwright.api.reader import Reader
from wallwright.api.server import listener
from wallwright.api.settings import BadSetting, settings_from
from wallwright.api.supervisor import serve
from wallwright.findings import PlanRefused
from wallwright.operations.document import document_bytes
from wallwright.operations.examples import EXAMPLES, example_bytes
from wallwright.operations.table import BY_NAME
from wallwright_viewer.pages import routes


def application(workers: int = 1) -> Outer:
    """The whole service, API and viewer, with settings from the environment."""
    # While all workers are replaced one after another there is one more of them than asked for.
    chosen = settings_from()
    orders = functools.partial(order_of, most=chosen.body_bytes)
    walls = functools.partial(wall_of, most=chosen.body_bytes)
    return create_app(chosen, routes(code_pages(), packed, orders, walls), rows=workers + 1)


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
    post.add_argument("operation", choices=list(BY_NAME))
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


def _serve(options: argparse.Namespace) -> int:
    settings_from()
    try:
        socket = listener(options.host, options.port)
    except OSError as error:
        print(f"cannot listen at {options.host} port {options.port}: {error.strerror}", file=sys.stderr)
        return 1
    start_logs()
    app = application(options.workers)
    host = f"[{options.host}]" if ":" in options.host else options.host
    base = f"http://{host}:{options.port}"
    welcome = [
        f"wallwright {__version__} at {base}",
        f"pages for people: {base}/",
        f"the example, drawn: {base}/v1/layout.svg?z={packed(example_bytes('layout'))}",
    ]
    with contextlib.suppress(OSError):  # Nobody may be reading; that stops no service.
        print("\n".join(welcome), flush=True)
    return serve(app, socket, options.workers)


def _openapi(_: argparse.Namespace) -> int:
    sys.stdout.write(document_bytes().decode())
    return 0


def _example(options: argparse.Namespace) -> int:
    sys.stdout.write(example_bytes(options.name).decode())
    return 0


def _post(options: argparse.Namespace) -> int:
    operation = BY_NAME[options.operation]
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
