"""Lists to pick one of: a choice of an answer, a shape."""

from __future__ import annotations

import re
import time
from collections.abc import Mapping, Sequence
from typing import Any

from textual import events, on
from textual.app import ComposeResult
from textual.containers import Vertical
from textual.content import Content
from textual.screen import Screen
from textual.widgets import OptionList, Static
from textual.widgets.option_list import Option

from coilwright.job.metal import Finish
from coilwright.wizard.literal import escape_controls, plain
from coilwright.wizard.screens.base import ClosedOnce, Modal
from coilwright.wizard.settings import line_work
from coilwright.wizard.widgets.box import Box
from coilwright.wizard.widgets.choice import ChoiceBox
from coilwright.wizard.widgets.columns import cells, fit, pad
from coilwright.wizard.widgets.field import field_around
from coilwright.wizard.widgets.rows import MarkedList

ONE_WORD = 1.0
"""Letters typed within this many seconds of each other are one word."""
_PICKS_HIGH = 0.55
"""Of the screen, what a list of picks may take, as its style has it."""
_WIDE_BOX, _AROUND = 70, 10
"""Cells of the box of a list without its pictures, and of what stands around names and words."""
_PICTURE = 14
"""Cells of a picture beside a pick."""
_HINT = "Enter picks; letters jump; Escape leaves it as it is"
_SAID_OF_A_WORD = 12
"""Cells of a word that leads nowhere, as it is said."""


class TypedWord:
    """Letters typed one after the other, each within a second of the one before, are one word."""

    def __init__(self) -> None:
        self.text = ""
        """What was typed last; another letter may go on with it."""
        self._last_key = 0.0

    @property
    def goes_on(self) -> bool:
        """Whether a letter that comes now goes on with it."""
        return bool(self.text) and time.monotonic() - self._last_key < ONE_WORD

    def begin(self, text: str) -> None:
        """Take what was typed till now."""
        self.text, self._last_key = text, time.monotonic()

    def take(self, letter: str) -> bool:
        """Go on with a letter, or begin with it; whether it is one: any other key ends the word,
        and a space parts words but begins none.
        """
        goes_on = self.goes_on
        if not letter.isprintable() or not (letter.strip() or (letter and goes_on)):
            self.text = ""
            return False
        self.begin(f"{self.text if goes_on else ''}{letter}")
        return True


def first_named(word: str, names: Sequence[str], written: Sequence[str] = ()) -> int | None:
    """The place of the first name that begins with a word, is written so in the trade, or has a
    word that does; None for none. p within copper is no pick that p means, nor is paint what is not
    painted."""
    wanted = word.casefold()
    found = next((at for of in (names, written) for at, name in enumerate(of)
                  if name.casefold().startswith(wanted)), None)
    if found is None:
        starts = re.compile(rf"\b(?<!not ){re.escape(wanted)}")
        found = next((at for at, name in enumerate(names) if starts.search(name.casefold())), None)
    return found


class _Picks(MarkedList):
    """The picks: its ends are ends, as one that goes round brings others with no word."""

    def action_cursor_up(self) -> None:
        """The pick above."""
        if self.highlighted != 0:
            MarkedList.action_cursor_up(self)

    def action_cursor_down(self) -> None:
        """The pick below."""
        if self.highlighted != self.option_count - 1:
            MarkedList.action_cursor_down(self)


class PickScreen(Modal[str]):
    """Pick one of a few words; None where nothing is picked.

    pictures: a few lines to stand beside each, for shapes that are easier seen than said; about:
    what is said of each below its name. fresh: nothing is picked yet, and the value is only where
    the mark begins. letters: those that opened it; a word begun with them that is none of the picks
    was meant for another answer, so that Enter after it picks nothing: it is kept as `missed`.
    written: what the trade writes for a pick, which letters find too.

    Where not all pictures have room, each pick is a row and the marked one's picture stands below:
    all picks are seen at once.
    """

    def __init__(
        self, title: str, choices: tuple[str, ...], value: str,
        pictures: Mapping[str, Sequence[str]] | None = None,
        about: Mapping[str, str] | None = None, *, fresh: bool = False, letters: str = "",
        written: Mapping[str, str] | None = None,
    ) -> None:
        super().__init__()
        self._title = title
        self._unseen, self.missed = letters, ""
        self._pictures = pictures or {}
        self._about = about or {}
        self._written = written or {}
        self.choices = choices
        self.value = value
        self._fresh = fresh
        self._typed = TypedWord()
        self._below = Static("", id="pick-picture", markup=False)

    def compose(self) -> ComposeResult:
        """Title, list, the marked pick's picture where each has none of its own."""
        tall = sum(len(picture) + 1 for picture in self._pictures.values())
        below = tall > _PICKS_HIGH * self.app.size.height
        rows = self._row_alone if below else self._row
        with Vertical(classes=f"box narrow-box{' -pictured' if below else ''}"):
            yield Static(plain(self._title), classes="over-title")
            yield _Picks(*(Option(rows(choice)) for choice in self.choices), compact=True)
            if below:
                self._below.styles.height = max(map(len, self._pictures.values()))
                yield self._below
            yield Static(_HINT, id="pick-hint", classes="over-hint", markup=False)

    def _row(self, choice: str) -> Content:
        """A pick: its name and, where there is one, what it looks like."""
        now = "  (now)" if choice == self.value and not self._fresh else ""
        short = f", {self._written[choice]}" if choice in self._written else ""
        name = f" {escape_controls(choice)}{short}{now}"
        picture = self._pictures.get(choice, ())
        if not picture and choice in self._about:
            return Content.assemble(name, "\n", (f"   {self._about[choice]}", "dim"))
        if not picture:
            return Content(name)
        return Content("\n").join([self._pictured(choice, name.strip()), Content("")])

    def _pictured(self, choice: str, name: str) -> Content:
        """What a pick looks like, its name and a few words beside it."""
        picture = self._pictures.get(choice, ())
        beside = ["", self._about.get(choice, "")]
        beside += [""] * (len(picture) - len(beside))
        first, *others = (f"{pad(line, _PICTURE)}" for line in picture)
        rows = [Content.assemble(" ", first, (name, "bold"))]
        rows += [Content.assemble(" ", line, (words, "dim"))
                 for line, words in zip(others, beside[1:], strict=False)]
        return Content("\n").join(rows)

    def _row_alone(self, choice: str) -> Content:
        """A pick on a row of its own, and its few words where those of all picks have room: they
        stand beside the picture too."""
        wide = max(map(cells, self.choices))
        room = min(_WIDE_BOX, self.app.size.width) - _AROUND - wide
        fits = max(map(cells, self._about.values()), default=0) <= room
        return Content.assemble(f" {pad(choice, wide)}", (
            f"  {self._about.get(choice, '')}" if fits else "", "dim"))

    @on(OptionList.OptionHighlighted)
    def _marked(self, event: OptionList.OptionHighlighted) -> None:
        """Draw the marked pick, where the list has no pictures."""
        event.stop()
        if self._below.is_attached:
            choice = self.choices[event.option_index]
            now = "  (now)" if choice == self.value and not self._fresh else ""
            self._below.update(self._pictured(choice, f"{choice}{now}"))

    def on_mount(self) -> None:
        """Start at what is picked now."""
        rows = self.query_one(MarkedList)
        rows.highlighted = self.choices.index(self.value) if self.value in self.choices else 0
        rows.focus()
        if self._unseen:
            self._typed.begin(self._unseen)
            if not self._jump_to(self._unseen):
                self._jump_to(self._unseen[0])
            self._look_for_typed()
        # A pick may be several lines high: the marked one is shown whole.
        self.call_after_refresh(rows.scroll_to_highlight, top=bool(self._pictures))

    def on_key(self, event: events.Key) -> None:
        """Letters typed one after the other jump to the first row that begins with them; where
        none does they jump nowhere, and that is said."""
        letter, before = event.character or "", self._typed.text
        if self._unseen and event.key != "enter":
            typed = letter if letter.isprintable() else ""
            self._unseen = self._unseen + typed if typed and self._typed.goes_on else ""
        if not letter.isprintable() or not letter:
            self._say(_HINT)
        if not self._typed.take(letter):
            return
        event.stop()
        word = self._typed.text
        # The first one means the pick it stands on, where that begins so: Enter would have picked
        # another.
        again = before and set((before + word).casefold()) == {letter.casefold()}
        if again and self._next_with(letter, len(word)):
            self._typed.begin(letter)
        else:
            self._look_for_typed()

    def _look_for_typed(self) -> None:
        """Go where the word leads, or say that it leads nowhere."""
        word = self._typed.text
        there = self._jump_to(word)
        said = fit(escape_controls(word), _SAID_OF_A_WORD)
        enter = "leaves it as it is; arrows choose" if self._unseen else "picks the marked one"
        self._say(_HINT if there else f"“{said}” begins none of them; Enter {enter}")

    def _say(self, words: str) -> None:
        self.query_one("#pick-hint", Static).update(words)

    def _next_with(self, letter: str, times: int) -> bool:
        """Mark the next pick that begins with a letter, where the marked one does and no pick
        begins with it so many times; whether it did."""
        names = [choice.casefold() for choice in self.choices]
        rows, wanted = self.query_one(MarkedList), letter.casefold()
        starts = [at for at, name in enumerate(names) if name.startswith(wanted)]
        several = times > 1 and any(name.startswith(wanted * times) for name in names)
        if rows.highlighted not in starts or len(starts) < 2 or several:
            return False
        rows.highlighted = starts[(starts.index(rows.highlighted) + 1) % len(starts)]
        return True

    def _jump_to(self, text: str) -> bool:
        """Keep the mark on a pick that begins with a text; else mark the first that is meant by it;
        whether any is."""
        written = [self._written.get(choice, "") for choice in self.choices]
        marked = self.query_one(MarkedList).highlighted
        if marked is not None and any(of[marked].casefold().startswith(text.casefold())
                                      for of in (self.choices, written)):
            return True
        found = first_named(text, self.choices, written)
        if found is not None:
            self.query_one(MarkedList).highlighted = found
        return found is not None

    def on_mouse_down(self) -> None:
        """Whoever clicks sees the list."""
        self._unseen = ""

    @on(OptionList.OptionSelected)
    def _selected(self, event: OptionList.OptionSelected) -> None:
        event.stop()
        picked = self.choices[event.option_index]
        named = f"{picked} {self._written.get(picked, '')}"
        if self._unseen.casefold() in named.casefold():
            self.dismiss(picked)
        else:
            self.missed = self._unseen
            self.dismiss(None)


def open_choices(screen: Screen[Any], box: ChoiceBox) -> None:
    """Open the list of all picks of a box."""
    pick = PickScreen(box.title, box.choices, box.value, *_pictured(screen, box),
                      letters=box.take_letters(),
                      written={one.value: one.written for one in Finish if one.written}
                      if box.kind is Finish else None)

    def picked(value: str | None) -> None:
        if value is not None:
            box.pick(value, by_hand=True)
        elif pick.missed:
            box.post_message(ChoiceBox.Strayed(box, pick.missed))

    screen.app.push_screen(pick, picked)


def _pictured(screen: Screen[Any], box: ChoiceBox) -> tuple[dict[str, Sequence[str]],
                                                            dict[str, str]]:
    """A picture and a few words for each pick, where the picks are shapes."""
    from coilwright.job.roof import Building, Shape

    if box.kind is None or not issubclass(box.kind, (Building, Shape)):
        return {}, {}
    from coilwright.drawing.shapes import shape_lines
    from coilwright.words import shape_words

    work = line_work(screen)
    high = 3 if work.fine else 4
    return ({pick.value: shape_lines(pick, 12, high, work) for pick in box.kind},
            shape_words("building" if issubclass(box.kind, Building) else "plane"))


class OpensPicks(ClosedOnce):
    """For screens with choices: a list opens over them, and words typed on a closed one are told.

    Handlers by name: the screen library finds decorated ones only in its own classes.
    """

    def on_choice_box_list_wanted(self, event: ChoiceBox.ListWanted) -> None:
        """All picks in a list."""
        event.stop()
        open_choices(self, event.box)

    def on_choice_box_strayed(self, event: ChoiceBox.Strayed) -> None:
        """What was typed on a closed list changed nothing."""
        event.stop()
        self.notify(event.words, markup=False)

    def on_box_not_asked(self, event: Box.NotAsked) -> None:
        """What was typed where nothing is asked changed nothing."""
        event.stop()
        self._say_not_asked(event.box, event.typed)

    def _say_not_asked(self, box: Box | ChoiceBox, typed: str) -> None:
        if (field := field_around(box)) is not None:
            self.notify(f"“{escape_controls(typed[:20])}” changed nothing at "
                        f"{field.answer.label}. {field.unasked_line}", severity="warning",
                        markup=False)

    def on_choice_box_lettered(self, event: ChoiceBox.Lettered) -> None:
        """A letter picks nothing, nor does the key of a list of rows below it; that is said."""
        from coilwright.wizard.lists.block import RowsBlock

        event.stop()
        step = next((node for node in event.box.ancestors if node.has_class("step")), None)
        label = next((action.label for block in (step.query(RowsBlock) if step else ())
                      if block.display for action in block.form.actions
                      if event.letter in action.keys.split(",")), "")
        if event.box.idle and not label:
            self._say_not_asked(event.box, event.letter)
            return
        self.notify(f"{event.letter} ({label.lower()}) works in the list below: Tab leads "
                    "there." if label else event.words, markup=False)
