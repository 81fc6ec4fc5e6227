"""What a mistake would have cost, in words and in the cells of a table."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import assert_never

from coilwright.job.practice import Damage
from coilwright.plan.practice.losses import in_whole
from coilwright.units import System
from coilwright.values.figure import Figure
from coilwright.words.counting import counted


def loss_text(damage: Damage, figure: Figure, system: System) -> str:
    """What a mistake costs, in words: `428 lb of metal`."""
    match damage:
        case Damage.METAL:
            return f"{figure.text(system)} of metal"
        case Damage.DAYS:
            return counted(round(figure.value), "day")
        case Damage.MONEY:
            return _in_whole(figure, system)
        case Damage.DANGER:
            return figure.text(system)
        case _:
            assert_never(damage)


def _in_whole(money: Figure, system: System) -> str:
    return in_whole(money).text(system).replace(".00", "")


def cost_cells(
    figures: Mapping[Damage, Figure], shown: Iterable[Damage], system: System
) -> tuple[str, ...]:
    """The same of each kind that is shown, for a table; empty where there is none."""
    return tuple("" if one not in figures else _in_whole(figures[one], system)
                 if one is Damage.MONEY else figures[one].text(system) for one in shown)
