"""Whether this copy gives the answers that it was made to give: its examples, worked out at start and compared.

A copy with a damaged installation, or on a machine or library that writes one number otherwise, says that it is not
ready instead of answering otherwise than the copy beside it.
"""

import functools
import hashlib
import json
import logging
from collections.abc import Iterator
from importlib.resources import files
from typing import Final

from wallwright.api.answers import encoded
from wallwright.api.reader import Reader
from wallwright.operations.examples import example_bytes
from wallwright.operations.table import OPERATIONS

FILE: Final = "golden.json"
_LOG: Final = logging.getLogger("wallwright")


def digests() -> Iterator[tuple[str, str]]:
    """The digest of each operation's own example in each form, worked out now.

    What is slow is left out: the solver is loaded when it is first asked for, so that a copy that never buys stays small.
    """
    for operation in (operation for operation in OPERATIONS if not operation.slow):
        asked = Reader(operation.request).read(example_bytes(operation.name))
        for form in operation.forms:
            yield f"{operation.name}.{form}", hashlib.sha256(encoded(operation, asked, form)).hexdigest()


def committed() -> dict[str, str]:
    """The digests that were written when the answers were last looked at."""
    found: dict[str, str] = json.loads((files("wallwright.api") / FILE).read_text(encoding="utf-8"))
    return found


@functools.cache
def differing() -> tuple[str, ...]:
    """Which examples come out otherwise than they should; worked out once in a process."""
    wanted = committed()
    found = dict(digests())
    names = tuple(sorted(name for name in wanted.keys() | found.keys() if wanted.get(name) != found.get(name)))
    if names:
        _LOG.error({"message": "examples come out otherwise than committed; not ready", "examples": names})
    return names
