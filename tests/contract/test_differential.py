"""Our reader and two JSON Schema validators, which know nothing of it, agree on what keeps the schema."""

import json
from copy import deepcopy
from decimal import Decimal

import jsonschema
import jsonschema_rs
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from tests.contract.test_document import DOCUMENT

from wallwright.api.explain import explain
from wallwright.api.problems import Refused
from wallwright.api.reader import Reader
from wallwright.operations.examples import EXAMPLES
from wallwright.wire.building import Building
from wallwright.wire.buying_asked import Order
from wallwright.wire.squaring_asked import Deck, Frame
from wallwright.wire.wall import Wall

KINDS = (Wall, Building, Frame, Deck, Order)

SCHEMAS = {kind: {**DOCUMENT, "$ref": f"#/components/schemas/{kind.__name__}"} for kind in KINDS}
SLOW = {kind: jsonschema.Draft202012Validator(schema) for kind, schema in SCHEMAS.items()}
FAST = {kind: jsonschema_rs.Draft202012Validator(schema) for kind, schema in SCHEMAS.items()}
READERS = {kind: Reader(kind) for kind in KINDS}
BASES = {Wall: [EXAMPLES["layout"], EXAMPLES["boat-store"]], Building: [EXAMPLES["building"]]}
BASES |= {Frame: [EXAMPLES["squaring-frame"]], Deck: [EXAMPLES["squaring-deck"]]}
BASES |= {Order: [EXAMPLES["buying"]]}

ODD = st.one_of(
    st.none(),
    st.booleans(),
    st.integers(-5, 200_000),
    st.floats(-10, 200_000, allow_nan=False),
    st.sampled_from([0, 0.0, -0.0, 2.0, 100_000, 100_000.5, 1e-9]),
    st.text(max_size=5),
    st.sampled_from(
        ["7' 6 1/2\"", '90-1/2"', "1/0", "in", "2x4", "38x89", "1-1/2x3-1/2", "left", "", " ", "3 mm\n", "½", "-1"]
    ),
    st.just([]),
    st.just({}),
    st.just([{"left": 1, "width": 2, "height": 3}]),
    st.dictionaries(st.sampled_from(["left", "post", "stock", "kind", "depth"]), st.integers(0, 3), max_size=2),
)


def places(value, at=()):
    """Every place in a document, as a path of keys."""
    found = [at]
    if isinstance(value, dict):
        for key, inner in value.items():
            found += places(inner, (*at, key))
    elif isinstance(value, list):
        for number, inner in enumerate(value):
            found += places(inner, (*at, number))
    return found


@st.composite
def mutated(draw, kind):
    document = json.loads(json.dumps(draw(st.sampled_from(BASES[kind]))))
    for _ in range(draw(st.integers(0, 3))):
        *path, last = draw(st.sampled_from([place for place in places(document) if place]))
        inner = document
        try:
            for key in path:
                inner = inner[key]
            what = draw(st.sampled_from(["set", "set", "set", "drop", "add"]))
            if what == "set":
                inner[last] = deepcopy(draw(ODD))
            elif what == "drop" and isinstance(inner, dict):
                del inner[last]
            elif isinstance(inner, dict):
                inner[draw(st.sampled_from(["name", "gap", "sill", "spacing", "height", "extra"]))] = deepcopy(
                    draw(ODD)
                )
        except (KeyError, IndexError, TypeError):
            continue
    return document


@pytest.mark.parametrize("kind", KINDS, ids=lambda kind: kind.__name__)
def test_reader_and_validators_agree(kind):
    seen = {True: 0, False: 0}

    @settings(max_examples=800, deadline=None, database=None, derandomize=True, suppress_health_check=list(HealthCheck))
    @given(mutated(kind))
    def agree(document):
        body = json.dumps(document).encode()
        try:
            READERS[kind].read(body)
            ours = True
        except Refused:
            ours = False
        assert ours == SLOW[kind].is_valid(document) == FAST[kind].is_valid(document), document
        plain = json.loads(
            body, parse_float=lambda text: int(float(text)) if float(text).is_integer() else Decimal(text)
        )
        assert bool(explain(plain, kind)) == (not ours)
        seen[ours] += 1

    agree()
    # A deck must have nearly all that it may have, so that fewer of its changed documents still keep the schema.
    assert min(seen.values()) > 20
