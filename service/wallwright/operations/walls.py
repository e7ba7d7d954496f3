"""A wire Wall to the domain's, every fault collected; `completed.py` is the way back."""

from typing import Any

from msgspec import UNSET, UnsetType

from wallwright.domain import defaults
from wallwright.domain import wall as domain
from wallwright.domain.stock import NOMINAL
from wallwright.findings import PlanRefused
from wallwright.operations.fastening import fastening
from wallwright.operations.reading import STOCK_LEAST, STOCK_MOST, STUD_LEAST, STUD_MOST, Reading, given
from wallwright.operations.slopes import slope
from wallwright.wire import limits
from wallwright.wire import openings as wire_openings
from wallwright.wire import wall as wire


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
            partitions=partitions(reading, request.partitions, ""),
            runs=runs(reading, request.runs, ""),
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
        lining=request.lining,
        fastening=fastening(reading, request.fastening, f"{at}/fastening"),
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
    values = given(
        bottom=plates.bottom,
        top=plates.top,
        stock_length=stock,
        cap_offset=offset,
        joints=_joints(reading, plates.joints, f"{at}/joints"),
    )
    return domain.Plates(**values)  # type: ignore[arg-type]


def _joints(reading: Reading, joints: wire.PlateJoints | UnsetType, at: str) -> domain.PlateJoints | UnsetType:
    if joints is UNSET:
        return UNSET

    def layer(name: str) -> tuple[int, ...]:
        places = getattr(joints, name)
        if places is UNSET:
            return ()
        read = (reading.length(one, f"{at}/{name}/{n}", 0, limits.WALL_LENGTH_MAX) for n, one in enumerate(places))
        return tuple(sorted(set(read)))

    return domain.PlateJoints(*(layer(name) for name in ("bottom", "second_bottom", "top", "cap")))


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
        start=sheathing.start,
        reuse_offcuts=sheathing.reuse_offcuts,
        grain=sheathing.grain,
        openings=sheathing.openings,
    )
    return domain.Sheathing(**values)  # type: ignore[arg-type]


def _sheet(reading: Reading, sheet: wire.Sheet | UnsetType, at: str) -> domain.Sheet | UnsetType:
    if sheet is UNSET:
        return UNSET
    lap = reading.optional(sheet.lap, f"{at}/lap", limits.SHEET_LAP_MIN, limits.SHEET_LAP_MAX, defaults.SHEET_LAP)
    values = given(
        width=_maybe(reading, sheet.width, f"{at}/width", limits.SHEET_WIDTH_MIN, limits.SHEET_WIDTH_MAX),
        length=_maybe(reading, sheet.length, f"{at}/length", limits.SHEET_LENGTH_MIN, limits.SHEET_LENGTH_MAX),
        thickness=_maybe(
            reading, sheet.thickness, f"{at}/thickness", limits.SHEET_THICKNESS_MIN, limits.SHEET_THICKNESS_MAX
        ),
        kind=sheet.kind,
        sized_for_spacing=sheet.sized_for_spacing,
        edge=sheet.edge,
        lap=lap if sheet.edge == "shiplap" else UNSET,
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
    reading: Reading, asked: list[wire_openings.Opening] | UnsetType, at: str, depth: int, *, by_table: bool
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


def partitions(
    reading: Reading, asked: list[wire_openings.Partition] | UnsetType, at: str
) -> tuple[domain.Partition, ...] | UnsetType:
    """The partitions asked for, in the caller's order."""
    if asked is UNSET:
        return UNSET
    return tuple(
        domain.Partition(
            reading.length(one.at, f"{at}/partitions/{number}/at", 0, limits.WALL_LENGTH_MAX),
            reading.length(
                one.depth, f"{at}/partitions/{number}/depth", limits.PARTITION_DEPTH_MIN, limits.STUD_DEPTH_MAX
            ),
        )
        for number, one in enumerate(asked)
    )


def runs(reading: Reading, asked: list[wire_openings.Run] | UnsetType, at: str) -> tuple[domain.Run, ...] | UnsetType:
    """The runs of holes and notches asked for, in the caller's order."""
    if asked is UNSET:
        return UNSET
    found = []
    for number, one in enumerate(asked):
        here = f"{at}/runs/{number}"
        values = given(
            size=reading.length(one.size, f"{here}/size", 1, limits.STUD_DEPTH_MAX),
            y=reading.length(one.y, f"{here}/y", 0, limits.WALL_HEIGHT_MAX),
            left=_maybe(reading, one.left, f"{here}/left", 0, limits.WALL_LENGTH_MAX),
            right=_maybe(reading, one.right, f"{here}/right", 0, limits.WALL_LENGTH_MAX),
            # A notch has no wood beside it.
            edge=UNSET if one.cut == "notch" else _maybe(reading, one.edge, f"{here}/edge", 0, limits.STUD_DEPTH_MAX),
        )
        found.append(domain.Run(one.cut, **values))  # type: ignore[arg-type]
    return tuple(found)


def _header(
    reading: Reading, header: wire_openings.Header | UnsetType, at: str, depth: int
) -> domain.Header | UnsetType:
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
