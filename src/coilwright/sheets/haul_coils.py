"""The coils of the haul and lift card: what each weighs, and which of them its loads are for."""

from __future__ import annotations

from collections.abc import Iterator

from coilwright.job.receiving import coil_name
from coilwright.plan.haul.came import (
    came_at,
    counts_as_ordered,
    each_came_at,
    known_of_several,
    several_came_at,
    weighs_at_most,
)
from coilwright.plan.haul.loads import (
    on_hand_to_haul,
    plan_riding,
)
from coilwright.plan.order_limits import capped_coils, heaviest_coil, largest_coil
from coilwright.plan.receiving.receive import arrival_of, coil_number
from coilwright.plan.result import CoilPlan, Plan
from coilwright.sheets.blocks import (
    Block,
    Inline,
    Text,
    line,
    marked,
    paragraph,
    room,
    strong,
    table,
)
from coilwright.sheets.names import figure_text
from coilwright.sheets.parts import (
    order_facts,
)
from coilwright.units import Kind, show
from coilwright.values.figure import Figure
from coilwright.values.keys import row_key
from coilwright.words.counting import capitalized, counted, in_series

MOST_COILS = 6
"""Coils listed one by one; of more, the heaviest."""


def haul_coils(plan: Plan) -> tuple[Block, ...]:
    """The coils, as ordered and the heaviest and largest they may come; the heaviest first."""
    system = plan.job.units

    def heaviest(coil: CoilPlan) -> Figure:
        most = plan.figures[row_key("coil", coil.number, "heaviest")]
        if each_came_at(plan.job, coil):
            return weighs_at_most(plan.figures, plan.job, coil)
        # One that came over what it may weighs what it does.
        over = came_at(plan.job, coil) > most.value
        return weighs_at_most(plan.figures, plan.job, coil) if over else most

    def across(figure: Figure) -> Text:
        return figure_text(figure, system)

    coils = sorted(plan.coils, key=lambda coil: (
        -max(heaviest(coil).value, known_of_several(plan.job, coil)), coil.number))
    rows: list[tuple[Inline, ...]] = [
        (_named(plan, coil), figure_text(coil.mass, system),
         _at_most(plan, coil, heaviest(coil)),
         across(coil.outside_diameter),
         marked(coil.outside_diameter.mark, largest_coil(plan, coil).text(system)),
         room(14))
        for coil in coils[:MOST_COILS]
    ]
    rows += [(f"On hand {coil.name}", "", figure_text(coil.heaviest, system), "", "", room(14))
             for coil in plan.from_stock[:MOST_COILS]]
    if not rows:
        return ()
    more = len(plan.coils) + len(plan.from_stock) - len(rows)
    return (
        table(("coil, heaviest first", "as ordered", "heaviest it may come", "OD as ordered",
               "max OD", "gross on its tag"), rows, right=range(1, 5), write=(5,)),
        paragraph(
            *(line(f"{name} ", strong(value), ". ") for name, value in order_facts(plan)
              if name == "Order"),
            strong(_aboard(plan)), *_on_hand(plan),
            " Loads are worked out from the heaviest. The tag on the coil decides; gear lifts it "
            "gross, with skid and bands.",
            f" {counted(more, 'coil')} more, none heavier than the last of its kind here."
            if more else "",
            _capped(plan),
        ),
    )


def _at_most(plan: Plan, coil: CoilPlan, heaviest: Figure) -> Text:
    """The most a coil weighs; loads go by it though it came lighter, for a digit of a tag may have
    slipped, and that it did is said beside it."""
    system, came = plan.job.units, came_at(plan.job, coil)
    if several := _several_words(plan, coil):
        if each_came_at(plan.job, coil):
            return line(f"came at {several}")
        known = known_of_several(plan.job, coil)
        most = (line(f"at least {show(known, Kind.MASS, system)}") if known > heaviest.value else
                figure_text(heaviest, system))
        return line(most, f" (came at {several})")
    if came >= heaviest.value:
        return line("came at ", figure_text(heaviest, system))
    return line(figure_text(heaviest, system),
                f" (came at {show(came, Kind.MASS, system)})" if came else "")


def _several_words(plan: Plan, coil: CoilPlan) -> str:
    """What each weighs that a coil of the order came as, where it came as several, as far as that
    is known; empty for none."""
    weights = several_came_at(plan.job, coil)
    known = [show(weight, Kind.MASS, plan.job.units) for weight in weights if weight]
    unknown = len(weights) - len(known)
    if not known:
        return ""
    return in_series([*known, *([f"{unknown} of no known weight"] if unknown else [])])


def _named(plan: Plan, coil: CoilPlan) -> str:
    """What a new coil is called, with its tag and lot once it has come: so it is found. Once others
    came, that it went back or is awaited: so nobody looks for it."""
    came = [plan.job.arrived[number - 1] for number in arrival_of(plan, coil)]
    gone = "" if came else next(
        (str(one.decision) for one in plan.job.arrived
         if one.is_gone and coil_number(plan, one) == coil.number),
        "awaited" if plan.job.arrived and not plan.job.practicing else "")
    return capitalized(coil_name(coil.number, *came)) + (f" ({gone})" if gone else "")


def _aboard(plan: Plan) -> str:
    """Which coils the loads of the road are for."""
    haul, system = plan.job.haul, plan.job.units
    riding = plan_riding(plan)
    racked, cargo = haul.rack_coils, haul.cargo_coils or 0
    whole = counts_as_ordered(plan.job, len(plan.coils) + len(plan.from_stock))
    if (weighed := haul.weighed_on_rack) is not None:
        # No plate may be entered yet, so that no load has made a figure of it.
        on_rack = f"what was weighed on the rack, {show(weighed, Kind.MASS, system)}"
    elif racked is None:
        return "How many coils ride on the rack is not said: no load of the road counts them."
    else:
        on_rack = f"{counted(racked, 'coil')} on the rack"
    left = sum(map(len, riding[(racked or 0) + cargo:]))
    rest = (f" {counted(left, 'coil')} of this job left for another trip."
            if left > 0 and racked else "")
    heaviest = ", the heaviest" if racked and left > 0 else ""
    as_came = ", each of them all that came for one of the order" if whole else ""
    return (f"This card is for {on_rack}{heaviest}, and {cargo or 'none'} as cargo{as_came}; "
            f"for any other load make it again.{rest}")


def _on_hand(plan: Plan) -> Iterator[str]:
    """How far the coils on hand are in these loads."""
    if (found := on_hand_to_haul(plan)) is not None:
        yield f" {found.text(plan.job.units)}"


def _capped(plan: Plan) -> str:
    """That the order holds coils to less than their tolerance lets them come at."""
    least = min((heaviest_coil(plan, coil) for coil in capped_coils(plan)),
                key=lambda figure: figure.value, default=None)
    if least is None:
        return ""
    return f" The order's max weight is {least.text(plan.job.units)}: refuse what is over."
