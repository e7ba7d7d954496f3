"""Hostile bytes on a socket, against the server as the command starts it."""

import re
import socket
import time

import pytest
from tests.contract.servers import BODY, HEAD, said, service, status, with_length


@pytest.fixture(scope="module")
def port():
    with service(body_wait_seconds=1) as one:
        yield one.port


def test_an_honest_request_is_answered(port):
    answer = said(port, with_length(BODY))
    assert status(answer) == 200
    assert b"\r\nserver:" not in answer.lower()


def test_a_body_that_comes_in_pieces_is_answered(port):
    whole = with_length(BODY)
    assert status(said(port, *(whole[at : at + 20] for at in range(0, len(whole), 20)))) == 200


def test_a_body_shorter_than_it_says_is_408_as_a_problem(port):
    began = time.monotonic()
    answer = said(port, with_length(BODY, len(BODY) + 50))
    assert status(answer) == 408
    assert b"application/problem+json" in answer
    assert b"connection: close" in answer.lower()
    assert time.monotonic() - began < 5


def test_a_body_larger_than_the_limit_is_413_by_its_length_and_by_its_chunks(port):
    assert status(said(port, with_length(b"", 10_000_000))) == 413
    chunk = b"8000\r\n" + b" " * 0x8000 + b"\r\n"
    assert status(said(port, HEAD + b"Transfer-Encoding: chunked\r\n\r\n", *([chunk] * 9))) == 413


def test_a_good_body_in_chunks_is_answered(port):
    chunked = b"%x\r\n%b\r\n0\r\n\r\n" % (len(BODY), BODY)
    assert status(said(port, HEAD + b"Transfer-Encoding: chunked\r\n\r\n" + chunked)) == 200


@pytest.mark.parametrize(
    "raw",
    [
        HEAD + b"Transfer-Encoding: chunked\r\n\r\nzz\r\nabc\r\n",
        HEAD + b"Content-Length: -5\r\n\r\n",
        HEAD + b"Content-Length: 5\r\nContent-Length: 6\r\n\r\nabcde",
        b"nonsense\r\n\r\n",
        b"\x16\x03\x01\x02\x00\x01\x00\x01\xfc\x03\x03" + b"\x00" * 50 + b"\r\n\r\n",
        b"GET /health HTTP/1.1\r\nHost: x\r\nBad Header\r\n\r\n",
        b"GET /he\x00alth HTTP/1.1\r\nHost: x\r\n\r\n",
    ],
)
def test_what_is_no_http_is_400_and_tells_nothing(port, raw):
    answer = said(port, raw)
    assert status(answer) in (0, 400)
    for secret in (b"Traceback", b"uvicorn", b"site-packages", b"httptools"):
        assert secret not in answer


def test_long_targets_and_large_headers_are_refused(port):
    assert status(said(port, b"GET /health?" + b"x" * 13_000 + b" HTTP/1.1\r\nHost: x\r\n\r\n")) == 414
    many = b"".join(b"X-%d: %s\r\n" % (number, b"y" * 400) for number in range(100))
    assert status(said(port, b"GET /health HTTP/1.1\r\nHost: x\r\n" + many + b"\r\n")) == 431


@pytest.mark.parametrize("target", [b"/health", b"/nope", b"/v1/layout", b"/v1/examples/boat-store"])
def test_head_has_the_length_and_no_body(port, target):
    head, _, body = said(port, b"HEAD %b HTTP/1.1\r\nHost: x\r\n\r\n" % target, wait=0.3).partition(b"\r\n\r\n")
    assert body == b""
    assert int(re.search(rb"content-length: ([0-9]+)", head)[1]) > 0


def test_callers_that_leave_in_the_middle_do_no_harm(port):
    for cut in (10, 80, len(with_length(BODY)) - 5):
        with socket.create_connection(("127.0.0.1", port), 5) as line:
            line.sendall(with_length(BODY)[:cut])
    assert status(said(port, with_length(BODY))) == 200


def test_two_requests_on_one_line_are_both_answered(port):
    with socket.create_connection(("127.0.0.1", port), 5) as line:
        line.sendall(b"GET /health HTTP/1.1\r\nHost: x\r\n\r\n" * 2)
        line.settimeout(5)
        found = b""
        while found.count(b'{"status":"ok"}') < 2:
            more = line.recv(65536)
            assert more
            found += more


def test_a_stop_signal_ends_it_soon_even_with_a_slow_body_open():
    with service(body_wait_seconds=1) as one, socket.create_connection(("127.0.0.1", one.port), 5) as line:
        line.sendall(with_length(b"{", 100))
        time.sleep(0.2)
        assert one.stop(seconds=15) == 0


UPGRADE = HEAD + b"Connection: Upgrade, HTTP2-Settings\r\nUpgrade: h2c\r\nHTTP2-Settings: AA\r\n"
NEXT = b"GET /version HTTP/1.1\r\nHost: x\r\n\r\n"


def statuses(port, *pieces):
    """The statuses of all answers on one connection, and what came last."""
    with socket.create_connection(("127.0.0.1", port), 5) as line:
        line.settimeout(1)
        found = b""
        try:
            for piece in pieces:
                line.sendall(piece)
                time.sleep(0.05)
            while more := line.recv(65536):
                found += more
        except TimeoutError:
            pass
    return [int(code) for code in re.findall(rb"HTTP/1\.1 ([0-9]{3})", found)], found


@pytest.mark.parametrize(
    "pieces",
    [
        (UPGRADE + b"Content-Length: %d\r\n\r\n" % len(BODY) + BODY + NEXT,),
        (UPGRADE + b"Content-Length: %d\r\n\r\n" % len(BODY), BODY, NEXT),
        (UPGRADE + b"Transfer-Encoding: chunked\r\n\r\n%x\r\n" % len(BODY), BODY + b"\r\n0\r\n\r\n" + NEXT),
        (NEXT.replace(b"\r\n\r\n", b"\r\nConnection: Upgrade\r\nUpgrade: h2c\r\n\r\n") + NEXT,),
    ],
    ids=["whole", "split", "chunked", "without a body"],
)
def test_an_upgrade_is_passed_over_and_its_request_answered(port, pieces):
    """RFC 9110, section 7.8: a server may ignore Upgrade; clients of plain HTTP send it in passing."""
    assert statuses(port, *pieces)[0] == [200, 200]


@pytest.mark.parametrize("target", [b"/v1/layout", b"/health", b"/nope"])
@pytest.mark.parametrize("cut", [False, True])
def test_a_body_beside_an_upgrade_is_never_taken_for_a_request(port, target, cut):
    head = UPGRADE.replace(b"/v1/layout", target) + b"Content-Length: %d\r\n\r\n" % len(NEXT)
    codes, found = statuses(port, *((head, NEXT) if cut else (head + NEXT,)))
    assert len(codes) == 1
    assert b'"version"' not in found


def test_many_upgrades_on_one_line_are_all_answered(port):
    """As many as one read may hold: none costs a level of the stack."""
    one = NEXT.replace(b"\r\n\r\n", b"\r\nConnection: Upgrade\r\nUpgrade: h2c\r\n\r\n")
    codes, _ = statuses(port, one * 1500)
    assert codes == [200] * 1500
