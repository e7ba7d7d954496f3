"""What stands in the way of framing a wall under a slope: its steepness, its ridge, its lowest and highest points."""

from collections.abc import Callable

from msgspec.structs import replace

from wallwright.domain.slopes import soffit, top_edge, under
from wallwright.domain.wall import Wall
from wallwright.findings import Fault, Value, at_least, at_most
from wallwright.lengths import FOOT

STEEPEST = 2
"""The steepest slope: this much rise in a run of 1 (24 in 12)."""
LEAST_CLEAR = FOOT
"""The least clear height under the plates at the highest point of a wall whose plates meet at its lowest."""
HIGHEST = 20 * FOOT
"""The highest point that a sloped top may reach: as high as a level wall may be."""


def check_slope(wall: Wall) -> list[Fault]:
    """Faults of the slope by itself; none for a level wall."""
    top = wall.top
    if top.shape == "level":
        return []
    if top.rise <= 0:
        return [Fault("slope-missing", "/top/rise", (("shape", top.shape),))]
    if top.rise > STEEPEST * top.run:
        return [Fault("slope-too-steep", "/top/rise", (("most", f"{STEEPEST * 12} in 12"),))]
    if top.shape == "gable":
        faults = _check_ridge(wall)
        if faults:
            return faults
    peak = _peak(wall)
    if peak <= HIGHEST:
        return []
    lower = wall.height - peak + HIGHEST
    if lower < least_height(wall):
        fault = too_steep_for_its_length(top.rise, top.run, peak, lambda rise: _peak(_sloping(wall, rise)), "/top/rise")
        if fault:
            return [fault]
    return [Fault("top-too-high", "/height", (("given", peak), ("most", HIGHEST), ("height", at_most(lower))))]


def _peak(wall: Wall) -> int:
    return top_edge(wall).most(0, wall.length)


def _sloping(wall: Wall, rise: int) -> Wall:
    return replace(wall, top=replace(wall.top, rise=rise, run=12))


def too_steep_for_its_length(
    rise: int, run: int, peak: int, peak_at: Callable[[int], int], pointer: str
) -> Fault | None:
    """The fault of a slope that rises so far over its length that no height is low enough for it.

    Args:
        rise: The rise asked for, in ``run``.
        run: Its run.
        peak: The highest point at that slope, in grid units.
        peak_at: The highest point at a rise in 12.
        pointer: The field that holds the rise.

    Returns:
        The fault with the steepest whole rise in 12 that stays below the highest point framed; None where none does.
    """
    for gentler in range(min(rise * 12 // run, STEEPEST * 12), 0, -1):
        if peak_at(gentler) <= HIGHEST:
            values: tuple[tuple[str, Value], ...] = (("given", peak), ("most", HIGHEST), ("slope", f"{gentler} in 12"))
            return Fault("slope-reaches-too-high", pointer, values)
    return None


def _check_ridge(wall: Wall) -> list[Fault]:
    """Faults of a gable's ridge: off the plate, or past where the caps begin and end."""
    thick = wall.thickness
    ridge = top_edge(wall).ridge or 0
    if not thick <= ridge <= wall.length - thick:
        values: tuple[tuple[str, Value], ...] = (
            ("given", ridge), ("least", at_least(thick)), ("most", at_most(wall.length - thick)),
        )  # fmt: skip
        return [Fault("ridge-outside-wall", "/top/ridge", values)]
    faults = []
    for end, lap, room in (("left", wall.left.cap_lap, ridge), ("right", wall.right.cap_lap, wall.length - ridge)):
        if room + lap < thick:
            faults.append(
                Fault("cap-too-short", f"/ends/{end}/cap_lap", (("given", lap), ("least", at_least(thick - room))))
            )
    return faults


def least_height(wall: Wall) -> int:
    """The least height of a sloped wall: at its lowest the plates may meet, so that the end stud vanishes there.

    Past the wall's ends sheets run on down the slope and stay above the bottom plate, caps above the floor.
    """
    clear, edge = soffit(wall), top_edge(wall)
    left = min(0, wall.face_left)
    right = max(wall.length, wall.face_right)
    low = wall.height + wall.stud_bottom - clear.least(0, wall.length)
    high = wall.height + wall.stud_bottom + LEAST_CLEAR - clear.most(0, wall.length)
    # Under a slope so slight that no stud would be left, each stud is at least as long as it is thick.
    studs = min(low + wall.thickness, max(low, high))
    laps = wall.height + wall.stud_bottom - edge.least(left, right)
    caps = wall.height - under(wall, 1).least(-wall.left.cap_lap, wall.length + wall.right.cap_lap)
    return max(studs, laps, caps if wall.plates.top == 2 else 0)
