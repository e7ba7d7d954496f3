"""Findings about measured frames and decks."""

from typing import Final

from wallwright.findings.kind import Kind
from wallwright.sources import COMMON_PRACTICE, OWN_RULE, Source

SQUARING_KINDS: Final[dict[str, Kind]] = {
    "measurements-contradict": Kind(
        "stop",
        "The lengths contradict one another by {contradiction}; the tape and its reading explain {explained}. "
        "Most likely wrong is {suspect}: it would close at {reads}. Measure again before anything is moved.",
        "Measurements contradict one another",
        "Sides and diagonals of one figure fix each other. Here they do so by more than the tape's own error.",
        "Measure all lengths again, the one named first. One contradiction cannot prove which length is wrong.",
        OWN_RULE,
    ),
    "frame-out-of-square": Kind(
        "note",
        "Shorten the {diagonal} diagonal by {by}: push the top {corner} corner to the {way} by {push}.",
        "Frame out of square",
        "The diagonals differ by more than the tolerance; half the difference is what the longer one must lose.",
        "Push along the top plate against a block until both diagonals read alike, then fix a temporary diagonal.",
        OWN_RULE,
    ),
    "opposite-sides-differ": Kind(
        "caution",
        "Opposite sides are {one} and {other}, {difference} apart: equal diagonals would not make the frame square.",
        "Opposite sides differ",
        "Equal diagonals prove a frame square only where opposite sides are equal.",
        "Cut the longer one, or find what stands between, before the frame is squared.",
        Source("NAVEDTRA 14044", "", "page 40"),
    ),
    "opposite-sides-not-measured": Kind(
        "note",
        "Top plate and right side were taken to be as bottom plate and left side: measure them too.",
        "Opposite sides not measured",
        "Equal diagonals prove a frame square only where opposite sides are equal.",
        "Give `top` and `right`.",
        Source("NAVEDTRA 14044", "", "page 40"),
    ),
    "difference-may-be-reading": Kind(
        "note",
        "The diagonals differ by {difference}, which reading the tape alone may explain.",
        "Difference within the reading",
        "Each diagonal is read only so near.",
        "Nothing to mend; read both again with the same hand and pull.",
        COMMON_PRACTICE,
    ),
    "sheet-and-diagonals-differ": Kind(
        "caution",
        "By the sheet the top stands {sheet} to the right, by the diagonals {diagonals}.",
        "Sheet and diagonals differ",
        "The sheet's corner and the diagonals say different things of the same frame.",
        "Check the sheet's corner, and that plates and end studs are straight.",
        COMMON_PRACTICE,
    ),
    "frame-not-level": Kind(
        "caution",
        "The left side is {left} and the right {right}, and the top plate is as long as that slope: this is the frame of a "
        "rake, whose diagonals are never equal. No push is reckoned for it.",
        "A frame with a sloping top",
        "Equal diagonals show a frame square only where its sides are equal.",
        "Square the level part: give `height` and `right` both as the low side's, measured up from the bottom plate and "
        "marked on the high side, with the diagonals to these marks.",
        OWN_RULE,
    ),
    "far-out-of-plumb": Kind(
        "stop",
        "Out of plumb by {offset} in {over}: it leans {leans}, far past the published limit of {limit}. Hold it before "
        "anything else; its top goes back {back} by {top}.",
        "Far out of plumb",
        "The wall stands out of plumb by far more than any published tolerance: something gave way or was never held.",
        "Keep clear of the side to which it leans, fix a second brace, and look at plate, anchors and braces before pulling.",
        OWN_RULE,
    ),
    "out-of-plumb": Kind(
        "caution",
        "Out of plumb by {offset} in {over}: it leans {leans}; the published limit compared with is {limit}. Bring its top "
        "back {back} by {top}.",
        "Out of plumb",
        "The wall stands out of plumb by more than a published tolerance.",
        "Bring it back with the brace before the next wall or the roof holds it.",
        OWN_RULE,
    ),
    "brace-while-plumbing": Kind(
        "caution",
        "Never let go of a wall while a brace is loosened: one person holds or a second brace stays fixed.",
        "Bracing while plumbing",
        "A wall stands by its braces until roof and sheathing hold it.",
        "Move one brace at a time, two people or more.",
        COMMON_PRACTICE,
    ),
    "rack-with-care": Kind(
        "caution",
        "While racking keep fingers and feet clear of the plates, push and never strike a nailed joint, and fix a "
        "temporary diagonal brace before the frame is lifted.",
        "Racking a frame",
        "A frame that moves can pinch, and one that is not held goes out of square again on the way up.",
        "Push against a block; brace before lifting.",
        COMMON_PRACTICE,
    ),
    "squaring-not-checked": Kind(
        "caution",
        "Not checked: that plates and studs are straight, that the frame lies flat, that the tape is true, loads and "
        "bracing. Local codes and licensed practice come first.",
        "What was not checked in squaring",
        "Six lengths say nothing of bow and twist.",
        "Sight along the plates; see that all corners lie on one plane.",
        OWN_RULE,
    ),
    "snap-the-rectangle": Kind(
        "note",
        "Snap the wanted rectangle at the offsets given and shift the plates to its lines, not to the deck's edges.",
        "Snap the rectangle",
        "The deck is not the rectangle wanted; the best placing shares the error between its edges.",
        "Mark each corner by its two offsets, check the diagonals, then set the plates to the lines.",
        OWN_RULE,
    ),
    "shift-the-rectangle": Kind(
        "note",
        "Where sheets hang past the plates all around, move the rectangle {across} to the {way} and {along} to the {end}: "
        "edges left to trim: {trims}.",
        "Shift the rectangle",
        "The placing that shares the error evenly leaves the deck proud on opposite edges; moved to one of them, the other "
        "need not be trimmed and the first is shimmed.",
        "Snap the lines at the offsets under `shift`. A building with this deck takes the shift that its own sheets ask for.",
        OWN_RULE,
    ),
    "deck-edge-proud": Kind(
        "caution",
        "The {edge} edge sticks out past the framing line by up to {most}, at {corner}: a sheet that hangs past it is "
        "stopped there. Trim the edge.",
        "Deck edge proud",
        "A sheet that runs down past the deck needs the edge at or inside the framing line.",
        "Trim the edge back to the line, or move the plates outwards where there is room.",
        COMMON_PRACTICE,
    ),
    "deck-edge-far-proud": Kind(
        "caution",
        "The {edge} edge sticks out past the framing line by up to {most}, at {corner}: more than a trim takes off safely, "
        "since rim and joists would lose their timber. Measure again, or move the plates or the building's size outwards.",
        "Deck edge far proud",
        "Past about half a rim's thickness a cut weakens rim and joists' ends.",
        "Measure again; build the walls to the deck, or have the deck altered by someone who knows its framing.",
        COMMON_PRACTICE,
    ),
    "deck-edge-lacks-bearing": Kind(
        "caution",
        "The {edge} edge lies inside the framing line by up to {most}, at {corner}: the plate would stand out past the rim, "
        "and a shim behind the sheet does not carry it. Pad the rim out with solid timber first.",
        "Plate past the deck's edge",
        "Past about half a rim's thickness a plate needs timber under its edge.",
        "Pad the rim out solid, fastened to rim and joists, or move the plates inwards.",
        COMMON_PRACTICE,
    ),
    "deck-too-small": Kind(
        "stop",
        "The {edge} edge lies inside the framing line by up to {most}, at {corner}: half of the plate or more would stand on "
        "nothing. Make the deck larger or the building smaller.",
        "Deck too small",
        "A wall stands on its plate, and the plate on the deck.",
        "Measure again; enlarge the deck, or give the building the size that the deck carries.",
        COMMON_PRACTICE,
    ),
    "deck-edge-short": Kind(
        "note",
        "The {edge} edge lies inside the framing line by up to {most}, at {corner}: shim behind the sheet there.",
        "Deck edge short",
        "Plate and sheet stand out past the deck, with a gap behind the sheet.",
        "Shim the gap solid; where the plate lacks bearing, pad the rim out.",
        COMMON_PRACTICE,
    ),
    "deck-not-level": Kind(
        "caution",
        "The corners' heights differ by {rise}.",
        "Deck not level",
        "Walls on a deck that is not level stand out of plumb or need shims under the plate.",
        "Level the deck, or shim under the plates.",
        OWN_RULE,
    ),
    "deck-not-checked": Kind(
        "caution",
        "Not checked: that the edges are straight, the deck's framing and anchorage, soil, loads. Guard an edge from "
        "which one can fall. Local codes and licensed practice come first.",
        "What was not checked on a deck",
        "Six lengths place four corners and say nothing of what lies between.",
        "Sight along the edges; look at the framing.",
        OWN_RULE,
    ),
}
