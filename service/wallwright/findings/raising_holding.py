"""Findings about what holds a wall's foot while it is raised, and how it comes over its bolts."""

from typing import Final

from wallwright.findings.kind import Kind
from wallwright.sources import COMMON_PRACTICE, OWN_RULE

HOLDING_KINDS: Final[dict[str, Kind]] = {
    "hold-the-plate": Kind(
        "caution",
        "Hold the bottom plate before lifting: near {angle} degrees the push drives {what} along the floor with {thrust}, "
        "where only {bears} bear on it.",
        "The foot of the wall kicks out",
        "Hands that push a leaning wall push its foot away; friction alone does not hold it.",
        "Fix straps, hinges or stops as the answer's `restraint` says, and try them before lifting.",
        COMMON_PRACTICE,
    ),
    "restraint-by-rule": Kind(
        "caution",
        "The wall stands {height} high. From {limit} on published rules ask for cleats or straps that hold the bottom plate "
        "before hands raise it; anchor bolts or toe-nails alone are not enough.",
        "Restraint asked for by rule",
        "Two public rules ask for it, since from that height the push on the way up passes the first lift.",
        "Fix straps or hinges to the floor before lifting.",
        OWN_RULE,
    ),
    "no-cleats-under-skin": Kind(
        "caution",
        "The sheets hang past the deck's rim: hold the plate by straps or hinges to the deck while tilting, never by cleats "
        "on the rim.",
        "No cleats under a hanging skin",
        "A cleat on the rim stands in the way of the sheet's lower edge, and is torn off or stops the wall halfway.",
        "Strap or hinge the plate to the deck's top, inside the wall.",
        COMMON_PRACTICE,
    ),
    "whole-weight-over-bolts": Kind(
        "caution",
        "Stand the wall up clear of the bolts and lift it over them, all {weight} of it; never tilt a wall on bolts.",
        "Lifted over the bolts",
        "A plate that turns on projecting bolts binds, splits, and slips off them.",
        "Have the people for the whole weight, and set the plate down slowly.",
        COMMON_PRACTICE,
    ),
    "section-over-bolts": Kind(
        "caution",
        "Stand each section up clear of its bolts and lift it over them, {weight} at most, before it is joined or braced; never "
        "tilt a section on bolts.",
        "Sections lifted over the bolts",
        "Joined, the sections weigh as much as the whole wall, which the hands given cannot lift.",
        "Have the people for the heaviest section, and set each plate down slowly.",
        COMMON_PRACTICE,
    ),
    "machine-over-bolts": Kind(
        "caution",
        "The machine sets the wall down over the bolts, all {weight} of it; never tilt a wall on bolts, nor lift it over them by "
        "hand.",
        "Set over the bolts by machine",
        "What is too high or too heavy to raise by hand is not carried by hand either.",
        "Keep the wall slung until its plate lies on the slab and its braces are fixed; wall jacks alone do not lift it over.",
        COMMON_PRACTICE,
    ),
}
