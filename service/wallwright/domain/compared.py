"""What the sizes of a framed wall come to beside the published tables: studs, headers, jacks, full-height studs.

Each finding names the figure, the limit and the table. None says that a plan is right: what the tables do not
hold, and what was not given, is said as well.
"""

from wallwright.domain.members import Member
from wallwright.domain.openings import Framed, Plan
from wallwright.domain.parts import Part
from wallwright.domain.sizing import (
    bears,
    can_size,
    header_under_plates,
    kings_asked,
    kings_needed,
    read_header,
    read_kings,
    top_held,
    top_packed,
)
from wallwright.domain.wall import Opening, Wall
from wallwright.findings import Compared, Finding, Value
from wallwright.published import header_rules, headers, studs
from wallwright.published.softwood_lumber import nominal
from wallwright.published.tables import TABLES, OutsideTable

Pairs = tuple[tuple[Part, Member], ...]
Values = tuple[tuple[str, Value], ...]
FULL_HEIGHT = ("king-stud", "end-stud", "corner-stud", "field-stud")


def size_findings(wall: Wall, plan: Plan, pairs: Pairs) -> list[Finding]:
    """The comparisons of a wall whose load and place are known, studs first, then opening by opening."""
    found = _studs(wall, pairs)
    from_right = wall.tape.start == "right"
    by_place = {wall.length - f.opening.right if from_right else f.opening.left: f for f in plan.framed}
    for index, opening in enumerate(wall.openings):
        framed = by_place.get(opening.left)
        if framed is not None:
            found += _opening(wall, index, opening, framed, pairs)
    return found


def _studs(wall: Wall, pairs: Pairs) -> list[Finding]:
    height = max(part.height for part, _ in pairs if part.role in FULL_HEIGHT)
    load = "none" if wall.carries is None else wall.carries.load
    source = studs.limits_source(wall.rules)
    name: tuple[str, Value] = ("stud", wall.stud.name)
    try:
        most = studs.limits(wall.rules, nominal(wall.stud.thickness, wall.stud.width) or "", load)
    except OutsideTable as outside:
        return [Finding("studs-outside-table", "/stud", (name, ("reason", outside.reason)), source=source)]
    values: Values = (
        name, ("height", height), ("spacing", wall.spacing), ("most_height", most.height),
        ("most_spacing", most.spacing), ("load", "carries no load" if load == "none" else f"carries {_LOADS[load]}"),
    )  # fmt: skip
    found = []
    tall = Compared(height, most.height, "length")
    if wall.spacing > most.spacing:
        apart = Compared(wall.spacing, most.spacing, "length")
        found.append(Finding("studs-too-far-apart", "/spacing", values, source=source, compared=apart))
    if height > most.height:
        found.append(_taller(wall, height, values, tall))
    return found or [Finding("studs-compared", "/stud", values, source=source, compared=tall)]


_LOADS = {
    "roof": "a roof and ceiling",
    "roof-and-center-bearing-floor": "a roof, ceiling and a floor borne at its middle",
    "roof-and-clear-span-floor": "a roof, ceiling and a floor of one clear span",
}


def _taller(wall: Wall, height: int, values: Values, tall: Compared) -> Finding:
    """Studs past the plain limit: within one of the code's exceptions, with its conditions, or beyond them."""
    if bears(wall):
        size = nominal(wall.stud.thickness, wall.stud.width)
        if _light_roof(wall, size, height):
            source = TABLES["tall_2x6_studs"].of(wall.rules)
            return Finding("tall-studs-light-roof", "/height", values, source=source, compared=tall)
        if _tall_table(wall, height):
            source = studs.tall_source(wall.rules)
            return Finding("tall-studs-conditions", "/height", values, source=source, compared=tall)
    return Finding("studs-too-tall", "/height", values, source=studs.limits_source(wall.rules), compared=tall)


def _light_roof(wall: Wall, size: str | None, height: int) -> bool:
    """Whether the exception for a 2x6 under a light narrow roof reaches this wall, half the width being its share."""
    carries, site = wall.carries, wall.site
    if carries is None or site is None or carries.load != "roof" or carries.building_width is None:
        return False
    if site.wind_mph is None or site.ground_snow_psf is None or size is None:
        return False
    share = -(-carries.building_width // 2)
    try:
        most = studs.tall_2x6_height(wall.rules, size, wall.spacing, site.wind_mph, site.ground_snow_psf, share)
    except OutsideTable:
        return False
    return height <= most


def _tall_table(wall: Wall, height: int) -> bool:
    """Whether the table of studs to 12 ft allows these, the roof spanning the building's width."""
    carries, site = wall.carries, wall.site
    if carries is None or site is None or carries.building_width is None:
        return False
    if site.wind_mph is None or site.exposure is None or site.ground_snow_psf is None:
        return False
    try:
        size = studs.tall_stud(
            wall.rules, height, wall.spacing, carries.load, site.wind_mph, site.exposure, site.ground_snow_psf,
            carries.building_width,
        )  # fmt: skip
    except OutsideTable:
        return False
    own = nominal(wall.stud.thickness, wall.stud.width)
    return own == size or (size == "2x4" and own == "2x6")


def _opening(wall: Wall, index: int, opening: Opening, framed: Framed, pairs: Pairs) -> list[Finding]:
    at = f"/openings/{index}"
    name = opening.name or f"opening {index + 1}"
    ids = tuple(m.id for part, m in pairs if part.role == "header" and part.x <= opening.left < part.right)
    header = framed.header
    values: Values = (("opening", name), ("stock", header.stock.name), ("plies", str(header.plies)))
    found = []
    if not bears(wall):
        found.append(_nonbearing(wall, at, values, ids, framed))
    elif not can_size(wall):
        found.append(Finding("header-not-sized", at, values, ids))
    else:
        found += _header(wall, at, values, ids, framed)
    return [*found, *_kings(wall, at, name, opening, pairs)]


def _nonbearing(wall: Wall, at: str, values: Values, ids: tuple[str, ...], framed: Framed) -> Finding:
    above = wall.stud_top - framed.opening.head
    flat = wall.top.shape == "level" and header_rules.flat_head_allowed(framed.opening.width, above)
    instead = "one 2x4 laid flat would do" if flat else "one 2x4 laid flat would not do"
    source = TABLES["header_nonbearing"].of(wall.rules)
    return Finding("header-nonbearing", at, (*values, ("instead", instead)), ids, source)


_UNDER = " Tight under the plates a {} of {} plies would be within it."


def _header(wall: Wall, at: str, values: Values, ids: tuple[str, ...], framed: Framed) -> list[Finding]:
    """The header's span beside the table's, its jacks beside the table's, and what one ply asks for."""
    header, span = framed.header, framed.opening.width
    room = wall.stud_top - framed.opening.head
    try:
        read = read_header(wall, header, top_held=top_held(wall, header, room))
        held = read_header(wall, header, top_held=True)
    except OutsideTable as outside:
        about = (*values, ("reason", outside.reason))
        return [Finding("header-outside-table", at, about, ids, headers.source(wall.rules))]
    top = "its span cut to 7/10, since nothing holds its top" if read.reduced else "its span as printed"
    grade = "No. 1" if wall.rules == "irc-2015" and wall.species == "southern-pine" else "No. 2"
    width = wall.carries.building_width if wall.carries is not None else None
    more: Values = (
        ("span", span), ("allowed", read.allowed), ("snow", str(read.snow_psf)), ("width", width or 0), ("top", top),
        ("grade", grade), ("jacks", str(framed.opening.jacks)), ("jacks_needed", str(read.jacks)),
    )  # fmt: skip
    source = headers.source(wall.rules)
    code = "header-compared" if span <= read.allowed else "header-too-small"
    if code == "header-too-small":
        if span <= held.allowed and top_packed(wall, header, room):
            code = "header-top-packed"
        better = header_under_plates(wall, span, room)
        more += (("better", "" if better is None else _UNDER.format(better.stock.name, better.plies)),)
    found = [Finding(code, at, (*values, *more), ids, source, Compared(span, read.allowed, "length"))]
    if framed.opening.jacks < read.jacks:
        compared = Compared(framed.opening.jacks, read.jacks, "studs")
        found.append(Finding("jacks-too-few", at, (*values, *more), ids, source, compared))
    if header.plies == 1:
        found.append(Finding("header-one-ply", at, values, ids, TABLES["header_one_ply"].of(wall.rules)))
    return found


def _kings(wall: Wall, at: str, name: str, opening: Opening, pairs: Pairs) -> list[Finding]:
    """Full-height studs at the header's worse end beside the table's number."""
    source = header_rules.full_height_source(wall.rules)
    values: Values = (("opening", name), ("span", opening.width))
    if not kings_asked(wall):
        return [Finding("full-height-studs-not-compared", at, values, source=source)]
    try:
        least = read_kings(wall, opening.width)
    except OutsideTable as outside:
        about = (*values, ("reason", outside.reason))
        return [Finding("full-height-studs-outside-table", at, about, source=source)]
    header = next(part for part, _ in pairs if part.role == "header" and part.x <= opening.left < part.right)
    ends = [_end(wall, pairs, least, header.x, -1), _end(wall, pairs, least, header.right, 1)]
    has, wanted, ids = min(ends, key=lambda end: (end[0] - end[1], end[0]))
    code = "full-height-studs-compared" if has >= wanted else "full-height-studs-too-few"
    about = (*values, ("has", str(has)), ("needed", str(wanted)))
    return [Finding(code, at, about, ids, source, Compared(has, wanted, "studs"))]


def _end(wall: Wall, pairs: Pairs, least: int, edge: int, way: int) -> tuple[int, int, tuple[str, ...]]:
    """Studs that stand tight together at one end of a header, how many are wanted there, and their ids.

    ``edge`` is the header's end, ``way`` the direction away from its opening. Where the studs run up to another
    header they serve both; of the studs that the two ask for, one may be shared.
    """
    beside = {(part.right if way < 0 else part.x): (part, member) for part, member in pairs if _full(wall, part)}
    ids = []
    while edge in beside:
        part, member = beside[edge]
        ids.append(member.id)
        edge = part.x if way < 0 else part.right
    met = [part for part, _ in pairs if part.role == "header" and (part.right if way < 0 else part.x) == edge]
    others = [o for o in wall.openings if any(part.x <= o.left < part.right for part in met)]
    wanted = least + sum(kings_needed(wall, other.width) - 1 for other in others)
    return len(ids), wanted, tuple(ids)


def _full(wall: Wall, part: Part) -> bool:
    """Whether a part is a full-height stud that stands across the wall's whole depth."""
    return part.role in FULL_HEIGHT and part.depth == wall.depth
