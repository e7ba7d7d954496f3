"""From a scene on paper to SVG. This module alone imports svgwrite.

One SVG unit is 1 mm of paper. There is no script, no reference to anything outside, and one constant
style sheet, whose hash the content policy names.
"""

import base64
import hashlib
from typing import Final

import svgwrite  # type: ignore[import-untyped]

from wallwright.drawing.scene import Area, Lines, Scene, Text

STYLE: Final = (
    ".ww-paper{fill:#fff}"
    ".ww-cut{fill:#fff;stroke:#000;stroke-width:.7}"
    ".ww-member{fill:#fff;stroke:#000;stroke-width:.35}"
    ".ww-plate{fill:#eee;stroke:#000;stroke-width:.5}"
    ".ww-header{fill:#ddd;stroke:#000;stroke-width:.5}"
    ".ww-block{fill:#f4f4f4;stroke:#000;stroke-width:.25}"
    ".ww-void{fill:none;stroke:#000;stroke-width:.18;stroke-dasharray:2 1}"
    ".ww-sheet{fill:#fff;stroke:#000;stroke-width:.5}"
    ".ww-hole{fill:#eee;stroke:#000;stroke-width:.35}"
    ".ww-behind{fill:none;stroke:#777;stroke-width:.18;stroke-dasharray:1 1}"
    ".ww-mask{fill:#fff}"
    ".ww-thin{fill:none;stroke:#000;stroke-width:.18}"
    ".ww-dim{fill:none;stroke:#000;stroke-width:.25}"
    ".ww-bold{fill:none;stroke:#000;stroke-width:.5}"
    ".ww-bar{fill:#000}"
    "text{font-family:'DejaVu Sans',Arial,sans-serif;fill:#000}"
    ".ww-t{font-size:2.5px}.ww-t3{font-size:3.5px}.ww-t5{font-size:5px}"
)
STYLE_HASH: Final = "sha256-" + base64.b64encode(hashlib.sha256(STYLE.encode()).digest()).decode()
_ANCHORS: Final = {"start": "start", "middle": "middle", "end": "end"}


def _n(value: float) -> str:
    """A coordinate with at most three decimals."""
    text = f"{value:.3f}".rstrip("0").rstrip(".")
    return "0" if text in ("-0", "") else text


def svg_text(scene: Scene) -> str:
    """A scene as the text of an SVG document, the same bytes for the same scene."""
    width, height = _n(scene.width), _n(scene.height)
    drawing = svgwrite.Drawing(
        size=(f"{width}mm", f"{height}mm"), viewBox=f"0 0 {width} {height}", debug=False, id="ww", role="img"
    )
    drawing["aria-labelledby"] = "ww-title ww-desc"
    rect, path, text = drawing.rect, drawing.path, drawing.text
    drawing.add(rect(insert=("0", "0"), size=(width, height), class_="ww-paper"))
    for shape in scene.shapes:
        if isinstance(shape, Area):
            d = "M" + "L".join(f"{_n(x)} {_n(y)}" for x, y in shape.points) + "Z"
            element = path(d=d, class_=f"ww-{shape.kind}")
            if shape.title:
                element.set_desc(title=shape.title)
            for name, value in shape.data:
                element[f"data-{name}"] = value
            drawing.add(element)
        elif isinstance(shape, Lines):
            d = "".join(f"M{_n(x1)} {_n(y1)}L{_n(x2)} {_n(y2)}" for x1, y1, x2, y2 in shape.lines)
            if d:
                drawing.add(path(d=d, class_=f"ww-{shape.kind}"))
        else:
            drawing.add(_text(text, shape))
    return _finished(drawing.tostring(), scene)


def _text(make: object, shape: Text) -> object:
    element = make(shape.text, insert=(_n(shape.x), _n(shape.y)), class_=f"ww-{shape.size}")  # type: ignore[operator]
    if shape.anchor != "start":
        element["text-anchor"] = _ANCHORS[shape.anchor]
    if shape.turned:
        element["transform"] = f"rotate(-90 {_n(shape.x)} {_n(shape.y)})"
    return element


def _finished(markup: str, scene: Scene) -> str:
    """The document with its title, description and style, which stand before everything drawn."""
    start = markup.index("<defs />")
    head = (
        f'<title id="ww-title">{_escaped(scene.title)}</title><desc id="ww-desc">{_escaped(scene.description)}</desc>'
        f"<style>{STYLE}</style>"
    )
    return markup[:start] + head + markup[start + len("<defs />") :]


def _escaped(text: str) -> str:
    return text.replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;")
