"""Problems: one error shape (RFC 9457) for everything that reaches the application, from one table."""

from typing import Final

import msgspec

from wallwright.wire.answers import ErrorItem, Problem


class ProblemKind(msgspec.Struct, frozen=True):
    """A kind of problem: its status, and what its page says."""

    status: int
    title: str
    meaning: str
    cure: str


PROBLEMS: Final[dict[str, ProblemKind]] = {
    "not-json": ProblemKind(400, "Not JSON", "The body could not be read as JSON.", "Send one JSON document in UTF-8."),
    "repeated-key": ProblemKind(
        400, "A key stands twice", "An object holds the same key more than once.", "Give each key once."
    ),
    "not-of-the-schema": ProblemKind(
        400,
        "Not of the schema",
        "The body is JSON, but a field is unknown, missing, or of a kind or range that the schema does not allow.",
        "Mend the fields named under `errors`; the document at /openapi.json describes them all.",
    ),
    "bad-link": ProblemKind(
        400,
        "Link cannot be read",
        "The packed request `z` is missing or is not zlib data in base64url without padding.",
        "Take the link from `Content-Location` of a POST answer, or pack the request anew.",
    ),
    "not-buildable": ProblemKind(
        422,
        "Cannot be built as asked",
        "The request keeps the schema, and what it asks for cannot be built.",
        "Each entry of `errors` names the rule and the nearest value that works.",
    ),
    "no-such-figure": ProblemKind(
        422,
        "Lengths fit no figure",
        "The request keeps the schema, and no frame or deck has these lengths.",
        "Each entry of `errors` names the length and the nearest that works; measure that one again first.",
    ),
    "link-holds-no-request": ProblemKind(
        422,
        "Link holds no good request",
        "The packed request could be unpacked, but it is not a good request.",
        "Mend the fields named under `errors` and pack it anew.",
    ),
    "no-host": ProblemKind(
        400, "No single host named", "The request has no Host header, several, or one that names no host (RFC 9112, section 3.2).",
        "Send one Host header: a name or an address, and a port where there is one.",
    ),
    "not-found": ProblemKind(404, "Not found", "There is nothing at this path.", "See /openapi.json for every path."),
    "method-not-allowed": ProblemKind(
        405, "Method not allowed", "This path does not take this method.", "Use a method named in the Allow header."
    ),
    "not-acceptable": ProblemKind(
        406, "Not acceptable", "None of the accepted media types is offered here.",
        "Accept application/json, image/svg+xml or text/csv.",
    ),
    "request-timeout": ProblemKind(
        408, "Request timed out", "The body did not arrive in time.", "Send it again, without pauses."
    ),
    "body-too-large": ProblemKind(
        413, "Body too large", "The body is larger than this service takes.", "Send a smaller one; see /v1/limits."
    ),
    "uri-too-long": ProblemKind(
        414, "Link too long", "The target is longer than this service takes.", "POST the request to the same path instead."
    ),
    "unsupported-media-type": ProblemKind(
        415, "Unsupported media type", "The body is not declared as JSON, or declared as compressed.",
        "Send one Content-Type header: application/json, with no charset or utf-8; and no Content-Encoding.",
    ),
    "headers-too-large": ProblemKind(
        431, "Headers too large", "The request's headers are larger than this service takes.", "Send fewer or shorter ones."
    ),
    "internal": ProblemKind(
        500, "Internal error", "The service failed. The fault is ours.", "Try again; quote the request id if it stays."
    ),
    "took-too-long": ProblemKind(
        503,
        "Took too long",
        "The work that the effort allows was not done when the clock's guard ended it; a worse plan is not given in its place.",
        "Ask with less effort or in smaller parts, or try again when the service is less busy.",
    ),
    "busy": ProblemKind(503, "Busy", "The service has as much work as it takes at once.", "Try again after a moment."),
    "not-ready": ProblemKind(
        503, "Not ready", "This copy takes no new work: it has just started, it is stopping, or it could not compute its own examples.",
        "Ask another copy, or this one again after a moment.",
    ),
}  # fmt: skip


class SchemaFault(msgspec.Struct, frozen=True):
    """A way in which a field breaks the schema, as its page tells it."""

    title: str
    meaning: str
    cure: str


SCHEMA_FAULTS: Final[dict[str, SchemaFault]] = {
    "unknown-field": SchemaFault(
        "Unknown field", "There is no field of that name here.", "Use the nearest name that the detail gives, or leave it out."
    ),
    "missing-field": SchemaFault("Missing field", "A field that is required is not there.", "Give it."),
    "null": SchemaFault("Null", "A field holds null.", "Leave the field out where it is not to be said."),
    "type": SchemaFault("Wrong kind of value", "A field holds another kind of JSON value.", "Give the kind named."),
    "value": SchemaFault(
        "Value not allowed", "A word, number or text is not among those that the field takes.", "Give one of those named."
    ),
    "count": SchemaFault("Too many or too few", "A list is longer or shorter than it may be.", "Give as many as named."),
    "length": SchemaFault(
        "Not a length", "A length is neither a number within its range nor a tape text.",
        "Write a number in `units`, or a tape text such as 7' 6 1/2\" or 2286 mm.",
    ),
}  # fmt: skip


class Refused(Exception):
    """A request that is answered with a problem."""

    def __init__(
        self,
        code: str,
        detail: str = "",
        errors: list[ErrorItem] | None = None,
        headers: dict[str, str] | None = None,
    ) -> None:
        super().__init__(code)
        self.code = code
        self.detail = detail
        self.errors = errors
        self.headers = headers or {}

    @property
    def status(self) -> int:
        """The HTTP status."""
        return PROBLEMS[self.code].status

    def problem(self) -> Problem:
        """The problem as it travels."""
        kind = PROBLEMS[self.code]
        detail = self.detail or kind.meaning
        if self.errors:
            count = len(self.errors)
            detail = f"{kind.meaning} {count} fault{'s' if count > 1 else ''}: see errors."
        return Problem(
            type=f"/problems/{self.code}",
            title=kind.title,
            status=kind.status,
            detail=detail,
            code=self.code,
            errors=msgspec.UNSET if self.errors is None else self.errors,
        )

    def body(self) -> bytes:
        """The problem as JSON bytes."""
        return msgspec.json.encode(self.problem())
