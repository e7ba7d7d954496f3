"""The plan of a building: its four walls from above, openings, names of the walls, and its corners at a larger scale."""

from wallwright.domain.building import Built, BuiltWall
from wallwright.domain.deck_lines import DeckLines
from wallwright.drawing.corners import WIDTH, corner_details, placer
from wallwright.drawing.dimensions import Shapes, string, upright
from wallwright.drawing.measured import PAPER_ROOM, factor_of, signed
from wallwright.drawing.paper import MARGIN, View, fitted
from wallwright.drawing.scene import Area, Lines, Scene, Text, folded, text_width
from wallwright.drawing.svg import svg_text
from wallwright.drawing.title import title_strip
from wallwright.lengths import Units, tape_text

_ROW = 3.6
_CHAIN = 8.0
"""The room that a chain of openings takes beside the plan."""


def plan(built: Built, units: Units, revision: str) -> str:
    """The plan as SVG: front at the foot of the paper, as one stands before it."""
    return svg_text(plan_scene(built, units, revision))


def plan_scene(built: Built, units: Units, revision: str) -> Scene:
    """The plan as shapes on paper."""
    width, depth = built.framing_width, built.framing_depth
    skin = max(one.wall.sheathing.sheet.thickness for one in built.walls)
    rows = _deck_rows(built, units)
    below = 34 + _ROW * len(rows) + (2 if rows else 0)
    opened = {one.side for one in built.walls if one.wall.openings}
    above, left = 14 + _CHAIN * ("back" in opened), 26 + _CHAIN * ("left" in opened)
    view = fitted(units, (-skin, -skin, width + skin, depth + skin), above, below, left, 26 + WIDTH)
    shapes: Shapes = []
    for one in built.walls:
        shapes += _wall(view, built, one, units)
    shapes += _names(view, built, units)
    shapes += _dimensions(view, built, units)
    shapes += _deck(view, built)
    shapes += [Text(MARGIN + 3, view.y(-skin) + 32 + _ROW * number, row) for number, row in enumerate(rows)]
    shapes += corner_details(view, built, units)
    rules = built.walls[0].wall.rules
    through = " and ".join(built.building.through)
    what = f"Plan, front at the foot; {through} run through, slip gap {tape_text(built.building.slip_gap, units)}"
    shapes += title_strip(view, built.building.name, what, units, revision, rules)
    description = f"{tape_text(width, units)} by {tape_text(depth, units)} over the framing, four walls."
    return Scene(
        view.width, view.height, f"Plan of {built.building.name or 'the building'}", description, tuple(shapes)
    )


def _deck(view: View, built: Built) -> Shapes:
    """The deck's outline as measured, about the framing lines; what is less than a line on paper is drawn larger."""
    if built.deck is None:
        return []
    width, depth = built.framing_width, built.framing_depth
    factor = deck_factor(built.deck, min(width, depth))
    corners = []
    for one in built.deck.marks:
        out, on = one.sideways * factor, one.endways * factor
        x = width + out if one.corner.endswith("right") else -out
        y = depth + on if one.corner.startswith("back") else -on
        corners.append(view.at(x, y))
    return [Lines("void", tuple((*corners[n], *corners[(n + 1) % 4]) for n in range(4)))]


def deck_factor(lines: DeckLines, size: int) -> int:
    """How many times larger a deck's deviations from the framing lines are drawn."""
    return factor_of(max(max(abs(one.sideways), abs(one.endways)) for one in lines.marks), size)


def _deck_rows(built: Built, units: Units) -> list[str]:
    """How far the deck sticks out past the framing lines at each corner, in words under the plan."""
    lines = built.deck
    if lines is None:
        return []
    factor = deck_factor(lines, min(built.framing_width, built.framing_depth))
    told = "; ".join(
        f"{one.corner} {signed(one.sideways, units)} at the side, {signed(one.endways, units)} at the end"
        for one in lines.marks
    )
    drawn = f" (drawn {factor} times)" if factor > 1 else ""
    text = f"Deck as measured, dashed{drawn}; + it sticks out past the framing line, - it is short: {told}."
    return folded(text, PAPER_ROOM[units] - WIDTH)


def _wall(view: View, built: Built, one: BuiltWall, units: Units) -> Shapes:
    ox, oy, rx, ry, ix, iy = placer(built, one)
    wall = one.wall

    def at(along: int, inward: int) -> tuple[float, float]:
        return view.at(ox + rx * along + ix * inward, oy + ry * along + iy * inward)

    def box(a: int, b: int, low: int, high: int) -> tuple[tuple[float, float], ...]:
        return (at(a, low), at(b, low), at(b, high), at(a, high))

    title = f"{one.side} wall: plate {tape_text(wall.length, units)}"
    shapes: Shapes = [
        Area(
            "sheet", box(wall.face_left, wall.face_right, -wall.sheathing.sheet.thickness, 0), f"{one.side} sheathing"
        ),
        Area("plate", box(0, wall.length, 0, wall.depth), title, (("side", one.side),)),
    ]
    crosses = []
    for member in one.layout.members:
        if member.height > member.width and member.y == wall.stud_bottom and member.role != "blocking":
            low, high = member.z, member.z + member.depth
            shapes.append(Area("member", box(member.x, member.right, low, high), f"{member.mark} {member.role}"))
            (x1, y1), (x2, y2), (x3, y3), (x4, y4) = box(member.x, member.right, low, high)
            crosses += [(x1, y1, x3, y3), (x2, y2, x4, y4)]
    shapes.append(Lines("thin", tuple(crosses)))
    for one_inside in wall.partitions:
        # A stub of the partition, since how far it runs was not asked.
        (x1, y1), (x2, y2), (x3, y3), (x4, y4) = box(
            one_inside.at, one_inside.right, wall.depth, wall.depth + 3 * one_inside.depth
        )
        shapes.append(Lines("void", ((x1, y1, x4, y4), (x2, y2, x3, y3))))
    for opening in wall.openings:
        shapes.append(Area("mask", box(opening.left, opening.right, -wall.sheathing.sheet.thickness, wall.depth)))
        edges = box(opening.left, opening.right, 0, wall.depth)
        lines = tuple((*edges[n], *edges[(n + 1) % 4]) for n in range(4))
        shapes.append(Lines("dim" if opening.sill else "void", lines))
    return shapes


def _names(view: View, built: Built, units: Units) -> Shapes:
    """Each wall's name and plate length, inside the building along its wall."""
    shapes: Shapes = []
    middle_x, middle_y = built.framing_width // 2, built.framing_depth // 2
    for one in built.walls:
        text = f"{one.side} {tape_text(one.wall.length, units)}"
        inset = one.wall.depth
        if one.side in ("front", "back"):
            y = inset if one.side == "front" else built.framing_depth - inset
            if view.size(built.framing_width) > text_width(text) + 8:
                drop = -1.5 if one.side == "front" else 3.5
                at = (view.x(middle_x), view.y(y) + drop)
                half = text_width(text) / 2 + 0.5
                shapes += [_mask(at[0] - half, at[1] - 2.3, at[0] + half, at[1] + 0.6), Text(*at, text, "t", "middle")]
        elif view.size(built.framing_depth) > text_width(text) + 14:
            x = inset if one.side == "left" else built.framing_width - inset
            drop = 3.5 if one.side == "left" else -1.5
            at = (view.x(x) + drop, view.y(middle_y))
            half = text_width(text) / 2 + 0.5
            shapes.append(_mask(at[0] - 2.3, at[1] - half, at[0] + 0.6, at[1] + half))
            shapes.append(Text(*at, text, "t", "middle", turned=True))
    return shapes


def _mask(left: float, top: float, right: float, bottom: float) -> Area:
    """Bare paper behind a name, where a partition's stub would cross it."""
    return Area("mask", ((left, top), (right, top), (right, bottom), (left, bottom)))


def _dimensions(view: View, built: Built, units: Units) -> Shapes:
    """A chain of the openings along each wall that has any, then the building's own sizes."""
    width, depth = built.framing_width, built.framing_depth
    foot, head, start, end = view.y(0), view.y(depth), view.x(0), view.x(width)
    walls = {one.side: one for one in built.walls}
    shapes: Shapes = []
    for side, one in walls.items():
        stops, texts = _chain(built, one, view, units)
        if not stops:
            continue
        if side == "front":
            shapes += string(view, stops, foot + 10, texts)
        elif side == "back":
            shapes += string(view, stops, head - 10, texts, above=True)
        else:
            x = start - 10 if side == "left" else end + 10
            for low, high, text in zip(stops, stops[1:], texts, strict=False):
                shapes += upright(view, low, high, x, text, right=side == "right")
    shapes += string(view, [0, width], foot + 18, [f"framing {tape_text(width, units)}"])
    skins = walls["left"].wall.sheathing.sheet.thickness, walls["right"].wall.sheathing.sheet.thickness
    over = width + sum(skins)
    shapes += string(view, [-skins[0], width + skins[1]], foot + 26, [f"over sheathing {tape_text(over, units)}"])
    start -= _CHAIN * bool(walls["left"].wall.openings)
    shapes += upright(view, 0, depth, start - 10, f"framing {tape_text(depth, units)}")
    ends = walls["front"].wall.sheathing.sheet.thickness, walls["back"].wall.sheathing.sheet.thickness
    text = f"over sheathing {tape_text(depth + sum(ends), units)}"
    shapes += upright(view, -ends[0], depth + ends[1], start - 18, text)
    return shapes


def _chain(built: Built, one: BuiltWall, view: View, units: Units) -> tuple[list[int], list[str]]:
    """Where a wall's openings begin and end along the building, its framing corners at the ends, and the texts between.

    An opening's has its name where there is room. Of a wall without openings nothing is told.
    """
    ox, oy, rx, ry, _, _ = placer(built, one)
    from_, way = (ox, rx) if rx else (oy, ry)
    named = {}
    for opening in one.wall.openings:
        ends = sorted((from_ + way * opening.left, from_ + way * opening.right))
        named[ends[0], ends[1]] = opening.name
    if not named:
        return [], []
    stops = sorted({0, built.framing_width if rx else built.framing_depth, *(x for ends in named for x in ends)})
    texts = []
    for low, high in zip(stops, stops[1:], strict=False):
        text = tape_text(high - low, units)
        full = f"{named.get((low, high), '')} {text}".strip()
        texts.append(full if view.size(high - low) > text_width(full) + 1 else text)
    return stops, texts
