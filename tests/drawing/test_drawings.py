"""Drawings: well-formed, true to the answer, every text on the paper and clear of the others."""

import json
import re
from collections import Counter
from xml.etree import ElementTree

import pytest
from hypothesis import HealthCheck, assume, example, given, settings
from shapely.geometry import LineString, Point, Polygon, box
from tests.api.client import post
from tests.drawing import collide
from tests.strategies.buildings import buildings, sloped_buildings
from tests.strategies.slopes import sloped_walls
from tests.strategies.walls import walls

from wallwright.domain.building import build
from wallwright.domain.fasteners import fasten
from wallwright.domain.framed import framed, skinned
from wallwright.domain.stock import Stock
from wallwright.domain.wall import Header, Opening, Sheathing, Sheet, Top
from wallwright.domain.wall import Wall as BareWall
from wallwright.drawing.building import plan_scene
from wallwright.drawing.corners import WIDTH
from wallwright.drawing.elevation import framing_pages, framing_scene
from wallwright.drawing.fasteners import _legend, _Row, nailing_scene
from wallwright.drawing.marks import on_leaders
from wallwright.drawing.paper import MARGIN, TITLE_STRIP
from wallwright.drawing.scene import TEXT_MM, Area, Lines, Scene, Text, shortened, spread, text_box, text_width
from wallwright.drawing.sheathing import sheathing_pages, sheathing_scene
from wallwright.drawing.style import STYLE, STYLE_HASH
from wallwright.drawing.svg import svg_text
from wallwright.lengths import MILLIMETRE, inches, measure_of_text, tape_text
from wallwright.operations.building import to_domain
from wallwright.operations.examples import EXAMPLES
from wallwright.operations.table import BY_NAME
from wallwright.operations.walls import to_domain as wall_of
from wallwright.wire.building import Building
from wallwright.wire.wall import Wall

SVG = "{http://www.w3.org/2000/svg}"
MANY = settings(max_examples=60, deadline=None, derandomize=True, suppress_health_check=list(HealthCheck))


def read(document: object, kind: type) -> object:
    import msgspec

    from wallwright.wire.base import read_length

    return msgspec.json.decode(json.dumps(document).encode(), type=kind, dec_hook=read_length)


def request(name: str, kind: type) -> object:
    return read(EXAMPLES[name], kind)


def scenes(wall) -> list[Scene]:
    done = framed(wall)
    skin = skinned(done)
    return [
        framing_scene(done.layout, "in", "0" * 8),
        sheathing_scene(skin, "mm", "0" * 8, done.layout),
        nailing_scene(fasten(done.layout, skin), skin, done.layout, "in", "0" * 8),
    ]


def boxes(scene: Scene) -> list[tuple[float, float, float, float, str]]:
    """Left, top, right, bottom of every text; capitals and digits stand about 0.73 of the size high."""
    found = []
    for text in (shape for shape in scene.shapes if isinstance(shape, Text)):
        long, tall = text_width(text.text, text.size), TEXT_MM[text.size] * 0.73
        before = {"start": 0.0, "middle": long / 2, "end": long}[text.anchor]
        if text.turned:
            box = (text.x - tall, text.y - long + before, text.x, text.y + before)
        else:
            box = (text.x - before, text.y - tall, text.x - before + long, text.y)
        found.append((*box, text.text))
    return found


def faults_of_texts(scene: Scene) -> list[str]:
    """Texts that leave the paper or run into each other."""
    placed, found = boxes(scene), []
    for left, top, right, bottom, text in placed:
        inside = left >= MARGIN - 0.01 and right <= scene.width - MARGIN + 0.01
        if not (inside and top >= MARGIN - 0.01 and bottom <= scene.height - MARGIN + 0.01):
            found.append(f"{text} leaves the paper")
    for number, (l1, t1, r1, b1, one) in enumerate(placed):
        for l2, t2, r2, b2, two in placed[number + 1 :]:
            if not (r1 <= l2 + 0.05 or r2 <= l1 + 0.05 or b1 <= t2 + 0.05 or b2 <= t1 + 0.05):
                found.append(f"{one} runs into {two}")
    return found


@MANY
@given(walls())
def test_texts_stay_on_the_paper_and_clear_of_each_other(wall):
    for scene in scenes(wall):
        assert faults_of_texts(scene) == []


@settings(MANY, max_examples=25)
@given(buildings() | sloped_buildings())
def test_the_plan_and_its_details_stay_on_the_paper_and_clear_of_each_other(building):
    built = build(building)
    scene = plan_scene(built, "in", "0" * 8)
    assert faults_of_texts(scene) == []
    column, foot = scene.width - MARGIN - WIDTH, scene.height - MARGIN - TITLE_STRIP
    for shape in scene.shapes:
        if isinstance(shape, Area) and shape.kind != "bar" and max(y for _, y in shape.points) <= foot + 0.01:
            # The plan stands to the left of the details' column, or the details within it.
            xs = [x for x, _ in shape.points]
            assert max(xs) <= column or (min(xs) >= column and max(xs) <= scene.width - MARGIN)


@pytest.mark.parametrize("side", ["front", "left"])
def test_a_corner_detail_shows_post_lap_and_gap_at_its_scale(side):
    built = build(to_domain(request("building", Building)))
    scene = plan_scene(built, "in", "0" * 8)
    column = scene.width - MARGIN - WIDTH
    (scale,) = (shape.text for shape in scene.shapes if isinstance(shape, Text) and shape.text.startswith("Details"))
    assert scale == 'Details 1-1/2" = 1\' 0"'
    drawn = [
        shape for shape in scene.shapes
        if isinstance(shape, Area) and shape.title.startswith(f"{side} ") and min(x for x, _ in shape.points) > column
    ]  # fmt: skip
    studs = [shape for shape in drawn if shape.title.endswith(("end-stud", "corner-stud"))]
    # A three-stud post: two studs about blocks; a single stud at the butt end. Drawn at 1:8.
    assert len(studs) == (2 if side == "front" else 1)
    for shape in studs:
        wide, high = (max(p[n] for p in shape.points) - min(p[n] for p in shape.points) for n in (0, 1))
        assert sorted((wide, high)) == pytest.approx([38.1 / 8, 88.9 / 8])


@MANY
@given(walls())
def test_each_member_is_drawn_at_its_place_and_scale(wall):
    laid = framed(wall).layout
    pages = framing_pages(laid, "in", "0" * 8)
    assume(len(pages) == 1)
    drawn = {
        dict(shape.data)["member"]: shape
        for shape in pages[0].shapes
        if isinstance(shape, Area) and "member" in dict(shape.data)
    }
    assert set(drawn) == {member.id for member in laid.members}
    origin = drawn["bottom-plate-1"].points[0]
    plate = laid.members[0]
    ratio = plate.width / MILLIMETRE / (drawn["bottom-plate-1"].points[1][0] - origin[0])
    assert round(ratio, 6) in (4, 8, 12, 16, 24, 32, 48, 64, 96, 192, 384)
    for member in laid.members:
        (x, y), (right, _), (_, top), _ = drawn[member.id].points
        assert (x - origin[0]) * ratio * MILLIMETRE == pytest.approx(member.x, abs=MILLIMETRE / 100)
        assert (origin[1] - y) * ratio * MILLIMETRE == pytest.approx(member.y, abs=MILLIMETRE / 100)
        assert (right - x) * ratio * MILLIMETRE == pytest.approx(member.width, abs=MILLIMETRE / 100)
        assert (y - top) * ratio * MILLIMETRE == pytest.approx(member.height, abs=MILLIMETRE / 100)


@MANY
@given(walls() | sloped_walls())
def test_each_mark_of_the_cut_list_stands_on_the_framing_or_is_told_to_have_no_room(wall):
    laid = framed(wall).layout
    texts = [s.text for page in framing_pages(laid, "in", "0" * 8) for s in page.shapes if isinstance(s, Text)]
    words = {word for text in texts for word in re.split(r"[ ,…]+", text)}
    # Pieces of a sloped plate, and uprights that stand closer than their marks, are thinned.
    others = {m.mark for m in on_leaders(laid)[2] if not m.role.endswith("plate")}
    (strip,) = {text for text in texts if text.startswith("Framing from outside")}
    assert others <= words or "no room to mark" in strip or strip.endswith("…")


def test_sills_and_blocks_of_the_example_are_marked():
    laid = framed(wall_of(request("layout", Wall))).layout
    (page,) = framing_pages(laid, "in", "0" * 8)
    counted = Counter(shape.text for shape in page.shapes if isinstance(shape, Text))
    for mark, members in (
        (row.mark, row.members) for row in laid.cut_list if {"blocking", "rough-sill"} & set(row.roles)
    ):
        assert counted[mark] == len(members), mark


WIDE_DOOR = {
    "units": "in", "length": "12'", "height": "8'", "top": {"shape": "gable", "rise": 5, "run": 12},
    "openings": [{"left": "2'", "width": "8'", "height": "6' 10\""}],
    "floor": {"kind": "deck", "rim": "5 1/2\"", "panel": "3/4\""}, "sheathing": {"under_sheet": "6 1/4\""},
}  # fmt: skip
"""A row of blocks, some narrower than their marks, beside others with room for them."""


def test_a_mark_stands_at_its_own_block_and_no_leader_runs_through_another():
    laid = framed(wall_of(read(WIDE_DOOR, Wall))).layout
    (page,) = framing_pages(laid, "in", "0" * 8)
    texts = [shape for shape in page.shapes if isinstance(shape, Text)]
    marks = {member.id: member.mark for member in laid.members if member.role == "blocking"}
    narrow = 0
    for shape in page.shapes:
        mark = marks.get(dict(shape.data).get("member", "")) if isinstance(shape, Area) else None
        if mark is None:
            continue
        left, right = min(x for x, _ in shape.points), max(x for x, _ in shape.points)
        if right - left < text_width(mark) + 1:
            narrow += 1
        else:
            assert any(one.text == mark and left < one.x + text_width(mark) / 2 < right for one in texts), mark
    assert narrow
    blocks = [box(*text_box(one)) for one in texts if one.text in marks.values()]
    for shape in page.shapes:
        if isinstance(shape, Lines) and shape.kind == "thin":
            for x1, y1, x2, y2 in shape.lines:
                leader = LineString([(x1, y1), (x2, y2)])
                assert not any(leader.crosses(one) or leader.within(one) for one in blocks)


def test_a_plan_tells_where_the_openings_of_every_wall_are():
    sizes = {"front": ("5'", "9'"), "right": ("4'", "3'"), "back": ("2'", "3' 2\""), "left": ("1' 6\"", "2' 9\"")}
    asked = {
        "units": "in", "footprint": {"width": "20'", "depth": "12'"}, "wall_height": "8'",
        "walls": {
            side: {"openings": [{"name": f"{side[0]}", "left": left, "width": width, "height": "6' 8\""}]}
            for side, (left, width) in sizes.items()
        },
    }  # fmt: skip
    page = plan_scene(build(to_domain(read(asked, Building))), "in", "0" * 8)
    texts = [shape for shape in page.shapes if isinstance(shape, Text)]
    for side, (left, width) in sizes.items():
        whole = {"front": 240, "back": 240}.get(side, 144)
        rest = tape_text(inches(str(whole)) - _inches(left) - _inches(width), "in")
        named = [one for one in texts if one.text == f"{side[0]} {tape_text(_inches(width), 'in')}"]
        assert len(named) == 1, side
        turned = side in ("right", "left")
        row = {
            one.text
            for one in texts
            if one.turned == turned
            and (one.x if turned else one.y) == pytest.approx(named[0].x if turned else named[0].y)
        }
        assert row == {tape_text(_inches(left), "in"), named[0].text, rest}
    assert collide.faults_of_texts(page) == []


def _inches(tape: str) -> int:
    return measure_of_text(tape).on_grid("in")


STEEP = BareWall(
    length=inches("109 3/16"),
    height=inches("32 1/8"),
    top=Top("gable", 12, 12, ridge=inches("96")),
    sheathing=Sheathing(Sheet(inches("48"), inches("120"), inches("15/32")), "lying", inches("3/16"), inches("1"), "left", True),
    openings=tuple(
        Opening(name, *map(inches, sizes), header=Header(Stock(inches("1 1/2"), inches("3 1/2")), 1) if name == "opening 4" else None)
        for name, sizes in (
            ("opening 2", ("38", "14 15/16", "25 15/16", "29 5/8")), ("", ("60 1/4", "6", "67", "0")),
            ("opening 4", ("75 1/4", "6", "54", "13")),
        )
    ),
)  # fmt: skip
"""Its lowest pieces reach under one side of the roof past the low end of the other."""


def test_no_text_of_pieces_under_two_slopes_meets_another():
    done = framed(STEEP)
    (page,) = sheathing_pages(skinned(done), "in", "0" * 8, done.layout)
    assert collide.faults_of_texts(page) == []


@MANY
@example(STEEP)
@given(walls() | sloped_walls())
def test_a_piece_is_numbered_within_its_outline(wall):
    done = framed(wall)
    for page in sheathing_pages(skinned(done), "in", "0" * 8, done.layout):
        pieces = {
            dict(shape.data)["piece"].removeprefix("piece-"): Polygon(shape.points)
            for shape in page.shapes if isinstance(shape, Area) and "piece" in dict(shape.data)
        }  # fmt: skip
        for text in (shape for shape in page.shapes if isinstance(shape, Text) and shape.text.rstrip("*").isdigit()):
            assert pieces[text.text.rstrip("*")].buffer(0).contains(Point(text.x, text.y - 0.9)), text


@MANY
@given(walls() | sloped_walls())
def test_every_piece_is_numbered_on_its_drawing_or_the_drawing_says_that_it_is_not(wall):
    done = framed(wall)
    skin = skinned(done)
    texts = [shape.text for page in sheathing_pages(skin, "in", "0" * 8, done.layout) for shape in page.shapes
             if isinstance(shape, Text)]  # fmt: skip
    numbered = {re.split(r"[*,:]", text)[0] for text in texts}
    told = next((text.rpartition("no room to number ")[2] for text in texts if "no room to number " in text), "")
    for piece in skin.pieces:
        number = piece.id.removeprefix("piece-")
        assert number in numbered or number in told.split(", ") or told.endswith("…"), number


def test_the_strip_under_a_door_and_the_corners_under_a_gable_are_numbered():
    """On a boat store's gable 12 ft wide, drawn on letter paper, a strip 6 1/4 in high and two triangles are pieces of their own."""
    door = {"name": "door", "left": "2'", "width": "8'", "height": "6' 8\""}
    gable = {
        "units": "in", "length": "12'", "height": "7' 11 3/8\"", "top": {"shape": "gable", "rise": 6, "run": 12},
        "openings": [door], "floor": {"kind": "deck", "rim": "5 1/2\"", "panel": "3/4\""},
        "sheathing": {"sheet": {"width": 48, "length": 108, "thickness": "7/16\""}, "under_sheet": "6 1/4\""},
    }  # fmt: skip
    drawn = post("/v1/sheathing", json.dumps(gable).encode(), accept="image/svg+xml").text
    answer = post("/v1/sheathing", json.dumps(gable).encode()).json()
    texts = {re.split(r"[*,:]", text)[0] for text in re.findall(r"<text[^>]*>([^<]*)<", drawn)}
    assert len(answer["pieces"]) == 7
    assert {piece["id"].removeprefix("piece-") for piece in answer["pieces"]} <= texts


def test_gaps_are_told_where_the_seams_end():
    done = framed(wall_of(request("sheathing", Wall)))
    skin = skinned(done)
    (page,) = sheathing_pages(skin, "in", "0" * 8, done.layout)
    found = [shape for shape in page.shapes if isinstance(shape, Text) and shape.text == 'gap 1/8"']
    seams = [seam for seam in skin.seams if seam.direction == "upright"]
    assert len(found) == len({(seam.before, seam.after) for seam in seams})
    assert any('gap 1/8" at every seam' in shape.text for shape in page.shapes if isinstance(shape, Text))


@pytest.mark.parametrize(
    ("name", "kind"), [("layout", Wall), ("sheathing", Wall), ("fasteners", Wall), ("building", Building)]
)
def test_a_drawing_is_plain_svg_in_millimetres(name, kind):
    text = BY_NAME[name].drawing(request(name, kind))
    root = ElementTree.fromstring(text)
    assert root.attrib["width"] == "279.4mm"
    assert root.attrib["viewBox"] == "0 0 279.4 215.9"
    assert root.find(f"{SVG}title").text
    assert root.find(f"{SVG}desc").text
    assert [style.text for style in root.iter(f"{SVG}style")] == [STYLE]
    for element in root.iter():
        assert element.tag.removeprefix(SVG) in {"svg", "title", "desc", "style", "rect", "path", "text"}
        assert not {"style", "href", "onload", "onclick"} & set(element.attrib)
        assert not [key for key in element.attrib if "href" in key]
    for number in re.findall(r'(?:[MLxy]|width=")="?(-?[0-9.eE+naif]+)', text):
        assert re.fullmatch(r"-?[0-9]+(\.[0-9]{1,3})?", number), number
    assert text == BY_NAME[name].drawing(request(name, kind))


def test_members_carry_their_data_for_scripts():
    root = ElementTree.fromstring(BY_NAME["layout"].drawing(request("layout", Wall)))
    members = [element for element in root.iter(f"{SVG}path") if "data-member" in element.attrib]
    assert {element.attrib["data-role"] for element in members} >= {"field-stud", "header", "jack-stud", "cripple"}
    for element in members:
        assert element.attrib["data-length"].endswith('"')
        assert element.find(f"{SVG}title").text.startswith(element.attrib["data-mark"])


def test_the_plan_shows_four_walls_and_keeps_its_texts_apart():
    scene = plan_scene(build(to_domain(request("building", Building))), "in", "0" * 8)
    sides = [dict(shape.data).get("side") for shape in scene.shapes if isinstance(shape, Area)]
    assert {side for side in sides if side} == {"front", "right", "back", "left"}
    placed = boxes(scene)
    for number, (l1, t1, r1, b1, one) in enumerate(placed):
        for l2, t2, r2, b2, two in placed[number + 1 :]:
            assert r1 <= l2 or r2 <= l1 or b1 <= t2 or b2 <= t1, (one, two)


def test_hostile_names_are_only_text():
    scene = Scene(
        10,
        10,
        '<script>"&',
        "]]>",
        (Text(1, 1, "<b>&amp;</b>"), Area("member", ((0, 0), (1, 0), (1, 1)), "</title><x>")),
    )
    root = ElementTree.fromstring(svg_text(scene))
    assert root.find(f"{SVG}title").text == '<script>"&'
    assert root.find(f"{SVG}text").text == "<b>&amp;</b>"
    assert not list(root.iter(f"{SVG}script"))


def test_the_policy_names_the_style():
    import base64
    import hashlib

    assert STYLE_HASH.removeprefix("sha256-") == base64.b64encode(hashlib.sha256(STYLE.encode()).digest()).decode()


def test_labels_spread_within_their_room():
    assert spread([5.0, 5.1, 5.2], 3.0, 0.0, 20.0) == pytest.approx([2.1, 5.1, 8.1])
    assert spread([1.0, 1.0], 3.0, 0.0, 20.0) == pytest.approx([0.0, 3.0])
    assert spread([1.0] * 9, 3.0, 0.0, 20.0) is None
    assert shortened("a" * 50, 10.0).endswith("…")
    assert text_width("mm") > text_width("ii")


def test_an_inch_drawing_has_a_standard_scale():
    assert inches("3/8") * 32 == inches("12")


def test_sheets_are_dimensioned_at_the_width_to_cut():
    done = framed(wall_of(request("sheathing", Wall)))
    skin = skinned(done)
    written = [
        shape.text for shape in sheathing_scene(skin, "in", "0" * 8, done.layout).shapes if isinstance(shape, Text)
    ]
    for column in done.columns.columns:
        from wallwright.lengths import tape_text

        assert tape_text(column.right - column.left, "in") in written
    assert "4' 0 1/8\"" not in written


@pytest.mark.parametrize("each", range(5, 13))
def test_what_is_bought_altogether_stands_in_a_column_with_its_heading(each):
    rows = [_Row(f"joint {number}") for number in range(8)] + [_Row("Altogether"), _Row("9 nails"), _Row("mind")]
    texts = [shape for shape in _legend(rows, 0, 0, each * 3.2 + 1, 120, 3) if isinstance(shape, Text)]
    assert [text.text for text in texts] == [row.text for row in rows]
    placed = {text.text: text.x for text in texts}
    assert placed["Altogether"] == placed["9 nails"]
