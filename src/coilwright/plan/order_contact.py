"""Check of whom the order's head says to call: a person or a phone that is another supplier's."""

from __future__ import annotations

from collections.abc import Iterator

from coilwright.calc import sources
from coilwright.job.from_shop import contacts_known
from coilwright.job.plain_name import plain_name
from coilwright.job.shop import Shop
from coilwright.plan.view import View, care
from coilwright.values.finding import Finding

_NO_SHOP = Shop()
_CALLED = {"attention": "Attention", "supplier_phone": "Supplier's phone"}


def check_order_contact(view: View) -> Iterator[Finding]:
    """A person or phone that a request or a quote of another supplier has, by the job's papers."""
    job = view.job
    order, to = job.order, plain_name(job.order.supplier)
    if not to:
        return
    others = dict.fromkeys(one.strip() for one in (
        *(asked.supplier for asked in job.requests),
        *(quote.supplier for quote in job.quotes.received)) if plain_name(one) not in ("", to))
    own = contacts_known(job, _NO_SHOP, order.supplier)
    for field, called in _CALLED.items():
        said = getattr(order, field).strip()
        whose = [other for other in others if said and said not in own[field]
                 and said in contacts_known(job, _NO_SHOP, other)[field]]
        if whose:
            yield care(
                f"order.contact.{field}",
                f"“{called}” at the head of the order, {said}, is that of {whose[0]} by its "
                f"request or quote; the order goes to {order.supplier.strip()}.",
                "Whoever is called hears of an order that another has, and nobody hears of this "
                "one while the truck waits.",
                "Put in theirs, or empty it, at the head of the order.",
                sources.TRADE, step="quotes",
            )
