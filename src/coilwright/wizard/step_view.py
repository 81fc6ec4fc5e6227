"""How a step is declared: its answers, its headline figures, its drawing, and its blocks."""

from __future__ import annotations

import importlib
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from coilwright.job.answers import answers_of

if TYPE_CHECKING:
    from coilwright.drawing.line_work import LineWork
    from coilwright.plan import Plan
    from coilwright.wizard.widgets.blocks import Block, Drawing


@dataclass(frozen=True, slots=True)
class Headline:
    """A figure worth showing at once, and a short label for it.

    us_only: in metric it says what another figure says. instead: the key of a figure that stands
    there once it is known, and its label.
    """

    key: str
    label: str
    us_only: bool = False
    instead: tuple[str, str] | None = None

    def now(self, plan: Plan) -> Headline:
        """What stands there by a plan."""
        if self.instead is None or self.instead[0] not in plan.figures:
            return self
        return Headline(*self.instead)


@dataclass(frozen=True, slots=True)
class Group:
    """Answers under one heading.

    lead: the answer without which those that are not asked all wait for the same.
    """

    title: str
    keys: Sequence[str]
    lead: str = ""


@dataclass(frozen=True, slots=True)
class StepView:
    """One step, declared. above and below make the blocks around the fields."""

    key: str
    groups: tuple[Group, ...] = ()
    headlines: tuple[Headline, ...] = ()
    drawing: Drawing | None = None
    above: tuple[Callable[[], Block], ...] = ()
    below: tuple[Callable[[], Block], ...] = ()

    def heads(self, plan: Plan) -> tuple[Headline, ...]:
        """The headline figures by a plan."""
        return tuple(head.now(plan) for head in self.headlines)

    @property
    def keys(self) -> tuple[str, ...]:
        """The keys of all answers on the form."""
        return tuple(key for group in self.complete() for key in group.keys)

    def complete(self) -> tuple[Group, ...]:
        """The groups, with every answer of the step in them.

        An answer that no group names stands after the one it follows in the order of all
        answers, so that a new answer can never be forgotten on the screen.
        """
        groups = [Group(g.title, list(g.keys), g.lead) for g in self.groups] or [Group("", [])]
        named = {key for group in groups for key in group.keys}
        before = ""
        for answer in answers_of(self.key):
            if answer.key not in named:
                home = next((g for g in groups if before in g.keys), groups[0])
                keys = list(home.keys)
                keys.insert(keys.index(before) + 1 if before in keys else 0, answer.key)
                groups[groups.index(home)] = Group(home.title, keys, home.lead)
            before = answer.key
        return tuple(groups)


def load_view(step: str) -> StepView:
    """The declaration of a step, from the file named after it."""
    module = importlib.import_module(f"coilwright.wizard.steps.{step}")
    view: StepView = module.VIEW
    return view


def plane_drawing(
    plan: Plan, width: int, height: int, plane: int, work: LineWork, *, zero: bool = False
) -> list[str]:
    """The chosen plane, to scale, with its panels. zero: marks where lengths along it begin."""
    from coilwright.drawing.plane import plane_lines

    chosen = next((p for p in plan.planes if p.number == plane), None)
    if chosen is None and plan.planes:
        chosen = plan.planes[0]
    if chosen is None or width < 10 or height < 4:
        return []
    return plane_lines(chosen, width, height, plan.job.units, work, zero=zero)
