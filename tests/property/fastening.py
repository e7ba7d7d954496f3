"""The judge of a fastened wall: where heads and points may be, whatever the plan.

It reckons each place anew from members and sheets, with shapely for outlines. Every function returns what is wrong, in
words, and an empty list where all is right.
"""

from collections import Counter

from shapely import Point as Dot
from shapely import Polygon

from wallwright.domain.fasteners import Fasteners, Point
from wallwright.domain.members import Layout, Member
from wallwright.domain.skin import Piece, Skin
from wallwright.lengths import INCH

QUARTER, THREE_EIGHTHS, ROUNDING = INCH // 4, INCH * 3 // 8, 400
STANDING = {"end-stud", "corner-stud", "field-stud", "seam-stud", "king-stud", "jack-stud", "cripple"}


def faults_of_fasteners(found: Fasteners, layout: Layout, skin: Skin) -> list[str]:
    """Points outside what they join, totals that are no sum of them, studs that hang loose, and findings said twice."""
    judge = _Judge(found, layout, skin)
    faults = [fault for point in found.points for fault in judge.of(point)]
    faults += [*_sums(found), *_said_once(found), *judge.loose(), *judge.twice()]
    return [*faults, *judge.bare_seams(), *judge.wide_rows()]


class _Judge:
    def __init__(self, found: Fasteners, layout: Layout, skin: Skin) -> None:
        self.found, self.layout, self.skin, self.wall = found, layout, skin, layout.wall
        self.members = {member.id: member for member in layout.members}
        self.panels = {piece.id: piece for piece in skin.pieces}
        self.shapes = {piece.id: Polygon(piece.outline, piece.cut_outs) for piece in skin.pieces}
        self.outlines = {m.id: Polygon(m.outline) for m in layout.members if m.outline}
        self.lengths = {(j.joint, j.fastener): j.length for j in found.joints}
        self.cuts = [(m, cut) for m in layout.members for cut in m.cut_outs if m.role == "bottom-plate"]

    def of(self, point: Point) -> list[str]:
        """What is wrong with one fastener."""
        if point.joint == "anchor" or (point.joint == "tie-plate" and point.fastener.startswith("tie plate")):
            return []
        if point.joint == "tie-plate":
            return self._tied(point)
        if abs(sum(part * part for part in point.direction) - 1) > 1e-6:
            return [f"{point} goes no way"]
        faults = []
        if point.joint == "cripple-to-header":
            return self._toe(point)
        for piece in point.pieces:
            if piece in self.panels:
                faults += self._in_panel(point, piece)
            elif piece in self.members:
                faults += self._in_member(point, self.members[piece])
            else:
                faults += self._in_other(point, piece)
        return [*faults, *self._depth(point), *self._on_surface(point), *self._saw(point)]

    def _in_panel(self, point: Point, piece: str) -> list[str]:
        shape, dot = self.shapes[piece], Dot(point.x, point.y)
        if not shape.covers(dot) or shape.boundary.distance(dot) < THREE_EIGHTHS - ROUNDING:
            return [f"{point} is too near an edge of {piece}"]
        return []

    def _in_member(self, point: Point, member: Member) -> list[str]:
        dx, dy, _ = point.direction
        z = point.z - member.z, member.z + member.depth - point.z
        if dx:
            sides = [point.y - member.y, self._low_top(member) - point.y, *z]
        elif dy:
            sides = [point.x - member.x, member.right - point.x, *z]
        elif member.id in self.outlines:
            dot = Dot(point.x, point.y)
            near = self.outlines[member.id].boundary.distance(dot)
            sides = [near if self.outlines[member.id].covers(dot) else -near]
        else:
            sides = [point.x - member.x, member.right - point.x, point.y - member.y, member.top - point.y]
        if min(sides) < QUARTER - ROUNDING:
            return [f"{point} is {min(sides) / INCH:.3f} in from the edge of {member.id}"]
        return []

    def _low_top(self, member: Member) -> int:
        if not member.outline:
            return member.top
        left = max(y for x, y in member.outline if x == member.x)
        right = max(y for x, y in member.outline if x == member.right)
        return min(left, right)

    def _in_other(self, point: Point, piece: str) -> list[str]:
        """What lies outside the wall: the floor below it, or the post and plates of a wall that it meets."""
        wall, floor = self.wall, self.wall.floor
        if piece == "rim" and point.joint == "sheet-to-rim":
            below = -floor.panel - point.y
            return [] if QUARTER <= below <= floor.rim - QUARTER or floor.rim < INCH else [f"{point} misses the rim"]
        if piece in ("rim", "floor"):
            return [] if QUARTER <= point.z <= INCH * 3 // 2 - QUARTER + ROUNDING else [f"{point} misses the {piece}"]
        end = wall.left if piece.endswith("left") else wall.right
        if end.meets is None:
            return [f"{point} joins a wall that is not met"]
        past = -point.x if piece.endswith("left") else point.x - wall.length
        if point.direction[0]:
            return [] if QUARTER <= point.z <= wall.thickness - QUARTER else [f"{point} misses the post"]
        near, far = end.meets.slip_gap, end.meets.slip_gap + end.meets.depth
        return [] if near + QUARTER <= past <= far - QUARTER + ROUNDING else [f"{point} misses {piece}"]

    def _toe(self, point: Point) -> list[str]:
        """A toe-nail crosses from the stud's end into the header well inside both."""
        stud, header = (self.members[piece] for piece in point.pieces)
        dx, dy, _ = point.direction
        x = point.x + (header.top - point.y) / dy * dx
        length = self.lengths[point.joint, point.fastener]
        tip = (point.x + length * dx, point.y + length * dy)
        inside = stud.x + QUARTER <= x <= stud.right - QUARTER and header.x <= tip[0] <= header.right
        deep = header.y < tip[1] < header.top and QUARTER <= point.z <= header.depth - QUARTER
        return [] if inside and deep else [f"{point} misses its header"]

    def _tied(self, point: Point) -> list[str]:
        """A nail of a tie plate lies in the plate under it; past the wall's end it lies in the plate that is met."""
        member = self.members.get(point.pieces[1])
        if member is None:
            return [] if point.x < 0 or point.x > self.wall.length else [f"{point} misses the plate that is met"]
        sides = (point.x - member.x, member.right - point.x, point.z - member.z, member.z + member.depth - point.z)
        return [] if min(sides) >= QUARTER else [f"{point} is near the edge of {member.id}"]

    def _depth(self, point: Point) -> list[str]:
        """Points of sheets, corner posts and screws never come out."""
        length = self.lengths[point.joint, point.fastener]
        kinds = {j.fastener: j for j in self.found.joints}
        screw = kinds[point.fastener].fastener.startswith("#")
        sheet = point.joint.startswith("sheet-")
        if sheet and length >= self.wall.sheathing.sheet.thickness + self.wall.depth:
            return [f"{point} comes out of the wall"]
        if not screw or any(piece not in self.members and piece not in self.panels for piece in point.pieces):
            return []
        along = [abs(part) for part in point.direction]
        total = 0
        for piece in point.pieces:
            if piece in self.panels:
                total += self.wall.sheathing.sheet.thickness
                continue
            m = self.members[piece]
            total += (m.width, m.height, m.depth)[along.index(max(along))]
        return [f"{point} comes out"] if length >= total else []

    def _on_surface(self, point: Point) -> list[str]:
        """The head lies on the first piece that the fastener meets."""
        first = point.pieces[0]
        if first in self.panels:
            return [] if point.z == -self.wall.sheathing.sheet.thickness else [f"{point} hangs before the sheet"]
        m = self.members[first]
        dx, dy, _ = point.direction
        if dx:
            at = m.x if dx > 0 else m.right
            return [] if point.x == at else [f"{point} is not on {first}"]
        if dy > 0:
            return [] if point.y == m.y else [f"{point} is not under {first}"]
        if dy < 0 and m.id in self.outlines:
            near = self.outlines[m.id].boundary.distance(Dot(point.x, point.y))
            return [] if near <= ROUNDING else [f"{point} is not on {first}"]
        if dy < 0:
            return [] if point.y == m.top else [f"{point} is not on {first}"]
        return [] if m.z <= point.z < m.z + m.depth else [f"{point} is not before {first}"]

    def _saw(self, point: Point) -> list[str]:
        """No fastener of the bottom plate near where it is cut out, save in the one stud beside an opening in its bay."""
        for plate, cut in self.cuts:
            if plate.id not in point.pieces:
                continue
            if cut.left < point.x < cut.right:
                return [f"{point} goes away with the door's plate"]
            stud = self.members.get(point.pieces[-1])
            loose = stud is not None and stud.role in (*STANDING, "backing") and stud.role != "jack-stud"
            if not loose and min(abs(point.x - cut.left), abs(point.x - cut.right)) < 2 * INCH:
                return [f"{point} is near the saw"]
        return []

    def loose(self) -> list[str]:
        """Uprights on the bottom plate that are fixed to it by nothing, jacks at a door's cut apart."""
        fixed = {p.pieces[-1] for p in self.found.points if p.joint == "stud-to-bottom-plate"}
        return [
            f"{m.id} is not fixed to the bottom plate"
            for m in self.layout.members
            if m.role in STANDING and m.y == self.wall.stud_bottom and m.id not in fixed and not self._at_saw(m)
        ]

    def _at_saw(self, stud: Member) -> bool:
        """Whether a jack stands so near to where the plate is sawn that nothing in it would be clear."""
        within = [x for _, cut in self.cuts for x in (cut.left - stud.right, stud.x - cut.right) if x >= 0]
        return stud.role == "jack-stud" and any(x + stud.width - QUARTER < 2 * INCH for x in within)

    def twice(self) -> list[str]:
        """Two fasteners in one hole."""
        seen: dict[tuple[object, ...], Point] = {}
        faults = []
        for point in self.found.points:
            first = seen.setdefault((point.x, point.y, point.z, point.direction), point)
            if first is not point:
                faults.append(f"{point} is in the hole of {first}")
        return faults

    def bare_seams(self) -> list[str]:
        """Upright seams over timber with fewer edge nails on a side than one each 6 in, or as asked, and a bit for its ends."""
        faults = []
        asked = [own.spacing for own in self.wall.fastening.joints if own.joint == "sheet-edge" and own.spacing]
        apart = max(asked, default=6 * INCH)
        edges = [p for p in self.found.points if p.joint == "sheet-edge"]
        for seam in self.skin.seams:
            long = seam.end - seam.start
            if seam.direction != "upright" or long < 24 * INCH or seam.start < 0:
                continue
            if min(seam.bearing_before, seam.bearing_after) < INCH * 5 // 8:
                continue
            wanted = long // (apart + INCH) - 1
            for low, high in ((seam.before - 3 * INCH, seam.before), (seam.after, seam.after + 3 * INCH)):
                count = sum(1 for p in edges if low <= p.x <= high and seam.start <= p.y <= seam.end)
                if count < wanted:
                    faults.append(f"{seam.id} has {count} fasteners in {long / INCH:.1f} in, at {low / INCH:.1f}")
        return faults

    def wide_rows(self) -> list[str]:
        """Rows of whole plates that are wider apart than their schedule says: cap on plate, and sheets in the lowest plate."""
        faults = []
        spacing = {j.joint: j.spacing for j in self.found.joints if j.spacing is not None}
        level = self.wall.top.shape == "level" and self.wall.plates.stock_length is None
        if level and "plate-to-plate" in spacing and self.wall.plates.bottom == 1:
            xs = sorted({p.x for p in self.found.points if p.joint == "plate-to-plate"})
            # Two at one place stand half an inch to either side of it.
            faults += self._gaps("plate-to-plate", xs, spacing["plate-to-plate"] + INCH)
        for piece in self.skin.pieces:
            rows = [
                p
                for p in self.found.points
                if p.joint == "sheet-edge" and p.pieces[0] == piece.id and p.y == INCH * 3 // 4
            ]
            plates = {p.pieces[1] for p in rows}
            if len(plates) == 1 and not self.cuts:
                faults += self._gaps(piece.id, sorted(p.x for p in rows), spacing["sheet-edge"])
        return faults

    def _gaps(self, name: str, places: list[int], most: int) -> list[str]:
        wide = max((b - a for a, b in zip(places, places[1:], strict=False)), default=0)
        return [f"{name} has {wide / INCH:.2f} in between fasteners"] if wide > most + 2 else []


def _sums(found: Fasteners) -> list[str]:
    """Totals and joints that are no sum of the points."""
    by_joint = Counter(point.joint for point in found.points)
    told: Counter[str] = Counter()
    for joint in found.joints:
        told[joint.joint] += joint.total
        if joint.total != joint.per_joint * joint.joints:
            return [f"{joint} does not multiply"]
    cast = sum(joint.total for joint in found.joints if joint.fastener.endswith("cast"))
    bought = sum(total.count for total in found.totals)
    faults = [] if by_joint == told else [f"points {by_joint - told} and joints {told - by_joint} differ"]
    return faults if bought + cast == len(found.points) else [*faults, f"{bought} bought, {len(found.points)} placed"]


def _said_once(found: Fasteners) -> list[str]:
    seen = Counter((f.code, dict(f.values).get("joint")) for f in found.findings)
    return [f"{key} is said {count} times" for key, count in seen.items() if count > 1]


def places(found: Fasteners, turned: int | None) -> Counter[tuple[object, ...]]:
    """Every fastener by place and way, ids apart, as seen in a mirror at the middle of the plate."""
    seen: Counter[tuple[object, ...]] = Counter()
    for p in found.points:
        x, dx = (p.x, p.direction[0]) if turned is None else (turned - p.x, -p.direction[0])
        seen[p.joint, p.fastener, x, p.y, p.z, dx + 0.0, *p.direction[1:]] += 1
    return seen


__all__ = ["Piece", "faults_of_fasteners", "places"]
