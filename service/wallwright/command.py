"""The installed command: the only place that puts API and viewer together."""

import argparse
import logging
import sys
import urllib.error
import urllib.request
from collections.abc import Callable
from pathlib import Path

import msgspec
import uvicorn

from wallwright import __version__
from wallwright.api.answers import encoded, plan_refused
from wallwright.api.app import code_pages, create_app
from wallwright.api.links import packed
from wallwright.api.outer import App
from wallwright.api.problems import Refused
from wallwright.api.reader import Reader
from wallwright.api.settings import BadSetting, settings_from
from wallwright.findings import PlanRefused
from wallwright.operations.document import document_bytes
from wallwright.operations.examples import EXAMPLES, example_bytes
from wallwright.operations.table import BY_NAME
from wallwright_viewer.pages import routes


def application() -> App:
    """The whole service, API and viewer, with settings from the environment."""
    logging.basicConfig(level=logging.INFO, format="%(message)s", stream=sys.stderr)
    return create_app(settings_from(), routes(code_pages(), packed))


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
    base = f"http://{options.host}:{options.port}"
    print(f"wallwright {__version__} at {base}")
    print(f"pages for people: {base}/")
    print(f"the example, drawn: {base}/v1/layout.svg?z={packed(example_bytes('layout'))}", flush=True)
    # Parser and loop are named, so that what happens to be installed changes nothing.
    uvicorn.run(
        "wallwright.command:application",
        factory=True,
        host=options.host,
        port=options.port,
        workers=options.workers,
        http="httptools",
        loop="asyncio",
        access_log=False,
        log_level="warning",
        server_header=False,
        proxy_headers=False,
        timeout_keep_alive=75,
        timeout_graceful_shutdown=10,
    )
    return 0


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
    if not options.url.startswith(("http://", "https://")):
        print("give a URL that starts with http:// or https://", file=sys.stderr)
        return 2
    try:
        with urllib.request.urlopen(f"{options.url}/health", timeout=5) as answer:  # noqa: S310 - scheme checked above
            return 0 if answer.status == 200 else 1
    except (urllib.error.URLError, OSError) as error:
        print(f"no answer: {error}", file=sys.stderr)
        return 1


if __name__ == "__main__":
    sys.exit(main())
