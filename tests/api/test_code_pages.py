"""Every code that the service speaks of has a page, and no two tables share one."""

import re
from pathlib import Path

import pytest
from tests.api.client import call

from wallwright import api
from wallwright.api.codes import code_pages
from wallwright.api.problems import PROBLEMS, SCHEMA_FAULTS
from wallwright.findings import FAULTS, KINDS


def codes_in_use() -> set[str]:
    """Codes that the API's own modules write down."""
    texts = [path.read_text(encoding="utf-8") for path in Path(api.__file__).parent.glob("*.py")]
    return {code for text in texts for code in re.findall(r'(?:\bcode=|Refused\()"([a-z-]+)"', text)}


def test_every_code_in_use_has_a_page():
    assert {"unknown-field", "not-json", "busy"} <= codes_in_use()
    assert codes_in_use() <= set(code_pages())


def test_no_two_tables_share_a_code():
    tables = [PROBLEMS, SCHEMA_FAULTS, FAULTS, KINDS]
    assert sum(len(table) for table in tables) == len(code_pages())


@pytest.mark.parametrize("code", code_pages())
def test_each_page_is_served(code):
    answer = call("GET", f"/problems/{code}")
    assert answer.status_code == 200
    assert answer.json()["code"] == code
    assert answer.json()["meaning"]
    assert answer.json()["cure"]
