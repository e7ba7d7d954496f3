"""The judge of a framed wall: what must hold of its members, whatever the plan.

Every function returns what is wrong, in words, and an empty list where all is right.
"""

import itertools
from collections import Counter

from tests.property.geometry import UPRIGHT_ROLES, Box, Span, bands, boxes, merged, overlapping

from wallwright.domain.members import Layout, Member
from wallwright.domain.wall import Opening, Wall
from wallwright.lengths import INCH


def faults_of_boxes(layout: Layout) -> list[str]:
    """Members that overlap one another, or leave the wall's box save a cap plate by its lap."""
    wall = layout.wall
    placed: list[tuple[str, Box]] = [(member.id, part) for member in layout.members for part in boxes(member)]
    found = [f"{first} overlaps {second}" for first, second in overlapping(placed)]
    for member in layout.members:
        low = -wall.left.cap_lap if member.role == "cap-plate" else 0
        high = wall.length + (wall.right.cap_lap if member.role == "cap-plate" else 0)
        inside = (
            low <= member.x < member.right <= high
            and 0 <= member.y < member.top <= wall.height
            and 0 <= member.z < member.z + member.depth <= wall.depth
        )
        if not inside:
            found.append(f"{member.id} leaves the wall's box")
    return found


def faults_of_plates(layout: Layout) -> list[str]:
    """Plates that do not run the wall's whole length, or a height that is not plates and studs."""
    wall = layout.wall
    found = []
    layers = plate_layers(layout)
    counts = Counter(role for role, _ in layers)
    wanted = Counter({"bottom-plate": wall.plates.bottom, "top-plate": 1, "cap-plate": wall.plates.top - 1})
    if counts != +wanted:
        found.append(f"plates are {counts}")
    for (role, _), pieces in layers.items():
        low = -wall.left.cap_lap if role == "cap-plate" else 0
        high = wall.length + (wall.right.cap_lap if role == "cap-plate" else 0)
        stops = [low, *(piece.right for piece in pieces)]
        if [piece.x for piece in pieces] != stops[:-1] or stops[-1] != high:
            found.append(f"{[piece.id for piece in pieces]} do not run on from {low} to {high}")
        most = wall.plates.stock_length
        found += [f"{piece.id} is {piece.length} long" for piece in pieces if most and piece.length > most]
        if len(pieces) > 1 and most is None and wall.plates.joints is None:
            found.append(f"{role} is in {len(pieces)} pieces")
        doors = sorted((o.left, o.right) for o in wall.openings if not o.sill) if role == "bottom-plate" else []
        cuts = sorted((cut.left, cut.right) for piece in pieces for cut in piece.cut_outs)
        if cuts != doors or any(c.left < p.x or c.right > p.right for p in pieces for c in p.cut_outs):
            found.append(f"{cuts} are cut out, not {doors}")
    full = wall.height - (wall.plates.bottom + wall.plates.top) * wall.stud.thickness
    for member in layout.members:
        if member.role in ("end-stud", "corner-stud", "field-stud", "king-stud") and member.length != full:
            found.append(f"{member.id} is {member.length} long, not {full}")
    return found


def plate_layers(layout: Layout) -> dict[tuple[str, int], list[Member]]:
    """The pieces of each layer of plate, from left to right, by role and height."""
    layers: dict[tuple[str, int], list[Member]] = {}
    for member in layout.members:
        if member.role.endswith("plate"):
            layers.setdefault((member.role, member.y), []).append(member)
    return {key: sorted(pieces, key=lambda piece: piece.x) for key, pieces in layers.items()}


def faults_of_joints(layout: Layout) -> list[str]:
    """Joints of plates over no stud's middle, in a doorway, or too near a joint of the layer below."""
    wall, found = layout.wall, []
    layers = plate_layers(layout)
    cuts = {key: [piece.x for piece in pieces[1:]] for key, pieces in layers.items()}
    for (role, _), at in cuts.items():
        face = wall.stud_bottom if role == "bottom-plate" else wall.stud_top
        beside = [m for m in layout.members if not m.role.endswith("plate") and m.z == 0 and face in (m.y, m.top)]
        for x in at if role != "cap-plate" else []:
            # A stud halved by the joint, or solid timber that lies tight under the plate on both sides.
            held = [
                m for m in beside
                if (m.role in UPRIGHT_ROLES and _centre2(m) // 2 == x)
                or (m.role in ("header", "blocking") and m.top == face and m.x < x < m.right)
            ]  # fmt: skip
            if not held:
                found.append(f"a {role} is jointed over nothing at {x}")
            if role == "bottom-plate" and any(o.left <= x <= o.right and not o.sill for o in wall.openings):
                found.append(f"a {role} is jointed in a doorway at {x}")
    for (one, low), (other, high) in itertools.combinations(sorted(layers, key=lambda key: key[1]), 2):
        stacked = high - low == wall.thickness
        for x in cuts[one, low] if stacked else []:
            if any(abs(x - y) < wall.plates.cap_offset for y in cuts[other, high]):
                found.append(f"a {other} is jointed too near the joint at {x} below")
    return found


def faults_of_anchors(layout: Layout) -> list[str]:
    """Placed bolts that break the published distances unsaid, or stand under timber or in a doorway.

    6 ft apart, within 12 in of each end and no nearer than 3-1/2 in, two for each piece (IRC R403.1.6); 1-1/2 in clear
    of studs (common practice, no source). What cannot be kept is said in a finding.
    """
    wall, found = layout.wall, []
    if wall.floor.kind != "slab" and not wall.floor.anchors:
        return [f"{len(layout.anchors)} bolts without a slab"] if layout.anchors else []
    if wall.floor.anchors:
        return [] if [a.x for a in layout.anchors] == sorted(wall.floor.anchors) else ["the bolts are not those given"]
    said = {f.code for f in layout.findings}
    feet = [m for m in layout.members if m.y == wall.stud_bottom and not m.role.endswith("plate")]
    for anchor in layout.anchors:
        if any(m.x - INCH * 3 // 2 < anchor.x < m.right + INCH * 3 // 2 for m in feet):
            found.append(f"{anchor.id} at {anchor.x} does not clear the studs")
    counted = 0
    for low, _, _, high, _, _ in (b for m in layout.members if m.role == "bottom-plate" and m.y == 0 for b in boxes(m)):
        at = [anchor.x for anchor in layout.anchors if low <= anchor.x <= high]
        counted += len(at)
        if len(at) < 2 and "anchors-too-few" not in said:
            found.append(f"{len(at)} bolts hold the piece from {low} to {high}")
        if at and max(at[0] - low, high - at[-1]) > 12 * INCH and "anchor-far-from-end" not in said:
            found.append(f"no bolt near an end of the piece from {low} to {high}")
        if at and min(at[0] - low, high - at[-1]) < 7 * INCH // 2:
            found.append(f"a bolt too near an end of the piece from {low} to {high}")
        apart = max((b - a for a, b in itertools.pairwise(at)), default=0)
        if apart > 72 * INCH and "anchors-too-far-apart" not in said:
            found.append(f"bolts {apart} apart in the piece from {low} to {high}")
    return found if counted == len(layout.anchors) else [*found, "a bolt stands in a doorway"]


def is_in_bay(layout: Layout, opening: Opening) -> bool:
    """Whether the opening has no header member: it lies within one bay."""
    return not any(m.role == "header" and m.opening == opening.name for m in layout.members)


def faults_of_openings(layout: Layout) -> list[str]:
    """Openings that are not clear, or whose load does not reach the bottom plate."""
    found = []
    for opening in layout.wall.openings:
        clear: Box = (opening.left, opening.sill, 0, opening.right, opening.head, layout.wall.depth)
        for member in layout.members:
            hit = [b for b in boxes(member) if overlapping([("", b), ("", clear)])]
            if hit:
                found.append(f"{member.id} stands in {opening.name}")
        found += _bay(layout, opening) if is_in_bay(layout, opening) else _load_path(layout, opening)
    return found


def _load_path(layout: Layout, opening: Opening) -> list[str]:
    """A header that bears wholly on jacks, jacks on the bottom plate, and kings against the header's ends."""
    wall, thick, found = layout.wall, layout.wall.thickness, []
    own = [m for m in layout.members if m.opening == opening.name]
    headers = [m for m in own if m.role == "header"]
    jacks = [m for m in own if m.role == "jack-stud"]
    # Jacks left to the table are judged by their number; that both sides have as many is judged below.
    reach = (opening.jacks or len(jacks) // 2) * thick
    for header in headers:
        if header.y != opening.head:
            found.append(f"{header.id} lies at {header.y}, not on the head {opening.head}")
        if header.x > opening.left - reach or header.right < opening.right + reach:
            found.append(f"{header.id} does not reach over the jacks of {opening.name}")
        for x in (header.x, header.right):
            if not _king_at(layout, x, header):
                found.append(f"{header.id} ends at {x} against no full-height stud")
    for side in ((opening.left - reach, opening.left), (opening.right, opening.right + reach)):
        under = merged((m.x, m.right) for m in jacks if m.x >= side[0] and m.right <= side[1])
        if under != [side]:
            found.append(f"jacks beside {opening.name} fill {under}, not {side}")
    for jack in jacks:
        if jack.y != wall.stud_bottom or jack.top != opening.head:
            found.append(f"{jack.id} runs from {jack.y} to {jack.top}")
        if any(c.left < jack.right and c.right > jack.x for m in layout.members for c in m.cut_outs):
            found.append(f"{jack.id} stands on plate that is cut out")
    return found + _sill(layout, opening, own) + _over(layout, opening, headers)


def _king_at(layout: Layout, x: int, header: Member) -> bool:
    wall = layout.wall
    return any(
        m.role in ("king-stud", "end-stud", "corner-stud") and x in (m.x, m.right) and m.y == wall.stud_bottom
        and m.top == wall.stud_top and m.z <= header.z and m.z + m.depth >= header.z + header.depth
        and not (m.x < header.right and m.right > header.x)
        for m in layout.members
    )  # fmt: skip


def _sill(layout: Layout, opening: Opening, own: list[Member]) -> list[str]:
    """A window's rough sill from jack to jack on supports that reach the plate."""
    sills = [m for m in own if m.role == "rough-sill"]
    if not opening.sill:
        return [f"{opening.name} is a door and has a sill"] if sills else []
    if len(sills) != 1:
        return [f"{opening.name} has {len(sills)} sills"]
    sill, bottom = sills[0], layout.wall.stud_bottom
    found = []
    if (sill.x, sill.right, sill.top) != (opening.left, opening.right, opening.sill):
        found.append(f"{sill.id} lies from {sill.x} to {sill.right} at {sill.top}")
    if sill.y > bottom:
        below = [m for m in own if m.top == sill.y and m.y == bottom and m.x < sill.right and m.right > sill.x]
        standing = merged((m.x, m.right) for m in below)
        ends_held = standing and standing[0][0] == sill.x and standing[-1][1] == sill.right
        if opening.width >= 3 * layout.wall.thickness and not ends_held:
            found.append(f"{sill.id} has no support tight to each jack")
        if not below:
            found.append(f"{sill.id} stands on nothing")
    return found


def _over(layout: Layout, opening: Opening, headers: list[Member]) -> list[str]:
    """What stands between the header and the plate: nothing, solid packing, flat pieces, or cripples."""
    wall, found = layout.wall, []
    header = max(headers, key=lambda m: m.top)
    gap = wall.stud_top - header.top
    own = [m for m in layout.members if m.opening == opening.name and m.y >= header.top]
    if gap < 0:
        return [f"{header.id} reaches into the top plates"]
    if 0 < gap <= 2 * wall.thickness:
        filled = sum(m.height for m in own if (m.x, m.right) == (header.x, header.right))
        if filled != gap:
            found.append(f"over {header.id} {filled} of {gap} is filled")
    if any(m.role == "cripple" and m.top != wall.stud_top for m in own):
        found.append(f"a cripple over {header.id} does not reach the plate")
    return found


def _bay(layout: Layout, opening: Opening) -> list[str]:
    """Flat blocks at head and sill that reach from upright to upright."""
    found = []
    wanted = [(opening.head, "head")] if opening.head < layout.wall.stud_top else []
    wanted += [(opening.sill, "sill")] if opening.sill else []
    for level, name in wanted:
        held = [
            m for m in layout.members
            if m.role in ("blocking", "header", "top-plate") and (m.y if name == "head" else m.top) == level
            and m.x <= opening.left and m.right >= opening.right and m.z == 0
        ]  # fmt: skip
        if not held:
            found.append(f"{opening.name} has no block at its {name}")
        for block in held:
            for x in (block.x, block.right):
                if not any(m.role in UPRIGHT_ROLES and x in (m.x, m.right) and m.y < block.top and m.top > block.y
                           for m in layout.members):  # fmt: skip
                    found.append(f"{block.id} ends at {x} against no upright")
    return found


def faults_of_bays(layout: Layout) -> list[str]:
    """Neighbouring supports of a sheet that stand further apart, centre to centre, than the spacing.

    Supports are the uprights that touch the framing's outer face (a two-stud post's flat inner stud does
    not). Between two of them the face may be solid (a header) or open (a door); else their centres count.
    """
    wall = layout.wall
    outer = [m for m in layout.members if m.z == 0 and not m.role.endswith("plate")]
    found = []
    for low, high in bands((y for m in outer for y in (m.y, m.top)), wall.stud_bottom, wall.stud_top):
        here = sorted((m for m in outer if m.y < high and m.top > low), key=lambda m: m.x)
        solid = merged((m.x, m.right) for m in here)
        open_spans = [(o.left, o.right) for o in wall.openings if o.sill <= low and o.head >= high]
        for left, right in zip(solid, solid[1:], strict=False):
            if any(a <= left[1] and b >= right[0] for a, b in open_spans):
                continue
            before = max((m for m in here if m.right == left[1]), key=lambda m: m.x)
            after = min((m for m in here if m.x == right[0]), key=lambda m: m.right)
            apart = _held2(after, wall.thickness, 1) - _held2(before, wall.thickness, -1)
            if apart > 2 * wall.spacing:
                found.append(f"{before.id} and {after.id} stand {apart / 2} apart between {low} and {high}")
    return found


def _held2(member: Member, thick: int, way: int) -> int:
    """Twice the x at which a sheet is held: an upright's middle, or of timber that lies solid half a stud from its end."""
    if member.width <= thick:
        return _centre2(member)
    return 2 * member.x + thick if way > 0 else 2 * member.right - thick


def _centre2(member: Member) -> int:
    return member.x + member.right


def faults_of_layout_line(layout: Layout) -> list[str]:
    """Field studs that stand neither on the tape's lines nor tight against a neighbour."""
    wall = layout.wall
    sign = 1 if wall.tape.start == "left" else -1
    found = []
    for stud in (m for m in layout.members if m.role == "field-stud"):
        from_zero = sign * (_centre2(stud) - 2 * wall.tape_zero)
        on_line = from_zero % (2 * wall.spacing) == 0
        neighbours = [m for m in layout.members if m is not stud and m.y < stud.top and m.top > stud.y]
        tight = any(stud.x == m.right or stud.right == m.x for m in neighbours if not m.role.endswith("plate"))
        if not on_line and not tight:
            found.append(f"{stud.id} stands at {stud.x}, off the layout and against nothing")
    return found


def faults_of_cut_list(layout: Layout) -> list[str]:
    """Rows that are not the members, plies and blocks included, no more and no less; boxes not of their stock."""
    found = []
    wanted: Counter[tuple[object, ...]] = Counter()
    for member in layout.members:
        wanted[member.stock, member.length, member.ripped_to, member.treated] += member.plies
        sides = sorted((member.width, member.height, member.depth))
        section = [(member.ripped_to or member.stock.thickness) * member.plies, member.stock.width]
        if sides != sorted([member.length, *section]):
            found.append(f"{member.id}'s box {sides} is not {member.length} of {section}")
    listed: Counter[tuple[object, ...]] = Counter()
    for row in layout.cut_list:
        listed[row.stock, row.length, row.ripped_to, row.treated] += row.count
    if wanted != listed:
        found.append(f"the cut list lacks {wanted - listed} and adds {listed - wanted}")
    named = Counter(name for row in layout.cut_list for name in row.members)
    if named != Counter(member.id for member in layout.members):
        found.append("the cut list does not name every member once")
    return found


def faults_of_marks(layout: Layout) -> list[str]:
    """Marks that do not lead to their member when the tape is read, or uprights on a plate with no mark."""
    wall = layout.wall
    by_id = {member.id: member for member in layout.members}
    found = []
    for mark in layout.marks:
        member = by_id[mark.member]
        edges = {"left": member.right, "right": member.x, "centre": None}[mark.side]
        if (edges is None and 2 * mark.at != _centre2(member)) or (edges is not None and mark.at != edges):
            found.append(f"the mark at {mark.at} does not stand on an edge of {member.id}")
        if (mark.sign == "C") != (mark.side == "centre"):
            found.append(f"the mark at {mark.at} is signed {mark.sign} on the {mark.side}")
        shown = mark.at - wall.tape_zero if wall.tape.start == "left" else wall.tape_zero - mark.at
        if mark.reading != shown:
            found.append(f"the mark at {mark.at} reads {mark.reading}, not {shown}")
        plate = by_id[mark.plate]
        face = wall.stud_bottom if plate.role == "bottom-plate" else wall.stud_top
        if not plate.x <= mark.at <= plate.right or face not in {plate.y, plate.top} & {member.y, member.top}:
            found.append(f"the mark at {mark.at} is not on {mark.plate}")
    standing = {m.id for m in layout.members if m.role in UPRIGHT_ROLES and m.y == wall.stud_bottom}
    marked = {mark.member for mark in layout.marks if mark.plate.startswith("bottom")}
    if not standing <= marked:
        found.append(f"no mark on the bottom plate for {sorted(standing - marked)}")
    return found


def faults_of_partitions(layout: Layout) -> list[str]:
    """Faces of partitions that stand over no solid timber from plate to plate at the framing's inner face.

    5/8 in outside the face for the edge of a lining, 1/2 in inside it for the partition's own stud, and no gap of
    1/2 in or more between the timbers that make it up (common practice, no source).
    """
    wall, found = layout.wall, []
    outside, inside = 5 * INCH // 8, INCH // 2
    whole = [
        (m.x, m.right) for m in layout.members
        if m.z + m.depth == wall.depth and (m.y, m.top) == (wall.stud_bottom, wall.stud_top)
    ]  # fmt: skip
    for one in wall.partitions:
        right = one.at + one.depth
        for low, high in ((one.at - outside, one.at + inside), (right - inside, right + outside)):
            inner = [(max(a, low), min(b, high)) for a, b in merged(whole) if a < high and b > low]
            edge, bare = low, []
            for a, b in [*inner, (high, high)]:
                bare.append((edge, a))
                edge = b
            if any(b > a and _gap_at(whole, a, b, wall) >= INCH // 2 for a, b in bare):
                found.append(f"the partition at {one.at} has no timber in {bare} of {low} to {high}")
        if any(o.left < right + outside and o.right > one.at - outside for o in wall.openings):
            found.append(f"the partition at {one.at} stands at an opening")
    return found


def faults_of_lined_corners(layout: Layout) -> list[str]:
    """Inside corners of a lined wall whose first 5/8 in beside the wall met has no timber, unsaid."""
    wall, found = layout.wall, []
    if not wall.lining or any(f.code == "lining-corner-bare" for f in layout.findings):
        return []
    whole = merged(
        (m.x, m.right) for m in layout.members
        if m.z + m.depth == wall.depth and (m.y, m.top) == (wall.stud_bottom, wall.stud_top)
    )  # fmt: skip
    for end, left in ((wall.left, True), (wall.right, False)):
        if end.meets is None or end.sheathing_lap > 0:
            continue
        low = end.meets.depth if left else wall.length - end.meets.depth - 5 * INCH // 8
        high = low + 5 * INCH // 8
        timber = sum(min(b, high) - max(a, low) for a, b in whole if a < high and b > low)
        if timber <= high - low - INCH // 2:
            found.append(f"the lining has {timber} of timber from {low} to {high}")
    return found


def _gap_at(whole: list[Span], low: int, high: int, wall: Wall) -> int:
    """How wide the gap between timbers is that holds a bare stretch."""
    left = max((b for _, b in whole if b <= low), default=0)
    return min((a for a, _ in whole if a >= high), default=wall.length) - left


def faults_of_frame(layout: Layout) -> list[str]:
    """Everything that is wrong with a framed wall."""
    judges = (
        faults_of_boxes, faults_of_plates, faults_of_joints, faults_of_anchors, faults_of_openings, faults_of_bays, faults_of_layout_line,
        faults_of_cut_list, faults_of_marks, faults_of_partitions, faults_of_lined_corners,
    )  # fmt: skip
    return [fault for judge in judges for fault in judge(layout)]


def open_spans(wall: Wall, low: int, high: int) -> list[Span]:
    """Where the wall is open over a whole band of heights, in x."""
    return [(o.left, o.right) for o in wall.openings if o.sill <= low and o.head >= high]
