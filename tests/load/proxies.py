"""The shipped proxy configurations, run as they are but for addresses and places to write."""

import os
import re
import shutil
import signal
import socket
import subprocess
import tempfile
import time
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path

from tests.contract.servers import free_port

DOCKER = Path(__file__).parent.parent.parent / "docker"
KINDS = ("nginx", "haproxy")


def changed(text: str, *changes: tuple[str, str]) -> str:
    """The text with each change made; a change that finds nothing is an error."""
    for pattern, new in changes:
        text, times = re.subn(pattern, new, text, flags=re.MULTILINE)
        assert times, pattern
    return text


def nginx_text(port: int, upstream: Sequence[int], folder: str) -> str:
    # One copy with several workers stands five times, as the file says.
    ports = [upstream[number % len(upstream)] for number in range(max(5, len(upstream)))]
    servers = "\n".join(f"        server 127.0.0.1:{one} max_fails=0;" for one in ports)
    return changed(
        (DOCKER / "nginx.conf").read_text(),
        (r"(^ +server wallwright-\d:8137 max_fails=0;\n)+", servers + "\n"),
        (r"listen 8080 ", f"listen 127.0.0.1:{port} "),
        (r"/tmp/", f"{folder}/"),
    )


def haproxy_text(port: int, upstream: Sequence[int]) -> str:
    servers = "\n".join(f"    server wallwright{number} 127.0.0.1:{one}" for number, one in enumerate(upstream))
    return changed(
        (DOCKER / "haproxy.cfg").read_text(),
        (r"^ +server-template .*$", servers),
        (r"bind :8080$", f"bind 127.0.0.1:{port}"),
    )


@contextmanager
def proxy(kind: str, *upstream: int) -> Iterator[int]:
    """The port of a running proxy in front of services at these ports."""
    program = shutil.which(kind, path=os.environ.get("PATH", "") + ":/usr/sbin:/sbin")
    assert program, f"{kind} is needed: sudo apt-get install -y nginx haproxy"
    folder = tempfile.mkdtemp()
    os.chmod(folder, 0o755)
    port = free_port()
    file = Path(folder) / "conf"
    file.write_text(nginx_text(port, upstream, folder) if kind == "nginx" else haproxy_text(port, upstream))
    command = [program, "-c", str(file), "-e", "stderr"] if kind == "nginx" else [program, "-db", "-f", str(file)]
    process = subprocess.Popen(command, stderr=subprocess.DEVNULL, stdout=subprocess.DEVNULL)
    try:
        _wait(port, process)
        yield port
    finally:
        process.send_signal(signal.SIGTERM)
        try:
            process.wait(5)
        except subprocess.TimeoutExpired:
            process.kill()
            process.wait()
        shutil.rmtree(folder, ignore_errors=True)


def _wait(port: int, process: subprocess.Popen[bytes]) -> None:
    """Until the proxy hands on to a copy that is ready."""
    until = time.monotonic() + 20
    while time.monotonic() < until:
        assert process.poll() is None, "the proxy ended"
        try:
            with socket.create_connection(("127.0.0.1", port), 2) as line:
                line.sendall(b"GET /ready HTTP/1.1\r\nHost: load\r\nConnection: close\r\n\r\n")
                if line.recv(100).startswith(b"HTTP/1.1 200"):
                    return
        except OSError:
            pass
        time.sleep(0.05)
    raise AssertionError("the proxy did not start")
