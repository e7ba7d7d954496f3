"""What the published checks share: walls said in inches or millimetres, and what is read off them."""

from wallwright.domain.members import Layout, Member
from wallwright.domain.stock import NOMINAL, Stock
from wallwright.domain.wall import End, Header, Meets, Opening, Sheathing, Sheet, Tape, Wall
from wallwright.lengths import INCH, MILLIMETRE, inches

FULL_HEIGHT = ("end-stud", "corner-stud", "field-stud", "king-stud")


def mm(size: float) -> int:
    """A size in millimetres on the grid; halves of a millimetre are exact."""
    return int(size * 2) * MILLIMETRE // 2


def feet(size: int) -> int:
    """A size in feet on the grid."""
    return size * 12 * INCH


def plain_wall(length: int, spacing: int = 16 * INCH, height: int = inches("97 1/8"), **more: object) -> Wall:
    """A wall of single posts at both ends, laid out from its plate's left end; sheets without gaps that cover it."""
    skin = Sheathing(Sheet(length=120 * INCH), gap=0)
    fields: dict[str, object] = {"tape": Tape(zero="plate"), "sheathing": skin, **more}
    return Wall(length=length, height=height, spacing=spacing, **fields)  # type: ignore[arg-type]


def with_role(laid: Layout, *roles: str) -> list[Member]:
    """Members of these roles, from left to right."""
    return sorted((m for m in laid.members if m.role in roles), key=lambda m: (m.x, m.y))


def stud_count(laid: Layout) -> int:
    """Full-height studs."""
    return len(with_role(laid, *FULL_HEIGHT))


def near_edges(laid: Layout) -> list[int]:
    """The edges of field studs that are nearer the left end."""
    return [m.x for m in with_role(laid, "field-stud")]


def opening(left: str, width: str, height: str, sill: str = "0", header: Header | None = None) -> Opening:
    """A rough opening said in inches."""
    return Opening("hatch", inches(left), inches(width), inches(height), inches(sill), header)


__all__ = [
    "NOMINAL", "End", "Header", "Meets", "Sheet", "Stock", "feet", "mm", "near_edges", "opening", "plain_wall",
    "stud_count", "with_role",
]  # fmt: skip
