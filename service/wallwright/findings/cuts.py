"""Findings about holes and notches cut out of studs."""

from typing import Final

from wallwright.findings.kind import Kind
from wallwright.sources import COMMON_PRACTICE, OWN_RULE

CUT_KINDS: Final[dict[str, Kind]] = {
    "run-compared": Kind(
        "note",
        "{what} of {size} at {y} cross studs: {count} (see members). The published most is {most} in these studs of an "
        "exterior or bearing wall; studs that stand tight together count as doubled. In an inside wall that bears nothing it "
        "would be {inside}. Not checked: what else is cut out of the studs, and strips that guard pipes and cables.",
        "Holes and notches compared",
        "What may be cut out of a stud is published as a share of its depth: less in walls that bear load.",
        "Keep to the size given; guard pipes and cables that lie near the stud's edge with steel strips.",
        OWN_RULE,
    ),
    "run-too-large": Kind(
        "stop",
        "{what} of {size} at {y} pass the published most of {most} in studs of an exterior or bearing wall: {count} (see "
        "members). An inside wall that bears nothing may have {inside}.",
        "Cut out of a stud too large",
        "A stud that is cut too deep buckles or snaps under its load.",
        "Make the cut smaller, take deeper studs, double the studs that are bored, or run the pipe another way.",
        OWN_RULE,
    ),
    "bore-near-edge": Kind(
        "stop",
        "Holes of {size} at {y} leave {given} of wood at the stud's edge; the published least is {least}.",
        "Hole near the stud's edge",
        "The strip beside a hole splits off where it is thin, and nails reach the pipe.",
        "Bore in the middle of the stud, or make the hole smaller.",
        OWN_RULE,
    ),
    "bore-at-notch": Kind(
        "stop",
        "The holes at {y} lie beside the notches at {other} in the same studs: {count} (see members). A hole is never "
        "published beside a notch. A notch was taken to be as high as it is deep.",
        "Hole beside a notch",
        "A hole and a notch at one height together leave too little of the stud.",
        "Move one of them up or down, clear of the other.",
        OWN_RULE,
    ),
    "bore-doubled-in-a-row": Kind(
        "stop",
        "Holes of {size} at {y} need doubled studs, and pass through {count} in a row; the published most is 2.",
        "Too many doubled studs bored",
        "The larger hole in doubled studs is published for no more than two of them in a row.",
        "Make the holes smaller, or run the pipe another way.",
        OWN_RULE,
    ),
    "run-in-level-timber": Kind(
        "stop",
        "At {y} the run lies within headers, sills or plates, lengthwise: {count} (see members). Nothing published allows it.",
        "Run within level timber",
        "A header that is bored or notched can fail without warning.",
        "Run above or below it, or another way.",
        OWN_RULE,
    ),
    "run-crosses-opening": Kind(
        "caution",
        "At {y} the run passes through openings: {count}.",
        "Run through an opening",
        "The run was given as level from end to end, and an opening lies in its way.",
        "Give it in two, or at another height.",
        COMMON_PRACTICE,
    ),
    "run-crosses-no-stud": Kind(
        "note",
        "At {y} the run crosses no stud between its ends.",
        "Run that crosses nothing",
        "No stud stands between the places given, at that height.",
        "Nothing to mend, unless the places are not those meant.",
        COMMON_PRACTICE,
    ),
}
