"""What an operator sees: readiness, metrics, timing, log lines, and browsers of other origins."""

import json
import logging
import re
import sys

import httpx
import pytest
from tests.api.client import JSON, WALL, call, post

from wallwright import __version__
from wallwright.api import golden
from wallwright.api.app import create_app
from wallwright.api.board import BUCKETS, STATUSES, Board
from wallwright.api.logs import Lines
from wallwright.api.outer import Outer
from wallwright.api.problems import PROBLEMS
from wallwright.api.settings import Settings
from wallwright.operations.table import OPERATIONS

BODY = json.dumps(WALL).encode()


def app(**settings: int) -> Outer:
    return create_app(Settings(**settings))


def samples(text: str) -> dict[str, float]:
    """Prometheus text format 0.0.4: every line is a comment or a sample of a family that was told before."""
    found: dict[str, float] = {}
    families: dict[str, str] = {}
    for line in text.splitlines():
        if line.startswith("# TYPE "):
            _, _, name, kind = line.split(" ")
            assert name not in families
            families[name] = kind
        elif not line.startswith("# HELP "):
            match = re.fullmatch(r'([a-z_]+)(\{(?:[a-z]+="[^"\\\n]*",?)*\})? ([0-9.]+)', line)
            assert match, line
            base = re.sub(r"_(bucket|sum|count)$", "", match[1]) if match[1] not in families else match[1]
            assert base in families, line
            assert (match[1] == base) == (families[base] != "histogram")
            assert line.rpartition(" ")[0] not in found, line
            found[match[1] + (match[2] or "")] = float(match[3])
    assert text.endswith("\n")
    return found


def scraped(of: Outer) -> dict[str, float]:
    answer = call("GET", "/metrics", of)
    assert answer.headers["content-type"] == "text/plain; version=0.0.4; charset=utf-8"
    return samples(answer.text)


def test_a_stopping_copy_lives_and_is_not_ready():
    one = app()
    assert call("GET", "/ready", one).json() == {"status": "ready"}
    one.board.stop()
    answer = call("GET", "/ready", one)
    assert (answer.status_code, answer.json()["code"]) == (503, "not-ready")
    assert call("GET", "/health", one).status_code == 200
    assert call("POST", "/v1/layout", one, content=BODY, headers=JSON).status_code == 200
    assert scraped(one)["wallwright_stopping"] == 1


def test_a_copy_that_answers_otherwise_than_committed_lives_and_is_not_ready(monkeypatch, caplog):
    wanted = golden.committed()
    assert {name.partition(".")[0] for name in wanted} == {
        operation.name for operation in OPERATIONS if not operation.slow
    }
    monkeypatch.setattr(golden, "committed", lambda: {**wanted, "layout.svg": "0" * 64})
    golden.differing.cache_clear()
    try:
        one = app()
        assert caplog.records[-1].msg["examples"] == ("layout.svg",)
        answer = call("GET", "/ready", one)
        assert (answer.status_code, answer.json()["code"]) == (503, "not-ready")
        assert call("GET", "/health", one).status_code == 200
    finally:
        golden.differing.cache_clear()


def test_answers_are_counted_by_route_template_and_by_code():
    one = app()
    for _ in range(3):
        assert call("POST", "/v1/layout", one, content=BODY, headers=JSON).status_code == 200
    call("POST", "/v1/layout", one, content=b"{", headers=JSON)
    call("GET", "/v1/examples/layout", one)
    call("GET", "/v1/examples/my-private-shed", one)
    call("GET", "/my-private-shed", one)
    call("DELETE", "/v1/layout", one)
    call("GET", "/health?private", one)
    found = scraped(one)
    assert found['wallwright_requests_total{route="/v1/layout",status="200"}'] == 3
    assert found['wallwright_requests_total{route="/v1/layout",status="400"}'] == 1
    assert found['wallwright_requests_total{route="/v1/layout",status="405"}'] == 1
    assert found['wallwright_requests_total{route="/v1/examples/{name}",status="404"}'] == 1
    assert found['wallwright_requests_total{route="unmatched",status="404"}'] == 1
    assert found['wallwright_requests_total{route="/health",status="200"}'] == 1
    assert found['wallwright_request_seconds_count{route="/v1/layout"}'] == 5
    assert found['wallwright_request_seconds_bucket{route="/v1/layout",le="+Inf"}'] == 5
    assert 0 < found['wallwright_request_seconds_sum{route="/v1/layout"}'] < 10
    assert found['wallwright_problems_total{code="not-json"}'] == 1
    assert found['wallwright_problems_total{code="not-found"}'] == 2
    assert found[f'wallwright_build_info{{version="{__version__}"}}'] == 1
    assert found["wallwright_inside"] == found["wallwright_working"] == 0
    assert not [name for name in found if "private" in name]


def test_what_was_refused_for_being_busy_is_counted():
    one = app(concurrency=1)
    one.work.under_way = 1
    assert call("POST", "/v1/layout", one, content=BODY, headers=JSON).status_code == 503
    found = scraped(one)
    assert found['wallwright_problems_total{code="busy"}'] == 1
    assert found['wallwright_requests_total{route="/v1/layout",status="503"}'] == 1


def test_buckets_are_cumulative_and_a_time_on_an_edge_lies_below_it():
    board = Board()
    board.name(["/a"])
    for seconds in (*BUCKETS, 11):
        board.count("/a", 200, seconds)
    found = samples(board.text("0"))
    counts = [found[f'wallwright_request_seconds_bucket{{route="/a",le="{edge}"}}'] for edge in (*BUCKETS, "+Inf")]
    assert counts == list(range(1, len(BUCKETS) + 2))


def test_routes_named_anew_keep_what_was_counted_in_every_row():
    board = Board(2)
    board.name(["/a", "/b"])
    for row in (0, 1):
        board.row = row
        board.started(row)
        board.load(2, 1)
        board.count("/b", 503, 0.2, "busy")
    board.name(["/c", "/b", "/d"])
    board.count("/d", 200, 0.1)
    found = samples(board.text("0"))
    assert found["wallwright_workers"] == found["wallwright_worker_starts_total"] == 2
    assert (found["wallwright_inside"], found['wallwright_problems_total{code="busy"}']) == (4, 2)
    assert found['wallwright_requests_total{route="/b",status="503"}'] == 2
    assert found['wallwright_requests_total{route="/d",status="200"}'] == 1
    assert found['wallwright_request_seconds_sum{route="/b"}'] == pytest.approx(0.4)
    assert not [name for name in found if '"/a"' in name or '"/c"' in name]


def test_rows_of_workers_add_up_and_outlive_them():
    board = Board(2)
    board.name(["/a"])
    for row in (0, 1):
        board.row = row
        board.started(row)
        board.load(3, 2)
        board.resident()
        board.count("/a", 200, 0.1)
        board.count("/a", 599, 0.1)
    found = samples(board.text("0"))
    assert found["wallwright_workers"] == found["wallwright_worker_starts_total"] == 2
    assert (found["wallwright_inside"], found["wallwright_working"]) == (6, 4)
    assert found['wallwright_worker_peak_resident_bytes{worker="1"}'] > 1e6
    board.ended(1)
    board.started(1)
    after = samples(board.text("0"))
    assert (after["wallwright_inside"], after["wallwright_working"]) == (3, 2)
    assert after["wallwright_worker_starts_total"] == 3
    assert after['wallwright_requests_total{route="/a",status="200"}'] == 2
    assert after['wallwright_requests_total{route="/a",status="other"}'] == 2


def test_every_status_of_a_problem_has_a_counter():
    assert {kind.status for kind in PROBLEMS.values()} <= set(STATUSES)


def test_answers_say_how_long_they_stood_in_line_and_were_computed():
    timing = post("/v1/layout", BODY).headers["server-timing"]
    parts = dict(re.fullmatch(r"([a-z]+);dur=([0-9.]+)", part).groups() for part in timing.split(", "))
    assert list(parts) == ["queue", "work", "total"]
    assert 0 < float(parts["work"]) <= float(parts["total"]) + 0.01
    assert re.fullmatch(r"total;dur=[0-9.]+", call("GET", "/v1/limits").headers["server-timing"])


# Fetch standard, CORS-preflight: JSON is no simple content type, so a browser asks first.
@pytest.mark.parametrize(
    ("path", "methods"), [("/v1/layout", "POST"), ("/v1/layout.svg", "GET"), ("/v1/limits", "GET")]
)
def test_browsers_of_other_origins_may_ask(path, methods):
    headers = {"origin": "https://other.example", "access-control-request-method": methods,
               "access-control-request-headers": "content-type,x-request-id"}  # fmt: skip
    answer = call("OPTIONS", path, headers=headers)
    assert answer.status_code == 204
    assert answer.headers["access-control-allow-origin"] == "*"
    assert methods in answer.headers["access-control-allow-methods"].split(", ")
    allowed = answer.headers["access-control-allow-headers"].lower().split(", ")
    assert {"content-type", "x-request-id"} <= set(allowed)
    assert "access-control-allow-credentials" not in answer.headers
    assert "etag" in call("GET", "/v1/limits").headers["access-control-expose-headers"].lower()


def test_a_request_names_one_host():
    twice = [("host", "a"), ("host", "b")]
    answer = call("GET", "/health", headers=httpx.Headers(twice))
    assert (answer.status_code, answer.json()["code"]) == (400, "no-host")


@pytest.mark.parametrize("host", ["a b", "<x>", "[::1", "a:b", "a/b", "a@b"])
def test_a_host_that_is_none_is_told_as_such_and_not_as_a_body_that_is_no_json(host):
    """RFC 9112, section 3.2: an invalid Host is 400."""
    answer = call("GET", "/version", headers={"host": host})
    assert (answer.status_code, answer.json()["code"]) == (400, "no-host")


@pytest.mark.parametrize("host", ["", "a", "a.b:80", "[::1]:8137", "127.0.0.1"])
def test_each_form_of_a_host_is_taken(host):
    assert call("GET", "/version", headers={"host": host}).status_code == 200


def test_a_failure_is_one_line_with_its_request_id_and_no_text_of_its_own():
    try:
        {}["my private shed"]
    except KeyError:
        record = logging.LogRecord(
            "wallwright", logging.ERROR, "", 0, {"message": "request failed", "request_id": "a1"}, (), sys.exc_info()
        )
    text = Lines().format(record)
    line = json.loads(text)
    assert "\n" not in text
    assert "private" not in text
    assert (line["request_id"], line["exception"], line["level"]) == ("a1", "KeyError", "error")
    assert re.fullmatch(r"test_operation\.py:[0-9]+ test_\w+", line["places"][0])


def test_foreign_records_become_lines_too():
    record = logging.LogRecord("uvicorn.error", logging.WARNING, "", 0, "Invalid %s\nreceived", ("request",), None)
    line = json.loads(Lines().format(record))
    assert line["message"] == "Invalid request\nreceived"
    assert line["time"].endswith("+00:00")
