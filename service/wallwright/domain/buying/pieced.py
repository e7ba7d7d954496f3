"""Plates jointed anew where that saves boards: which joints are free, and the walls framed with those chosen."""

from collections import Counter
from typing import Final

import msgspec
from msgspec.structs import replace

from wallwright.domain import framed
from wallwright.domain.buying import boards
from wallwright.domain.buying.asked import Order, Piece
from wallwright.domain.buying.boards import Section
from wallwright.domain.buying.needs import Taken, pieces_of
from wallwright.domain.buying.plate_programme import Programme, Stack
from wallwright.domain.buying.problem import EFFORTS
from wallwright.domain.buying.programme import Left
from wallwright.domain.fasteners import fasten
from wallwright.domain.members import Layout, Member
from wallwright.domain.plate_choices import Way, choices
from wallwright.domain.wall import PlateJoints
from wallwright.findings import PlanRefused

WAYS: Final[dict[str, int]] = {"quick": 1_000, "normal": 6_000, "thorough": 30_000}
"""Ways to joint plates that are taken into the programmes, all stacks together."""
_STACK_MOST: Final = 1_500
_STACK_LEAST: Final = 30
_FREE: Final = "plate"
_LAYERS: Final = {"bottom plates": ("bottom", "second_bottom"), "top plates": ("top", "cap")}


class Chosen(msgspec.Struct, frozen=True):
    """What was found for one section: a way for each stack, what that costs, and what no way can undercut, in cents."""

    section: Section
    ways: tuple[tuple[Stack, Way], ...]
    cost: int | None
    bound: int
    complete: bool


class Pieced(msgspec.Struct, frozen=True):
    """A wall whose plates are jointed anew: where it was asked for, its name, and the layout with those joints."""

    at: str
    name: str
    layout: Layout


def chosen(taken: Taken, left: Left) -> list[Chosen]:
    """The joints that go best with the boards, section by section."""
    free = free_stacks(taken)
    return [
        _chosen(taken, section, [one for one in free if one.section == section], left)
        for section in dict.fromkeys(one.section for one in free)
    ]


def free_stacks(taken: Taken) -> list[Stack]:
    """The stacks of level plates that are of one section, and their lawful ways in pieces that the boards hold."""
    found = []
    most = max(_STACK_LEAST, min(_STACK_MOST, WAYS[taken.asked.effort] // (2 * len(taken.walls))))
    for number, (_, _, one) in enumerate(taken.walls):
        whole = framed.framed(replace(one.wall, plates=replace(one.wall.plates, stock_length=None, joints=None)))
        sections = _sections(whole.layout)
        for name in _LAYERS:
            own = sections.get(name, [])
            offers = boards.of_section(taken.asked, own[0]) if len(own) == 1 else []
            longest = max((offer.length for offer in offers), default=0) - 2 * taken.asked.end_trim
            longest = min(longest, one.wall.plates.stock_length or longest)
            if longest <= 0:
                continue
            for choice in choices(one.wall, list(whole.parts), longest, most):
                if choice.name == name and choice.ways:
                    found.append(Stack(number, name, own[0], choice.ways, choice.complete))
    return found


def _sections(layout: Layout) -> dict[str, list[Section]]:
    """The sections of each stack of plates that is level."""
    found: dict[str, list[Section]] = {}
    for member in layout.members:
        if _stack_of(member) and not member.outline:
            own = found.setdefault(_stack_of(member), [])
            if (member.stock, member.treated) not in own:
                own.append((member.stock, member.treated))
    return found


def _stack_of(member: Member) -> str:
    return {"bottom-plate": "bottom plates", "top-plate": "top plates", "cap-plate": "top plates"}.get(member.role, "")


def _chosen(taken: Taken, section: Section, stacks: list[Stack], left: Left) -> Chosen:
    order = taken.asked
    fixed = _fixed(taken, section, stacks)
    most: Counter[int] = Counter()
    for stack in stacks:
        own: Counter[int] = Counter()
        for way in stack.ways:
            own |= Counter(way.lengths)
        most += own
    pieces = fixed + [Piece(section[0], length, count, section[1], at=_FREE) for length, count in sorted(most.items())]
    kinds = boards.kinds(pieces, order.kerf)
    problem, _ = boards.problem_of(order, section, kinds)
    place = {kind.length: n for n, kind in enumerate(kinds) if not kind.item.ends}
    least = [sum(one.count for one in kind.pieces if one.at != _FREE) for kind in kinds]
    needs = [[Counter(place[length] for length in way.lengths) for way in stack.ways] for stack in stacks]
    programme = Programme(problem, least, stacks, needs, EFFORTS[order.effort], left)
    programme.run()
    ways, cost = programme.whole()
    if cost is not None and cost > programme.bound:
        ways, cost = programme.closed(ways, cost)
    picked = tuple((stack, stack.ways[n]) for stack, n in zip(stacks, ways, strict=True)) if cost is not None else ()
    return Chosen(section, picked, cost, programme.bound, all(stack.complete for stack in stacks))


def _fixed(taken: Taken, section: Section, stacks: list[Stack]) -> list[Piece]:
    """The section's pieces without spares and without the plates that are free."""
    plain = taken.twin()
    plain.asked = replace(taken.asked, spare=0)
    free: Counter[tuple[str, int]] = Counter()
    for stack in stacks:
        at, _, one = taken.walls[stack.wall]
        for member in one.layout.members:
            if _stack_of(member) == stack.name:
                free[at, member.length] += 1
    found = []
    for piece in pieces_of(plain):
        if (piece.stock, piece.treated) != section:
            continue
        less = 0 if piece.slants or piece.at.startswith("/pieces/") else min(piece.count, free[piece.at, piece.length])
        free[piece.at, piece.length] -= less
        if piece.count > less:
            found.append(replace(piece, count=piece.count - less))
    return found


def with_joints(taken: Taken, picked: list[tuple[Stack, Way]]) -> tuple[Taken, tuple[Pieced, ...]]:
    """The order with the walls framed anew with these joints, all others of their plates as they were."""
    done = taken.twin()
    for number in dict.fromkeys(stack.wall for stack, _ in picked):
        at, name, one = taken.walls[number]
        told = joints_of(one.layout)
        for stack, way in picked:
            if stack.wall == number:
                told = replace(told, **dict(zip(_LAYERS[stack.name], way.joints, strict=True)))
        again = framed.framed(replace(one.wall, plates=replace(one.wall.plates, joints=told)))
        done.walls[number] = (at, name, again)
        done.fastened[number] = fasten(again.layout, taken.skins[number][2])
    changed = [n for n, wall in enumerate(done.walls) if wall[2] is not taken.walls[n][2]]
    return done, tuple(Pieced(done.walls[n][0], done.walls[n][1], done.walls[n][2].layout) for n in changed)


def joints_of(layout: Layout) -> PlateJoints:
    """The joints of a wall's level plates."""
    layers: dict[tuple[str, int], list[int]] = {}
    for member in layout.members:
        if _stack_of(member) and not member.outline:
            layers.setdefault((member.role, member.y), []).append(member.x)
    cuts = {key: tuple(sorted(xs)[1:]) for key, xs in layers.items()}
    bottoms = [cuts[key] for key in sorted(cuts) if key[0] == "bottom-plate"]
    top = next((cuts[key] for key in cuts if key[0] == "top-plate"), ())
    cap = next((cuts[key] for key in cuts if key[0] == "cap-plate"), ())
    return PlateJoints(bottoms[0] if bottoms else (), bottoms[1] if len(bottoms) > 1 else (), top, cap)


def cut_or_none(order: Order, section: Section, pieces: list[Piece], left: Left) -> boards.Cut | None:
    """The section cut, or None where its boards cannot yield it."""
    try:
        boards.check(order, {section: pieces})
        return boards.cut(order, section, pieces, left)
    except PlanRefused:
        return None
