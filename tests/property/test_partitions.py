"""Partitions that end against a wall, whatever the plan: what they add, and where they are refused.

That each face of a partition stands over solid timber is judged with every wall, see tests/property/framing.py.
"""

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from msgspec.structs import replace
from tests.property import framing, sloping
from tests.property.refusals import careless_walls, faults_of, mended
from tests.strategies.slopes import sloped_walls
from tests.strategies.walls import SCALES, walls

from wallwright.domain.framed import framed, skinned
from wallwright.domain.members import Layout
from wallwright.domain.wall import Partition, Wall
from wallwright.findings import Offer

ANY = settings(deadline=None, suppress_health_check=list(HealthCheck))


@given(walls() | sloped_walls())
def test_a_partition_adds_backing_and_moves_nothing(wall: Wall) -> None:
    bare, done = framed(replace(wall, partitions=(), lining=False)), framed(wall)
    assert _standing(done.layout) == _standing(bare.layout)
    ours, theirs = skinned(done), skinned(bare)
    assert [piece.outline for piece in ours.pieces] == [piece.outline for piece in theirs.pieces]


def _standing(layout: Layout) -> list[tuple[object, ...]]:
    """Every member but backing, and blocks between uprights, which backing parts; plates may be jointed elsewhere."""
    return [
        (m.role, m.x, m.y, m.z, m.width, m.height, m.depth) for m in layout.members
        if m.role not in ("backing", "blocking") and not m.role.endswith("plate")
    ]  # fmt: skip


@st.composite
def crowded_walls(draw: st.DrawFn) -> Wall:
    """A wall whose partitions were placed without a thought for ends, openings or one another."""
    wall = draw(walls() | sloped_walls() | careless_walls())
    scale = draw(st.sampled_from(SCALES))
    inside = []
    for _ in range(draw(st.integers(1, 4))):
        at = draw(scale.between(-scale.size(6), wall.length + scale.size(6)))
        inside.append(Partition(at, draw(st.sampled_from(scale.studs)).width))
    return replace(wall, partitions=tuple(inside))


@ANY
@given(crowded_walls())
def test_what_a_refusal_offers_works_all_at_once(wall: Wall) -> None:
    faults = faults_of(wall)
    assert len({fault.pointer for fault in faults}) == len(faults)
    again = mended(wall, faults)
    left = faults_of(again)
    assert not left, (faults, left)
    layout = framed(again).layout
    assert (framing if wall.top.shape == "level" else sloping).faults_of_frame(layout) == []


@ANY
@given(walls(), st.data())
def test_no_nearer_place_works(wall: Wall, data: st.DataObject) -> None:
    scale = SCALES[0]
    at, depth = data.draw(scale.between(0, wall.length)), wall.stud.width
    faults = faults_of(replace(wall, partitions=(*wall.partitions, Partition(at, depth))))
    ours = [f for f in faults if f.pointer == f"/partitions/{len(wall.partitions)}/at"]
    if len(faults) != 1 or not ours:
        return
    nearest = dict(ours[0].values).get("nearest")
    reach = abs(nearest.value - at) if isinstance(nearest, Offer) else wall.length
    if reach:
        nearer = data.draw(st.integers(at - reach + 1, at + reach - 1))
        assert faults_of(replace(wall, partitions=(*wall.partitions, Partition(nearer, depth))))
