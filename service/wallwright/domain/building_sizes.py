"""What a building comes to beside the published tables: the bracing of each wall line, and its area.

Bracing is the table's plain case: one storey, two braced wall lines each way, wind alone, panels nailed to the
studs without a break of their own, no gypsum board inside. What counts is full-height sheathed length between
openings, measured along the plate.
"""

from typing import Final

import msgspec

from wallwright.domain.sizing import loads_known
from wallwright.domain.slopes import top_edge
from wallwright.domain.wall import Wall
from wallwright.findings import Compared, Finding, Value
from wallwright.lengths import FOOT
from wallwright.published import bracing, exemptions
from wallwright.published.tables import OutsideTable

METHOD: Final = "WSP"
PANEL_KINDS: Final = ("osb", "plywood")
EARTHQUAKE: Final = ("D0", "D1", "D2", "E")
"""Seismic design categories in which bracing against earthquakes may ask for more than wind does."""


class Line(msgspec.Struct, frozen=True):
    """A wall line of a building: its wall, the distance to the line opposite, and how far the ridge stands over it."""

    side: str
    wall: Wall
    apart: int
    eave_to_ridge: int

    @property
    def height(self) -> int:
        """The wall's height at its highest point, which the table is read with: it never asks for less there."""
        return top_edge(self.wall).most(0, self.wall.length)


def bracing_findings(line: Line) -> list[Finding]:
    """The braced length that a wall line needs beside what it has; nothing where load and place are not known."""
    wall, about = line.wall, f"/walls/{line.side}"
    if not loads_known(wall) or wall.site is None:
        return []
    source = bracing.length_source(wall.rules)
    name: tuple[str, Value] = ("side", line.side)

    def not_compared(code: str, reason: str) -> Finding:
        return Finding(code, about, (name, ("reason", reason)), source=source)

    if wall.site.wind_mph is None or wall.site.exposure is None:
        return [not_compared("bracing-not-compared", "wind and exposure are not given")]
    why = _not_panels(wall)
    if why:
        return [not_compared("bracing-not-compared", why)]
    try:
        needed = bracing.length_needed(
            wall.rules, METHOD, wall.site.wind_mph, wall.site.exposure, line.apart, line.eave_to_ridge, line.height
        )
        found = [_compared(line, needed, about)]
    except OutsideTable as outside:
        return [not_compared("bracing-outside-table", outside.reason)]
    if wall.site.seismic in EARTHQUAKE:
        reason = f"earthquake governs bracing in category {wall.site.seismic}, which is not held here"
        found.append(not_compared("bracing-not-compared", reason))
    return found


def _not_panels(wall: Wall) -> str:
    """Why the wall's sheathing is not what the method asks for; empty where it is."""
    sheet = wall.sheathing.sheet
    if sheet.kind not in PANEL_KINDS:
        return "its sheathing is no wood structural panel"
    if sheet.thickness < bracing.least_thickness(wall.rules, METHOD):
        return "its sheathing is thinner than 3/8 in"
    return ""


def _compared(line: Line, needed: int, about: str) -> Finding:
    wall = line.wall
    seismic = None if wall.site is None else wall.site.seismic
    counted = [
        (left, right, bracing.counted(wall.rules, right - left, line.height, seismic))
        for left, right in stretches(wall)
    ]
    panels = [one for one in counted if one[2]]
    available = sum(one[2] for one in panels)
    lacking = _misplaced(line, panels)
    code = "bracing-compared" if available >= needed and not lacking else "bracing-short"
    case = "" if wall.top.shape == "level" else ", the wall taken to be as high all along as at its highest point"
    values = (
        ("side", line.side), ("needed", needed), ("available", available), ("lacking", lacking), ("case", case)
    )  # fmt: skip
    source = bracing.length_source(wall.rules)
    return Finding(code, about, values, source=source, compared=Compared(available, needed, "length"))


def stretches(wall: Wall) -> list[tuple[int, int]]:
    """The stretches of plate that no opening interrupts, from left to right, as x from and to."""
    found = []
    edge = 0
    for opening in sorted(wall.openings, key=lambda opening: opening.left):
        found.append((edge, opening.left))
        edge = opening.right
    found.append((edge, wall.length))
    return [(left, right) for left, right in found if right > left]


def _misplaced(line: Line, panels: list[tuple[int, int, int]]) -> str:
    """What is wrong with the places and the number of the panels that count, as the end of a sentence."""
    wall = line.wall
    first_within, apart, short, alone = bracing.places(wall.rules)
    if not panels:
        return ""
    least = bracing.least_panel(wall.rules, METHOD, line.height)
    edges = [0, *(x for left, right, _ in panels for x in (left, right)), wall.length]
    before, *between, after = (edges[i + 1] - edges[i] for i in range(0, len(edges), 2))
    if max(before, after) > first_within:
        return ", and the first panel stands more than 10 ft from an end"
    if any(gap > apart for gap in between):
        return ", and two panels stand more than 20 ft apart"
    # A long stretch is panels side by side.
    count = sum(max(1, (right - left) // least) for left, right, _ in panels)
    longest = max(right - left for left, right, _ in panels)
    if count < 2 and (wall.length > short or longest < alone):
        return ", in fewer panels than the line needs"
    return ""


def permit_finding(rules: str, width: int, depth: int) -> Finding:
    """The building's area over its framing beside the code's exemption of small accessory buildings."""
    area, most = round(width * depth / FOOT**2, 1), exemptions.permit_area_sq_ft(rules)
    code = "permit-area" if width * depth <= most * FOOT**2 else "permit-area-passed"
    values = (("area", f"{area:g}"), ("most", str(most)))
    source = exemptions.permit_source(rules)
    return Finding(code, "/footprint", values, source=source, compared=Compared(area, most, "sq ft"))
