"""What a mistake would have cost: metal, money and days, where they can be worked out, and why."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from typing import assert_never

from coilwright.calc import practice as off
from coilwright.calc.price import cost
from coilwright.job.answers import ANSWERS
from coilwright.job.answers.coils import CoilsKey
from coilwright.job.edit import give
from coilwright.job.practice import Damage, Outcome
from coilwright.plan.plan import plan
from coilwright.plan.practice.solve import Solved, quote_key
from coilwright.plan.quotes.compare import compare
from coilwright.units import Kind, System
from coilwright.values.figure import Figure, compute
from coilwright.values.keys import Key
from coilwright.values.rounding import Rounding
from coilwright.values.source import ARITHMETIC
from coilwright.values.standing import Standing

_OF_STRIP = (Key.COIL_LENGTH_ORDERED, Key.ON_HAND_PANELS)
"""Lengths of strip: what they differ by weighs what the strip does. A valley's does not, and one
panel is not all of them."""


@dataclass(frozen=True, slots=True)
class Loss:
    """What a mistake would have cost: how much, where it can be worked out, and why."""

    damage: Damage
    figure: Figure | None
    why: str


def losses(
    solved: Solved, outcome: Outcome, mine: Figure | None = None, right: Figure | None = None
) -> Iterator[Loss]:
    """What a mistake costs: metal by the number typed, money by the metal and the price, days by
    the time it takes to order again.

    mine, right: the number typed and the key's. Where all that is ordered is at stake, that is the
    order as it was made, wrong: nobody loses the coil that should have been ordered.
    """
    figures = solved.key.figures
    if mine is None or right is None:
        metal = solved.over.figures.get(Key.COIL_MASS_ORDERED) if outcome.of_order else None
    elif outcome.of_order:
        metal = _ordered_with(solved, mine, right)
    else:
        metal = _metal(solved, mine, right)
    if metal is not None and not metal.as_read(solved.key.job.units):
        metal = None  # what reads as 0 lb, and $0 for it, is no cost
    for damage in outcome.damage:
        figure: Figure | None = None
        match damage:
            case Damage.METAL:
                figure = metal
            case Damage.MONEY:
                price = figures.get(CoilsKey.PRICE)
                if metal is not None and price is not None:
                    job = solved.key.job
                    figure = replace(compute("practice.money", "Money", cost,
                                             _as_read(metal, job.units), price),
                                     currency=job.currency)
            case Damage.DAYS:
                figure = figures.get(CoilsKey.LEAD_TIME)
            case Damage.DANGER:
                pass
            case _:
                assert_never(damage)
        yield Loss(damage, figure, outcome.why)


def quote_losses(solved: Solved, picked: str, outcome: Outcome) -> Iterator[Loss]:
    """What the wrong quote costs: by how much more it lands. Of one that leaves something out
    nobody knows.

    picked: the key of its option.
    """
    landed = {quote_key(one): one for one in compare(solved.key).ranked}
    best, mine = next(iter(landed.values()), None), landed.get(picked)
    money: Figure | None = None
    if best is not None and mine is not None and best.landed and mine.landed:
        money = Figure("practice.money", "Money", float(mine.landed - best.landed), Kind.MONEY,
                       ARITHMETIC, Standing.SURE, currency=solved.key.job.currency)
    for loss in losses(solved, outcome):
        yield replace(loss, figure=money) if loss.damage is Damage.MONEY else loss


def _as_read(metal: Figure, system: System) -> Figure:
    """The metal as it stands beside the money: whoever checks the one by the other gets it."""
    return Figure(metal.key, metal.label, metal.as_read(system), metal.kind, metal.source,
                  metal.standing)


def in_whole(money: Figure) -> Figure:
    """Money that a mistake would have cost, without cents: what might have been is not known to the
    cent, and those of a sheet that goes by the pounds as weighed would be others."""
    return replace(money, value=float(round(money.value)))


def most(found: Iterable[Loss], damage: Damage) -> Figure | None:
    """The most that one of several mistakes costs of one kind: two of one order do not cost it
    twice. None where no number is known."""
    figures = [loss.figure for loss in found if loss.damage is damage and loss.figure is not None]
    return max(figures, key=lambda one: one.value, default=None)


def _ordered_with(solved: Solved, mine: Figure, right: Figure) -> Figure | None:
    """What is ordered with a number of the job as somebody typed it."""
    ordered = solved.key.figures.get(Key.COIL_MASS_ORDERED)
    if ordered is not None and right.key == Key.STRIP_WIDTH:
        return compute("practice.metal", "Metal", off.ordered_at_width, ordered, mine, right,
                       rounding=Rounding.NEAREST)
    if right.key not in ANSWERS:
        return ordered
    return plan(give(solved.key.job, right.key, mine.value)).figures.get(Key.COIL_MASS_ORDERED)


def _metal(solved: Solved, mine: Figure, right: Figure) -> Figure | None:
    figures, label = solved.key.figures, "Metal"
    if right.kind is Kind.MASS:
        return compute("practice.metal", label, off.off_by_mass, mine, right,
                       rounding=Rounding.NEAREST)
    if right.kind is Kind.THICKNESS and Key.COIL_MASS_ORDERED in figures:
        ordered = _ordered_with(solved, mine, right)
        return None if ordered is None else compute(
            "practice.metal", label, off.off_by_mass, ordered, figures[Key.COIL_MASS_ORDERED],
            rounding=Rounding.NEAREST)
    if right.kind is Kind.WIDTH and Key.COIL_MASS_ORDERED in figures:
        return compute("practice.metal", label, off.off_by_width,
                       figures[Key.COIL_MASS_ORDERED], mine, right, rounding=Rounding.NEAREST)
    if right.key in _OF_STRIP and Key.STRIP_MASS_PER_LENGTH in figures:
        return compute("practice.metal", label, off.off_by_length,
                       figures[Key.STRIP_MASS_PER_LENGTH], mine, right, rounding=Rounding.NEAREST)
    return None
