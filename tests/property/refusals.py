"""Why walls are refused: random walls with openings placed anywhere, and an independent word on each refusal.

``python -m tests.property.refusals 3000`` prints how many walls were answered and refused, by kind, and every
refusal that the plain rules written here do not bear out.
"""

import collections
import sys

from hypothesis import HealthCheck, given, seed, settings
from hypothesis import strategies as st
from msgspec.structs import replace
from tests.strategies.loads import carried, sites
from tests.strategies.slopes import sloped_walls
from tests.strategies.walls import LINED, SCALES, ends_reach, headers, walls, with_openings

from wallwright.domain.framed import framed
from wallwright.domain.wall import End, Opening, Wall
from wallwright.findings import Fault, Offer, PlanRefused
from wallwright.lengths import INCH, MILLIMETRE, inches


@st.composite
def careless_walls(draw: st.DrawFn) -> Wall:
    """A wall whose openings were placed without a thought for jacks, kings, headers or one another."""
    wall = draw(walls())
    scale = SCALES[wall.stud.width % INCH % MILLIMETRE == 0 and wall.stud.thickness % MILLIMETRE == 0]
    placed = []
    for number in range(draw(st.integers(1, 3))):
        narrowest = draw(st.sampled_from((0.5, 3, 3, 3, 3)))
        widest = min(wall.length // 2, scale.size(draw(st.sampled_from((12, 36, 60)))))
        width = draw(scale.between(scale.size(narrowest), max(scale.size(3), widest)))
        left = draw(scale.between(-scale.size(6), wall.length))
        sill = draw(st.just(0) | scale.between(scale.size(0.5), wall.height))
        height = draw(scale.between(scale.size(0.5), wall.height + scale.size(6)))
        if draw(st.sampled_from((True, True, True, False))):
            # Most of them leave room overhead, so that faults of place are seen without others.
            sill = draw(st.just(0) | scale.between(scale.size(3), max(scale.size(3), wall.height // 2)))
            height = max(scale.size(4), min(height, wall.stud_top - sill - scale.size(4)))
        jacks = draw(st.sampled_from((1, 1, 2)))
        header = draw(headers(scale, wall.depth, scale.size(12)))
        placed.append(Opening(f"opening {number + 1}", left, width, height, sill, header, jacks))
    if draw(st.booleans()):
        # With load and place known, headers and the jacks of half the openings are left to the tables.
        left_open = tuple(replace(o, jacks=draw(st.sampled_from((0, o.jacks)))) for o in placed)
        wall = replace(wall, carries=draw(carried()), site=draw(sites()))
        return with_openings(wall, left_open)
    return with_openings(wall, tuple(placed))


@st.composite
def careless_sloped_walls(draw: st.DrawFn) -> Wall:
    """A rake or gable whose openings were placed without a thought for the slope above them."""
    wall, scale = draw(sloped_walls()), SCALES[0]
    placed = []
    for number in range(draw(st.integers(1, 3))):
        width = draw(scale.between(scale.size(3), max(scale.size(4), min(wall.length // 2, scale.size(36)))))
        left = draw(scale.between(0, max(scale.size(1), wall.length - width)))
        sill = draw(st.just(0) | scale.between(scale.size(3), max(scale.size(3), wall.height // 2)))
        height = draw(scale.between(scale.size(4), max(scale.size(5), wall.height)))
        header = draw(headers(scale, wall.depth, scale.size(12)))
        jacks = draw(st.sampled_from((1, 1, 2)))
        placed.append(Opening(f"opening {number + 1}", left, width, height, sill, header, jacks))
    return with_openings(wall, tuple(placed))


def faults_of(wall: Wall) -> tuple[Fault, ...]:
    """The faults for which a wall is refused; none where it is answered."""
    try:
        framed(wall)
    except PlanRefused as refused:
        return refused.faults
    return ()


def mended(wall: Wall, faults: tuple[Fault, ...]) -> Wall:
    """The wall with every value that its refusal offers put in; an opening that finds no room is left out."""
    openings: dict[int, Opening] = dict(enumerate(wall.openings))
    partitions = dict(enumerate(wall.partitions))
    for fault in faults:
        values = {name: value.value for name, value in fault.values if isinstance(value, Offer)}
        parts = fault.pointer.split("/")[1:]
        if fault.code == "no-room-for-partition":
            del partitions[int(parts[1])]
        elif parts[0] == "partitions":
            partitions[int(parts[1])] = replace(partitions[int(parts[1])], at=values["nearest"])
        elif parts[0] != "openings":
            wall = _whole(wall, fault.pointer, values["least"])
        elif fault.code in ("no-room-for-opening", "header-deeper-than-wall"):
            del openings[int(parts[1])]
        elif fault.code == "header-too-thick":
            fit = dict(fault.values)["fit"]
            header = openings[int(parts[1])].header
            less = None if fit == "none" or header is None else replace(header, plies=int(str(fit)))
            openings[int(parts[1])] = replace(openings[int(parts[1])], header=less)
        elif fault.code == "opening-has-no-place":
            changes = {"width": values["most"], "left": values["nearest"]}
            openings[int(parts[1])] = replace(openings[int(parts[1])], **changes)
        else:
            value = next(values[name] for name in ("nearest", "most", "least") if name in values)
            openings[int(parts[1])] = replace(openings[int(parts[1])], **{parts[2]: value})
    return replace(wall, openings=tuple(openings.values()), partitions=tuple(partitions.values()))


def _whole(wall: Wall, pointer: str, least: int) -> Wall:
    if pointer == "/plates/stock_length":
        return replace(wall, plates=replace(wall.plates, stock_length=least))
    if pointer == "/sheathing/sheet/length":
        return replace(wall, sheathing=replace(wall.sheathing, sheet=replace(wall.sheathing.sheet, length=least)))
    return replace(wall, **{pointer[1:]: least})


def _king_line(wall: Wall, end: End) -> int:
    """Room that an end's post takes: one stud, three, or a stud, a flat one and a king of the opening's own."""
    thick = wall.stud.thickness
    return {"single": thick, "three-stud": 3 * thick, "two-stud": 2 * thick + wall.stud.width}[end.post]


def _jacks(opening: Opening) -> int:
    """Jacks at each side; where they are left to the tables, as many as these ask for at most."""
    return opening.jacks or 3


def _crowded(wall: Wall, one: Opening) -> bool:
    """Whether an opening with jacks has no room: before an end's post, or beside another with a stud between."""
    thick = wall.stud.thickness
    jacks = _jacks(one) * thick
    if one.left - jacks < _king_line(wall, wall.left):
        return True
    if one.right + jacks > wall.length - _king_line(wall, wall.right):
        return True
    return any(
        one.left - jacks - thick < other.right + _jacks(other) * thick
        and other.left - _jacks(other) * thick - thick < one.right + jacks
        for other in wall.openings
        if other is not one
    )


def _no_partition(wall: Wall, number: int) -> bool:
    """Whether a partition, with 5/8 in at either side, is not clear of ends, of openings with jacks, and of the others."""
    if number >= len(wall.partitions):
        return True
    one, thick = wall.partitions[number], wall.stud.thickness
    low, high = one.at - LINED, one.at + one.depth + LINED
    if low < ends_reach(wall, wall.left) or high > wall.length - ends_reach(wall, wall.right):
        return True
    spans = [(o.left - _jacks(o) * thick, o.right + _jacks(o) * thick) for o in wall.openings]
    spans += [(p.at - LINED, p.right + LINED) for index, p in enumerate(wall.partitions) if index != number]
    return any(low < right and left < high for left, right in spans)


def _no_height(wall: Wall, one: Opening) -> bool:
    """Whether no header, or not the one that was asked for, fits between the opening's head and the plates."""
    sill = max(one.sill, wall.stud_bottom + wall.stud.thickness) if one.sill else 0
    if one.header is not None:
        shallowest = one.header.stock.width
    else:
        # A 2x4 on edge at least; where the tables choose, they may ask for as much as a 2x12.
        shallowest = inches("3 1/2") if wall.carries is None or wall.site is None else inches("11 1/4")
    return sill + one.height + shallowest > wall.stud_top


def unjust(wall: Wall, faults: tuple[Fault, ...]) -> list[str]:
    """Faults of a refusal that the plain rules of this module do not bear out.

    They are borne out by the wall as it was given, or once everything else is mended as offered: what is moved
    or widened first may be in the way of the rest.
    """
    return [
        f"{fault.code} at {fault.pointer}"
        for fault in faults
        if not _just(wall, fault)
        and not _just(mended(wall, tuple(other for other in faults if other is not fault)), _again(fault, faults))
    ]


def _again(fault: Fault, faults: tuple[Fault, ...]) -> Fault:
    """The fault in a wall from which the openings before it that found no room are left out."""
    parts = fault.pointer.split("/")
    if parts[1] != "openings":
        return fault
    gone = [
        int(other.pointer.split("/")[2])
        for other in faults
        if other is not fault and other.code in ("no-room-for-opening", "header-deeper-than-wall")
    ]
    parts[2] = str(int(parts[2]) - sum(number < int(parts[2]) for number in gone))
    return replace(fault, pointer="/".join(parts))


def _just(wall: Wall, fault: Fault) -> bool:
    parts = fault.pointer.split("/")[1:]
    if parts[0] == "partitions":
        return _no_partition(wall, int(parts[1]))
    if parts[0] != "openings":
        # Where plates are jointed is judged with the walls that can be built, see tests/property/framing.py.
        return fault.code == "no-plate-joint"
    one = wall.openings[int(parts[1])]
    overlaps = any(o.left < one.right and one.left < o.right for o in wall.openings if o is not one)
    just = {
        "opening-outside-wall": one.left < 0 or one.right > wall.length,
        "openings-collide": overlaps,
        "opening-too-near-end": _crowded(wall, one),
        "openings-too-near": _crowded(wall, one),
        "opening-has-no-place": _crowded(wall, one) or one.left < 0 or one.right > wall.length,
        "no-room-for-opening": _crowded(wall, one) or one.left < 0 or one.right > wall.length,
        "opening-too-narrow": one.width < wall.stud.thickness,
        "opening-too-low": one.sill == 0 and one.height < wall.stud_bottom + wall.stud.thickness,
        "sill-too-low": 0 < one.sill < wall.stud_bottom + wall.stud.thickness,
        "sill-too-high": _no_height(wall, one),
        "opening-too-high": one.head > wall.stud_top,
        "header-does-not-fit": _no_height(wall, one),
        "header-deeper-than-wall": _no_height(wall, one),
    }
    return just.get(fault.code, False)


def main(count: int) -> None:
    """Print answers and refusals by kind for ``count`` random walls."""
    kinds: collections.Counter[str] = collections.Counter()
    wrong: collections.Counter[str] = collections.Counter()

    @seed(count)
    @settings(max_examples=count, deadline=None, database=None, suppress_health_check=list(HealthCheck))
    @given(careless_walls())
    def tried(wall: Wall) -> None:
        faults = faults_of(wall)
        kinds["refused" if faults else "answered"] += 1
        for code in {fault.code for fault in faults}:
            kinds[code] += 1
        for why in unjust(wall, faults):
            wrong[why] += 1
        if faults and faults_of(mended(wall, faults)):
            wrong["the values offered do not work"] += 1

    tried()
    for name, times in kinds.most_common():
        print(f"{times:7} {name}")
    print("unjust:", dict(wrong) or "none")


if __name__ == "__main__":
    main(int(sys.argv[1]))
