"""A problem drawn, for whoever asked for a drawing and can only show a picture."""

from functools import lru_cache

from msgspec import UNSET

from wallwright.drawing.problem import problem_scene
from wallwright.drawing.svg import svg_text
from wallwright.wire.answers import Problem


def problem_drawing(problem: Problem) -> bytes:
    """The problem as an SVG document: its title, its detail and its faults in words."""
    if problem.errors is UNSET:
        return _plain(problem.title, problem.detail, problem.code)
    faults = [(fault.pointer, fault.detail) for fault in problem.errors]
    return svg_text(problem_scene(problem.title, problem.detail, faults, problem.code)).encode()


@lru_cache(64)
def _plain(title: str, detail: str, code: str) -> bytes:
    """Of these there are few: a busy service sends the same one over and over."""
    return svg_text(problem_scene(title, detail, (), code)).encode()
