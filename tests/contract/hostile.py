"""Raw hostile requests, by socket: what each may be answered. Run as a command it prints the counts.

python -m tests.contract.hostile
"""

import json
import zlib
from base64 import urlsafe_b64encode
from collections import Counter
from collections.abc import Iterator

from tests.contract.servers import BODY, HEAD, said, service, status, with_length

from wallwright.operations.table import OPERATIONS

LEAKS = (
    b"Traceback",
    b"site-packages",
    b"litestar",
    b"msgspec",
    b"uvicorn",
    b"httptools",
    b"/home/",
    b"/usr/",
    b'File "',
    b"python",
    b"Error(",
)
PARSER = b"Invalid HTTP request received."
HOST = b"Host: x\r\n"
BOMB = urlsafe_b64encode(zlib.compress(b" " * 6_000_000, 9)).rstrip(b"=")

# A name, the bytes in pieces, and the statuses that may come; 0 is a connection closed without an answer.
Case = tuple[str, tuple[bytes, ...], set[int]]


def get(target: bytes, *headers: bytes) -> bytes:
    return b"GET " + target + b" HTTP/1.1\r\n" + HOST + b"".join(header + b"\r\n" for header in headers) + b"\r\n"


def post(body: bytes, *headers: bytes, path: bytes = b"/v1/layout") -> bytes:
    named = b"".join(header + b"\r\n" for header in headers)
    return (
        b"POST "
        + path
        + b" HTTP/1.1\r\n"
        + HOST
        + b"Content-Type: application/json\r\n"
        + named
        + b"Content-Length: %d\r\n\r\n" % len(body)
        + body
    )


def chunked(*pieces: bytes, headers: bytes = b"") -> tuple[bytes, ...]:
    return (HEAD + headers + b"Transfer-Encoding: chunked\r\n\r\n", *pieces)


def framing() -> Iterator[Case]:
    """What is no HTTP, or tries to make two readers read two things."""
    yield "no http at all", (b"nonsense\r\n\r\n",), {400}
    yield "a TLS hello", (b"\x16\x03\x01\x02\x00\x01\x00\x01\xfc\x03\x03" + b"\x00" * 60 + b"\r\n\r\n",), {400}
    yield "an HTTP/2 preface", (b"PRI * HTTP/2.0\r\n\r\nSM\r\n\r\n",), {400}
    yield "HTTP/0.9", (b"GET /health\r\n\r\n",), {200, 400}
    yield "HTTP/9.9", (b"GET /health HTTP/9.9\r\n" + HOST + b"\r\n",), {400}
    yield "no host", (b"GET /health HTTP/1.1\r\n\r\n",), {400}
    yield "two hosts", (get(b"/health", b"Host: y"),), {400}
    yield "HTTP/1.0 without a host", (b"GET /health HTTP/1.0\r\n\r\n",), {200}
    yield "length and chunks together", chunked(b"5\r\nabcde\r\n0\r\n\r\n", headers=b"Content-Length: 5\r\n"), {400}
    yield "two lengths", (HEAD + b"Content-Length: 5\r\nContent-Length: 6\r\n\r\nabcde",), {400}
    yield "a negative length", (HEAD + b"Content-Length: -5\r\n\r\n",), {400}
    yield "a length in hexadecimal", (HEAD + b"Content-Length: 0x10\r\n\r\n" + b"a" * 16,), {400}
    yield "a length past all counting", (HEAD + b"Content-Length: " + b"9" * 40 + b"\r\n\r\n",), {400, 413}
    yield "a length with a plus", (HEAD + b"Content-Length: +5\r\n\r\nabcde",), {400}
    yield "a list of lengths", (HEAD + b"Content-Length: 5, 5\r\n\r\nabcde",), {400}
    yield "chunks of no size", chunked(b"zz\r\nabc\r\n"), {400}
    yield "a chunk shorter than it says", chunked(b"3\r\nabcdef\r\n0\r\n\r\n"), {400}
    yield "a chunk of negative size", chunked(b"-1\r\nabc\r\n0\r\n\r\n"), {400}
    yield "chunks coded twice", (HEAD + b"Transfer-Encoding: chunked, chunked\r\n\r\n0\r\n\r\n",), {400, 408}
    yield "an unknown coding", (HEAD + b"Transfer-Encoding: gzip\r\n\r\nabc",), {400, 408}
    yield "a folded header", (b"GET /health HTTP/1.1\r\n" + HOST + b"X-A: b\r\n c: d\r\n\r\n",), {200, 400}
    yield "a space before the colon", (get(b"/health", b"X-A : b"),), {400}
    yield "a header without a colon", (get(b"/health", b"Bad Header"),), {400}
    yield "a header without a name", (get(b"/health", b": value"),), {400}
    yield "NUL in a header", (get(b"/health", b"X-A: b\x00c"),), {400}
    yield "NUL in the target", (get(b"/he\x00alth"),), {400}
    yield "a bare line feed", (b"GET /health HTTP/1.1\n" + HOST.replace(b"\r", b"") + b"\n",), {200, 400}
    yield "a target beyond ASCII", (get("/gér".encode()),), {400, 404}
    yield "an unknown method", (b"FOO /v1/layout HTTP/1.1\r\n" + HOST + b"\r\n",), {400, 405}
    yield "CONNECT", (b"CONNECT example.org:443 HTTP/1.1\r\n" + HOST + b"\r\n",), {400, 404, 405}
    yield "a full target", (get(b"http://other.example/v1/layout"),), {400, 404, 405}
    yield "the asterisk", (b"OPTIONS * HTTP/1.1\r\n" + HOST + b"\r\n",), {400, 404, 405}
    yield (
        "an upgrade",
        (get(b"/v1/limits", b"Connection: Upgrade", b"Upgrade: websocket", b"Sec-WebSocket-Version: 13"),),
        {200, 400, 426},
    )
    yield "an expectation", (post(BODY, b"Expect: 100-continue"),), {100, 200}


def targets() -> Iterator[Case]:
    """Paths and queries that look for another place."""
    for target in (b"/../../etc/passwd", b"/%2e%2e/%2e%2e/etc/passwd", b"/v1/..%2f..%2fetc", b"//etc/passwd", b"/v1/examples/..", b"/v1/examples/%2e%2e%2flayout",
                   b"/style.css%00.html", b"/%00", b"/%ff%fe", b"/v1/layout;x=y", b"/.git/config", b"/problems/%3Cscript%3E", b"/v1/layout.exe",
                   b"/problems/" + b"a" * 3000):  # fmt: skip
        yield f"GET {target[:30].decode()}", (get(target),), {400, 404}
    yield "a target at the end of patience", (get(b"/health?" + b"x" * 13_000),), {414}
    yield "a target of 60 kB", (get(b"/" + b"x" * 60_000),), {414, 400}
    yield "three thousand parameters", (get(b"/?" + b"&".join(b"a%d=1" % n for n in range(1200))),), {200, 303, 400}
    yield "a query that is not UTF-8", (get(b"/?units=%ff%fe&name=%00"),), {200, 303, 400}
    yield "script in a query", (get(b"/?name=%3Cscript%3Ealert(1)%3C/script%3E"),), {200, 303, 400}
    for operation in OPERATIONS:
        link = operation.path.encode() + b".json?z="
        yield f"{operation.name}: a bomb in a link", (get(link + BOMB[:8000]),), {422}
        yield f"{operation.name}: rubbish in a link", (get(link + b"A" * 4000),), {422}


def headers() -> Iterator[Case]:
    """Headers past their limits, or that try to be answered."""
    yield "two thousand headers", (get(b"/health", *(b"X-%d: y" % n for n in range(2000))),), {400, 431}
    yield "a header of 60 kB", (get(b"/health", b"X-A: " + b"y" * 60_000),), {400, 431}
    yield "a request id that splits", (get(b"/health", b"X-Request-Id: a%0d%0aSet-Cookie: b"),), {200}
    yield "an Accept without end", (post(BODY, b"Accept: " + b"a/b;q=0.1," * 2500),), {406}
    yield (
        "qualities that are none",
        (post(BODY, b"Accept: application/json;q=nan, image/svg+xml;q=1e999, text/csv;q=-1"),),
        {200, 406},
    )
    yield "a Content-Type twice", (post(BODY, b"Content-Type: application/json"),), {415}
    yield "an If-None-Match without end", (get(b"/v1/limits", b"If-None-Match: " + b'"a",' * 5000),), {200}
    yield "a range", (get(b"/v1/limits", b"Range: bytes=0-0"),), {200}
    yield "a forwarded host", (get(b"/", b"X-Forwarded-Host: evil.example", b"X-Forwarded-Proto: javascript"),), {200}
    yield "a method to put in place", (post(BODY, b"X-HTTP-Method-Override: DELETE"),), {200}


def bodies() -> Iterator[Case]:
    """Bodies made to break a reader."""
    yield "a hundred thousand brackets", (post(b"[" * 100_000),), {400}
    yield "brackets in a field", (post(b'{"units":"in","length":' + b"[" * 50_000),), {400}
    yield "objects a thousand deep", (post(b'{"a":' * 20_000 + b"1" + b"}" * 20_000),), {400}
    yield "a number of 200,000 digits", (post(b'{"units":"in","height":96,"length":' + b"9" * 200_000 + b"}"),), {400}
    yield "a great exponent", (post(b'{"units":"in","height":96,"length":1e999999999}'),), {400}
    yield "a small exponent", (post(b'{"units":"in","height":96,"length":1e-999999999}'),), {400, 422}
    yield "not a number", (post(b'{"units":"in","height":96,"length":NaN}'),), {400}
    yield "bytes that are not UTF-8", (post(b'{"units":"in","height":96,"length":144,"name":"\xff"}'),), {400}
    yield "half a surrogate pair", (post(b'{"units":"in","height":96,"length":144,"name":"\\ud800"}'),), {400}
    yield "a control character", (post(b'{"units":"in","height":96,"length":144,"name":"a\\u0000b"}'),), {400}
    yield (
        "markup in a name",
        (
            post(
                b'{"units":"in","height":96,"length":144,"name":"</text><script>x</script>"}', b"Accept: image/svg+xml"
            ),
        ),
        {200, 400},
    )
    yield "a key ten thousand times", (post(b"{" + b",".join([b'"a":1'] * 10_000) + b"}"),), {400}
    yield "ten thousand unknown keys", (post(b"{" + b",".join(b'"a%d":1' % n for n in range(10_000)) + b"}"),), {400}
    yield (
        "a list past its length",
        (post(b'{"units":"in","height":96,"length":144,"openings":[' + b",".join([b"{}"] * 50_000) + b"]}"),),
        {400},
    )
    yield (
        "a tape text to backtrack on",
        (post(json.dumps({"units": "in", "height": 96, "length": "1 " * 20_000 + "!"}).encode()),),
        {400},
    )
    yield "a body past the limit by its length", (with_length(b"", 10_000_000),), {413}
    yield "a body past the limit in chunks", chunked(*[b"8000\r\n" + b" " * 0x8000 + b"\r\n"] * 9), {413}
    yield "a body that never comes", (with_length(b"", 50),), {408}
    yield "a gzip body", (post(zlib.compress(BODY), b"Content-Encoding: gzip"),), {400, 415}
    for operation in OPERATIONS:
        yield f"{operation.name}: an empty body", (post(b"", path=operation.path.encode()),), {400}
        yield f"{operation.name}: null", (post(b"null", path=operation.path.encode()),), {400}


def cases() -> list[Case]:
    return [*framing(), *targets(), *headers(), *bodies()]


def wrong(answer: bytes, allowed: set[int]) -> str:
    """What is wrong with an answer; nothing where it is as it must be."""
    found = status(answer)
    head, _, body = answer.partition(b"\r\n\r\n")
    lower = head.lower()
    if found not in allowed:
        return f"status {found}, allowed {sorted(allowed)}"
    for leak in LEAKS:
        if leak in (body if b"text/html" not in lower else b"") or leak.lower() in lower:
            return f"leaks {leak!r}"
    if found >= 400 and body != PARSER:
        if b"content-type: application/problem+json" not in lower and b"text/html" not in lower:
            return "an error of another shape"
        if b"problem+json" in lower and json.loads(body)["status"] != found:
            return "a problem of another status"
    if found >= 200 and body != PARSER and b"x-content-type-options: nosniff" not in lower:
        return "no security headers"
    return "set a cookie" if b"set-cookie" in lower else ""


def main() -> int:
    counts: Counter[int] = Counter()
    bad = 0
    with service(body_wait_seconds=1) as one:
        for name, pieces, allowed in cases():
            answer = said(one.port, *pieces)
            counts[status(answer)] += 1
            problem = wrong(answer, allowed)
            if problem:
                bad += 1
                print(f"{name}: {problem}: {answer[:200]!r}")
        alive = status(said(one.port, with_length(BODY))) == 200
    print(
        f"hostile: {sum(counts.values())} requests, statuses {dict(sorted(counts.items()))}, {bad} wrong; alive after: {alive}"
    )
    return 1 if bad or not alive else 0


if __name__ == "__main__":
    raise SystemExit(main())
