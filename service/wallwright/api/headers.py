"""Headers that stand on every answer."""

from typing import Final

from wallwright.drawing.svg import STYLE_HASH

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
)


def policy_for(media_type: str) -> str:
    """The content policy for an answer of a media type."""
    if media_type.startswith("text/html") or media_type.startswith("text/css"):
        return PAGE_POLICY
    return SVG_POLICY if media_type.startswith("image/svg+xml") else PLAIN_POLICY
