"""How a problem is told: as JSON, or as a drawing to who asked for one by link and can only show a picture or a page."""

from collections.abc import MutableMapping
from typing import Any, Final

from wallwright.api.negotiation import ranges
from wallwright.api.problems import Refused

DRAWING: Final = "image/svg+xml"
_SHOWS: Final = frozenset({DRAWING, "image/*", "text/html"})
_READS: Final = frozenset({"application/problem+json", "application/json"})


def told(refused: Refused, scope: MutableMapping[str, Any]) -> tuple[str, bytes]:
    """Media type and body of a problem with the request of an ASGI ``scope``.

    A picture in a page or a browser says in Accept that it takes pictures or pages, and would show nothing of JSON. Who
    names JSON, or nothing in particular, is a program and gets what programs read. ``wallwright_draw`` of the scope
    draws; it is None until the application is made.
    """
    draw = scope.get("wallwright_draw")
    if draw is not None and scope["path"].endswith(".svg"):
        accept = [value.decode("latin-1") for name, value in scope["headers"] if name == b"accept"]
        named = {f"{kind}/{subtype}" for kind, subtype, quality in ranges(accept) if quality}
        if named & _SHOWS and not named & _READS:
            return DRAWING, draw(refused.problem())
    return "application/problem+json", refused.body()
