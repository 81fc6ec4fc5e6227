"""Check of where the coils go: an order whose head names no place sends them to the site."""

from __future__ import annotations

from collections.abc import Iterator

from coilwright.calc import sources
from coilwright.job.life import OrderState
from coilwright.plan.ready import where_to
from coilwright.plan.view import View, note
from coilwright.values.finding import Finding

_OVER = (OrderState.DELIVERED, OrderState.RUN)


def check_delivery(view: View) -> Iterator[Finding]:
    """Coils that go to the site because nobody named another place."""
    order, place = view.job.order, where_to(view.job)
    if not view.buy or order.ship_to or not place or view.job.life.state in _OVER:
        return
    lacks = [what for text, what in ((order.hours, "receiving hours"),
                                     (order.unloading, "unloading gear")) if not text]
    says = f" It says no {' and no '.join(lacks)}." if lacks else ""
    yield note(
        "order.to_site",
        f"The head of the order names no place, so its coils go to the site: {place}.{says}",
        "The order prints the site as “Ship to”. A coil that comes where nobody lifts it off is "
        "sent back, and charged.",
        "Put the yard into “Ship to” at the head of the order, with its hours and gear, or leave "
        "it where they are to come to the site.",
        sources.TRADE, step="quotes",
    )
