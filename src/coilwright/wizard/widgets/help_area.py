"""The help below a form: on the answer that has the focus, or on what is wrong."""

from __future__ import annotations

from textual import events
from textual.content import Content
from textual.widgets import Static

from coilwright.job.answers import ANSWERS
from coilwright.job.edit import by_quote, head_value, machine_value, usual_in, usual_range
from coilwright.job.job import Job
from coilwright.wizard.literal import escape_controls
from coilwright.wizard.widgets.columns import cells, hang
from coilwright.wizard.widgets.field import Field
from coilwright.wizard.widgets.meant import OFFER
from coilwright.wizard.widgets.shown_rows import ShownRows
from coilwright.wizard.widgets.text import FUNCTION_KEY, Hanging, Piece, key_under, press_key
from coilwright.words import words

_MORE = "F1\u00a0says\u00a0more"
"""Behind help that takes both lines: on one of them, whatever the width."""
_LINES_FOR_BOTH = 3
_INDENT = 3
"""Cells before the help."""


def press_offer(line: Static, key: str) -> None:
    """Enter, as a refused number's message offers: only where it does, for the words of an error
    may name a key that is none here."""
    if key == "enter" and " ".join(str(line.content).split()).endswith(OFFER):
        press_key(line.app, key)


class BoxHelp(Static):
    """The help below the boxes of a dialog; a click on what Enter takes there takes it."""

    def on_click(self, event: events.Click) -> None:
        """Take it."""
        press_offer(self, key_under(self, event))


class HelpArea(Hanging):
    """Always two lines high, so that nothing jumps when an error comes or goes."""

    _all_keys = False
    """Whether it says what keys do, and not only of what F1 or F3 says or takes."""

    def on_click(self, event: events.Click) -> None:
        """Press the key whose words were hit; in a sentence on an answer `a` is no key."""
        key = key_under(self, event)
        if self._all_keys or FUNCTION_KEY.fullmatch(key):
            press_key(self.app, key)
        elif self.has_class("-error"):
            press_offer(self, key)

    def show(self, job: Job, field: Field | None, errors: list[tuple[Field, str]],
             keys: str = "", rows: ShownRows | None = None) -> None:
        """Show the help on the focused field; errors, its own or another's, come first.

        keys: what the keys do where no field has the focus. rows: know what is asked since the
        last pick.
        """
        own = next((e for f, e in errors if f is field), "")
        other = next(((f, e) for f, e in errors if f is not field), None)
        self.set_class(bool(errors), "-error")
        self._all_keys = field is None and bool(keys)
        if own:
            self._say_error((" × ", "bold"), (escape_controls(own), ""))
            return
        text = keys if field is None else escape_controls(field.help_in(job.units))
        first: tuple[Piece, ...] = (("   ", ""), (text, ""))
        usual = usual_line(job, field, self.content_size.width - _INDENT)
        second: tuple[Piece, ...] = (("   ", ""), (usual, ""))
        if field is not None and field.unasked_line:
            first, second = (("   ", ""), (field.unasked_line, "")), first
        if lapsed := lapsed_line(job, field):
            # It is never cut: where it takes both lines, the help waits behind F1.
            if self._is_low and _INDENT + cells(lapsed) > self.size.width and other is None:
                self.say((("   ", ""), (f"{lapsed} · {_MORE}", "")))
                return
            first, second = (("   ", ""), (lapsed, "")), second if self._is_low else first
        if asked_now := () if rows is None else rows.asked_now(self.size.width):
            second = asked_now
        if text and self._is_low and sum(cells(said) for said, _ in first) > self.size.width:
            # It takes both lines: what is new comes before it, and F1 is named behind it.
            if asked_now:
                first, second = second, first
            elif other is None:
                self.say((*first, (f" · {_MORE}", "")))
                return
        if other is None:
            self.say(first, second)
            return
        name = other[0].answer.label
        error = ((" × ", "bold"), (f"{name}: ", "bold"),
                 (escape_controls(other[1].removeprefix(f"{name}: ")), ""))
        # An error is never cut: where it takes both lines, the help waits behind F1.
        if sum(cells(words) for words, _ in error) > self.size.width and self._is_low:
            self._say_error(*error)
        else:
            self.say(first, error)

    @property
    def _is_low(self) -> bool:
        return self.size.height < _LINES_FOR_BOTH

    def _say_error(self, *pieces: Piece) -> None:
        """Show an error alone; low, it has all the width there is where it needs it."""
        width = self.content_size.width
        if self._is_low and len(hang(pieces, width, cells(pieces[0][0])).plain.split("\n")) > (
                self.size.height):
            self.say()
            self.update(Content.assemble(*pieces))
        else:
            self.say(pieces)


def lapsed_line(job: Job, field: Field | None) -> str:
    """Why an answer that was sure is a guess again; empty where it is none."""
    if field is None or field.key not in job.confirmed:
        return ""
    # Here, for the first form is painted before anything of the plan is read.
    from coilwright.plan.confirmed import why_lapsed

    why = why_lapsed(job, field.key)
    return f"a guess again: {why}" if why else ""


def usual_line(job: Job, field: Field | None, room: int) -> str:
    """What is usual and who knows, in a line of so many cells; what has no room F1 says."""
    if field is None or field.key not in ANSWERS:
        return ""
    guidance, answer, parts = words(field.key), field.answer, by_quote(job, field.key)
    if (own := machine_value(job, field.key)) is not None:
        parts.append(f"your machine: {answer.shown(own, job.units)}")
    elif (own := head_value(job, field.key)) is not None:
        parts.append(f"head of the order: {answer.shown(own, job.units)}, F3 takes it")
    elif guidance.usual is not None:
        parts.append(f"usual {answer.shown(usual_in(job, field.key), job.units)}")
    if (ends := usual_range(field.key, job.units)) is not None:
        both = " to ".join(ends)
        parts.append(both if guidance.usual is not None and own is None else f"usual {both}")
    if guidance.who != "you":
        parts.append(f"who knows: {guidance.who}")
    said = " · ".join((*parts, "F1 says why"))
    while parts and room > 0 and cells(said) > room:
        said = " · ".join((*parts[:-1], "F1 says more"))
        parts.pop()
    return said
