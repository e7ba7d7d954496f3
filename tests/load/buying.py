"""How long an order takes: a shed's pieces, ten sheds in one order, eight sheds of different lengths. Prints processor time and proof.

Run as `python -m tests.load.buying`. A shed is 60 pieces of 12 lengths, cut from five stock lengths.
"""

import json
import time

from wallwright.api.reader import Reader
from wallwright.operations.buying import answer
from wallwright.wire.buying import BuyingAnswer
from wallwright.wire.buying_asked import Order

SIZES = (89, 84.5, 81, 78.5, 66, 44, 41.5, 38, 33, 26.5, 14.5, 12)
COUNTS = (18, 6, 4, 4, 4, 4, 4, 4, 4, 3, 3, 2)
PRICES = {8: 3.98, 10: 5.47, 12: 6.58, 14: 7.99, 16: 9.24}


def shed(times: int = 1, longer: float = 0) -> list[dict]:
    """The pieces of a shed, so many times, each so much longer."""
    return [
        {"stock": "2x4", "length": size + longer, "count": count * times}
        for size, count in zip(SIZES, COUNTS, strict=True)
    ]


def order(pieces: list[dict]) -> Order:
    """An order of loose pieces, read as a request is."""
    offers = [{"stock": "2x4", "length": f"{feet}'", "price": price} for feet, price in PRICES.items()]
    request = Reader(Order).read(json.dumps({"units": "in", "pieces": pieces, "offers": offers}).encode())
    assert isinstance(request, Order)
    return request


def timed(name: str, pieces: list[dict]) -> BuyingAnswer:
    """An order answered, and a line printed about it."""
    request = order(pieces)
    start = time.process_time()
    found = answer(request)
    spent = time.process_time() - start
    number = sum(one["count"] for one in pieces)
    print(f"{name:36} {number:5} pieces {spent:7.2f} s  cost {found.cost:9.2f}  proven {found.proven}")
    return found


def main() -> None:
    """The orders, one after another; the first loads the solver."""
    timed("one piece, the solver loaded", shed()[:1])
    timed("a shed", shed())
    timed("ten sheds alike", shed(10))
    timed("eight sheds, each of its own lengths", [one for n in range(8) for one in shed(1, n / 16)])


if __name__ == "__main__":
    main()
