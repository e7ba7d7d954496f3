"""The service with the layouts of walls kept, so that only the stack about the calculation is left to be measured.

python -m tests.load.kept serve --port 8000
"""

import functools
import sys

from wallwright.domain import framed


def keep(wanted: bool = True) -> None:
    """From here on a wall that was laid out once is not laid out again, in this process."""
    if wanted:
        framed.layout = functools.cache(framed.layout)


if __name__ == "__main__":
    from wallwright.command import main

    keep()
    sys.exit(main())
