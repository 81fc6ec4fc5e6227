"""The rows of a declared list, with the keys that its declaration gives it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any, TypeVar

from textual.binding import Binding
from textual.content import Content
from textual.style import Style
from textual.widgets import OptionList
from textual.widgets.option_list import Option

from coilwright.values.standing import Standing
from coilwright.wizard.lists.beside import Wanted
from coilwright.wizard.lists.form import STANDING, Action, Line, Opened, Part, RowForm
from coilwright.wizard.lists.stands import ROW_STANDS
from coilwright.wizard.widgets.columns import hang
from coilwright.wizard.widgets.rows import KeyedRows
from coilwright.wizard.widgets.standing_word import TURNS, TurnsStanding

Class = TypeVar("Class", bound=type)
_INDENT = 7
"""Cells before a further row of what is said in an empty list."""


def with_keys(
    base: Class, of: str, actions: Sequence[Action], *, footer: bool = False
) -> Class:
    """A class with the keys of a declaration; its `action_do` does them.

    footer: they have room there. In a list they stand beside the heading instead.
    """
    keys = [Binding(action.keys, f"do('{action.name}')", action.label, tooltip=action.tooltip,
                    id=f"{of}.{action.name}", show=footer)
            for action in actions if action.keys and action not in ROW_STANDS]
    # Its style sheets are looked for beside the module that it says it is from.
    names = {"BINDINGS": keys, "__module__": base.__module__,
             "of_screen": {one.keys: one.name for one in actions if one in ROW_STANDS}}
    return type(base.__name__, (base,), names)  # type: ignore[return-value]


class RowList(TurnsStanding, KeyedRows):
    """The rows. Its keys, where it has any, say by message what is wanted."""

    asleep: frozenset[str] = frozenset()
    """Actions whose keys do nothing for now."""
    of_screen: Mapping[str, str] = {}
    """Actions by those keys that the screen has for answers too."""

    def take_key(self, key: str) -> bool:
        """Say what is wanted by a key of the screen."""
        if (name := self.of_screen.get(key)) is not None:
            self.action_do(name)
        return name is not None

    def on_turns_standing_turned(self, event: TurnsStanding.Turned) -> None:
        """The standing of the marked row is to be turned."""
        event.stop()
        self.action_do("turn")

    def action_do(self, name: str) -> None:
        """Say what is wanted."""
        self.post_message(Wanted(name))

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """A key that is asleep is left to whatever stands around the list."""
        return action != "do" or not set(parameters) & self.asleep

    def fill(
        self, form: RowForm[Any], rows: Opened, lines: Sequence[Line], width: int, instead: str
    ) -> None:
        """Show the lines, or what stands there instead of them."""
        with self.prevent(OptionList.OptionHighlighted):
            self.set_options(
                [Option(Content.assemble(*map(_pressed, parts)))
                 for parts in form.show(rows, lines, width)]
                or _instead(instead, width))


def _pressed(part: Part) -> str | tuple[str, str | Style]:
    """A part of a row; its standing is a word to press."""
    if isinstance(part, str) or part[1] != STANDING:
        return part
    return part[0], TURNS if part[0] == Standing.SURE else TURNS + Style(bold=True)


def _instead(text: str, width: int) -> list[Option]:
    """A line to stand on; further ones, which say what to do first, below it."""
    first, *more = text.split("\n")
    begins = len(first) - len(first.lstrip())
    return [Option(hang(((first, ""),), width, begins)),
            *(Option(hang(((line, "$secondary"),), width, _INDENT), disabled=True)
              for line in more)]
