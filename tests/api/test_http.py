"""HTTP as it is promised: forms, links, tags, methods, sizes, headers, one error shape."""

import json
import zlib
from base64 import urlsafe_b64encode
from xml.etree import ElementTree

import pytest
from tests.api.client import APP, JSON, WALL, call, post

from wallwright.api.app import create_app
from wallwright.api.links import packed
from wallwright.api.logs import Lines
from wallwright.api.settings import BadSetting, Settings, settings_from
from wallwright.operations.examples import example_bytes
from wallwright.operations.table import BY_NAME, OPERATIONS
from wallwright.wire import limits

BODY = json.dumps(WALL).encode()
BUILDING = json.dumps({"units": "in", "footprint": {"width": 168, "depth": 120}, "wall_height": 89}).encode()
BODIES = {one.name: example_bytes(one.name) for one in OPERATIONS}
BODIES |= {"layout": BODY, "sheathing": BODY, "building": BUILDING}
FORMS = {"json": "application/json", "svg": "image/svg+xml", "csv": "text/csv"}


def link(body: bytes, form: str = "json", path: str = "/v1/layout") -> str:
    return f"{path}.{form}?z={packed(body)}"


@pytest.mark.parametrize(("operation", "form"), [(one.name, form) for one in OPERATIONS for form in one.forms])
def test_each_form_by_accept_and_by_link_is_the_same(operation, form):
    by_post = post(BY_NAME[operation].path, BODIES[operation], accept=FORMS[form])
    assert by_post.status_code == 200
    assert by_post.headers["content-type"].split(";")[0] == FORMS[form]
    assert by_post.headers["vary"] == "Accept"
    by_link = call("GET", by_post.headers["content-location"])
    assert by_link.status_code == 200
    assert by_link.content == by_post.content
    head = call("HEAD", by_post.headers["content-location"])
    assert head.status_code == 200
    assert head.content == b""
    assert head.headers["etag"] == by_link.headers["etag"]
    if form == "svg":
        assert ElementTree.fromstring(by_post.content).attrib["role"] == "img"


ACCEPT = [
    (None, "application/json"),
    ("", "application/json"),
    ("*/*", "application/json"),
    ("image/*", "image/svg+xml"),
    ("text/csv;q=0.5, application/json;q=0.4", "text/csv"),
    ("application/json;q=0, */*;q=0.1", "image/svg+xml"),
    ("application/json;q=0, */*", "image/svg+xml"),
    ("nonsense, text/csv", "text/csv"),
    ("text/*;q=0.3, */*;q=0.2", "text/csv"),
    ("image/svg+xml;q=1.0, application/json;q=1.0", "application/json"),
    ("text/csv;q=9, image/svg+xml", "image/svg+xml"),
]


@pytest.mark.parametrize(("accept", "given"), ACCEPT)
def test_accept_picks_the_form(accept, given):
    headers = {} if accept is None else {"accept": accept}
    assert post("/v1/layout", BODY, **headers).headers["content-type"].split(";")[0] == given


@pytest.mark.parametrize("accept", ["image/png", "text/html", "application/json;q=0, image/*;q=0, text/*;q=0"])
def test_nothing_acceptable_is_406_as_a_problem(accept):
    answer = post("/v1/layout", BODY, accept=accept)
    assert answer.status_code == 406
    assert answer.headers["content-type"] == "application/problem+json"


@pytest.mark.parametrize("name", [one.name for one in OPERATIONS if "csv" not in one.forms])
def test_what_has_no_list_is_not_offered_as_one(name):
    assert post(BY_NAME[name].path, BODIES[name], accept="text/csv").status_code == 406
    assert call("GET", f"{BY_NAME[name].path}.csv?z={packed(BODIES[name])}").status_code == 404


CONTENT_TYPE = [
    (["application/json"], 200),
    (["application/json; charset=utf-8"], 200),
    (['application/json; charset="UTF-8"'], 200),
    (["APPLICATION/JSON"], 200),
    (["application/json; charset=latin-1"], 415),
    (["application/problem+json"], 415),
    (["text/plain"], 415),
    (["application/msgpack"], 415),
    ([], 415),
    (["application/json", "application/json"], 415),
]


@pytest.mark.parametrize("coding", ["gzip", "GZIP", "deflate, gzip", "br", "x-unknown"])
def test_a_compressed_body_is_415_with_what_is_read_instead(coding):
    """RFC 9110, section 8.4 and 12.5.3: a content coding that is not taken."""
    answer = call("POST", "/v1/layout", content=BODY, headers={**JSON, "content-encoding": coding})
    assert (answer.status_code, answer.json()["code"]) == (415, "unsupported-media-type")
    assert answer.headers["accept-encoding"] == "identity"
    assert "Content-Encoding" in answer.json()["detail"]


def test_a_body_declared_as_it_is_needs_no_decoding():
    headers = {**JSON, "content-encoding": "identity"}
    assert call("POST", "/v1/layout", content=BODY, headers=headers).status_code == 200


@pytest.mark.parametrize(("types", "status"), CONTENT_TYPE)
def test_a_body_is_declared_as_json_just_once(types, status):
    headers = [("content-type", value) for value in types]
    answer = call("POST", "/v1/layout", content=BODY, headers=headers)
    assert answer.status_code == status
    if status == 415:
        assert answer.headers["accept-post"] == "application/json"


@pytest.mark.parametrize("path", [operation.path for operation in OPERATIONS])
@pytest.mark.parametrize("method", ["GET", "HEAD", "PUT", "DELETE", "PATCH"])
def test_other_methods_are_405_with_allow(path, method):
    answer = call(method, path)
    assert answer.status_code == 405
    assert "POST" in answer.headers["allow"]


@pytest.mark.parametrize(
    "path", ["/nope", "/v1", "/v1/layout/", "//v1/layout", "/v1//layout", "/v1/layout%2f", "/v1/%6cayout", "/v1/examples/nope",
             "/problems/nope", "/health/", "/v1/layout.png", "/%00"]
)  # fmt: skip
def test_what_is_not_there_is_404(path):
    answer = call("GET", path)
    assert answer.status_code == 404
    assert answer.json()["code"] == "not-found"


EVERY_KIND = [
    ("POST", "/v1/layout", BODY, 200), ("POST", "/v1/layout", b"{", 400), ("GET", "/nope", None, 404), ("GET", "/v1/layout", None, 405),
    ("POST", "/v1/layout", b" " * 300_000, 413), ("GET", "/health?" + "x" * 13_000, None, 414), ("GET", "/openapi.json", None, 200),
    ("GET", "/v1/layout.json", None, 400), ("POST", "/v1/layout", b'{"units":"in","length":"0","height":96}', 422),
    ("GET", "/health", None, 200), ("GET", "/problems/busy", None, 200), ("GET", "/v1/limits", None, 200),
]  # fmt: skip


@pytest.mark.parametrize(("method", "path", "body", "status"), EVERY_KIND)
def test_security_headers_and_one_error_shape_on_every_answer(method, path, body, status):
    answer = call(method, path, content=body, headers={**JSON, "x-request-id": "abc-1"})
    assert answer.status_code == status
    assert answer.headers["x-content-type-options"] == "nosniff"
    assert answer.headers["referrer-policy"] == "no-referrer"
    assert answer.headers["content-security-policy"].startswith("default-src 'none'")
    assert answer.headers["x-request-id"] == "abc-1"
    if status >= 400:
        assert answer.headers["content-type"] == "application/problem+json"
        problem = answer.json()
        assert problem["status"] == status
        assert problem["type"] == f"/problems/{problem['code']}"
        assert call("GET", problem["type"]).status_code == 200
        for word in ("Traceback", "site-packages", "litestar", "msgspec", "uvicorn", "/home", "/usr"):
            assert word not in answer.text


def test_headers_past_the_limit_are_431():
    assert call("GET", "/health", headers={"x-long": "y" * 40_000}).status_code == 431


def test_a_chunked_body_past_the_limit_is_413():
    async def chunks():
        for _ in range(40):
            yield b" " * 10_000

    assert call("POST", "/v1/layout", content=chunks(), headers=JSON).status_code == 413


@pytest.mark.parametrize(("size", "status"), [(1_999, 200), (2_000, 200), (2_001, 413)])
def test_the_body_limit_at_under_and_over(size, status):
    app = create_app(Settings(body_bytes=2_000))
    assert call("POST", "/v1/layout", app, content=BODY.ljust(size), headers=JSON).status_code == status


@pytest.mark.parametrize(("room", "status"), [(-1, 414), (0, 200), (1, 200)])
def test_the_link_limit_at_under_and_over(room, status):
    target = link(BODY)
    app = create_app(Settings(url_bytes=len(target) - 1 + room))
    assert call("GET", target, app).status_code == status


@pytest.mark.parametrize(
    ("name", "value"),
    [("BODY_BYTES", "1023"), ("BODY_BYTES", "x"), ("CONCURRENCY", "0"), ("SPEED", "9"), ("URL_BYTES", "1e3")],
)
def test_a_wrong_setting_is_refused_at_start(name, value):
    with pytest.raises(BadSetting, match=f"WALLWRIGHT_{name}"):
        settings_from({f"WALLWRIGHT_{name}": value})


def test_settings_are_read_and_served():
    app = create_app(settings_from({"WALLWRIGHT_BODY_BYTES": "5000", "PATH": "/bin"}))
    served = call("GET", "/v1/limits", app).json()
    assert served["operating"]["body_bytes"] == 5000
    assert served["contract"]["openings_max"] == limits.OPENINGS_MAX


def test_tags_are_known_and_answered_304():
    target = link(BODY, "svg")
    first = call("GET", target)
    tag = first.headers["etag"]
    for given in (tag, f"W/{tag}", "*", f'"other", {tag}', f'"other",W/{tag}'):
        again = call("GET", target, headers={"if-none-match": given})
        assert again.status_code == 304
        assert again.content == b""
        assert again.headers["etag"] == tag
    assert call("GET", target, headers={"if-none-match": '"other"'}).status_code == 200


@pytest.mark.parametrize("form", ["json", "svg", "csv"])
@pytest.mark.parametrize("copy", ["the same copy", "another copy"])
def test_who_is_told_that_nothing_changed_is_told_the_same_policy(form, copy):
    # RFC 9111, 3.2: what is stored takes over the headers of a 304; a drawing would lose its lines with another policy.
    target = link(BODY, form)
    first = call("GET", target)
    again = call(
        "GET",
        target,
        create_app(Settings()) if copy == "another copy" else APP,
        headers={"if-none-match": first.headers["etag"]},
    )
    assert again.status_code == 304
    volatile = {"x-request-id", "server-timing"}
    assert {name: first.headers.get(name) for name in set(again.headers) - volatile} == {
        name: value for name, value in again.headers.items() if name not in volatile
    }
    assert set(first.headers) - set(again.headers) == {"content-type", "content-length"}


# RFC 9110, 13.2.1: a condition is looked at only where the answer without it would be a success.
@pytest.mark.parametrize("given", ["*", '"other"'])
def test_a_wall_that_cannot_be_built_is_told_so_whatever_the_caller_holds(given):
    target = link(json.dumps({**WALL, "length": 2}).encode())
    assert call("GET", target, headers={"if-none-match": given}).status_code == 422


@pytest.mark.parametrize("room", [-1, 0, 1])
def test_an_answer_names_its_link_only_where_the_link_is_taken(room):
    target = link(BODY)
    app = create_app(Settings(url_bytes=len(target) - 1 + room))
    answer = call("POST", "/v1/layout", app, content=BODY, headers=JSON)
    assert answer.status_code == 200
    assert ("content-location" in answer.headers) == (call("GET", target, app).status_code == 200) == (room >= 0)


def test_the_same_question_has_the_same_tag_however_it_is_written():
    tags = {
        call("GET", link(json.dumps({"units": "in", "height": 96, "length": length}).encode())).headers["etag"]
        for length in ("12'", 144, 144.0, "144", "3657.6 mm")
    }
    assert len(tags) == 1
    assert call("GET", link(json.dumps({**WALL, "spacing": 24}).encode())).headers["etag"] not in tags


BAD_LINKS = [
    ("", 400), ("?z=", 400), ("?z=ab$", 400), ("?z=abc&z=abc", 400), ("?y=abc", 400), ("?z=%61bc", 400), ("?z=abc%0a", 400),
    ("?z=abcd", 422), ("?z=" + packed(b"[]"), 422), ("?z=" + packed(b'{"units":"in"}'), 422),
    ("?z=" + packed(b'{"units":"in","length":"0","height":96}'), 422), ("?z=" + packed(BODY) + "AA", 422),
]  # fmt: skip


@pytest.mark.parametrize(("query", "status"), BAD_LINKS)
def test_links_that_hold_no_good_request(query, status):
    answer = call("GET", f"/v1/layout.json{query}")
    assert answer.status_code == status
    assert answer.headers["content-type"] == "application/problem+json"


def test_a_link_tells_the_same_faults_as_the_body():
    body = b'{"units":"inch","length":0}'
    assert call("GET", link(body)).json()["errors"] == post("/v1/layout", body).json()["errors"]


def test_a_small_link_that_unpacks_to_much_is_refused():
    bomb = urlsafe_b64encode(zlib.compress(b" " * 5_000_000, 9)).rstrip(b"=").decode()
    assert len(bomb) < limits.Z_MAX
    assert call("GET", f"/v1/layout.json?z={bomb}").status_code == 422


def test_a_failure_of_ours_tells_nothing_of_itself_and_is_found_by_its_request_id(monkeypatch, caplog):
    def broken(*_):
        raise RuntimeError("secret place /usr/lib")

    monkeypatch.setattr("wallwright.api.app.encoded", broken)
    answer = post("/v1/layout", BODY, **{"x-request-id": "asked-7"})
    assert answer.status_code == 500
    assert answer.json()["code"] == "internal"
    assert answer.headers["x-request-id"] == "asked-7"
    assert "secret" not in answer.text
    (record,) = [one for one in caplog.records if one.exc_info]
    assert "asked-7" in record.getMessage()


def test_the_log_line_holds_nothing_of_the_callers(caplog):
    with caplog.at_level("INFO", "wallwright.access"):
        post("/v1/layout", json.dumps({**WALL, "name": "my private shed"}).encode())
        call("GET", "/private-path?q=private")
    lines = [json.loads(Lines().format(record)) for record in caplog.records if record.name == "wallwright.access"]
    assert [line["route"] for line in lines] == ["/v1/layout", "unmatched"]
    assert "private" not in caplog.text


def test_health_answers_while_the_service_is_full():
    app = create_app(Settings(concurrency=1))
    app.work.under_way = 1
    busy = call("POST", "/v1/layout", app, content=BODY, headers=JSON)
    assert busy.status_code == 503
    assert busy.headers["retry-after"] == "1"
    assert call("GET", "/health", app).status_code == 200
