"""What there is to say about a building: the order of work, and its findings."""

from wallwright.domain.building_sizes import Line, bracing_findings, permit_finding
from wallwright.domain.built import SIDES, Building, BuiltWall, Corner, Step, framing_size, has_beam
from wallwright.domain.seams import upright_stretch
from wallwright.findings import Finding, at_most

_FRAMED = "Frame and square the wall lying, skin it if the hands can lift it so, raise it, plumb it, brace it."
_SLID_IN = "Frame and square the wall lying, fix the sheets that stay within its ends, raise it, slide it in, plumb it, brace it."
_ZONE = (
    "Two people or more. Nobody in the zone, which is the wall's height and 4 ft deep on either side of it; no overhead "
    "line nearer than its height and 10 ft; no wind."
)
_LADDER = "From a ladder or a scaffold that stands firm, not from the plate."


def order_of_work(building: Building) -> tuple[Step, ...]:
    """Which wall first: the through walls stand, then the butt walls slide in between, then caps and lapped sheets.

    The floor stays clear: walls framed on it are raised one after another, and the last ones are framed between those that
    stand. Corners are tied before caps lap them, and braces stay until roof and sheathing hold the top.
    """
    butts = tuple(side for side in SIDES if side not in building.through)
    first, second = building.through
    steps: list[tuple[str, str, str, str, int | None, str]] = [
        ("", "Snap the framing lines, mark the plates of all walls and cut the pieces.", "On the floor, from its corners.",
         "", len(SIDES), "walls"),
        (first, _FRAMED, "Lying across the floor, its foot along its own line.", _ZONE, 1, "walls"),
        (second, _FRAMED, "Lying across the floor that the first wall leaves, its foot along its own line.", _ZONE, 1, "walls"),
    ]  # fmt: skip
    where = "Lying between the walls that stand, clear of their braces; slid in between them with the slip gap at both ends."
    caution = f"{_ZONE} Shift no brace of a standing wall before another one holds it."
    steps += [(side, _SLID_IN, where, caution, 1, "walls") for side in butts]
    steps.append(
        ("", "Fasten the corner posts to one another from bottom to top.", "At every corner.",
         "Braces stay; the corner is plumb both ways first.", len(SIDES), "corners")
    )  # fmt: skip
    for side in butts:
        what = "Fix the cap plate over the through walls, then the sheets that lap the corners."
        steps.append((side, what, "At both ends of the wall.", _LADDER, 2, "corners"))
    steps.append(
        ("", "Leave every brace until roof and sheathing hold the tops of the walls.", "Inside, at every wall.",
         "A braced wall without a roof does not stand in a storm.", None, "")
    )  # fmt: skip
    return tuple(Step(number + 1, *one) for number, one in enumerate(steps))


def _roof_findings(building: Building, walls: list[BuiltWall]) -> list[Finding]:
    """How far rafters are notched over the walls that carry them, and the posts under a ridge beam."""
    roof = building.roof
    if roof.shape == "flat":
        return []
    deepest = max(built.wall.depth for built in walls if built.wall.top.shape == "level")
    found = [Finding("rafter-seat", "/roof", (("seat", deepest), ("notch", -(-deepest * roof.rise // roof.run))))]
    if has_beam(building):
        sides = " and ".join(built.side for built in walls if built.wall.top.shape == "gable")
        found.append(Finding("ridge-beam-posts", "/roof/ridge", (("walls", sides),)))
    return found


def building_findings(
    building: Building, corners: tuple[Corner, ...], walls: list[BuiltWall], rises: int
) -> tuple[Finding, ...]:
    """What there is to say about the building as a whole: ties, footprint, cautions, and what was compared.

    ``rises`` is how far the roof's ridge, or its high side, stands over the low wall's outer face.
    """
    found = [Finding("tie-cap", "/walls", (("corner", corner.name),)) for corner in corners if not corner.cap_lap]
    for pair in (building.through, tuple(side for side in SIDES if side not in building.through)):
        found += _footprint_change(pair, walls)
        found += _whole_footprint(building, pair, walls)
    found += _roof_findings(building, walls)
    found.append(Finding("two-people", ""))
    if any(built.wall.floor.kind == "deck" for built in walls):
        found.append(Finding("exposed-edge", "/floor"))
    compared = _compared(building, walls, rises)
    found += compared
    found.append(Finding("not-checked-further" if compared else "not-checked", ""))
    return tuple(found)


def _compared(building: Building, walls: list[BuiltWall], rises: int) -> list[Finding]:
    """Area and bracing beside the published figures; nothing where no wall's place is known."""
    if all(built.wall.site is None for built in walls):
        return []
    width, depth = framing_size(building)
    found = [permit_finding(walls[0].wall.rules, width, depth)]
    for built in walls:
        # Lines that face each other stand as far apart as the side between them is long.
        apart = depth if built.side in ("front", "back") else width
        found += bracing_findings(Line(built.side, built.wall, apart, rises))
    return found


def _whole_footprint(building: Building, pair: tuple[str, ...], walls: list[BuiltWall]) -> list[Finding]:
    """The sizes of the footprint next to this one at which two opposite walls take whole sheets.

    The faces grow and shrink with the footprint, whatever they lap. Sheets may still be ripped by a gap, to stay on studs. Only for upright sheets, which stand side by side.
    """
    reaches = set()
    for built in walls:
        if built.side in pair:
            wall, gap = built.wall, built.wall.sheathing.gap
            if built.skin is None or wall.sheathing.direction != "upright":
                return []
            full, face = upright_stretch(wall).full, wall.face_right - wall.face_left
            count = (face + gap) // (full + gap)
            reaches.add((count, count * (full + gap) - gap - face, full + gap))
    if len(reaches) != 1:
        return []
    ((count, less, module),) = reaches
    if less == 0 or count == 0:
        return []
    name = "width" if pair[0] in ("front", "back") else "depth"
    size = building.width if name == "width" else building.depth
    values = (
        ("side", name), ("less", at_most(size + less)), ("count", str(count)), ("more", size + less + module),
        ("walls", " and ".join(side for side in SIDES if side in pair)),
    )  # fmt: skip
    return [Finding("footprint-in-whole-sheets", f"/footprint/{name}", values)]


def _footprint_change(pair: tuple[str, ...], walls: list[BuiltWall]) -> list[Finding]:
    """The change of footprint with which both of two opposite walls come out in whole sheets."""
    changes = set()
    for built in walls:
        if built.side in pair:
            own = [] if built.skin is None else built.skin.findings
            changes.add(next((finding.values[1:] for finding in own if finding.code == "small-change-saves-rip"), None))
    if len(changes) != 1 or None in changes:
        return []
    (values,) = changes
    name = "width" if pair[0] in ("front", "back") else "depth"
    walls_named = " and ".join(side for side in SIDES if side in pair)
    return [
        Finding("footprint-saves-rip", f"/footprint/{name}", (("side", name), *(values or ()), ("walls", walls_named)))
    ]
