"""Where each rectangle of the face is cut from: the sheets, the saw's lines on them, and what they leave.

Places on a sheet are read from its lower left corner as it hangs. With shiplap edges a rectangle is the net cover;
on the side where the next sheet overlaps it the sheet runs on by the lap, so that the lap is part of what is cut.
"""

from typing import Literal

import msgspec

from wallwright.domain import defaults
from wallwright.domain.lying import lying_size
from wallwright.domain.outlines import Rect
from wallwright.domain.skin import Line, Offcut, Outline
from wallwright.domain.wall import Wall

LapSide = Literal["", "left", "right", "top"]


class Cut(msgspec.Struct, frozen=True, gc=False):
    """A rectangle of the face, where its lower left corner lies on which sheet, and the lap that runs on past it."""

    face: Rect
    sheet: int
    x: int
    y: int
    lap: int = 0
    side: LapSide = ""
    recut: bool = False
    """Whether the lap has to be cut anew, the sheet's own being cut away."""
    turned: Literal["", "left", "right"] = ""
    """Whether it lies on the sheet a quarter turned, to the left (counter-clockwise) or to the right."""

    @property
    def box(self) -> Rect:
        """What the rectangle takes of its sheet, its lap included."""
        if self.turned:
            wide, high = self.face.right - self.face.left, self.face.top - self.face.bottom
            return Rect(self.x, self.y, self.x + high, self.y + wide)
        left, right = self.x, self.x + self.face.right - self.face.left
        top = self.y + self.face.top - self.face.bottom
        return Rect(
            left - (self.lap if self.side == "left" else 0),
            self.y,
            right + (self.lap if self.side == "right" else 0),
            top + (self.lap if self.side == "top" else 0),
        )


def sheet_size(wall: Wall) -> tuple[int, int]:
    """How wide and how high a whole sheet is as it hangs on the wall, its lap included."""
    along, across = lying_size(wall)
    across += wall.sheathing.sheet.lap
    return (across, along) if wall.sheathing.direction == "upright" else (along, across)


def on_sheets(wall: Wall, bands: list[list[Rect]]) -> list[Cut]:
    """Each rectangle of the face on a sheet: one sheet for each in a tall course, low ones stacked on one sheet.

    Under a slope the rectangle is as high as its column at its highest; the slope is cut from it.
    A piece keeps the sheet's own corner at its foot, on the side where the sheets begin; the first one with a shiplap
    edge is ripped there instead, so that it keeps its lap.
    """
    _, high = sheet_size(wall)
    cuts: list[Cut] = []
    sheets = 0
    for number, band in enumerate(bands):
        stacked = high + defaults.KERF  # no sheet begun for this course yet
        for face in band:
            lap, side = _lap(wall, bands, number, face)
            height = face.top - face.bottom + (lap if side == "top" else 0)
            if stacked + height > high:
                sheets += 1
                stacked = 0
            alone = 2 * height + defaults.KERF > high
            y = high - height if side == "top" and number == 0 and alone else stacked
            cut = _placed(wall, bands, Cut(face, sheets, 0, y, lap, side))
            cuts.append(cut)
            stacked = y + height + defaults.KERF
    return cuts


def _lap(wall: Wall, bands: list[list[Rect]], number: int, face: Rect) -> tuple[int, LapSide]:
    """How far a sheet runs on under the next one, and on which side; nothing at the last one."""
    lap = wall.sheathing.sheet.lap
    if not lap:
        return 0, ""
    if wall.sheathing.direction == "lying":
        return (0, "") if number == len(bands) - 1 or face.top < max(own.top for own in bands[number]) else (lap, "top")
    if wall.sheets_from == "left":
        return (0, "") if face.left == bands[0][-1].left else (lap, "right")
    return (0, "") if face.left == bands[0][0].left else (lap, "left")


def _placed(wall: Wall, bands: list[list[Rect]], cut: Cut) -> Cut:
    """The cut at its place along the sheet's width, and whether its lap is the sheet's own."""
    wide, high = sheet_size(wall)
    net = cut.face.right - cut.face.left
    from_left = wall.sheets_from == "left"
    first = cut.face.left == (bands[0][0] if from_left else bands[0][-1]).left
    x = 0 if from_left else wide - net
    if cut.side == "top":
        recut = cut.box.top != high
        return Cut(cut.face, cut.sheet, x, cut.y, cut.lap, cut.side, recut)
    if cut.side and first:
        x = wide - net - cut.lap if from_left else cut.lap
    recut = bool(cut.side) and (x + net + cut.lap != wide if from_left else x != cut.lap)
    return Cut(cut.face, cut.sheet, x, cut.y, cut.lap, cut.side, recut)


def placed_on(cut: Cut, points: Outline) -> Outline:
    """Points of the face where they lie on the sheet."""
    left, bottom = cut.face.left, cut.face.bottom
    if cut.turned == "left":
        return tuple((cut.x + cut.face.top - y, cut.y + x - left) for x, y in points)
    if cut.turned == "right":
        return tuple((cut.x + y - bottom, cut.y + cut.face.right - x) for x, y in points)
    return tuple((cut.x + x - left, cut.y + y - bottom) for x, y in points)


def reaches(cut: Cut, outline: Outline) -> bool:
    """Whether a piece reaches the side on which its rectangle has its lap."""
    if cut.side == "left":
        return min(x for x, _ in outline) == cut.face.left
    if cut.side == "right":
        return max(x for x, _ in outline) == cut.face.right
    return max(y for _, y in outline) == cut.face.top


def sawn(cut: Cut, points: Outline, wide: int, high: int) -> list[Line]:
    """The sides of an outline on its sheet that are not the sheet's own edges, past a lap's side by the lap."""
    return [
        line
        for a, b in zip(points, (*points[1:], points[0]), strict=True)
        if not _own(line := (_past(cut, a), _past(cut, b)), wide, high)
    ]


def _past(cut: Cut, point: tuple[int, int]) -> tuple[int, int]:
    """A point on the lap's side of a cut, moved to the lap's own edge; any other as it is."""
    x, y = point
    if cut.side == "left" and x == cut.x:
        return x - cut.lap, y
    if cut.side == "right" and x == cut.x + cut.face.right - cut.face.left:
        return x + cut.lap, y
    if cut.side == "top" and y == cut.y + cut.face.top - cut.face.bottom:
        return x, y + cut.lap
    return point


def _own(line: Line, wide: int, high: int) -> bool:
    a, b = line
    return (a[0] == b[0] and a[0] in (0, wide)) or (a[1] == b[1] and a[1] in (0, high))


def offcuts(wall: Wall, cuts: list[Cut]) -> tuple[Offcut, ...]:
    """What each sheet leaves: the strips beside its pieces, then what is above and below them."""
    wide, high = sheet_size(wall)
    kerf = defaults.KERF
    found = []
    for number in dict.fromkeys(cut.sheet for cut in cuts):
        boxes = [cut.box for cut in cuts if cut.sheet == number]
        left, right = min(box.left for box in boxes), max(box.right for box in boxes)
        foot, top = min(box.bottom for box in boxes), max(box.top for box in boxes)
        name = f"sheet-{number}"
        if left > kerf:
            found.append(Offcut(name, 0, 0, left - kerf, high))
        if wide - right > kerf:
            found.append(Offcut(name, right + kerf, 0, wide - right - kerf, high))
        if high - top > kerf:
            found.append(Offcut(name, left, top + kerf, right - left, high - top - kerf))
        if foot > kerf:
            found.append(Offcut(name, left, 0, right - left, foot - kerf))
    return tuple(found)
