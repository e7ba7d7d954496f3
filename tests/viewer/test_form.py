"""The form: read from a link, written to one, changed without script, and never shaken by what is sent."""

import re
from html import escape, unescape
from urllib.parse import urlencode

import pytest
from hypothesis import given
from hypothesis import strategies as st
from tests.viewer.client import EXAMPLE, get, page

from wallwright.api.reader import Reader
from wallwright.operations.examples import EXAMPLES, example_bytes
from wallwright.operations.table import BY_NAME
from wallwright.wire.building import Building
from wallwright_viewer.fields import OPENING, PLAIN, ROWS, SIDES, input_name
from wallwright_viewer.form import changed, example, link, read
from wallwright_viewer.question import asked, place_of
from wallwright_viewer.readings import readings
from wallwright_viewer.worked import WORKED

HOSTILE = "\"'><script>alert(1)</script>{{7*7}}"
BUILDING = BY_NAME["building"]


def followed(query: str) -> tuple[str, str]:
    """Query and place that a changing form leads to."""
    answer = get(f"/?{query}")
    assert answer.status_code == 303
    path, _, place = answer.headers["location"].partition("#")
    assert path.startswith("/?")
    assert path.endswith(("&edit=1", "&edit=1&read=in", "&edit=1&read=mm"))
    shown = page(path)
    assert not shown.all("svg")
    assert shown.text.count("Error") == 0
    return path[2:].removesuffix("&edit=1"), place


def test_the_form_starts_with_the_worked_example_of_the_service():
    filled = asked(example())
    assert filled.errors == {}
    wanted = Reader(Building).read(example_bytes("building"))
    assert BUILDING.identity(filled.request) == BUILDING.identity(wanted)
    assert EXAMPLES["building"]["name"] in {a.get("value") for a in page("/").all("input")}


def test_a_link_holds_everything():
    assert read(link(example()).encode()) == read(EXAMPLE.encode())
    assert link(read(EXAMPLE.encode())) == EXAMPLE
    filled = read(EXAMPLE.encode())
    assert BUILDING.identity(asked(filled).request) == BUILDING.identity(asked(example()).request)


def test_the_answer_leads_back_to_its_form():
    (back,) = [attributes["href"] for attributes in page(f"/?{EXAMPLE}").all("a") if "edit=1" in attributes["href"]]
    assert back == f"/?{EXAMPLE}&edit=1#form"


@pytest.mark.parametrize("side", SIDES)
def test_an_opening_is_added_and_removed_without_script(side):
    before = read(EXAMPLE.encode())
    query, place = followed(f"{EXAMPLE}&do=add-{side}")
    assert place == side
    count = len(before.openings[side])
    assert len(read(query.encode()).openings[side]) == count + 1
    again, _ = followed(f"{query}&do=remove-{side}-{count + 1}")
    assert again == EXAMPLE


def test_the_opening_that_is_named_is_the_one_removed():
    query, _ = followed(f"{EXAMPLE}&front.2.left=1%27&front.2.width=1%27&front.2.height=2%27&do=remove-front-1")
    (left,) = read(query.encode()).openings["front"]
    assert left["left"] == "1'"


def test_no_more_openings_are_added_than_the_contract_takes():
    query = EXAMPLE + "".join(f"&front.{n}.left={n}" for n in range(2, 40)) + "&do=add-front"
    found, _ = followed(query)
    assert len(read(found.encode()).openings["front"]) == 24


def test_changing_units_changes_no_length():
    in_mm, _ = followed(EXAMPLE.replace("units=in", "units=mm") + "&was=in")
    metric = read(in_mm.encode())
    # 1 in is 25.4 mm exactly (NIST SP 811, 2008 edition, appendix B.8).
    assert metric.values["width"] == "4267.2 mm"
    assert metric.values["sheet_width"] == "1219.2 mm"
    assert metric.values["thickness"] == "11.1125 mm"
    back, _ = followed(in_mm.replace("units=mm", "units=in") + "&was=mm")
    assert BUILDING.identity(asked(read(back.encode())).request) == BUILDING.identity(asked(example()).request)
    assert read(back.encode()).values["width"] == "14' 0\""


def test_what_is_no_length_is_left_as_it_is_when_units_change():
    odd = changed(read(b"units=mm&was=in&width=wide&front.1.left=7x"))
    assert odd.values["width"] == "wide"
    assert odd.openings["front"][0]["left"] == "7x"


@pytest.mark.parametrize("field", [field.name for field in PLAIN] + ["front.1.name", "left.1.header", "back.1.width"])
def test_hostile_text_is_shown_as_text(field):
    answer = get("/?" + urlencode({"units": "in", field: HOSTILE}))
    assert answer.status_code == 200
    assert HOSTILE not in answer.text
    choice = next((one for one in PLAIN if one.name == field and one.words), None)
    assert choice is not None or escape(HOSTILE, quote=True).replace("&#x27;", "&#39;").replace("&quot;", "&#34;") in (
        answer.text
    )


def test_a_hostile_name_is_drawn_as_text():
    filled = example()
    filled.values["name"] = HOSTILE
    answer = get(f"/?{link(filled)}")
    assert answer.text.count("<svg ") == 17
    assert "<script" not in answer.text


@pytest.mark.parametrize(
    ("pointer", "name"),
    [
        ("/footprint/width", "width"),
        ("/wall_height", "wall_height"),
        ("/walls/front/stud/thickness", "stud"),
        ("/walls/front/partitions/1/at", "front.p2.at"),
        ("/walls/left/partitions/0", "left.p1.at"),
        ("/walls/front/stud", "stud"),
        ("/walls/left/openings/1/height", "left.2.height"),
        ("/walls/left/openings/0/header/stock", "left.1.header"),
        ("/walls/back/openings/0", "back.1.left"),
        ("/walls/right/sheathing/gap", "gap"),
        ("/nowhere", ""),
    ],
)
def test_each_pointer_finds_its_field(pointer, name):
    assert place_of(pointer) == name


def test_every_field_is_found_by_its_own_pointer():
    for field in PLAIN:
        assert place_of("/" + "/".join(field.path)) == field.name
    for side in SIDES:
        for kind in ROWS:
            for field in kind.fields:
                pointer = f"/walls/{side}/{kind.key}/0/" + "/".join(field.path)
                assert place_of(pointer) == input_name(side, 1, field, kind)


@pytest.mark.parametrize("query", ["a", "&&&=", "%00=%ff", "units=cm", "front.999.left=1", "do=add", "x=" + "%F0" * 40])
def test_odd_queries_are_answered(query):
    assert get(f"/?{query}").status_code in (200, 303)


def test_more_inputs_than_a_form_has_are_refused_with_a_page():
    answer = get("/?" + "&" * 1_000 + "a=1")
    assert answer.status_code == 400
    assert answer.text.startswith("<!doctype html>")


def test_a_change_of_page_cannot_lead_elsewhere():
    answer = get("/?name=%0d%0aSet-Cookie:x&do=add-front")
    assert answer.status_code == 303
    assert "set-cookie" not in answer.headers
    assert "\n" not in answer.headers["location"]


TEXTS = st.one_of(
    st.sampled_from(
        ["", "0", "1'", "14'", "48", "7' 5\"", "-3", "abc", "1/0", "2x4", "2x12", "osb", "deck", "front back"]
    ),
    st.text(max_size=12),
)
NAMES = st.sampled_from(
    ["units", "was", "do", *(field.name for field in PLAIN)]
    + [input_name(side, row, field) for side in SIDES for row in (1, 2) for field in OPENING]
)


@given(st.dictionaries(NAMES, TEXTS, max_size=12))
def test_whatever_is_sent_is_answered_with_a_page(values):
    start = dict(example().values)
    answer = get("/?" + urlencode({**start, **values}, errors="replace"))
    assert answer.status_code in (200, 303)


def test_a_roof_and_a_place_are_asked_on_the_form_as_in_a_request():
    query = EXAMPLE + "&roof=gable&rise=4.5&ridge_along=width&ridge=beam&snow=30&wind=115&exposure=B&seismic=A"
    filled = asked(read((query + "&rules=irc-2018&stock_length=12%27&under_sheet=6%22").encode()))
    assert filled.errors == {}
    request = filled.request
    assert (request.roof.shape, request.roof.rise, request.roof.ridge) == ("gable", 4.5, "beam")
    assert (request.site.ground_snow_psf, request.site.wind_mph, request.site.exposure) == (30, 115, "B")
    assert request.rules == "irc-2018"
    told = page(f"/?{query}").text
    assert "Bracing" in told or "braced length" in told
    assert "header-compared" in told


@pytest.mark.parametrize(("query", "name", "says"), [
    ("roof=gable&rise=steep", "rise", "plain number"),
    ("roof=gable&rise=-3", "rise", "plain number"),
    ("snow=501", "snow", "500"),
    ("roof=gable", "rise", "rise"),
    ("roof=gable&rise=40", "rise", "24 in 12"),
])  # fmt: skip
def test_a_number_that_does_not_serve_is_told_at_its_field(query, name, says):
    shown = get(f"/?{EXAMPLE}&{query}")
    (text,) = re.findall(rf'id="{name}-fault">([^<]*)<', shown.text)
    assert says in text


def faults(query: str) -> dict[str, str]:
    """What the page tells at each input."""
    shown = get(f"/?{query}").text
    return dict(re.findall(r'id="([^"]+)-fault">([^<]*)<', shown))


@pytest.mark.parametrize("name", WORKED)
def test_each_worked_example_is_offered_filled_in_and_nothing_stops_it(name):
    assert f"/?example={name}" in [attributes.get("href") for attributes in page("/").all("a")]
    shown = page(f"/?example={name}")
    assert WORKED[name][1]["name"] in {a.get("value") for a in shown.all("input")}
    assert not shown.all("svg")
    answer = get(f"/?{link(example(name))}")
    assert answer.text.count("<svg ") == 17
    assert '<li class="stop">' not in answer.text


def test_an_example_that_is_not_there_is_an_empty_form_or_the_usual_one():
    assert get("/?example=barn").status_code == 200
    assert get("/?example=../etc").status_code == 200


@pytest.mark.parametrize("side", SIDES)
def test_a_partition_is_added_and_removed_without_script(side):
    query, place = followed(f"{EXAMPLE}&do=add-{side}-partition")
    assert place == side
    assert f"{side}.p1.at=" in query
    again, _ = followed(f"{query}&do=remove-{side}-partition-1")
    assert again == EXAMPLE


def test_a_partition_is_backed_where_it_is_said_to_stand():
    query = EXAMPLE + "&back.p1.at=6%27&back.p1.depth=3+1%2F2%22"
    (partition,) = asked(read(query.encode())).request.walls.back.partitions
    assert partition.at.measure.on_grid("in") == 72 * 1_016_000
    plain, backed = page(f"/?{EXAMPLE}").text, page(f"/?{query}").text
    assert backed.count("backing") > plain.count("backing")


def test_lining_fastening_hands_and_lying_sheets_are_asked_as_in_a_request():
    query = EXAMPLE + "&lining=yes&fastening=screwed&hands=6&direction=lying"
    found = asked(read(query.encode()))
    assert found.errors == {}
    request = found.request
    assert (request.lining, request.fastening.schedule, request.hands) == (True, "screwed", 6)
    assert request.sheathing.direction == "lying"
    text = page(f"/?{query}").text
    assert "screw" in text
    assert "Raising this wall bare takes 4 people; 2 are given" not in text


def test_the_measured_deck_is_asked_as_in_a_request():
    sides = {"front": "14' 1/8\"", "right": "10'", "back": "14'", "left": "10' 1/16\""}
    query = (
        EXAMPLE
        + "&"
        + urlencode(
            {f"deck_{side}": length for side, length in sides.items()}
            | {"deck_rising": "17' 2 3/4\"", "deck_falling": "17' 2 5/16\""}
        )
    )
    found = asked(read(query.encode()))
    assert found.errors == {}
    assert found.request.deck.sides.front.measure.on_grid("in") == (14 * 96 + 1) * 127_000
    assert "The deck as measured" in page(f"/?{query}").text
    some = faults(EXAMPLE + "&deck_front=14%27")
    assert "is missing" in some["deck_right"]


def test_faults_of_writing_and_of_place_are_told_in_one_round():
    # The first opening is not written well, the second is wider than the wall, the third stands where it should: what is
    # wrong with the second is told at the second, though the first was left aside.
    rows = {1: ("1'", "wide", "3'"), 2: ("1'", "40'", "3'"), 3: ("1'", "2'", "3'")}
    query = "&".join(
        urlencode(
            {f"back.{number}.{name}": value for name, value in zip(("left", "width", "height"), row, strict=True)}
        )
        for number, row in rows.items()
    )
    told = faults(f"{EXAMPLE}&{query}&hands=two&packs=many&spare_percent=some")
    assert {"packs", "spare_percent"} <= set(told)
    assert "is not a length" in told["back.1.width"]
    assert "two is given" in told["hands"]
    assert {name for name in told if name.startswith("back.2.")}
    # With a stud that is not known nothing can be said of places.
    assert set(faults(f"{EXAMPLE}&{query}".replace("stud=2x4", "stud=none"))) == {"stud", "back.1.width"}


def test_all_numbers_past_their_bounds_are_told_at_once():
    told = faults(EXAMPLE + "&snow=501&wind=5000&hands=0")
    assert "500" in told["snow"]
    assert set(told) == {"snow", "wind", "hands"}


def test_every_way_of_laying_sheets_can_be_asked_for():
    given = {
        "direction": "lying", "sheets_start": "right", "round_openings": "pieced", "reuse_offcuts": "yes", "grain": "free",
        "sized_for_spacing": "yes", "sheet_edge": "shiplap", "sheet_lap": "1/2", "sheet_length": "120",
    }  # fmt: skip
    query = f"{EXAMPLE}&{urlencode(given)}"
    sheathing = asked(read(query.encode())).request.sheathing
    assert (sheathing.start, sheathing.openings, sheathing.reuse_offcuts, sheathing.grain) == (
        "right",
        "pieced",
        True,
        "free",
    )
    assert (sheathing.sheet.sized_for_spacing, sheathing.sheet.edge) == (True, "shiplap")
    # A form that comes back keeps them all.
    shown = page(f"/?{link(read(query.encode()))}&edit=1")
    chosen = {one.get("value") for one in shown.all("option") if "selected" in one}
    assert {"lying", "right", "pieced", "free", "shiplap"} <= chosen
    assert {"1/2", "120"} <= {one.get("value") for one in shown.all("input")}


FILLED = {
    **{field.name: field.words[-1][0] for field in PLAIN if field.words},
    **{field.name: f"{number}.{number:02}" for number, field in enumerate(PLAIN, 11) if not field.words},
}


def controls(query: str) -> dict[str, str]:
    """What each input and choice of a page holds, by name, in the order of the page."""
    found: dict[str, str] = {}
    name = ""
    for tag, attributes in page(f"/?{query}").elements:
        if tag == "select":
            name = attributes["name"]
            found[name] = ""
        elif tag == "option" and "selected" in attributes:
            found[name] = attributes["value"]
        elif tag == "input" and attributes.get("type") not in ("radio", "hidden"):
            found[attributes["name"]] = attributes["value"]
    return found


def test_every_field_keeps_its_value_while_a_fault_is_told():
    rows = {
        input_name(side, number, field, kind): f"{number}.{place}"
        for side in SIDES for kind in ROWS for number in (1, 2, 3) for place, field in enumerate(kind.fields, 1)
    }  # fmt: skip
    sent = FILLED | rows | {"width": "wide"}
    assert len(set(FILLED)) == len(PLAIN)
    assert "width" in faults(urlencode({"units": "in", **sent}))
    assert controls(urlencode({"units": "in", **sent})) == sent
    # The same through adding a row, which fills no other field and empties none.
    query, _ = followed(urlencode({"units": "in", **sent, "do": "add-left"}))
    kept = controls(f"{query}&edit=1")
    assert {name: kept[name] for name in sent} == sent
    assert {name for name in kept if name not in sent} == {f"left.4.{field.name}" for field in OPENING}


@pytest.mark.parametrize("field", [field for field in PLAIN if field.words], ids=lambda field: field.name)
def test_every_word_of_every_choice_comes_back_chosen(field):
    for word, _ in field.words:
        assert controls(urlencode({"units": "in", "width": "wide", field.name: word}))[field.name] == word


def test_fasteners_are_asked_as_in_a_request_packs_and_spare_included():
    more = {
        "fastening": "nailed", "framing_nail": "16d box", "toe_nail": "8d box", "sheathing_nail": "8d common",
        "coating": "hot-dip", "spare_percent": "12.5", "packs": "16d box 350,  8d common 530",
    }  # fmt: skip
    found = asked(read(f"{EXAMPLE}&{urlencode(more)}".encode()))
    assert found.errors == {}
    fastening = found.request.fastening
    assert (fastening.framing_nail, fastening.toe_nail, fastening.coating) == ("16d box", "8d box", "hot-dip")
    assert fastening.spare_percent == 12.5
    assert [(pack.fastener, pack.count) for pack in fastening.packs] == [("16d box", 350), ("8d common", 530)]
    for text in ("350", "16d box", "16d box 350;", ",", "16d box 0"):
        assert "packs" in faults(f"{EXAMPLE}&{urlencode({'packs': text})}"), text


@pytest.mark.parametrize(("name", "text", "says"), [
    ("wall_height", "7.5", '7.5 was read in inches: 7 1/2". Write 7.5\' for feet.'),
    ("wall_height", "7' 14\"", '14 inches are a foot or more; 7\' 14" was read as 8\' 2".'),
    ("width", "14", '14 was read in inches'),
    ("front.1.left", "4.5", "4.5 was read in inches"),
    ("front.1.width", "2' 12", "12 inches are a foot or more"),
])  # fmt: skip
def test_a_length_that_may_mean_another_is_told_as_it_was_read(name, text, says):
    form = read(EXAMPLE.encode())
    sent = dict(form.values) | {"units": "in"}
    sent |= {f"front.1.{key}": value for key, value in form.openings["front"][0].items()} | {name: text}
    shown = get("/?" + urlencode(sent) + "&edit=1").text
    (told,) = re.findall(rf'id="{name}-read">([^<]*)<', shown)
    assert says in unescape(told)


def test_what_was_read_stands_at_the_head_of_an_answer_and_a_plain_length_is_not_questioned():
    assert readings(example()) == {}
    query = EXAMPLE.replace("wall_height=7%27+5%22", "wall_height=6%27+17%22")
    assert query != EXAMPLE
    text = page(f"/?{query}").text
    assert "was it meant so?" in text
    assert "Wall height, plates included: 17 inches are a foot or more" in text
    assert "was it meant so?" not in page(f"/?{EXAMPLE}").text


def test_numbers_in_metres_are_told_to_have_been_read_in_millimetres():
    assert "Write 4.8 m for metres" in readings(read(b"units=mm&width=4.8"))["width"]
    assert readings(read(b"units=mm&width=4800&depth=7.2+m&wall_height=2500&front.1.left=0")) == {}
