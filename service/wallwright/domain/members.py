"""What a framed wall is made of: members, marks on the plates, rows of the cut list, and the whole layout."""

from typing import Final, Literal

import msgspec

from wallwright.domain.slopes import Cut
from wallwright.domain.stock import Stock
from wallwright.domain.wall import Wall
from wallwright.findings import Finding

Point = tuple[int, int]

ROLES: Final = (
    "bottom-plate", "top-plate", "cap-plate", "end-stud", "corner-stud", "field-stud", "seam-stud", "king-stud",
    "jack-stud", "cripple", "header", "rough-sill", "backing", "blocking",
)  # fmt: skip
"""Every role a member can have, in the order in which members are listed."""


class CutOut(msgspec.Struct, frozen=True, gc=False):
    """A length of plate that is cut out once the wall stands, in x."""

    left: int
    right: int


class Member(msgspec.Struct, frozen=True, gc=False):
    """One member, with the box that it fills. ``plies`` pieces stand side by side in z within the box.

    ``length`` is that of the piece as cut; ``ripped_to`` the thickness it is ripped to, None for full stock.
    """

    id: str
    mark: str
    role: str
    stock: Stock
    length: int
    x: int
    y: int
    z: int
    width: int
    height: int
    depth: int
    plies: int = 1
    ripped_to: int | None = None
    treated: bool = False
    opening: str = ""
    """Name of the opening that the member frames, or empty."""
    outline: tuple[Point, ...] = ()
    """Polygon in x, y, only where the member is not its box."""
    cut_outs: tuple[CutOut, ...] = ()
    short: int | None = None
    """Length to the short point, where an end is not square; ``length`` is then that to the long point."""
    cuts: tuple[Cut, ...] = ()
    """Ends that are not square."""

    @property
    def right(self) -> int:
        """x of the member's right side."""
        return self.x + self.width

    @property
    def top(self) -> int:
        """y of the member's upper side."""
        return self.y + self.height


class Mark(msgspec.Struct, frozen=True, gc=False):
    """A line on a plate: ``at`` is its x, ``reading`` what the tape shows hooked at tape zero.

    ``sign`` X stands on the ``side`` of the line where the stud stands; C is a stud centred on its line.
    """

    plate: str
    member: str
    at: int
    reading: int
    side: Literal["left", "right", "centre"]
    sign: Literal["X", "C"]


class Anchor(msgspec.Struct, frozen=True, gc=False):
    """A bolt that holds the bottom plate to a slab: its middle in x and z, and what the tape shows there.

    ``plate`` is the piece that it comes up through; ``origin`` is ``given`` (already cast) or ``placed``.
    """

    id: str
    plate: str
    x: int
    z: int
    reading: int
    origin: str


class CutRow(msgspec.Struct, frozen=True, gc=False):
    """Equal pieces to cut: ``count`` counts every ply, packing piece and block."""

    mark: str
    roles: tuple[str, ...]
    stock: Stock
    length: int
    count: int
    members: tuple[str, ...]
    ripped_to: int | None = None
    treated: bool = False
    short: int | None = None
    """Length to the short point, where an end is not square; ``length`` is then that to the long point."""
    cut_angles: tuple[float, ...] = ()
    """Degrees off square of each end that is not square; which way a piece is turned is its members' to say."""


class Layout(msgspec.Struct, frozen=True):
    """A wall laid out: its members, the marks on its plates, what to cut, and what to say about it."""

    wall: Wall
    members: tuple[Member, ...]
    marks: tuple[Mark, ...]
    cut_list: tuple[CutRow, ...]
    findings: tuple[Finding, ...]
    anchors: tuple[Anchor, ...] = ()
