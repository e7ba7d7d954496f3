"""The same question, the same bytes: over restarts, workers, hash seeds and orders of keys, in every form.

    python -m tests.load.same --restarts 100

Target: one digest for each operation and form.
"""

import argparse
import hashlib
import json
import random
from typing import Any

from tests.contract.servers import service

from wallwright.api.answers import MEDIA
from wallwright.operations.examples import EXAMPLES
from wallwright.operations.table import OPERATIONS


def shuffled(value: Any, draw: random.Random) -> Any:
    """The same document with the keys of every object in another order."""
    if isinstance(value, dict):
        names = list(value)
        draw.shuffle(names)
        return {name: shuffled(value[name], draw) for name in names}
    return [shuffled(one, draw) for one in value] if isinstance(value, list) else value


def main() -> int:
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--restarts", type=int, default=3)
    parser.add_argument("--workers", type=int, default=2)
    parser.add_argument("--orders", type=int, default=3)
    options = parser.parse_args()
    draw = random.Random(11)
    found: dict[str, set[str]] = {}
    asked = 0
    for start in range(options.restarts):
        with service(options.workers, hash_seed=str(start % 10)) as copy:
            for operation in OPERATIONS:
                for form in operation.forms:
                    for _ in range(options.orders):
                        body = json.dumps(shuffled(EXAMPLES[operation.name], draw)).encode()
                        status, _, answer = copy.post(operation.path, body, MEDIA[form])
                        digest = hashlib.sha256(answer).hexdigest() if status == 200 else f"status {status}"
                        found.setdefault(f"{operation.name}.{form}", set()).add(digest)
                        asked += 1
    differing = {name: sorted(digests) for name, digests in found.items() if len(digests) > 1}
    print(
        f"same: {asked} answers over {options.restarts} starts, {options.workers} workers, {min(10, options.restarts)} hash seeds, "
        f"shuffled keys; {len(found)} operations and forms, {len(differing)} with more than one answer {differing or ''}"
    )
    return 1 if differing else 0


if __name__ == "__main__":
    raise SystemExit(main())
