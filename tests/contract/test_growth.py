"""Version 1 only grows: the committed earlier document beside today's, and a judge that sees every kind of breach."""

import copy
import json

import pytest
from tests.contract.growth import FILE, broken

from wallwright.operations.document import document

OLD = json.loads(FILE.read_text(encoding="utf-8"))


def test_nothing_that_callers_rely_on_has_gone():
    assert broken(OLD, document()) == [], "meant? python -m tests.contract.growth --write, and tell it in the changelog"


def changed(change):
    new = copy.deepcopy(OLD)
    change(new, new["components"]["schemas"])
    return broken(OLD, new)


BREACHES = [
    ("is gone", lambda d, s: d["paths"].pop("/v1/layout.svg")),
    ("is called otherwise", lambda d, s: d["paths"]["/v1/layout"]["post"].update(operationId="lay-out")),
    ("text/csv is given no more", lambda d, s: d["paths"]["/v1/layout"]["post"]["responses"]["200"]["content"].pop("text/csv")),
    ("header ETag", lambda d, s: d["paths"]["/v1/layout.svg"]["get"]["responses"]["200"]["headers"].pop("ETag")),
    ("Wall.name is taken no more", lambda d, s: s["Wall"]["properties"].pop("name")),
    ("Wall.name is required now", lambda d, s: s["Wall"]["required"].append("name")),
    ("maxItems", lambda d, s: s["Wall"]["properties"]["openings"].update(maxItems=3)),
    ("another default", lambda d, s: s["Wall"]["properties"]["rules"].update(default="irc-1995")),
    ("is taken no more", lambda d, s: s["Wall"]["properties"]["units"]["enum"].remove("mm")),
    ("another pattern", lambda d, s: s["Wall"]["properties"]["name"].update(pattern="^a$")),
    ("LayoutAnswer.cut_list is given no more", lambda d, s: s["LayoutAnswer"]["properties"].pop("cut_list")),
    ("may be absent now", lambda d, s: s["LayoutAnswer"]["required"].remove("cut_list")),
    ("Member.tape is given no more", lambda d, s: s["Member"]["properties"].pop("tape")),
    ("parameter z is gone", lambda d, s: d["paths"]["/v1/layout.svg"]["get"].update(parameters=[])),
    ("?z: maxLength", lambda d, s: d["paths"]["/v1/layout.svg"]["get"]["parameters"][0]["schema"].update(maxLength=9)),
]  # fmt: skip


@pytest.mark.parametrize(("told", "change"), BREACHES, ids=[told for told, _ in BREACHES])
def test_each_breach_is_told(told, change):
    assert any(told in line for line in changed(change)), changed(change)


def test_growth_is_no_breach():
    def grown(d, s):
        s["Wall"]["properties"]["colour"] = {"type": "string"}
        s["Wall"]["properties"]["openings"]["maxItems"] = 99
        s["LayoutAnswer"]["properties"]["colour"] = {"type": "string"}
        s["LayoutAnswer"]["required"].append("colour")
        d["paths"]["/v1/painting"] = d["paths"]["/v1/layout"]

    assert changed(grown) == []
