"""A building as it is asked for and as it is walled: values alone."""

from typing import Literal

import msgspec

from wallwright.domain.deck_lines import DeckLines
from wallwright.domain.framed import Framed
from wallwright.domain.members import Layout
from wallwright.domain.roofs import Roof, SideName
from wallwright.domain.skin import Skin
from wallwright.domain.squaring.deck import Deck
from wallwright.domain.wall import PostKind, Side, Wall
from wallwright.findings import Finding

SIDES: tuple[SideName, ...] = ("front", "right", "back", "left")


class SidePlan(msgspec.Struct, frozen=True):
    """What is asked of one wall. ``wall`` holds every field that does not follow from the building.

    ``left_post``, ``right_post``, ``start`` and ``under_sheet`` are None where they were not given.
    """

    wall: Wall
    left_post: PostKind | None = None
    right_post: PostKind | None = None
    start: Side | None = None
    under_sheet: int | None = None


class Building(msgspec.Struct, frozen=True):
    """A building to be walled. ``width`` runs along the front, ``depth`` along the sides."""

    width: int
    depth: int
    wall_height: int
    sides: dict[SideName, SidePlan]
    name: str = ""
    measured_to: Literal["framing", "sheathing"] = "framing"
    roof: Roof = Roof()
    slip_gap: int = 0
    through: tuple[SideName, SideName] = ("front", "back")
    deck: Deck | None = None
    """The deck or slab as it was measured; what is wanted on it is the framing."""


class Corner(msgspec.Struct, frozen=True, gc=False):
    """Where two walls meet: which runs through, which butts, and how sheets and caps lap."""

    name: str
    through: SideName
    butt: SideName
    sheathing_lap: int
    """How far the butt wall's sheets run past its plate."""
    cap_lap: int
    """How far the butt wall's cap runs past its plate; 0 where no cap laps."""
    slip_gap: int


class BuiltWall(msgspec.Struct, frozen=True):
    """One wall of the building: its side, and everything reckoned of it."""

    side: SideName
    wall: Wall
    framed: Framed
    skin: Skin | None

    @property
    def layout(self) -> Layout:
        """The wall's layout."""
        return self.framed.layout


class Step(msgspec.Struct, frozen=True, gc=False):
    """One step of the order of work; ``how_many`` of what it ``counts`` is None where nothing is counted."""

    number: int
    side: str
    what: str
    where: str = ""
    caution: str = ""
    how_many: int | None = None
    counts: str = ""


class Total(msgspec.Struct, frozen=True, gc=False):
    """Pieces of one section and length over all walls."""

    stock: str
    length: int
    count: int
    ripped_to: int | None
    treated: bool


class Built(msgspec.Struct, frozen=True):
    """A building walled: four complete walls, its corners, totals, order of work and findings."""

    building: Building
    framing_width: int
    framing_depth: int
    walls: tuple[BuiltWall, ...]
    corners: tuple[Corner, ...]
    totals: tuple[Total, ...]
    sheets: int
    order: tuple[Step, ...]
    findings: tuple[Finding, ...]
    deck: DeckLines | None = None


def framing_size(building: Building) -> tuple[int, int]:
    """Width and depth over the framing: as stated, or the stated size less a sheet at each side."""
    if building.measured_to == "framing":
        return building.width, building.depth
    skins = {side: plan.wall.sheathing.sheet.thickness for side, plan in building.sides.items()}
    return building.width - skins["left"] - skins["right"], building.depth - skins["front"] - skins["back"]


def has_beam(building: Building) -> bool:
    """Whether a gable roof's ridge is a beam, which bears on the gables."""
    return building.roof.shape == "gable" and building.roof.ridge == "beam"
