"""Operating limits, set by environment with one prefix and refused at start when they are wrong."""

import os
import re
from collections.abc import Mapping
from typing import Final

import msgspec

PREFIX: Final = "WALLWRIGHT_"


class Settings(msgspec.Struct, frozen=True, gc=False):
    """What an operator may set. Bytes are bytes, waits are seconds; counts are for one worker.

    ``concurrency`` counts the requests that are computed or stand in line for it, ``threads`` those that are
    computed at once, ``inside`` all that are inside, also those whose body is still arriving. ``head_wait_seconds``
    and ``body_wait_seconds`` are how long a caller may take to send them, ``linger_seconds`` how long a stopping
    service still takes work while it says that it is not ready, ``stop_seconds`` how long what is under way then gets.
    """

    body_bytes: int = 262_144
    url_bytes: int = 12_288
    header_bytes: int = 32_768
    header_fields: int = 100
    head_wait_seconds: int = 8
    body_wait_seconds: int = 10
    concurrency: int = 64
    threads: int = 2
    inside: int = 512
    linger_seconds: int = 0
    stop_seconds: int = 10


RANGES: Final[dict[str, tuple[int, int]]] = {
    "body_bytes": (1_024, 16_777_216),
    "url_bytes": (256, 65_536),
    "header_bytes": (1_024, 65_536),
    "header_fields": (16, 1_000),
    "head_wait_seconds": (1, 300),
    "body_wait_seconds": (1, 300),
    "concurrency": (1, 10_000),
    "threads": (1, 64),
    "inside": (1, 100_000),
    "linger_seconds": (0, 120),
    "stop_seconds": (1, 300),
}

# An orchestrator tells every container where the services stand by variables of this form, named for the service;
# one that is itself called wallwright is told by names with our prefix.
_SERVICE: Final = re.compile(r"(?:[A-Z0-9_]+_)?SERVICE_(?:HOST|PORT(?:_[A-Z0-9_]+)?)")
_PORT: Final = re.compile(r"(?:[A-Z0-9_]+_)?PORT(?:_[0-9]+_(?:TCP|UDP|SCTP)(?:_(?:PROTO|PORT|ADDR))?)?")


class BadSetting(Exception):
    """A setting that is unknown or out of range; the text says what is allowed."""


def settings_from(environment: Mapping[str, str] = os.environ) -> Settings:
    """The settings of an environment. Raises BadSetting for an unknown name or a bad value, with all that is wrong."""
    values: dict[str, int] = {}
    wrong: list[str] = []
    for key, text in sorted(environment.items()):
        if not key.startswith(PREFIX):
            continue
        name = key.removeprefix(PREFIX)
        if name.lower() in RANGES and name.isupper():
            least, most = RANGES[name.lower()]
            if text.isascii() and text.isdigit() and len(text) <= 9 and least <= int(text) <= most:
                values[name.lower()] = int(text)
            else:
                wrong.append(f"{key} is {text[:40]!r}; give a whole number from {least} to {most}.")
        elif not _of_an_orchestrator(name):
            wrong.append(f"{key} is no setting; known are {', '.join(PREFIX + known.upper() for known in RANGES)}.")
    if wrong:
        raise BadSetting("\n".join(wrong))
    return Settings(**values)


def _of_an_orchestrator(name: str) -> bool:
    """Whether a name is one that an orchestrator makes for a service; none of them is or will be a setting."""
    return bool(_SERVICE.fullmatch(name) or _PORT.fullmatch(name))
