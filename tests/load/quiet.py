"""While it serves, a worker opens no file, makes no connection and starts no process: seen by strace.

    python -m tests.load.quiet --requests 1000

Target: no such call in 1,000 requests of every operation, form, page and kind of error, but that the solver of orders counts the
processors in `/sys/devices/system/cpu`.
"""

import argparse
import asyncio
import re
import shutil
import signal
import subprocess
import tempfile
import time
from collections import Counter

from tests.contract.servers import service
from tests.load.traffic import drive, example_posts, got, learnt, mixed

from wallwright.api.answers import MEDIA
from wallwright.operations.table import OPERATIONS

CALLS = "%file,%process,socket,connect,bind,listen,socketpair,sendto,sendmsg"
# Sends on connections that callers made, and memory for threads that stand already.
FINE = {"sendto", "sendmsg"}
# The solver of orders asks the kernel how many processors there are, each time that it is run; no option keeps it from that.
PROCESSORS = '"/sys/devices/system/cpu/'


def questions() -> list[bytes]:
    asked = [example_posts(one.name, one.path, MEDIA[form]) for one in OPERATIONS for form in one.forms]
    asked += [got(path) for path in ("/health", "/ready", "/metrics", "/version", "/v1/limits", "/v1/published", "/openapi.json", "/",
                                     "/?units=in", "/reference", "/style.css", "/icon.svg", "/problems/busy", "/nope", "/v1/layout", "/v1/layout.json?z=x")]  # fmt: skip
    return asked + mixed()


def main() -> int:
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--requests", type=int, default=200)
    options = parser.parse_args()
    if shutil.which("strace") is None:
        print("strace is needed: sudo apt-get install -y strace")
        return 1

    async def ask(port: int, raws: list[bytes], count: int) -> str:
        found = await learnt(port, raws)
        stable = [one for one in found if b"GET /metrics" not in one.raw]
        return str(await drive(port, stable, count, callers=4, retries=0))

    with service(1) as one, tempfile.NamedTemporaryFile("r") as file:
        asyncio.run(ask(one.port, questions(), 50))  # Threads and caches stand before anyone looks.
        command = [
            "strace",
            "-f",
            "-qq",
            "-e",
            f"trace={CALLS}",
            "-e",
            "signal=none",
            "-o",
            file.name,
            "-p",
            str(one.process.pid),
        ]
        watcher = subprocess.Popen(command, stderr=subprocess.DEVNULL)
        time.sleep(1.5)
        tally = asyncio.run(ask(one.port, questions(), options.requests))
        watcher.send_signal(signal.SIGINT)
        watcher.wait(10)
        lines = file.readlines()
    solver = sum(PROCESSORS in line for line in lines)
    # A call that another thread's call cut in two is told twice; its end names no path.
    others = [line for line in lines if PROCESSORS not in line and "resumed>" not in line]
    calls = Counter(re.findall(r"^[0-9]+ +([a-z0-9_]+)", "".join(others), re.MULTILINE))
    bad = {name: count for name, count in calls.items() if name not in FINE}
    print(
        f"quiet: {tally}; calls seen {dict(calls)}; the solver's looks at the processors: {solver}; {sum(bad.values())} others that touch files, make connections or start processes {bad or ''}"
    )
    return 1 if bad or not calls else 0


if __name__ == "__main__":
    raise SystemExit(main())
