"""The image's own start command in a sandbox such as a cluster gives it, without a container engine.

    python -m tests.load.sandbox

Bubblewrap: root read-only with nothing to write, a network of its own with loopback alone, user 65534, no
capabilities, no new privileges, processes of its own. Inside, every operation's committed example is asked for and
compared byte for byte; then the probe, a stop, and what must not work.
"""

import http.client
import json
import os
import re
import shutil
import signal
import socket
import subprocess
import sys
import time
from pathlib import Path

ROOT = Path(__file__).parent.parent.parent
PORT = 8137


def command() -> list[str]:
    """Entry point and arguments of the image, as the Dockerfile says them."""
    text = (ROOT / "docker/Dockerfile").read_text()
    found = [json.loads(re.search(rf"^{word} (\[.*\])$", text, re.MULTILINE)[1]) for word in ("ENTRYPOINT", "CMD")]
    return [*found[0], *found[1]]


def asked(method: str, path: str, body: bytes | None = None) -> tuple[int, bytes]:
    connection = http.client.HTTPConnection("127.0.0.1", PORT, timeout=30)
    connection.request(method, path, body, {"Content-Type": "application/json"})
    answer = connection.getresponse()
    return answer.status, answer.read()


def ready() -> bool:
    try:
        return asked("GET", "/ready")[0] == 200
    except OSError:
        return False


def refused(what: str, attempt) -> list[str]:
    """Nothing where an attempt fails, as it must."""
    try:
        attempt()
    except OSError:
        return []
    return [f"{what} was possible"]


def inside() -> int:
    """What runs in the sandbox."""
    wrong = []
    wrong += refused("a write to the root", lambda: Path("/written").write_text("x"))
    wrong += refused("a write to the checkout", lambda: (ROOT / "written").write_text("x"))
    wrong += refused("a connection to another machine", lambda: socket.create_connection(("192.0.2.1", 80), 2))
    wrong += refused("to become root", lambda: os.setuid(0))
    capabilities = re.search(r"CapEff:\s*(\w+)", Path("/proc/self/status").read_text())[1]
    if int(capabilities, 16):
        wrong.append(f"capabilities {capabilities}")
    service = subprocess.Popen(command(), stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
    until = time.monotonic() + 60
    while not ready() and time.monotonic() < until:
        time.sleep(0.05)
    paths = json.loads((ROOT / "openapi/wallwright.json").read_text())["paths"]
    compared = 0
    for path, item in paths.items():
        for operation in item.values():
            file = ROOT / f"openapi/examples/{operation['operationId']}.request.json"
            if not file.exists():
                continue
            status, answer = asked("POST", path, file.read_bytes())
            wanted = Path(str(file).replace(".request.", ".answer.")).read_bytes()
            compared += 1
            if status != 200 or answer + b"\n" != wanted:
                wrong.append(f"{path} answers otherwise: {status}")
    probe = subprocess.run([sys.executable, "-m", "wallwright.api.probe", "/ready"], timeout=30).returncode
    service.send_signal(signal.SIGTERM)
    code = service.wait(30)
    if probe or code or not compared:
        wrong.append(f"probe {probe}, exit {code}")
    print(
        f"sandbox: user {os.getuid()}, capabilities {capabilities}, read-only root, loopback alone; {' '.join(command())}; "
        f"{compared} examples compared, probe {probe}, exit {code}; {len(wrong)} wrong {wrong or ''}"
    )
    return 1 if wrong else 0


def main() -> int:
    if "--inside" in sys.argv:
        return inside()
    program = shutil.which("bwrap")
    if program is None:
        print("bubblewrap is needed: sudo apt-get install -y bubblewrap")
        return 1
    sealed = [
        program,
        "--ro-bind",
        "/",
        "/",
        "--proc",
        "/proc",
        "--dev",
        "/dev",
        "--unshare-all",
        "--uid",
        "65534",
        "--gid",
        "65534",
    ]
    sealed += ["--cap-drop", "ALL", "--die-with-parent", "--new-session", "--clearenv", "--chdir", str(ROOT)]
    sealed += [
        "--setenv",
        "PATH",
        f"{Path(sys.executable).parent}:/usr/bin:/bin",
        "--setenv",
        "PYTHONDONTWRITEBYTECODE",
        "1",
    ]
    return subprocess.run([*sealed, sys.executable, "-m", "tests.load.sandbox", "--inside"]).returncode


if __name__ == "__main__":
    raise SystemExit(main())
