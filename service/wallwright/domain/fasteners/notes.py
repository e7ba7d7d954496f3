"""What there is to say about how a wall is fastened: points that come out, thin timber, treated plates, edge distances."""

from wallwright.domain.fasteners.ends import short_beside
from wallwright.domain.fasteners.holds import HELD
from wallwright.domain.fasteners.schedule import INSIDE
from wallwright.domain.fasteners.site import Group, Site
from wallwright.domain.fasteners.values import Shear
from wallwright.findings import Compared, Finding, Value
from wallwright.lengths import INCH, SIXTEENTH
from wallwright.published.connections import LEAST_PENETRATION, standard
from wallwright.published.fastening import NAILS, SCREWS

_EDGE_DIAMETERS = 2.5


def fastener_findings(site: Site, groups: list[Group], shear: Shear | None) -> tuple[Finding, ...]:
    """The findings of a fastened wall: one for each kind of joint at most of each sort."""
    found = [*_points_out(groups), *_thin(groups), *_shallow(groups)]
    wall = site.wall
    kinds = {group.rule.fastener.kind for group in groups}
    if "screw" in kinds:
        found.append(Finding("screws-no-swap", "/fastening"))
    if any(group.rule.fastener.coating in ("hot-dip", "coated") for group in groups) and (
        wall.floor.treated_plate or wall.floor.kind == "slab"
    ):
        found.append(Finding("coated-into-treated", "/floor"))
    found += _packs(site, groups)
    if wall.floor.kind == "none":
        found.append(Finding("floor-not-known", "/floor"))
    found += _crowded(groups)
    near = _near_edge(site, groups)
    if near:
        found.append(near)
    short = tuple(dict.fromkeys(stud.id for stud in short_beside(site)))
    if short:
        found.append(Finding("end-by-toe-nail", "/openings", (), short))
    if any(member.cut_outs for member in site.members):
        found.append(Finding("no-fastener-at-cut", "/openings"))
    if shear is None:
        found.append(Finding("unit-shear-not-read", "/sheathing"))
    found.append(Finding("holding-is-information", ""))
    found.append(Finding("not-checked", ""))
    return tuple(found)


def _worst(groups: list[Group], spare: str) -> dict[str, Group]:
    """For each kind of joint the group whose point passes its timber furthest, of those that may come out or may not."""
    worst: dict[str, Group] = {}
    for group in groups:
        if group.rule.fastener.kind not in ("nail", "screw"):
            continue
        sheet = group.joint.startswith("sheet-")
        may = group.out and not sheet if spare == "out" else sheet
        if not may or group.rule.fastener.length < group.solid:
            continue
        before = worst.get(group.joint)
        if before is None or _past(group) > _past(before):
            worst[group.joint] = group
    return worst


def _past(group: Group) -> int:
    return group.rule.fastener.length - group.solid


def _points_out(groups: list[Group]) -> list[Finding]:
    """Points that come out on the other side; flush counts as out."""
    return [_told("point-comes-out", groups, joint, group) for joint, group in _worst(groups, "out").items()]


def _thin(groups: list[Group]) -> list[Finding]:
    """Sheets' fasteners that pass thin timber into the hollow behind it."""
    return [_told("thin-behind", groups, joint, group) for joint, group in _worst(groups, "thin").items()]


def _told(code: str, groups: list[Group], joint: str, worst: Group) -> Finding:
    alike = [g for g in groups if g.joint == joint and g.rule.fastener.length >= g.solid]
    count = sum(len(g.drives) for g in alike)
    pieces = tuple(dict.fromkeys(piece for g in alike[:20] for drive in g.drives for piece in drive.pieces))
    values: tuple[tuple[str, Value], ...] = (
        ("joint", joint), ("fastener", worst.rule.fastener.name), ("count", str(count)), ("timber", worst.solid),
        ("length", worst.rule.fastener.length), ("proposed", proposed(worst)),
    )  # fmt: skip
    return Finding(code, "/fastening", values, tuple(p for p in pieces if p[-1].isdigit()), None,
                   Compared(worst.rule.fastener.length, worst.solid, "length"))  # fmt: skip


def proposed(group: Group) -> int:
    """The longest length that is sold and stays inside; else a sixteenth less than the timber (screws a quarter inch)."""
    if group.rule.fastener.kind == "screw":
        inside = group.solid - INSIDE
        lengths = [one.length for one in SCREWS]
    else:
        inside = group.solid - SIXTEENTH
        lengths = [length for length, _ in NAILS.values()]
    sold = [length for length in lengths if length <= inside and length - group.held >= LEAST_PENETRATION * INCH // 10]
    return max(sold, default=max(inside, 0) // SIXTEENTH * SIXTEENTH)


def _shallow(groups: list[Group]) -> list[Finding]:
    """Joints whose point reaches less than 6 diameters into the last piece."""
    worst: dict[str, tuple[int, Group]] = {}
    for group in groups:
        one = group.rule.fastener
        if one.kind not in ("nail", "screw") or group.joint == "tie-plate":
            continue
        reach = min(one.length, group.solid) - group.held
        if reach < LEAST_PENETRATION * one.diameter and (group.joint not in worst or reach < worst[group.joint][0]):
            worst[group.joint] = (reach, group)
    found = []
    for joint, (reach, group) in worst.items():
        one = group.rule.fastener
        least = LEAST_PENETRATION * one.diameter
        values: tuple[tuple[str, Value], ...] = (
            ("joint", joint), ("fastener", one.name), ("reach", max(0, reach)), ("least", least),
            ("proposed", group.held + least),
        )  # fmt: skip
        compared = Compared(max(0, reach), least, "length")
        found.append(Finding("point-too-shallow", "/fastening", values, (), standard(), compared))
    return found


def _packs(site: Site, groups: list[Group]) -> list[Finding]:
    """Packs of fasteners that this wall does not take."""
    taken = {group.rule.fastener.name for group in groups}
    idle = dict.fromkeys(pack.fastener for pack in site.wall.fastening.packs if pack.fastener not in taken)
    return [Finding("pack-not-used", "/fastening/packs", (("fastener", ", ".join(idle)),))] if idle else []


def _crowded(groups: list[Group]) -> list[Finding]:
    """Edge rows so close that published rules ask for thicker framing at the seams."""
    for group in groups:
        rule = group.rule
        if group.joint != "sheet-edge" or rule.spacing is None or rule.fastener.kind != "nail":
            continue
        if rule.spacing <= 2 * INCH or (rule.spacing <= 3 * INCH and rule.fastener.diameter >= NAILS["10d common"][1]):
            return [Finding("thicker-framing-at-seams", "/fastening", (("spacing", rule.spacing),))]
    return []


def _near_edge(site: Site, groups: list[Group]) -> Finding | None:
    """How many sheet fasteners stand nearer to the timber's edge than 2.5 diameters, as a note."""
    boxes = {member.id: member for member in site.members}
    count, least = 0, 0
    for group in groups:
        if group.joint != "sheet-edge":
            continue
        asked = int(_EDGE_DIAMETERS * group.rule.fastener.diameter)
        for drive in group.drives:
            member = boxes.get(drive.pieces[-1])
            if member is None or member.outline:
                continue
            x, y, _ = drive.at
            if min(x - member.x, member.right - x, y - member.y, member.top - y) < asked:
                count, least = count + 1, asked
    if not count:
        return None
    return Finding("nearer-than-2-5-diameters", "/sheathing", (("count", str(count)), ("least", least)))


__all__ = ["HELD", "fastener_findings", "proposed"]
