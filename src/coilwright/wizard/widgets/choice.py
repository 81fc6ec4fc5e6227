"""A choice in one row: all picks side by side where they fit, else the picked one and a list."""

from __future__ import annotations

from enum import StrEnum

from textual import events
from textual.binding import Binding
from textual.content import Content
from textual.message import Message
from textual.reactive import reactive
from textual.widget import Widget

from coilwright.job.receiving import Decision
from coilwright.wizard.literal import escape_controls
from coilwright.wizard.widgets.columns import cells, fit

_PICK = "Enter: pick"
_OPENS = (" Enter opens",)
_LEADS_ON = (" Enter goes on", " Enter: on")
"""Said behind a list that has the cursor: Enter opens it, but once something was picked from it.
The longest that has room.
"""
_SIGN = 2
"""Cells of the sign of a list, and before it."""
_A_WORD = 2
"""Letters in a row that pick nothing: whoever types them means another answer."""
_BY_NO_LETTER: tuple[type[StrEnum], ...] = (Decision,)
"""Picks that no letter makes: a tag that begins with r, typed here, had refused its coil."""
_AROUND = 4
"""Cells around what is picked: its brackets, and the sign of the list."""


class ChoiceBox(Widget, can_focus=True):
    """Picks one of a few words by arrow, list or mouse; where all are seen, by first letter too.

    On a closed list a letter opens it at the first that begins with it, and picks nothing. Enter
    opens it, and goes on where it has just been picked from: to go on is what Enter then is for.
    """

    BINDINGS = [
        Binding("left", "turn(-1)", "Pick before", show=False, id="choice.left"),
        Binding("right", "turn(1)", "Pick after", show=False, id="choice.right"),
        Binding("space", "list", "List", show=False, id="choice.list"),
        Binding("backspace,delete", "empty", "No answer", show=False, id="choice.empty"),
        Binding("enter", "done", "On", show=False, id="choice.done"),
    ]

    value: reactive[str] = reactive("")

    class Changed(Message):
        """Another pick, as text; empty for none."""

        def __init__(self, value: str) -> None:
            super().__init__()
            self.value = value

    class Done(Message):
        """Enter: on to what comes next."""

    class ListWanted(Message):
        """All picks are wanted in a list; the screen opens it and gives the pick to `box`.

        It begins where the letters lead that were typed on the closed one: `take_letters`.
        """

        def __init__(self, box: ChoiceBox) -> None:
            super().__init__()
            self.box = box

    class Lettered(Message):
        """A letter was typed that picks nothing: perhaps it is the key of a list of rows."""

        def __init__(self, box: ChoiceBox, letter: str) -> None:
            super().__init__()
            self.box = box
            self.letter = letter

        @property
        def words(self) -> str:
            """What came of it, in a sentence."""
            return _nothing(self.letter, self.box)

    class Strayed(Message):
        """Letters were typed on a closed list, then Enter: most likely meant for another answer."""

        def __init__(self, box: ChoiceBox, typed: str) -> None:
            super().__init__()
            self.box = box
            self.typed = typed

        @property
        def words(self) -> str:
            """What came of it, in a sentence."""
            return _nothing(self.typed, self.box)

    def __init__(
        self, choices: tuple[str, ...], title: str, kind: type[StrEnum] | None = None
    ) -> None:
        super().__init__()
        self.choices = choices
        self.title = title
        self.idle = False
        """Whether it is not asked now: no key picks anything, and Enter leads on."""
        self.instead = ""
        """What stands there while nothing is picked: why it is not asked, or that nobody knows."""
        self._strays = ""
        """What was typed since the last other key and picked nothing."""
        self._begun = ""
        """What was typed of the word of a pick since the last other key: the rest of it is no
        other answer."""
        self._from_list = False
        """Whether a pick was taken from its list since the last other key."""
        self.kind = kind
        """What the picks are; shapes are shown in the list with a picture of each."""

    def offer(self, choices: tuple[str, ...]) -> None:
        """Take other picks, as another unit system has them."""
        if choices != self.choices:
            self.choices = choices
            self.refresh(layout=True)

    @property
    def is_list(self) -> bool:
        """Whether its picks stand in a list that Enter opens, for lack of room in the row."""
        return not self._fits()

    @property
    def by_letter(self) -> bool:
        """Whether a letter picks, where all picks stand in the row."""
        return self.kind not in _BY_NO_LETTER

    @property
    def opens(self) -> bool:
        """Whether Enter opens its list now."""
        return self.is_list and not self._from_list and not self.idle

    def _fits(self) -> bool:
        return sum(cells(c) + 2 for c in self.choices) <= self.size.width

    @property
    def needs(self) -> int:
        """Cells that the row takes at least: all picks, or the picked one with the sign of a list.

        Where nothing is picked that is what is to be done; all picks are not worth a row more.
        """
        inline = sum(cells(c) + 2 for c in self.choices)
        if self.idle:
            return min(inline, _AROUND)
        return min(inline, cells(escape_controls(self.value) or _PICK) + _AROUND)

    def _spans(self) -> list[tuple[int, int, str]]:
        """Where each pick stands in the row: from, to, pick."""
        spans, at = [], 0
        for choice in self.choices:
            end = at + cells(choice) + 2
            spans.append((at, end, choice))
            at = end
        return spans

    def render(self) -> Content:
        """The row."""
        if self.idle:
            said = escape_controls(self.value) or self.instead
            return Content.styled(fit(said, max(3, self.size.width)), "dim")
        if self._fits():
            if self.value and self.value not in self.choices:
                return Content(escape_controls(self.value))
            unknown = f"  {self.instead}" if self.instead and not self.value else ""
            return Content.assemble(*(
                (f"‹{c}›", "bold") if c == self.value else (f" {c} ", "dim")
                for c in self.choices
            ), unknown)
        room = max(3, self.size.width - _AROUND)
        whole = f"{_PICK} one of {len(self.choices)}"
        whole = self.instead or (whole if cells(whole) <= room else _PICK)
        shown = escape_controls(self.value) or whole
        shown = fit(shown, room)
        style = "bold" if self.value else "dim"
        boxed = f"‹{shown}›" if self.value else f" {shown} "
        if not self.has_focus:
            return Content.assemble((boxed, style), (" ▾", "dim"))
        spare = self.size.width - cells(boxed) - _SIGN
        does = _LEADS_ON if self._from_list else _OPENS
        said = next((one for one in does if self.value and spare >= cells(one)), "")
        return Content.assemble((boxed, style), (" ▾", "bold"), (said, "dim"))

    def pick(self, value: str, *, by_hand: bool = False) -> None:
        """Take a pick, and say so where it is another one.

        by_hand: picked from the list or clicked, so that what was a guess is one no more, the same
        pick too.
        """
        if (value != self.value or by_hand) and not self.idle:
            self._from_list = by_hand and self.is_list
            self.value = value
            self.refresh()
            self.post_message(self.Changed(value))

    def action_turn(self, by: int) -> None:
        """The pick before or after."""
        if self.value in self.choices:
            at = min(max(self.choices.index(self.value) + by, 0), len(self.choices) - 1)
        else:
            at = 0 if by > 0 else len(self.choices) - 1
        self.pick(self.choices[at])

    def action_empty(self) -> None:
        """Take the pick away."""
        self.pick("")

    def action_done(self) -> None:
        """A list opens, answered or not, but for a word just typed on it, which is told: what is
        typed after it would jump in the list. Picks that all stand in the row lead on, and so does
        a list just picked from."""
        strays, self._strays = self._strays, ""
        if not self.opens:
            self.post_message(self.Done())
        elif len(strays) >= _A_WORD or strays.isdigit():
            self.post_message(self.Strayed(self, strays))
        else:
            self.action_list()

    def action_list(self) -> None:
        """All picks in a list; a space within what is typed opens none."""
        if not self._strays and not self._begun and not self.idle:
            self.post_message(self.ListWanted(self))

    def take_letters(self) -> str:
        """What was typed on the closed list that is opened now; it has it from then on."""
        letters, self._strays = self._strays, ""
        return letters

    def on_focus(self) -> None:
        """Nothing was typed here yet; a list says how it is opened."""
        self._strays = self._begun = ""
        self.refresh()

    def on_blur(self) -> None:
        """A list says no more how it is opened, and opens by Enter when one comes back."""
        self._from_list = False
        self.refresh()

    def on_key(self, event: events.Key) -> None:
        """A letter picks the next choice that begins with it, where one sees what it picks; a
        closed list it opens there. A word typed out picks what it says.

        One that nothing begins with was most likely meant for another answer: that it changed
        nothing is told.
        """
        letter = event.character or ""
        if event.key != "enter" and self._from_list:
            self._from_list = False
            self.refresh()
        if not letter.strip() or not letter.isprintable():
            if event.key == "space":
                self._strays += " " if self._strays else ""
            elif event.key != "enter":
                self._strays = ""
            begun = f"{self._begun} " if event.key == "space" and self._begun else ""
            self._begun = begun if self.value.casefold().startswith(begun.casefold()) else ""
            return
        if self._goes_on(letter):
            event.stop()
            return
        starts = [c for c in self.choices if c.casefold().startswith(letter.casefold())
                  and (self.by_letter or not self._fits())]
        if not self._fits() or not starts or self.idle or len(self._strays) >= _A_WORD:
            event.stop()
            self._begun = ""
            if not self._strays:
                opens = starts and not self.idle
                self.post_message(
                    self.ListWanted(self) if opens else self.Lettered(self, letter))
            self._strays += letter
            return
        event.stop()
        self._strays, self._begun = "", letter
        later = starts.index(self.value) + 1 if self.value in starts else 0
        picked = starts[later % len(starts)]
        # Its own letter means the pick that stands there: a guess is one no more.
        self.pick(picked, by_hand=picked == self.value)

    def _goes_on(self, letter: str) -> bool:
        """Go on with the word of a pick that its first letters were typed of; whether there is
        one: `yes` is no pick and an `e` that picks nothing."""
        word = (self._begun + letter).casefold()
        fits = [c for c in self.choices if c.casefold().startswith(word)]
        if not self._begun or not fits:
            return False
        self._begun += letter
        if self.value not in fits:
            self.pick(fits[0])
        return True

    def on_click(self, event: events.Click) -> None:
        """A click picks what it hits, or opens the list."""
        event.stop()
        self._strays = self._begun = ""
        if not self._fits():
            self.action_list()
            return
        for start, end, choice in self._spans():
            if start <= event.x < end:
                self.pick(choice, by_hand=True)


def _nothing(typed: str, box: ChoiceBox) -> str:
    if not box.is_list:
        *most, last = dict.fromkeys(choice[0].casefold() for choice in box.choices)
        letters = f"{', '.join(most)} or {last}" if most else last
        does = (f"{letters} does, and ← →" if box.by_letter
                else "← → do, so that no stray letter decides it")
        return f"“{escape_controls(typed)}” picks nothing at {box.title}: {does}."
    return (f"“{escape_controls(typed)}” changed nothing: {box.title} is a list. "
            "Enter opens it, ↓ goes on.")
