"""A wall whose load is known, whatever it is: it is framed and compared, or refused with what would serve."""

import msgspec
from hypothesis import assume, given
from hypothesis import strategies as st
from msgspec.structs import replace
from tests.property.framing import faults_of_frame
from tests.property.mirror import mirrored
from tests.property.test_framing import _marks, _places
from tests.strategies.loads import loaded_walls
from tests.strategies.walls import walls

from wallwright.domain.framed import layout
from wallwright.domain.members import Layout
from wallwright.domain.wall import Opening, Site, Wall
from wallwright.findings import Fault, PlanRefused
from wallwright.lengths import FOOT, INCH
from wallwright.published.tables import TABLES

MAY_REFUSE = {
    "header-does-not-fit", "opening-too-near-end", "openings-too-near", "opening-has-no-place", "no-room-for-opening",
    "sill-too-high", "header-deeper-than-wall",
}  # fmt: skip
"""A header as deep, or as many jacks, as the table asks for may have no room; all else must be framed."""


def framed(wall: Wall) -> tuple[Layout | None, tuple[Fault, ...]]:
    try:
        return layout(wall), ()
    except PlanRefused as refused:
        return None, refused.faults


@given(loaded_walls())
def test_a_loaded_wall_is_framed_soundly_or_refused_for_want_of_room(wall: Wall) -> None:
    laid, faults = framed(wall)
    assert {fault.code for fault in faults} <= MAY_REFUSE
    if laid is not None:
        assert faults_of_frame(laid) == []


@given(loaded_walls())
def test_the_height_that_a_refusal_names_makes_room_for_the_header(wall: Wall) -> None:
    _, faults = framed(wall)
    lacking = [fault for fault in faults if fault.code == "header-does-not-fit"]
    assume(lacking)
    for fault in lacking:
        opening = wall.openings[int(fault.pointer.split("/")[2])]
        _, still = framed(replace(wall, openings=(opening,), height=dict(fault.values)["wall_height"].value))
        assert "header-does-not-fit" not in {other.code for other in still}


@given(loaded_walls())
def test_a_loaded_wall_in_a_mirror_is_the_mirrored_wall(wall: Wall) -> None:
    ours, faults = framed(wall)
    theirs, others = framed(mirrored(wall))
    assert sorted(f.code for f in faults) == sorted(f.code for f in others)
    if ours is not None and theirs is not None:
        assert _places(ours, None) == _places(theirs, wall.length)
        assert _marks(ours, None) == _marks(theirs, wall.length)
        assert sorted(f.code for f in ours.findings) == sorted(f.code for f in theirs.findings)


@given(loaded_walls())
def test_the_completed_loaded_wall_gives_the_same_answer(wall: Wall) -> None:
    first, _ = framed(wall)
    assume(first is not None)
    assert first is not None
    assert msgspec.json.encode(layout(first.wall)) == msgspec.json.encode(first)


@given(walls(), st.sampled_from((None, Site(50.0, 130.0, "B", None))))
def test_without_a_load_or_a_place_nothing_is_compared(wall: Wall, site: Site | None) -> None:
    plain = layout(wall)
    assert layout(replace(wall, site=site)).members == plain.members
    for finding in layout(replace(wall, site=site)).findings:
        if finding.about.startswith(("/plates", "/floor", "/runs", "/partitions", "/lining")):
            # Joints and ties of plates, bolts in a slab, holes in studs and the inner face ask for no load.
            continue
        if finding.code.startswith("lining-studs"):
            continue
        assert finding.compared is None
        assert finding.source is None


# PS 20 prints these millimetres beside the dressed inches.
DRESSED_MM = {"38x89": "2x4", "38x140": "2x6", "38x184": "2x8"}


@given(loaded_walls())
def test_a_header_said_to_be_within_the_table_is_within_its_printed_cells(wall: Wall) -> None:
    # IRC Table R602.7(1): a span between two widths is never more than the narrower building's cell allows.
    laid, _ = framed(wall)
    assume(laid is not None)
    assert laid is not None
    for finding in laid.findings:
        if finding.code != "header-compared":
            continue
        opening = wall.openings[int(finding.about.rsplit("/", 1)[1])]
        header = next(m for m in laid.members if m.id == finding.members[0])
        plies = sum(m.plies for m in laid.members if m.id in finding.members)
        size = DRESSED_MM.get(header.stock.name, header.stock.name)
        assert opening.width <= _most(wall, plies, size) * INCH
        assert _jacks(laid, opening) >= 1


def _most(wall: Wall, plies: int, size: str) -> int:
    """The span printed for the next narrower building (or the first column), at the snow column that holds."""
    carries, site = wall.carries, wall.site
    assert carries is not None
    assert site is not None
    assert carries.building_width is not None
    assert site.ground_snow_psf is not None
    old = wall.rules == "irc-2015"
    name = f"header_spans_{carries.load.replace('-', '_')}{'_2015' if old else ''}"
    (row,) = [row for row in TABLES[name].rows if (row["plies"], row["size"]) == (plies, size)]
    snow = next(i for i, psf in enumerate((30, 50, 70)) if site.ground_snow_psf <= psf)
    widths = (20, 28, 36) if old else (12, 24, 36)
    column = max((i for i, feet in enumerate(widths) if feet * FOOT <= carries.building_width), default=0)
    return int(row["span_in"][snow][column])


def _jacks(laid: Layout, opening: Opening) -> int:
    return sum(1 for m in laid.members if m.role == "jack-stud" and m.opening == opening.name) // 2
