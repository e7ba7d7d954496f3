"""What stands in the way of framing an opening: its sizes, its header's room, its place. All faults are collected."""

from wallwright.domain.posts import king_line
from wallwright.domain.wall import Header, Opening, Wall
from wallwright.findings import Fault, Offer, Value, at_least, at_most

Values = tuple[tuple[str, Value], ...]


def sizes_faults(wall: Wall, index: int, opening: Opening) -> list[Fault]:
    """Faults of an opening by itself: too narrow, its sill in the plate, or a door's head there."""
    at = f"/openings/{index}"
    faults = []
    if opening.width < wall.thickness:
        values: Values = (("given", opening.width), ("least", at_least(wall.thickness)))
        faults.append(Fault("opening-too-narrow", f"{at}/width", values))
    least_sill = wall.stud_bottom + wall.thickness
    if 0 < opening.sill < least_sill:
        values = (("given", opening.sill), ("least", at_least(least_sill)))
        faults.append(Fault("sill-too-low", f"{at}/sill", values))
    lowest = lowest_door(wall)
    if opening.sill == 0 and opening.height < lowest:
        values = (("given", opening.height), ("least", at_least(lowest)))
        faults.append(Fault("opening-too-low", f"{at}/height", values))
    return faults


def lowest_door(wall: Wall) -> int:
    """The least height of an opening that stands on the floor: its jacks stand on the bottom plates and have a length."""
    return wall.stud_bottom + wall.thickness


def block_room(wall: Wall, index: int, opening: Opening) -> list[Fault]:
    """The fault of an opening within one bay whose head lies in level plates."""
    if wall.top.shape != "level" or opening.head <= wall.stud_top:
        return []
    taller = at_least(wall.height + opening.head - wall.stud_top)
    most = wall.stud_top - opening.sill
    if most < wall.thickness:
        return [_sill_too_high(index, opening, wall.stud_top - wall.thickness, taller)]
    values: Values = (("given", opening.height), ("most", at_most(most)), ("wall_height", taller))
    return [Fault("opening-too-high", f"/openings/{index}/height", values)]


def _sill_too_high(index: int, opening: Opening, most: int, taller: Offer) -> Fault:
    values: Values = (("given", opening.sill), ("most", at_most(most)), ("wall_height", taller))
    return Fault("sill-too-high", f"/openings/{index}/sill", values)


def too_thick(wall: Wall, index: int, header: Header) -> Fault:
    """The fault of a header that stands out from the wall, with how many plies fit."""
    fit = (wall.depth - header.spacer) // header.stock.thickness
    thick = header.plies * header.stock.thickness + header.spacer
    values: Values = (
        ("stock", header.stock.name),
        ("plies", str(header.plies)),
        ("given", thick),
        ("most", wall.depth),
        ("fit", str(fit) if fit > 0 else "none"),
    )
    return Fault("header-too-thick", f"/openings/{index}/header/plies", values)


def no_room(wall: Wall, index: int, opening: Opening, header: Header, roof: int) -> Fault:
    """Why a header does not fit under the plates, told at the field whose change would mend it."""
    deep = header.stock.width
    taller = at_least(wall.height + deep - (roof - opening.head))
    highest = roof - deep
    least_head = wall.stud_bottom + wall.thickness
    if highest < least_head:
        own: Values = (("stock", header.stock.name), ("deep", deep), ("room", roof - wall.stud_bottom))
        at = f"/openings/{index}/header/stock" if opening.header is not None else f"/openings/{index}/height"
        return Fault("header-deeper-than-wall", at, (*own, ("wall_height", taller)))
    if highest - opening.sill < (wall.thickness if opening.sill else least_head):
        # A window below the header needs a sill of its own; where there is no room for one, only a door is left.
        lower = highest - wall.thickness
        return _sill_too_high(index, opening, lower if lower >= least_head else 0, taller)
    values: Values = (
        ("stock", header.stock.name),
        ("deep", deep),
        ("room", max(roof - opening.head, 0)),
        ("most", at_most(highest - opening.sill)),
        ("wall_height", taller),
    )
    return Fault("header-does-not-fit", f"/openings/{index}/height", values)


def misplaced(wall: Wall, resolved: list[tuple[int, Opening, Header | None, bool]]) -> list[Fault]:
    """Openings that have no room where they stand, one fault each, from left to right.

    One that has none is set aside, so that its neighbours are judged by those that stay. Openings stand side
    by side, never one above another; where their bays allow it, those without jacks are judged by their voids.
    """
    thick = wall.thickness
    faults = []
    void, other = 0, ""
    line, last = king_line(wall, wall.left), wall.length - king_line(wall, wall.right)
    by_post = True
    for index, opening, header, _ in sorted(resolved, key=lambda item: (item[1].left, item[0])):
        jacks = opening.jacks * thick
        code = ""
        if opening.left < 0 or opening.right > wall.length:
            code = "opening-outside-wall"
        elif opening.left < void:
            code = "openings-collide"
        elif header is not None and opening.left < line + jacks:
            code = "opening-too-near-end" if by_post else "openings-too-near"
        elif header is not None and opening.right + jacks > last:
            code = "opening-too-near-end"
        if code:
            faults.append(Fault(code, f"/openings/{index}/left", (("other", other),)))
            continue
        void, other = opening.right, opening.name or "its neighbour"
        if header is not None:
            line, by_post = opening.right + jacks + thick, False
    return faults
