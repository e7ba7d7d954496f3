"""Every kind of drawing printed by a browser at true scale, on letter and on A4, measured in the PDF that comes out.

    python -m tests.drawing.printed

Each drawing stands in a page under the viewer's own stylesheet and is printed by headless Chromium; poppler's pdftocairo
gives the lines of the printed sheet. The scale bar and known lengths (the whole wall, the building's front, a board's piece)
are compared with what the scale in the title strip makes of them, reckoned here. Printed is the greatest difference; the
status is 1 where one is over 0.2 mm, a sheet has not the size of its paper, or a drawing takes more sheets than it has papers.
"""

import json
import re
import subprocess
import sys
import tempfile
from collections.abc import Iterator
from fractions import Fraction
from pathlib import Path
from shutil import which
from xml.etree import ElementTree

from wallwright.api.reader import Reader
from wallwright.domain.fasteners import fasten
from wallwright.domain.framed import framed, skinned
from wallwright.drawing.elevation import framing_pages
from wallwright.drawing.fasteners import nailing_pages
from wallwright.drawing.scene import stacked
from wallwright.drawing.sheathing import sheathing_pages
from wallwright.drawing.svg import svg_text
from wallwright.operations.table import BY_NAME
from wallwright.operations.walls import to_domain

ALLOWED = 0.2
POINT = 25.4 / 72
PAPERS = {"in": ("letter", 279.4, 215.9), "mm": ("a4", 297.0, 210.0)}
STYLE = Path(__file__).parents[2] / "viewer" / "wallwright_viewer" / "static" / "style.css"
DOOR = {"in": {"left": "4'", "width": "3'", "height": "6' 8\""}, "mm": {"left": 1200, "width": 900, "height": 2050}}
SIZES = {
    "in": {"wall": ("14'", 4267.2), "long": ("84'", 25603.2), "high": ("8'", 2438.4), "piece": ("7'", 2133.6), "door": 914.4},
    "mm": {"wall": (4200, 4200), "long": (25000, 25000), "high": (2400, 2400), "piece": (2100, 2100), "door": 900},
}  # fmt: skip
Line = tuple[float, float, float, float]


def questions(units: str) -> Iterator[tuple[str, str, dict[str, object], list[float], int]]:
    """Name, operation, request, true lengths in millimetres of lines that the drawing must hold, and its papers."""
    size = SIZES[units]
    (long, whole), (high, height) = size["wall"], size["high"]
    wall = {"units": units, "name": "pump house", "length": long, "height": high, "openings": [DOOR[units]]}
    for operation in ("layout", "sheathing", "fasteners"):
        yield operation, operation, wall, [whole, size["door"]] if operation == "layout" else [whole], 1
        yield f"{operation}, long", operation, wall | {"length": size["long"][0]}, [], 3
    yield "raising", "raising", wall, [height], 1
    floor = {"width": long, "depth": long}
    yield (
        "plan",
        "building",
        {"units": units, "footprint": floor, "wall_height": high, "name": "pump house"},
        [whole],
        1,
    )
    diagonal = (whole**2 + height**2) ** 0.5 / (25.4 if units == "in" else 1)
    frame = {"units": units, "width": long, "height": high, "rising": diagonal, "falling": diagonal}
    yield "frame", "squaring-frame", frame, [whole, height], 1
    across = 2**0.5 * whole / (25.4 if units == "in" else 1)
    sides = dict.fromkeys(("front", "right", "back", "left"), long)
    diagonals = dict.fromkeys(("front_left_to_back_right", "front_right_to_back_left"), across)
    yield "deck", "squaring-deck", {"units": units, "sides": sides, "diagonals": diagonals}, [whole], 1
    piece = {"stock": "2x4", "length": size["piece"][0], "count": 2}
    order = {"units": units, "pieces": [piece], "offers": [{"stock": "2x4", "length": long, "price": 9}]}
    yield "cutting", "buying", order, [size["piece"][1]], 1


def ratio_of(text: str) -> Fraction:
    """What a scale says: 1/2" = 1' 0" is one to 24."""
    if text.startswith("1:"):
        return Fraction(text[2:])
    inch = text.partition('"')[0]
    return 12 / sum((Fraction(part) for part in inch.split("-")), Fraction(0))


def drawn(operation: str, body: dict[str, object], units: str) -> list[str]:
    """A drawing as the papers that a print set has of it."""
    found = BY_NAME[operation]
    request = Reader(found.request).read(json.dumps(body).encode())
    if operation not in ("layout", "sheathing", "fasteners"):
        return [found.drawing(request)]
    done = framed(to_domain(request))
    skin = skinned(done)
    pages = {
        "layout": lambda: framing_pages(done.layout, units, "0" * 8),
        "sheathing": lambda: sheathing_pages(skin, units, "0" * 8, done.layout),
        "fasteners": lambda: nailing_pages(fasten(done.layout, skin), skin, done.layout, units, "0" * 8),
    }[operation]()
    assert svg_text(stacked(pages, "")).count("<path") == found.drawing(request).count("<path")
    return [svg_text(page) for page in pages]


def printed(svgs: list[str], paper: str, folder: Path) -> list[tuple[float, float, list[Line]]]:
    """Width, height and lines in millimetres of each sheet that comes out of the printer."""
    page, pdf = folder / "page.html", folder / "page.pdf"
    page.write_text(
        f'<!doctype html><meta charset="utf-8"><style>{STYLE.read_text()}</style><body class="{paper}"><main>'
        + "".join(f'<section class="drawing"><div class="paper">{svg}</div></section>' for svg in svgs)
    )
    chromium = which("chromium") or "chromium"
    subprocess.run(
        [chromium, "--headless", "--no-sandbox", "--disable-gpu", "--no-pdf-header-footer", f"--print-to-pdf={pdf}", page.as_uri()],
        check=True, capture_output=True, timeout=120,
    )  # fmt: skip
    told = subprocess.run(["pdfinfo", pdf], check=True, capture_output=True, text=True).stdout
    (count,) = re.findall(r"Pages: +(\d+)", told)
    sheets = [sheet(pdf, number, folder) for number in range(1, int(count) + 1)]
    # What follows the drawings, were there anything, begins on a sheet of its own.
    return sheets if sheets[-1][2] else sheets[:-1]


def sheet(pdf: Path, number: int, folder: Path) -> tuple[float, float, list[Line]]:
    """One printed sheet's size and lines, in millimetres."""
    out = folder / "sheet.svg"
    subprocess.run(["pdftocairo", "-svg", "-f", str(number), "-l", str(number), pdf, out], check=True)
    root = ElementTree.parse(out).getroot()
    _, _, width, height = map(float, root.attrib["viewBox"].split())
    lines = [
        line
        for group in root
        if not group.tag.endswith("defs")
        for path in group.iter("{http://www.w3.org/2000/svg}path")
        for line in lines_of(path)
    ]
    return width * POINT, height * POINT, lines


def lines_of(path: ElementTree.Element) -> Iterator[Line]:
    """The straight lines of a path, in millimetres of paper."""
    matrix = re.findall(r"-?[\d.]+", path.attrib.get("transform", "matrix(1,0,0,1,0,0)"))
    a, b, c, d, e, f = map(float, matrix)
    here = start = (0.0, 0.0)
    for command, said in re.findall(r"([MLZC])([^MLZC]*)", path.attrib["d"]):
        numbers = [float(number) for number in said.split()]
        there = start if command == "Z" else (numbers[-2], numbers[-1])
        if command in "LZ":
            ends = [((a * x + c * y + e) * POINT, (b * x + d * y + f) * POINT) for x, y in (here, there)]
            yield (*ends[0], *ends[1])
        if command == "M":
            start = there
        here = there


def lengths(lines: list[Line]) -> list[float]:
    """How long each level or plumb line is."""
    return [abs(x2 - x1) + abs(y2 - y1) for x1, y1, x2, y2 in lines if min(abs(x2 - x1), abs(y2 - y1)) < 0.01]


def bar(lines: list[Line], height: float) -> float:
    """How long the scale bar is: its boxes are 1.5 mm high and stand in the title strip."""
    sides = [
        x1 for x1, y1, x2, y2 in lines
        if abs(x2 - x1) < 0.01 and abs(abs(y2 - y1) - 1.5) < 0.05 and min(y1, y2) > height - 30
    ]  # fmt: skip
    return max(sides) - min(sides)


def judged(svgs: list[str], units: str, wanted: list[float], papers: int, folder: Path) -> tuple[list[str], float]:
    """What is wrong with a printed drawing, and how far its lengths are from true at most."""
    paper, wide, high = PAPERS[units]
    texts = [
        "".join(text.itertext()) for text in ElementTree.fromstring(svgs[0]).iter("{http://www.w3.org/2000/svg}text")
    ]
    ratio = float(ratio_of(next(text for text in texts if text.startswith("Scale "))[6:]))
    shown = next(found for text in texts if (found := re.fullmatch(r"([\d.]+) (ft|m)", text)))
    long = float(shown[1]) * (304.8 if shown[2] == "ft" else 1000) / ratio
    sheets = printed(svgs, paper, folder)
    wrong = [] if len(sheets) == papers else [f"{len(sheets)} sheets, not {papers}"]
    worst = 0.0
    for number, (width, height, lines) in enumerate(sheets, 1):
        if abs(width - wide) > 0.5 or abs(height - high) > 0.5:
            wrong.append(f"sheet {number} is {width:.1f} x {height:.1f} mm")
        offs = [abs(bar(lines, height) - long)]
        offs += [min(abs(one - true / ratio) for one in lengths(lines)) for true in wanted]
        worst = max(worst, *offs)
        wrong += [f"sheet {number} is off by {off:.2f} mm" for off in offs if off > ALLOWED]
    return wrong, worst


def main() -> int:
    status = 0
    with tempfile.TemporaryDirectory() as place:
        for units, (paper, _, _) in PAPERS.items():
            for name, operation, body, wanted, papers in questions(units):
                wrong, worst = judged(drawn(operation, body, units), units, wanted, papers, Path(place))
                print(f"{paper} {name}: off by {worst:.3f} mm at most{''.join(f'; {one}' for one in wrong)}")
                status |= bool(wrong)
    return status


if __name__ == "__main__":
    sys.exit(main())
