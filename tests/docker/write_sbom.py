"""The bill of materials of the image in CycloneDX 1.5, from its lock.

python -m tests.docker.write_sbom
"""

import json
import re
from dataclasses import dataclass
from pathlib import Path

DOCKER = Path(__file__).parent.parent.parent / "docker"
LOCK = DOCKER / "requirements.lock"
FILE = DOCKER / "sbom.json"


@dataclass(frozen=True)
class Locked:
    """One locked package."""

    name: str
    version: str
    marker: str
    hashes: tuple[str, ...]


def locked() -> list[Locked]:
    """Every package of the lock, in its order."""
    found = []
    for text in LOCK.read_text(encoding="utf-8").replace("\\\n", " ").splitlines():
        if match := re.match(r"([a-zA-Z0-9._-]+)==([^\s;]+)\s*(?:;\s*([^\\]*?))?\s*(?=--hash|$)", text):
            found.append(Locked(match[1], match[2], match[3] or "", tuple(re.findall(r"sha256:([0-9a-f]{64})", text))))
    return found


def sbom_bytes() -> bytes:
    """The bill as it is committed: no time, no number of its own, so that the same lock gives the same bytes."""
    components = [
        {
            "type": "library",
            "bom-ref": f"pkg:pypi/{one.name}@{one.version}",
            "name": one.name,
            "version": one.version,
            "purl": f"pkg:pypi/{one.name}@{one.version}",
        }
        for one in locked()
    ]
    bill = {
        "bomFormat": "CycloneDX",
        "specVersion": "1.5",
        "version": 1,
        "metadata": {"component": {"type": "application", "bom-ref": "wallwright", "name": "wallwright"}},
        "components": components,
    }
    return (json.dumps(bill, indent=1) + "\n").encode()


if __name__ == "__main__":
    FILE.write_bytes(sbom_bytes())
