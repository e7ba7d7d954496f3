"""Texts of drawings judged by the font's own measures, on far more plans than a run of the tests takes.

    python -m tests.drawing.collide 2000 --seed 1 --jobs 2

A text is at fault where its ink leaves the paper's frame, lies on the ink of another, or crosses the edge of the title
strip. Every kind of drawing is made: framing, sheathing, fasteners and raising of each wall, the plan of a building, a
frame and a deck measured, an order's cutting diagrams. Of every eight plans five are walls. Printed are how many
drawings were judged, and the first plans of each fault; the status is 1 where there is any.

Source of the measures: the font file DejaVu Sans (tables ``cmap``, ``hmtx``, ``head``, ``glyf``). It is the first family
that a drawing names and the widest of those; where it is not installed, advances read from it stand in.
"""

import argparse
import collections
import json
import re
import sys
import time
import traceback
from collections.abc import Callable
from functools import lru_cache
from multiprocessing import Pool
from pathlib import Path

from fontTools.pens.boundsPen import BoundsPen
from fontTools.ttLib import TTFont
from hypothesis import HealthCheck, Phase, given, seed, settings
from hypothesis import strategies as st
from msgspec.structs import replace
from tests.strategies.buildings import buildings, sloped_buildings
from tests.strategies.fastenings import fastenings
from tests.strategies.slopes import sloped_walls
from tests.strategies.walls import sawn_anyhow, walls

from wallwright.api.reader import Reader
from wallwright.domain.building import Building, build
from wallwright.domain.buying.asked import Offer, Order
from wallwright.domain.buying.buy import buy
from wallwright.domain.fasteners import fasten
from wallwright.domain.framed import framed, raising, skinned
from wallwright.domain.squaring.deck import survey
from wallwright.domain.squaring.frame import square
from wallwright.domain.wall import Wall
from wallwright.drawing.building import plan_scene
from wallwright.drawing.buying import cutting_pages
from wallwright.drawing.deck import deck_scene
from wallwright.drawing.elevation import framing_scene
from wallwright.drawing.fasteners import nailing_scene
from wallwright.drawing.paper import MARGIN, TITLE_STRIP
from wallwright.drawing.raising import raising_scene
from wallwright.drawing.scene import TEXT_MM, Scene, Text
from wallwright.drawing.sheathing import sheathing_scene
from wallwright.drawing.squaring import frame_scene
from wallwright.findings import PlanRefused
from wallwright.lengths import FOOT, INCH
from wallwright.operations.converters import CONVERTERS
from wallwright.operations.squaring_asked import to_deck, to_frame
from wallwright.wire.squaring_asked import Deck, Frame

FONT = Path("/usr/share/fonts/truetype/dejavu/DejaVuSans.ttf")
ASCII = "".join(map(chr, range(32, 127)))
# Advances in 2048ths of the size, from the file's hmtx table.
READ_OFF = {
    " ": 651, "'": 563, '"': 942, "1": 1303, "8": 1303, "A": 1401, "M": 1767, "W": 2025, "@": 2048, "i": 569, "m": 1995,
}  # fmt: skip
NAMES = ("", "door", "NORTH WORKSHOP DOOR", "HUNGDUCK" * 8, "W1", "MMMMWWWW@@@@", "(ij,ql)", "x" * 60)
TOUCH = 0.02
"""How far ink may reach into other ink before it counts: less than a printer's dot."""

Box = tuple[float, float, float, float, str]
"""Left, top, right, bottom of a text's ink in millimetres of paper, and the text."""


class Measures:
    """Advance and inked box of each letter in ems."""

    def __init__(self) -> None:
        self.advance = {letter: count / 2048 for letter, count in READ_OFF.items()}
        self.box: dict[str, tuple[float, float]] = {}
        if FONT.exists():
            font = TTFont(FONT)
            size, names, glyphs = font["head"].unitsPerEm, font.getBestCmap(), font.getGlyphSet()
            for letter in ASCII + "…°":
                pen = BoundsPen(glyphs)
                glyphs[names[ord(letter)]].draw(pen)
                self.advance[letter] = font["hmtx"][names[ord(letter)]][0] / size
                low, high = (pen.bounds[1], pen.bounds[3]) if pen.bounds else (0, 0)
                self.box[letter] = (low / size, high / size)

    def long(self, text: str, size: str) -> float:
        return sum(self.advance.get(letter, 0.64) for letter in text) * TEXT_MM[size]

    def rise_and_fall(self, text: str, size: str) -> tuple[float, float]:
        """How far the ink stands above the baseline and hangs below it."""
        boxes = [self.box.get(letter, (-0.24, 0.76)) for letter in text]
        return max(high for _, high in boxes) * TEXT_MM[size], -min(0.0, *(low for low, _ in boxes)) * TEXT_MM[size]

    @lru_cache(100_000)  # noqa: B019 - there is one of it
    def of(self, text: str, size: str) -> tuple[float, float, float]:
        """Length, rise and fall of a text."""
        return self.long(text, size), *self.rise_and_fall(text, size)


MEASURES = Measures()


def inked(scene: Scene) -> list[Box]:
    """Where the ink of every text lies, as the font measures it."""
    found = []
    for text in (shape for shape in scene.shapes if isinstance(shape, Text) and shape.text.strip()):
        long, rise, fall = MEASURES.of(text.text, text.size)
        before = {"start": 0.0, "middle": long / 2, "end": long}[text.anchor]
        if text.turned:
            box = (text.x - rise, text.y - long + before, text.x + fall, text.y + before)
        else:
            box = (text.x - before, text.y - rise, text.x - before + long, text.y + fall)
        found.append((*box, text.text))
    return found


def faults_of_texts(scene: Scene, paper: float | None = None) -> list[str]:
    """Texts that leave the paper's frame, cross its title strip's edge, or run into each other.

    ``paper`` is the height of one paper where several stand below one another.
    """
    high = paper or scene.height
    found = []
    placed = sorted(inked(scene))
    for left, top, right, bottom, text in placed:
        start = top // high * high
        strip = start + high - MARGIN - TITLE_STRIP
        level = top >= start + MARGIN and bottom <= start + high - MARGIN
        if not (left >= MARGIN and right <= scene.width - MARGIN and level):
            found.append(f"{text!r} leaves the paper")
        elif top < strip < bottom:
            found.append(f"{text!r} crosses the title strip's edge")
    for number, (_, t1, r1, b1, one) in enumerate(placed):
        for l2, t2, _, b2, two in placed[number + 1 :]:
            if l2 >= r1 - TOUCH:
                break
            if not (b1 <= t2 + TOUCH or b2 <= t1 + TOUCH):
                found.append(f"{one!r} runs into {two!r}")
    return found


UNITS = st.sampled_from(("in", "mm"))
NAMED = st.sampled_from(NAMES)
FRAMES, DECKS = Reader(Frame), Reader(Deck)
MIXED = 8
"""Plans of which five are walls, and one each a building, a measured figure and an order."""
SHOWN = 3


@st.composite
def named_walls(draw: st.DrawFn) -> Wall:
    """Walls of every kind under names of every length, some of them stretched to a hundred feet."""
    wall = draw(sawn_anyhow(walls() | sloped_walls()))
    if wall.top.shape == "level" and draw(st.sampled_from((False, False, False, True))):
        wall = replace(wall, length=wall.length + draw(st.integers(0, 100 * FOOT - wall.length)) // INCH * INCH)
    name = draw(NAMED)
    opened = tuple(replace(one, name=draw(st.sampled_from((name, one.name)))) for one in wall.openings)
    hands = draw(st.sampled_from((1, 2, 4, 30)))
    return replace(wall, name=name, openings=opened, fastening=draw(fastenings()), hands=hands)


@st.composite
def measured_frames(draw: st.DrawFn) -> dict[str, object]:
    """A frame as it is measured, in inches: nearly square, of any slenderness, with its sides and a plumb line or without."""
    width, height = draw(st.floats(6, 1200)), draw(st.floats(6, 240))
    d = (width**2 + height**2) ** 0.5
    off = draw(st.tuples(*[st.floats(-1, 1)] * 3))
    body = {"units": "in", "name": draw(NAMED)[:80], "width": width, "height": height, "rising": d + off[0],
            "falling": d + off[1]}  # fmt: skip
    if draw(st.booleans()):
        body |= {"top": max(6.0, width + off[2]), "right": height}
    return body | ({"plumb": {"offset": 1, "over": 96}} if draw(st.booleans()) else {})


@st.composite
def measured_decks(draw: st.DrawFn) -> dict[str, object]:
    """A deck as it is measured, in inches, with a rectangle wanted and levels or without."""
    width, depth = draw(st.floats(6, 1200)), draw(st.floats(6, 1200))
    d = (width**2 + depth**2) ** 0.5
    off = draw(st.tuples(*[st.floats(-3, 3)] * 4))
    names = ("front", "right", "back", "left")
    sizes = [max(6.0, size + by) for size, by in zip((width, depth, width, depth), (*off[:2], 0, 0), strict=True)]
    diagonals = {"front_left_to_back_right": d + off[2], "front_right_to_back_left": d + off[3]}
    body = {
        "units": "in",
        "name": draw(NAMED)[:80],
        "sides": dict(zip(names, sizes, strict=True)),
        "diagonals": diagonals,
    }
    if draw(st.booleans()):
        body |= {"wanted": {"width": width, "depth": depth}}
    if draw(st.booleans()):
        body |= {"levels": {"front_left": 0, "front_right": off[0], "back_right": off[1], "back_left": -1 / 16}}
    return body


def of_wall(wall: Wall, units: str) -> dict[str, Scene]:
    """Every drawing of one wall."""
    done = framed(wall)
    layout, skin = done.layout, skinned(done)
    lifted = raising(wall)
    texts = [CONVERTERS[units].finding(finding).text for finding in lifted.findings]
    return {
        "framing": framing_scene(layout, units, "0" * 8),
        "sheathing": sheathing_scene(skin, units, "0" * 8, layout),
        "fasteners": nailing_scene(fasten(layout, skin), skin, layout, units, "0" * 8),
        "raising": raising_scene(lifted, units, "0" * 8, texts),
    }


def of_figure(body: dict[str, object], units: str) -> dict[str, Scene]:
    """The drawing of a measured frame or deck."""
    raw = json.dumps(body).encode()
    if "sides" in body:
        found, draw, kind = survey(to_deck(DECKS.read(raw))), deck_scene, "deck"
    else:
        found, draw, kind = square(to_frame(FRAMES.read(raw)), FOOT, 3 * INCH), frame_scene, "frame"
    texts = [CONVERTERS[units].finding(finding).text for finding in found.findings]
    return {kind: draw(found, units, "0" * 8, texts)}


def of_order(wall: Wall, units: str) -> dict[str, Scene]:
    """The pages of an order for one wall."""
    rows = framed(wall).layout.cut_list
    longest = max(row.length for row in rows)
    lengths = {*(feet * FOOT for feet in (8, 10, 12, 16) if feet * FOOT < longest), -(-longest // FOOT) * FOOT}
    offers = tuple(
        Offer(stock, length, length // INCH * 4, None, treated)
        for stock, treated in sorted({(row.stock, row.treated) for row in rows}, key=str)
        for length in sorted(lengths)
    )
    bought = buy(Order((), (wall,), (), offers, effort="quick"), lambda: 600.0)
    return {f"cutting {number}": page for number, page in enumerate(cutting_pages(bought, units, "0" * 8))}


class Judge:
    """What one job has seen: how many drawings of each kind, and each fault with its drawing's kind and plan."""

    def __init__(self, seconds: float) -> None:
        self.judged: collections.Counter[str] = collections.Counter()
        self.found: list[tuple[str, str, str]] = []
        self.end = time.monotonic() + seconds

    def judge(self, draw: Callable[..., dict[str, Scene]], plan: object, units: str) -> None:
        """Draw one plan and keep what is wrong with its texts; past the time nothing is drawn."""
        if time.monotonic() > self.end:
            return
        self.judged["plans"] += 1
        try:
            scenes = draw(plan, units)
        except PlanRefused:
            self.judged["refused"] += 1
            return
        except Exception:
            self.found.append(("crash: " + traceback.format_exc(limit=-2), draw.__name__, f"{units} {plan!r}"))
            return
        for name, scene in scenes.items():
            kind = name.split()[0]
            self.judged[kind] += 1
            wrong = faults_of_texts(scene, scene.height / sheets_of(scene))
            self.found.extend((why, kind, f"{units} {plan!r}") for why in wrong)

    def run(self, plans: st.SearchStrategy, draw: Callable[..., dict[str, Scene]], count: int, number: int) -> None:
        """Draw so many random plans of one sort."""

        @seed(number)
        @settings(max_examples=count, deadline=None, database=None, phases=[Phase.generate],
                  suppress_health_check=list(HealthCheck))  # fmt: skip
        @given(plans, UNITS)
        def one(plan: object, units: str) -> None:
            self.judge(draw, plan, units)

        one()


def of_building(building: Building, units: str) -> dict[str, Scene]:
    """The plan of a building."""
    return {"plan": plan_scene(build(building), units, "0" * 8)}


SORTS = (
    (5, named_walls(), of_wall),
    (1, buildings() | sloped_buildings(), of_building),
    (1, measured_frames() | measured_decks(), of_figure),
    (1, named_walls(), of_order),
)
"""Of so many of `MIXED` plans each sort is."""


def tried(count: int, number: int, seconds: float) -> tuple[collections.Counter[str], list[tuple[str, str, str]]]:
    """How many drawings of each kind were judged, and each fault with its drawing's kind and plan."""
    judge = Judge(seconds)
    for share, plans, draw in SORTS:
        judge.run(plans, draw, max(1, count * share // MIXED), number)
    return judge.judged, judge.found


def sheets_of(scene: Scene) -> int:
    """How many papers stand below one another in a scene."""
    return max(1, round(scene.height / (scene.width / 1.35)))


def main() -> int:
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("count", type=int)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--jobs", type=int, default=1)
    parser.add_argument("--seconds", type=float, default=3600, help="after so long no further plan is drawn")
    options = parser.parse_args()
    share = -(-options.count // options.jobs)
    with Pool(options.jobs) as pool:
        parts = pool.starmap(tried, [(share, options.seed + job, options.seconds) for job in range(options.jobs)])
    judged = sum((part[0] for part in parts), collections.Counter())
    kinds = collections.defaultdict(list)
    for why, kind, plan in (fault for part in parts for fault in part[1]):
        kinds[kind, re.sub(r"\d[\d /'\"]*", "#", why)].append((why, plan))
    print(f"{dict(judged)}: {sum(map(len, kinds.values()))} faults")
    for (kind, _), same in sorted(kinds.items(), key=lambda one: -len(one[1])):
        print(f"\n{kind}, {len(same)} like: {same[0][0]}")
        for _, plan in same[:SHOWN]:
            print("   ", plan)
    return 1 if kinds or not FONT.exists() else 0


if __name__ == "__main__":
    sys.exit(main())
