"""What is no answer and is gone to by its name: the lists of the steps, and what opens over them.

No screens here.
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Destination:
    """A list or a screen: what it is called, the step it belongs to, and its other names.

    block: of a list on a step, the class of the block it stands in; empty for what opens over any.
    """

    key: str
    title: str
    step: str
    also: tuple[str, ...] = ()
    block: str = ""


DESTINATIONS: tuple[Destination, ...] = (
    Destination("list-planes", "Planes", "roof", ("faces", "measured planes"), "RowsBlock"),
    Destination("list-openings", "Openings", "roof", ("chimney", "skylight", "vent"),
                "OpeningsBlock"),
    Destination("machines", "Machines to pick from", "machine", ("examples", "my machines")),
    Destination("widths", "Widths compared", "panel", ("coverage widths", "compare widths")),
    Destination("list-trim", "Trim pieces", "trim", ("flashing", "pieces of trim"), "RowsBlock"),
    Destination("stock", "Coils on hand", "coils", (
        "coils you have", "leftover", "leftovers", "stock")),
    Destination("arrivals", "Receiving", "coils", ("coils that came", "arrivals", "delivery")),
    Destination("run-done", "After the run", "coils", ("what is left", "back to stock")),
    Destination("list-loads", "Loads", "haul", ("ratings", "weights"), "LoadsBlock"),
    Destination("rigs", "Rigs to pick from", "haul", ("trailers", "my rigs")),
    Destination("list-quotes", "Quotes", "quotes", ("prices", "award"), "QuotesBlock"),
    Destination("requests", "Requests for a quote", "quotes", ("asked for a quote",)),
    Destination("order-head", "Head of the order", "summary", (
        "number of the order", "buyer", "place of delivery", "attention")),
    Destination("order-life", "Life of the order", "summary", (
        "changes since it was sent", "send the order", "sent", "confirmed", "canceled", "delivered",
        "revisions")),
    Destination("questions", "Questions", "summary", ("whom to ask", "replies", "waivers")),
    Destination("figures", "Figures", "summary", ("workings",)),
    Destination("list-sheets", "Sheets", "summary", ("papers", "save"), "SheetsBlock"),
    Destination("versions", "Versions of this job", "summary", ("earlier versions",)),
    Destination("shop", "My shop", "job", ("my suppliers", "buyer", "sharing")),
    Destination("glossary", "Glossary", "job", ("words of the trade",)),
)
