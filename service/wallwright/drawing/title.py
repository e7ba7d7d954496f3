"""The frame of the paper and its title strip: what is drawn, at which scale, and what was not checked."""

from wallwright.drawing.paper import MARGIN, TITLE_STRIP, View
from wallwright.drawing.scene import Area, Lines, Text, shortened
from wallwright.lengths import FOOT, MILLIMETRE, Units

NOT_CHECKED = (
    "Not checked: loads, bracing, tie-down, anchorage to the ground, soil, ways out.",
    "Local codes and licensed practice come first. Two people or more to raise; brace at once.",
)


def title_strip(
    view: View,
    name: str,
    what: str,
    units: Units,
    revision: str,
    rules: str,
    warnings: tuple[str, str] = NOT_CHECKED,
    sheet: str = "",
    saw: str = "",
) -> list[Area | Lines | Text]:
    """The strip along the foot of the paper, with a scale bar and what was not checked; ``sheet`` says which of several papers it is.

    ``saw`` is what the saw is set to.
    """
    left, right = MARGIN, view.width - MARGIN
    top, bottom = view.height - MARGIN - TITLE_STRIP, view.height - MARGIN
    middle = left + (right - left) * 0.6
    frame = [
        (left, MARGIN, right, MARGIN), (right, MARGIN, right, bottom), (right, bottom, left, bottom),
        (left, bottom, left, MARGIN), (left, top, right, top), (middle, top, middle, bottom),
    ]  # fmt: skip
    shapes: list[Area | Lines | Text] = [Lines("bold", tuple(frame))]
    room = middle - left - 6
    shapes.append(Text(left + 3, top + 6, shortened(name or "unnamed", room, "t5"), "t5"))
    shapes.append(Text(left + 3, top + 10.5, shortened(what, room)))
    shapes += [Text(left + 3, top + 14 + 3.5 * number, shortened(line, room)) for number, line in enumerate(warnings)]
    unit_text = "inches" if units == "in" else "millimetres"
    shapes.append(Text(middle + 3, top + 5, f"Scale {view.scale_text}"))
    shapes.append(
        Text(
            middle + 3,
            top + 9,
            shortened(f"Lengths in {unit_text}; actual sizes{saw and '; '}{saw}", right - middle - 6),
        )
    )
    shapes.append(Text(middle + 3, top + 13, f"Revision {revision}   {rules}"))
    if sheet:
        shapes.append(Text(right - 3, top + 5.5, sheet, "t3", "end"))
    shapes += _scale_bar(view, middle + 3, top + 15.5, units)
    return shapes


def _scale_bar(view: View, x: float, y: float, units: Units) -> list[Area | Lines | Text]:
    """A bar of whole feet or half metres, since a print that was fitted to its page keeps no ratio."""
    step, word = (FOOT, "ft") if units == "in" else (500 * MILLIMETRE, "m")
    # At the largest metric scale half a metre would run past the paper's frame.
    parts_of_it = 5 if view.size(step) > 80 else 1
    step //= parts_of_it
    count = max(1, min(4, int(60 / max(view.size(step), 0.01))))
    many = 1
    while view.size(step * many) < 6:
        many *= 2
    count = max(1, min(4, int(60 / view.size(step * many))))
    long = view.size(step * many)
    parts: list[Area | Lines | Text] = []
    for number in range(count):
        box = (
            (x + number * long, y),
            (x + (number + 1) * long, y),
            (x + (number + 1) * long, y + 1.5),
            (x + number * long, y + 1.5),
        )
        parts.append(Area("bar" if number % 2 == 0 else "member", box))
    shown = (count * many if units == "in" else count * many / 2) / parts_of_it
    parts.append(Text(x + count * long + 1.5, y + 2, f"{shown:g} {word}"))
    return parts
