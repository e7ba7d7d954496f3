"""The page of an order: everything that the answer buys, rack by rack, its price, its proof, and each board's cuts."""

import json

from tests.api.client import post
from tests.viewer.client import get, page

from wallwright.api.links import packed
from wallwright.operations.examples import EXAMPLES


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
        assert f"{line['cost']:.2f}" in found.text
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
