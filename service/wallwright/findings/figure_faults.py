"""Why lengths that were measured are refused: the text of each fault, and the page that explains it."""

from typing import Final

from wallwright.findings.kind import FaultKind

FIGURE_FAULTS: Final[dict[str, FaultKind]] = {
    "sides-incomplete": FaultKind(
        "One of top and right is given; give both, or neither. With the other side as its opposite, give {nearest}.",
        "Sides incomplete",
        "A frame is measured on two sides or on all four.",
        "Give both `top` and `right`, or neither.",
    ),
    "sides-fit-no-frame": FaultKind(
        "The top is {given}; with these sides no frame comes near square. The bottom plate's {nearest} would.",
        "Sides fit no frame",
        "Opposite sides differ so much that no corner comes within 45 degrees of square.",
        "Measure the sides again.",
    ),
    "diagonal-impossible": FaultKind(
        "{given} is given; a frame of these sides, within 45 degrees of square, has from {least} to {most}. "
        "The nearest is {nearest}.",
        "Diagonal impossible",
        "No frame of these sides has such a diagonal.",
        "Measure the diagonal again.",
    ),
    "lengths-do-not-close": FaultKind(
        "{given} is given; with the {one} and {other} sides it must be from {least} to {most}. The nearest is {nearest}.",
        "Lengths do not close",
        "One side of a triangle is never longer than the other two, nor shorter than their difference.",
        "Measure the diagonal and both sides again.",
    ),
    "sides-cross": FaultKind(
        "{given} is given; so the {one} and {other} sides cross. {nearest}, which was given as a diagonal, would close "
        "the deck here: sides and diagonals may be swapped.",
        "Sides cross",
        "In the order given the sides of the deck cross one another.",
        "Give the lengths in order: front, right, back, left, and the diagonals apart.",
    ),
    "deck-flat": FaultKind(
        "{given} is given; so the corners lie on one line. A square corner would give {nearest}.",
        "Deck flat",
        "The lengths enclose no area.",
        "Measure the diagonals again.",
    ),
}
