"""What is to be said of a purchase."""

from wallwright.domain.buying.asked import Order
from wallwright.domain.buying.boards import Cut
from wallwright.findings import Finding


def findings(order: Order, cuts: list[Cut]) -> tuple[Finding, ...]:
    """The findings of an order: what was proven, what was not checked, how to cut safely."""
    found = [Finding("cut-with-care", ""), Finding("buying-not-checked", "")]
    if any(cut.cost > cut.bound for cut in cuts):
        found.append(Finding("plan-not-proven", "/effort", (("effort", order.effort),)))
    return tuple(found)
