"""Random level walls whose load and place are known, as domain values; inside the tables and beyond them."""

from hypothesis import strategies as st
from msgspec.structs import replace
from tests.strategies.walls import INCH_STUDS, walls

from wallwright.domain.wall import Carries, Opening, Site, Tape, Wall
from wallwright.lengths import FOOT, INCH

RULES = ("irc-2015", "irc-2018", "irc-2021", "irc-2024")
LOADS = ("roof", "roof", "roof", "none", "roof-and-center-bearing-floor", "roof-and-clear-span-floor")


@st.composite
def carried(draw: st.DrawFn) -> Carries:
    """A load, more often than not with the building's width."""
    width = draw(st.none() | st.integers(5 * 12, 40 * 12).map(lambda inches: inches * INCH))
    return Carries(draw(st.sampled_from(LOADS)), width or draw(st.sampled_from((None, 12 * FOOT, 24 * FOOT))))


@st.composite
def sites(draw: st.DrawFn) -> Site:
    """A place: snow and wind within the tables' columns, on their edges, and past them; some of it not given."""
    snow = draw(st.sampled_from((None, 0.0, 25.0, 30.0, 30.5, 50.0, 70.0, 90.0)))
    wind = draw(st.sampled_from((None, 90.0, 115.0, 116.0, 129.0, 139.0, 140.0, 180.0)))
    return Site(snow, wind, draw(st.sampled_from((None, "B", "B", "C", "D"))), draw(st.sampled_from((None, "A", "D1"))))


@st.composite
def any_loaded(draw: st.DrawFn) -> Wall:
    """Any wall with its load and place known; jacks are left to the table as often as they are given."""
    wall = draw(walls())
    openings = tuple(replace(one, jacks=draw(st.sampled_from((0, one.jacks)))) for one in wall.openings)
    return replace(
        wall, openings=openings, carries=draw(carried()), site=draw(sites()), rules=draw(st.sampled_from(RULES))
    )


@st.composite
def wide_openings(draw: st.DrawFn) -> Wall:
    """A wall under a roof within the tables, with one or two wide openings whose sizes are left to the service."""
    widths = draw(st.lists(st.integers(20, 110), min_size=1, max_size=2))
    apart = draw(st.integers(5, 40))
    left = draw(st.integers(12, 40))
    room = draw(st.integers(14, 72)) * INCH // 4
    stud = draw(st.sampled_from(INCH_STUDS[:1] + INCH_STUDS[3:]))
    height = draw(st.sampled_from((90, 97, 109, 121))) * INCH
    head = height - 3 * stud.thickness - room
    placed = []
    at = left
    for number, width in enumerate(widths):
        placed.append(Opening(f"bay {number + 1}", at * INCH, width * INCH, head, jacks=0))
        at += width + apart
    wind, exposure = draw(st.sampled_from(((90.0, "B"), (115.0, "B"), (130.0, "B"), (120.0, "C"))))
    return Wall(
        length=(at + draw(st.integers(12, 60))) * INCH,
        height=height,
        stud=stud,
        openings=tuple(placed),
        tape=Tape(draw(st.sampled_from(("left", "right")))),
        carries=Carries("roof", draw(st.integers(8, 36)) * FOOT),
        site=Site(draw(st.sampled_from((0.0, 30.0, 40.0, 70.0))), wind, exposure),
        rules=draw(st.sampled_from(RULES)),
    )


def loaded_walls() -> st.SearchStrategy[Wall]:
    """A wall whose load and place are known: any, or one whose openings the tables have to size."""
    return any_loaded() | wide_openings()
