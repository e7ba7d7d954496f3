"""What is to be said of a purchase."""

from wallwright.domain.buying.asked import Order
from wallwright.domain.buying.boards import Cut
from wallwright.domain.buying.panels import SheetCut
from wallwright.domain.fasteners import Total
from wallwright.findings import Finding


def findings(order: Order, cuts: list[Cut], sheets: list[SheetCut], unpriced: tuple[Total, ...]) -> tuple[Finding, ...]:
    """The findings of an order: what was proven, what was not checked, how to cut safely."""
    found = [Finding("cut-with-care", ""), Finding("buying-not-checked", "")]
    found += [
        Finding(
            "sheets-not-priced",
            "/sheet_offers",
            (("kind", one.group[0]), ("thickness", one.group[1]), ("count", str(one.count))),
        )
        for one in sheets
        if not one.priced
    ]
    found += [
        Finding("sheets-not-proven", "/effort", (("kind", one.group[0]), ("thickness", one.group[1])))
        for one in sheets
        if one.cost > one.bound
    ]
    if unpriced:
        values = (("count", str(len(unpriced))), ("first", unpriced[0].fastener))
        found.append(Finding("fasteners-not-priced", "/fastener_offers", values))
    if any(cut.cost > cut.bound for cut in cuts):
        found.append(Finding("plan-not-proven", "/effort", (("effort", order.effort),)))
    return tuple(found)
