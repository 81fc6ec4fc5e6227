"""What stands on top of the summary: what to buy, what it costs, the roof. No screens here."""

from __future__ import annotations

from coilwright.drawing.cost import landed_words
from coilwright.job.quotes import charges_of
from coilwright.plan.purchases import BuyWhat
from coilwright.plan.quotes.report import QuoteReport, Share
from coilwright.plan.result import Plan
from coilwright.sheets.buy import beside_cost
from coilwright.sheets.quotes import share_words
from coilwright.units import Kind, System
from coilwright.values.figure import Figure
from coilwright.values.keys import Key
from coilwright.values.rounding import show_rounded
from coilwright.wizard.literal import escape_controls
from coilwright.words.counting import counted


def to_buy(plan: Plan) -> list[tuple[str, str, str]]:
    """What is to be bought: what stands before it, the key of its figure, and it in words."""
    system = plan.job.units
    if not plan.buy:
        if plan.readiness.nothing_to_buy:
            return [("Buy", f"{Key.PANELS_COUNT}#buy", "nothing: all the metal is on hand")]
        return [("Buy", f"{Key.COIL_MASS_ORDERED}#buy", "not worked out yet")]
    metal = "" if plan.job.metal.metal is None else f" {plan.job.metal.metal.value}"
    coils = [line for line in plan.buy if line.what is BuyWhat.COIL]
    bought = [(line.what.value, line.count, line.width, line.thickness, line.length, line.mass)
              for line in plan.buy if line.what is not BuyWhat.COIL]
    whole = [plan.figures.get(key) for key in (
        Key.COIL_COUNT, Key.COIL_LENGTH_ORDERED, Key.COIL_MASS_ORDERED)]
    if coils and all(whole):
        count, length, mass = (figure for figure in whole if figure is not None)
        bought.insert(0, (coils[0].what.value, count, coils[0].width, coils[0].thickness, length,
                          mass))
    made = []
    for number, (what, count, width, thick, length, mass) in enumerate(bought):
        if count.value != 1:
            what = what.replace("coil", "coils", 1).replace("sheet", "sheets", 1)
        mark = next((f.mark for f in (mass, length, count, width, thick) if f.mark), "")
        made.append(("" if number else "Buy", f"{mass.key}#buy", " · ".join((
            f"{mark} {count.text(system)} {what}".lstrip(),
            f"{_sizes(width.text(system), thick.text(system))}{metal}",
            length.text(system), mass.text(system)))))
    return [*made, *_costs(plan)]


def _costs(plan: Plan) -> list[tuple[str, str, str]]:
    """What the coils cost by weight, and what the order lands at from whom it is given to.

    The cost by weight is left out where the quote goes by something else, as by a lump.
    """
    if plan.job.quotes.awarded is None:
        return _by_weight(plan)
    # Only where there are quotes: the list of them need not be read to begin with.
    from coilwright.wizard.lists.quotes import compared

    report = next(one for one in compared(plan).quotes if one.quote.awarded)
    if report.landed is None:
        return _by_weight(plan)
    by = share_words(report, Share.ROOF, plan.job.units)
    each = f" · {by} {Share.ROOF.words(plan.job.units)}" if by else ""
    metal = _by_weight(plan) if report.is_by_weight(plan.figures.get(Key.COIL_COST)) else []
    landed = landed_words(report)
    if report.at_least:  # something is missing in the quote: `at least`, behind `Lands at`
        landed = f"{landed.removeprefix('at least ')} or more"
    return [*metal, ("Lands at", f"{Key.COIL_MASS_ORDERED}#landed",
                     f"{landed}{each} · {escape_controls(report.supplier)}"
                     f"{_for_other_coils(plan, report)}{_at_another_price(plan)}")]


def _for_other_coils(plan: Plan, report: QuoteReport) -> str:
    """Of what it lands at, that it is for other coils than are ordered, where it is."""
    made = report.shipment
    if made is None or not report.is_for_other_coils(plan.figures.get(Key.COIL_MASS_ORDERED)):
        return ""
    sold = show_rounded(float(made.mass), Kind.MASS, plan.job.units)
    return (f" · for {counted(len(made.lengths), 'coil')}, {sold}, as it sells them, not for what "
            "is ordered")


def _at_another_price(plan: Plan) -> str:
    """Of what it lands at, that price or charges were typed over since the order was awarded."""
    now, then = plan.job.quotes.awarded, plan.job.quotes.as_awarded
    if now is None or then is None:
        return ""
    if now.price != then.price:
        return " · at the price quoted by now, not at the one that was awarded"
    return "" if charges_of(now) == charges_of(then) else (
        " · at the charges quoted by now, not at those that were awarded")


def _by_weight(plan: Plan) -> list[tuple[str, str, str]]:
    system = plan.job.units
    if (cost := plan.figures.get(Key.COIL_COST)) is None:
        return []
    words = _marked(cost, system)
    if (each := plan.figures.get(Key.COIL_COST_AREA)) is not None:
        per = "square" if system is System.US else "m²"
        words += f" · {_marked(each, system)} per {per} of roof"
    words += f", {beside_cost(plan)}"
    return [("Cost", f"{cost.key}#buy", words)]


def _sizes(width: str, thickness: str) -> str:
    """Width by thickness, the unit said once where both have the same."""
    number, _, unit = width.rpartition(" ")
    return f"{number if thickness.endswith(f' {unit}') else width} × {thickness}"


def _marked(figure: Figure, system: System) -> str:
    return f"{figure.mark} {figure.text(system)}" if figure.mark else figure.text(system)


def roof_words(plan: Plan) -> str:
    """Area, panels and the longest of them, as far as they are known."""
    system, parts = plan.job.units, []
    for key, words in ((Key.ROOF_AREA, "{}"), (Key.PANELS_COUNT, "{} panels"),
                       (Key.PANELS_LONGEST, "longest {}")):
        if (figure := plan.figures.get(key)) is not None:
            parts.append(words.format(_marked(figure, system)))
    return " · ".join(parts)
