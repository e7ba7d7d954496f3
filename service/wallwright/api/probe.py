"""Whether a running service answers: for health checks of containers, light enough to run every few seconds.

`python -m wallwright.api.probe /ready` imports nothing but the standard library.
"""

import http.client
import sys
from typing import Final
from urllib.parse import urlsplit

_DEFAULT: Final = "http://127.0.0.1:8137"


def probed(url: str, path: str, seconds: float) -> str:
    """Nothing where the service at ``url`` answers 200 at ``path`` in time, else what is wrong.

    It asks the address itself, whatever proxy the environment names, and follows nothing.
    """
    try:
        place = urlsplit(url)
        host, port = place.hostname, place.port
    except ValueError:
        host, port = None, None
    if host is None or place.scheme not in ("http", "https") or place.path not in ("", "/"):
        return f"{url!r} is given; give a URL such as {_DEFAULT}"
    kind = http.client.HTTPSConnection if place.scheme == "https" else http.client.HTTPConnection
    connection = kind(host, port, timeout=seconds)
    try:
        connection.request("GET", path)
        status = connection.getresponse().status
    except (OSError, http.client.HTTPException) as error:
        return f"no answer: {error}"
    finally:
        connection.close()
    return "" if status == 200 else f"{path} answers {status}"


if __name__ == "__main__":
    found = probed(sys.argv[2] if len(sys.argv) > 2 else _DEFAULT, sys.argv[1] if len(sys.argv) > 1 else "/health", 5)
    sys.exit(found or 0)
