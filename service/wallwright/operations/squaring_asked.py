"""Measured frames and decks as they are asked about: from the wire to the domain and back, complete."""

from typing import Any

from msgspec import UNSET
from msgspec.structs import replace

from wallwright.domain.squaring import deck as deck_domain
from wallwright.domain.squaring import frame as frame_domain
from wallwright.domain.squaring.measured import TapeUse
from wallwright.domain.squaring.placing import EDGES
from wallwright.domain.squaring.standing import Brace, Plumb, Sheet
from wallwright.findings import Fault, PlanRefused
from wallwright.operations.converters import Converter
from wallwright.operations.reading import Reading, given
from wallwright.wire import limits
from wallwright.wire import squaring_asked as wire_asked
from wallwright.wire.building import BuildingDeck


def to_frame(request: wire_asked.Frame) -> frame_domain.Frame:
    """The frame asked about, complete. Raises PlanRefused with every length that is out of range."""
    reading = Reading(request.units)
    least, long, high = limits.MEASURED_MIN, limits.WALL_LENGTH_MAX, limits.WALL_HEIGHT_MAX
    width = reading.length(request.width, "/width", least, long)
    height = reading.length(request.height, "/height", least, high)
    rising = reading.length(request.rising, "/rising", least, limits.MEASURED_DIAGONAL_MAX)
    falling = reading.length(request.falling, "/falling", least, limits.MEASURED_DIAGONAL_MAX)
    top = None if request.top is UNSET else reading.length(request.top, "/top", least, long)
    right = None if request.right is UNSET else reading.length(request.right, "/right", least, high)
    if (top is None) != (right is None):
        pointer, nearest = ("/top", width) if top is None else ("/right", height)
        reading.faults.append(Fault("sides-incomplete", pointer, (("nearest", nearest),)))
    default = frame_domain.default_tolerance(width, height)
    tolerance = reading.optional(request.tolerance, "/tolerance", 1, limits.TOLERANCE_MAX, default)
    tape = _tape(reading, request)
    sheet = None if request.sheet is UNSET else _sheet(reading, request.sheet)
    plumb = None if request.plumb is UNSET else _plumb(reading, request.plumb)
    if reading.faults:
        raise PlanRefused(tuple(reading.faults))
    name = "" if request.name is UNSET else request.name
    return frame_domain.Frame(width, height, rising, falling, tolerance, top, right, tape, sheet, plumb, name)


def _tape(reading: Reading, request: wire_asked.TapeFields, at: str = "") -> TapeUse:
    near = UNSET
    if request.reading is not UNSET:
        near = reading.length(request.reading, f"{at}/reading", 0, limits.READING_MAX)  # type: ignore[assignment]
    values = given(tape_class=request.tape_class, hooked=request.hooked, reading=near)
    return TapeUse(**values)  # type: ignore[arg-type]


def _sheet(reading: Reading, sheet: wire_asked.SheetCheck) -> Sheet:
    reach = limits.OUT_OF_LINE_MAX
    along = reading.length(sheet.along, "/sheet/along", limits.MEASURED_MIN, limits.SHEET_LENGTH_MAX)
    return Sheet(sheet.corner, along, reading.length(sheet.off, "/sheet/off", -reach, reach))


def _plumb(reading: Reading, plumb: wire_asked.PlumbCheck) -> Plumb:
    reach, least = limits.OUT_OF_LINE_MAX, limits.MEASURED_MIN
    offset = reading.length(plumb.offset, "/plumb/offset", -reach, reach)
    over = reading.length(plumb.over, "/plumb/over", least, limits.WALL_HEIGHT_MAX)
    brace = None
    if plumb.brace is not UNSET:
        up = reading.length(plumb.brace.up, "/plumb/brace/up", least, limits.WALL_HEIGHT_MAX)
        brace = Brace(up, reading.length(plumb.brace.out, "/plumb/brace/out", least, limits.BRACE_OUT_MAX))
    return Plumb(offset, over, brace)


def to_deck(request: wire_asked.Deck) -> deck_domain.Deck:
    """The deck asked about, complete. Raises PlanRefused with every length that is out of range."""
    reading = Reading(request.units)
    deck = measured_deck(reading, request, "")
    if request.wanted is not UNSET:
        least, most = limits.MEASURED_MIN, limits.FOOTPRINT_MAX
        wanted = (
            reading.length(request.wanted.width, "/wanted/width", least, most),
            reading.length(request.wanted.depth, "/wanted/depth", least, most),
        )
        deck = replace(deck, wanted=wanted)
    if reading.faults:
        raise PlanRefused(tuple(reading.faults))
    return replace(deck, name="" if request.name is UNSET else request.name)


def measured_deck(reading: Reading, request: wire_asked.Deck | BuildingDeck, at: str) -> deck_domain.Deck:
    """What was measured of a deck, faults collected under ``at``."""
    least, most = limits.MEASURED_MIN, limits.FOOTPRINT_MAX
    sides = [reading.length(getattr(request.sides, name), f"{at}/sides/{name}", least, most) for name in EDGES]
    diagonals = [
        reading.length(getattr(request.diagonals, name), f"{at}/diagonals/{name}", least, limits.MEASURED_DIAGONAL_MAX)
        for name in deck_domain.DIAGONALS
    ]
    levels = None
    if request.levels is not UNSET:
        reach = limits.OUT_OF_LINE_MAX
        levels = tuple(
            reading.length(getattr(request.levels, name), f"{at}/levels/{name}", -reach, reach)
            for name in wire_asked.DeckLevels.__struct_fields__
        )
    tape = _tape(reading, request, at)
    return deck_domain.Deck(tuple(sides), tuple(diagonals), None, levels, tape)  # type: ignore[arg-type]


def _wire_tape(c: Converter, tape: TapeUse) -> dict[str, Any]:
    return {"tape_class": tape.tape_class, "hooked": tape.hooked, "reading": c.extent(tape.reading)}


def wire_frame(c: Converter, frame: frame_domain.Frame) -> wire_asked.Frame:
    """The completed frame; posted again it gives the same answer."""
    sheet, plumb = frame.sheet, frame.plumb
    brace = None if plumb is None else plumb.brace
    parts: dict[str, Any] = {}
    if frame.top is not None and frame.right is not None:
        parts |= {"top": c.length(frame.top), "right": c.length(frame.right)}
    if sheet is not None:
        parts["sheet"] = wire_asked.SheetCheck(
            corner=sheet.corner, along=c.length(sheet.along), off=c.offset(sheet.off)
        )
    if plumb is not None:
        parts["plumb"] = wire_asked.PlumbCheck(
            offset=c.offset(plumb.offset),
            over=c.length(plumb.over),
            brace=UNSET if brace is None else wire_asked.PlumbBrace(up=c.length(brace.up), out=c.length(brace.out)),
        )
    return wire_asked.Frame(
        units=c.units, width=c.length(frame.width), height=c.length(frame.height), rising=c.length(frame.rising),
        falling=c.length(frame.falling), tolerance=c.length(frame.tolerance), name=frame.name, **parts,
        **_wire_tape(c, frame.tape),
    )  # fmt: skip


def wire_deck(c: Converter, deck: deck_domain.Deck) -> wire_asked.Deck:
    """The completed deck; posted again it gives the same answer."""
    parts = wire_measured(c, deck)
    if deck.wanted is not None:
        parts["wanted"] = wire_asked.DeckWanted(width=c.length(deck.wanted[0]), depth=c.length(deck.wanted[1]))
    return wire_asked.Deck(units=c.units, name=deck.name, **parts)


def wire_measured(c: Converter, deck: deck_domain.Deck) -> dict[str, Any]:
    """The completed fields of what was measured, and with which tape."""
    parts: dict[str, Any] = {
        "sides": wire_asked.DeckSides(**{name: c.length(side) for name, side in zip(EDGES, deck.sides, strict=True)}),
        "diagonals": wire_asked.DeckDiagonals(
            **{name: c.length(one) for name, one in zip(deck_domain.DIAGONALS, deck.diagonals, strict=True)}
        ),
        **_wire_tape(c, deck.tape),
    }
    if deck.levels is not None:
        names = wire_asked.DeckLevels.__struct_fields__
        parts["levels"] = wire_asked.DeckLevels(
            **{name: c.offset(level) for name, level in zip(names, deck.levels, strict=True)}
        )
    return parts
