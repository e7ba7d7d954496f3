"""A wall too long for one paper: the same scale on every paper, nothing lost at the match lines, what crosses them on both.

The scales: 1/4 in to a foot is what walls are drawn at in elevation (Builder 1 & C, NAVEDTRA 14044, from memory of its
chapter on drawings), 1:50 its neighbour in ISO 5455:1979. Match lines: common practice, no source.
"""

import re
from collections import Counter
from functools import lru_cache

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from msgspec.structs import replace
from tests.drawing.collide import faults_of_texts
from tests.strategies.walls import walls

from wallwright.domain.fasteners import fasten
from wallwright.domain.framed import framed, skinned
from wallwright.domain.wall import Opening, Wall
from wallwright.drawing.elevation import framing_pages, framing_scene
from wallwright.drawing.fasteners import nailing_pages
from wallwright.drawing.scene import Area, Lines, Scene, Text
from wallwright.drawing.sheathing import sheathing_pages
from wallwright.drawing.sheets import PAST
from wallwright.findings import PlanRefused
from wallwright.lengths import FOOT, INCH, MILLIMETRE, tape_text

SETTINGS = settings(max_examples=8, deadline=None, derandomize=True, suppress_health_check=list(HealthCheck))
MATCH = re.compile(r"match line (\d+), (.+) from the plate's left end; sheet (\d+)")


@st.composite
def long_walls(draw: st.DrawFn) -> Wall:
    """Level walls of 40 to 100 ft whose openings and partitions lie where they lay."""
    wall = draw(walls())
    most = 100 * FOOT
    return replace(wall, length=draw(st.integers(max(wall.length, 40 * FOOT), most)) // INCH * INCH)


@lru_cache(64)
def pages_of(wall: Wall, units: str) -> dict[str, list[Scene]]:
    try:
        done = framed(wall)
        layout, skin = done.layout, skinned(done)
        nailed = fasten(layout, skin)
    except PlanRefused:
        return {}
    return {
        "member": framing_pages(layout, units, "0" * 8),
        "piece": sheathing_pages(skin, units, "0" * 8, layout),
        "": nailing_pages(nailed, skin, layout, units, "0" * 8),
    }


def texts(page: Scene) -> list[str]:
    return [shape.text for shape in page.shapes if isinstance(shape, Text)]


def drawn(page: Scene, kind: str) -> dict[str, tuple[float, float]]:
    """From where to where each member or piece is drawn."""
    found = {}
    for shape in page.shapes:
        if isinstance(shape, Area) and kind in dict(shape.data):
            xs = [x for x, _ in shape.points]
            found[dict(shape.data)[kind]] = (min(xs), max(xs))
    return found


def scale_of(page: Scene) -> str:
    return next(text for text in texts(page) if text.startswith("Scale "))


@SETTINGS
@given(long_walls(), st.sampled_from(("in", "mm")))
def test_papers_keep_one_scale_and_show_every_member_where_it_is(wall, units):
    ratio = {'Scale 1/4" = 1\' 0"': 48, "Scale 1:50": 50}
    made = pages_of(wall, units)
    for kind, pages in made.items():
        scales = {scale_of(page) for page in pages}
        assert len(scales) == 1
        assert all(faults_of_texts(page) == [] for page in pages)
        if len(pages) == 1 or not kind:
            continue
        (scale,) = scales
        counted = Counter(name for page in pages for name in drawn(page, kind))
        if kind == "piece":
            assert set(counted) == {piece.id for piece in skinned(framed(wall)).pieces}
            continue
        members = {member.id: member for member in framed(wall).layout.members}
        assert set(counted) == set(members)
        # A wall too high for these is smaller yet.
        for page in pages if scale in ratio else []:
            # What is drawn whole stands at its own place and size; what is cut, at one of its ends or at none.
            offsets = [
                x1 - members[name].x / MILLIMETRE / ratio[scale]
                for name, (x1, x2) in drawn(page, kind).items()
                if x2 - x1 == pytest.approx(members[name].width / MILLIMETRE / ratio[scale], abs=1e-6)
            ]
            assert max(offsets) - min(offsets) < 1e-6


@SETTINGS
@given(long_walls(), st.sampled_from(("in", "mm")))
def test_match_lines_say_the_same_on_both_papers_and_what_crosses_is_on_both(wall, units):
    for kind, pages in pages_of(wall, units).items():
        told = [[found.groups() for text in texts(page) if (found := MATCH.fullmatch(text))] for page in pages]
        assert sum(map(len, told)) == 2 * (len(pages) - 1)
        for number, (page, after) in enumerate(zip(told, told[1:], strict=False), 1):
            assert page[-1] == (str(number), after[0][1], str(number + 1))
            assert after[0][2] == str(number)
        for page, after in zip(pages, pages[1:], strict=False):
            # What runs past this paper's match line begins before the next one's.
            line = max(
                x for shape in page.shapes if isinstance(shape, Lines) and shape.kind == "bold"
                for x, y1, x2, y2 in shape.lines if x == x2 and abs(y2 - y1) <= 6.001
            )  # fmt: skip
            if kind:
                crossing = {name for name, (_, right) in drawn(page, kind).items() if right > line + 0.01}
                assert crossing
                assert all(right <= line + PAST + 0.01 for _, right in drawn(page, kind).values())
                assert crossing <= set(drawn(after, kind))


@SETTINGS
@given(long_walls())
def test_no_reading_and_no_mark_is_lost_between_papers(wall):
    made = pages_of(wall, "in")
    if not made:
        return
    layout = framed(wall).layout
    said = Counter(text for page in made["member"] for text in texts(page))
    one = said_in(framing_scene(layout, "in", "0" * 8))
    assert said == one
    words = {word for text in said for word in text.replace("…", " ").split()}
    readings = {tape_text(mark.reading, "in") for mark in layout.marks}
    missing = readings - set(said)
    # Where labels stand closer than they can be read, every second is left out: never a stud by itself.
    assert len(missing) <= len(readings) / 2
    assert {row.mark for row in layout.cut_list if "field-stud" in row.roles} <= words


def said_in(scene: Scene) -> Counter:
    return Counter(shape.text for shape in scene.shapes if isinstance(shape, Text))


def test_a_long_wall_takes_papers_and_a_short_one_does_not():
    door = Opening("door", 10 * FOOT, 3 * FOOT, 80 * INCH)
    counts = {}
    for feet in (14, 34, 40, 84, 100):
        wall = Wall(length=feet * FOOT, height=97 * INCH, openings=(door,))
        counts[feet] = [len(pages) for pages in pages_of(wall, "in").values()]
    assert counts == {14: [1, 1, 1], 34: [1, 1, 1], 40: [2, 2, 2], 84: [3, 3, 3], 100: [3, 3, 3]}
