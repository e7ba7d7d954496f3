"""The published tables as they are served: every one that answers name, whole, exact, of the schema."""

import importlib
import json
import pkgutil
import re
from pathlib import Path

import jsonschema
import pytest
from tests.api.client import call, post

from wallwright import findings, published
from wallwright.findings import KINDS
from wallwright.operations.document import document
from wallwright.operations.examples import EXAMPLES
from wallwright.published.tables import TABLES
from wallwright.sources import COMMON_PRACTICE, IRC_EDITIONS

SERVED = call("GET", "/v1/published")


def test_every_table_of_the_data_files_is_served_with_its_rows():
    served = {table["id"]: table for table in SERVED.json()["tables"]}
    headings = [
        name
        for file in Path(published.__file__).parent.glob("*.toml")
        for name in re.findall(r"^\[([a-z0-9_]+)\]$", file.read_text(encoding="utf-8"), re.M)
    ]
    assert sorted(headings) == sorted(served)
    for name, table in served.items():
        assert table["rows"], name
        assert len(table["rows"]) == len(TABLES[name].rows)
        assert table["source"]
        assert table["clause"]
        assert table["status"] in ("verified", "verified_partly"), name


def test_what_is_served_keeps_its_schema_and_is_asked_for_by_head_too():
    schema = {**document(), "$ref": "#/components/schemas/PublishedAnswer"}
    jsonschema.Draft202012Validator(schema).validate(SERVED.json())
    head = call("HEAD", "/v1/published")
    assert head.status_code == 200
    assert head.content == b""
    assert post("/v1/published", b"{}").status_code == 405


def test_figures_are_numbers_as_printed():
    rows = {table["id"]: table["rows"] for table in SERVED.json()["tables"]}
    assert rows["header_top"] == [{"factor": 0.7, "sizes": ["2x8", "2x10", "2x12"]}]
    assert rows["bracing_lengths"][2]["wsp_ft"] == [2.0, 3.5, 5.5, 7.0, 9.0, 10.5]


def test_no_two_subjects_share_a_code():
    subjects = [
        one
        for module in pkgutil.iter_modules(findings.__path__)
        for name, one in vars(importlib.import_module(f"wallwright.findings.{module.name}")).items()
        if name.endswith("_KINDS")
    ]
    assert len(subjects) >= 5
    assert sum(map(len, subjects)) == len(KINDS)


def test_no_text_says_that_a_plan_complies():
    texts = [text for kind in KINDS.values() for text in (kind.text, kind.title, kind.meaning, kind.cure)]
    assert not [text for text in texts if re.search("compl(y|ies|iant)|meets? (the )?code|approved|is safe", text)]


@pytest.mark.parametrize("rules", list(IRC_EDITIONS))
def test_each_comparison_names_a_table_that_is_served_in_its_edition(rules):
    site = {"ground_snow_psf": 30, "wind_mph": 115, "exposure": "B", "seismic": "A"}
    answer = post("/v1/building", json.dumps({**EXAMPLES["building"], "site": site, "rules": rules}).encode()).json()
    told = answer["findings"] + [f for wall in answer["walls"] for f in wall["layout"]["findings"]]
    # What is compared with a rule of the trade names that instead.
    named = {f["source"] for f in told if "compared" in f and f["source"] != COMMON_PRACTICE.text()}
    held = {
        f"{table['source']}, {IRC_EDITIONS[rules]}, {table['clause']}"
        for table in SERVED.json()["tables"]
        if IRC_EDITIONS[rules] in table["editions"]
    }
    assert len(named) == 5
    assert named <= held
