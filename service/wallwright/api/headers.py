"""Headers that stand on every answer."""

from functools import lru_cache
from typing import Final

from wallwright.drawing.style import STYLE_HASH

SVG_POLICY: Final = f"default-src 'none'; style-src '{STYLE_HASH}'; sandbox"
PAGE_POLICY: Final = (
    f"default-src 'none'; style-src 'self' '{STYLE_HASH}'; img-src 'self'; form-action 'self'; base-uri 'none'; "
    "frame-ancestors 'none'"
)
PLAIN_POLICY: Final = "default-src 'none'; sandbox"

COMMON: Final[tuple[tuple[bytes, bytes], ...]] = (
    (b"x-content-type-options", b"nosniff"),
    (b"referrer-policy", b"no-referrer"),
    (b"cross-origin-resource-policy", b"cross-origin"),
    (b"access-control-allow-origin", b"*"),
    (b"access-control-expose-headers", b"Allow, Content-Location, ETag, Retry-After, Server-Timing, X-Request-Id"),
    (b"timing-allow-origin", b"*"),
)
PAGES: Final[tuple[tuple[bytes, bytes], ...]] = (
    (b"cross-origin-opener-policy", b"same-origin"),
    (b"permissions-policy", b"camera=(), geolocation=(), microphone=()"),
)


def policy_for(media_type: str) -> str:
    """The content policy for an answer of a media type."""
    if media_type.startswith("text/html") or media_type.startswith("text/css"):
        return PAGE_POLICY
    return SVG_POLICY if media_type.startswith("image/svg+xml") else PLAIN_POLICY


@lru_cache(64)
def standing(media_type: str) -> tuple[tuple[bytes, bytes], ...]:
    """The headers that every answer of a media type has."""
    pages = PAGES if media_type.startswith("text/html") else ()
    return (*COMMON, *pages, (b"content-security-policy", policy_for(media_type).encode()))


def preflight(allow: bytes) -> tuple[tuple[bytes, bytes], ...]:
    """What a browser is told before it sends JSON from another origin: nothing here is secret, and there are no cookies."""
    return (
        (b"access-control-allow-methods", allow),
        (b"access-control-allow-headers", b"Accept, Content-Type, If-None-Match, X-Request-Id"),
        (b"access-control-max-age", b"86400"),
    )
