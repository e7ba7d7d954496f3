"""The pages as handlers, which the command gives to the application."""

import functools
import hashlib
import math
import re
from collections.abc import Callable, Mapping
from importlib.resources import files
from typing import Any, Final, Protocol

import msgspec
from jinja2 import DictLoader, Environment, StrictUndefined
from litestar import Request, Response, route
from litestar.exceptions import NotFoundException
from litestar.handlers import HTTPRouteHandler

from wallwright.findings import PlanRefused
from wallwright.operations.buying import TookTooLong
from wallwright.operations.converters import CONVERTERS
from wallwright.operations.examples import example_bytes
from wallwright.wire.base import Units
from wallwright_viewer import fields, form, published, question, squaring
from wallwright_viewer.answer import BuildingPage, building_page
from wallwright_viewer.drawn import Packer, curl, figures, tape_of
from wallwright_viewer.order import BY_LENGTH, OrderOf, OrderPage, order_page
from wallwright_viewer.readings import readings
from wallwright_viewer.reference import reference
from wallwright_viewer.wall import VIEWS, WallOf, WallView, wall_view
from wallwright_viewer.worked import WORKED

AnyRequest = Request[Any, Any, Any]
_DATA: Final = files("wallwright_viewer")
_EXAMPLE: Final = re.compile(rb"example=([a-z-]{1,40})")


class CodePage(Protocol):
    """What a page tells of one code."""

    @property
    def code(self) -> str: ...  # noqa: D102
    @property
    def kind(self) -> str: ...  # noqa: D102
    @property
    def title(self) -> str: ...  # noqa: D102
    @property
    def meaning(self) -> str: ...  # noqa: D102
    @property
    def cure(self) -> str: ...  # noqa: D102


def _environment() -> Environment:
    """Templates read once, at start; every value is escaped, and a name that is not given is an error."""
    sources = {
        entry.name: entry.read_text(encoding="utf-8")
        for entry in (_DATA / "templates").iterdir()
        if entry.name.endswith(".html")
    }
    environment = Environment(
        loader=DictLoader(sources), autoescape=True, undefined=StrictUndefined, trim_blocks=True, lstrip_blocks=True
    )
    environment.filters |= {"figures": figures, "up": math.ceil, "down": math.floor}
    return environment


_TEMPLATES: Final = _environment()


def routes(codes: Mapping[str, CodePage], packed: Packer, order_of: OrderOf, wall_of: WallOf) -> list[HTTPRouteHandler]:
    """All handlers of the viewer.

    ``codes`` are the codes with pages; ``packed`` packs a request for a link, ``order_of`` and ``wall_of`` read
    the order or the wall in one.
    """
    return [
        _building(packed),
        _squaring(packed),
        _published(),
        _order(packed, order_of),
        *(_wall(path, packed, wall_of) for path in VIEWS),
        _codes(codes),
        _fixed("/reference", _rendered("reference.html", reference=reference(), codes=codes), "text/html"),
        _fixed("/style.css", (_DATA / "static" / "style.css").read_bytes(), "text/css"),
        _fixed("/icon.svg", (_DATA / "static" / "icon.svg").read_bytes(), "image/svg+xml"),
    ]


def _rendered(template: str, **context: Any) -> bytes:
    return _TEMPLATES.get_template(template).render(context).encode("utf-8", "replace")


def _html(content: bytes, status: int = 200, **headers: str) -> Response[bytes]:
    return Response(content, media_type="text/html", status_code=status, headers=headers)


def _building(packed: Packer) -> HTTPRouteHandler:
    def answered(request: AnyRequest) -> Response[bytes]:
        query = request.scope["query_string"]
        if not query:
            return _html(building_html(form.example(), packed, ""))
        found = _EXAMPLE.fullmatch(query)
        if found and found[1].decode() in WORKED:
            return _html(building_html(form.example(found[1].decode()), packed, ""))
        try:
            filled = form.read(query)
        except ValueError:
            return _html(building_html(form.example(), packed, ""), 400)
        if filled.changes:
            place = filled.action.split("-")[1] if filled.action.count("-") else "form"
            anchor = place if place in fields.SIDES else "form"
            read_as = f"&read={filled.was}" if filled.units != filled.was else ""
            location = f"/?{form.edit_link(form.changed(filled))}{read_as}#{anchor}"
            return Response(b"", status_code=303, media_type="text/html", headers={"location": location})
        return _html(building_html(filled, packed, str(request.base_url).rstrip("/"), not filled.editing))

    return _worked("/", answered)


def _worked(path: str, answered: Callable[[AnyRequest], Response[bytes]], *, slow: bool = False) -> HTTPRouteHandler:
    """A page that takes a moment to reckon and draw: made where all computing stands, so that nobody else waits for it."""

    @route(path, http_method=["GET", "HEAD"], status_code=200, name=f"viewer {path}")
    async def page(request: AnyRequest) -> Response[bytes]:
        request.scope["wallwright_route"] = path  # type: ignore[typeddict-unknown-key]
        line = request.scope["wallwright_slow" if slow else "wallwright_work"]  # type: ignore[typeddict-item]
        found: Response[bytes] = await line.run(lambda: answered(request))
        return found

    return page


def building_html(filled: form.Form, packed: Packer, base: str, answered: bool = False) -> bytes:
    """The page of a form: with its answer where it was sent, or with what is wrong beside each field."""
    found: BuildingPage | None = None
    errors: question.Errors = {}
    notes = readings(filled)
    if answered:
        asked = question.asked(filled)
        errors = asked.errors
        if asked.request is not None:
            try:
                found = building_page(asked.request, packed, form.link(filled))
            except PlanRefused as refusal:
                errors = question.refused(asked.request.units, refusal, question.place_of)
    return _rendered(
        "building.html",
        form=filled,
        errors=errors,
        notes=notes,
        page=found,
        groups=fields.GROUPS,
        sides=fields.SIDES,
        kinds=fields.ROWS,
        worked={name: title for name, (title, _) in WORKED.items()},
        units=fields.UNITS,
        opened=lambda group: any(field.name in errors or field.name in notes for field in group.fields),
        said=lambda group: fields.said(group, filled.values),
        input_name=fields.input_name,
        labels=_labels(filled),
        edit=form.edit_link(filled),
        curl=lambda drawing: curl(drawing, base),
        tape=lambda number: tape_of(number, filled.units),
        proud=lambda number: squaring.proud(number, filled.units),
    )


def _squaring(packed: Packer) -> HTTPRouteHandler:
    def answered(request: AnyRequest) -> Response[bytes]:
        try:
            half = squaring.read(request.scope["query_string"])
        except ValueError:
            return _html(squaring_html(None, packed, ""), 400)
        return _html(squaring_html(half, packed, str(request.base_url).rstrip("/")))

    return _worked("/squaring", answered)


def squaring_html(sent: squaring.Half | None, packed: Packer, base: str) -> bytes:
    """The squaring page: both forms, and the answer to the one that was sent."""
    if sent is not None:
        sent = squaring.answered(sent, packed)
    of: tuple[squaring.Of, ...] = ("frame", "deck")
    units = sent.units if sent else "in"
    return _rendered(
        "squaring.html",
        sent=sent,
        halves=[sent if sent and sent.of == name else squaring.example(name) for name in of],
        groups=squaring.GROUPS,
        labels=squaring.labels(sent.of) if sent else {},
        units=fields.UNITS,
        opened=lambda half, group: any(field.name in half.errors for field in group.fields),
        said=fields.said,
        curl=lambda drawing: curl(drawing, base),
        tape=lambda number: tape_of(number, units),
        proud=lambda number: squaring.proud(number, units),
    )


def _published() -> HTTPRouteHandler:
    @functools.cache
    def narrowed(edition: str) -> bytes:
        tables = published.shown(edition)
        return _rendered("published.html", tables=tables, edition=edition, editions=published.EDITIONS)

    def answered(request: AnyRequest) -> Response[bytes]:
        query = request.scope["query_string"].decode("ascii", "replace")
        edition = query.removeprefix("edition=")
        return _html(narrowed(edition if edition in published.EDITIONS else ""))

    return _worked("/published", answered)


def _order(packed: Packer, order_of: OrderOf) -> HTTPRouteHandler:
    def answered(request: AnyRequest) -> Response[bytes]:
        query, _, rest = request.scope["query_string"].partition(b"&")
        query = query or b"z=" + packed(example_bytes("buying")).encode()
        faults: list[str] = []
        found: OrderPage | None = None
        try:
            asked = order_of(query)
            found = order_page(asked, packed, rest == BY_LENGTH)
        except ValueError as error:
            faults = str(error).splitlines()
        except PlanRefused as refusal:
            faults = [c.fault(fault).detail for fault in refusal.faults] if (c := CONVERTERS[asked.units]) else []
        except TookTooLong:
            faults = ["It took longer than is allowed. Ask with less effort, or for less at once."]
        base = str(request.base_url).rstrip("/")
        content = _rendered("order.html", page=found, faults=faults, curl=lambda one: curl(one, base))
        return _html(content, 200 if found else 422)

    return _worked("/order", answered, slow=True)


def _wall(path: str, packed: Packer, wall_of: WallOf) -> HTTPRouteHandler:
    def answered(request: AnyRequest) -> Response[bytes]:
        query, _, rest = request.scope["query_string"].partition(b"&")
        faults: list[str] = []
        found: WallView | None = None
        units: Units = "in"
        try:
            back = form.link(form.read(rest)) if rest else ""
            wall = wall_of(query or b"z=" + packed(example_bytes(VIEWS[path][0])).encode())
            units = wall.units
            found = wall_view(path, wall, back, packed)
        except ValueError as error:
            faults = str(error).splitlines()
        except PlanRefused as refusal:
            faults = [CONVERTERS[units].fault(fault).detail for fault in refusal.faults]
        base = str(request.base_url).rstrip("/")
        content = _rendered(
            "wall.html", page=found, faults=faults, path=path, name=VIEWS[path][1],
            curl=lambda one: curl(one, base), tape=lambda number: tape_of(number, units),
        )  # fmt: skip
        return _html(content, 200 if found else 422)

    return _worked(path, answered)


def _labels(filled: form.Form) -> dict[str, str]:
    """What each input is called, for the list of what is wrong."""
    names = {field.name: field.label for field in fields.PLAIN}
    for side in fields.SIDES:
        for kind in fields.ROWS:
            for number in range(1, len(filled.rows(kind)[side]) + 1):
                for field in kind.fields:
                    label = field.label[0].lower() + field.label[1:]
                    name = fields.input_name(side, number, field, kind)
                    names[name] = f"{side.capitalize()} {kind.word} {number}, {label}"
    return names


def _codes(codes: Mapping[str, CodePage]) -> HTTPRouteHandler:
    @route("/problems/{code:str}", http_method=["GET", "HEAD"], status_code=200, name="code")
    async def page(request: AnyRequest) -> Response[bytes]:
        request.scope["wallwright_route"] = "/problems/{code}"  # type: ignore[typeddict-unknown-key]
        code = codes.get(request.path_params["code"])
        if "text/html" in request.headers.get("accept", ""):
            if code is None:
                return _html(_rendered("missing.html"), 404, vary="Accept")
            return _html(_rendered("code.html", code=code), vary="Accept")
        if code is None:
            raise NotFoundException
        return Response(msgspec.json.encode(code), media_type="application/json", headers={"vary": "Accept"})

    return page


def _fixed(path: str, content: bytes, media_type: str) -> HTTPRouteHandler:
    """A page or file that never changes while the service runs."""
    tag = f'"{hashlib.sha256(content).hexdigest()[:32]}"'
    headers = {"etag": tag, "cache-control": "public, max-age=300"}

    @route(path, http_method=["GET", "HEAD"], status_code=200, name=f"viewer {path}")
    async def get(request: AnyRequest) -> Response[bytes]:
        request.scope["wallwright_route"] = path  # type: ignore[typeddict-unknown-key]
        if request.headers.get("if-none-match", "") == tag:
            return Response(b"", status_code=304, media_type=media_type, headers=headers)
        return Response(content, media_type=media_type, headers=headers)

    return get
