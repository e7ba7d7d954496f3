"""Write from the code: `openapi/` (the document, a request with its answer for every operation) and the digests of readiness."""

import json
from pathlib import Path

from wallwright.api import golden
from wallwright.api.answers import encoded
from wallwright.api.reader import Reader
from wallwright.operations.document import document_bytes
from wallwright.operations.examples import example_bytes
from wallwright.operations.table import OPERATIONS

FOLDER = Path(__file__).parent.parent.parent / "openapi"
GOLDEN = Path(__file__).parent.parent.parent / "service/wallwright/api" / golden.FILE


def files() -> dict[str, bytes]:
    """Every file of the folder by its path there."""
    found = {"wallwright.json": document_bytes()}
    for operation in OPERATIONS:
        request = example_bytes(operation.name)
        answer = encoded(operation, Reader(operation.request).read(request), "json")
        found[f"examples/{operation.name}.request.json"] = request
        found[f"examples/{operation.name}.answer.json"] = answer + b"\n"
    return found


def golden_bytes() -> bytes:
    """The digests that a copy compares itself with at start."""
    return (json.dumps(dict(golden.digests()), indent=1) + "\n").encode()


if __name__ == "__main__":
    for name, content in files().items():
        (FOLDER / name).parent.mkdir(parents=True, exist_ok=True)
        (FOLDER / name).write_bytes(content)
    GOLDEN.write_bytes(golden_bytes())
