"""The foot of a wall in section: floor build-up, bottom plate, stud, and how far the sheets hang below."""

from collections.abc import Callable
from typing import Final

from wallwright.domain.wall import Wall
from wallwright.drawing.dimensions import Shapes
from wallwright.drawing.scene import Area, Lines
from wallwright.lengths import INCH, MILLIMETRE, Units, tape_text

ABOVE: Final = 5 * INCH
"""How much of the stud is seen."""
_BELOW: Final = INCH
_INWARDS: Final = 7 * INCH
_RIM: Final = 3 * INCH // 2
"""A rim joist is taken to be two-by stock: its thickness is not asked for."""
_SLAB: Final = 4 * INCH


def foot_size(wall: Wall) -> tuple[int, int]:
    """Width and height of the section on the grid."""
    return wall.sheathing.sheet.thickness + wall.depth + _INWARDS, ABOVE + _depth(wall)


def _depth(wall: Wall) -> int:
    """How far the section reaches below the bottom plate."""
    floor = wall.floor
    build_up = {"none": 0, "slab": _SLAB, "deck": floor.rim + floor.panel}[floor.kind]
    return max(build_up, wall.sheathing.under_sheet) + _BELOW


def foot_caption(wall: Wall, units: Units) -> str:
    """What is said under the section."""
    floor, hang = wall.floor, tape_text(wall.sheathing.under_sheet, units)
    if floor.kind == "deck":
        return (
            f"deck: panel {tape_text(floor.panel, units)} on rim {tape_text(floor.rim, units)}; sheets hang {hang} "
            "below the plate"
        )
    return f"{'slab' if floor.kind == 'slab' else 'floor not given'}; sheets hang {hang} below the plate"


def foot_section(wall: Wall, left: float, top: float, ratio: int) -> Shapes:
    """The section, outside at the left, with its upper left corner at ``left``, ``top`` on paper."""
    skin, deep = wall.sheathing.sheet.thickness, wall.depth
    floor_y = top + ABOVE / (MILLIMETRE * ratio)

    def area(kind: str, z: tuple[int, int], y: tuple[int, int], title: str) -> Area:
        x1, x2 = (left + (skin + at) / (MILLIMETRE * ratio) for at in z)
        y1, y2 = (floor_y - at / (MILLIMETRE * ratio) for at in y)
        return Area(kind, ((x1, y1), (x2, y1), (x2, y2), (x1, y2)), title)

    plates = wall.plates.bottom
    shapes: Shapes = _floor(wall, area)
    shapes.append(area("member", (0, deep), (wall.stud_bottom, ABOVE), "stud"))
    for number in range(plates):
        shapes += _crossed(area("plate", (0, deep), (number * wall.thickness, (number + 1) * wall.thickness), "plate"))
    shapes.append(area("sheet", (-skin, 0), (-wall.sheathing.under_sheet, ABOVE), "sheathing"))
    return shapes


def _floor(wall: Wall, area: Callable[[str, tuple[int, int], tuple[int, int], str], Area]) -> Shapes:
    floor, inwards = wall.floor, wall.depth + _INWARDS
    if floor.kind == "slab":
        return [area("block", (0, inwards), (-_SLAB, 0), "slab")]
    if floor.kind == "none":
        return [area("behind", (0, inwards), (0, 0), "floor")]
    shapes: Shapes = []
    if floor.rim:
        shapes.append(area("member", (_RIM, inwards), (-floor.panel - floor.rim, -floor.panel), "joist"))
        shapes += _crossed(area("plate", (0, _RIM), (-floor.panel - floor.rim, -floor.panel), "rim"))
    if floor.panel:
        shapes.append(area("block", (0, inwards), (-floor.panel, 0), "floor panel"))
    return shapes


def _crossed(box: Area) -> Shapes:
    """Timber cut across: its outline with both diagonals."""
    (x1, y1), (x2, y2), (x3, y3), (x4, y4) = box.points
    return [box, Lines("thin", ((x1, y1, x3, y3), (x2, y2, x4, y4)))]
