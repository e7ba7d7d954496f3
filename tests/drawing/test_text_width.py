"""The room that texts take, against the measures that the font itself gives.

Source: the font file DejaVu Sans (tables ``cmap``, ``hmtx``, ``head``, ``glyf``). It is the first family that a drawing
names and the widest of those; where it is not installed, the figures below, read from it, stand in.
"""

from pathlib import Path

import pytest
from fontTools.pens.boundsPen import BoundsPen
from fontTools.ttLib import TTFont
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from msgspec.structs import replace
from tests.strategies.walls import walls

from wallwright.domain.framed import framed, skinned
from wallwright.drawing.elevation import framing_scene
from wallwright.drawing.paper import MARGIN
from wallwright.drawing.scene import TEXT_MM, Scene, Text, shortened, text_width
from wallwright.drawing.sheathing import sheathing_scene

FONT = Path("/usr/share/fonts/truetype/dejavu/DejaVuSans.ttf")
ASCII = "".join(map(chr, range(32, 127)))
# Advances in 2048ths of the size, from the file's hmtx table.
READ_OFF = {
    " ": 651,
    "'": 563,
    '"': 942,
    "1": 1303,
    "8": 1303,
    "A": 1401,
    "M": 1767,
    "W": 2025,
    "@": 2048,
    "i": 569,
    "m": 1995,
}


class Measures:
    """Advance and inked box of each letter in ems."""

    def __init__(self) -> None:
        self.advance = {letter: count / 2048 for letter, count in READ_OFF.items()}
        self.box: dict[str, tuple[float, float]] = {}
        if FONT.exists():
            font = TTFont(FONT)
            size, names, glyphs = font["head"].unitsPerEm, font.getBestCmap(), font.getGlyphSet()
            for letter in ASCII:
                pen = BoundsPen(glyphs)
                glyphs[names[ord(letter)]].draw(pen)
                self.advance[letter] = font["hmtx"][names[ord(letter)]][0] / size
                low, high = (pen.bounds[1], pen.bounds[3]) if pen.bounds else (0, 0)
                self.box[letter] = (low / size, high / size)

    def long(self, text: str, size: str) -> float:
        return sum(self.advance.get(letter, 0.64) for letter in text) * TEXT_MM[size]

    def rise_and_fall(self, text: str, size: str) -> tuple[float, float]:
        """How far the ink stands above the baseline and hangs below it."""
        boxes = [self.box.get(letter, (-0.24, 0.76)) for letter in text]
        return max(high for _, high in boxes) * TEXT_MM[size], -min(0.0, *(low for low, _ in boxes)) * TEXT_MM[size]


MEASURES = Measures()
NAMES = st.sampled_from(["", "door", "NORTH WORKSHOP DOOR", "HUNGDUCK" * 10, "W1", "MMMMWWWW@@@@", "(ij,ql)", "x" * 80])


@pytest.mark.parametrize("letter", sorted(READ_OFF))
def test_a_letter_takes_no_more_than_is_reckoned(letter):
    room = text_width(letter) / TEXT_MM["t"]
    assert READ_OFF[letter] / 2048 <= room <= READ_OFF[letter] / 2048 + 0.0101


@given(st.text(ASCII, min_size=1, max_size=60), st.sampled_from(("t", "t3", "t5")))
def test_a_text_takes_no_more_than_is_reckoned(text, size):
    assert MEASURES.long(text, size) <= text_width(text, size) + 1e-9
    assert text_width(text, size) <= MEASURES.long(text, size) + 0.0101 * len(text) * TEXT_MM[size] or not MEASURES.box


@given(st.text(max_size=80), st.floats(5, 200))
def test_a_shortened_text_fits_its_room(text, room):
    assert text_width(shortened(text, room)) <= room


def inked(scene: Scene) -> list[tuple[float, float, float, float, str]]:
    """Left, top, right, bottom of the ink of every text, as the font measures it."""
    found = []
    for text in (shape for shape in scene.shapes if isinstance(shape, Text) and shape.text.strip()):
        long = MEASURES.long(text.text, text.size)
        rise, fall = MEASURES.rise_and_fall(text.text, text.size)
        before = {"start": 0.0, "middle": long / 2, "end": long}[text.anchor]
        if text.turned:
            box = (text.x - rise, text.y - long + before, text.x + fall, text.y + before)
        else:
            box = (text.x - before, text.y - rise, text.x - before + long, text.y + fall)
        found.append((*box, text.text))
    return found


@settings(max_examples=100, deadline=None, suppress_health_check=list(HealthCheck))
@given(walls(), NAMES, st.sampled_from(("in", "mm")))
def test_ink_stays_on_the_paper_and_clear_of_other_ink(wall, name, units):
    wall = replace(wall, name=name, openings=tuple(replace(opening, name=name) for opening in wall.openings))
    done = framed(wall)
    for scene in (
        framing_scene(done.layout, units, "0" * 8),
        sheathing_scene(skinned(done), units, "0" * 8, done.layout),
    ):
        placed = inked(scene)
        for left, top, right, bottom, text in placed:
            assert left >= MARGIN, text
            assert right <= scene.width - MARGIN, text
            assert top >= MARGIN, text
            assert bottom <= scene.height - MARGIN, text
        for number, (l1, t1, r1, b1, one) in enumerate(placed):
            for l2, t2, r2, b2, two in placed[number + 1 :]:
                assert r1 <= l2 or r2 <= l1 or b1 <= t2 or b2 <= t1, (one, two)
