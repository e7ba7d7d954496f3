"""Lying sheets, asked as a caller asks: what would save the top course, and that it does."""

import json

import pytest
from tests.api.client import post

# 48 in courses with gaps of 1/8 in: two of them cover 96 1/8 in, three 144 1/4 in.
FIELD_OFFICE = {"units": "in", "name": "field office, north", "length": "16'"}


def asked(height: float, **sheathing: object) -> dict:
    body = {**FIELD_OFFICE, "height": height, "sheathing": {"direction": "lying", "gap": '1/8"', **sheathing}}
    answer = post("/v1/sheathing", json.dumps(body).encode())
    assert answer.status_code == 200, answer.text
    return answer.json()


def told(answer: dict, code: str) -> str:
    (finding,) = [finding for finding in answer["findings"] if finding["code"] == code]
    return finding["text"]


def codes(answer: dict) -> set[str]:
    return {finding["code"] for finding in answer["findings"]}


@pytest.mark.parametrize(
    ("height", "lower", "most", "under"),
    [
        # By hand: two courses reach 2 x 48 in and the gap between them, so that 99 in are 2 7/8 in too many.
        (99, '2 7/8"', 96.125, "0"),
        # With 1 1/2 in of sheet below the plate the wall that two courses cover is lower by as much.
        (99, '4 3/8"', 94.625, '1 1/2"'),
    ],
)
def test_what_saves_the_top_course_is_told_and_saves_it(height, lower, most, under):
    floor = {"under_sheet": under}
    high = asked(height, **floor)
    assert f"lower by {lower} would save it" in told(high, "top-course-a-strip")
    text = told(high, "greatest-height-covered")
    assert "courses of sheets: 2" in text
    covered = asked(most, **floor)
    assert not {"top-course-a-strip", "greatest-height-covered"} & codes(covered)
    assert len(covered["sheets"]) < len(high["sheets"])
    just_over = asked(most + 0.5, **floor)
    assert "top-course-a-strip" in codes(just_over)


def test_a_whole_top_course_is_no_strip():
    assert "top-course-a-strip" not in codes(asked(120))
