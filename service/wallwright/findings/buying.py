"""Findings about a purchase and its cutting plan."""

from typing import Final

from wallwright.findings.kind import Kind
from wallwright.sources import COMMON_PRACTICE, OWN_RULE

BUYING_KINDS: Final[dict[str, Kind]] = {
    "cut-with-care": Kind(
        "caution",
        "Support both sides of every cut, let the offcut fall free, wear eyes, ears and dust protection; dust and offcuts of "
        "treated timber are not breathed or burnt. Measure the first piece of each kind against the wall before the rest are cut.",
        "Cut with care",
        "A saw that binds kicks back, and a plan that is wrong once is wrong on every board cut alike.",
        "Cut one board of each pattern, check it, then cut the others.",
        COMMON_PRACTICE,
    ),
    "buying-not-checked": Kind(
        "caution",
        "Not checked: grade and species of what is bought, knots, splits, crook and wane, boards shorter than they are called, "
        "moisture, whether sizes are strong enough. Boards for temporary braces, stops and straps are bought only where they are given as "
        "pieces. What the walls' own answers say stands there and is not repeated here. "
        "Local codes and licensed practice come first.",
        "What was not checked in buying",
        "The plan takes every board for straight, sound and as long as it is called.",
        "Look boards over at the yard; ask for spare pieces where they are poor.",
        OWN_RULE,
    ),
    "sheets-not-priced": Kind(
        "note",
        "No price is known of the {count} sheets of {kind} {thickness}: they are counted and stand in no sum. Give "
        "`sheet_offers`.",
        "Sheets not priced",
        "Without an offer the walls' own sheets are counted, as few as can be.",
        "Give `sheet_offers` of that kind and thickness, with prices.",
        OWN_RULE,
    ),
    "fasteners-not-priced": Kind(
        "note",
        "No price is known of {count} kinds of fasteners and anchors ({first} the first): they are counted, and stand in no sum. Give "
        "`fastener_offers`.",
        "Fasteners not priced",
        "Fasteners are told by count, and by the box where a wall's `fastening` names packs.",
        "Give `fastener_offers` with the names that `fasteners` tells, a pack's count and its price.",
        OWN_RULE,
    ),
    "sheets-not-proven": Kind(
        "note",
        "That no plan takes fewer or cheaper sheets of {kind} {thickness} was not proven.",
        "Sheets not proven",
        "There are more ways to cut these pieces from sheets than the effort allows to look at.",
        "Ask with `effort` as `thorough`.",
        OWN_RULE,
    ),
    "plates-pieced": Kind(
        "note",
        "Level plates may be jointed anew here: those of {count} walls are, as `pieced` says with each wall complete. Joints of bottom and "
        "top plates were sought over the middles of studs, with no piece under 24 in and one piece a layer more than must be at "
        "most; plates on a slope and plates of mixed timber stay as framed. The proof reaches as far.",
        "Plates jointed anew",
        "Where a plate is jointed is free within the framing rules, and some joints suit the boards better.",
        "Post the wall given to draw it; its joints stand in `plates.joints`.",
        OWN_RULE,
    ),
    "plates-not-proven": Kind(
        "note",
        "There are more ways to joint the plates than the effort allows to look at, so that this way is the best found and not proven.",
        "Joints of plates not proven",
        "The lawful ways to joint long plates are many.",
        "Ask with `effort` as `thorough`, or in fewer walls.",
        OWN_RULE,
    ),
    "plan-not-proven": Kind(
        "note",
        "This plan is the best found with effort {effort}; that none is cheaper was not proven. It lies no further from the "
        "cheapest than from `lower_bound`.",
        "Plan not proven",
        "Work is limited by counts, so that the same question always gets the same plan.",
        "Ask with `effort` as `thorough`, or buy in two orders.",
        OWN_RULE,
    ),
    "other-length-saves": Kind(
        "note",
        "Boards of {stock} {length}, which are not offered, would bring the cost of this section from {cost} ({boards} boards) to "
        "{lower} ({fewer} boards), before tax, if one cost {price}: priced by length from those offered.",
        "Another length would save",
        "A board that holds one more piece can be cheaper for what it yields than two that hold fewer.",
        "Ask the yard for that length and its price, and offer it.",
        OWN_RULE,
    ),
    "shorter-piece-saves": Kind(
        "note",
        "{count} pieces of {stock} {given}{marks} that were {less} shorter, {length} each, would bring the cost of this section from "
        "{cost} (boards: {boards}) to {lower} (boards: {fewer}), before tax. Studs shorten with the wall's height, headers and sills with "
        "their opening's width.",
        "Shorter pieces would save",
        "One more of them then comes out of a board; all other pieces are taken as they are.",
        "Lower the wall, narrow the opening or shorten the loose piece by so much, where that is free to choose.",
        OWN_RULE,
    ),
}
