"""What the published tables ask of an opening: its header, its jack studs, its full-height studs.

Nothing is read on an assumed load: without both `carries` and `site` every answer here is "not known". The span
of a header is taken clear between its jacks.
"""

from typing import Final

import msgspec

from wallwright.domain import defaults
from wallwright.domain.stock import of_the_yard
from wallwright.domain.wall import Header, Wall
from wallwright.published import header_rules, headers
from wallwright.published.softwood_lumber import nominal
from wallwright.published.tables import OutsideTable

LEAST_PLIES: Final = 2
"""One ply needs a flat 2x above and below it (IRC R602.7.1), so that the service never takes one by itself."""


MOST_JACKS: Final = 3
"""No header table asks for more jacks at an end (IRC Table R602.7(1) and (2), all editions held)."""


class HeaderRead(msgspec.Struct, frozen=True, gc=False):
    """What the table allows a header: the span on the grid, jack studs at each end, the snow column, and whether
    the span is cut because nothing holds the header's top.
    """

    allowed: int
    jacks: int
    snow_psf: int
    reduced: bool


def loads_known(wall: Wall) -> bool:
    """Whether load and place were given, so that the wall is compared with tables at all."""
    return wall.carries is not None and wall.site is not None


def bears(wall: Wall) -> bool:
    """Whether the wall is known to carry a load."""
    return wall.carries is not None and wall.carries.load != "none"


def can_size(wall: Wall) -> bool:
    """Whether everything that the header table asks for was given: a load, the building's width, ground snow."""
    if wall.carries is None or wall.site is None or not bears(wall):
        return False
    return wall.carries.building_width is not None and wall.site.ground_snow_psf is not None


def read_header(wall: Wall, header: Header, *, top_held: bool) -> HeaderRead:
    """What the table allows ``header``; only where `can_size`. Raises OutsideTable where it holds no such case."""
    carries, site = wall.carries, wall.site
    if carries is None or site is None or carries.building_width is None or site.ground_snow_psf is None:
        raise OutsideTable("load, width and snow are not given")
    size = nominal(header.stock.thickness, header.stock.width)
    if size is None:
        raise OutsideTable("the table holds no such section")
    asked = headers.Size(header.plies, size)
    found = headers.read(wall.rules, carries.load, asked, site.ground_snow_psf, carries.building_width)
    allowed = found.span if top_held else header_rules.held_top_only(wall.rules, size, found.span)
    return HeaderRead(allowed, found.jacks, found.snow_psf, allowed < found.span)


def top_held(wall: Wall, header: Header, room: int) -> bool:
    """Whether a header is held along its top: tight under the plates of a level wall, ``room`` above the opening."""
    return wall.top.shape == "level" and (header.seat == "plate" or header.stock.width == room)


def top_packed(wall: Wall, header: Header, room: int) -> bool:
    """Whether solid packing or flat pieces fill all between the header and the plates of a level wall, or nothing."""
    return wall.top.shape == "level" and (header.seat == "plate" or room - header.stock.width <= 2 * wall.thickness)


def sized_header(wall: Wall, span: int, room: int) -> Header | None:
    """The shallowest header that the table allows over ``span`` and that fits in ``room``; of these the fewest plies.

    Where none that is allowed fits, the same with solid packing above it taken to hold its top; then the shallowest
    that would fit if the wall were so much higher (its depth is then more than ``room``). None where loads are not
    known or the table allows none.
    """
    fitting = _fitting(wall)
    for held in (top_held, top_packed):
        for header in fitting:
            if header.stock.width <= room and _allowed(wall, header, span, held(wall, header, room)):
                return header
    for header in fitting:
        if header.stock.width > room and _allowed(wall, header, span, wall.top.shape == "level"):
            return header
    return None


def header_under_plates(wall: Wall, span: int, room: int) -> Header | None:
    """The shallowest header that the table would allow over ``span`` if it stood tight under a level wall's plates."""
    if wall.top.shape != "level":
        return None
    return next((one for one in _fitting(wall) if one.stock.width <= room and _allowed(wall, one, span, True)), None)


def _fitting(wall: Wall) -> list[Header]:
    """The table's headers that the wall's depth takes, where all that the table asks for is known."""
    if not can_size(wall):
        return []
    return [header for header in _candidates(wall) if header.plies * header.stock.thickness <= wall.depth]


def _candidates(wall: Wall) -> list[Header]:
    """The table's headers of two plies or more, from shallow to deep, then by plies."""
    load = "roof" if wall.carries is None else wall.carries.load
    try:
        listed = headers.sizes(wall.rules, load)
    except OutsideTable:
        return []
    found = [Header(of_the_yard(one.size, wall.stud), one.plies) for one in listed if one.plies >= LEAST_PLIES]
    return sorted(found, key=lambda header: (header.stock.width, header.plies))


def _allowed(wall: Wall, header: Header, span: int, held: bool) -> bool:
    try:
        return span <= read_header(wall, header, top_held=held).allowed
    except OutsideTable:
        return False


def jacks_needed(wall: Wall, header: Header) -> int:
    """Jack studs at each end by the table; one where it does not say."""
    try:
        return read_header(wall, header, top_held=True).jacks
    except OutsideTable:
        return defaults.JACKS


def kings_asked(wall: Wall) -> bool:
    """Whether everything that the table of full-height studs asks for was given."""
    site = wall.site
    if site is None or wall.carries is None:
        return False
    return not header_rules.asks_for_wind(wall.rules) or (site.wind_mph is not None and site.exposure is not None)


def read_kings(wall: Wall, span: int) -> int:
    """Full-height studs at each end of a header over ``span``; only where `kings_asked`. Raises OutsideTable."""
    site = wall.site
    wind, exposure = (None, None) if site is None else (site.wind_mph, site.exposure)
    return header_rules.full_height_studs(wall.rules, span, wall.spacing, wind, exposure)


def kings_needed(wall: Wall, span: int) -> int:
    """Full-height studs at each end by the table; one where it does not say or the loads are not known."""
    if not kings_asked(wall):
        return 1
    try:
        return read_kings(wall, span)
    except OutsideTable:
        return 1
