"""A problem as a drawing: all of it, on its paper, whatever it says."""

from xml.etree import ElementTree

from hypothesis import given, settings
from hypothesis import strategies as st

from wallwright.drawing.paper import MARGIN
from wallwright.drawing.problem import folded, problem_drawing, problem_scene
from wallwright.drawing.scene import TEXT_MM, Text, text_width

SVG = "{http://www.w3.org/2000/svg}"
LINES = st.lists(st.text(st.characters(exclude_categories=("Cc", "Cs", "Cn")), max_size=400), max_size=30)


def test_a_problem_is_written_out():
    root = ElementTree.fromstring(problem_drawing("The plan has no place", ['/openings/0/left: at least 3" & <4>']))
    assert [text.text for text in root.iter(f"{SVG}text")] == [
        "The plan has no place",
        '/openings/0/left: at least 3" & <4>',
    ]
    assert root.find(f"{SVG}title").text == "Not drawn: The plan has no place"


@settings(max_examples=100, deadline=None)
@given(st.text(st.characters(exclude_categories=("Cc", "Cs", "Cn")), max_size=200), LINES)
def test_every_row_stays_on_the_paper(title, lines):
    scene = problem_scene(title, lines)
    texts = [shape for shape in scene.shapes if isinstance(shape, Text)]
    for text in texts:
        assert text.x + text_width(text.text, text.size) <= scene.width - MARGIN
        assert text.y - TEXT_MM[text.size] >= MARGIN
        assert text.y <= scene.height - MARGIN
    for above, below in zip(texts, texts[1:], strict=False):
        assert below.y - above.y >= TEXT_MM[below.size] * 1.2
    assert ElementTree.fromstring(problem_drawing(title, lines)).attrib["width"] == "160mm"


@given(st.lists(st.text("abcw", min_size=1, max_size=9), max_size=40))
def test_folding_keeps_every_word(words):
    rows = folded(" ".join(words), 30.0)
    assert " ".join(rows).split() == words
    assert all(text_width(row) <= 30.0 for row in rows)


def test_a_long_problem_says_that_there_is_more():
    scene = problem_scene("Many", ["one row"] * 100)
    assert scene.shapes[-1].text == "… and more: ask for the answer as JSON"
    assert len(scene.shapes) == 43
