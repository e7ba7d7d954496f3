"""Random schedules of fastening: nailed, screwed, with other nails and joints of the caller's own."""

from hypothesis import strategies as st

from wallwright.domain.joining import Fastening, OwnJoint, Pack
from wallwright.lengths import INCH, inches
from wallwright.published.fastening import NAILS

_OWN = st.sampled_from(
    ("sheet-edge", "sheet-field", "stud-to-bottom-plate", "plate-to-plate", "plate-to-floor", "cap-lap")
)


@st.composite
def own_joints(draw: st.DrawFn) -> OwnJoint:
    """One joint as a caller may fasten it; nails of sheets end inside the wall."""
    joint = draw(_OWN)
    count = None if joint.startswith("sheet-") else draw(st.none() | st.integers(1, 5))
    spacing = draw(st.none() | st.integers(3, 24).map(lambda size: size * INCH))
    if draw(st.booleans()):
        name = draw(st.sampled_from(("6d common", "8d box", "8d common")))
        return OwnJoint(joint, name, "nail", *NAILS[name], count, spacing)
    length = inches(draw(st.sampled_from(("2", "2 1/4", "1 3/4"))))
    return OwnJoint(joint, "", "nail", length, inches("1/8"), count, spacing)


@st.composite
def fastenings(draw: st.DrawFn) -> Fastening:
    """A schedule, plain more often than not."""
    schedule = draw(st.sampled_from(("nailed", "nailed", "screwed")))
    if draw(st.booleans()):
        return Fastening(schedule)
    packs = draw(
        st.lists(st.sampled_from((Pack("8d common", 530), Pack("16d common", 250), Pack("8d common", 100))), max_size=3)
    )
    return Fastening(
        schedule,
        draw(st.sampled_from(("16d common", "16d box", "10d box", "3 x 0.131"))),
        draw(st.sampled_from(("8d common", "8d box", "10d box", "16d box"))),
        draw(st.sampled_from(("", "8d common", "6d common"))),
        draw(st.sampled_from(("plain", "hot-dip", "stainless"))),
        tuple(draw(st.lists(own_joints(), max_size=3))),
        tuple(packs),
        draw(st.sampled_from((0.0, 5.0, 12.5))),
    )
