"""What to cut: rows of equal pieces, and the mark that equal pieces share."""

from collections.abc import Iterable

from wallwright.domain.members import CutRow, Member
from wallwright.domain.parts import Part
from wallwright.domain.slopes import Outline, mirrored_outline, tidied
from wallwright.domain.stock import Stock

CutKey = tuple[str, Stock, int, int | None, bool, int, Outline]
"""What makes two pieces equal for the saw: kind, section, length, rip, treatment, short point and shape."""

_LETTER = {
    "bottom-plate": "P", "top-plate": "P", "cap-plate": "P",
    "end-stud": "S", "corner-stud": "S", "field-stud": "S", "seam-stud": "S", "king-stud": "S",
    "jack-stud": "J", "cripple": "C", "header": "H", "rough-sill": "R", "backing": "K", "blocking": "B",
}  # fmt: skip
"""Letter of a mark by role: plates, studs at full height, jacks, cripples, headers, rough sills, backing, blocks."""
_LETTER_ORDER = "PSJCHRKB"


def cut_key(part: Part) -> CutKey:
    """What makes this piece equal to another for the saw."""
    short = part.length if part.short is None else part.short
    return (_LETTER[part.role], part.stock, part.length, part.ripped_to, part.treated, short, _shape(part))


def _shape(part: Part) -> Outline:
    """The outline of a piece that is no box, apart from where it stands; turned about, it is the same piece."""
    if not part.outline:
        return ()
    here = tidied([(x - part.x, y - part.y) for x, y in part.outline])
    return min(here, mirrored_outline(here, part.width))


def mark_of(keys: Iterable[CutKey]) -> dict[CutKey, str]:
    """The mark of every kind of piece: a letter, and a number from the longest down; in the cut list's order."""
    marks: dict[CutKey, str] = {}
    numbers: dict[str, int] = {}
    for key in sorted(set(keys), key=_sort_key):
        numbers[key[0]] = numbers.get(key[0], 0) + 1
        marks[key] = f"{key[0]}{numbers[key[0]]}"
    return marks


def cut_list(members: tuple[Member, ...], marks: Iterable[str]) -> tuple[CutRow, ...]:
    """Rows of equal pieces, in the order of ``marks``; every ply, packing piece and block counts as a piece."""
    rows: dict[str, list[Member]] = {mark: [] for mark in marks}
    for member in members:
        rows[member.mark].append(member)
    return tuple(_row(equal) for equal in rows.values())


def _row(equal: list[Member]) -> CutRow:
    first = equal[0]
    roles = tuple(dict.fromkeys(member.role for member in equal))
    return CutRow(
        first.mark, roles, first.stock, first.length, sum(member.plies for member in equal),
        tuple(member.id for member in equal), first.ripped_to, first.treated, first.short,
        tuple(cut.angle for cut in first.cuts),
    )  # fmt: skip


def _sort_key(key: CutKey) -> tuple[int, int, int, int, int, bool, int, Outline]:
    letter, stock, length, ripped_to, treated, short, shape = key
    return (
        _LETTER_ORDER.index(letter), -length, -stock.width, -stock.thickness, -(ripped_to or 0), treated, -short, shape
    )  # fmt: skip
