"""A building's whole set of drawings in one go: each wall framed, skinned, fastened and weighed once for all of them."""

from decimal import Decimal
from typing import Final

import msgspec
from msgspec.structs import replace

from wallwright.domain import building as domain
from wallwright.domain.built import BuiltWall
from wallwright.domain.fasteners import Fasteners
from wallwright.domain.raising.raised import Raised
from wallwright.drawing.building import plan
from wallwright.drawing.elevation import framing_pages
from wallwright.drawing.fasteners import nailing_pages
from wallwright.drawing.raising import raising_scene
from wallwright.drawing.sheathing import sheathing_pages
from wallwright.drawing.svg import svg_text
from wallwright.lengths import Units
from wallwright.operations import building
from wallwright.operations.canonical import revision_of
from wallwright.operations.completed import to_wire
from wallwright.operations.converters import CONVERTERS
from wallwright.operations.walls import to_domain
from wallwright.wire.base import encode_length, read_length
from wallwright.wire.building import Building, BuildingAnswer
from wallwright.wire.limits import NAME_MAX
from wallwright.wire.wall import Wall

_ENCODER: Final = msgspec.json.Encoder(enc_hook=encode_length)
_WALLS: Final = msgspec.json.Decoder(Wall, dec_hook=read_length, float_hook=Decimal)


class WallSheets(msgspec.Struct, frozen=True):
    """One wall's drawings by the name of their operation, and the request that each of them answers."""

    side: str
    body: bytes
    drawings: dict[str, list[str]]
    """Of each, its papers: more than one where a wall is too long for one."""


class PrintSet(msgspec.Struct, frozen=True):
    """A building's answer with the plan and every wall's drawings; each wall's sheets name the building."""

    answer: BuildingAnswer
    body: bytes
    plan: str
    walls: list[WallSheets]


def print_set(request: Building) -> PrintSet:
    """The whole set of a building, whatever parts it asks for. Raises PlanRefused with every fault found."""
    asked = building.to_domain(request)
    units = request.units
    built = domain.build(asked)
    fastened, raised = building.fastened(built), building.raised_walls(built)
    parts = building.parts_of(replace(request, parts=msgspec.UNSET))
    answer = building.building_answer(built, asked, units, parts, fastened, raised)
    return PrintSet(
        answer,
        _ENCODER.encode(answer.building),
        plan(built, units, revision_of(domain.closed(asked), units)),
        [_sheets(asked.name, one, fastened[one.side], raised[one.side], units) for one in built.walls],
    )


def _sheets(of: str, one: BuiltWall, nailed: Fasteners, lifted: Raised, units: Units) -> WallSheets:
    """One wall's drawings, under a name that says which building it belongs to."""
    assert one.skin is not None  # noqa: S101 - the whole set is asked for with its skin
    wall = replace(one.wall, name=sheet_name(of, one.wall.name, one.side))
    layout, skin = replace(one.layout, wall=wall), replace(one.skin, wall=wall)
    nailed, lifted = replace(nailed, wall=wall), replace(lifted, wall=wall)
    body = _ENCODER.encode(to_wire(wall, units))
    # A completed wall holds its lengths as they go out; read again it is a request like any other, and so is its revision.
    revision = revision_of(to_domain(_WALLS.decode(body)), units)
    texts = [CONVERTERS[units].finding(finding).text for finding in lifted.findings]
    drawings = {
        "layout": framing_pages(layout, units, revision),
        "sheathing": sheathing_pages(skin, units, revision, layout),
        "fasteners": nailing_pages(nailed, skin, layout, units, revision),
        "raising": [raising_scene(lifted, units, revision, texts)],
    }
    return WallSheets(one.side, body, {name: [svg_text(page) for page in pages] for name, pages in drawings.items()})


def sheet_name(of: str, name: str, side: str) -> str:
    """What a wall's sheets are headed with: the building, then the wall, within the length of a name."""
    own = f"{name} wall" if name == side else name
    head = of[: max(0, NAME_MAX - len(own) - 2)].rstrip()
    return f"{head}, {own}" if head else own
