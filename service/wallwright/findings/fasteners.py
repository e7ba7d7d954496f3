"""Findings about nails, screws and bolts."""

from typing import Final

from wallwright.findings.kind import Kind
from wallwright.sources import COMMON_PRACTICE, OWN_RULE, Source

FASTENER_KINDS: Final[dict[str, Kind]] = {
    "point-comes-out": Kind(
        "note",
        "{joint}: the points of {count} fasteners ({fastener}, {length}) come out; there is {timber} of timber in their "
        "way, and flush counts as out. {proposed} would stay inside, where the schedule of the code in force allows it.",
        "Points come out",
        "A fastener as long as the pieces that it joins, or longer, shows its point on the other side, where it catches "
        "hands and keeps pieces from lying flat.",
        "Take the length proposed, drive at a slant, or bend the points over before the wall is handled.",
        OWN_RULE,
    ),
    "thin-behind": Kind(
        "note",
        "{joint}: {count} fasteners ({fastener}, {length}) pass the sheet and the thin timber behind it ({timber} "
        "together), and their points end in the hollow of the wall or of the post. {proposed} would end in the timber.",
        "Thin timber behind a sheet",
        "Blocks on edge and a single stud of the next wall's post are thinner than a sheet's fastener is long. The "
        "schedule's fastener is kept, since a shorter one holds less than the tables count on.",
        "Leave it so, or set thicker blocks; nobody reaches into that hollow once the wall is closed.",
        OWN_RULE,
    ),
    "point-too-shallow": Kind(
        "caution",
        "{joint}: {fastener} reaches {reach} into the last piece; the wood standard counts nothing under 6 diameters, "
        "{least}. It takes a length of {proposed}.",
        "Too little penetration",
        "A nail or screw that reaches less than 6 diameters into the second piece has no published value.",
        "Take the longer fastener, or a thinner piece between.",
        OWN_RULE,
    ),
    "screws-no-swap": Kind(
        "caution",
        "Screws here follow common practice, with no published schedule behind them. Screws are no like-for-like swap "
        "for nails in a braced wall: only structural screws, used as their maker's report says. Deck and drywall screws "
        "break in shear.",
        "Screws are no swap for nails",
        "Published bracing and nailing tables are for nails. Ordinary screws are brittle.",
        "Nail sheathing and plates of braced walls as the schedule says, or use structural screws by their report.",
        COMMON_PRACTICE,
    ),
    "coated-into-treated": Kind(
        "caution",
        "Fasteners into the treated plate are hot-dip galvanized or stainless (screws: coated for treated timber or "
        "stainless), the sheets' among them; bright or electroplated ones are eaten by the treatment.",
        "Coated fasteners into treated timber",
        "Preservatives with copper corrode plain steel.",
        "Keep the two kinds apart on site. Bolts of 1/2 in and more are excepted in published rules.",
        Source("International Residential Code", "", "R317.3.1 (R304.3.1 in 2024)"),
    ),
    "nearer-than-2-5-diameters": Kind(
        "note",
        "{count} sheet fasteners stand nearer to the edge of their timber than 2.5 diameters ({least}), as they must "
        "where two sheets meet on one stud: drive them slanted a little towards its middle.",
        "Near the timber's edge",
        "A sheet's own edge distance and a stud shared by two sheets leave less than the recommended 2.5 diameters.",
        "Slant these fasteners, or set a second stud at the seam.",
        Source("ANSI/AWC NDS", "", "Commentary Table C12.1.6.6, from memory"),
    ),
    "end-by-toe-nail": Kind(
        "note",
        "Under this slope the studs named are cut so low on their far side that no nail goes through them into the end of "
        "the header or sill beside them: none is counted there.",
        "An end that cannot be nailed through the stud",
        "A steep slope takes the far side of a stud away where a header's end meets its near side.",
        "Toe-nail the header or sill to the stud from its own face, two on each side, or set a hanger; or lower the opening.",
        OWN_RULE,
    ),
    "no-fastener-at-cut": Kind(
        "note",
        "Where a door's plate is cut out after raising no fastener stands within 2 in of the saw: jacks that stand at "
        "the cut are held by their kings.",
        "No fastener at the saw cut",
        "A saw that meets a nail throws teeth and kicks.",
        "Nail the plate's new end once it is cut, if the inspector asks for it.",
        COMMON_PRACTICE,
    ),
    "pack-not-used": Kind(
        "note",
        "No such fastener is used here: {fastener}. Packs are matched by the name that the totals give.",
        "A pack that is not used",
        "A pack names a fastener that this wall does not take, or spells it otherwise than the totals do.",
        "Name the fastener as the totals do.",
        OWN_RULE,
    ),
    "floor-not-known": Kind(
        "note",
        "What the wall stands on was not said: the bottom plate's fasteners are counted as into timber along its outer "
        "side.",
        "Floor not known",
        "A plate on a deck is fastened into rim and joists, one on a slab is bolted.",
        "Give `floor`.",
        OWN_RULE,
    ),
    "thicker-framing-at-seams": Kind(
        "caution",
        "Edge nails at {spacing} split a stud that two sheets share: published rules ask for framing 3 in nominal there "
        "(at 2 in or less, or with 10d at 3 in or less), nails staggered.",
        "Thicker framing at seams",
        "Two close rows of nails in one 2 in stud split it along the grain.",
        "Set a doubled or thicker stud at each seam, or nail further apart.",
        Source("AWC SDPWS", "2008", "4.3.7"),
    ),
    "unit-shear-not-read": Kind(
        "note",
        "No published unit shear is told: the table holds common nails of 6d, 8d and 10d at 6 in or nearer, through "
        "panels of its thicknesses, deep enough into framing at most 24 in apart.",
        "No unit shear read",
        "The table of nominal unit shears has no row for this sheathing and its fasteners.",
        "Take a row's panel and nail, or have the wall designed.",
        Source("AWC SDPWS", "2008", "Table 4.3A"),
    ),
    "holding-is-information": Kind(
        "caution",
        "What a fastener or the sheathing is said to hold are reference figures by published formulas, before any factor "
        "for moisture, duration, panels' shape or safety: information, not a design. Not checked: loads, how many "
        "fasteners they ask for, hold-downs, how far nails are driven.",
        "Not a design",
        "A formula's value for one fastener does not tell whether a wall holds.",
        "Local codes come first; have structural joints designed by someone licensed to do so.",
        Source("ANSI/AWC NDS", "2018", "12.2 and 12.3"),
    ),
}
