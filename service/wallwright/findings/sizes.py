"""The catalogue's entries for comparisons with published tables: studs, headers, bracing, areas."""

from typing import Final

from wallwright.findings.kind import Kind
from wallwright.sources import OWN_RULE

SIZE_KINDS: Final[dict[str, Kind]] = {
    "studs-compared": Kind(
        "note",
        "Studs {stud}, {height} between plates, {spacing} on centre, in a wall that {load}: the table goes to "
        "{most_height} and {most_spacing}.",
        "Studs compared with the table",
        "Size, height and spacing of the studs were compared with the published table.",
        "The table supposes sheathing on one side at least, and timber of grade No. 3, Standard or Stud.",
        OWN_RULE,
    ),
    "studs-too-far-apart": Kind(
        "stop",
        "Studs {stud} stand {spacing} on centre; in a wall that {load} the table goes to {most_spacing}.",
        "Studs too far apart",
        "The studs stand further apart than the published table allows for their size and load.",
        "Set them closer, or take deeper studs.",
        OWN_RULE,
    ),
    "studs-too-tall": Kind(
        "stop",
        "Studs {stud} are {height} between plates; in a wall that {load} the table goes to {most_height}.",
        "Studs too tall",
        "The studs are taller between supports than the published table allows, and no exception reaches them.",
        "Lower the wall, hold the studs across the wall at a floor or ceiling, or have them designed.",
        OWN_RULE,
    ),
    "tall-studs-conditions": Kind(
        "caution",
        "Studs {stud} are {height} between plates, past {most_height}. The code's table of taller studs reaches them on "
        "its conditions: No. 2 timber, roof live load of 20 psf at most; at 16 in or less 1/2 in gypsum board inside and "
        "3/8 in panels outside nailed at 6 and 12 in; above 115 mph a 300 lb connector at each end of each stud.",
        "Tall studs, on conditions",
        "The studs are taller than 10 ft and stand within the table for studs to 12 ft.",
        "Meet every condition named, or have the studs designed.",
        OWN_RULE,
    ),
    "tall-studs-light-roof": Kind(
        "caution",
        "Studs {stud} are {height} between plates, past {most_height}. The code's exception for 2x6 under a light, narrow "
        "roof reaches them on its conditions: No. 2 timber or better, and no more than 6 ft of roof carried by this wall, "
        "overhang included.",
        "Tall 2x6 studs, on conditions",
        "The studs are taller than 10 ft and stand within the exception for 2x6 studs.",
        "Meet every condition named, or have the studs designed.",
        OWN_RULE,
    ),
    "studs-outside-table": Kind(
        "stop",
        "Studs {stud}: {reason}. Have them sized by someone licensed to do so.",
        "Studs outside the table",
        "The published table holds no such stud, or does not permit it in this wall.",
        "Take a stud that the table holds, or have it designed.",
        OWN_RULE,
    ),
    "header-compared": Kind(
        "note",
        "The header over {opening} ({stock}, {plies} plies) spans {span}; in the column of {snow} psf of ground snow, for a building "
        "{width} wide the table goes to {allowed} ({top}), in {grade} timber under a roof live load of 20 psf at most, "
        "with jack studs at each end: {jacks_needed}.",
        "Header compared with the table",
        "The header was compared with the published span table for the load, width and snow given.",
        "Choose its timber for straightness, with no large knots or splits near the middle of its lower edge.",
        OWN_RULE,
    ),
    "header-too-small": Kind(
        "stop",
        "The header over {opening} ({stock}, {plies} plies) spans {span}; in the column of {snow} psf of ground snow, for a building "
        "{width} wide the table goes to {allowed} ({top}), in {grade} timber.{better}",
        "Header too small for the table",
        "The header spans more than the published table allows for the load, width and snow given.",
        "Take a deeper header, more plies, or a narrower opening, or have it sized by someone licensed to do so.",
        OWN_RULE,
    ),
    "header-top-packed": Kind(
        "caution",
        "The header over {opening} ({stock}, {plies} plies) spans {span}; in the column of {snow} psf of ground snow, for a building "
        "{width} wide the table goes further only where framing across it holds its top, and to {allowed} where nothing "
        "does. Here solid packing, nailed along its length to header and plate, has to hold it: ask whether that is "
        "accepted.{better}",
        "Header held through packing",
        "The table's full span supposes that the header's top is held sideways. The gap above this one is filled solid, "
        "which the code does not name.",
        "Ask the local building department, seat the header tight under the plates, or take a larger one.",
        OWN_RULE,
    ),
    "header-outside-table": Kind(
        "stop",
        "The header over {opening} ({stock}, {plies} plies): {reason}. Have it sized by someone licensed to do so.",
        "Header outside the table",
        "The published table holds no such header, or no such load.",
        "Have the header sized by someone licensed to do so.",
        OWN_RULE,
    ),
    "header-one-ply": Kind(
        "caution",
        "The header over {opening} is of one ply: it needs a flat 2x along its top and one below it, face nailed with "
        "10d box at 12 in, which are not framed here.",
        "Header of one ply",
        "A header of one ply is held by flat pieces along its edges.",
        "Add the flat pieces, or take two plies.",
        OWN_RULE,
    ),
    "header-nonbearing": Kind(
        "note",
        "The wall carries no load, so that no bearing header is asked for over {opening}; {stock}, {plies} plies, stands "
        "there. By the code {instead}.",
        "No bearing header needed",
        "Openings in walls that carry nothing need no bearing header.",
        "Nothing to mend. Make sure that nothing rests on the wall.",
        OWN_RULE,
    ),
    "jacks-too-few": Kind(
        "stop",
        "The header over {opening} stands on too few jack studs at each end: {jacks}; the table asks for {jacks_needed}.",
        "Too few jack studs",
        "A header bears on its jack studs; too few crush under it.",
        "Give more `jacks`, or leave them to the service.",
        OWN_RULE,
    ),
    "full-height-studs-compared": Kind(
        "note",
        "Full-height studs at each end of the header over {opening}: {has}; the table asks for {needed}.",
        "Full-height studs compared with the table",
        "The studs beside a header carry the wind on the opening; their number was compared with the published table.",
        "Nothing to mend.",
        OWN_RULE,
    ),
    "full-height-studs-too-few": Kind(
        "stop",
        "Full-height studs at one end of the header over {opening}: {has}; the table asks for {needed}.",
        "Too few full-height studs",
        "There is no room beside the opening for the studs that carry the wind on it.",
        "Move the opening away from its neighbour or the wall's end, or make it narrower.",
        OWN_RULE,
    ),
    "full-height-studs-outside-table": Kind(
        "stop",
        "Full-height studs beside {opening}: {reason}. Have them sized by someone licensed to do so.",
        "Full-height studs outside the table",
        "The published table holds no such header or no such wind.",
        "Have the studs beside the opening sized by someone licensed to do so.",
        OWN_RULE,
    ),
    "full-height-studs-not-compared": Kind(
        "caution",
        "Full-height studs beside {opening} were not compared: give wind and exposure.",
        "Full-height studs not compared",
        "Their number follows from the wind, which was not given.",
        "Give `site.wind_mph` and `site.exposure`.",
        OWN_RULE,
    ),
    "bracing-compared": Kind(
        "note",
        "The {side} wall line needs {needed} of braced length against wind by method WSP, in one storey with two braced "
        "lines each way and no gypsum board inside{case}; full-height sheathed lengths that count come to {available}.",
        "Bracing compared with the table",
        "One storey, one building, two braced lines each way, wind alone: the table's plain case. Earthquake, hold-downs, "
        "connections above and below, and lines that are offset were not checked.",
        "Nail the panels as the code asks, and have the rest checked where the law or the size asks for it.",
        OWN_RULE,
    ),
    "bracing-short": Kind(
        "caution",
        "The {side} wall line needs {needed} of braced length against wind by method WSP, in one storey with two braced "
        "lines each way and no gypsum board inside{case}; full-height sheathed lengths that count come to "
        "{available}{lacking}.",
        "Too little bracing by this method",
        "Lengths of wall without openings hold the building upright in wind; by the plain method there is too little.",
        "Leave wider lengths between openings, or have the wall braced by another method of the code or a design.",
        OWN_RULE,
    ),
    "bracing-not-compared": Kind(
        "caution",
        "The bracing of the {side} wall line was not compared with a table: {reason}.",
        "Bracing not compared",
        "What the table asks for was not given, or the case is outside it.",
        "Give `site.wind_mph` and `site.exposure`; outside the table have the bracing designed.",
        OWN_RULE,
    ),
    "bracing-outside-table": Kind(
        "stop",
        "The bracing of the {side} wall line: {reason}. Have it designed by someone licensed to do so.",
        "Bracing outside the table",
        "The published table holds no such wind, exposure, height or distance of wall lines.",
        "Have the bracing designed.",
        OWN_RULE,
    ),
    "permit-area": Kind(
        "note",
        "The building covers {area} sq ft; the code's exemption of one-storey detached accessory buildings from a permit "
        "goes to {most} sq ft. Local rules vary.",
        "Area compared with the permit's",
        "Most places ask for a permit above an area of their own; the code's model figure was compared.",
        "Ask the local building department.",
        OWN_RULE,
    ),
    "permit-area-passed": Kind(
        "caution",
        "The building covers {area} sq ft; above {most} sq ft the code asks for a permit for a one-storey detached "
        "accessory building. Local rules vary.",
        "A permit is usually needed",
        "The building is larger than the code's exemption for small accessory buildings.",
        "Ask the local building department before you build.",
        OWN_RULE,
    ),
    "not-checked-further": Kind(
        "caution",
        "Compared with published figures is only what is named as compared. Not checked: loads beyond them, tie-down of "
        "roof to wall and of the floor to the ground (a small building on blocks can slide or overturn), soil, drifting "
        "snow, ways out, smoke alarms. Local codes and licensed practice come first.",
        "What was not checked",
        "The service lays out timber and compares it with published figures where it says so. It designs nothing.",
        "Ask the local building department, and someone licensed where the law or the size asks for it.",
        OWN_RULE,
    ),
}
