"""Entity tags (RFC 9110, 8.8.3): what a question's answer is known by, before it is computed."""

import hashlib
from collections import OrderedDict
from typing import Final

from wallwright import __version__

_KEPT: Final = 1024


class Tags:
    """The tags of the links that were answered last, so that one who asks again for what he holds is told so at once.

    Kept are a digest of the link, its tag and its media type: neither the question nor an answer, and no more than so
    many. A link always has the same tag; forgotten, it is worked out anew.
    """

    def __init__(self) -> None:
        self._found: OrderedDict[bytes, tuple[str, str]] = OrderedDict()

    def keep(self, path: str, query: bytes, tag: str, media_type: str) -> None:
        """Note the tag of a link that was answered."""
        self._found[_digest(path, query)] = tag, media_type
        if len(self._found) > _KEPT:
            self._found.popitem(last=False)

    def of(self, path: str, query: bytes) -> tuple[str, str] | None:
        """Tag and media type of a link, if it is among the last."""
        key = _digest(path, query)
        found = self._found.get(key)
        if found is not None:
            self._found.move_to_end(key)
        return found


def _digest(path: str, query: bytes) -> bytes:
    return hashlib.sha256(path.encode() + b"?" + query).digest()


def etag(identity: str, form: str) -> str:
    """The strong entity tag of a question in one form, known before anything is computed."""
    seen = hashlib.sha256(f"{identity}/{form}/{__version__}".encode()).hexdigest()
    return f'"{seen[:32]}"'


def unchanged(if_none_match: list[str], tag: str) -> bool:
    """Whether If-None-Match lists the tag (RFC 9110, 13.1.2: a list, weak comparison)."""
    return any(candidate.removeprefix("W/") == tag for candidate in _candidates(if_none_match))


def any_held(if_none_match: list[str]) -> bool:
    """Whether If-None-Match is ``*``: any answer will do, but there must be one (RFC 9110, 13.1.2 and 13.2.1)."""
    return "*" in _candidates(if_none_match)


def _candidates(if_none_match: list[str]) -> list[str]:
    return [part.strip() for header in if_none_match for part in header.split(",")]
