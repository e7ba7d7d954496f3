"""Links that hold their whole question: the request as zlib data (RFC 1950) in base64url without padding."""

import base64
import binascii
import re
import zlib
from typing import Final

from wallwright.api.problems import Refused
from wallwright.api.reader import Reader
from wallwright.wire.buying_asked import Order
from wallwright.wire.limits import Z_MAX
from wallwright.wire.wall import Wall

_Z: Final = re.compile(r"[A-Za-z0-9_-]+")
_ORDERS: Final = Reader(Order)
_WALLS: Final = Reader(Wall)
Z_PATTERN: Final = "^[A-Za-z0-9_-]+$(?!\\n)"


def packed(body: bytes) -> str:
    """The value of ``z`` for a request body."""
    return base64.urlsafe_b64encode(zlib.compress(body, 9)).rstrip(b"=").decode("ascii")


def link(path: str, body: bytes, most: int) -> str:
    """The link to a path that holds a request body; empty where it is longer than ``most`` bytes or `Z_MAX` allows."""
    z = packed(body)
    # The target is counted as it is on arrival: path and query, without the question mark between them.
    if len(z) > Z_MAX or len(path) + len("z=") + len(z) > most:
        return ""
    return f"{path}?z={z}"


def unpacked(query: bytes, most: int) -> bytes:
    """The request body in a link's query string, at most ``most`` bytes.

    Raises Refused with 400 where the query is not one ``z`` of the right form.
    """
    if not query.startswith(b"z="):
        raise Refused("bad-link", "Give the packed request as the one query parameter z.")
    z = query[2:].decode("latin-1")
    if len(z) > Z_MAX or _Z.fullmatch(z) is None:
        raise Refused("bad-link", "z holds other characters than base64url has, or stands beside other parameters.")
    try:
        data = base64.urlsafe_b64decode(z + "=" * (-len(z) % 4))
    except (binascii.Error, ValueError):
        raise Refused("link-holds-no-request", "z is not base64url.") from None
    inflater = zlib.decompressobj()
    try:
        body = inflater.decompress(data, most + 1)
    except zlib.error:
        raise Refused("link-holds-no-request", "z does not hold zlib data.") from None
    if len(body) > most or inflater.unconsumed_tail:
        raise Refused(
            "link-holds-no-request", "The unpacked request is larger than this service takes; see /v1/limits."
        )
    if not inflater.eof or inflater.unused_data:
        raise Refused("link-holds-no-request", "z does not hold one whole piece of zlib data.")
    return body


def order_of(query: bytes, most: int) -> Order:
    """The order that a link's query holds, for a page. Raises ValueError with what is wrong, a line each."""
    found = _asked(_ORDERS, query, most)
    assert isinstance(found, Order)  # noqa: S101 - the reader reads orders
    return found


def wall_of(query: bytes, most: int) -> Wall:
    """The wall that a link's query holds, for a page. Raises ValueError with what is wrong, a line each."""
    found = _asked(_WALLS, query, most)
    assert isinstance(found, Wall)  # noqa: S101 - the reader reads walls
    return found


def _asked(reader: Reader, query: bytes, most: int) -> object:
    try:
        return reader.read(unpacked(query, most))
    except Refused as refused:
        told = [f"{error.pointer}: {error.detail}" for error in refused.errors or ()]
        raise ValueError("\n".join(told or [refused.detail])) from None
