"""The application with its pages, called in process, and a reader of what they hold."""

import functools
from html.parser import HTMLParser

import httpx
from tests.api.client import call

from wallwright.api.app import create_app
from wallwright.api.codes import code_pages
from wallwright.api.links import order_of, packed, wall_of
from wallwright.api.settings import Settings
from wallwright_viewer import squaring
from wallwright_viewer.form import example, link
from wallwright_viewer.pages import routes

CODES = code_pages()
APP = create_app(
    Settings(),
    routes(CODES, packed, functools.partial(order_of, most=256_000), functools.partial(wall_of, most=256_000)),
)
EXAMPLE = link(example())
PAGES = (
    "/",
    f"/?{EXAMPLE}",
    "/?units=in&width=x&front.1.left=0",
    "/squaring",
    "/squaring?of=frame&frame_width=x&frame_rising=1",
    f"/squaring?{squaring.example('frame').link}",
    f"/squaring?{squaring.example('deck').link}",
    "/?example=field-office",
    "/wall",
    "/wall?z=x",
    "/sheathing",
    "/fasteners",
    "/raising",
    "/order",
    "/order?z=x",
    "/published",
    "/published?edition=2015",
    "/reference",
    "/problems/two-people",
    "/problems/none",
)


class Page(HTMLParser):
    """The elements of a page with their attributes, and its text."""

    def __init__(self, text: str) -> None:
        super().__init__()
        self.elements: list[tuple[str, dict[str, str]]] = []
        self.words: list[str] = []
        self.feed(text)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.elements.append((tag, {name: value or "" for name, value in attrs}))

    def handle_data(self, data: str) -> None:
        self.words.append(data)

    def all(self, tag: str) -> list[dict[str, str]]:
        return [attributes for name, attributes in self.elements if name == tag]

    @property
    def text(self) -> str:
        return " ".join(" ".join(self.words).split())


def get(path: str, accept: str = "text/html", method: str = "GET", **headers: str) -> httpx.Response:
    """One page, as a browser asks for it."""
    return call(method, path, APP, headers={"accept": accept, **headers})


def page(path: str) -> Page:
    return Page(get(path).text)
