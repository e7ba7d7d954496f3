"""A fastened wall, whatever the plan: fasteners lie inside what they join, mirrored walls are fastened alike, and n
walls take n times as much.
"""

import msgspec
from hypothesis import given
from hypothesis import strategies as st
from msgspec.structs import replace
from tests.property.fastening import faults_of_fasteners, places
from tests.property.mirror import mirrored
from tests.strategies.fastenings import fastenings
from tests.strategies.slopes import sloped_walls
from tests.strategies.walls import walls

from wallwright.api.reader import Reader
from wallwright.domain.fasteners import added, fasten
from wallwright.domain.framed import fastened, framed, skinned
from wallwright.domain.joining import Fastening
from wallwright.domain.wall import Wall
from wallwright.operations.completed import to_wire
from wallwright.operations.walls import to_domain
from wallwright.wire.base import encode_length
from wallwright.wire.wall import Wall as WireWall


def _judged(wall: Wall) -> list[str]:
    done = framed(wall)
    skin = skinned(done)
    return faults_of_fasteners(fasten(done.layout, skin), done.layout, skin)


@given(walls(), fastenings())
def test_every_fastener_lies_inside_the_pieces_that_it_joins(wall: Wall, fastening: Fastening) -> None:
    assert _judged(replace(wall, fastening=fastening)) == []


@given(sloped_walls(), fastenings())
def test_and_so_it_does_under_a_slope(wall: Wall, fastening: Fastening) -> None:
    assert _judged(replace(wall, fastening=fastening)) == []


@given(walls() | sloped_walls(), fastenings())
def test_a_mirrored_wall_is_fastened_alike(wall: Wall, fastening: Fastening) -> None:
    asked = replace(wall, fastening=fastening)
    ours, theirs = fastened(asked), fastened(mirrored(asked))
    assert {(j.joint, j.fastener): j.total for j in ours.joints} == {
        (j.joint, j.fastener): j.total for j in theirs.joints
    }
    if wall.top.shape != "gable":
        assert places(ours, None) == places(theirs, wall.length)


@given(walls() | sloped_walls(), fastenings(), st.integers(2, 7))
def test_n_walls_take_n_times_the_fasteners_and_at_most_n_times_the_boxes(
    wall: Wall, fastening: Fastening, n: int
) -> None:
    found = fastened(replace(wall, fastening=fastening))
    together = added([found.totals] * n, [fastening] * n)
    for one, many in zip(found.totals, together, strict=True):
        assert (many.fastener, many.coating, many.count) == (one.fastener, one.coating, n * one.count)
        assert many.to_buy <= n * one.to_buy
        assert abs(many.weight_lb - n * one.weight_lb) < 0.001 * n
        assert many.boxes is None or (
            one.boxes is not None and many.boxes <= n * one.boxes * max(1, (one.pack or 1) / (many.pack or 1))
        )


@given(walls() | sloped_walls(), fastenings())
def test_the_completed_wall_in_either_unit_is_fastened_the_same(wall: Wall, fastening: Fastening) -> None:
    asked = replace(wall, fastening=fastening)
    first = fastened(asked)
    for units in ("in", "mm"):
        body = msgspec.json.encode(to_wire(first.wall, units), enc_hook=encode_length)
        again = fastened(to_domain(Reader(WireWall).read(body)))
        assert again.wall.fastening == first.wall.fastening
        assert (again.joints, again.points) == (first.joints, first.points)
    assert msgspec.json.encode(fastened(first.wall)) == msgspec.json.encode(first)
