"""The page of published figures: every table with where it is written, every figure of it, by edition."""

from decimal import Decimal

import pytest
from tests.viewer.client import get, page

from wallwright.operations.published import answer
from wallwright_viewer.published import EDITIONS, head, shown, text

CODE = "International Residential Code"


def test_every_table_is_there_with_its_document_clause_and_figures():
    found = page("/published")
    headings = {attributes["id"] for attributes in found.all("h2")}
    for table in answer().tables:
        assert table.id in headings
        assert f"{table.source}, {table.clause}" in found.text
        for note in table.notes:
            assert " ".join(note.split()) in found.text
    assert len(found.all("tr")) == sum(len(table.rows) + 1 for table in answer().tables)


def test_figures_are_those_that_are_printed():
    # International Residential Code 2021, R403.1.6: 1/2 in bolts at most 6 ft apart, embedded 7 in.
    found = next(table for table in shown() if table.id == "anchor_bolts")
    row = dict(zip(found.heads, found.rows[0], strict=True))
    assert (row["diameter, in"], row["max spacing, in"], row["embedment, in"]) == (["0.5"], ["72"], ["7"])
    # Table R602.7(1), 2021: one ply of 2x6 under a roof and ceiling at 30 psf spans 4-0, 3-1 and 2-7 ft-in, as printed.
    header = next(table for table in shown() if table.id == "header_spans_roof")
    row = dict(zip(header.heads, header.rows[0], strict=True))
    assert row["span, in"] == ["48, 37, 31", "41, 32, 27", "36, 28, 24"]


@pytest.mark.parametrize("edition", EDITIONS)
def test_an_edition_shows_its_own_tables_and_rows_and_every_other_document(edition):
    wanted = {t.id for t in answer().tables if t.source != CODE or edition in t.editions}
    assert {table.id for table in shown(edition)} == wanted
    headings = {attributes["id"] for attributes in page(f"/published?edition={edition}").all("h2")}
    assert headings == wanted
    for table in answer().tables:
        if table.id in wanted and table.source == CODE:
            rows = [row for row in table.rows if edition in row.get("editions", table.editions)]
            assert len(next(one for one in shown(edition) if one.id == table.id).rows) == len(rows)


def test_the_2015_edition_has_its_own_header_table():
    # The 2018 edition of the code redrew Table R602.7(1) for buildings of 12, 24 and 36 ft; 2015 has 20, 28 and 36 ft.
    assert "header_spans_roof_2015" in {table.id for table in shown("2015")}
    assert "header_spans_roof_2015" not in {table.id for table in shown("2021")}


@pytest.mark.parametrize("query", ["edition=1066", "edition=", "x=1", "edition=%00"])
def test_an_edition_that_is_not_held_shows_all(query):
    assert get(f"/published?{query}").text == get("/published").text


@pytest.mark.parametrize(("value", "words"), [
    (None, ""), (True, "yes"), (Decimal("0.50"), "0.5"), (Decimal("40"), "40"), ([1, Decimal("2.0")], "1, 2"),
    ({"nail": "8d box", "spacing_in": 6}, "nail 8d box, spacing, in 6"), ("A", "A"),
])  # fmt: skip
def test_a_value_is_written_as_it_is_read(value, words):
    assert text(value) == words


def test_a_column_is_headed_with_its_unit():
    assert head("max_sq_ft") == "max, sq ft"
    assert head("ground_snow_psf") == "ground snow, psf"
    assert head("factor") == "factor"
