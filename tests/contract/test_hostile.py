"""Raw hostile requests: never a 500, never a leak, one error shape, and an honest caller is served after each."""

import pytest
from tests.contract.hostile import PARSER, cases, wrong
from tests.contract.servers import BODY, said, service, status, with_length


@pytest.fixture(scope="module")
def port():
    with service(body_wait_seconds=1) as one:
        yield one.port


@pytest.mark.parametrize(
    ("name", "pieces", "allowed"), cases(), ids=lambda value: value if isinstance(value, str) else ""
)
def test_a_hostile_request_gets_what_it_may_and_nothing_else(port, name, pieces, allowed):
    assert wrong(said(port, *pieces, wait=10), allowed) == ""


def test_an_honest_request_is_answered_after_all_that(port):
    assert status(said(port, with_length(BODY))) == 200


def test_there_are_many_and_their_judge_sees_what_is_wrong():
    assert len(cases()) >= 60
    safe = b"x-content-type-options: nosniff\r\n"
    assert "status" in wrong(b"HTTP/1.1 500 X\r\n\r\n", {400})
    assert "leaks" in wrong(b"HTTP/1.1 200 X\r\n" + safe + b"\r\nTraceback", {200})
    assert "shape" in wrong(b"HTTP/1.1 400 X\r\n" + safe + b"content-type: text/plain\r\n\r\nno", {400})
    assert "security" in wrong(b"HTTP/1.1 200 X\r\n\r\n{}", {200})
    assert wrong(b"HTTP/1.1 400 X\r\n\r\n" + PARSER, {400}) == ""
