"""The completed wall as it goes out: from the domain's values back to the wire, every default filled in."""

from typing import Any

from msgspec import UNSET, UnsetType

from wallwright.domain import defaults
from wallwright.domain import wall as domain
from wallwright.domain.stock import Stock
from wallwright.operations.converters import CONVERTERS, Converter
from wallwright.operations.fastening import wire_fastening
from wallwright.operations.slopes import slope_number
from wallwright.wire import openings as wire_openings
from wallwright.wire import wall as wire


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
        partitions=[wire_partition(c, partition) for partition in wall.partitions],
        runs=[wire_run(c, run) for run in wall.runs],
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


def _joints(c: Converter, joints: domain.PlateJoints) -> wire.PlateJoints:
    """The joints given, each layer that has any."""
    layers = (joints.bottom, joints.second_bottom, joints.top, joints.cap)
    return wire.PlateJoints(*([c.extent(at) for at in layer] if layer else UNSET for layer in layers))


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
            joints=UNSET if plates.joints is None else _joints(c, plates.joints),
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
                edge=sheet.edge,
                lap=c.length(sheet.lap) if sheet.lap else UNSET,
            ),
            direction=sheathing.direction,
            gap=c.extent(sheathing.gap),
            under_sheet=c.extent(sheathing.under_sheet),
            start=UNSET if sheathing.start is None else sheathing.start,
            reuse_offcuts=sheathing.reuse_offcuts,
            grain=sheathing.grain,
            openings=sheathing.openings,
        ),
        "lining": wall.lining,
        "fastening": wire_fastening(c, wall.fastening),
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


def wire_opening(c: Converter, opening: domain.Opening) -> wire_openings.Opening:
    """An opening as it travels; a header or jacks that were left to the service stay left to it."""
    header: wire_openings.Header | UnsetType = UNSET
    if opening.header is not None:
        header = wire_openings.Header(
            stock=opening.header.stock.name,
            plies=opening.header.plies,
            seat=opening.header.seat,
            spacer=c.extent(opening.header.spacer),
        )
    return wire_openings.Opening(
        left=c.extent(opening.left),
        width=c.length(opening.width),
        height=c.length(opening.height),
        name=opening.name,
        sill=c.extent(opening.sill),
        header=header,
        jacks=opening.jacks or UNSET,
    )


def wire_partition(c: Converter, partition: domain.Partition) -> wire_openings.Partition:
    """A partition as it travels."""
    return wire_openings.Partition(at=c.extent(partition.at), depth=c.length(partition.depth))


def wire_run(c: Converter, run: domain.Run, start: int = 0) -> wire_openings.Run:
    """A run of holes or notches as it travels, reckoned from a point ``start`` before the plate's left end."""
    return wire_openings.Run(
        cut=run.cut,
        size=c.length(run.size),
        y=c.extent(run.y),
        left=UNSET if run.left is None else c.extent(run.left + start),
        right=UNSET if run.right is None else c.extent(run.right + start),
        edge=UNSET if run.edge is None else c.extent(run.edge),
    )


def wire_carries(c: Converter, load: domain.Carries | None) -> wire.Carries | UnsetType:
    """The load carried, where it is known."""
    if load is None:
        return UNSET
    width = UNSET if load.building_width is None else c.length(load.building_width)
    return wire.Carries(load=load.load, building_width=width)  # type: ignore[arg-type]
