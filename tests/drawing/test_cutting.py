"""Cutting diagrams: every cut stands on the paper where the tape shows it, to scale, marks are legible and no text lies on another."""

import json

import pytest

from wallwright.api.reader import Reader
from wallwright.drawing.buying import cutting_pages
from wallwright.drawing.scene import TEXT_MM, Area, Text, text_width
from wallwright.operations.buying import bought
from wallwright.operations.examples import EXAMPLES
from wallwright.wire.buying_asked import Order


@pytest.fixture(scope="module")
def found():
    return bought(Reader(Order).read(json.dumps(EXAMPLES["buying"]).encode()))


@pytest.fixture(scope="module")
def pages(found):
    return cutting_pages(found, "in", "0")


def test_each_piece_ends_at_its_reading_in_scale(found, pages):
    boards = [board for cut in found.cuts for board in cut.boards]
    shapes = [shape for page in pages for shape in page.shapes if isinstance(shape, Area)]
    outer = [n for n, shape in enumerate(shapes) if any(name == "stock" for name, _ in shape.data)]
    assert len(outer) == len(boards)
    for board, place in zip(boards, outer, strict=True):
        left, right = shapes[place].points[0][0], shapes[place].points[1][0]
        scale = (right - left) / board.offer.length
        readings = [(piece, at) for piece in board.cuts for at in piece.readings]
        for (piece, at), shape in zip(readings, shapes[place + 1 :], strict=False):
            xs = [x for x, _ in shape.points]
            assert max(xs) == pytest.approx(left + at * scale, abs=0.01)
            assert min(xs) == pytest.approx(left + (at - piece.length) * scale, abs=0.01)


def test_no_level_text_lies_on_another(pages):
    for page in pages:
        boxes = []
        for text in (shape for shape in page.shapes if isinstance(shape, Text) and not shape.turned):
            size = TEXT_MM[text.size]
            wide = text_width(text.text) * size / 2.5
            left = text.x - {"middle": wide / 2, "end": wide}.get(text.anchor, 0)
            assert left >= 0
            boxes.append((left, text.y - 0.7 * size, left + wide, text.y, text.text))
        for number, (a, b, c, d, one) in enumerate(boxes):
            for e, f, g, h, other in boxes[number + 1 :]:
                assert not (a < g and e < c and b < h and f < d), (one, other)
