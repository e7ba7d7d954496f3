"""A problem where a drawing was asked for by link: drawn for who shows pictures or pages, JSON for programs."""

import json
from xml.etree import ElementTree

import pytest
from hypothesis import given
from hypothesis import strategies as st
from tests.api.client import JSON, WALL, call

from wallwright.api.app import create_app
from wallwright.api.links import packed
from wallwright.api.settings import Settings
from wallwright.drawing.problem import WIDTH, problem_scene
from wallwright.drawing.scene import Text, text_box
from wallwright.drawing.svg import svg_text

IMG = "image/avif,image/webp,image/apng,image/svg+xml,image/*,*/*;q=0.8"
PAGE = "text/html,application/xhtml+xml,application/xml;q=0.9,*/*;q=0.8"
BAD = json.dumps({**WALL, "height": -1, "<b>&\u0001": 1}).encode()
COLLIDING = json.dumps(
    {**WALL, "openings": [{"left": 20, "width": 36, "height": 40}, {"left": 30, "width": 36, "height": 40}]}
).encode()


def link(body: bytes, form: str = "svg") -> str:
    return f"/v1/layout.{form}?z={packed(body)}"


def words(answer) -> str:
    """All that a drawing says, read by a parser."""
    return " ".join("".join(element.itertext()) for element in ElementTree.fromstring(answer.content).iter())


@pytest.mark.parametrize("accept", [IMG, PAGE, "image/svg+xml", "text/html"])
@pytest.mark.parametrize("body", [BAD, COLLIDING], ids=["bad", "colliding"])
def test_who_shows_pictures_is_shown_every_fault(accept, body):
    drawn, told = call("GET", link(body), headers={"accept": accept}), call("GET", link(body))
    assert (drawn.headers["content-type"], told.headers["content-type"]) == (
        "image/svg+xml",
        "application/problem+json",
    )
    assert drawn.status_code == told.status_code == 422
    said = " ".join(words(drawn).split())
    for fault in told.json()["errors"]:
        for text in (fault["pointer"], fault["detail"]):
            # The description holds it whole; the rows are folded.
            assert " ".join(text.replace("\x01", "\N{REPLACEMENT CHARACTER}").split()) in said
    assert told.json()["code"] in said
    assert drawn.headers["cache-control"] == "no-store"
    assert "style-src 'sha256-" in drawn.headers["content-security-policy"]


@pytest.mark.parametrize(
    "accept",
    [None, "*/*", "application/problem+json, image/svg+xml", "application/json, image/*", "image/svg+xml;q=0, */*"],
)
def test_a_program_is_told_in_json(accept):
    answer = call("GET", link(BAD), headers={} if accept is None else {"accept": accept})
    assert answer.headers["content-type"] == "application/problem+json"
    assert len(answer.json()["errors"]) == 2


def test_only_a_link_to_a_drawing_is_answered_with_one():
    for form in ("json", "csv"):
        assert (
            call("GET", link(BAD, form), headers={"accept": IMG}).headers["content-type"] == "application/problem+json"
        )
    posted = call("POST", "/v1/layout", content=BAD, headers={**JSON, "accept": "image/svg+xml"})
    assert posted.headers["content-type"] == "application/problem+json"


def test_what_goes_no_further_than_the_door_is_drawn_too():
    missing = call("GET", "/v1/leyout.svg", headers={"accept": IMG})
    long = call("GET", link(BAD) + "A" * Settings().url_bytes, headers={"accept": IMG})
    assert (missing.status_code, long.status_code) == (404, 414)
    for answer, title in ((missing, "Not found"), (long, "Link too long")):
        assert answer.headers["content-type"] == "image/svg+xml"
        assert title in words(answer)


def test_a_busy_service_draws_that_it_is_and_when_to_come_again():
    app = create_app(Settings(concurrency=1))
    app.work.under_way = 1
    busy = call("GET", link(BAD), app=app, headers={"accept": IMG})
    assert (busy.status_code, busy.headers["retry-after"]) == (503, "1")
    assert "Busy" in words(busy)


def test_head_has_the_length_of_the_drawing():
    asked, headed = (call(method, link(BAD), headers={"accept": IMG}) for method in ("GET", "HEAD"))
    assert headed.content == b""
    assert headed.headers["content-length"] == asked.headers["content-length"] == str(len(asked.content))


ANY = st.text(max_size=120)


@given(ANY, st.lists(st.tuples(ANY, ANY), max_size=15))
def test_any_words_keep_on_the_paper_and_make_a_document(detail, faults):
    scene = problem_scene("Cannot be built as asked", detail, faults, "not-buildable")
    ElementTree.fromstring(svg_text(scene))
    boxes = sorted((text_box(one) for one in scene.shapes if isinstance(one, Text)), key=lambda box: box[1])
    for left, top, right, bottom in boxes:
        assert 2 < left < right < WIDTH - 2
        assert 2 < top < bottom < scene.height - 2
    for upper, lower in zip(boxes, boxes[1:], strict=False):
        assert upper[3] <= lower[1]
