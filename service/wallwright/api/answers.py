"""An operation's answer as bytes in one form, and a plan's faults as a problem."""

from typing import Any, Final

import msgspec

from wallwright.api.problems import Refused
from wallwright.findings import PlanRefused
from wallwright.operations.buying import TookTooLong
from wallwright.operations.converters import CONVERTERS
from wallwright.operations.table import Operation
from wallwright.wire.base import encode_length
from wallwright.wire.squaring_asked import Deck, Frame

MEDIA: Final = {"json": "application/json", "svg": "image/svg+xml", "csv": "text/csv"}
_ENCODER: Final = msgspec.json.Encoder(enc_hook=encode_length)


def encoded(operation: Operation, request: Any, form: str) -> bytes:
    """An operation's answer in one form. Raises PlanRefused with every fault found, Refused past the clock's guard."""
    try:
        if form == "svg":
            return operation.drawing(request).encode()
        if form == "csv" and operation.table is not None:
            return operation.table(request).encode()
        return _ENCODER.encode(operation.answer(request))
    except TookTooLong:
        raise Refused("took-too-long", headers={"Retry-After": "10"}) from None


def plan_refused(request: Any, refused: PlanRefused) -> Refused:
    """A plan's faults as a problem, in the caller's units; of what was measured nothing is to be built."""
    code = "no-such-figure" if isinstance(request, Frame | Deck) else "not-buildable"
    converter = CONVERTERS[request.units]
    return Refused(code, errors=[converter.fault(fault) for fault in refused.faults[:50]])
