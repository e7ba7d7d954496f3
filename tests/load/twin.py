"""The stack that one would take instead, with the same calculation: `/v1/layout` by FastAPI and pydantic. For measuring alone.

Its models have the fields, limits and order of the service's Structs, from which they are made so that they keep in step; as
classes they are what is written by hand there. Requests are read into them, answers built of them by keyword, and sent through
`response_model`, all as that stack's manual has it; the calculation and the filling in of defaults are the service's own code.
The handler is a plain function, so that it computes in a thread as the service does.
"""

import functools
import operator
import sys
import types
import typing
from decimal import Decimal
from typing import Annotated, Any

import uvicorn
from fastapi import FastAPI
from msgspec import UNSET, Meta, Struct, UnsetType
from msgspec.structs import NODEFAULT, fields
from pydantic import BaseModel, ConfigDict, Field, PlainValidator, create_model
from tests.load.kept import keep

from wallwright.domain import framed
from wallwright.domain.members import Anchor, CutRow, Layout, Mark, Member
from wallwright.lengths import to_number
from wallwright.operations import completed, converters, fastening, reading, walls
from wallwright.operations.converters import CONVERTERS, Converter
from wallwright.wire import answers as wire_answers
from wallwright.wire import layout as wire_layout
from wallwright.wire import stock as wire_stock
from wallwright.wire import wall as wire_wall
from wallwright.wire.base import Given, read_length

LIMITS = ("ge", "gt", "le", "lt", "max_length", "min_length", "pattern", "description")


class Family:
    """Models made from Structs: those of requests read lengths, those of answers hold them as numbers."""

    def __init__(self, config: ConfigDict, lengths: bool) -> None:
        self.config, self.lengths = config, lengths
        self.made: dict[type, type[BaseModel]] = {}

    def model(self, kind: type[Struct]) -> type[BaseModel]:
        """The model with a Struct's fields, absent ones None."""
        if kind not in self.made:
            hints = typing.get_type_hints(kind, include_extras=True)
            made: dict[str, Any] = {}
            for one in fields(kind):
                alias = one.encode_name if one.encode_name != one.name else None
                default = ... if one.default is NODEFAULT else None if one.default is UNSET else one.default
                made[one.name] = (self.hint(hints[one.name]), Field(default, alias=alias))
            self.made[kind] = create_model(kind.__name__, __config__=self.config, **made)
        return self.made[kind]

    def hint(self, hint: Any) -> Any:
        """A field's type, said to pydantic."""
        origin, parts = typing.get_origin(hint), typing.get_args(hint)
        if origin is Annotated:
            metas = [one for one in parts[1:] if isinstance(one, Meta)]
            said = {name: value for one in metas for name in LIMITS if (value := getattr(one, name)) is not None}
            return Annotated[self.hint(parts[0]), Field(**said)]
        if origin in (typing.Union, types.UnionType):
            return functools.reduce(operator.or_, (None if one is UnsetType else self.hint(one) for one in parts))
        if origin is list:
            return list[self.hint(parts[0])]
        if isinstance(hint, type) and issubclass(hint, Given):
            return Annotated[Any, PlainValidator(functools.partial(length, hint))] if self.lengths else float
        return self.model(hint) if isinstance(hint, type) and issubclass(hint, Struct) else hint

    def all_of(self, module: types.ModuleType) -> types.SimpleNamespace:
        """A model for each Struct of a module."""
        kinds = {
            name: kind for name, kind in vars(module).items() if isinstance(kind, type) and issubclass(kind, Struct)
        }
        return types.SimpleNamespace(**{name: self.model(kind) for name, kind in kinds.items()})


def length(kind: type[Given], raw: Any) -> Given:
    """A length as the service reads it."""
    return read_length(kind, Decimal(str(raw)) if isinstance(raw, float) else raw)


# The patterns of names look ahead, which pydantic's own engine for them cannot.
ASKED = Family(ConfigDict(extra="forbid", populate_by_name=True, regex_engine="python-re"), lengths=True)
GIVEN = Family(ConfigDict(populate_by_name=True, regex_engine="python-re"), lengths=False)
Wall = ASKED.model(wire_wall.Wall)
out = GIVEN.all_of(wire_layout)


def take_over() -> None:
    """The service's conversions make these models from here on in place of Structs, in this process.

    The calculation is asked through them too. A fastening given as an object is the one thing that is not read so.
    """
    for module in (walls, completed, fastening, reading, converters):
        module.UNSET = None  # type: ignore[attr-defined]
    completed.wire = fastening.wire = GIVEN.all_of(wire_wall)  # type: ignore[assignment]
    reading.StockSize = ASKED.model(wire_stock.StockSize)  # type: ignore[misc,assignment]
    said = GIVEN.all_of(wire_answers)
    converters.WireFinding, converters.Compared = said.Finding, said.Compared  # type: ignore[misc]
    for name in ("length", "extent", "offset"):
        setattr(Converter, name, lambda self, value: to_number(value, self.units))


def answer(found: Layout, units: str) -> BaseModel:
    """A layout as models of the answer."""
    c = CONVERTERS[units]
    stocks = dict.fromkeys(one.stock for one in found.members)
    return out.LayoutAnswer(
        wall=completed.to_wire(found.wall, units),
        members=[member(c, one) for one in found.members],
        marks=[mark(c, one) for one in found.marks],
        cut_list=[row(c, one) for one in found.cut_list],
        anchors=[anchor(c, one) for one in found.anchors],
        stocks=[out.Stock(name=s.name, thickness=c.number(s.thickness), width=c.number(s.width)) for s in stocks],
        findings=[c.finding(one) for one in found.findings],
    )


def number(c: Converter, value: int | None) -> float | None:
    return None if value is None else c.number(value)


def tape(c: Converter, value: int | None) -> str | None:
    return None if value is None else c.tape(value)


def member(c: Converter, one: Member) -> BaseModel:
    cut_outs = [out.CutOut(left=c.number(cut.left), right=c.number(cut.right)) for cut in one.cut_outs]
    cuts = [out.EndCut(end=cut.end, angle_degrees=cut.angle, long_point=cut.long) for cut in one.cuts]
    return out.Member(
        id=one.id, mark=one.mark, role=one.role, stock=one.stock.name, plies=one.plies, length=c.number(one.length),
        tape=c.tape(one.length), x=c.number(one.x), y=c.number(one.y), z=c.number(one.z), width=c.number(one.width),
        height=c.number(one.height), depth=c.number(one.depth), treated=one.treated,
        ripped_to=number(c, one.ripped_to), opening=one.opening or None,
        outline=c.polygon(one.outline) if one.outline else None, cut_out_after_raising=cut_outs or None,
        short_point=number(c, one.short), short_point_tape=tape(c, one.short), cuts=cuts or None,
    )  # fmt: skip


def mark(c: Converter, one: Mark) -> BaseModel:
    return out.Mark(
        plate=one.plate, member=one.member, at=c.number(one.at), reading=c.number(one.reading),
        reading_tape=c.tape(one.reading), side=one.side, sign=one.sign,
    )  # fmt: skip


def anchor(c: Converter, one: Anchor) -> BaseModel:
    return out.Anchor(
        id=one.id, plate=one.plate, x=c.number(one.x), z=c.number(one.z), reading=c.number(one.reading),
        reading_tape=c.tape(one.reading), origin=one.origin,
    )  # fmt: skip


def row(c: Converter, one: CutRow) -> BaseModel:
    return out.CutRow(
        mark=one.mark, roles=list(one.roles), stock=one.stock.name, length=c.number(one.length),
        tape=c.tape(one.length), count=one.count, members=list(one.members), treated=one.treated,
        ripped_to=number(c, one.ripped_to), short_point=number(c, one.short), short_point_tape=tape(c, one.short),
        cut_angles_degrees=list(one.cut_angles) or None,
    )  # fmt: skip


app = FastAPI()


@app.get("/health")
async def health() -> dict[str, str]:
    return {"status": "ok"}


@app.post("/v1/layout", response_model=out.LayoutAnswer, response_model_exclude_none=True)
def layout(wall: Wall) -> Any:  # type: ignore[valid-type]
    return answer(framed.layout(walls.to_domain(wall)), wall.units)  # type: ignore[attr-defined,arg-type]


if __name__ == "__main__":
    take_over()
    keep("--kept" in sys.argv)
    uvicorn.run(app, port=int(sys.argv[1]), loop="asyncio", http="httptools", access_log=False, log_level="warning")
