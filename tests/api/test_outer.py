"""The outermost layer alone, over an application of the test's own."""

import asyncio
import json
import logging
from typing import Any

from wallwright.api.logs import Lines
from wallwright.api.outer import Outer
from wallwright.api.settings import Settings


def answered(
    app: Any, method: str = "GET", path: str = "/x", headers: list[tuple[bytes, bytes]] | None = None
) -> list[Any]:
    """Every message sent for one request."""
    scope = {
        "type": "http", "method": method, "path": path, "raw_path": path.encode(), "query_string": b"secret=1",
        "headers": headers or [],
    }  # fmt: skip
    sent: list[Any] = []

    async def receive() -> dict[str, Any]:
        return {"type": "http.request", "body": b"", "more_body": False}

    async def send(message: Any) -> None:
        sent.append(message)

    asyncio.run(Outer(app, Settings())(scope, receive, send))
    return sent


async def whole(scope, receive, send):
    await send({"type": "http.response.start", "status": 200, "headers": [(b"content-length", b"4")]})
    await send({"type": "http.response.body", "body": b"body"})


async def broken(scope, receive, send):
    raise RuntimeError("secret place")


async def broken_halfway(scope, receive, send):
    await send({"type": "http.response.start", "status": 200, "headers": []})
    raise RuntimeError("secret place")


def test_head_keeps_the_length_and_sends_no_body():
    start, body = answered(whole, "HEAD")
    assert dict(start["headers"])[b"content-length"] == b"4"
    assert body["body"] == b""
    assert answered(whole)[1]["body"] == b"body"


def test_what_escapes_the_application_is_a_problem_that_tells_nothing():
    start, body = answered(broken)
    assert start["status"] == 500
    assert json.loads(body["body"])["code"] == "internal"
    assert b"secret" not in body["body"]
    assert dict(start["headers"])[b"x-content-type-options"] == b"nosniff"


def test_an_answer_that_broke_halfway_gets_no_second_start():
    assert [message["type"] for message in answered(broken_halfway)] == ["http.response.start"]


def test_work_under_way_is_counted_down_also_when_it_breaks():
    outer = Outer(broken, Settings())
    scope = {"type": "http", "method": "GET", "path": "/x", "raw_path": b"/x", "query_string": b"", "headers": []}

    async def nothing(*_):
        return {"type": "http.request"}

    asyncio.run(outer(scope, nothing, nothing))
    assert outer.under_way == 0


def test_a_request_id_of_good_form_is_kept_and_any_other_is_made_anew():
    kept = answered(whole, headers=[(b"x-request-id", b"a-1.b_2")])[0]
    assert dict(kept["headers"])[b"x-request-id"] == b"a-1.b_2"
    for bad in (b"", b"a b", b"x" * 65, b"\xff", b"a\r\nb: c"):
        made = dict(answered(whole, headers=[(b"x-request-id", bad)])[0]["headers"])[b"x-request-id"]
        assert made != bad
        assert len(made) == 32


def test_the_log_line_holds_nothing_of_the_caller(caplog):
    with caplog.at_level(logging.INFO, "wallwright.access"):
        answered(whole, path="/private-name")
        answered(whole, path="/health")
    assert len(caplog.records) == 1
    line = json.loads(Lines().format(caplog.records[0]))
    assert line["route"] == "unmatched"
    assert line["status"] == 200
    assert line["bytes"] == 4
    assert "private" not in caplog.text
    assert "secret" not in caplog.text


def asked(outer: Outer, *requests: tuple[str, str], then: Any = None) -> list[tuple[int, bytes]]:
    """Status and body of requests that are asked together, in the order of the requests; ``then`` happens meanwhile."""

    async def one(method: str, path: str) -> tuple[int, bytes]:
        sent: list[Any] = []

        async def send(message: Any) -> None:
            sent.append(message)

        async def receive() -> dict[str, Any]:
            return {"type": "http.request", "body": b"", "more_body": False}

        scope = {
            "type": "http", "method": method, "path": path, "raw_path": path.encode(), "query_string": b"", "headers": [],
        }  # fmt: skip
        await outer(scope, receive, send)
        return sent[0]["status"], b"".join(message.get("body", b"") for message in sent[1:])

    async def all_of_them() -> list[tuple[int, bytes]]:
        tasks = [asyncio.create_task(one(*request)) for request in requests]
        await asyncio.sleep(0.05)
        if then is not None:
            then(tasks)
        return list(await asyncio.gather(*tasks))

    return asyncio.run(all_of_them())


def test_before_its_application_is_there_a_service_lives_is_not_ready_and_whoever_asks_for_more_waits():
    outer = Outer(None, Settings())

    def then(tasks):
        assert [task.done() for task in tasks] == [True, True, True, False]
        assert outer.under_way == 1
        outer.open(whole, ["/health", "/ready", "/x"])

    health, head, ready, other = asked(
        outer, ("GET", "/health"), ("HEAD", "/health"), ("GET", "/ready"), ("GET", "/x"), then=then
    )
    assert health == (200, b'{"status":"ok"}')
    assert head == (200, b"")
    assert (ready[0], json.loads(ready[1])["code"]) == (503, "not-ready")
    assert other == (200, b"body")
    assert outer.under_way == 0
    # What was counted before the routes were named is kept.
    text = outer.board.text("0")
    assert 'wallwright_requests_total{route="/health",status="200"} 2\n' in text
    assert 'wallwright_requests_total{route="/ready",status="503"} 1\n' in text
    assert 'wallwright_requests_total{route="/x",status="200"} 1\n' in text
    assert 'wallwright_problems_total{code="not-ready"} 1\n' in text


def test_those_who_wait_for_the_application_are_not_more_than_may_be_inside():
    outer = Outer(None, Settings(inside=2))
    requests = [("GET", "/x")] * 4 + [("GET", "/health")]
    found = asked(outer, *requests, then=lambda _: outer.open(whole, ["/x"]))
    assert [status for status, _ in found] == [200, 200, 503, 503, 200]


def test_it_is_ready_once_its_examples_have_come_out_as_they_should():
    outer = Outer(whole, Settings())
    assert outer.not_ready().detail.startswith("This copy has just started")
    outer.tried(["layout.svg"])
    assert outer.not_ready().detail.startswith("This copy answers its own examples otherwise")
    outer.tried([])
    assert outer.not_ready() is None
    outer.board.stop()
    assert outer.not_ready().detail == "This copy is stopping."
