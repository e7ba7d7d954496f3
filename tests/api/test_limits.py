"""Each limit of the contract and of a copy: at it, just under and just over."""

import asyncio
import json
from decimal import Decimal

import pytest
from tests.api.client import call, codes, post

from wallwright.api.app import contract_limits, create_app
from wallwright.api.outer import Outer
from wallwright.api.settings import Settings
from wallwright.lengths import MILLIMETRE
from wallwright.wire import limits

BASE = {"units": "mm", "length": 3600, "height": 2400}
OPENING = {"left": 1200, "width": 600, "height": 600, "sill": 900}
SHEET = {"width": 1200, "length": 2400, "thickness": 11}
BUILDING = {"units": "mm", "footprint": {"width": 4200, "depth": 3000}, "wall_height": 2400}


def number(grid: int) -> str:
    """Grid units as a JSON number of millimetres, exactly."""
    return format(Decimal(grid) / MILLIMETRE, "f")


def asked(path: str, base: dict, pointer: str, grid: int) -> bool:
    """Whether a length at a pointer is within the contract's range."""
    document = json.loads(json.dumps(base))
    *way, last = pointer.strip("/").split("/")
    place = document
    for step in way:
        place = place[int(step)] if isinstance(place, list) else place.setdefault(step, {})
    place[int(last) if isinstance(place, list) else last] = "@"
    answer = post(path, json.dumps(document).replace('"@"', number(grid)).encode())
    assert answer.status_code in (200, 400, 422), answer.text
    refused = {code for at, code in codes(answer) if at == pointer}
    return not refused & {"length-out-of-range", "length"}


WITH_STUD = {**BASE, "stud": {"thickness": 38, "width": 89}}
WITH_HEADER = {**BASE, "openings": [{**OPENING, "header": {"stock": {"thickness": 38, "width": 89}}}]}
WITH_MEETS = {**BASE, "ends": {"left": {"meets": {"depth": 89}}}}
WITH_PARTITION = {**BASE, "partitions": [{"at": 1200, "depth": 89}]}
WITH_PARTITION = {**BASE, "partitions": [{"at": 1200, "depth": 89}]}
WITH_RUN = {**BASE, "runs": [{"cut": "bore", "size": 20, "y": 600}]}
WITH_SHEET = {**BASE, "sheathing": {"sheet": SHEET}}
FRAME = {"units": "mm", "width": 4200, "height": 2400, "rising": 4840, "falling": 4835, "top": 4200, "right": 2400}
CHECKED = {
    **FRAME,
    "sheet": {"corner": "top-left", "along": 2400, "off": 2},
    "plumb": {"offset": 3, "over": 2000, "brace": {"up": 1500, "out": 1500}},
}
DECK = {
    "units": "mm",
    "sides": {"front": 4200, "right": 3000, "back": 4200, "left": 3000},
    "diagonals": {"front_left_to_back_right": 5161, "front_right_to_back_left": 5162},
    "wanted": {"width": 4200, "depth": 3000},
    "levels": {"front_left": 0, "front_right": 1, "back_right": 2, "back_left": 1},
}
ON_DECK = {**BUILDING, "deck": {name: DECK[name] for name in ("sides", "diagonals", "levels")}}
STRIP = {"thickness": 12, "width": 600, "length": 900, "count": 1}
SIZE = {"thickness": 12, "width": 1200, "length": 2400, "price": 20}
ORDER = {
    "units": "mm",
    "pieces": [{"stock": "2x4", "length": 900, "count": 1}],
    "offers": [{"stock": "2x4", "length": 2400, "price": 4}],
    "sheet_pieces": [STRIP],
    "sheet_offers": [SIZE],
}
FILLED = {**ORDER, "offers": [{"stock": {"thickness": 9, "width": 235}, "length": 2400, "price": 4}, *ORDER["offers"]]}
BUYING = [
    # A filler between a header's plies is bought as well, thinner than any stick that is framed.
    ("/v1/buying", FILLED, "/offers/0/stock/thickness", limits.FILLER_THICKNESS_MIN, limits.STUD_THICKNESS_MAX),
    ("/v1/buying", ORDER, "/pieces/0/length", limits.PIECE_LENGTH_MIN, limits.BOARD_LENGTH_MAX),
    ("/v1/buying", ORDER, "/offers/0/length", limits.BOARD_LENGTH_MIN, limits.BOARD_LENGTH_MAX),
    ("/v1/buying", ORDER, "/kerf", 0, limits.KERF_MAX),
    ("/v1/buying", ORDER, "/end_trim", 0, limits.END_TRIM_MAX),
    ("/v1/buying", ORDER, "/least_offcut", 0, limits.BOARD_LENGTH_MAX),
    ("/v1/buying", ORDER, "/sheet_pieces/0/thickness", limits.SHEET_THICKNESS_MIN, limits.SHEET_THICKNESS_MAX),
    ("/v1/buying", ORDER, "/sheet_pieces/0/width", limits.SHEET_PIECE_MIN, limits.SHEET_LENGTH_MAX),
    ("/v1/buying", ORDER, "/sheet_pieces/0/length", limits.SHEET_PIECE_MIN, limits.SHEET_LENGTH_MAX),
    ("/v1/buying", ORDER, "/sheet_offers/0/width", limits.SHEET_WIDTH_MIN, limits.SHEET_WIDTH_MAX),
    ("/v1/buying", ORDER, "/sheet_offers/0/length", limits.SHEET_LENGTH_MIN, limits.SHEET_LENGTH_MAX),
]
MEASURED, ACROSS, REACH = limits.MEASURED_MIN, limits.MEASURED_DIAGONAL_MAX, limits.OUT_OF_LINE_MAX
SQUARING = [
    ("/v1/squaring/frame", FRAME, "/width", MEASURED, limits.WALL_LENGTH_MAX),
    ("/v1/squaring/frame", FRAME, "/top", MEASURED, limits.WALL_LENGTH_MAX),
    ("/v1/squaring/frame", FRAME, "/height", MEASURED, limits.WALL_HEIGHT_MAX),
    ("/v1/squaring/frame", FRAME, "/right", MEASURED, limits.WALL_HEIGHT_MAX),
    ("/v1/squaring/frame", FRAME, "/rising", MEASURED, ACROSS),
    ("/v1/squaring/frame", FRAME, "/falling", MEASURED, ACROSS),
    ("/v1/squaring/frame", FRAME, "/tolerance", 1, limits.TOLERANCE_MAX),
    ("/v1/squaring/frame", FRAME, "/reading", 0, limits.READING_MAX),
    ("/v1/squaring/frame", CHECKED, "/sheet/along", MEASURED, limits.SHEET_LENGTH_MAX),
    ("/v1/squaring/frame", CHECKED, "/sheet/off", -REACH, REACH),
    ("/v1/squaring/frame", CHECKED, "/plumb/offset", -REACH, REACH),
    ("/v1/squaring/frame", CHECKED, "/plumb/over", MEASURED, limits.WALL_HEIGHT_MAX),
    ("/v1/squaring/frame", CHECKED, "/plumb/brace/up", MEASURED, limits.WALL_HEIGHT_MAX),
    ("/v1/squaring/frame", CHECKED, "/plumb/brace/out", MEASURED, limits.BRACE_OUT_MAX),
    ("/v1/squaring/deck", DECK, "/sides/front", MEASURED, limits.FOOTPRINT_MAX),
    ("/v1/squaring/deck", DECK, "/sides/left", MEASURED, limits.FOOTPRINT_MAX),
    ("/v1/squaring/deck", DECK, "/diagonals/front_left_to_back_right", MEASURED, ACROSS),
    ("/v1/squaring/deck", DECK, "/wanted/width", MEASURED, limits.FOOTPRINT_MAX),
    ("/v1/squaring/deck", DECK, "/wanted/depth", MEASURED, limits.FOOTPRINT_MAX),
    ("/v1/squaring/deck", DECK, "/levels/back_left", -REACH, REACH),
]
LENGTHS = [
    *SQUARING,
    *BUYING,
    ("/v1/layout", BASE, "/length", 1, limits.WALL_LENGTH_MAX),
    ("/v1/layout", BASE, "/height", 1, limits.WALL_HEIGHT_MAX),
    ("/v1/layout", BASE, "/spacing", limits.SPACING_MIN, limits.SPACING_MAX),
    ("/v1/layout", BASE, "/layout/tape_offset", -limits.TAPE_OFFSET_MAX, limits.TAPE_OFFSET_MAX),
    ("/v1/layout", BASE, "/plates/stock_length", limits.STOCK_LENGTH_MIN, limits.STOCK_LENGTH_MAX),
    ("/v1/layout", BASE, "/ends/left/sheathing_lap", -limits.LAP_MAX, limits.LAP_MAX),
    ("/v1/layout", BASE, "/ends/right/cap_lap", -limits.LAP_MAX, limits.LAP_MAX),
    ("/v1/layout", BASE, "/floor/rim", 0, limits.RIM_MAX),
    ("/v1/layout", BASE, "/floor/panel", 0, limits.PANEL_MAX),
    ("/v1/layout", BASE, "/sheathing/gap", 0, limits.SHEET_GAP_MAX),
    ("/v1/layout", BASE, "/sheathing/under_sheet", 0, limits.UNDER_SHEET_MAX),
    ("/v1/layout", WITH_SHEET, "/sheathing/sheet/width", limits.SHEET_WIDTH_MIN, limits.SHEET_WIDTH_MAX),
    ("/v1/layout", WITH_SHEET, "/sheathing/sheet/length", limits.SHEET_LENGTH_MIN, limits.SHEET_LENGTH_MAX),
    ("/v1/layout", WITH_SHEET, "/sheathing/sheet/thickness", limits.SHEET_THICKNESS_MIN, limits.SHEET_THICKNESS_MAX),
    ("/v1/layout", WITH_STUD, "/stud/thickness", limits.STUD_THICKNESS_MIN, limits.STUD_THICKNESS_MAX),
    ("/v1/layout", WITH_STUD, "/stud/width", limits.STUD_DEPTH_MIN, limits.STUD_DEPTH_MAX),
    ("/v1/layout", WITH_HEADER, "/openings/0/header/stock/thickness", limits.STOCK_THICKNESS_MIN, limits.STUD_THICKNESS_MAX),
    ("/v1/layout", WITH_HEADER, "/openings/0/header/stock/width", limits.STOCK_WIDTH_MIN, limits.STOCK_WIDTH_MAX),
    ("/v1/layout", WITH_MEETS, "/ends/left/meets/depth", limits.STUD_DEPTH_MIN, limits.STUD_DEPTH_MAX),
    ("/v1/layout", WITH_MEETS, "/ends/left/meets/slip_gap", 0, limits.SLIP_GAP_MAX),
    ("/v1/layout", WITH_PARTITION, "/partitions/0/at", 0, limits.WALL_LENGTH_MAX),
    ("/v1/layout", WITH_PARTITION, "/partitions/0/depth", limits.PARTITION_DEPTH_MIN, limits.STUD_DEPTH_MAX),
    ("/v1/layout", WITH_PARTITION, "/partitions/0/at", 0, limits.WALL_LENGTH_MAX),
    ("/v1/layout", WITH_PARTITION, "/partitions/0/depth", limits.PARTITION_DEPTH_MIN, limits.STUD_DEPTH_MAX),
    ("/v1/layout", WITH_RUN, "/runs/0/size", 1, limits.STUD_DEPTH_MAX),
    ("/v1/layout", WITH_RUN, "/runs/0/y", 0, limits.WALL_HEIGHT_MAX),
    ("/v1/layout", WITH_RUN, "/runs/0/left", 0, limits.WALL_LENGTH_MAX),
    ("/v1/layout", WITH_RUN, "/runs/0/right", 0, limits.WALL_LENGTH_MAX),
    ("/v1/layout", WITH_RUN, "/runs/0/edge", 0, limits.STUD_DEPTH_MAX),
    ("/v1/building", BUILDING, "/footprint/width", 1, limits.FOOTPRINT_MAX),
    ("/v1/building", BUILDING, "/footprint/depth", 1, limits.FOOTPRINT_MAX),
    ("/v1/building", BUILDING, "/wall_height", 1, limits.WALL_HEIGHT_MAX),
    ("/v1/building", BUILDING, "/slip_gap", 0, limits.SLIP_GAP_MAX),
    ("/v1/building", ON_DECK, "/deck/sides/back", MEASURED, limits.FOOTPRINT_MAX),
    ("/v1/building", ON_DECK, "/deck/diagonals/front_right_to_back_left", MEASURED, ACROSS),
    ("/v1/building", ON_DECK, "/deck/levels/front_left", -REACH, REACH),
    ("/v1/building", ON_DECK, "/deck/reading", 0, limits.READING_MAX),
]  # fmt: skip


@pytest.mark.parametrize(("path", "base", "pointer", "least", "most"), LENGTHS, ids=[case[2] for case in LENGTHS])
def test_each_length_at_its_limits_and_one_grid_unit_past(path, base, pointer, least, most):
    taken = [asked(path, base, pointer, grid) for grid in (least - 1, least, least + 1, most - 1, most, most + 1)]
    assert taken == [False, True, True, True, True, False]


def wall(**changes: object) -> bytes:
    return json.dumps({**BASE, **changes}).encode()


COUNTS = [
    ("/openings", lambda n: wall(openings=[OPENING] * n), limits.OPENINGS_MAX, "count"),
    ("/partitions", lambda n: wall(partitions=[{"at": 600, "depth": 89}] * n), limits.PARTITIONS_MAX, "count"),
    ("/runs", lambda n: wall(runs=[{"cut": "bore", "size": 20, "y": 600}] * n), limits.RUNS_MAX, "count"),
    ("/floor/anchors", lambda n: wall(floor={"anchors": [600] * n}), limits.ANCHORS_MAX, "count"),
    ("/name", lambda n: wall(name="n" * n), limits.NAME_MAX, "value"),
    ("/openings/0/jacks", lambda n: wall(openings=[{**OPENING, "jacks": n}]), limits.JACKS_MAX, "value"),
    (
        "/openings/0/header/plies",
        lambda n: wall(openings=[{**OPENING, "header": {"stock": "2x4", "plies": n}}]),
        limits.PLIES_MAX,
        "value",
    ),
    ("/top/rise", lambda n: wall(top={"rise": n}), limits.SLOPE_MAX, "value"),
    ("/length", lambda n: wall(length=n), limits.NUMBER_MAX, "length"),
]


@pytest.mark.parametrize(("pointer", "body", "most", "code"), COUNTS, ids=[case[0] for case in COUNTS])
def test_each_count_at_its_limit_and_one_past(pointer, body, most, code):
    for count, broken in ((most - 1, False), (most, False), (most + 1, True)):
        assert ((pointer, code) in codes(post("/v1/layout", body(count)))) == broken, count


def order(**changes: object) -> bytes:
    return json.dumps({**ORDER, **changes}).encode()


PIECE, BOARDS = ORDER["pieces"][0], ORDER["offers"][0]
TINY = {"units": "mm", "length": 2, "height": 2}
"""A wall or building that is refused at once, so that only its number is judged."""
HOUSE = {"units": "mm", "footprint": {"width": 2, "depth": 2}, "wall_height": 2}
BUYING_COUNTS = [
    ("/pieces", lambda n: order(pieces=[PIECE] * n), limits.PIECES_MAX, "count"),
    ("/walls", lambda n: order(walls=[TINY] * n), limits.ORDER_WALLS_MAX, "count"),
    ("/buildings", lambda n: order(buildings=[HOUSE] * n), limits.ORDER_BUILDINGS_MAX, "count"),
    ("/offers", lambda n: order(offers=[BOARDS] * n), limits.OFFERS_MAX, "count"),
    ("/sheet_pieces", lambda n: order(sheet_pieces=[STRIP] * n), limits.SHEET_PIECES_MAX, "count"),
    ("/sheet_offers", lambda n: order(sheet_offers=[SIZE] * n), limits.OFFERS_MAX, "count"),
    ("/pieces/0/count", lambda n: order(pieces=[{**PIECE, "count": n}]), limits.PIECE_COUNT_MAX, "value"),
    ("/offers/0/at_most", lambda n: order(offers=[{**BOARDS, "at_most": n}]), limits.PIECE_COUNT_MAX, "value"),
    ("/offers/0/price", lambda n: order(offers=[{**BOARDS, "price": n}]), limits.PRICE_MAX, "value"),
    (
        "/sheet_pieces/0/count",
        lambda n: order(sheet_pieces=[{**STRIP, "count": n}]),
        limits.SHEET_PIECE_COUNT_MAX,
        "value",
    ),
    ("/spare_percent", lambda n: order(spare_percent=n), limits.SPARE_PERCENT_MAX, "value"),
    ("/tax_percent", lambda n: order(tax_percent=n), limits.TAX_PERCENT_MAX, "value"),
]


@pytest.mark.parametrize(("pointer", "body", "most", "code"), BUYING_COUNTS, ids=[case[0] for case in BUYING_COUNTS])
def test_each_count_of_an_order_at_its_limit_and_one_past(pointer, body, most, code):
    for count, broken in ((most - 1, False), (most, False), (most + 1, True)):
        answer = post("/v1/buying", body(count))
        assert answer.status_code in ((400,) if broken else (200, 422)), answer.text
        assert (pointer, code) in codes(answer) if broken else (pointer, code) not in codes(answer), count


def test_limits_are_served_in_both_systems_of_units():
    served = call("GET", "/v1/limits").json()["contract"]
    assert served == contract_limits()
    assert served["wall_length_max"] == {"in": 1200, "mm": 30480}
    assert served["openings_max"] == limits.OPENINGS_MAX


@pytest.mark.parametrize(("size", "status"), [(1999, 200), (2000, 200), (2001, 413)])
@pytest.mark.parametrize("chunked", [False, True])
def test_bodies_at_the_limit(size, status, chunked):
    app = create_app(Settings(body_bytes=2000))
    body = wall().ljust(size)

    async def pieces():
        yield body[:700]
        yield body[700:]

    content = pieces() if chunked else body
    answer = call("POST", "/v1/layout", app, content=content, headers={"content-type": "application/json"})
    assert answer.status_code == status


@pytest.mark.parametrize(("size", "status"), [(299, 200), (300, 200), (301, 414)])
def test_targets_at_the_limit(size, status):
    app = create_app(Settings(url_bytes=300))
    query = "x" * (size - len("/health"))
    assert call("GET", f"/health?{query}", app).status_code == status


def test_work_past_the_concurrency_is_sent_away_and_health_still_answers():
    app = create_app(Settings(concurrency=2))
    assert isinstance(app, Outer)
    for under_way, status in ((1, 200), (2, 503), (3, 503)):
        app.work.under_way = under_way
        answer = call("POST", "/v1/layout", app, content=wall(), headers={"content-type": "application/json"})
        assert answer.status_code == status
        assert call("GET", "/health", app).status_code == 200
        if status == 503:
            assert answer.headers["retry-after"] == "1"
            assert answer.json()["code"] == "busy"


def test_requests_past_those_that_may_be_inside_are_sent_away_and_health_still_answers():
    app = create_app(Settings(inside=2))
    assert isinstance(app, Outer)
    for inside, status in ((1, 200), (2, 503), (3, 503)):
        app.under_way = inside
        assert call("GET", "/v1/examples/layout", app).status_code == status
        assert call("GET", "/health", app).status_code == 200


# Counted as they travel: name, colon and space, value, line end.
@pytest.mark.parametrize(("spare", "status"), [(1, 200), (0, 200), (-1, 431)])
def test_headers_at_the_limit_of_their_size(spare, status):
    app = create_app(Settings(header_bytes=2000))
    headers = {"host": "test", "accept": "*/*", "accept-encoding": "x", "connection": "close", "user-agent": "t"}
    size = sum(len(name) + len(value) + 4 for name, value in headers.items())
    headers["x-pad"] = "y" * (2000 - size - len("x-pad") - 4 - spare)
    assert call("GET", "/health", app, headers=headers).status_code == status


@pytest.mark.parametrize(("fields", "status"), [(19, 200), (20, 200), (21, 431)])
def test_headers_at_the_limit_of_their_number(fields, status):
    app = create_app(Settings(header_fields=20))
    headers = {"host": "test", "accept": "*/*", "accept-encoding": "x", "connection": "close", "user-agent": "t"}
    headers |= {f"x-{number}": "y" for number in range(fields - len(headers))}
    assert call("GET", "/health", app, headers=headers).status_code == status


@pytest.mark.parametrize(("wait", "status"), [(1, 408), (3, 200)])
def test_a_body_that_takes_longer_than_it_may_is_408(wait, status):
    app = create_app(Settings(body_wait_seconds=wait))

    async def slowly():
        yield wall()[:10]
        await asyncio.sleep(1.5)
        yield wall()[10:]

    answer = call("POST", "/v1/layout", app, content=slowly(), headers={"content-type": "application/json"})
    assert answer.status_code == status
