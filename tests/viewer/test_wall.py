"""A wall's own pages: each with its drawing and lists, all forms under it, and plain links between them."""

import json
import math
import re

import pytest
from tests.api.client import call
from tests.viewer.client import APP, EXAMPLE, get, page

from wallwright.api.links import packed
from wallwright.operations.examples import EXAMPLES
from wallwright_viewer.wall import VIEWS

SHORT = {"units": "mm", "name": "tank room", "length": 2400, "height": 2400}


def of(wall: dict[str, object]) -> str:
    return packed(json.dumps(wall).encode())


@pytest.mark.parametrize(("path", "holds"), [
    ("/wall", ["cut list", "marks on the plates"]),
    ("/sheathing", ["pieces of sheathing", "What is left over"]),
    ("/fasteners", ["joints", "Fasteners of this wall"]),
    ("/raising", ["what raising it takes", "temporary braces", "Steps of raising"]),
])  # fmt: skip
def test_each_page_has_one_drawing_its_lists_and_every_form(path, holds):
    answer = get(f"{path}?z={of(SHORT)}")
    assert answer.status_code == 200
    found = page(f"{path}?z={of(SHORT)}")
    assert len(found.all("svg")) == 1
    for text in holds:
        assert text in found.text
    operation = VIEWS[path][0]
    forms = [re.search(rf"^/v1/{operation}\.(svg|json|csv)\?z=", a.get("href", "")) for a in found.all("a")]
    assert [form[1] for form in forms if form] == ["svg", "json", "csv"]
    (body,) = re.findall(rf"--data-binary @- http://test/v1/{operation} <<'REQUEST' (.*?) REQUEST", found.text)
    headers = {"content-type": "application/json", "accept": "image/svg+xml"}
    told = call("POST", f"/v1/{operation}", APP, content=body, headers=headers)
    shown = re.search(r"<svg .*?</svg>", answer.text, re.S)[0]
    assert shown.replace('"drawn', '"ww').replace(" drawn-desc", " ww-desc") == told.text


def test_the_pages_of_a_wall_lead_to_one_another_and_back_to_its_building():
    built = page(f"/?{EXAMPLE}")
    links = [a["href"] for a in built.all("a") if a.get("href", "").startswith(tuple(f"{path}?z=" for path in VIEWS))]
    assert len(links) == 16
    first = page(links[0])
    assert "pump house, front wall: framing" in first.text
    views = [a["href"] for a in first.all("a") if a.get("href", "").partition("?")[2].startswith("z=")]
    views = [href for href in views if not href.startswith("/v1/")]
    assert views == links[:4]
    (back,) = [a["href"] for a in first.all("a") if a.get("href", "").startswith("/?")]
    assert back == f"/?{EXAMPLE}"
    (here,) = [a for a in first.all("a") if a.get("aria-current") == "page"]
    assert here["href"] == links[0]


def test_a_wall_that_cannot_be_built_or_read_is_told_with_a_way_on():
    low = SHORT | {"openings": [{"left": 0, "width": 900, "height": 9000}]}
    answer = get(f"/wall?z={of(low)}")
    assert answer.status_code == 422
    assert "<li>" in answer.text
    broken = get("/sheathing?z=!")
    assert broken.status_code == 422
    assert 'href="/sheathing"' in broken.text
    unread = get(f"/wall?z={of({'units': 'mm'})}")
    assert "/length" in unread.text
    assert get(f"/wall?z={of(SHORT)}&" + "&" * 1_001 + "a=1").status_code == 422


def test_a_building_in_the_link_is_written_anew_and_leads_nowhere_else():
    hostile = '"><script>&units=mm&name=%22%3E%3Cscript%3E&x=javascript:alert(1)'
    answer = get(f"/wall?z={of(SHORT)}&{hostile}")
    assert "<script" not in answer.text
    assert "javascript" not in answer.text


def test_without_a_wall_each_page_shows_the_services_example():
    for path, (operation, _) in VIEWS.items():
        assert EXAMPLES[operation]["name"] in page(path).text


def test_the_cut_list_of_a_sloped_wall_says_what_the_saw_is_set_to_and_which_ends_lie_parallel():
    """3 in 12 is 14.04 degrees, by the arc tangent; a plate between two plumb ends is a parallelogram, a stud's top is not."""
    wall = {"units": "in", "length": "8'", "height": "7'", "top": {"shape": "rake", "rise": 3, "run": 12, "up": "left"}}
    z = packed(json.dumps(wall).encode())
    text = " ".join(page(f"/wall?z={z}").text.split())
    edge, over = 96 * math.hypot(12, 3) / 12, 1.5 * 3 / 12
    assert (round(edge * 16), round((edge + over) * 16)) == (1583, 1589)
    assert "P1 1 2x4 8' 3 5/16\" , each edge 8' 2 15/16\", both ends sawn 14.04 degrees off square, parallel" in text
    assert "to the short point, one end sawn 14.04 degrees off square" in text
    assert "slopes 14.04 degrees off square" in get(f"/v1/layout.svg?z={z}").text
    level = packed(json.dumps({"units": "in", "length": "8'", "height": "7'"}).encode())
    assert "off square" not in page(f"/wall?z={level}").text
