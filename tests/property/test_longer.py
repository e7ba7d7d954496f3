"""What a longer wall needs: never fewer sheets, begun at the same end and without openings that change."""

from hypothesis import given
from hypothesis import strategies as st
from tests.strategies.walls import SIXTEENTH, walls, with_fields

from wallwright.domain.framed import sheathing
from wallwright.domain.wall import Plates, Wall


@given(walls(), st.integers(1, 16 * 60).map(lambda count: count * SIXTEENTH))
def test_a_longer_wall_never_needs_fewer_sheets(wall: Wall, more: int) -> None:
    plain = with_fields(wall, openings=(), plates=Plates(wall.plates.bottom, wall.plates.top))
    assert len(sheathing(plain).sheets) <= len(sheathing(with_fields(plain, length=plain.length + more)).sheets)
