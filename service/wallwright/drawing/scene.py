"""A scene: shapes on paper, in millimetres from its upper left corner, before they become SVG."""

from functools import lru_cache
from typing import Final, Literal

import msgspec
from msgspec.structs import replace

Anchor = Literal["start", "middle", "end"]
Place = tuple[float, float]
Box = tuple[float, float, float, float]
"""Left, top, right and bottom on paper."""


class Area(msgspec.Struct, frozen=True, gc=False):
    """A closed outline of one ``kind``, which sets its pen and fill; ``data`` is for scripts that read the drawing."""

    kind: str
    points: tuple[Place, ...]
    title: str = ""
    data: tuple[tuple[str, str], ...] = ()
    description: str = ""


class Lines(msgspec.Struct, frozen=True, gc=False):
    """All lines of one kind, drawn as one path."""

    kind: str
    lines: tuple[tuple[float, float, float, float], ...]


class Text(msgspec.Struct, frozen=True, gc=False):
    """A text whose baseline starts, is centred or ends at x, y; ``turned`` reads upwards."""

    x: float
    y: float
    text: str
    size: Literal["t", "t3", "t5"] = "t"
    anchor: Anchor = "start"
    turned: bool = False


class Scene(msgspec.Struct, frozen=True):
    """A whole drawing on paper of ``width`` by ``height`` millimetres."""

    width: float
    height: float
    title: str
    description: str
    shapes: tuple[Area | Lines | Text, ...]


def moved(shape: Area | Lines | Text, right: float, down: float) -> Area | Lines | Text:
    """The same shape elsewhere on the paper."""
    if isinstance(shape, Text):
        return replace(shape, x=shape.x + right, y=shape.y + down)
    if isinstance(shape, Lines):
        lines = tuple((x1 + right, y1 + down, x2 + right, y2 + down) for x1, y1, x2, y2 in shape.lines)
        return Lines(shape.kind, lines)
    return replace(shape, points=tuple((x + right, y + down) for x, y in shape.points))


def stacked(pages: list[Scene], title: str) -> Scene:
    """Several papers one below the other, as one scene under a title of its own."""
    first = pages[0]
    if len(pages) == 1:
        return first
    shapes = tuple(
        moved(shape, 0.0, number * page.height) for number, page in enumerate(pages) for shape in page.shapes
    )
    return Scene(first.width, first.height * len(pages), title, first.description, shapes)


TEXT_MM = {"t": 2.5, "t3": 3.5, "t5": 5.0}
"""Height of each size of text."""

_HUNDREDTHS: Final = {
    28: "'ijl", 30: "IJ", 32: " ,.", 34: "/:;\\|", 36: "f", 37: "-", 40: "()[]t", 41: "!", 42: "r", 46: '"', 50: "*_`",
    53: "sz", 54: "?", 55: "c", 56: "L", 58: "Fk", 60: "vxy", 61: "P", 62: "TYaeo", 64: "$0123456789ESbdghnpqu{}",
    66: "K", 69: "ABVXZ", 70: "CR", 74: "U", 75: "N", 76: "H", 78: "&DG", 79: "OQ", 82: "w", 84: "#+<=>^~", 87: "M",
    96: "%", 98: "m", 99: "W", 100: "@",
}  # fmt: skip
"""Advance of each letter of DejaVu Sans in hundredths of the size, rounded up; common sans-serif fonts are narrower."""
_EMS: Final = {letter: count / 100 for count, letters in _HUNDREDTHS.items() for letter in letters}


@lru_cache(1024)
def _ems(letter: str) -> float:
    """Advance of a letter in ems; letters of other scripts are taken as wide as nearly all of them are at most."""
    known = _EMS.get(letter)
    if known is not None:
        return known
    return 1.0 if ord(letter) < 0x300 or 0x2010 <= ord(letter) <= 0x2027 else 1.45


def text_width(text: str, size: str = "t") -> float:
    """How wide a text is at most, in millimetres."""
    return sum(map(_ems, text)) * TEXT_MM[size]


TALL: Final = 0.76
"""How high capitals and figures stand, in ems."""
CLEAR: Final = 0.35
"""Room kept about a text, in millimetres."""


def text_box(text: Text) -> Box:
    """The room that a text takes, a little more than its letters."""
    long, tall = text_width(text.text, text.size), TALL * TEXT_MM[text.size]
    before = {"start": 0.0, "middle": long / 2, "end": long}[text.anchor]
    if text.turned:
        return text.x - tall - CLEAR, text.y - long + before - CLEAR, text.x + CLEAR, text.y + before + CLEAR
    return text.x - before - CLEAR, text.y - tall - CLEAR, text.x - before + long + CLEAR, text.y + CLEAR


def shortened(text: str, room: float, size: str = "t") -> str:
    """The text, cut short with an ellipsis where it is wider than ``room``."""
    if text_width(text, size) <= room:
        return text
    while text and text_width(text + "…", size) > room:
        text = text[:-1]
    return text + "…"


def spread(wanted: list[float], gap: float, low: float, high: float) -> list[float] | None:
    """Places at least ``gap`` apart, as near as may be to those wanted (in order); None where there is no room."""
    if not wanted:
        return []
    if (len(wanted) - 1) * gap > high - low:
        return None
    clusters: list[list[float]] = []
    for place in wanted:
        clusters.append([place, 1])
        while len(clusters) > 1 and _foot(clusters[-1], gap) < _foot(clusters[-2], gap) + clusters[-2][1] * gap:
            centre, count = clusters.pop()
            before, number = clusters.pop()
            clusters.append([(centre * count + before * number) / (count + number), count + number])
    placed: list[float] = []
    for cluster in clusters:
        foot = _foot(cluster, gap)
        placed += [foot + number * gap for number in range(int(cluster[1]))]
    # Pushed in from both ends, so that none leaves the room.
    for index in range(len(placed)):
        placed[index] = max(placed[index], low + index * gap)
    for index in range(len(placed)):
        back = len(placed) - 1 - index
        placed[back] = min(placed[back], high - index * gap)
    return placed


def _foot(cluster: list[float], gap: float) -> float:
    return cluster[0] - (cluster[1] - 1) * gap / 2


def folded(text: str, room: float) -> list[str]:
    """A text in rows no wider than ``room`` millimetres; a word that is wider is cut short."""
    rows: list[str] = []
    for word in text.split():
        longer = f"{rows[-1]} {word}" if rows else word
        if rows and text_width(longer) <= room:
            rows[-1] = longer
        else:
            rows.append(shortened(word, room))
    return rows
