"""What a finding's code means: its level, its text, and the page that explains it."""

from typing import Literal

import msgspec

from wallwright.sources import Source

Level = Literal["note", "caution", "stop"]


class Kind(msgspec.Struct, frozen=True):
    """What a finding's code means: its text, and the page that explains it."""

    level: Level
    text: str
    title: str
    meaning: str
    cure: str
    source: Source


class FaultKind(msgspec.Struct, frozen=True):
    """What a fault's code means: its text (given, allowed, cure) and the page that explains it."""

    text: str
    title: str
    meaning: str
    cure: str
