"""What joints hold by the wood standard's formulas, one fastener of each kind: information, never a design."""

from wallwright.domain.fasteners.site import Group, Site
from wallwright.domain.fasteners.values import Fastener, Shear, Strength
from wallwright.lengths import INCH
from wallwright.published import connections
from wallwright.published.tables import OutsideTable

HELD = (
    "stud-to-bottom-plate", "stud-to-top-plate", "plate-to-plate", "cap-splice", "cap-lap", "plate-to-floor",
    "post-to-post", "cripple-to-header", "sheet-edge", "sheet-field", "sheet-to-rim", "sheet-to-next-post",
)  # fmt: skip
"""Joints that hold plates and sheathing; for these the formulas are worked."""


def strengths(site: Site, groups: list[Group]) -> tuple[Strength, ...]:
    """Reference values of one fastener of each joint that holds plates or sheathing, in the order of the groups.

    Of joints fastened alike the one with the least penetration is told.
    """
    least: dict[tuple[str, str], Group] = {}
    for group in groups:
        if group.joint not in HELD or group.rule.fastener.kind not in ("nail", "screw"):
            continue
        key = (group.joint, group.rule.fastener.name)
        if key not in least or _reach(group) < _reach(least[key]):
            least[key] = group
    return tuple(_strength(site, group) for group in least.values())


def _reach(group: Group) -> int:
    """How far the point reaches into the last piece, in timber."""
    return min(group.rule.fastener.length, group.solid) - group.held


def _strength(site: Site, group: Group) -> Strength:
    one, wall = group.rule.fastener, site.wall
    gravity = connections.gravity(wall.species)
    main = connections.timber_bearing(wall.species)
    sheet = group.joint.startswith("sheet-")
    side = connections.panel_bearing(wall.sheathing.sheet.kind) if sheet else main
    reach = max(0, _reach(group))
    lateral, mode, said = _lateral(one, group, side, main, reach)
    per_inch = (
        connections.screw_withdrawal(gravity, one.diameter / INCH)
        if one.kind == "screw"
        else connections.nail_withdrawal(gravity, one.diameter / INCH)
    )
    withdrawal = per_inch * reach / INCH
    if group.grain == "end":
        lateral = None if lateral is None else lateral * connections.END_GRAIN
        withdrawal = 0.0
        said += "; end grain: lateral x 0.67, no withdrawal counted"
    elif group.grain == "toe":
        lateral = None if lateral is None else lateral * connections.TOE_LATERAL
        withdrawal *= connections.TOE_WITHDRAWAL
        said += "; toe-nailed: lateral x 0.83, withdrawal x 0.67"
    assumed = f"{wall.species}, specific gravity {gravity:g}, dry, load duration 1.0, one fastener{said}"
    pounds = None if lateral is None else round(lateral, 3)
    return Strength(group.joint, one.name, reach, pounds, mode, round(withdrawal, 3), assumed)


def _lateral(one: Fastener, group: Group, side: float, main: float, reach: int) -> tuple[float | None, str, str]:
    """The lateral value before the factors of its grain, its mode, and what to say of it."""
    root = one.root / INCH
    try:
        strong = connections.screw_yield(one.gauge) if one.gauge else connections.yield_strength(root)
        if reach < connections.LEAST_PENETRATION * one.root:
            raise OutsideTable("the point reaches less than 6 diameters into the second piece")
        full = max(reach, connections.FULL_PENETRATION * one.root)
        value = connections.lateral(root, group.held / INCH, full / INCH, side, main, strong)
    except OutsideTable as outside:
        return None, "", f"; {outside.reason}: no lateral value"
    factor = connections.penetration_factor(reach / INCH, root)
    said = "" if factor == 1 else f"; less than 10 diameters deep: x {factor:.2f}"
    return value.pounds * factor, value.mode, said


def shear(site: Site, groups: list[Group]) -> Shear | None:
    """The published nominal unit shear of the sheathing for its edge nails; None where no row holds it."""
    wall = site.wall
    edges = [group for group in groups if group.joint == "sheet-edge"]
    if not edges or any(group.rule.fastener.kind != "nail" for group in edges):
        return None
    worst = min(edges, key=_reach)
    rule = worst.rule
    penny = rule.fastener.name.split(" ")[0] if rule.fastener.name.endswith("common") else ""
    if penny not in ("6d", "8d", "10d") or rule.spacing is None or wall.spacing > 24 * INCH:
        return None
    gravity = connections.gravity(wall.species)
    thick = wall.sheathing.sheet.thickness
    try:
        found = connections.unit_shear(thick, penny, rule.spacing, _reach(worst), gravity)
    except OutsideTable:
        return None
    factor = found.gravity_factor
    return Shear(
        round(found.wind_plf * factor, 3), round(found.seismic_plf * factor, 3), factor, found.panel, found.nail,
        found.spacing, connections.shear_source(),
    )  # fmt: skip
