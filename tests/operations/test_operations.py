"""Operations: the same question, the same bytes; every field of an answer comes from the domain; walls that can be posted on."""

import csv
import io
import json
import subprocess
import sys

import pytest
from tests.api.client import WALL, post

from wallwright.api.links import packed
from wallwright.api.reader import Reader
from wallwright.domain import built as domain_building
from wallwright.domain import deck_lines as chalk
from wallwright.domain import fasteners as domain_fasteners
from wallwright.domain import members, skin, slopes
from wallwright.domain.buying import boards, buy
from wallwright.domain.buying import panels as asked_panels
from wallwright.domain.raising import braces as raising_braces
from wallwright.domain.raising import hands, raised, statics, weighing
from wallwright.domain.raising import steps as raising_steps
from wallwright.domain.raising import wind as raising_wind
from wallwright.domain.squaring import deck, doubt, frame, measured, placing, shifting, standing
from wallwright.operations.csv import csv_text
from wallwright.operations.examples import EXAMPLES, example_bytes
from wallwright.operations.table import BY_NAME
from wallwright.wire import building, buying, fasteners, layout, raising, sheathing, squaring, squaring_asked


def asked(name: str, body: dict) -> object:
    return Reader(BY_NAME[name].request).read(json.dumps(body).encode())


def identity(name: str, body: dict) -> str:
    return BY_NAME[name].identity(asked(name, body))


def test_eight_feet_and_ninety_six_are_the_same_question():
    assert identity("layout", {**WALL, "height": "8'"}) == identity("layout", {**WALL, "height": 96})
    assert identity("layout", {**WALL, "height": "8'"}) != identity("layout", {**WALL, "height": "8' 1/16\""})
    assert identity("layout", WALL) != identity("layout", {"units": "mm", "length": 3657.6, "height": 2438.4})


def test_a_completed_building_is_the_same_question():
    body = EXAMPLES["building"]
    completed = post("/v1/building", json.dumps(body).encode()).json()["building"]
    assert identity("building", completed) == identity("building", body)


COMPLETED = {"buying": "order", "building": "building", "squaring-frame": "frame", "squaring-deck": "deck"}


@pytest.mark.parametrize("name", list(BY_NAME))
def test_the_completed_request_gives_the_same_bytes(name):
    path = BY_NAME[name].path
    first = post(path, example_bytes(name))
    completed = first.json()[COMPLETED.get(name, "wall")]
    again = post(path, json.dumps(completed).encode())
    assert again.content == first.content


@pytest.mark.parametrize("form", ["layout", "sheathing"])
def test_a_wall_sized_by_the_tables_is_the_same_question_when_completed(form):
    first = post(f"/v1/{form}", example_bytes("field-office"))
    completed = first.json()["wall"]
    assert post(f"/v1/{form}", json.dumps(completed).encode()).content == first.content
    assert identity(form, completed) == identity(form, EXAMPLES["field-office"])
    # What was left to the tables stays so, that another snow load can be asked for.
    assert not any({"header", "jacks"} & set(opening) for opening in completed["openings"])
    assert all(
        opening["jacks"] == 1 for opening in post(f"/v1/{form}", example_bytes("layout")).json()["wall"]["openings"]
    )


def test_a_building_passes_its_place_on_to_walls_that_size_themselves():
    site = {"ground_snow_psf": 50, "wind_mph": 115, "exposure": "B"}
    body = {**EXAMPLES["building"], "site": site}
    answer = post("/v1/building", json.dumps(body).encode())
    walls = answer.json()["walls"]
    for one in walls:
        posted = post("/v1/layout", json.dumps(one["wall"]).encode())
        assert posted.json() == one["layout"]
    codes = {one["side"]: {f["code"] for f in one["layout"]["findings"]} for one in walls}
    assert "header-compared" in codes["front"]
    assert "header-nonbearing" in codes["right"]
    again = post("/v1/building", json.dumps(answer.json()["building"]).encode())
    assert again.content == answer.content


@pytest.mark.parametrize("stock", ["00x0/1", "00x84-0/1", "0/1x0", "00x00"])
def test_a_section_of_no_size_is_a_fault_like_any_other(stock):
    opening = {"left": 48, "width": 30, "height": 40, "header": {"stock": stock}}
    answer = post("/v1/layout", json.dumps({**WALL, "stud": stock, "openings": [opening]}).encode())
    assert answer.status_code == 422
    at = {error["pointer"] for error in answer.json()["errors"]}
    assert {"/stud", "/openings/0/header/stock"} <= at


def test_key_order_changes_nothing():
    turned = dict(reversed(list(EXAMPLES["layout"].items())))
    assert (
        post("/v1/layout", json.dumps(turned).encode()).content == post("/v1/layout", example_bytes("layout")).content
    )


ROOFS = [
    {"shape": "flat"},
    {"shape": "lean-to", "rise": 3, "run": 12, "high_side": "front"},
    {"shape": "gable", "rise": 6.5, "ridge": "beam"},
]


@pytest.mark.parametrize("roof", ROOFS, ids=lambda roof: roof["shape"])
def test_a_completed_building_gives_the_same_bytes(roof):
    first = post("/v1/building", json.dumps({**EXAMPLES["building"], "roof": roof}).encode())
    assert first.status_code == 200
    assert post("/v1/building", json.dumps(first.json()["building"]).encode()).content == first.content


@pytest.mark.parametrize("roof", ROOFS, ids=lambda roof: roof["shape"])
@pytest.mark.parametrize("form", ["layout", "sheathing", "raising", "fasteners"])
def test_each_wall_of_a_building_gives_the_same_answer_when_posted_on(form, roof):
    answer = post("/v1/building", json.dumps({**EXAMPLES["building"], "roof": roof}).encode()).json()
    for one in answer["walls"]:
        posted = post(f"/v1/{form}", json.dumps(one["wall"]).encode())
        assert posted.content == json.dumps(one[form], separators=(",", ":"), ensure_ascii=False).encode()


DECK = {
    "sides": {"front": "14' 0 1/4\"", "right": "10'", "back": "14' 0 1/4\"", "left": "10'"},
    "diagonals": {"front_left_to_back_right": "17' 2 11/16\"", "front_right_to_back_left": "17' 2 11/16\""},
    "levels": {"front_left": 0, "front_right": '1/8"', "back_right": '3/8"', "back_left": 0},
}


def test_a_building_says_where_its_lines_lie_on_the_deck_as_measured():
    body = {**EXAMPLES["building"], "parts": ["layout"], "deck": DECK}
    first = post("/v1/building", json.dumps(body).encode())
    answer = first.json()
    # A quarter too wide: the lines go to one edge, so that one edge alone is trimmed and not two.
    assert [edge["work"] for edge in answer["deck"]["edges"]].count("trim") == 1
    assert abs(answer["deck"]["shift_right"]) == pytest.approx(0.125, abs=0.02)
    told = {finding["code"]: finding["about"] for finding in answer["findings"]}
    assert told["deck-not-level"] == "/deck/levels"
    assert answer["deck"]["rise"] == 0.375
    assert told["deck-edge-proud"].startswith("/deck/sides/")
    assert post("/v1/building", json.dumps(answer["building"]).encode()).content == first.content
    assert identity("building", body) != identity("building", {**body, "deck": {**DECK, "tape_class": "I"}})
    # Where no sheet hangs past the plates a proud edge is in nobody's way, and the lines stay in the middle.
    free = {**body, "sheathing": {**body["sheathing"], "under_sheet": 0}}
    lines = post("/v1/building", json.dumps(free).encode()).json()["deck"]
    assert {edge["work"] for edge in lines["edges"]} == {"leave"}
    assert lines["shift_right"] == 0


def test_a_deck_that_cannot_be_is_told_at_its_own_fields():
    crossed = {**DECK, "diagonals": {"front_left_to_back_right": "30'", "front_right_to_back_left": "17' 2\""}}
    answer = post("/v1/building", json.dumps({**EXAMPLES["building"], "deck": crossed}).encode())
    assert answer.status_code == 422
    assert {e["pointer"] for e in answer.json()["errors"]} == {"/deck/diagonals/front_left_to_back_right"}


def test_parts_are_those_asked_for():
    for part in ("layout", "sheathing", "raising"):
        body = {**EXAMPLES["building"], "parts": [part]}
        for one in post("/v1/building", json.dumps(body).encode()).json()["walls"]:
            assert set(one) == {"side", "wall", part}


RENAMED = {
    squaring.Suspect: {"reads_tape": "reads"},
    squaring.Triangle: {"across_tape": "across"},
    squaring.PlumbFigure: {"top_tape": "top"},
    squaring.FrameAnswer: {
        "diagonal_tape": "diagonal",
        "lean_tape": "lean",
        "push_tape": "push",
        "rack_until_tape": "rack_until",
    },
    squaring.LargestRectangle: {"width_tape": "width", "depth_tape": "depth"},
    squaring.Overhang: {"sideways_tape": "sideways", "endways_tape": "endways"},
    squaring.DeckAnswer: dict.fromkeys(
        ("adjusted", "residuals", "standard_errors", "permissible_errors"), "measurements"
    ),
    **{
        kind: {
            name: f"{name.rpartition('_')[0]}_lb" for name in kind.__struct_fields__ if name.endswith(("_lbf", "_n"))
        }
        for kind in (raising.Force, raising.Count, raising.Restraint)
    },
    raising.Weighed: {"weight_kg": "weight_lb"},
    raising.Weight: {"weight_kg": "weight_lb"},
    raising.Material: {"timber_kg_m3": "timber_pcf", "sheet_kg_m3": "sheet_pcf"},
    raising.Lift: {
        **{f"{name}_{unit}": f"{name}_lb" for name in ("lift", "push", "thrust", "bears") for unit in ("lbf", "n")},
        "weight_kg": "weight_lb",
        "push_along_tape": "push_along",
        "tips_km_h": "tips_mph",
        "raise_below_km_h": "raise_below_mph",
    },
    raising.Section: {
        **{
            f"{name}_{unit}": f"{name}_lb"
            for name in ("lift", "push", "thrust", "bears", "each")
            for unit in ("lbf", "n")
        },
        "weight_kg": "weight_lb",
        "left_tape": "left",
        "right_tape": "right",
    },
    raising.CurvePoint: {"hands_along_tape": "hands_along"},
    raising.Brace: {"x_tape": "x", "up_tape": "up", "out_tape": "out", "length_tape": "length"},
    raising.WindRow: {
        **{
            f"{state}_{way}_{unit}": f"{state}_{way}_lb"
            for state in ("bare", "skinned")
            for way in ("level", "along")
            for unit in ("lbf", "n")
        },
        "km_h": "mph",
        "pressure_pa": "pressure_psf",
    },
    raising.Zone: {"depth_tape": "depth", "lines_tape": "lines"},
    raising.RaisingStep: {"what": "values", "where": "values", "caution": "values", "counts": "step"},
    layout.Member: {
        "tape": "length",
        "cut_out_after_raising": "cut_outs",
        "short_point": "short",
        "short_point_tape": "short",
    },
    layout.Mark: {"reading_tape": "reading"},
    layout.Anchor: {"reading_tape": "reading"},
    layout.CutRow: {
        "tape": "length",
        "short_point": "short",
        "short_point_tape": "short",
        "cut_angles_degrees": "cut_angles",
    },
    layout.EndCut: {"angle_degrees": "angle", "long_point": "long"},
    sheathing.Offcut: {"size": "width"},
    building.DeckLines: {"diagonal_tape": "diagonal"},
    building.CutTotal: {"tape": "length"},
    fasteners.Joint: {"length_tape": "length"},
    fasteners.Total: {"weight_kg": "weight_lb"},
    fasteners.Strength: {"withdrawal_n": "withdrawal_lbf", "lateral_n": "lateral_lbf"},
    fasteners.Shear: {"wind_kn_per_m": "wind_plf", "seismic_kn_per_m": "seismic_plf"},
    fasteners.FastenersAnswer: {"unit_shear": "shear"},
    buying.BoardCut: {
        "tape": "length",
        "readings_tape": "readings",
        "slanted_ends": "ends",
        "slant_degrees": "angle",
    },
    buying.BoardPlan: {
        "stock": "offer",
        "length": "offer",
        "tape": "offer",
        "treated": "offer",
        "offcut_tape": "offcut",
    },
    buying.CostLine: {"size": "length"},
    buying.SheetPlaced: {"size": "length"},
    buying.SheetPlan: dict.fromkeys(("kind", "thickness", "width", "length"), "offer"),
    buying.Waste: {"tape": "length", "kept_offcuts": "offcuts", "area_sq_ft": "area", "area_m2": "area"},
    buying.BuyingAnswer: {"boards": "cuts", "before_tax": "net", "stocks": "cuts", "sheet_counts": "sheets"},
}
PAIRS = [
    (layout.Member, members.Member),
    (layout.Mark, members.Mark),
    (layout.CutRow, members.CutRow),
    (layout.Anchor, members.Anchor),
    (layout.CutOut, members.CutOut),
    (layout.EndCut, slopes.Cut),
    (sheathing.Piece, skin.Piece),
    (sheathing.Seam, skin.Seam),
    (sheathing.SheetUse, skin.SheetUse),
    (sheathing.Offcut, skin.Offcut),
    (raising.Centre, weighing.Place),
    (raising.Weighed, weighing.Weighed),
    (raising.Weight, weighing.Weight),
    (raising.Material, raised.Material),
    (raising.Lift, raised.Lift),
    (raising.Count, hands.Count),
    (raising.Section, hands.Section),
    (raising.Advice, hands.Advice),
    (raising.Force, statics.Force),
    (raising.CurvePoint, statics.CurvePoint),
    (raising.Restraint, raising_steps.Restraint),
    (raising.Zone, raising_steps.Zone),
    (raising.RaisingStep, raising_steps.Step),
    (raising.Brace, raising_braces.Brace),
    (raising.WindRow, raising_wind.WindRow),
    (raising.RaisingAnswer, raised.Raised),
    (fasteners.Joint, domain_fasteners.Joint),
    (fasteners.Total, domain_fasteners.Total),
    (fasteners.Point, domain_fasteners.Point),
    (fasteners.Strength, domain_fasteners.Strength),
    (fasteners.Shear, domain_fasteners.Shear),
    (fasteners.FastenersAnswer, domain_fasteners.Fasteners),
    (building.Corner, domain_building.Corner),
    (building.CutTotal, domain_building.Total),
    (building.Step, domain_building.Step),
    (building.DeckLines, chalk.DeckLines),
    (buying.BoardCut, boards.CutPiece),
    (buying.BoardPlan, boards.CutBoard),
    (buying.CostLine, buy.CostLine),
    (buying.SheetPlaced, asked_panels.Placed),
    (buying.SheetPlan, asked_panels.CutSheet),
    (buying.Waste, buy.Waste),
    (buying.BuyingAnswer, buy.Bought),
    (squaring.Measurement, measured.Measurement),
    (squaring.CornerFigure, measured.CornerFigure),
    (squaring.Triangle, measured.Triangle),
    (squaring.Suspect, doubt.Suspect),
    (squaring.Consistency, doubt.Consistency),
    (squaring.ToleranceCompared, standing.Compared),
    (squaring_asked.SheetCheck, standing.Sheet),
    (squaring.SheetFigure, standing.SheetFigure),
    (squaring_asked.PlumbBrace, standing.Brace),
    (squaring_asked.PlumbCheck, standing.Plumb),
    (squaring.PlumbFigure, standing.PlumbFigure),
    (squaring.FrameAnswer, frame.Squared),
    (squaring.LargestRectangle, deck.LargestRectangle),
    (squaring.Overhang, placing.Overhang),
    (squaring.EdgeWork, placing.EdgeWork),
    (squaring.Placing, placing.Placing),
    (squaring.Shift, shifting.Shift),
    (squaring.DeckAnswer, deck.Measured),
]


@pytest.mark.parametrize(("wire", "domain"), PAIRS, ids=lambda kind: kind.__name__)
def test_every_field_that_travels_has_its_source_and_none_is_lost(wire, domain):
    renamed = RENAMED.get(wire, {})
    sources = {renamed.get(name, name) for name in wire.__struct_fields__}
    if wire is building.DeckLines:
        # What was measured stands in the answer's building, what is said of it among its findings.
        sources |= {"deck", "findings"}
    assert sources == set(domain.__struct_fields__)


def test_lists_are_csv_that_runs_no_formula():
    text = csv_text(["a", "b"], [["=1+1", 'say "hi", twice'], ["@x", -3]])
    assert list(csv.reader(io.StringIO(text, newline=""))) == [["a", "b"], ["'=1+1", 'say "hi", twice'], ["'@x", "-3"]]
    assert text.count("\r\n") == 3


def run(*arguments: str, given: bytes = b"") -> subprocess.CompletedProcess[bytes]:
    command = [sys.executable, "-m", "wallwright.command", *arguments]
    return subprocess.run(command, input=given, capture_output=True, timeout=60, check=False)


@pytest.mark.parametrize("name", list(EXAMPLES))
def test_the_command_answers_its_own_examples(name):
    operation = name if name in BY_NAME else "layout"
    done = run("post", operation, "-", given=run("example", name).stdout)
    assert done.returncode == 0, done.stderr
    assert "findings" in json.loads(done.stdout)


def test_the_command_tells_faults_and_fails():
    done = run("post", "layout", "-", given=b'{"units":"in","length":"0","height":96}')
    assert done.returncode == 1
    assert b"length-out-of-range" in done.stderr


@pytest.mark.parametrize(
    ("arguments", "says"),
    [
        (("post", "layout", "no such file.json"), b"no such file.json cannot be read"),
        (("post", "layout", "."), b". cannot be read"),
        (("serve", "--port", "65536"), b"from 1 to 65535"),
        (("serve", "--port", "http"), b"from 1 to 65535"),
        (("serve", "--workers", "0"), b"from 1 to 64"),
    ],
    ids=["no file", "a folder", "port too high", "port no number", "no workers"],
)
def test_the_command_tells_what_it_cannot_take_and_shows_no_traceback(arguments, says):
    done = run(*arguments)
    assert done.returncode == 2
    assert says in done.stderr
    assert b"Traceback" not in done.stderr


def test_a_question_fits_a_link():
    assert len(packed(example_bytes("building"))) < 8_192
