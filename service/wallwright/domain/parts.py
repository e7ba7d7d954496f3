"""A part: a member before it has its id and its mark. The stages that frame a wall pass parts on."""

import msgspec

from wallwright.domain.slopes import Cut, Outline
from wallwright.domain.stock import Stock
from wallwright.domain.wall import Wall


class Part(msgspec.Struct, frozen=True, gc=False):
    """A piece of the frame and the box that it fills; see `wallwright.domain.members.Member`."""

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
    cut_outs: tuple[tuple[int, int], ...] = ()
    slid: bool = False
    """A stud off its layout line, set tight against its neighbour."""
    centred: bool = False
    """A stud whose mark is its centre line."""
    outline: Outline = ()
    """Polygon in x, y, only where a slope cuts the part; its box stays the bounding box."""
    short: int | None = None
    """Length to the short point, where an end is not square; ``length`` is then that to the long point."""
    cuts: tuple[Cut, ...] = ()

    @property
    def right(self) -> int:
        """x of the part's right side."""
        return self.x + self.width

    @property
    def top(self) -> int:
        """y of the part's upper side."""
        return self.y + self.height

    @property
    def upright(self) -> bool:
        """Whether the part stands: its length runs along y."""
        return self.length == self.height


def stud(
    wall: Wall, role: str, x: int, y: int, top: int, *, opening: str = "", slid: bool = False, centred: bool = False
) -> Part:
    """An upright of the wall's stock, its narrow face to the sheets, from ``y`` to ``top``."""
    height = top - y
    return Part(
        role, wall.stud, height, x, y, 0, wall.thickness, height, wall.depth,
        opening=opening, slid=slid, centred=centred,
    )  # fmt: skip


def flat(wall: Wall, role: str, x: int, right: int, y: int, top: int, *, opening: str = "") -> Part:
    """A level piece of the wall's stock laid flat from ``x`` to ``right``; thinner than the stock it is ripped."""
    height = top - y
    return Part(
        role, wall.stud, right - x, x, y, 0, right - x, height, wall.depth,
        ripped_to=None if height == wall.thickness else height, opening=opening,
    )  # fmt: skip


def filler(wall: Wall, x: int, right: int, y: int, top: int, *, opening: str = "") -> Part:
    """An upright packing piece of the wall's stock, ripped to the gap from ``x`` to ``right``."""
    width = right - x
    return Part(
        "blocking", wall.stud, top - y, x, y, 0, width, top - y, wall.depth,
        ripped_to=None if width == wall.thickness else width, opening=opening,
    )  # fmt: skip
