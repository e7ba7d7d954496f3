"""What there is to say about a wall as it is framed."""

from wallwright.domain.compared import Pairs, size_findings
from wallwright.domain.inside_notes import inside_findings
from wallwright.domain.openings import Plan
from wallwright.domain.plate_notes import plate_findings
from wallwright.domain.runs import run_findings
from wallwright.domain.seams import Columns
from wallwright.domain.sizing import loads_known
from wallwright.domain.wall import Wall
from wallwright.findings import Finding


def layout_findings(wall: Wall, plan: Plan, pairs: Pairs, columns: Columns | None) -> tuple[Finding, ...]:
    """The findings of a layout, in the order of the wall's fields."""
    known = loads_known(wall)
    found = size_findings(wall, plan, pairs) if known else _headers(wall, plan, pairs)
    slid = tuple(member.id for part, member in pairs if part.slid)
    if slid:
        found.append(Finding("stud-slid", "/spacing", (("count", str(len(slid))),), slid))
    members = tuple(member for _, member in pairs)
    found += plate_findings(wall, members)
    found += inside_findings(wall, members)
    found += run_findings(wall, members)
    found += _seam_notes(wall, pairs, columns)
    if wall.floor.kind == "slab" or wall.floor.treated_plate:
        found.append(Finding("treated-timber", "/floor"))
    found.append(Finding("not-checked-further" if known else "not-checked", ""))
    return tuple(found)


def _headers(wall: Wall, plan: Plan, pairs: Pairs) -> list[Finding]:
    """A caution for each header that is the plain default, compared with no table."""
    found = []
    defaults = {
        (framed.opening.name, framed.opening.width, framed.opening.head) for framed in plan.framed if framed.is_default
    }
    headers = [(part, member.id) for part, member in pairs if part.role == "header"]
    for index, opening in enumerate(wall.openings):
        if (opening.name, opening.width, opening.head) not in defaults:
            continue
        over = [(part, name) for part, name in headers if part.x <= opening.left < part.right]
        if not over:
            continue
        header, ids = over[0][0], tuple(name for _, name in over)
        code = "header-not-sized" if wall.carries is None else "header-not-compared"
        name = opening.name or f"opening {index + 1}"
        values = (("opening", name), ("stock", header.stock.name), ("plies", str(header.plies)))
        found.append(Finding(code, f"/openings/{index}", values, ids))
    return found


def _seam_notes(wall: Wall, pairs: Pairs, columns: Columns | None) -> list[Finding]:
    if columns is None:
        return []
    found = []
    sheet = wall.sheathing.sheet
    along = sheet.net_width if wall.sheathing.direction == "upright" else sheet.length
    if along % wall.spacing:
        found.append(Finding("spacing-misses-sheet", "/spacing", (("spacing", wall.spacing), ("sheet", along))))
    added = tuple(member.id for part, member in pairs if part.role == "seam-stud")
    if added:
        found.append(Finding("seam-stud-added", "/sheathing", (("count", str(len(added))),), added))
    return found
