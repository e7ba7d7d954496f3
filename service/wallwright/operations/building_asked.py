"""A building as it is asked for: wire request to domain, with every fault of its lengths and words."""

from typing import Any

from msgspec import UNSET, UnsetType

from wallwright.domain import building as domain
from wallwright.domain import defaults
from wallwright.domain.stock import NOMINAL
from wallwright.domain.wall import Wall
from wallwright.findings import Fault, PlanRefused
from wallwright.operations.reading import Reading, given, merged
from wallwright.operations.slopes import slope
from wallwright.operations.squaring_asked import measured_deck
from wallwright.operations.walls import carries, common, openings, partitions, runs
from wallwright.wire import building as wire
from wallwright.wire import limits
from wallwright.wire.wall import Common

_COMMON = ("stud", "spacing", "plates", "layout", "floor", "sheathing", "lining", "fastening", "positions", "site", "species",
           "moisture_percent", "hands", "rules")  # fmt: skip


def to_domain(request: wire.Building) -> domain.Building:
    """The building asked for, complete. Raises PlanRefused with every length that is out of range."""
    reading = Reading(request.units)
    most = limits.FOOTPRINT_MAX
    width = reading.length(request.footprint.width, "/footprint/width", 1, most)
    depth = reading.length(request.footprint.depth, "/footprint/depth", 1, most)
    height = reading.length(request.wall_height, "/wall_height", 1, limits.WALL_HEIGHT_MAX)
    slip = reading.optional(request.slip_gap, "/slip_gap", 0, limits.SLIP_GAP_MAX, 0)
    through = _through(reading, request.through_walls)
    sides: dict[domain.SideName, domain.SidePlan] = {}
    # The building's own fields are read once, so that a fault in them is told once.
    own = Reading(request.units)
    common(own, request, "")
    for side in domain.SIDES:
        sides[side] = _side(reading, request, side, own)
    deck = None if request.deck is UNSET else measured_deck(reading, request.deck, "/deck")
    faults = [*own.faults, *reading.faults]
    if faults:
        raise PlanRefused(tuple(faults))
    roof = request.roof
    values = given(
        measured_to=request.footprint.measured_to,
        name=request.name,
        roof=UNSET if roof is UNSET else _roof(roof),
    )
    return domain.Building(width, depth, height, sides, slip_gap=slip, through=through, deck=deck, **values)  # type: ignore[arg-type]


def _roof(asked: wire.Roof) -> domain.Roof:
    """The roof asked for; what its shape does not have is left aside."""
    if asked.shape in (UNSET, "flat"):
        return domain.Roof(**given(spans=asked.spans))  # type: ignore[arg-type]
    rise, run = slope(asked.rise, asked.run)
    if asked.shape == "lean-to":
        return domain.Roof("lean-to", rise=rise, run=run, **given(high_side=asked.high_side))  # type: ignore[arg-type]
    values = given(ridge_along=asked.ridge_along, ridge=asked.ridge)
    return domain.Roof("gable", rise=rise, run=run, **values)  # type: ignore[arg-type]


def _through(reading: Reading, asked: list[wire.SideName] | UnsetType) -> tuple[domain.SideName, domain.SideName]:
    if asked is UNSET:
        return ("front", "back")
    for pair in (("front", "back"), ("right", "left")):
        if set(asked) == set(pair):
            return ("front", "back") if pair == ("front", "back") else ("right", "left")
    reading.faults.append(Fault("through-walls-not-opposite", "/through_walls", (("given", " and ".join(asked)),)))
    return ("front", "back")


def _side(reading: Reading, request: wire.Building, side: domain.SideName, own: Reading) -> domain.SidePlan:
    """What is asked of one side: the building's fields with the side's laid upon them."""
    sides = request.walls
    options: wire.SideOptions | UnsetType = getattr(sides, side) if sides is not UNSET else UNSET
    base = Common(**{name: getattr(request, name) for name in _COMMON})
    over = UNSET if options is UNSET else Common(**{name: getattr(options, name) for name in _COMMON})
    both = merged(base, over)
    at = f"/walls/{side}"
    alone = Reading(request.units)
    found: dict[str, Any] = common(alone, both, at)  # type: ignore[arg-type]
    # A fault in a field of the building's shows at every side; only the side's own are told here.
    told = {fault.pointer for fault in own.faults}
    reading.faults += [fault for fault in alone.faults if fault.pointer.removeprefix(at) not in told]
    depth = found.get("stud", NOMINAL[defaults.STUD_NAME]).width
    left = right = None
    if options is not UNSET:
        found.update(
            given(
                name=options.name,
                openings=openings(reading, options.openings, at, depth, by_table="site" in found),
                partitions=partitions(reading, options.partitions, at),
                runs=runs(reading, options.runs, at),
                carries=carries(reading, options.carries, at),
            )
        )
        left, right = _posts(options.ends)
    layout = both.layout if both is not UNSET else UNSET
    start = None if layout is UNSET or layout.from_ is UNSET else layout.from_
    sheathing = both.sheathing if both is not UNSET else UNSET
    under_given = sheathing is not UNSET and sheathing.under_sheet is not UNSET
    wall = Wall(length=1, height=1, **found)
    return domain.SidePlan(wall, left, right, start, wall.sheathing.under_sheet if under_given else None)


def _posts(ends: wire.SideEnds | UnsetType) -> tuple[Any, Any]:
    if ends is UNSET:
        return None, None
    left = None if ends.left is UNSET or ends.left.post is UNSET else ends.left.post
    right = None if ends.right is UNSET or ends.right.post is UNSET else ends.right.post
    return left, right
