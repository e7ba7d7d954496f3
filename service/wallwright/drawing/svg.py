"""From a scene on paper to SVG. This module alone imports svgwrite.

One SVG unit is 1 mm of paper. There is no script, no reference to anything outside, and one constant
style sheet, whose hash the content policy names.
"""

from collections.abc import Callable
from functools import lru_cache
from typing import Any

import svgwrite  # type: ignore[import-untyped]

from wallwright.drawing.scene import Area, Place, Scene, Text
from wallwright.drawing.style import STYLE

Make = Callable[..., Any]
"""A factory of the drawing: elements made by it are not validated, which would take most of the time."""


@lru_cache(4096)
def _n(value: float) -> str:
    """A coordinate with at most three decimals; most stand several times in one drawing. Raises ValueError for what is no finite number."""
    text = f"{value:.3f}"
    if "n" in text:
        raise ValueError(f"no place on paper: {text}")
    text = text.rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def svg_text(scene: Scene) -> str:
    """A scene as the text of an SVG document, the same bytes for the same scene."""
    width, height = _n(scene.width), _n(scene.height)
    drawing = svgwrite.Drawing(
        size=(f"{width}mm", f"{height}mm"), viewBox=f"0 0 {width} {height}", debug=False, id="ww"
    )
    root = drawing.attribs
    root |= {"xmlns": "http://www.w3.org/2000/svg", "role": "img", "aria-labelledby": "ww-title ww-desc"}
    paper = drawing.rect(insert=("0", "0"), size=(width, height), class_="ww-paper")
    # What a factory makes of one class is the same each time, so that it is asked once for each.
    path, text = lru_cache(None)(drawing.path), lru_cache(None)(drawing.text)
    inner = [
        f'<title id="ww-title">{_escaped(scene.title)}</title><desc id="ww-desc">{_escaped(scene.description)}</desc>',
        f"<style>{STYLE}</style>",
        _written("rect", paper.attribs),
    ]
    for shape in scene.shapes:
        if isinstance(shape, Area):
            inner.append(_area(path, shape))
        elif isinstance(shape, Text):
            inner.append(_text(text, shape))
        elif shape.lines:
            inner.append(_path(path, "".join([_line(*line) for line in shape.lines]), shape.kind, {}))
    return _written("svg", root, "".join(inner))


def _line(x1: float, y1: float, x2: float, y2: float) -> str:
    """One line of a path; a level or upright one takes a number less."""
    if x1 == x2:
        return f"M{_n(x1)} {_n(y1)}V{_n(y2)}"
    return f"M{_n(x1)} {_n(y1)}H{_n(x2)}" if y1 == y2 else f"M{_n(x1)} {_n(y1)}L{_n(x2)} {_n(y2)}"


def _area(make: Make, shape: Area) -> str:
    inner = ""
    if shape.title:
        inner = f"<title>{_escaped(shape.title)}</title>"
    if shape.description:
        inner += f"<desc>{_escaped(shape.description)}</desc>"
    return _path(
        make, _outline(shape.points), shape.kind, {f"data-{name}": _escaped(value) for name, value in shape.data}, inner
    )


def _outline(points: tuple[Place, ...]) -> str:
    """A closed outline; the four sides of an upright rectangle take half as many numbers."""
    if len(points) == 4:
        (x0, y0), (x1, y1), (x2, y2), (x3, y3) = points
        if x0 == x3 and x1 == x2 and y0 == y1 and y2 == y3:
            return f"M{_n(x0)} {_n(y0)}H{_n(x1)}V{_n(y2)}H{_n(x0)}Z"
    return "M" + "L".join([f"{_n(x)} {_n(y)}" for x, y in points]) + "Z"


def _path(make: Make, d: str, kind: str, data: dict[str, str], inner: str = "") -> str:
    element = make(class_=f"ww-{kind}")
    # A path's commands become an attribute only in the library's own serializer, which is not used.
    return _written("path", element.attribs | {"d": d} | data, inner)


def _text(make: Make, shape: Text) -> str:
    x, y = _n(shape.x), _n(shape.y)
    attributes = make("", class_=f"ww-{shape.size}").attribs | {"x": x, "y": y}
    if shape.anchor != "start":
        attributes["text-anchor"] = shape.anchor
    if shape.turned:
        attributes["transform"] = f"rotate(-90 {x} {y})"
    return _written("text", attributes, _escaped(shape.text))


def _written(name: str, attributes: dict[str, str], inner: str = "") -> str:
    """One element as text, its attributes escaped where they are a caller's words.

    The library's serializer goes through an element tree, at several times the cost.
    """
    said = "".join([f' {key}="{value}"' for key, value in attributes.items()])
    return f"<{name}{said}>{inner}</{name}>" if inner else f"<{name}{said}/>"


def _escaped(text: str) -> str:
    return text.replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;").replace('"', "&quot;")
