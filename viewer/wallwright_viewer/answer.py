"""From a building's request to what its page shows: the set of drawings, the lists of each wall, findings."""

from collections.abc import Iterator
from typing import Final

import msgspec
from msgspec import UnsetType

from wallwright.operations.print_set import PrintSet, WallSheets, print_set
from wallwright.wire.answers import Finding
from wallwright.wire.building import Building, BuildingAnswer, BuiltWall
from wallwright.wire.fasteners import FastenersAnswer, Joint
from wallwright.wire.layout import CutRow, LayoutAnswer
from wallwright.wire.raising import RaisingAnswer
from wallwright.wire.sheathing import SheathingAnswer
from wallwright_viewer.drawn import Drawing, Packer, drawing, ordered
from wallwright_viewer.lists import MarkRow, PieceRow, end_cuts, mark_rows, piece_row
from wallwright_viewer.order import order_link
from wallwright_viewer.wall import views_of

_KINDS: Final = (
    ("layout", "framing", "framing"),
    ("sheathing", "sheathing", "sheathing"),
    ("fasteners", "nailing", "nailing"),
    ("raising", "raising", "raising"),
)
"""Each wall's drawings: the operation, and what its id and its title say."""


class WallPage(msgspec.Struct):
    """One wall as it is shown."""

    side: str
    title: str
    drawings: list[Drawing]
    marks: list[MarkRow]
    cut_list: list[CutRow]
    ends: dict[str, str]
    """How the ends of a mark are sawn, where not square."""
    pieces: list[PieceRow]
    joints: list[Joint]
    raising: RaisingAnswer
    findings: list[Finding]
    views: list[tuple[str, str, str]]
    """Path, name and link of the wall's own pages."""


class Told(msgspec.Struct):
    """A finding that is told once for the building, with the walls that it is about where it is not about all."""

    finding: Finding
    walls: str


class BuildingPage(msgspec.Struct):
    """A building as it is shown."""

    answer: BuildingAnswer
    plan: Drawing
    walls: list[WallPage]
    findings: list[Told]
    order: str
    """Where what the building takes is shown as an order; empty where there is no link."""

    @property
    def sheets(self) -> list[Drawing]:
        """Every drawing of the set in its order."""
        return [self.plan, *(one for wall in self.walls for one in wall.drawings)]


def building_page(request: Building, packed: Packer, back: str = "") -> BuildingPage:
    """Everything that the page shows of a building; ``back`` is its own query. Raises PlanRefused with every fault found."""
    found = print_set(request)
    told = _told(found)
    once = {(one.finding.code, one.finding.text) for one in told}
    plan = drawing("building", "plan", "Plan", found.plan, found.body, packed)
    pairs = zip(found.answer.walls, found.walls, strict=True)
    page = BuildingPage(
        found.answer,
        plan,
        [_wall_page(wall, sheets, once, packed, back) for wall, sheets in pairs],
        told,
        order_link(found.body, found.answer, packed),
    )
    for number, one in enumerate(page.sheets, 1):
        one.number = number
    return page


def _findings(built: BuiltWall) -> Iterator[Finding]:
    for part in (built.layout, built.sheathing, built.fasteners, built.raising):
        if not isinstance(part, UnsetType):
            yield from part.findings


def _told(found: PrintSet) -> list[Told]:
    """What is told of the building, and what would be told of several walls in the same words."""
    own = {(one.code, one.text) for one in found.answer.findings}
    sides: dict[tuple[str, str], list[str]] = {}
    of_walls: list[Finding] = []
    for wall in found.answer.walls:
        for one in ordered(_findings(wall)):
            key = (one.code, one.text)
            sides.setdefault(key, []).append(wall.side)
            of_walls.append(one)
    shared = [one for one in of_walls if len(sides[one.code, one.text]) > 1]
    told = []
    for one in ordered([*found.answer.findings, *shared]):
        key = (one.code, one.text)
        about = sides.get(key, [])
        some = key not in own and len(about) < len(found.answer.walls)
        told.append(Told(one, f"{' and '.join(about)} walls" if some else ""))
    return told


def _wall_page(built: BuiltWall, sheets: WallSheets, told: set[tuple[str, str]], packed: Packer, back: str) -> WallPage:
    layout, skin, nailed, lifted = built.layout, built.sheathing, built.fasteners, built.raising
    assert isinstance(layout, LayoutAnswer)  # noqa: S101 - the whole set is asked for by this page
    assert isinstance(skin, SheathingAnswer)  # noqa: S101
    assert isinstance(nailed, FastenersAnswer)  # noqa: S101
    assert isinstance(lifted, RaisingAnswer)  # noqa: S101
    side = built.side
    title = f"{side.capitalize()} wall"
    return WallPage(
        side,
        title,
        [
            drawing(operation, f"{side}-{id}{ending}", f"{title}: {said}{which}", svg, sheets.body, packed)
            for operation, id, said in _KINDS
            for ending, which, svg in _papers(sheets.drawings[operation])
        ],
        mark_rows(layout),
        layout.cut_list,
        end_cuts(layout),
        [piece_row(piece, built.wall) for piece in skin.pieces],
        nailed.joints,
        lifted,
        [one for one in ordered(_findings(built)) if (one.code, one.text) not in told],
        views_of(sheets.body, packed, back),
    )


def _papers(papers: list[str]) -> list[tuple[str, str, str]]:
    """Each paper of a drawing with what its id and its title end in: nothing where it is the only one."""
    if len(papers) == 1:
        return [("", "", papers[0])]
    return [(f"-{number}", f", sheet {number} of {len(papers)}", svg) for number, svg in enumerate(papers, 1)]
