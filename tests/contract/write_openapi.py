"""Write `openapi/` from the code: the document, and a request with its answer for every operation."""

from pathlib import Path

from wallwright.api.app import encoded
from wallwright.api.reader import Reader
from wallwright.operations.document import document_bytes
from wallwright.operations.examples import example_bytes
from wallwright.operations.table import OPERATIONS

FOLDER = Path(__file__).parent.parent.parent / "openapi"


def files() -> dict[str, bytes]:
    """Every file of the folder by its path there."""
    found = {"wallwright.json": document_bytes()}
    for operation in OPERATIONS:
        request = example_bytes(operation.name)
        answer = encoded(operation, Reader(operation.request).read(request), "json")
        found[f"examples/{operation.name}.request.json"] = request
        found[f"examples/{operation.name}.answer.json"] = answer + b"\n"
    return found


if __name__ == "__main__":
    for name, content in files().items():
        (FOLDER / name).parent.mkdir(parents=True, exist_ok=True)
        (FOLDER / name).write_bytes(content)
