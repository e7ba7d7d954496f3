"""A skinned wall, whatever the plan: properties that hold of every random level wall."""

import msgspec
from hypothesis import given
from tests.property.framing import faults_of_frame
from tests.property.mirror import mirrored
from tests.property.skinning import faults_of_skin, reused, strip_below_doors
from tests.strategies.walls import sawn_anyhow, walls

from wallwright.domain.framed import framed, sheathing, skinned
from wallwright.domain.skin import Skin
from wallwright.domain.wall import Wall


@given(sawn_anyhow(walls()))
def test_pieces_cover_the_face_once_and_every_edge_finds_timber(wall: Wall) -> None:
    done = framed(wall)
    skin = skinned(done)
    assert faults_of_skin(skin, done.layout) == []
    assert strip_below_doors(skin) == []
    # Studs set for seams beside openings stand clear of all others.
    assert faults_of_frame(done.layout) == []


@given(sawn_anyhow(walls()))
def test_a_mirrored_wall_has_the_mirrored_skin(wall: Wall) -> None:
    ours, theirs = sheathing(wall), sheathing(mirrored(wall))
    assert _outlines(ours, None) == _outlines(theirs, wall.length)
    assert _seams(ours, None) == _seams(theirs, wall.length)
    assert len(ours.sheets) == len(theirs.sheets)
    assert ours.least_sheets == theirs.least_sheets
    if reused(ours):
        assert _on_sheets(ours, None) == _on_sheets(theirs, wall.length)


@given(sawn_anyhow(walls()))
def test_the_completed_wall_is_skinned_the_same(wall: Wall) -> None:
    first = sheathing(wall)
    assert msgspec.json.encode(sheathing(first.wall)) == msgspec.json.encode(first)


def _outlines(skin: Skin, turned: int | None) -> list[tuple[object, ...]]:
    """Every piece's corners, holes and stage, ids apart, as seen in a mirror at the middle of the plate."""
    return sorted(
        (
            sorted((x if turned is None else turned - x, y) for x, y in piece.outline),
            sorted(sorted((x if turned is None else turned - x, y) for x, y in hole) for hole in piece.cut_outs),
            piece.stage,
        )
        for piece in skin.pieces
    )  # fmt: skip


def _on_sheets(skin: Skin, turned: int | None) -> list[list[tuple[object, ...]]]:
    """Sheet by sheet, each piece where it hangs and where it lies on its sheet, numbers apart."""
    wide = skin.wall.sheathing.sheet
    across = wide.width if skin.wall.sheathing.direction == "upright" else wide.length
    across -= skin.wall.sheathing.gap if wide.sized_for_spacing else 0
    found = []
    for use in skin.sheets:
        own = [piece for piece in skin.pieces if piece.sheet == use.id]
        seen = []
        for piece in own:
            hangs = sorted((x if turned is None else turned - x, y) for x, y in piece.outline)
            lies = sorted((x if turned is None else across - x, y) for x, y in piece.on_sheet)
            seen.append((hangs, lies, piece.turned))
        found.append(sorted(seen))
    return sorted(found)


def _seams(skin: Skin, turned: int | None) -> list[tuple[object, ...]]:
    seen = []
    for seam in skin.seams:
        across, along = (seam.before, seam.after), (seam.start, seam.end)
        bearing = (seam.bearing_before, seam.bearing_after)
        if turned is not None and seam.direction == "upright":
            across, bearing = (turned - seam.after, turned - seam.before), bearing[::-1]
        elif turned is not None:
            along = (turned - seam.end, turned - seam.start)
        seen.append((seam.direction, across, along, bearing))
    return sorted(seen)
