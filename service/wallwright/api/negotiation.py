"""Which form is wanted, by Accept; and whether a body is declared as JSON."""

from collections.abc import Sequence

from wallwright.api.problems import Refused


def chosen(accept: Sequence[str], offers: Sequence[str]) -> str:
    """The offered media type that the Accept headers prefer; the first one where they do not say.

    RFC 9110, section 12.5.1: the most specific range counts for each offer, q=0 rules it out, malformed
    ranges are passed over. Raises Refused with 406 where nothing offered is accepted.
    """
    wanted = ranges(accept)
    if not wanted:
        return offers[0]
    best, best_quality = "", 0.0
    for offer in offers:
        quality = _quality(offer, wanted)
        if quality > best_quality:
            best, best_quality = offer, quality
    if not best:
        raise Refused("not-acceptable", f"Offered are {', '.join(offers)}.")
    return best


def ranges(accept: Sequence[str]) -> list[tuple[str, str, float]]:
    """Type, subtype and quality of each range that the Accept headers name, without the malformed ones."""
    return [parsed for header in accept for part in header.split(",") if (parsed := _range(part)) is not None]


def _range(part: str) -> tuple[str, str, float] | None:
    """Type, subtype and quality of one range, or None where it is malformed."""
    name, *parameters = (piece.strip() for piece in part.split(";"))
    kind, slash, subtype = name.lower().partition("/")
    if not slash or not kind or not subtype or (kind == "*" and subtype != "*"):
        return None
    quality = 1.0
    for parameter in parameters:
        key, _, value = parameter.partition("=")
        if key.strip().lower() == "q":
            try:
                quality = float(value)
            except ValueError:
                return None
            if not 0 <= quality <= 1:
                return None
    return kind, subtype, quality


def _quality(offer: str, ranges: list[tuple[str, str, float]]) -> float:
    kind, _, subtype = offer.partition("/")
    found = (-1, 0.0)
    for range_kind, range_subtype, quality in ranges:
        if range_kind not in ("*", kind) or range_subtype not in ("*", subtype):
            continue
        specific = (range_kind != "*") + (range_subtype != "*")
        found = max(found, (specific, quality))
    return found[1]


def require_json(content_types: Sequence[str]) -> None:
    """Raises Refused with 415 unless there is exactly one Content-Type, JSON in UTF-8."""
    if len(content_types) == 1:
        name, *parameters = (piece.strip().lower() for piece in content_types[0].split(";"))
        charsets = [p.partition("=")[2].strip('" ') for p in parameters if p.startswith("charset=")]
        if name == "application/json" and all(charset == "utf-8" for charset in charsets) and len(charsets) <= 1:
            return
    raise Refused("unsupported-media-type", headers={"Accept-Post": "application/json"})


def require_plain(codings: Sequence[str]) -> None:
    """Raises Refused with 415 where a body is compressed: what is read is the bytes as they come (RFC 9110, 8.4).

    Accept-Encoding on the answer says which coding would do (RFC 9110, 12.5.3).
    """
    named = {part.strip().lower() for header in codings for part in header.split(",")} - {"", "identity"}
    if named:
        raise Refused(
            "unsupported-media-type",
            "The body is declared as compressed, which is not read here; send it as it is, without Content-Encoding.",
            headers={"Accept-Encoding": "identity"},
        )
