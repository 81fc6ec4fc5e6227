"""What to settle first as a chart of ranges: how far each answer moves the ordered weight."""

from __future__ import annotations

from typing import TYPE_CHECKING

from textual.content import Content
from textual.style import Style

from coilwright.drawing.bars import range_bar
from coilwright.plan.ask_first import Effect
from coilwright.units import Kind, show
from coilwright.values.keys import Key
from coilwright.values.standing import Standing
from coilwright.wizard.literal import escape_controls
from coilwright.wizard.widgets.columns import cells, fit, hang, left, pad, right
from coilwright.wizard.widgets.standing_word import TURNS

if TYPE_CHECKING:
    from coilwright.plan import Plan

Part = str | Content | tuple[str, str | Style]
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
        if width > _NARROW:  # the questions below the chart have the same column
            asked = max((asked, *(cells(q.who) for q in plan.questions)))
        drawn = [e for e in effects if self._moves(e)]
        longest = max((cells(e.label) for e in effects), default=0)
        room = width - _GAPS - max(asked, _LEAST_WHO)
        if drawn:
            of = drawn if width <= _NARROW else effects  # without a bar there is room in its place
            self._value = max(_LEAST_VALUE, min(_VALUE, max(cells(_now(e)) for e in of)))
            self._label = min(longest, _LABEL + _VALUE - self._value
                              + max(0, width - _NARROW) // 4, room - self._value - _SCALE)
        else:  # without bars a label has what the words in their place leave
            room -= cells(_BLOCKS[1])
            self._label = min(longest, room - _LEAST_VALUE)
            now = max((cells(_now(e)) for e in effects), default=0)
            self._value = max(_LEAST_VALUE, min(now, room - max(self._label, _LEAST_LABEL)))
        room = width - self._value - _GAPS - max(asked, _LEAST_WHO)
        self._label = max(self._label, _LEAST_LABEL)
        self._bar = max(_LEAST_BAR, room - self._label)

    @property
    def heading(self) -> str:
        """The title of the chart, with both ends of its scale and the order as it is now."""
        title = left(" Settle first", self._label + 5) + left("now", self._value + 2)
        least, most = ("", "") if self._scale is None else (
            show(end, Kind.MASS, self._plan.job.units) for end in self._scale)
        return f"{title}{least}{right(most, self._bar - len(least))}  ask"

    @property
    def ask_at(self) -> int:
        """Cells before whom to ask."""
        return self._label + self._value + self._bar + 9

    def _moves(self, effect: Effect) -> bool:
        """Whether it has a bar."""
        return bool(self._scale is not None and effect.ends and effect.ends[1] > effect.ends[0])

    def _name(self, effect: Effect, room: int) -> tuple[str, int]:
        """An answer's name, and what it leaves of the room behind it: a long name takes what the
        answer as it stands does not need there, before it is cut."""
        spare = max(0, room - cells(_now(effect)))
        name = left(fit(effect.label, self._label + spare), self._label)
        return name, room - (cells(name) - self._label)

    def row(self, effect: Effect) -> list[Part]:
        """One answer: its name, how it stands, its range as a bar, who knows; its stop."""
        is_whole = False
        if self._scale is not None and effect.ends and self._moves(effect):
            name, room = self._name(effect, self._value)
            parts: list[Part] = [(name, "bold"), " ", *_pressed(effect, pad(_now(effect), room)),
                                 "  "]
            ordered = self._plan.figures.get(Key.COIL_MASS_ORDERED)
            now = None if ordered is None else ordered.as_read(self._plan.job.units)
            parts.append((range_bar(effect.ends, now, self._scale, self._bar), "$primary"))
        else:
            known = Key.COIL_MASS_ORDERED in self._plan.figures
            said: tuple[str, ...] = _STAYS if known else _UNKNOWN
            if effect.unread:
                said = (escape_controls(effect.unread), *_UNREAD)
            elif effect.blocks:
                said = _BLOCKS
            name, room = self._name(effect, self._value + self._bar - cells(said[-1]) - 2)
            room += cells(said[-1]) + 2
            value = left(fit(_now(effect), room - cells(said[-1]) - 2),
                         self._value + min(0, self._label - cells(name)))
            room -= cells(value)
            words = next((one for one in said if cells(one) <= room), said[-1])
            parts = [(name, "bold"), " ", *_pressed(effect, value), "  ",
                     (pad(words, room), "$secondary")]
            is_whole = words == said[0]
        parts.append(f"  {effect.who}")
        if effect.unread and not is_whole:
            parts.append(hang((("\n    ", ""), (escape_controls(effect.unread), "")),
                              self._width - 2, 6))
        if effect.stop:
            # Neither what would stop nor what clears a stop is one, and neither looks like one.
            style = "$warning" if effect.would_stop else ""
            stop = (escape_controls(effect.stop), style)
            parts.append(hang((("\n    ", ""), stop), self._width - 2, 6))
        return parts


def _pressed(effect: Effect, value: str) -> list[Part]:
    """An answer as it stands, in its room; a guess is to be pressed, without what is left of it."""
    if effect.standing is not Standing.GUESS:
        return [value]
    words = value.rstrip()
    return [(words, TURNS), value[len(words):]]


def _now(effect: Effect) -> str:
    """The answer as it stands."""
    guess = "~ " if effect.standing is Standing.GUESS else ""
    return escape_controls(guess + effect.now) or "?"


_LABEL, _VALUE, _LEAST_WHO = 22, 15, 14
_LEAST_LABEL, _LEAST_VALUE = 12, 4
_NARROW = 80
"""Cells of a row from which on labels have more room."""
_GAPS = 10
"""Cells of a row of the chart between its columns, and before its number."""
_BLOCKS = ("nothing can be ordered without it", "holds the order", "holds it")
_STAYS = ("does not move the amount", "amount stays", "stays")
_UNREAD = ("cannot be read: type it again", "cannot be read", "unread")
_UNKNOWN = ("not known yet", "?")
"""What is said instead of a bar, the longest that there is room for."""
_LEAST_BAR = 8
_SCALE = 18
"""Cells of a bar over which both ends of its scale have room."""
