"""The page of an order: everything that the answer buys, rack by rack, its price, its proof, and each board's cuts."""

import json
import re
from html import unescape

import pytest
from tests.api.client import post
from tests.viewer.client import get, page

from wallwright.api.links import packed
from wallwright.operations.examples import EXAMPLES
from wallwright_viewer.form import example, link
from wallwright_viewer.worked import WORKED


def test_the_page_of_an_order_lists_all_that_is_to_be_picked_up():
    answer = post("/v1/buying", json.dumps(EXAMPLES["buying"]).encode()).json()
    found = page(f"/order?z={packed(json.dumps(EXAMPLES['buying']).encode())}")
    assert f"{answer['cost']:.2f} in all" in found.text
    assert "Proven: no cheaper plan exists." in found.text
    racks = {
        line["stock"] + (", treated" if line["treated"] else "")
        for line in answer["cost_lines"]
        if line["item"] == "board"
    }
    headings = [text for text in racks if text in found.text]
    assert len(headings) == len(racks)
    for line in answer["cost_lines"]:
        assert line["size"] in found.text
        assert f"{line['cost']:.2f}" in found.text or not line["price"]
    assert len(found.all("svg")) >= 1
    assert not found.all("script")


def test_without_an_order_an_example_is_shown():
    assert "Order to pick up" in page("/order").text


def test_an_order_that_cannot_be_bought_says_why():
    short = {**EXAMPLES["buying"], "offers": []}
    answer = get(f"/order?z={packed(json.dumps(short).encode())}")
    assert answer.status_code == 422
    assert "No boards of 2x4 are offered; 88 pieces" in answer.text
    broken = get(f"/order?z={packed(b'{}')}")
    assert broken.status_code == 422
    assert "/offers" in broken.text


def _row(text: str, size: str) -> str:
    """What stands in the row of a size, as words."""
    return " ".join(text.split(size, 1)[1].split()[:9])


def test_boards_in_hand_are_told_apart_from_what_is_bought():
    """An order's example has three boards of 7' 10 1/2" in hand: they are not carried to the till."""
    found = page(f"/order?z={packed(json.dumps(EXAMPLES['buying']).encode())}")
    lines = post("/v1/buying", json.dumps(EXAMPLES["buying"]).encode()).json()["cost_lines"]
    own = [line for line in lines if line["stock"] == "2x4" and not line["treated"]]
    hand = sum(line["count"] for line in own if not line["price"])
    assert hand
    assert f"2x4: {sum(line['count'] for line in own) - hand} to pick up, {hand} in hand" in found.text
    assert _row(found.text, "7' 10 1/2\"").startswith("in hand, not bought")
    assert "0.00" not in _row(found.text, "7' 10 1/2\"")
    assert f"{hand} x 2x4 7' 10 1/2\", in hand" in found.text


def test_fasteners_of_two_coatings_are_two_lines_with_or_without_a_price():
    """Hot-dip nails go into treated plates (IRC 2021, R317.3.1); the page must not let them be missed or mistaken."""
    wall = {"units": "in", "length": "8'", "height": "8'", "floor": {"kind": "slab"}}
    offers = [{"stock": "2x4", "length": 96, "price": 4}, {"stock": "2x4", "length": 96, "price": 6, "treated": True}]
    pack = {"fastener": "16d common", "count": 50, "price": 5}
    order = {"units": "in", "walls": [wall], "offers": offers, "fastener_offers": [pack]}
    both = page(f"/order?z={packed(json.dumps(order).encode())}").text
    assert "16d common, plain, box of 50" in both
    assert "16d common, hot-dip, box of 50" in both
    order["fastener_offers"] = [{**pack, "coating": "plain"}]
    plain = page(f"/order?z={packed(json.dumps(order).encode())}").text
    assert "16d common, hot-dip" in plain.split("kinds to ask for")[1]


@pytest.mark.parametrize("name", WORKED)
def test_a_building_leads_to_what_it_takes_as_an_order(name):
    """From each worked example to its boards without a script, a price or a word typed."""
    building = page(f"/?{link(example(name))}")
    (address,) = {a["href"] for tag, a in building.elements if tag == "a" and a.get("href", "").startswith("/order?")}
    found = page(address)
    assert "No price was given" in found.text
    assert "of board in all" in found.text
    assert not re.search(r"\b0\.00", found.text.split("What to know")[0])
    sent = json.loads(re.search(r"<<'REQUEST'\n(.*?)\nREQUEST", unescape(get(address).text), re.DOTALL)[1])
    assert len(sent["buildings"]) == 1
    answer = post("/v1/buying", json.dumps(sent).encode()).json()
    cut = sum(board["count"] * sum(one["count"] for one in board["cuts"]) for board in answer["boards"])
    totals = post("/v1/building", json.dumps(sent["buildings"][0]).encode()).json()["totals"]
    assert cut == sum(piece["count"] for piece in totals["pieces"])
    sheets = [line for line in answer["cost_lines"] if line["item"] == "sheet"]
    assert 0 < sum(line["count"] for line in sheets) <= totals["sheets"]
