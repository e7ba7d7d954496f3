"""The rules of the house, held by reading the imports of every module."""

import ast
from pathlib import Path

import pytest

ROOT = Path(__file__).parent.parent
FLOOR = {"lengths", "sources", "findings"}
MAY_IMPORT = {
    "domain": FLOOR | {"domain", "published"},
    "published": FLOOR | {"published"},
    "wire": FLOOR | {"wire"},
    "drawing": FLOOR | {"domain", "drawing"},
    "operations": FLOOR | {"domain", "wire", "drawing", "operations", "published", ""},
    "api": FLOOR | {"operations", "wire", "api", "drawing.style", ""},
}
DOMAIN_ORDER = [
    "defaults stock", "joining", "wall", "slopes", "members parts", "bevels mirror skin grid sizing", "posts", "opening_faults", "openings", "slope_checks uprights full_height",
    "nearby", "offers checks sloped carriers bays roofs partitions", "seams rows", "slope_rows piecing", "lying", "starts", "compared plate_joints", "plates plate_notes inside_notes runs", "notes cut_list plate_choices", "anchors", "anchor_notes",
    "layout outlines", "skin_notes skin_seams on_sheets reuse", "from_offcuts", "sheathing", "raising", "fasteners", "framed building_sizes squaring", "deck_lines", "built", "building_notes", "building", "buying",
]  # fmt: skip


BUYING_ORDER = [
    "solver patterns asked", "problem shelves", "programme sets", "tree", "pricing", "cutting needs", "ties plate_programme", "boards panels", "pieced notes cheaper boxes", "buy",
]  # fmt: skip


SQUARING_ORDER = [
    "adjusting", "measured quadrilateral", "doubt rectangle placing standing", "shifting", "notes", "frame deck",
]  # fmt: skip


RAISING_ORDER = [
    "weighing statics hands braces", "wind steps", "parting", "notes", "raised together",
]  # fmt: skip


FASTENERS_ORDER = [
    "values", "schedule", "site", "panels ends splices", "faces driven", "floor sheets holds", "totals notes", "fastened",
]  # fmt: skip


def imports(path: Path, package: list[str]) -> set[str]:
    """Dotted names that a module imports, relative ones resolved against its package."""
    found = set()
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            found |= {alias.name for alias in node.names}
        elif isinstance(node, ast.ImportFrom):
            base = package[: len(package) - node.level + 1] if node.level else []
            name = ".".join([*base, *([node.module] if node.module else [])])
            found |= {f"{name}.{alias.name}" for alias in node.names}
    return found


def room(name: str) -> str:
    """The room of wallwright that an imported name belongs to."""
    parts = name.split(".")
    if parts[0] != "wallwright":
        return "outside"
    if len(parts) == 1 or parts[1].startswith("_"):
        return ""
    alone = parts[1] == "drawing" and parts[2:3] in (["svg"], ["style"])
    return ".".join(parts[1:3]) if alone else parts[1]


def modules() -> list[Path]:
    return sorted((ROOT / "service" / "wallwright").rglob("*.py"))


def breaches(path: Path, package: list[str]) -> list[str]:
    """Imports of one module that its room does not allow."""
    own = package[1] if len(package) > 1 else path.stem
    if own in FLOOR:
        allowed: set[str] = FLOOR
    elif own in MAY_IMPORT:
        allowed = MAY_IMPORT[own]
    else:
        return []
    rooms = {name: room(name) for name in imports(path, package)}
    ok = allowed | {"outside"} | ({"drawing.svg", "drawing.style"} if own in ("drawing", "operations") else set())
    return [f"{path.name}: {name}" for name, where in rooms.items() if where not in ok]


def package_of(path: Path) -> list[str]:
    top = "viewer" if path.is_relative_to(ROOT / "viewer") else "service"
    relative = path.relative_to(ROOT / top)
    return list(relative.parts[:-1])


@pytest.mark.parametrize("path", modules(), ids=lambda path: str(path.relative_to(ROOT)))
def test_each_room_imports_only_what_it_may(path):
    assert breaches(path, package_of(path)) == []


def test_a_planted_breach_is_found(tmp_path):
    planted = tmp_path / "planted.py"
    planted.write_text("from ..wire import wall\nfrom wallwright.api import app\n")
    assert len(breaches(planted, ["wallwright", "domain"])) == 2


def steps(folder: str, ranks: list[str]) -> list[tuple[str, list[str], dict[str, int]]]:
    """Each module of a folder of the domain with each name of the domain that it imports, split, and the order's ranks."""
    order = {name: place for place, names in enumerate(ranks) for name in names.split()}
    found = []
    for path in (ROOT / "service/wallwright/domain" / folder).glob("*.py"):
        if path.stem == "__init__":
            continue
        assert path.stem in order, f"{path.stem} has no place in the order"
        for name in imports(path, package_of(path)):
            parts = name.split(".")
            if parts[:2] == ["wallwright", "domain"] and len(parts) > 2:
                found.append((path.stem, parts, order))
    return found


def test_each_step_of_the_domain_takes_only_earlier_ones():
    for own, parts, order in steps("", DOMAIN_ORDER):
        assert order[parts[2]] <= order[own], f"{own} takes {parts[2]}, which comes later"
        assert parts[2] != own


def test_each_step_of_squaring_takes_only_earlier_ones():
    for own, parts, order in steps("squaring", SQUARING_ORDER):
        earlier = parts[2] == "defaults" or order[parts[3]] < order[own]
        # What was asked is named for types only.
        assert earlier or (own, parts[3]) == ("notes", "frame"), f"{own} takes {'.'.join(parts)}"


def test_each_step_of_raising_takes_only_earlier_ones():
    for own, parts, order in steps("raising", RAISING_ORDER):
        assert parts[2] != "raising" or order[parts[3]] < order[own], f"{own} takes {'.'.join(parts)}"
        assert parts[2] not in ("framed", "building", "squaring")


def test_each_step_of_fasteners_takes_only_earlier_ones():
    for own, parts, order in steps("fasteners", FASTENERS_ORDER):
        assert parts[2] != "fasteners" or order[parts[3]] < order[own], f"{own} takes {'.'.join(parts)}"


def test_each_step_of_buying_takes_only_earlier_ones():
    for own, parts, order in steps("buying", BUYING_ORDER):
        earlier = parts[2] != "buying" or len(parts) == 3 or order[parts[3]] < order[own]
        assert earlier, f"{own} takes {'.'.join(parts)}"


def test_the_domain_touches_neither_web_nor_files_nor_clock():
    for path in (ROOT / "service/wallwright/domain").rglob("*.py"):
        outside = {name.split(".")[0] for name in imports(path, package_of(path))}
        if path.parent.name == "buying" and path.name == "solver.py":
            outside -= {"highspy"}
        assert outside <= {
            "wallwright",
            "msgspec",
            "typing",
            "re",
            "bisect",
            "heapq",
            "collections",
            "math",
            "fractions",
            "itertools",
        }, path.name


def pages() -> list[Path]:
    return sorted((ROOT / "viewer" / "wallwright_viewer").rglob("*.py"))


def page_breaches(path: Path) -> list[str]:
    """Imports of one viewer module beyond the floor, the wire and the operations."""
    package = list(path.relative_to(ROOT / "viewer").parts[:-1]) if path.is_relative_to(ROOT) else ["wallwright_viewer"]
    return [name for name in imports(path, package) if room(name) not in FLOOR | {"operations", "wire", "outside", ""}]


def test_one_module_imports_svgwrite():
    users = [
        path
        for path in [*modules(), *pages()]
        if any(name.split(".")[0] == "svgwrite" for name in imports(path, package_of(path)))
    ]
    assert [path.name for path in users] == ["svg.py"]


def test_viewer_and_api_do_not_know_each_other():
    for path in pages():
        assert page_breaches(path) == []
    for path in modules():
        if path.name != "command.py":
            assert not [name for name in imports(path, package_of(path)) if name.startswith("wallwright_viewer")]


def test_a_page_that_reaches_past_the_operations_is_found(tmp_path):
    planted = tmp_path / "planted.py"
    planted.write_text("from wallwright.domain import wall\nfrom wallwright.drawing import svg\n")
    assert len(page_breaches(planted)) == 2


def test_every_module_has_a_room():
    loose = {path.stem for path in (ROOT / "service/wallwright").glob("*.py")}
    rooms = {path.parent.name for path in (ROOT / "service/wallwright").glob("*/__init__.py")}
    assert loose | (rooms & FLOOR) == FLOOR | {"__init__", "command"}
    assert rooms - FLOOR <= set(MAY_IMPORT)


def test_nobody_imports_the_folders_by_name():
    for path in [*modules(), *(ROOT / "viewer").rglob("*.py"), *(ROOT / "tests").rglob("*.py")]:
        for name in imports(path, []):
            assert name.split(".")[0] not in ("service", "viewer"), path


def test_the_top_level_holds_only_what_it_may():
    allowed = {"README.md", "DEVELOPERS.md", "pyproject.toml", "service", "viewer", "openapi", "tests", "docker"}
    shown = {path.name for path in ROOT.iterdir() if not path.name.startswith(".")}
    assert shown <= allowed | {"build", "dist"}


def test_modules_stay_short():
    for path in [*modules(), *(ROOT / "viewer").rglob("*.py")]:
        # The catalogue of texts grows with every capability and holds no code to follow.
        most = 500
        assert len(path.read_text(encoding="utf-8").splitlines()) <= most, path
