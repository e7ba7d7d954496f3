"""The properties on far more plans than a run of the tests takes, each fault told with its plan and none of them shrunk.

    python -m tests.property.many level 25000 --seed 1 --jobs 2

Kinds: level and sloped walls, flat and roofed buildings, fastened walls of both kinds, and careless walls whose refusals are
judged. Printed are how many were tried, what was refused by code, and the first plans of each fault; the status is 1 where
there is any.
"""

import argparse
import collections
import re
import sys
import traceback
from collections.abc import Callable, Iterable
from multiprocessing import Pool

from hypothesis import HealthCheck, Phase, given, seed, settings
from hypothesis import strategies as st
from msgspec.structs import replace
from tests.property import (
    framing,
    roofing,
    skinning,
    sloping,
    test_fastening,
    test_framing,
    test_skinning,
    test_sloping,
)
from tests.property.closing import faults_of_building
from tests.property.refusals import careless_sloped_walls, careless_walls, faults_of, mended, unjust
from tests.property.test_partitions import crowded_walls
from tests.property.test_skinning import sawn_anyhow
from tests.strategies.buildings import buildings, sloped_buildings
from tests.strategies.fastenings import fastenings
from tests.strategies.slopes import sloped_walls
from tests.strategies.walls import walls

from wallwright.domain.building import build
from wallwright.domain.framed import framed, skinned
from wallwright.domain.members import Layout
from wallwright.domain.skin import Skin
from wallwright.domain.wall import Wall
from wallwright.findings import PlanRefused

SHOWN = 2


def of_wall(layout: Layout, skin: Skin) -> list[str]:
    """What is wrong with a wall's frame and its sheets."""
    judge = framing if layout.wall.top.shape == "level" else sloping
    judged = skinning if layout.wall.top.shape == "level" else sloping
    return [*judge.faults_of_frame(layout), *judged.faults_of_skin(skin, layout)]


def kept(wall: Wall, tests: Iterable[Callable[..., None]]) -> list[str]:
    """The properties that a wall breaks, each by the name of its test."""
    broken = []
    for test in tests:
        try:
            test.hypothesis.inner_test(wall)
        except AssertionError:
            broken.append(test.__name__)
    return broken


def level(wall: Wall) -> list[str]:
    done = framed(wall)
    turned = (
        test_framing.test_a_mirrored_wall_has_the_mirrored_members,
        test_framing.test_the_completed_wall_gives_the_same_answer,
        test_skinning.test_a_mirrored_wall_has_the_mirrored_skin,
    )
    return of_wall(done.layout, skinned(done)) + kept(wall, turned)


def sloped(wall: Wall) -> list[str]:
    done = framed(wall)
    turned = (
        test_sloping.test_a_mirrored_wall_has_the_mirrored_members_and_skin,
        test_sloping.test_the_completed_wall_gives_the_same_answer,
    )
    return of_wall(done.layout, skinned(done)) + kept(wall, turned)


def flat(building: object) -> list[str]:
    built = build(building)
    return faults_of_building(built) + [why for one in built.walls for why in of_wall(one.layout, one.skin)]


def roofed(building: object) -> list[str]:
    built = build(building)
    return roofing.faults_of_building(built) + [why for one in built.walls for why in of_wall(one.layout, one.skin)]


def fastened(wall: Wall) -> list[str]:
    return test_fastening._judged(wall)


def refused(wall: Wall) -> list[str]:
    faults = faults_of(wall)
    again = mended(wall, faults)
    left = [f"{fault.code} is left by what was offered" for fault in faults_of(again)]
    if left:
        return left
    done = framed(again)
    # Partitions are judged once the openings stand as offered, see `unjust`.
    return of_wall(done.layout, skinned(done)) + ([] if wall.partitions else unjust(wall, faults))


FASTENED = st.builds(lambda wall, fastening: replace(wall, fastening=fastening), walls() | sloped_walls(), fastenings())
KINDS: dict[str, tuple[st.SearchStrategy, Callable[..., list[str]]]] = {
    "level": (sawn_anyhow(walls()), level),
    "sloped": (sawn_anyhow(sloped_walls()), sloped),
    "flat": (buildings(), flat),
    "roofed": (sloped_buildings(), roofed),
    "fastened": (FASTENED, fastened),
    "refused": (careless_walls() | careless_sloped_walls() | crowded_walls(), refused),
}


def tried(kind: str, count: int, number: int) -> tuple[int, collections.Counter[str], list[tuple[str, str]]]:
    """How many plans were tried, what was refused by code, and each fault with its plan."""
    plans, judge = KINDS[kind]
    codes: collections.Counter[str] = collections.Counter()
    found: list[tuple[str, str]] = []
    seen = 0

    @seed(number)
    @settings(
        max_examples=count,
        deadline=None,
        database=None,
        phases=[Phase.generate],
        suppress_health_check=list(HealthCheck),
    )
    @given(plans)
    def one(plan: object) -> None:
        nonlocal seen
        seen += 1
        try:
            wrong = judge(plan)
        except PlanRefused as refusal:
            codes.update({fault.code for fault in refusal.faults})
            wrong = ["refused: " + ", ".join(sorted({fault.code for fault in refusal.faults}))]
        except Exception:
            wrong = ["crash: " + traceback.format_exc(limit=-2)]
        found.extend((why, repr(plan)) for why in wrong)

    one()
    return seen, codes, found


def main() -> int:
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("kind", choices=KINDS)
    parser.add_argument("count", type=int)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--jobs", type=int, default=1)
    options = parser.parse_args()
    share = -(-options.count // options.jobs)
    with Pool(options.jobs) as pool:
        parts = pool.starmap(tried, [(options.kind, share, options.seed + job) for job in range(options.jobs)])
    codes = sum((part[1] for part in parts), collections.Counter())
    kinds = collections.defaultdict(list)
    for why, plan in (fault for part in parts for fault in part[2]):
        kinds[re.sub(r"-?\d[\d.]*", "#", why)].append((why, plan))
    print(
        f"{options.kind}: {sum(part[0] for part in parts)} tried, {sum(map(len, kinds.values()))} faults; refused {dict(codes)}"
    )
    for same in sorted(kinds.values(), key=len, reverse=True):
        print(f"\n{len(same)} like: {same[0][0]}")
        for _, plan in same[:SHOWN]:
            print("   ", plan)
    return 1 if kinds else 0


if __name__ == "__main__":
    sys.exit(main())
