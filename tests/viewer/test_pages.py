"""The pages: what they hold, that their links work, and that nothing on them runs."""

import json
import math
import re
from html import escape

import pytest
from tests.api.client import call, post
from tests.viewer.client import APP, CODES, EXAMPLE, PAGES, get, page

from wallwright.api.links import packed
from wallwright.operations.document import document_bytes
from wallwright.operations.examples import EXAMPLES
from wallwright.operations.print_set import sheet_name
from wallwright.wire.answers import Compared
from wallwright_viewer.drawn import figures
from wallwright_viewer.form import example, link
from wallwright_viewer.pages import _DATA
from wallwright_viewer.worked import WORKED

WALL_PATHS = ["/v1/layout", "/v1/sheathing", "/v1/fasteners", "/v1/raising"]
SHEET = (_DATA / "static" / "style.css").read_text(encoding="utf-8")


@pytest.mark.parametrize("path", PAGES)
def test_no_page_holds_anything_that_runs_or_comes_from_elsewhere(path):
    answer = get(path)
    found = page(path)
    names = {tag for tag, _ in found.elements}
    assert not names & {"script", "iframe", "object", "embed", "base"}
    for tag, attributes in found.elements:
        assert not [name for name in attributes if name == "style" or name.startswith("on")], tag
        for name in ("href", "src", "action"):
            assert attributes.get(name, "/").startswith(("/", "#")), (tag, attributes)
    policy = answer.headers["content-security-policy"]
    assert "default-src 'none'" in policy
    assert "unsafe" not in policy
    assert answer.headers["content-type"] == "text/html; charset=utf-8"


@pytest.mark.parametrize("path", PAGES)
def test_ids_are_unique_and_what_they_are_named_by_is_there(path):
    found = page(path)
    ids = [attributes["id"] for _, attributes in found.elements if "id" in attributes]
    assert len(ids) == len(set(ids))
    for _, attributes in found.elements:
        for name in ("for", "aria-labelledby", "aria-describedby"):
            assert set(attributes.get(name, "").split()) <= set(ids)
        target = attributes.get("href", "")
        assert not target.startswith("#") or target[1:] in ids


@pytest.mark.parametrize("path", PAGES)
def test_every_input_has_a_label(path):
    found = page(path)
    labelled = {attributes["for"] for attributes in found.all("label") if "for" in attributes}
    for attributes in [*found.all("input"), *found.all("select")]:
        if attributes.get("type") not in ("hidden", "radio"):
            assert attributes["id"] in labelled


def test_the_stylesheet_is_one_small_file_that_is_kept():
    answer = get("/style.css", "text/css")
    assert answer.text == SHEET
    assert len(answer.content) < 12_000
    assert "url(" not in answer.text
    again = get("/style.css", "text/css", **{"if-none-match": answer.headers["etag"]})
    assert again.status_code == 304
    assert get("/style.css", "*/*", "HEAD").content == b""


def test_the_answer_shows_the_plan_four_drawings_a_wall_and_the_lists():
    found = page(f"/?{EXAMPLE}")
    assert len(found.all("svg")) == 17
    for side in ("Front", "Right", "Back", "Left"):
        for title in (
            "cut list", "marks on the plates, as the tape reads them", "pieces of sheathing", "joints",
            "what raising it takes", "temporary braces", "steps of raising",
        ):  # fmt: skip
            assert f"{side} wall: {title}" in found.text
    assert "Two people or more to raise" in found.text
    assert "Source: common practice, no source." in found.text
    # The front wall, 14 ft between framing corners and laid out from the sheathing's edge over the first
    # post: the second stud on layout stands at 2 x 16 in, its near edge 3/4 in before (common practice, no source).
    assert "2' 7 1/4\" X right field stud 2" in found.text


def test_every_link_of_the_answer_leads_to_what_it_says():
    found = page(f"/?{EXAMPLE}")
    links = [attributes["href"] for attributes in found.all("a")]
    media = {"svg": "image/svg+xml", "json": "application/json", "csv": "text/csv"}
    forms = [re.search(r"\.(svg|json|csv)\?z=", href) for href in links]
    assert len([form for form in forms if form]) == 51
    for href, form in zip(links, forms, strict=True):
        if href.startswith("#"):
            continue
        answer = get(href)
        assert answer.status_code == 200, href
        if form:
            assert answer.headers["content-type"].startswith(media[form[1]])


@pytest.mark.parametrize("name", WORKED)
def test_the_drawing_on_the_page_is_the_one_behind_its_link(name):
    text = get(f"/?{link(example(name))}").text
    links = re.findall(r'href="(/v1/[a-z]+\.svg\?z=[^"]+)"', text)
    shown = re.findall(r"<svg .*?</svg>", text, re.S)
    assert len(links) == len(shown) == 17
    for href, drawing in zip(links, shown, strict=True):
        name = re.search(r' id="([a-z-]+)"', drawing)[1]
        behind = get(href, "image/svg+xml").text
        plain = drawing.replace(f'"{name}', '"ww').replace(f" {name}-desc", " ww-desc")
        assert plain == behind


def test_the_command_under_a_drawing_asks_the_same_question():
    found = page(f"/?{EXAMPLE}")
    commands = re.findall(r"--data-binary @- http://test(\S+) <<'REQUEST' (.*?) REQUEST", found.text)
    assert [path for path, _ in commands] == ["/v1/building", *WALL_PATHS * 4]
    headers = {"content-type": "application/json", "accept": "image/svg+xml"}
    for path, body in commands:
        assert call("POST", path, APP, content=json.dumps(json.loads(body)), headers=headers).status_code == 200


def test_a_fault_stands_beside_its_field_and_values_are_kept():
    found = page("/?units=in&name=pump&width=wide&depth=&wall_height=7%27&front.1.left=5%27&front.1.width=3%27")
    assert found.text.startswith("Error: pump")
    inputs = {attributes["name"]: attributes for attributes in found.all("input")}
    assert inputs["width"]["value"] == "wide"
    assert inputs["wall_height"]["value"] == "7'"
    for name in ("width", "depth", "front.1.height"):
        assert inputs[name]["aria-invalid"] == "true"
        assert f"{name}-fault" in inputs[name]["aria-describedby"].split()
    assert "aria-invalid" not in inputs["wall_height"]
    assert "Front opening 1, height : Height is missing" in found.text


def test_a_plan_that_cannot_be_built_is_told_at_the_opening():
    asked = EXAMPLE.replace("front.1.height=6%27+8%22", "front.1.height=12%27")
    assert asked != EXAMPLE
    found = page(f"/?{asked}")
    inputs = {attributes["name"]: attributes for attributes in found.all("input")}
    assert inputs["front.1.height"]["aria-invalid"] == "true"
    assert "can be at most" in found.text
    assert not found.all("svg")


@pytest.mark.parametrize("code", CODES)
def test_every_code_has_a_page_and_the_same_as_json(code):
    found = page(f"/problems/{code}")
    assert CODES[code].title in found.text
    assert CODES[code].cure in found.text
    answer = get(f"/problems/{code}", "application/json")
    assert answer.json()["code"] == code
    assert answer.headers["vary"] == "Accept"


def test_a_code_that_is_not_there_is_404_for_people_and_for_tools():
    assert get("/problems/none").status_code == 404
    answer = get("/problems/none", "*/*")
    assert answer.status_code == 404
    assert answer.json()["code"] == "not-found"


def squeezed(text: str) -> str:
    """A text without blanks and the marks of code."""
    return re.sub(r"[\s`]", "", text)


def test_the_reference_tells_the_whole_document():
    text = page("/reference").text
    document = json.loads(document_bytes())
    for path, methods in document["paths"].items():
        for method in methods:
            assert f"{method.upper()} {path}" in text
    for name, schema in document["components"]["schemas"].items():
        assert name in text
        for field, inner in schema.get("properties", {}).items():
            assert field in text
            assert squeezed(inner.get("description", "")) in squeezed(text)
    for code in CODES:
        assert code in text


def test_the_marks_say_what_the_tape_reads_at_the_plates_own_end():
    # A butt wall's tape is hooked at the sheathing's edge, past the plate by the depth of the wall that it meets,
    # the slip gap and the sheet: 3-1/2 + 1/16 + 7/16 = 4 in.
    text = get(f"/?{EXAMPLE}").text
    right = text[text.index('id="wall-right"') : text.index('id="wall-back"')]
    front = text[text.index('id="wall-front"') : text.index('id="wall-right"')]
    assert re.search(r'<th scope="row">4&#34;</th><td>hold</td><td>the plate&#39;s left end</td>', right)
    assert "the plate's end reads 4&quot;" in right
    assert "<td>hold</td>" not in front


def test_a_notched_piece_is_not_said_to_be_a_plain_one():
    text = get(f"/?{EXAMPLE}").text
    front = text[text.index('id="wall-front"') : text.index('id="wall-right"')]
    assert front.count("cut to its outline") == 2
    assert re.search(r"<li>[^<]+, [^<]+ to [^<]+, [^<]+</li>", front)


def test_packing_says_what_it_is_ripped_to():
    text = get(f"/?{EXAMPLE}").text
    assert re.search(r"2x4 ripped to [0-9 /]+&#34;", text)


def test_units_changed_without_their_button_are_told():
    kept = EXAMPLE.replace("units=in", "units=mm").replace("was=mm", "was=in")
    query = kept if "was=" in kept else f"was=in&{kept}"
    answer = get(f"/?{query}")
    assert answer.status_code == 303
    page_after = get(answer.headers["location"].partition("#")[0])
    assert "Numbers without a mark were read in inches" in page_after.text


def section(text: str, start: str, end: str) -> str:
    """A part of a page's source."""
    return text[text.index(start) : text.index(end)]


def test_no_finding_is_told_twice_and_what_stops_the_work_comes_first():
    text = get(f"/?{EXAMPLE}").text
    told = re.findall(
        r'<li class="(stop|caution|note)">\n<p><strong>\w+</strong> (?:[A-Z][a-z ]+ walls: )?(.*?)</p>', text
    )
    assert len(told) > 20
    assert len({words for _, words in told}) == len(told)
    levels = re.findall(r'<li class="(stop|caution|note)">', section(text, 'id="findings"', 'id="plan-heading"'))
    assert levels == sorted(levels, key=["stop", "caution", "note"].index)
    # What two walls share is told once, with the walls that it is about.
    assert len(re.findall(r"Right and left walls: Raise this wall bare", text)) == 1


def test_joints_and_fasteners_are_those_of_the_service():
    asked = json.dumps({**EXAMPLES["building"], "parts": ["fasteners"]})
    answer = call("POST", "/v1/building", APP, content=asked, headers={"content-type": "application/json"}).json()
    text = get(f"/?{EXAMPLE}").text
    for wall in answer["walls"]:
        own = section(
            text,
            f'aria-label="{wall["side"].capitalize()} wall: joints"',
            f'"{wall["side"].capitalize()} wall: what raising',
        )
        rows = re.findall(
            r'<tr><th scope="row">([^<]+)</th><td>[^<]+</td><td>(\d+)</td><td>(\d+)[^<]*</td><td>(\d+)</td>', own
        )
        wanted = [
            (j["joint"].replace("-", " "), j["per_joint"], j["joints"], j["total"]) for j in wall["fasteners"]["joints"]
        ]
        assert [
            (name.partition(",")[0], int(each), int(many), int(total)) for name, each, many, total in rows
        ] == wanted
    totals = section(text, 'aria-label="Fasteners of all walls"', 'id="order"')
    for total in answer["totals"]["fasteners"]:
        assert f"{total['fastener']}</th><td>{total['count']}</td>" in totals.replace(", galvanized", "")


def test_the_order_of_work_says_where_how_many_and_what_to_mind():
    text = get(f"/?{EXAMPLE}").text
    order = text[text.index('id="order"') :]
    steps = call("POST", "/v1/building", APP, content=json.dumps(EXAMPLES["building"]),
                 headers={"content-type": "application/json"}).json()["order_of_work"]  # fmt: skip
    assert order.count("<li>") == len(steps)
    for step in steps:
        assert escape(step["where"]) in order
        assert escape(step["caution"]).replace("&#x27;", "&#39;") in order
        assert "how_many" not in step or f"How many {step['counts']}: {step['how_many']}." in order


def test_who_reads_a_step_of_raising_never_takes_a_number_of_walls_or_braces_for_one_of_people():
    """A wall is raised by two people or more: `How many: 1` beside it would be read as one."""
    text = get(f"/?{EXAMPLE}").text
    assert "How many:" not in text
    lift = text[text.index("Lift the top plate together") :]
    people = re.search(r"How many people: (\d+)\.", lift)
    assert people
    assert int(people[1]) >= 2
    raised = text[text.index("Frame and square the wall lying") :]
    assert "How many walls: 1." in raised[:300]


def test_the_set_has_its_contents_and_every_sheet_names_the_building():
    text = get(f"/?{EXAMPLE}").text
    listed = re.findall(
        r'<tr><th scope="row">(\d+)</th><td><a href="#([a-z-]+)">', section(text, 'id="sheets"', 'id="findings"')
    )
    headings = re.findall(r'<h3 id="([a-z-]+-heading)">Sheet (\d+)\.', text)
    assert [(number, place) for place, number in headings] == listed
    assert len(listed) == 17
    drawings = re.findall(r"<svg .*?</svg>", text, re.S)
    for side, own in zip(("front", "right", "back", "left"), range(1, 17, 4), strict=True):
        for drawing in drawings[own : own + 4]:
            assert f">pump house, {side} wall<" in drawing


@pytest.mark.parametrize(("of", "name", "wanted"), [
    ("", "front", "front wall"),
    ("pump house", "left", "pump house, left wall"),
    ("pump house", "tank room", "pump house, tank room"),
    ("x" * 80, "front", "x" * 68 + ", front wall"),
    ("pump house", "y" * 80, "y" * 80),
])  # fmt: skip
def test_a_sheets_name_stays_within_the_length_of_a_name(of, name, wanted):
    found = sheet_name(of, name, "left" if name == "left" else "front")
    assert found == wanted
    assert len(found) <= 80


def test_figures_that_were_compared_are_read_on_the_tape():
    """Nobody on site reads 200.125 in; where both would read alike on the tape they stand as numbers."""
    said = figures(Compared(200.125, 89.0, "in")), figures(Compared(5133.16665, 2822.0, "mm"))
    assert said == ("16' 8 1/8\" with 7' 5\"", "5133 mm with 2822 mm")
    assert figures(Compared(3.49, 3.5, "in")) == "3.49 with 3.5 in"
    assert figures(Compared(72.0, 72.0, "in")) == "6' 0\" with 6' 0\""
    assert figures(Compared(3, 2, "people")) == "3 with 2 people"
    assert figures(Compared(16, 13.756, "money")) == "16.00 with 13.76 in money"
    assert not re.search(r"Compared [^<]*\.[0-9]{4}", get(f"/?{EXAMPLE}").text)


def test_weights_are_told_alike_in_drawing_and_list_and_a_wind_is_never_rounded_up():
    wall = EXAMPLES["raising"]
    z = packed(json.dumps(wall).encode())
    text = get(f"/raising?z={z}").text
    answer = post("/v1/raising", json.dumps(wall).encode()).json()
    winds = re.search(r"Not in wind above.*?<td>([0-9]+) mph.*?<td>([0-9]+) mph", text).groups()
    for lift, wind in zip((answer["bare"], answer["skinned"]), winds, strict=True):
        weight = f"{math.ceil(lift['weight_lb'])} lb ({math.ceil(lift['weight_kg'])} kg)"
        assert text.count(weight) >= 2, weight
        assert int(wind) <= lift["raise_below_mph"]
