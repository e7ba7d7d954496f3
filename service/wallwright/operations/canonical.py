"""The identity of a question: decoded, lengths on the grid, defaults filled in, keys sorted."""

import hashlib

import msgspec

from wallwright.lengths import Units

_ENCODER = msgspec.json.Encoder(order="sorted")


def canonical(plan: msgspec.Struct, units: Units) -> bytes:
    """A domain value and the units that it is answered in, as bytes that are equal for equal questions."""
    return _ENCODER.encode({"plan": plan, "units": units})


def digest(plan: msgspec.Struct, units: Units) -> str:
    """SHA-256 of the canonical form, in hex."""
    return hashlib.sha256(canonical(plan, units)).hexdigest()


def revision_of(plan: msgspec.Struct, units: Units) -> str:
    """A drawing's revision: the first 8 hex digits of the digest."""
    return digest(plan, units)[:8]
