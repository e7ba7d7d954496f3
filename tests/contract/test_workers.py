"""The command with one worker and with several: signals, deaths, draining, what it says when it cannot start."""

import json
import os
import signal
import socket
import subprocess
import sys
import time

import pytest
from tests.contract.servers import BODY, Service, environment, free_port, lines, said, service, with_length

from wallwright.api.probe import probed


def run(*arguments: str, **settings: object) -> subprocess.CompletedProcess[str]:
    command = [sys.executable, "-m", "wallwright.command", *arguments]
    return subprocess.run(command, env=environment(**settings), capture_output=True, text=True, timeout=60)


def until(holds, seconds: float = 10) -> bool:
    end = time.monotonic() + seconds
    while time.monotonic() < end:
        if holds():
            return True
        time.sleep(0.02)
    return False


def test_a_port_that_is_taken_is_told_before_any_welcome():
    with socket.socket() as taken:
        taken.bind(("127.0.0.1", 0))
        taken.listen()
        for workers in ("1", "3"):
            told = run("serve", "--port", str(taken.getsockname()[1]), "--workers", workers)
            assert told.returncode == 1
            assert told.stdout == ""
            assert told.stderr.startswith("cannot listen at 127.0.0.1 port")
            assert "Traceback" not in told.stderr


def test_a_host_that_is_none_of_ours_is_told():
    told = run("serve", "--port", str(free_port()), "--host", "192.0.2.7")
    assert (told.returncode, told.stdout) == (1, "")
    assert "cannot listen at 192.0.2.7" in told.stderr


def test_a_wrong_setting_is_told_before_any_welcome():
    told = run("serve", "--port", str(free_port()), speed=9, examples=20)
    assert (told.returncode, told.stdout) == (2, "")
    assert "WALLWRIGHT_SPEED is no setting" in told.stderr
    assert "WALLWRIGHT_EXAMPLES is no setting" in told.stderr


def test_it_lives_before_it_is_ready_and_who_asks_before_is_answered_right():
    one = Service()
    try:
        assert until(lambda: probed(f"http://127.0.0.1:{one.port}", "/health", 20) == "")
        early = one.get("/ready")[0]
        assert one.post("/v1/layout", BODY)[0] == 200
        one.wait()
        assert early == 503
        assert 'wallwright_problems_total{code="not-ready"}' in one.get("/metrics")[2].decode()
    finally:
        assert one.stop() == 0


@pytest.mark.parametrize("after", [0, 0.3])
def test_a_stop_while_it_starts_ends_it_well(after):
    one = Service()
    assert until(lambda: not refused(one.port))
    assert until(lambda: probed(f"http://127.0.0.1:{one.port}", "/health", 20) == "")
    time.sleep(after)
    assert one.stop(seconds=10) == 0


@pytest.mark.parametrize("workers", ["1", "2"])
def test_without_an_application_it_ends_and_says_so(workers):
    broken = "import sys, wallwright.api.app as app, wallwright.command as command; app.Plain = None; sys.exit(command.main(sys.argv[1:]))"
    command = [sys.executable, "-c", broken, "serve", "--port", str(free_port()), "--workers", workers]
    told = subprocess.run(command, env=environment(), capture_output=True, text=True, timeout=60)
    assert (told.returncode, told.stdout) == (1, "")
    assert "TypeError" in told.stderr


@pytest.mark.parametrize(
    ("code", "unneeded"),
    [
        ("import wallwright.command", {"litestar", "svgwrite", "jinja2", "wallwright.operations.table"}),
        ("from wallwright.api.app import create_app; create_app()", {"pydantic", "attrs", "highspy", "numpy"}),
    ],
    ids=["a start", "a copy that serves"],
)
def test_what_is_not_needed_is_not_loaded(code, unneeded):
    told = subprocess.run(
        [sys.executable, "-c", f"{code}; import sys; print(*sys.modules)"], env=environment(), capture_output=True, text=True, timeout=60
    )  # fmt: skip
    assert told.returncode == 0, told.stderr
    assert not unneeded & set(told.stdout.split())


@pytest.mark.parametrize(("workers", "number"), [(1, signal.SIGTERM), (3, signal.SIGTERM), (3, signal.SIGINT)])
def test_a_signal_ends_it_well_and_what_is_under_way_is_answered(workers, number):
    with service(workers) as one:
        with socket.create_connection(("127.0.0.1", one.port), 5) as line:
            line.sendall(with_length(BODY)[:-5])
            time.sleep(0.2)
            one.process.send_signal(number)
            time.sleep(0.4)
            with pytest.raises(OSError):  # noqa: PT011 - refused or reset, nothing is served any more
                one.get("/health")
            line.sendall(BODY[-5:])
            line.settimeout(10)
            answer = b""
            while more := line.recv(65536):
                answer += more
        assert answer.startswith(b"HTTP/1.1 200")
        assert b"connection: close" in answer
        assert one.process.wait(15) == 0


def farewell() -> bytes:
    """What a kept connection is answered once the socket is closed; nothing where it was closed too."""
    with service(1) as one, socket.create_connection(("127.0.0.1", one.port), 5) as line:
        line.settimeout(10)
        line.sendall(b"GET /health HTTP/1.1\r\nHost: x\r\n\r\n")
        first = b""
        while not first.endswith(b'{"status":"ok"}'):
            # Head and body may come apart.
            first += line.recv(65536)
        assert b"connection: close" not in first
        one.process.send_signal(signal.SIGTERM)
        assert until(lambda: refused(one.port))
        answer = b""
        try:
            line.sendall(b"GET /health HTTP/1.1\r\nHost: x\r\n\r\n")
            while more := line.recv(65536):
                answer += more
        except OSError:
            pass
        assert one.process.wait(15) == 0
        return answer


def test_a_kept_connection_is_answered_once_more_before_it_closes():
    # It is given a second; on a machine that is slow itself the test may come too late, so it may come again.
    answer = next((found for found in (farewell() for _ in range(4)) if found), b"")
    assert answer.startswith(b"HTTP/1.1 200")
    assert b"connection: close" in answer


def refused(port: int) -> bool:
    try:
        socket.create_connection(("127.0.0.1", port), 1).close()
    except OSError:
        return True
    return False


@pytest.mark.parametrize("workers", [1, 2])
def test_while_it_lingers_it_says_that_it_is_not_ready_and_still_works(workers):
    with service(workers, linger_seconds=2) as one:
        one.process.send_signal(signal.SIGTERM)
        began = time.monotonic()
        assert until(lambda: one.get("/ready")[0] == 503, 0.5)
        assert one.get("/health")[0] == 200
        assert one.post("/v1/layout", BODY)[0] == 200
        assert one.process.wait(15) == 0
        assert 1.9 < time.monotonic() - began < 6


def test_a_killed_worker_is_replaced_at_once_and_callers_wait_in_line():
    with service(2) as one:
        before = set(one.workers())
        assert len(before) == 2
        for pid in before:
            os.kill(pid, signal.SIGKILL)
        assert one.post("/v1/layout", BODY)[0] == 200
        assert until(lambda: len(set(one.workers()) - before) == 2)
        text = one.get("/metrics")[2].decode()
        assert "wallwright_worker_starts_total 4\n" in text
        assert "wallwright_workers 2\n" in text


def test_counters_of_all_workers_stand_in_one_scrape_and_outlive_a_worker():
    with service(3) as one:
        for _ in range(30):
            assert one.post("/v1/layout", BODY)[0] == 200
        counted = 'wallwright_requests_total{route="/v1/layout",status="200"} 30\n'
        # A request is counted once its answer has gone out: the last one may be on its way still.
        assert until(lambda: counted in one.get("/metrics")[2].decode())
        for pid in one.workers():
            os.kill(pid, signal.SIGKILL)
        assert counted in one.get("/metrics")[2].decode()


def test_a_hangup_replaces_every_worker_and_nothing_is_lost():
    with service(2) as one:
        before = set(one.workers())
        one.process.send_signal(signal.SIGHUP)
        asked = 0
        while before & set(one.workers()):
            assert one.get("/v1/examples/layout")[0] == 200
            asked += 1
            assert asked < 5000
        assert len(one.workers()) == 2
        assert one.post("/v1/layout", BODY)[0] == 200


def test_workers_end_with_the_process_above_them():
    with service(2) as one:
        workers = one.workers()
        one.process.kill()
        one.process.wait(5)
        assert until(lambda: not any(os.path.exists(f"/proc/{pid}/exe") for pid in workers))


def test_every_worker_answers_the_same_bytes():
    with service(3) as one:
        assert len({one.post("/v1/layout", BODY)[2] for _ in range(40)}) == 1


def test_the_log_has_a_line_a_request_and_nothing_of_the_callers(tmp_path):
    path = str(tmp_path / "log")
    with service(2, log=path) as one:
        one.post("/v1/layout", b'{"units":"in","length":144,"height":96,"name":"my private shed"}')
        one.get("/my-private-path?my=private", x_request_id="asked-9")
        said(one.port, b"my private bytes\r\n\r\n")
    found = lines(path)
    access = [line for line in found if line["logger"] == "wallwright.access"]
    assert [(line["route"], line["status"]) for line in access] == [("/v1/layout", 200), ("unmatched", 404)]
    assert access[1]["request_id"] == "asked-9"
    assert {line["message"] for line in found if line["logger"] == "wallwright.workers"} == {
        "worker started",
        "worker ended",
    }
    assert "private" not in json.dumps(found)


def test_a_closed_log_does_not_stop_the_service():
    reading, writing = os.pipe()
    port = free_port()
    command = [sys.executable, "-m", "wallwright.command", "serve", "--port", str(port)]
    process = subprocess.Popen(command, env=environment(), stdout=subprocess.PIPE, stderr=writing)
    try:
        os.close(writing)
        assert process.stdout.readline().startswith(b"wallwright")
        os.close(reading)
        process.stdout.close()
        for _ in range(3):
            assert said(port, with_length(BODY), wait=30).startswith(b"HTTP/1.1 200")
    finally:
        process.kill()
        process.wait()


def test_the_probe_tells_life_and_readiness_by_its_status():
    with service(linger_seconds=3) as one:
        url = f"http://127.0.0.1:{one.port}"
        assert run("health", "--url", url, "--ready").returncode == 0
        assert probed(url, "/health", 20) == probed(url + "/", "/ready", 20) == ""
        one.process.send_signal(signal.SIGTERM)
        assert until(lambda: probed(url, "/ready", 20) == "/ready answers 503", 2)
        small = [sys.executable, "-m", "wallwright.api.probe", "/health", url]
        assert subprocess.run(small, timeout=20).returncode == 0
    assert probed(url, "/health", 5).startswith("no answer")
    assert subprocess.run(small, timeout=20, capture_output=True).returncode == 1


@pytest.mark.parametrize(
    "url", ["127.0.0.1:8137", "ftp://127.0.0.1", "http://", "http://127.0.0.1:99999999", "file:///etc/passwd"]
)
def test_the_probe_refuses_what_is_no_address(url):
    assert "give a URL" in probed(url, "/health", 5)


def test_the_probe_asks_no_proxy(monkeypatch):
    for name in ("http_proxy", "HTTP_PROXY", "ALL_PROXY"):
        monkeypatch.setenv(name, "http://127.0.0.1:9")
    with service() as one:
        assert probed(f"http://127.0.0.1:{one.port}", "/health", 20) == ""


def test_headers_that_come_too_slowly_are_not_waited_for():
    with service(head_wait_seconds=1) as one, socket.create_connection(("127.0.0.1", one.port), 5) as line:
        line.settimeout(5)
        # The wait starts anew with each request on a connection, and not with each byte.
        line.sendall(b"GET /health HTTP/1.1\r\nHost: x\r\n\r\n")
        assert line.recv(65536).startswith(b"HTTP/1.1 200")
        time.sleep(1.5)
        began = time.monotonic()
        try:
            for byte in b"GET /health HTTP/1.1\r\nHost: x\r\nX-Slow: " + b"y" * 100:
                line.sendall(bytes([byte]))
                time.sleep(0.05)
        except OSError:
            pass
        assert 0.8 < time.monotonic() - began < 2.5
