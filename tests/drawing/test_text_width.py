"""The room that texts take, against the measures that the font itself gives.

Source: the font file DejaVu Sans (tables ``cmap``, ``hmtx``, ``head``, ``glyf``). It is the first family that a drawing
names and the widest of those; where it is not installed, the figures below, read from it, stand in.
"""

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from msgspec.structs import replace
from tests.drawing.collide import ASCII, MEASURES, READ_OFF, faults_of_texts, sheets_of
from tests.strategies.walls import walls

from wallwright.domain.framed import framed, skinned
from wallwright.drawing.elevation import framing_scene
from wallwright.drawing.scene import TEXT_MM, shortened, text_width
from wallwright.drawing.sheathing import sheathing_scene

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


@settings(max_examples=100, deadline=None, suppress_health_check=list(HealthCheck))
@given(walls(), NAMES, st.sampled_from(("in", "mm")))
def test_ink_stays_on_the_paper_and_clear_of_other_ink(wall, name, units):
    wall = replace(wall, name=name, openings=tuple(replace(opening, name=name) for opening in wall.openings))
    done = framed(wall)
    for scene in (
        framing_scene(done.layout, units, "0" * 8),
        sheathing_scene(skinned(done), units, "0" * 8, done.layout),
    ):
        assert faults_of_texts(scene, scene.height / sheets_of(scene)) == []
