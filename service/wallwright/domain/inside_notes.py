"""What there is to say about a wall's inner face: the backing of partitions."""

from wallwright.domain.members import Member
from wallwright.domain.partitions import HOLD, LINING
from wallwright.domain.wall import Wall
from wallwright.findings import Finding, Value
from wallwright.published import plates as published


def inside_findings(wall: Wall, members: tuple[Member, ...]) -> list[Finding]:
    """The findings on partitions, in the order of the wall's fields."""
    if not wall.partitions:
        return []
    ids = tuple(member.id for member in members if member.role == "backing")
    values: tuple[tuple[str, Value], ...] = (
        ("count", str(len(wall.partitions))), ("lining", LINING), ("hold", HOLD), ("pieces", str(len(ids))),
    )  # fmt: skip
    return [
        Finding("partition-backed", "/partitions", values, ids),
        Finding("partition-plates", "/partitions", source=published.plates_source(wall.rules)),
    ]
