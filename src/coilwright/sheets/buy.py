"""Everything to buy, as a table: on top of the summary."""

from __future__ import annotations

from coilwright.job.answers.metal import MetalKey
from coilwright.job.choices import YesNo
from coilwright.plan.purchases import BuyWhat
from coilwright.plan.questions import lots_taken_on
from coilwright.plan.result import Plan
from coilwright.sheets.blocks import Block, heading, paragraph, stacked, strong, table
from coilwright.sheets.designations import metal_words
from coilwright.sheets.names import answer_text, figure_text
from coilwright.units import Kind
from coilwright.values.rounding import show_rounded

_ONE_LOT = "one production lot for all lines"
_LOTS_REPLIED = "production lots as the supplier replied, which was taken on knowingly"
OWN_LOT = "a thickness of its own: shade and sheen matched to the panels' production lot"


def to_buy(plan: Plan) -> tuple[Block, ...]:
    """All that is bought: count, size, weight, finish and lot. Empty while nothing is known."""
    if not plan.buy:
        if not plan.from_stock:
            return ()
        return (heading(2, "To buy"),
                paragraph(strong("Nothing to buy:"), " all metal comes from coils on hand."))
    system = plan.job.units
    rows = [
        (figure_text(line.count, system), line.what.value, figure_text(line.width, system),
         figure_text(line.thickness, system),
         figure_text(line.length, system), figure_text(line.each, system),
         figure_text(line.mass, system))
        for line in plan.buy
    ]
    finish = plan.job.metal.finish
    painted = finish is not None and finish.is_paint
    return stacked(
        heading(2, "To buy"),
        table(("count", "what", "width", "thickness", "length each", "weight each", "together"),
              rows, right=(0, 2, 3, 4, 5, 6)),
        paragraph(
            "All of ", metal_words(plan.job.metal) if plan.job.metal.metal else "the metal below",
            ", finish ", answer_text(plan.job, MetalKey.FINISH),
            *((", ", answer_text(plan.job, MetalKey.COLOR)) if painted else ()),
            f"; {lots_bought(plan)}", *(_other_lot(plan)), ".",
        ),
        _left_out(plan),
    )


def lots_bought(plan: Plan) -> str:
    """Of how many production lots it is, as the order says it."""
    return _LOTS_REPLIED if lots_taken_on(plan.job) else _ONE_LOT


def beside_cost(plan: Plan) -> str:
    """What the cost by weight is of, or what of all that is bought is not in it; short, for it
    ends a line."""
    trim = [line.mass.as_read(plan.job.units) for line in plan.buy
            if line.what is not BuyWhat.COIL and not line.in_pass]
    if not trim:
        return "coils alone"
    return f"without {show_rounded(sum(trim), Kind.MASS, plan.job.units)} for trim"


def _other_lot(plan: Plan) -> tuple[str, ...]:
    return () if all(line.same_lot for line in plan.buy) else (f"; metal of {OWN_LOT}",)


def _left_out(plan: Plan) -> Block | tuple[()]:
    """What is not on it, so that nobody takes it for all."""
    if plan.job.job.trim_in_house is YesNo.NO:
        return paragraph("Trim is bought made up, and is not on this list.")
    return ()
