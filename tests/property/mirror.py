"""A wall seen in a mirror, written out here so that the service's own mirror is not its own judge."""

from msgspec.structs import replace

from wallwright.domain.wall import Floor, Opening, Partition, Run, Tape, Top, Wall


def mirrored(wall: Wall) -> Wall:
    """The wall with left and right exchanged: its ends, openings, slope, and the end the tape is hooked at."""
    fields = {name: getattr(wall, name) for name in wall.__struct_fields__}
    turned = tuple(
        Opening(o.name, wall.length - o.left - o.width, o.width, o.height, o.sill, o.header, o.jacks)
        for o in reversed(wall.openings)
    )
    tape = Tape("right" if wall.tape.start == "left" else "left", wall.tape.zero, wall.tape.offset)
    ridge = None if wall.top.ridge is None else wall.length - wall.top.ridge
    top = Top(wall.top.shape, wall.top.rise, wall.top.run, "left" if wall.top.up == "right" else "right", ridge)
    anchors = tuple(wall.length - at for at in reversed(wall.floor.anchors))
    floor = Floor(wall.floor.kind, wall.floor.rim, wall.floor.panel, wall.floor.treated_plate, anchors)
    inside = tuple(Partition(wall.length - p.at - p.depth, p.depth) for p in reversed(wall.partitions))
    runs = tuple(
        Run(r.cut, r.size, r.y, _turned(r.right, wall.length), _turned(r.left, wall.length), r.edge) for r in wall.runs
    )
    start = {"left": "right", "right": "left", None: None}[wall.sheathing.start]
    sheathing = replace(wall.sheathing, start=start)
    changed = {
        "runs": runs,
        "partitions": inside,
        "left": wall.right,
        "right": wall.left,
        "openings": turned,
        "tape": tape,
        "top": top,
        "floor": floor,
        "sheathing": sheathing,
    }
    return Wall(**{**fields, **changed})


def _turned(x: int | None, length: int) -> int | None:
    return None if x is None else length - x
