"""One wall on pages of their own: its framing, its sheathing, its fasteners, its raising, each with its drawing."""

from collections.abc import Callable
from typing import Any, Final

import msgspec

from wallwright.operations.table import BY_NAME
from wallwright.wire.answers import Finding
from wallwright.wire.base import Units, encode_length
from wallwright.wire.limits import Z_MAX
from wallwright.wire.wall import Wall
from wallwright_viewer.drawn import Drawing, Packer, drawing, ordered
from wallwright_viewer.lists import MarkRow, PieceRow, end_cuts, mark_rows, piece_row

WallOf = Callable[[bytes], Wall]
"""Reads the wall that a link's query holds; raises ValueError with what is wrong in it."""
VIEWS: Final = {
    "/wall": ("layout", "Framing"),
    "/sheathing": ("sheathing", "Sheathing"),
    "/fasteners": ("fasteners", "Fasteners"),
    "/raising": ("raising", "Raising"),
}
"""The pages of a wall: what each is worked out by, and what it is called."""
_ENCODER: Final = msgspec.json.Encoder(enc_hook=encode_length)


class WallView(msgspec.Struct):
    """One page of a wall. ``views`` are the wall's pages by name; ``back`` leads to the building that it belongs to."""

    path: str
    title: str
    heading: str
    units: Units
    answer: Any
    drawing: Drawing
    views: list[tuple[str, str, str]]
    back: str
    findings: list[Finding]
    marks: list[MarkRow] = []
    pieces: list[PieceRow] = []

    @property
    def cut_list(self) -> Any:
        """The pieces to cut; only on the page of the framing."""
        return self.answer.cut_list

    @property
    def ends(self) -> dict[str, str]:
        """How the ends of a mark are sawn, where not square; only on the page of the framing."""
        return end_cuts(self.answer)

    @property
    def joints(self) -> Any:
        """The joints; only on the page of the fasteners."""
        return self.answer.joints

    @property
    def raising(self) -> Any:
        """What raising takes; only on that page."""
        return self.answer


def views_of(body: bytes, packed: Packer, back: str = "") -> list[tuple[str, str, str]]:
    """Path, name and link of a wall's pages; none where the wall is too long for a link.

    ``back`` is the query of the building that the wall belongs to; it is left out where it would make the link too long.
    """
    z = packed(body)
    if len(z) + max(map(len, VIEWS)) + len("z=") > Z_MAX:
        return []
    rest = f"&{back}" if back and len(z) + len(back) < Z_MAX - 100 else ""
    return [(path, name, f"{path}?z={z}{rest}") for path, (_, name) in VIEWS.items()]


def wall_view(path: str, request: Wall, back: str, packed: Packer) -> WallView:
    """A page of a wall; ``back`` is the query of its building. Raises PlanRefused with every fault found."""
    name, word = VIEWS[path]
    found = BY_NAME[name]
    answer = found.answer(request)
    body = _ENCODER.encode(answer.wall)
    title = answer.wall.name or "A wall"
    heading = f"{title}: {word.lower()}"
    shown = drawing(name, "drawn", heading, found.drawing(request), body, packed)
    view = WallView(
        path, title, heading, request.units, answer, shown, views_of(body, packed, back), back, ordered(answer.findings)
    )
    if name == "layout":
        view.marks = mark_rows(answer)
    if name == "sheathing":
        view.pieces = [piece_row(piece, answer.wall) for piece in answer.pieces]
    return view
