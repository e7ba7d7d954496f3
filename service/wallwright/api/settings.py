"""Operating limits, set by environment with one prefix and refused at start when they are wrong."""

import os
from collections.abc import Mapping
from typing import Final

import msgspec

PREFIX: Final = "WALLWRIGHT_"


class Settings(msgspec.Struct, frozen=True, gc=False):
    """What an operator may set. Bytes are bytes, waits are seconds.

    ``concurrency`` counts the requests that are computed or stand in line for it, ``threads`` those that are
    computed at once, ``inside`` all that are inside, also those whose body is still arriving; each is for one worker.
    """

    body_bytes: int = 262_144
    url_bytes: int = 12_288
    header_bytes: int = 32_768
    body_wait_seconds: int = 10
    concurrency: int = 64
    threads: int = 2
    inside: int = 512


_LEAST: Final = {
    "body_bytes": 1_024, "url_bytes": 256, "header_bytes": 1_024, "body_wait_seconds": 1, "concurrency": 1,
    "threads": 1, "inside": 1,
}  # fmt: skip
_MOST: Final = {
    "body_bytes": 16_777_216, "url_bytes": 65_536, "header_bytes": 65_536, "body_wait_seconds": 300, "concurrency": 10_000,
    "threads": 64, "inside": 100_000,
}  # fmt: skip


class BadSetting(Exception):
    """A setting that is unknown or out of range; the text says what is allowed."""


def settings_from(environment: Mapping[str, str] = os.environ) -> Settings:
    """The settings of an environment. Raises BadSetting for an unknown name or a bad value."""
    values: dict[str, int] = {}
    names = Settings.__struct_fields__
    for key, text in environment.items():
        if not key.startswith(PREFIX):
            continue
        name = key.removeprefix(PREFIX).lower()
        if name.startswith(("schema_", "examples", "fresh", "test_")):
            continue  # sizes of the test suite, no settings of the service
        if name not in names:
            raise BadSetting(f"{key} is no setting; known are {', '.join(PREFIX + n.upper() for n in names)}.")
        if not text.isascii() or not text.isdigit() or not _LEAST[name] <= int(text) <= _MOST[name]:
            raise BadSetting(f"{key} is {text!r}; give a whole number from {_LEAST[name]} to {_MOST[name]}.")
        values[name] = int(text)
    return Settings(**values)
