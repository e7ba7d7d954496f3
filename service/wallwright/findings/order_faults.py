"""Why an order cannot be bought: the text of each fault, and the page that explains it."""

from typing import Final

from wallwright.findings.kind import FaultKind

ORDER_FAULTS: Final[dict[str, FaultKind]] = {
    "nothing-to-buy": FaultKind(
        "Nothing is asked for: give pieces, walls or buildings, one at least.",
        "Nothing to buy",
        "An order holds no piece, no wall and no building.",
        "Give `pieces`, `walls` or `buildings`.",
    ),
    "sheet-not-offered": FaultKind(
        "No sheets of {kind} {thickness} are offered and no wall names a size. Offer some.",
        "Sheets not offered",
        "Loose pieces of sheet need an offer of their kind and thickness.",
        "Add a sheet offer.",
    ),
    "sheet-piece-too-large": FaultKind(
        "A piece of {kind}, {width} by {length} along the grain, fits no sheet that is offered.",
        "Piece larger than every sheet",
        "No sheet yields the piece as its grain must lie.",
        "Offer a larger sheet, or let the grain lie free.",
    ),
    "sheets-too-few": FaultKind(
        "The sheets of {kind} {thickness} to be had do not yield all pieces, as far as was found. Raise `at_most`.",
        "Too few sheets",
        "More is wanted than the sheets to be had yield.",
        "Offer more sheets.",
    ),
    "stock-not-offered": FaultKind(
        "No boards of {stock} are offered; {count} pieces are to be cut from it, the longest {longest}. Offer some.",
        "Section not offered",
        "A section is needed of which no board is to be had; treated timber is a section of its own.",
        "Add an offer of that section.",
    ),
    "piece-too-long": FaultKind(
        "A piece of {stock} is {given} long; the longest board offered yields {most}. Offer a board of {least} or longer; plates "
        "are cut in pieces where `plates.stock_length` says so.",
        "Piece longer than every board",
        "No board that is offered yields the piece.",
        "Offer longer boards, or have the wall's plates jointed by `plates.stock_length`.",
    ),
    "boards-too-few": FaultKind(
        "The boards of {stock} to be had do not yield all pieces: {count} of {length} cannot be cut. Raise `at_most`, or offer "
        "other lengths.",
        "Too few boards",
        "More is wanted than the boards to be had yield, however they are cut.",
        "Offer more boards.",
    ),
    "boards-not-found": FaultKind(
        "Within its effort the service found no way to cut all pieces from the boards of {stock} to be had: {count} of "
        "{length} are missing. There may be one. Raise `at_most`, offer other lengths, or ask for more effort.",
        "No plan found",
        "The boards to be had are nearly too few, and the work allowed ended before a plan was found or ruled out.",
        "Offer more boards, or give `effort` as `thorough`.",
    ),
}
