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
from coilwright.wizard.widgets.columns import cells, hang, left, pad, right

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
        asked = max((cells(e.who) for e in effects), default=0)
        self._bar = max(_LEAST_BAR, width - _ROW - max(asked, _LEAST_WHO))

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
            said = _BLOCKS if effect.blocks else _STAYS
            words = next((one for one in said if cells(one) <= self._bar), said[-1])
            parts.append((pad(words, self._bar), "$secondary"))
        parts.append(f"  {effect.who}")
        if effect.stop:
            stop = (("\n    STOP  ", "bold $error"), (escape_controls(effect.stop.removeprefix(
                "STOP ")), "$error"))
            parts.append(hang(stop, self._width - 2, 10))
        return parts


_LABEL, _VALUE, _LEAST_WHO = 22, 13, 14
_ROW = _LABEL + _VALUE + 9
"""Cells of a row of the chart beside its bar and whom to ask."""
_BLOCKS = ("nothing can be ordered without it", "holds the order", "holds it")
_STAYS = ("does not move the amount", "amount stays", "stays")
"""What is said instead of a bar, the longest that there is room for."""
_LEAST_BAR = 8
