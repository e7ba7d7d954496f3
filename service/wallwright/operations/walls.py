"""A wire Wall to the domain's, every fault collected; and the completed wall back to the wire."""

from typing import Any

from msgspec import UNSET, UnsetType

from wallwright.domain import defaults
from wallwright.domain import wall as domain
from wallwright.domain.stock import NOMINAL, Stock
from wallwright.findings import PlanRefused
from wallwright.operations.converters import CONVERTERS, Converter
from wallwright.operations.reading import STOCK_LEAST, STOCK_MOST, STUD_LEAST, STUD_MOST, Reading, given
from wallwright.wire import limits
from wallwright.wire import wall as wire

_MILLION = 1_000_000
_RUN = 12
"""A slope's run where none is given, so that `rise` alone reads as the trade says it: rise in 12."""


def to_domain(request: wire.Wall) -> domain.Wall:
    """The wall asked for, complete. Raises PlanRefused with every length that is out of range."""
    reading = Reading(request.units)
    length = reading.length(request.length, "/length", 1, limits.WALL_LENGTH_MAX)
    height = reading.length(request.height, "/height", 1, limits.WALL_HEIGHT_MAX)
    options = common(reading, request, "")
    ends = request.ends
    left = end(reading, ends.left if ends else UNSET, "/ends/left")
    right = end(reading, ends.right if ends else UNSET, "/ends/right")
    depth = options.get("stud", NOMINAL[defaults.STUD_NAME]).width
    options.update(
        given(
            openings=openings(reading, request.openings, "", depth, by_table=by_table(request.carries, request.site)),
            carries=carries(reading, request.carries, ""),
            top=top(reading, request.top, "/top", length),
            name=request.name,
        )
    )
    if reading.faults:
        raise PlanRefused(tuple(reading.faults))
    return domain.Wall(length=length, height=height, left=left, right=right, **options)


def common(reading: Reading, request: wire.Common, at: str) -> dict[str, Any]:
    """The fields that a wall and a building's side share, as the domain wall's own; only those given."""
    return given(
        stud=UNSET if request.stud is UNSET else reading.stock(request.stud, f"{at}/stud", STUD_LEAST, STUD_MOST),
        spacing=_maybe(reading, request.spacing, f"{at}/spacing", limits.SPACING_MIN, limits.SPACING_MAX),
        plates=_plates(reading, request.plates, f"{at}/plates"),
        tape=_tape(reading, request.layout, f"{at}/layout"),
        floor=_floor(reading, request.floor, f"{at}/floor"),
        sheathing=_sheathing(reading, request.sheathing, f"{at}/sheathing"),
        fastening=request.fastening,
        positions=request.positions,
        site=_site(request.site),
        species=request.species,
        moisture_percent=request.moisture_percent,
        hands=request.hands,
        rules=request.rules,
    )


def _maybe(reading: Reading, value: Any, pointer: str, least: int, most: int) -> int | UnsetType:
    return UNSET if value is UNSET else reading.length(value, pointer, least, most)


def _plates(reading: Reading, plates: wire.Plates | UnsetType, at: str) -> domain.Plates | UnsetType:
    if plates is UNSET:
        return UNSET
    stock = _maybe(reading, plates.stock_length, f"{at}/stock_length", limits.STOCK_LENGTH_MIN, limits.STOCK_LENGTH_MAX)
    offset = _maybe(reading, plates.cap_offset, f"{at}/cap_offset", 0, limits.CAP_OFFSET_MAX)
    values = given(bottom=plates.bottom, top=plates.top, stock_length=stock, cap_offset=offset)
    return domain.Plates(**values)  # type: ignore[arg-type]


def _tape(reading: Reading, layout: wire.Layout | UnsetType, at: str) -> domain.Tape | UnsetType:
    if layout is UNSET:
        return UNSET
    reach = limits.TAPE_OFFSET_MAX
    offset = _maybe(reading, layout.tape_offset, f"{at}/tape_offset", -reach, reach)
    return domain.Tape(**given(start=layout.from_, zero=layout.tape_zero, offset=offset))  # type: ignore[arg-type]


def _floor(reading: Reading, floor: wire.Floor | UnsetType, at: str) -> domain.Floor | UnsetType:
    if floor is UNSET:
        return UNSET
    anchors: tuple[int, ...] | UnsetType = UNSET
    if floor.anchors is not UNSET:
        anchors = tuple(
            reading.length(anchor, f"{at}/anchors/{number}", 0, limits.WALL_LENGTH_MAX)
            for number, anchor in enumerate(floor.anchors)
        )
    rim = _maybe(reading, floor.rim, f"{at}/rim", 0, limits.RIM_MAX)
    panel = _maybe(reading, floor.panel, f"{at}/panel", 0, limits.PANEL_MAX)
    values = given(kind=floor.kind, rim=rim, panel=panel, treated_plate=floor.treated_plate, anchors=anchors)
    return domain.Floor(**values)  # type: ignore[arg-type]


def _sheathing(reading: Reading, sheathing: wire.Sheathing | UnsetType, at: str) -> domain.Sheathing | UnsetType:
    if sheathing is UNSET:
        return UNSET
    gap = _maybe(reading, sheathing.gap, f"{at}/gap", 0, limits.SHEET_GAP_MAX)
    under = _maybe(reading, sheathing.under_sheet, f"{at}/under_sheet", 0, limits.UNDER_SHEET_MAX)
    values = given(
        sheet=_sheet(reading, sheathing.sheet, f"{at}/sheet"),
        direction=sheathing.direction,
        gap=gap,
        under_sheet=under,
    )
    return domain.Sheathing(**values)  # type: ignore[arg-type]


def _sheet(reading: Reading, sheet: wire.Sheet | UnsetType, at: str) -> domain.Sheet | UnsetType:
    if sheet is UNSET:
        return UNSET
    values = given(
        width=_maybe(reading, sheet.width, f"{at}/width", limits.SHEET_WIDTH_MIN, limits.SHEET_WIDTH_MAX),
        length=_maybe(reading, sheet.length, f"{at}/length", limits.SHEET_LENGTH_MIN, limits.SHEET_LENGTH_MAX),
        thickness=_maybe(
            reading, sheet.thickness, f"{at}/thickness", limits.SHEET_THICKNESS_MIN, limits.SHEET_THICKNESS_MAX
        ),
        kind=sheet.kind,
        sized_for_spacing=sheet.sized_for_spacing,
    )
    return domain.Sheet(**values)  # type: ignore[arg-type]


def _site(site: wire.Site | UnsetType) -> domain.Site | UnsetType:
    if site is UNSET:
        return UNSET
    values = given(
        ground_snow_psf=site.ground_snow_psf, wind_mph=site.wind_mph, exposure=site.exposure, seismic=site.seismic
    )
    return domain.Site(**values)  # type: ignore[arg-type]


def top(reading: Reading, given_top: wire.Top | UnsetType, at: str, length: int) -> domain.Top | UnsetType:
    """The top asked for; what a level one, a rake or a gable does not have is left aside."""
    if given_top is UNSET or given_top.shape in (UNSET, "level"):
        return UNSET
    rise, run = slope(given_top.rise, given_top.run)
    if given_top.shape == "rake":
        return domain.Top("rake", rise, run, **given(up=given_top.up))  # type: ignore[arg-type]
    ridge = reading.optional(given_top.ridge, f"{at}/ridge", 0, limits.WALL_LENGTH_MAX, length // 2)
    return domain.Top("gable", rise, run, ridge=ridge)


def slope(rise: float | UnsetType, run: float | UnsetType) -> tuple[int, int]:
    """Rise and run in millionths, in which the six decimals that they are read to are whole numbers."""
    return (
        0 if rise is UNSET else round(rise * _MILLION),
        _RUN * _MILLION if run is UNSET else max(1, round(run * _MILLION)),
    )


def slope_number(millionths: int) -> float:
    """A rise or a run as it travels."""
    return millionths / _MILLION


def end(reading: Reading, given_end: wire.End | UnsetType, at: str) -> domain.End:
    """One end of a wall, complete."""
    if given_end is UNSET:
        return domain.End()
    reach = limits.LAP_MAX
    values = given(
        post=given_end.post,
        sheathing_lap=_maybe(reading, given_end.sheathing_lap, f"{at}/sheathing_lap", -reach, reach),
        cap_lap=_maybe(reading, given_end.cap_lap, f"{at}/cap_lap", -reach, reach),
        meets=_meets(reading, given_end.meets, f"{at}/meets"),
    )
    return domain.End(**values)  # type: ignore[arg-type]


def _meets(reading: Reading, meets: wire.Meets | UnsetType, at: str) -> domain.Meets | UnsetType:
    if meets is UNSET:
        return UNSET
    values = given(
        depth=reading.length(meets.depth, f"{at}/depth", limits.STUD_DEPTH_MIN, limits.STUD_DEPTH_MAX),
        post=meets.post,
        slip_gap=_maybe(reading, meets.slip_gap, f"{at}/slip_gap", 0, limits.SLIP_GAP_MAX),
    )
    return domain.Meets(**values)  # type: ignore[arg-type]


def by_table(load: wire.Carries | UnsetType, site: wire.Site | UnsetType) -> bool:
    """Whether load and place are given, so that sizes left out follow from published tables."""
    return load is not UNSET and site is not UNSET


def openings(
    reading: Reading, asked: list[wire.Opening] | UnsetType, at: str, depth: int, *, by_table: bool
) -> tuple[domain.Opening, ...] | UnsetType:
    """The openings asked for, in the caller's order; ``depth`` is the wall's, for the default plies.

    With ``by_table`` the jack studs that were not given are left to the published table.
    """
    if asked is UNSET:
        return UNSET
    found = []
    for index, opening in enumerate(asked):
        here = f"{at}/openings/{index}"
        values = given(
            name="" if opening.name is UNSET else opening.name,
            left=reading.length(opening.left, f"{here}/left", 0, limits.WALL_LENGTH_MAX),
            width=reading.length(opening.width, f"{here}/width", 1, limits.WALL_LENGTH_MAX),
            height=reading.length(opening.height, f"{here}/height", 1, limits.WALL_HEIGHT_MAX),
            sill=_maybe(reading, opening.sill, f"{here}/sill", 0, limits.WALL_HEIGHT_MAX),
            header=_header(reading, opening.header, f"{here}/header", depth),
            jacks=0 if by_table and opening.jacks is UNSET else opening.jacks,
        )
        found.append(domain.Opening(**values))  # type: ignore[arg-type]
    return tuple(found)


def _header(reading: Reading, header: wire.Header | UnsetType, at: str, depth: int) -> domain.Header | UnsetType:
    if header is UNSET:
        return UNSET
    stock = reading.stock(header.stock, f"{at}/stock", STOCK_LEAST, STOCK_MOST)
    plies = header.plies if header.plies is not UNSET else max(1, min(2, depth // stock.thickness))
    spacer = _maybe(reading, header.spacer, f"{at}/spacer", 0, limits.STUD_DEPTH_MAX)
    values = given(stock=stock, plies=plies, seat=header.seat, spacer=spacer)
    return domain.Header(**values)  # type: ignore[arg-type]


def carries(reading: Reading, asked: wire.Carries | UnsetType, at: str) -> domain.Carries | UnsetType:
    """The load carried, where it was given."""
    if asked is UNSET:
        return UNSET
    width = _maybe(reading, asked.building_width, f"{at}/carries/building_width", 1, limits.FOOTPRINT_MAX)
    return domain.Carries(asked.load, None if width is UNSET else width)


def to_wire(wall: domain.Wall, units: str) -> wire.Wall:
    """The completed wall, every default filled in; posted again it gives the same answer."""
    c = CONVERTERS[units]
    return wire.Wall(
        units=units,  # type: ignore[arg-type]
        length=c.length(wall.length),
        height=c.length(wall.height),
        name=wall.name,
        top=_wire_top(c, wall.top),
        ends=wire.Ends(left=_wire_end(c, wall.left), right=_wire_end(c, wall.right)),
        openings=[wire_opening(c, opening) for opening in wall.openings],
        carries=wire_carries(c, wall.carries),
        **wire_common(c, wall),
    )


def _wire_top(c: Converter, one: domain.Top) -> wire.Top:
    """The top with its defaults filled in: only what its shape has."""
    if one.shape == "level":
        return wire.Top(shape="level")
    rise, run = slope_number(one.rise), slope_number(one.run)
    if one.shape == "rake":
        return wire.Top(shape="rake", rise=rise, run=run, up=one.up)
    return wire.Top(shape="gable", rise=rise, run=run, ridge=UNSET if one.ridge is None else c.extent(one.ridge))


def wire_common(c: Converter, wall: domain.Wall) -> dict[str, Any]:
    """The completed fields that a wall and a building's side share."""
    plates, tape, floor, sheathing, sheet = wall.plates, wall.tape, wall.floor, wall.sheathing, wall.sheathing.sheet
    whole = plates.stock_length is None
    return {
        "stud": _wire_stock(wall.stud),
        "spacing": c.length(wall.spacing),
        "plates": wire.Plates(
            bottom=plates.bottom,
            top=plates.top,
            stock_length=UNSET if plates.stock_length is None else c.length(plates.stock_length),
            # Whole plates have no joints, so that the offset is said only where it was asked for or is used.
            cap_offset=UNSET if whole and plates.cap_offset == defaults.CAP_OFFSET else c.extent(plates.cap_offset),
        ),
        "layout": wire.Layout(from_=tape.start, tape_zero=tape.zero, tape_offset=c.offset(tape.offset)),
        "floor": wire.Floor(
            kind=floor.kind,
            rim=c.extent(floor.rim),
            panel=c.extent(floor.panel),
            treated_plate=floor.treated_plate,
            anchors=[c.extent(anchor) for anchor in floor.anchors],
        ),
        "sheathing": wire.Sheathing(
            sheet=wire.Sheet(
                width=c.length(sheet.width),
                length=c.length(sheet.length),
                thickness=c.length(sheet.thickness),
                kind=sheet.kind,  # type: ignore[arg-type]
                sized_for_spacing=sheet.sized_for_spacing,
            ),
            direction=sheathing.direction,
            gap=c.extent(sheathing.gap),
            under_sheet=c.extent(sheathing.under_sheet),
        ),
        "fastening": wall.fastening,
        "positions": wall.positions,
        "site": _wire_site(wall.site),
        "species": wall.species,
        "moisture_percent": wall.moisture_percent,
        "hands": wall.hands,
        "rules": wall.rules,
    }


def _wire_stock(stock: Stock) -> str:
    return stock.name


def _wire_site(site: domain.Site | None) -> wire.Site | UnsetType:
    if site is None:
        return UNSET
    values = {
        name: value
        for name in ("ground_snow_psf", "wind_mph", "exposure", "seismic")
        if (value := getattr(site, name)) is not None
    }
    return wire.Site(**values)


def _wire_end(c: Converter, one: domain.End) -> wire.End:
    meets: wire.Meets | UnsetType = UNSET
    if one.meets is not None:
        meets = wire.Meets(depth=c.length(one.meets.depth), post=one.meets.post, slip_gap=c.extent(one.meets.slip_gap))
    return wire.End(
        post=one.post, sheathing_lap=c.offset(one.sheathing_lap), cap_lap=c.offset(one.cap_lap), meets=meets
    )


def wire_opening(c: Converter, opening: domain.Opening) -> wire.Opening:
    """An opening as it travels; a header or jacks that were left to the service stay left to it."""
    header: wire.Header | UnsetType = UNSET
    if opening.header is not None:
        header = wire.Header(
            stock=opening.header.stock.name,
            plies=opening.header.plies,
            seat=opening.header.seat,
            spacer=c.extent(opening.header.spacer),
        )
    return wire.Opening(
        left=c.extent(opening.left),
        width=c.length(opening.width),
        height=c.length(opening.height),
        name=opening.name,
        sill=c.extent(opening.sill),
        header=header,
        jacks=opening.jacks or UNSET,
    )


def wire_carries(c: Converter, load: domain.Carries | None) -> wire.Carries | UnsetType:
    """The load carried, where it is known."""
    if load is None:
        return UNSET
    width = UNSET if load.building_width is None else c.length(load.building_width)
    return wire.Carries(load=load.load, building_width=width)  # type: ignore[arg-type]
