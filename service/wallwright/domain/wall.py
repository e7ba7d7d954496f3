"""A wall as the trade speaks of it: one frozen value with every default filled in.

Lengths are grid integers. x runs along the wall from the bottom plate's left end as seen from
outside; y is plumb, up from the underside of the bottom plate; z from the framing's outer face
inwards.
"""

from typing import Literal

import msgspec

from wallwright.domain import defaults
from wallwright.domain.joining import Fastening
from wallwright.domain.stock import NOMINAL, Stock

Side = Literal["left", "right"]
Grain = Literal["kept", "free"]
PostKind = Literal["single", "two-stud", "three-stud"]


class Top(msgspec.Struct, frozen=True, gc=False):
    """The wall's top: ``level``, a ``rake`` that rises ``rise`` in ``run`` towards ``up``, or a ``gable``."""

    shape: Literal["level", "rake", "gable"] = "level"
    rise: int = 0
    run: int = 1
    up: Side = "right"
    ridge: int | None = None
    """x of a gable's ridge; None is the middle of the plate."""


class PlateJoints(msgspec.Struct, frozen=True):
    """Where level plates are jointed, x from the plate's left end, rising; a layer with none is in one piece."""

    bottom: tuple[int, ...] = ()
    second_bottom: tuple[int, ...] = ()
    """Of the bottom plate on the other, where there are two."""
    top: tuple[int, ...] = ()
    cap: tuple[int, ...] = ()


class Plates(msgspec.Struct, frozen=True):
    """How many plates lie below and above the studs, and the longest piece to be had.

    ``cap_offset`` is the least distance from a cap plate's joint to a joint below it. ``joints`` are those of level plates where they
    are given; None leaves them to the rule.
    """

    bottom: int = defaults.BOTTOM_PLATES
    top: int = defaults.TOP_PLATES
    stock_length: int | None = None
    cap_offset: int = defaults.CAP_OFFSET
    joints: PlateJoints | None = None


class Tape(msgspec.Struct, frozen=True, gc=False):
    """Where the tape is hooked for the layout."""

    start: Side = "left"
    zero: Literal["sheathing", "plate"] = "sheathing"
    offset: int = 0


class Meets(msgspec.Struct, frozen=True, gc=False):
    """The wall that this end meets: its studs' depth, its post, and the slip gap left between."""

    depth: int
    post: PostKind = "three-stud"
    slip_gap: int = 0


class End(msgspec.Struct, frozen=True, gc=False):
    """One end of the wall. Laps are positive past the plate's end, negative short of it."""

    post: PostKind = "single"
    sheathing_lap: int = 0
    cap_lap: int = 0
    meets: Meets | None = None

    @property
    def butts(self) -> Meets | None:
        """The wall that this end stands against: its own sheets cover that wall's edge. None at a through end."""
        return self.meets if self.sheathing_lap > 0 else None


class Header(msgspec.Struct, frozen=True, gc=False):
    """A header: ``plies`` pieces of ``stock`` on edge, seated on the jacks or tight under the plates."""

    stock: Stock
    plies: int
    seat: Literal["jacks", "plate"] = "jacks"
    spacer: int = 0
    """Thickness of the filler between the plies; 0 is none."""


class Opening(msgspec.Struct, frozen=True):
    """A rough opening: ``left`` from the plate's left end, ``sill`` from y = 0 (0 is a door)."""

    name: str
    left: int
    width: int
    height: int
    sill: int = 0
    header: Header | None = None
    """The header asked for; None leaves it to the service (or, within one bay, to flat blocks)."""
    jacks: int = defaults.JACKS
    """Jack studs at each side; 0 leaves them to the published table and is resolved when the wall is framed."""

    @property
    def right(self) -> int:
        """x of the opening's right side."""
        return self.left + self.width

    @property
    def head(self) -> int:
        """y of the opening's head."""
        return self.sill + self.height


class Partition(msgspec.Struct, frozen=True, gc=False):
    """An inside wall that ends against this one: ``at`` is x of its left face, ``depth`` the width of its plate."""

    at: int
    depth: int

    @property
    def right(self) -> int:
        """x of the partition's right face."""
        return self.at + self.depth


class Run(msgspec.Struct, frozen=True, gc=False):
    """A pipe or cable that crosses studs at ``y``: holes of one diameter, or notches of one depth, ``size``.

    It crosses every stud between ``left`` and ``right``; None is the wall's end. ``edge`` is the wood left between a
    hole and the nearer edge of the stud; None is a hole in the middle.
    """

    cut: Literal["bore", "notch"]
    size: int
    y: int
    left: int | None = None
    right: int | None = None
    edge: int | None = None


class Floor(msgspec.Struct, frozen=True):
    """What the wall stands on. ``rim`` and ``panel`` are a deck's rim joist depth and panel thickness."""

    kind: Literal["none", "deck", "slab"] = "none"
    rim: int = 0
    panel: int = 0
    treated_plate: bool = False
    anchors: tuple[int, ...] = ()


class Sheet(msgspec.Struct, frozen=True, gc=False):
    """The sheet to be had; ``sized_for_spacing`` means it is the gap narrower and shorter than its module."""

    width: int = defaults.SHEET_WIDTH
    length: int = defaults.SHEET_LENGTH
    thickness: int = defaults.SHEET_THICKNESS
    kind: str = defaults.SHEET_KIND
    sized_for_spacing: bool = False
    edge: Literal["square", "shiplap"] = "square"
    lap: int = 0
    """How far one long edge runs under the next sheet; 0 where edges are square. The net cover is the width less that."""

    @property
    def net_width(self) -> int:
        """How much of its width a sheet covers."""
        return self.width - self.lap


class Sheathing(msgspec.Struct, frozen=True, gc=False):
    """How the wall is skinned."""

    sheet: Sheet = Sheet()
    direction: Literal["upright", "lying"] = "upright"
    gap: int = defaults.SHEET_GAP
    under_sheet: int = 0
    start: Side | None = None
    """The end at which the sheets begin; None is the end that the tape starts from."""
    reuse_offcuts: bool = defaults.REUSE_OFFCUTS
    """Whether pieces are cut from what others leave of their sheets, where they fit."""
    grain: Grain = defaults.SHEET_GRAIN
    """Whether pieces so cut keep the way of the sheet's grain, or may lie turned on it."""
    openings: Literal["cut-out", "pieced"] = defaults.SHEET_OPENINGS
    """Whether openings are cut out of the sheets, or sheets pieced round them."""


class Carries(msgspec.Struct, frozen=True, gc=False):
    """The load the wall carries, and the building's width along the span."""

    load: str
    building_width: int | None = None


class Site(msgspec.Struct, frozen=True, gc=False):
    """Loads of the place; None is not given, and nothing is compared on an assumed load."""

    ground_snow_psf: float | None = None
    wind_mph: float | None = None
    exposure: str | None = None
    seismic: str | None = None


class Wall(msgspec.Struct, frozen=True, kw_only=True):
    """A wall, complete. What has no default and was not given is None."""

    length: int
    height: int
    name: str = ""
    top: Top = Top()
    stud: Stock = NOMINAL[defaults.STUD_NAME]
    spacing: int = defaults.SPACING
    plates: Plates = Plates()
    tape: Tape = Tape()
    left: End = End()
    right: End = End()
    openings: tuple[Opening, ...] = ()
    partitions: tuple[Partition, ...] = ()
    runs: tuple[Run, ...] = ()
    floor: Floor = Floor()
    sheathing: Sheathing = Sheathing()
    lining: bool = False
    """Whether the inner face is lined, so that inside corners get nailing."""
    fastening: Fastening = Fastening()
    positions: bool = False
    carries: Carries | None = None
    site: Site | None = None
    species: str = defaults.SPECIES
    moisture_percent: float = defaults.MOISTURE_PERCENT
    hands: int = defaults.HANDS
    rules: str = defaults.RULES

    @property
    def thickness(self) -> int:
        """Thickness of a stud and of every plate."""
        return self.stud.thickness

    @property
    def depth(self) -> int:
        """The framing's depth in z."""
        return self.stud.width

    @property
    def stud_bottom(self) -> int:
        """y of the studs' lower end."""
        return self.plates.bottom * self.stud.thickness

    @property
    def stud_top(self) -> int:
        """y of the studs' upper end in a level wall."""
        return self.height - self.plates.top * self.stud.thickness

    @property
    def tape_zero(self) -> int:
        """x where the tape is hooked: the sheathing's outer edge or the plate's end, shifted by the offset."""
        by_sheet = self.tape.zero == "sheathing"
        if self.tape.start == "left":
            return (-self.left.sheathing_lap if by_sheet else 0) + self.tape.offset
        return self.length + (self.right.sheathing_lap if by_sheet else 0) - self.tape.offset

    def reading(self, at: int) -> int:
        """What the tape shows at x, hooked at tape zero and run along the wall."""
        return at - self.tape_zero if self.tape.start == "left" else self.tape_zero - at

    @property
    def sheets_from(self) -> Side:
        """The end at which the sheets begin."""
        return self.sheathing.start or self.tape.start

    @property
    def face_left(self) -> int:
        """x of the sheathed face's left edge."""
        return -self.left.sheathing_lap

    @property
    def face_right(self) -> int:
        """x of the sheathed face's right edge."""
        return self.length + self.right.sheathing_lap

    @property
    def face_bottom(self) -> int:
        """y of the sheathed face's lower edge."""
        return -self.sheathing.under_sheet
