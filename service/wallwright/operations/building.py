"""A building: wire request to domain, and back with four complete walls, or as the plan."""

from msgspec import UNSET
from msgspec.structs import replace

from wallwright.domain import building as domain
from wallwright.domain.built import Step
from wallwright.domain.deck_lines import DeckLines
from wallwright.domain.fasteners import Fasteners, added, fasten
from wallwright.domain.raising.raised import Raised, raised
from wallwright.domain.raising.together import Corner, Together, braced_together
from wallwright.drawing.building import plan
from wallwright.lengths import Units
from wallwright.operations.building_asked import to_domain as to_domain
from wallwright.operations.canonical import revision_of
from wallwright.operations.completed import to_wire, wire_carries, wire_common, wire_opening, wire_partition, wire_run
from wallwright.operations.converters import CONVERTERS, Converter
from wallwright.operations.csv import csv_text
from wallwright.operations.fasteners import fasteners_answer, total_answer
from wallwright.operations.layout import layout_answer
from wallwright.operations.raising import raising_answer
from wallwright.operations.sheathing import sheathing_answer
from wallwright.operations.slopes import slope_number
from wallwright.operations.squaring import edge_rows, overhang_rows
from wallwright.operations.squaring_asked import wire_measured
from wallwright.wire import building as wire
from wallwright.wire.fasteners import Total as FastenerTotal

_PARTS = ("layout", "sheathing", "fasteners", "raising")


def answer(request: wire.Building) -> wire.BuildingAnswer:
    """The building walled, as it travels. Raises PlanRefused with every fault found."""
    asked = to_domain(request)
    parts = parts_of(request)
    # What is raised is weighed with its skin, and nails hold it.
    with_skin = not {"sheathing", "fasteners", "raising"}.isdisjoint(parts)
    built = domain.build(asked, with_skin=with_skin)
    nailed = fastened(built) if "fasteners" in parts else {}
    lifted = raised_walls(built) if "raising" in parts else {}
    return building_answer(built, asked, request.units, parts, nailed, lifted)


def drawing(request: wire.Building) -> str:
    """The plan, as SVG."""
    asked = to_domain(request)
    return plan(domain.build(asked, with_skin=False), request.units, revision_of(domain.closed(asked), request.units))


def table(request: wire.Building) -> str:
    """The pieces of all walls together as CSV."""
    built = domain.build(to_domain(request), with_skin=False)
    c = CONVERTERS[request.units]
    header = ["stock", "count", f"length_{request.units}", "length_tape", "ripped_to", "treated"]
    rows: list[list[object]] = [
        [
            row.stock,
            row.count,
            c.number(row.length),
            c.tape(row.length),
            "" if row.ripped_to is None else c.tape(row.ripped_to),
            "yes" if row.treated else "no",
        ]  # fmt: skip
        for row in built.totals
    ]
    return csv_text(header, rows)


def parts_of(request: wire.Building) -> tuple[str, ...]:
    """The parts answered for each wall, in the order of work."""
    return _PARTS if request.parts is UNSET else tuple(part for part in _PARTS if part in request.parts)


def _wire_roof(roof: domain.Roof, spans: wire.Direction) -> wire.Roof:
    """The roof with its defaults filled in: only what its shape has."""
    if roof.shape == "flat":
        return wire.Roof(shape="flat", spans=spans)
    rise, run = slope_number(roof.rise), slope_number(roof.run)
    if roof.shape == "lean-to":
        return wire.Roof(shape="lean-to", rise=rise, run=run, high_side=roof.high_side)
    along: wire.Direction = "depth" if spans == "width" else "width"
    return wire.Roof(shape="gable", rise=rise, run=run, ridge_along=along, ridge=roof.ridge)


def building_answer(
    built: domain.Built, asked: domain.Building, units: Units, parts: tuple[str, ...],
    nailed: dict[domain.SideName, Fasteners], lifted: dict[domain.SideName, Raised],
) -> wire.BuildingAnswer:  # fmt: skip
    """A domain building as it travels, in ``units``; ``nailed`` and ``lifted`` are empty where nobody asks for them."""
    c = CONVERTERS[units]
    n = c.number
    return wire.BuildingAnswer(
        building=to_wire_building(built, asked, units, parts),
        framing_width=n(built.framing_width),
        framing_depth=n(built.framing_depth),
        walls=[_wall(one, units, parts, nailed.get(one.side), lifted.get(one.side)) for one in built.walls],
        corners=[
            wire.Corner(k.name, k.through, k.butt, n(k.sheathing_lap), n(k.cap_lap), n(k.slip_gap))
            for k in built.corners
        ],
        totals=wire.Totals(
            [
                wire.CutTotal(
                    t.stock,
                    n(t.length),
                    c.tape(t.length),
                    t.count,
                    t.treated,
                    UNSET if t.ripped_to is None else n(t.ripped_to),
                )  # fmt: skip
                for t in built.totals
            ],
            built.sheets,
            _fastener_totals(c, built, nailed) if nailed else UNSET,
        ),
        order_of_work=[_step(step) for step in built.order],
        findings=[
            c.finding(finding) for finding in (*built.findings, *(braced_walls(built).findings if lifted else ()))
        ],
        deck=UNSET if built.deck is None else _deck(c, built.deck),
    )


def _deck(c: Converter, lines: DeckLines) -> wire.DeckLines:
    n = c.number
    return wire.DeckLines(
        overhang_rows(c, lines.marks), edge_rows(c, lines.edges), n(lines.shift_right), n(lines.shift_back),
        n(lines.diagonal), c.tape(lines.diagonal), UNSET if lines.rise is None else n(lines.rise),
    )  # fmt: skip


def _step(step: Step) -> wire.Step:
    counted = (UNSET, UNSET) if step.how_many is None else (step.how_many, step.counts)
    return wire.Step(step.number, step.side, step.what, step.where, step.caution, *counted)


def fastened(built: domain.Built) -> dict[domain.SideName, Fasteners]:
    """Every wall's fasteners; what joins two walls is counted with the wall that stands between the others."""
    return {one.side: fasten(one.layout, one.skin) for one in built.walls if one.skin is not None}


def braced_walls(built: domain.Built) -> Together:
    """The braces of all walls, clear of one another where they can be."""
    corners = tuple(Corner(one.name, one.through, one.butt, one.slip_gap) for one in built.corners)
    layouts = {one.side: one.layout for one in built.walls}
    return braced_together(layouts, corners, built.framing_width, built.framing_depth)


def raised_walls(built: domain.Built) -> dict[domain.SideName, Raised]:
    """What raising every wall takes."""
    braced = braced_walls(built).braces
    return {one.side: raised(one.layout, one.skin, braced[one.side]) for one in built.walls if one.skin is not None}


def _fastener_totals(
    c: Converter, built: domain.Built, nailed: dict[domain.SideName, Fasteners]
) -> list[FastenerTotal]:
    schedules = [one.wall.fastening for one in built.walls]
    return [total_answer(c, total) for total in added([one.totals for one in nailed.values()], schedules)]


def _wall(
    one: domain.BuiltWall, units: Units, parts: tuple[str, ...], nailed: Fasteners | None, lifted: Raised | None
) -> wire.BuiltWall:
    return wire.BuiltWall(
        side=one.side,
        wall=to_wire(one.wall, units),
        layout=layout_answer(one.layout, units) if "layout" in parts else UNSET,
        sheathing=sheathing_answer(one.skin, units) if one.skin is not None and "sheathing" in parts else UNSET,
        raising=UNSET if lifted is None else raising_answer(lifted, units),
        fasteners=UNSET if nailed is None else fasteners_answer(nailed, units),
    )


def to_wire_building(
    built: domain.Built, asked: domain.Building, units: Units, parts: tuple[str, ...]
) -> wire.Building:
    """The completed building: everything that its four walls share stands under each wall."""
    c = CONVERTERS[units]
    sides = {one.side: _side_options(c, asked, one) for one in built.walls}
    spans = domain.under_roof(asked, built.framing_width, built.framing_depth).spans
    return wire.Building(
        units=units,
        footprint=wire.Footprint(
            width=c.length(asked.width), depth=c.length(asked.depth), measured_to=asked.measured_to
        ),
        wall_height=c.length(asked.wall_height),
        name=asked.name,
        roof=_wire_roof(asked.roof, spans),
        slip_gap=c.extent(asked.slip_gap),
        through_walls=list(asked.through),
        walls=wire.Sides(**sides),
        deck=UNSET if asked.deck is None else wire.BuildingDeck(**wire_measured(c, asked.deck)),
        parts=list(parts),  # type: ignore[arg-type]
    )


def _side_options(c: Converter, asked: domain.Building, one: domain.BuiltWall) -> wire.SideOptions:
    wall = one.wall
    start = domain.start_of(asked, one.side)
    own = [replace(opening, left=opening.left + start) for opening in wall.openings]
    inside = [replace(partition, at=partition.at + start) for partition in wall.partitions]
    return wire.SideOptions(
        name=wall.name,
        ends=wire.SideEnds(left=wire.SideEnd(post=wall.left.post), right=wire.SideEnd(post=wall.right.post)),
        openings=[wire_opening(c, opening) for opening in own],
        partitions=[wire_partition(c, partition) for partition in inside],
        runs=[wire_run(c, run, start) for run in wall.runs],
        carries=wire_carries(c, wall.carries),
        **wire_common(c, wall),
    )
