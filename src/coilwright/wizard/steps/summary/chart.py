"""What to settle first as a chart of ranges: how far each answer moves the ordered weight."""

from __future__ import annotations

from typing import TYPE_CHECKING

from textual.content import Content

from coilwright.drawing.bars import range_bar
from coilwright.plan.ask_first import Effect
from coilwright.units import Kind, show
from coilwright.values.keys import Key
from coilwright.values.standing import Standing
from coilwright.wizard.literal import escape_controls
from coilwright.wizard.widgets.columns import hang, left, pad, right

if TYPE_CHECKING:
    from coilwright.plan import Plan

Part = str | Content | tuple[str, str]
"""A piece of a line, with its style."""


class Chart:
    """What to settle first as rows of a chart: how far each answer moves the ordered weight.

    width: of the rows [cells].
    """

    def __init__(self, plan: Plan, effects: tuple[Effect, ...], width: int) -> None:
        self._plan = plan
        ends = [e.ends for e in effects if e.ends and e.ends[1] > e.ends[0]]
        self._scale = (min(e[0] for e in ends), max(e[1] for e in ends)) if ends else None
        self._width = width
        self._bar = max(_LEAST_BAR, width - _ROW)

    @property
    def heading(self) -> str:
        """The title of the chart, with both ends of its scale and the order as it is now."""
        title = left("Settle first", _LABEL + 5) + left("now", _VALUE + 1)
        if self._scale is None:
            return title.rstrip()
        least, most = (show(end, Kind.MASS, self._plan.job.units) for end in self._scale)
        return f"{title}{least}{right(most, self._bar - len(least))}  ask"

    def row(self, effect: Effect) -> list[Part]:
        """One answer: its name, how it stands, its range as a bar, who knows; and what it stops."""
        guess = "~ " if effect.standing is Standing.GUESS else ""
        parts: list[Part] = [
            (pad(effect.label, _LABEL), "bold"),
            f" {pad(escape_controls(guess + effect.now) or '?', _VALUE)} ",
        ]
        if self._scale is not None and effect.ends and effect.ends[1] > effect.ends[0]:
            ordered = self._plan.figures.get(Key.COIL_MASS_ORDERED)
            now = None if ordered is None else ordered.value
            parts.append((range_bar(effect.ends, now, self._scale, self._bar), "$primary"))
        else:
            said = "nothing can be ordered without it" if effect.blocks else (
                "does not move the amount")
            parts.append((pad(said, self._bar), "dim"))
        parts.append(f"  {'you' if effect.who == 'you' else effect.who}")
        if effect.stop:
            stop = (("\n    STOP  ", "bold $error"), (escape_controls(effect.stop.removeprefix(
                "STOP ")), "$error"))
            parts.append(hang(stop, self._width - 2, 10))
        return parts


_LABEL, _VALUE, _WHO = 22, 13, 14
_ROW = _LABEL + _VALUE + _WHO + 9
"""Cells of a row of the chart beside its bar."""
_LEAST_BAR = 8
