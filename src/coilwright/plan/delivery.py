"""Check of where the coils go: an order whose head names no place sends them to the site."""

from __future__ import annotations

from collections.abc import Iterator

from coilwright.calc import sources
from coilwright.job.answers import ANSWERS
from coilwright.job.answers.coils import CoilsKey
from coilwright.job.weights_said import weights_said
from coilwright.plan.order_limits import heaviest_package
from coilwright.plan.ready import where_to
from coilwright.plan.view import View, care, note
from coilwright.units import Kind, show
from coilwright.values.finding import Finding
from coilwright.values.keys import LiftPart, lift_key


def check_delivery(view: View) -> Iterator[Finding]:
    """Coils that go to the site because nobody named another place."""
    yield from _gear(view)
    order, place = view.job.order, where_to(view.job)
    if not view.buy or order.ship_to or not place or view.job.life.state.has_come:
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


_PLATES: tuple[LiftPart, ...] = ("fork_capacity", "operating_capacity")
_NEAR = 0.01
"""As a share: weights this near are one. Common practice, no source."""


def _gear(view: View) -> Iterator[Finding]:
    """A weight beside the gear at the head of the order that is not what Haul has for that gear.

    One in tons that does not say which is asked about. Where Haul does not know yet what is carried
    at the coil, more than the plate says is wrong too.
    """
    if view.job.life.state.has_come:
        return
    words = " ".join(view.job.order.unloading.split())
    weights = [*weights_said(words, view.job.units)]
    if None in weights:
        yield care(
            "order.unloading",
            f"The head of the order says “{words}”, and not which ton: 2,000 lb, or the metric one "
            "of 2,205 lb.",
            "The order prints it, and whoever loads the truck takes one of them.",
            "Write what it lifts at the coil in pounds, in “Unloading gear” at the head of the "
            "order.",
            sources.TRADE, step="quotes",
        )
        return
    told, lifted = next(iter(weights), None), heaviest_package(view)
    plates = [view.value(lift_key("site", part)) for part in _PLATES]
    plate = next((value for value in plates if value is not None), None)
    if told is None or not (lifted or plate):
        return
    if lifted and abs(told - lifted) <= _NEAR * lifted:
        return
    if not lifted and (plate is None or told <= plate * (1 + _NEAR)):
        return
    most = show(lifted or plate or 0.0, Kind.MASS, view.job.units)
    typed = ANSWERS[CoilsKey.SITE_LIFT].label
    if lifted is not None and lifted == view.value(CoilsKey.SITE_LIFT):  # by no gear on Haul
        told_by, where = f"“{typed}” on Coils says {most}", f"“{typed}” on Coils"
    else:
        told_by = (f"by Haul what is there takes no package over {most}" if lifted else
                   f"by Haul the plate of what is there says {most}")
        where = "the gear at the site on Haul"
    yield care(
        "order.unloading",
        f"The head of the order says “{words}”, and {told_by}.",
        "The order prints both, and whoever loads the truck goes by one of them.",
        f"Put right whichever is wrong: {where}, or “Unloading gear” at the head of the "
        "order. Write there what it lifts at the coil, not what its plate says at most.",
        sources.TRADE, step="quotes",
    )
