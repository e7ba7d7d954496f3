"""A drawing as a page shows it: in the page, as links, as a command; and findings in the order that they are read."""

import re
import textwrap
from collections.abc import Callable, Iterable
from decimal import Decimal
from html import unescape
from typing import Final

import msgspec
from markupsafe import Markup

from wallwright.operations.converters import CONVERTERS
from wallwright.operations.table import BY_NAME
from wallwright.wire.answers import Compared, Finding
from wallwright.wire.base import Given, Offset, Units, read_length
from wallwright.wire.limits import Z_MAX

Packer = Callable[[bytes], str]
"""Packs a request's bytes for a link."""
LEVELS: Final = ("stop", "caution", "note")
_IDS: Final = re.compile(r'"ww(?=["-])|(?<= )ww-(?=desc")')
_SCALE: Final = re.compile(r">Scale ([^<]+)<")


class Drawing(msgspec.Struct):
    """A drawing on the page, and the same question in every other form. In a set it has its number."""

    id: str
    title: str
    svg: Markup
    path: str
    links: list[tuple[str, str]]
    body: str
    scale: str
    number: int = 0


def drawing(operation: str, name: str, title: str, svg: str, body: bytes, packed: Packer) -> Drawing:
    """A drawing of an operation, made from the request in ``body``, under an id of its own."""
    found = BY_NAME[operation]
    z = packed(body)
    links = [(form, f"{found.path}.{form}?z={z}") for form in found.forms] if len(z) <= Z_MAX else []
    links.sort(key=lambda link: ("svg", "json", "csv").index(link[0]))
    pretty = msgspec.json.format(body, indent=2).decode()
    scale = _SCALE.search(svg)
    return Drawing(name, title, inline(svg, name), found.path, links, pretty, unescape(scale[1]) if scale else "")


def inline(svg: str, name: str) -> Markup:
    """A drawing to stand in a page beside others: its ids are its own."""
    head, style, rest = svg.partition("<style>")
    # The drawing is the service's own, its texts escaped when it was made.
    return Markup(_IDS.sub(lambda found: found[0].replace("ww", name), head) + style + rest)  # noqa: S704


def ordered(findings: Iterable[Finding]) -> list[Finding]:
    """Findings with what stops the work first, and none twice."""
    once = {(finding.code, finding.text): finding for finding in findings}
    return sorted(once.values(), key=lambda f: LEVELS.index(f.level) if f.level in LEVELS else len(LEVELS))


def tape_of(number: float, units: Units) -> str:
    """A number of an answer as a person reads it on the tape."""
    given: Given = read_length(Offset, Decimal(str(number)))
    assert given.measure is not None  # noqa: S101 - a length that was read has its measure
    return CONVERTERS[units].tape(given.measure.on_grid(units))


def figures(compared: Compared) -> str:
    """Two figures that were compared as a person reads them: lengths as on the tape, unless that would make them one."""
    value, limit, unit = compared.value, compared.limit, compared.unit
    if unit == "money":
        return f"{value:.2f} with {limit:.2f} in money"
    if unit in ("in", "mm"):
        units: Units = "in" if unit == "in" else "mm"
        given, most = tape_of(value, units), tape_of(limit, units)
        if given != most or value == limit:
            return f"{given} with {most}"
    return f"{round(value, 3):g} with {round(limit, 3):g} {unit}"


def curl(drawing: Drawing, base: str, accept: str = "image/svg+xml") -> str:
    """The drawing's question as a command for a shell."""
    return (
        textwrap.dedent(
            """\
        curl -s -H 'Content-Type: application/json' -H 'Accept: {accept}' \\
          --data-binary @- {base}{path} <<'REQUEST'
        """
        ).format(accept=accept, base=base, path=drawing.path)
        + f"{drawing.body}\nREQUEST"
    )
