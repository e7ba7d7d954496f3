"""Holes and notches that a pipe or cable takes out of the studs it crosses, beside the published rule.

Source: IRC R602.6. The wall counts as exterior or bearing, whatever it carries, since its outer face is skinned.
"""

import itertools

from wallwright.domain.members import Member
from wallwright.domain.wall import Run, Wall
from wallwright.findings import Compared, Finding, Value, at_most
from wallwright.published import plates as published

STUDS = frozenset((
    "end-stud", "corner-stud", "field-stud", "seam-stud", "king-stud", "jack-stud", "cripple", "backing",
))  # fmt: skip
_LEVEL = frozenset(("bottom-plate", "top-plate", "cap-plate", "header", "rough-sill"))
_WHAT = {"bore": "Holes", "notch": "Notches"}
_NAME = {"bore": "hole", "notch": "notch"}
_IN_A_ROW = 2
"""How many doubled studs in a row may have the larger hole."""
Group = list[Member]
Values = tuple[tuple[str, Value], ...]


def run_findings(wall: Wall, members: tuple[Member, ...]) -> list[Finding]:
    """What there is to say about each run of holes or notches, in the caller's order."""
    found = []
    for number, run in enumerate(wall.runs):
        about = f"/runs/{number}"
        groups = crossed(wall, members, run)
        if groups:
            found += _sizes(wall, about, run, groups)
        else:
            found.append(Finding("run-crosses-no-stud", about, (("y", run.y),)))
        if run.cut == "bore":
            found += _edge(wall, about, run) + _beside_notches(wall, members, about, run, groups)
        found += _in_the_way(wall, members, about, run)
    return found


def half(run: Run) -> int:
    """Half of a cut's height, rounded up: a hole is round, and a notch is taken to be as high as it is deep."""
    return -(-run.size // 2)


def _ends(wall: Wall, run: Run) -> tuple[int, int]:
    return run.left or 0, wall.length if run.right is None else run.right


def _meets(run: Run, low: int, high: int) -> bool:
    return low < run.y + half(run) and high > run.y - half(run)


def crossed(wall: Wall, members: tuple[Member, ...], run: Run) -> list[Group]:
    """The studs whose middle lies between a run's ends and that stand at its height, those that touch as one group."""
    low, high = _ends(wall, run)
    standing = sorted(
        (m for m in members
         if m.role in STUDS and 2 * low <= m.x + m.right <= 2 * high and _meets(run, m.y, m.top)),
        key=lambda m: (m.x, m.y),
    )  # fmt: skip
    groups: list[Group] = []
    for member in standing:
        if groups and member.x <= max(m.right for m in groups[-1]):
            groups[-1].append(member)
        else:
            groups.append([member])
    return groups


def _most(wall: Wall, run: Run, group: Group) -> int:
    """The largest cut that is published for a group of studs that touch."""
    doubled = run.cut == "bore" and len({m.x for m in group}) > 1
    name = "hole in a doubled stud" if doubled else _NAME[run.cut]
    return published.cut_allowed(wall.rules, name, wall.depth, bearing=True)


def _sizes(wall: Wall, about: str, run: Run, groups: list[Group]) -> list[Finding]:
    """The size beside the published most of each stud crossed, and how many doubled studs in a row need the larger one."""
    source = published.cuts_source(wall.rules)
    inside = published.cut_allowed(wall.rules, _NAME[run.cut], wall.depth, bearing=False)
    over = [group for group in groups if run.size > _most(wall, run, group)]
    told = over or groups
    most = min(_most(wall, run, group) for group in told)
    ids = tuple(m.id for group in told for m in group)
    values: Values = (
        ("what", _WHAT[run.cut]), ("size", run.size), ("y", run.y), ("most", at_most(most)), ("inside", at_most(inside)), ("count", str(len(ids))),
    )  # fmt: skip
    compared = Compared(run.size, most, "length")
    found = [Finding("run-too-large" if over else "run-compared", about, values, ids, source, compared)]
    single = published.cut_allowed(wall.rules, _NAME[run.cut], wall.depth, bearing=True)
    if not over and run.size > single and len(groups) > _IN_A_ROW:
        values = (("size", run.size), ("y", run.y), ("count", str(len(groups))))
        row = Compared(len(groups), _IN_A_ROW, "doubled studs")
        found.append(Finding("bore-doubled-in-a-row", about, values, ids, source, row))
    return found


def _edge(wall: Wall, about: str, run: Run) -> list[Finding]:
    """The wood beside a hole, in the middle of the stud unless its place is given, beside the published least."""
    edge = (wall.depth - run.size) // 2 if run.edge is None else run.edge
    left, least = max(0, min(edge, wall.depth - run.size - edge)), published.hole_edge(wall.rules)
    if left >= least:
        return []
    values: Values = (("size", run.size), ("y", run.y), ("given", left), ("least", least))
    source = published.cuts_source(wall.rules)
    return [Finding("bore-near-edge", about, values, (), source, Compared(left, least, "length"))]


def _beside_notches(
    wall: Wall, members: tuple[Member, ...], about: str, run: Run, groups: list[Group]
) -> list[Finding]:
    own = {m.id for m in itertools.chain(*groups)}
    found = []
    for other in wall.runs:
        if other.cut != "notch" or abs(other.y - run.y) >= half(other) + half(run):
            continue
        both = tuple(m.id for m in itertools.chain(*crossed(wall, members, other)) if m.id in own)
        if both:
            values: Values = (("y", run.y), ("other", other.y), ("count", str(len(both))))
            found.append(Finding("bore-at-notch", about, values, both, published.cuts_source(wall.rules)))
    return found


def _in_the_way(wall: Wall, members: tuple[Member, ...], about: str, run: Run) -> list[Finding]:
    """Level timber that the run lies in, and openings that it passes through."""
    low, high = _ends(wall, run)
    # Members on a slope are judged by their box only where they are level.
    timber = tuple(
        m.id for m in members
        if m.role in _LEVEL and not m.outline and m.x < high and m.right > low and _meets(run, m.y, m.top)
    )  # fmt: skip
    found = []
    if timber:
        found.append(Finding("run-in-level-timber", about, (("y", run.y), ("count", str(len(timber)))), timber))
    open_at = [o for o in wall.openings if o.left < high and o.right > low and _meets(run, o.sill, o.head)]
    if open_at:
        found.append(Finding("run-crosses-opening", about, (("y", run.y), ("count", str(len(open_at))))))
    return found
