"""After the run: what is left of each coil goes back to stock, as measured. No screens here."""

from __future__ import annotations

import dataclasses
from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING

from coilwright.job.answers import UnreadableAnswer
from coilwright.job.job import Job
from coilwright.job.life import OrderState
from coilwright.job.receiving import Arrival
from coilwright.plan.coils.after_run import (
    coils_to_measure,
    is_on_its_way,
    lists_cut,
    may_be_run,
    put_back,
)
from coilwright.plan.life import run_next
from coilwright.plan.receiving.receive import receive
from coilwright.plan.receiving.report import ArrivalReport
from coilwright.plan.result import Plan
from coilwright.sheets.told import tells_otherwise
from coilwright.store import StoreError
from coilwright.store.put_elsewhere import put_elsewhere
from coilwright.values.keys import row_key
from coilwright.wizard.lists.coil_draft import length_text
from coilwright.wizard.lists.form import Action, EntryView, Outcome
from coilwright.wizard.lists.measure import Asked
from coilwright.wizard.lists.run_measures import asked_length, asked_which
from coilwright.wizard.lists.run_steps import RunSteps
from coilwright.wizard.lists.run_words import (
    change_lines,
    elsewhere_words,
    longer_words,
    more_lines,
    nothing_came,
    out_lines,
    paper_words,
    short_lines,
    short_name,
    twice_lines,
)
from coilwright.wizard.lists.stock_book import StockBook
from coilwright.wizard.literal import escape_controls
from coilwright.wizard.session import Session
from coilwright.words.counting import capitalized

if TYPE_CHECKING:
    from coilwright.drawing.line_work import LineWork

_SHOWN = 6
"""Changes of the stock that are listed."""


_VIEW = EntryView(
    title=lambda _rows, _index: "After the run",
    hint="Ctrl+S puts back, Ctrl+Z undoes; Escape closes",
    label_width=26, scrolls=True,
    keys=(
        Action(name="put_back", keys="ctrl+s", label="Put back",
               tooltip="Put what is left back to stock"),
        Action(name="undo", keys="ctrl+z", label="Undo",
               tooltip="Take back what was typed last, or what this job put in stock"),
        Action(name="redo", keys="ctrl+y", label="Redo", tooltip="Make the undone change again"),
    ),
)


class RunDone:
    """What was measured on each coil, while its form is open; one button puts all back."""

    view = _VIEW
    done = ("put_back", "Put what is left back to stock")

    def __init__(
        self, book: StockBook, plan: Plan, held_to: str = "",
        keep: Callable[[dict[str, str]], None] = lambda _tags: None,
        session: Session | None = None,
    ) -> None:
        self.book = book
        self.plan = plan
        self.held_to = held_to
        """What the lengths on paper are reckoned by, in a line."""
        self._keep = keep
        """Keeps with the job what was put back, and which tags it has in stock."""
        self.put = plan.job.put_in_stock
        """Those tags, by coil key: what is put back again takes their place."""
        self._steps = RunSteps(book, session)
        self._session = session
        self._told_elsewhere: set[str] = set()
        """The coils of which that was said as they were put back."""
        self._told_longer: dict[str, float] = {}
        """What was measured as it was last said that a coil was never so long."""
        self._told_unsent = False
        lists = lists_cut(plan)
        arrived = receive(plan)
        ran = [(one, may_be_run(one, arrived, on_its_way=is_on_its_way(plan.job)))
               for one in coils_to_measure(lists, arrived, plan)]
        self.coils = tuple(one or coil for coil, one in ran if one or coil.key in self.put)
        self.out = tuple(coil for coil, one in ran if one is None and coil.key not in self.put)
        """Not come yet, or on hold; what went to stock is asked, to be put right."""
        self._lists_now = lists is not plan and tells_otherwise(lists)
        self.asked: list[Asked] = []
        self._lengths: dict[str, Asked] = {}
        self._picks: dict[str, Asked] = {}
        """What is asked of a coil, by its key: its length, and which it was."""
        for coil in self.coils:
            if len(coil.came) > 1:
                self._picks[coil.key] = asked_which(coil)
                self.asked.append(self._picks[coil.key])
            self._lengths[coil.key] = asked_length(coil, plan)
            self.asked.append(self._lengths[coil.key])
        self.texts: dict[str, str] = {}
        for key, asked in self._lengths.items():
            # Its length stands in the box where what is left of a coil is in stock already.
            self.texts[asked.answer.key] = self._in_stock(key)
        self.said = ""
        """What was put back, until something is typed or taken back."""

    def _in_stock(self, key: str) -> str:
        """The length that is in stock of a coil that was put back, as its box shows it."""
        if not self._is_back(key):
            return ""
        there = self.book.stock.find(self.put[key])
        length = 0.0 if self._is_used_up(key) else None if there is None else there.length
        return "" if length is None else self._lengths[key].answer.shown(
            length, self.plan.job.units)

    def _is_used_up(self, key: str) -> bool:
        """Whether a coil was put back with nothing left of it; one that was slit lives on as its
        strips."""
        slit = any(one.key == key and row_key("on_hand", one.index + 1, "drop")
                   in self.plan.figures for one in self.plan.from_stock)
        return (self._is_back(key) and not slit
                and self.book.stock.find(self.put[key]) is None)

    def _is_back(self, key: str) -> bool:
        """Whether a coil was put back, and nobody took that back: not as this job took it, or a
        new coil's leftover that is in stock."""
        there = self.book.stock.find(self.put.get(key, ""))
        taken = next(coil.on_hand for coil in self.coils if coil.key == key)
        if taken is None:
            return there is not None or self.put.get(key) == ""
        return self.put.get(key) == taken.tag and there != taken

    @property
    def is_all_back(self) -> bool:
        """Whether every coil was put back: there is nothing left to measure."""
        return not self.out and all(self._is_back(coil.key) for coil in self.coils)

    def back_words(self) -> list[str]:
        """What was put back already, a coil each, with what is in stock of it."""
        return [f"{escape_controls(self.put[coil.key]) or short_name(coil)}, "
                + ("used up" if self._is_used_up(coil.key) else
                   self._in_stock(coil.key) or "nothing is left of it as it was")
                for coil in self.coils if self._is_back(coil.key)]

    def job(self) -> Job:
        """A job that holds the texts."""
        return Job(units=self.plan.job.units, typed={k: t for k, t in self.texts.items() if t})

    def there(self) -> bool:
        """It is until its form is closed."""
        return True

    def title(self) -> str:
        """What it is about."""
        title = escape_controls(self.plan.job.title)
        return f"After the run of {title}: measured left on each coil"

    def picture(self, width: int, height: int, work: LineWork) -> list[str]:
        """Nothing is drawn."""
        del width, height, work
        return []

    def buttons(self) -> Sequence[tuple[str, str]]:
        """None of its own."""
        return ()

    def take(self, at: int, text: str) -> bool:
        """Take a measured length."""
        answer, text = self.asked[at].answer, text.strip()
        if text != self.texts.get(answer.key, ""):
            self._steps.typed(answer.key, answer.label, self.texts)
            self.texts[answer.key] = text
            self.said = ""
        return False

    def left(self, at: int) -> None:
        """Nothing more: texts stay as they are typed."""

    def _read(self) -> tuple[dict[str, float], bool]:
        """Lengths left [in] by coil key, those that can be read, and whether all can."""
        found, clear = {}, True
        for coil in self.coils:
            asked = self._lengths[coil.key]
            text = self.texts.get(asked.answer.key, "")
            if text and text != self._in_stock(coil.key):  # which may be rounded
                try:
                    value = asked.answer.read(text, self.plan.job.units)
                except UnreadableAnswer:
                    clear = False
                    continue
                assert isinstance(value, float)
                found[coil.key] = value
        return found, clear

    def _picked(self) -> dict[int, ArrivalReport]:
        """The coils that were run, by the numbers of the ordered ones, where several came."""
        found = {}
        for coil in self.coils:
            if (asked := self._picks.get(coil.key)) is None or coil.order_number is None:
                continue
            text = self.texts.get(asked.answer.key, "")
            for pick, one in zip(asked.answer.choices, coil.came, strict=True):
                if text == pick.value:
                    found[coil.order_number] = one
        return found

    def came(self) -> dict[int, Arrival]:
        """The coils that were run, as they arrived: picked, or the only ones that may be run."""
        reports = self._reports()
        return {coil.order_number: reports[coil.key].arrival for coil in self.coils
                if coil.order_number is not None and not coil.is_part and coil.key in reports}

    def _reports(self) -> dict[str, ArrivalReport]:
        """What was run, by coil key."""
        picked = self._picked()
        return {coil.key: one for coil in self.coils
                if (one := coil.came[0] if len(coil.came) == 1 else
                    picked.get(coil.order_number or 0)) is not None}

    def _unsaid(self) -> str:
        """The measured coils of which nobody said yet which of those that came they are."""
        came, measured = self.came(), self.measured()
        return ", ".join(short_name(coil) for coil in self.coils
                         if coil.key in self._picks and measured.get(coil.key)
                         and coil.order_number not in came)

    def measured(self) -> dict[str, float]:
        """Lengths left [in] by coil key, those that can be read."""
        return self._read()[0]

    def about(self, width: int) -> list[str]:
        """What the stock would be, or what was done."""
        del width
        if self.said:
            return [self.said, *more_lines(self.plan, self.coils, self.measured(),
                                           self._reports())]
        came = self.came()
        after, stays, _tags = put_back(
            self.plan, self.book.stock, self.measured(), came, self.put)
        lines = (change_lines(self.book.stock, after, self.plan.job.units)
                 or ["The stock would not change."])
        if len(lines) > _SHOWN:
            lines[_SHOWN - 1:] = [f"and {len(lines) - _SHOWN + 1} more"]
        lines += short_lines(self.book.stock, after, self.plan)
        lines += twice_lines(self.plan, self.book.stock, self.measured(), came, self.put)
        lines += more_lines(self.plan, self.coils, self.measured(), self._reports())
        if ours := self.back_words():
            lines.append(f"Put back already: {'; '.join(ours)}. Another length takes the place of "
                         "what is in stock; 0 takes it out.")
        lines += [f"{escape_controls(capitalized(one.name))}. {paper_words(coil, one, self.plan)}"
                  for coil in self.coils
                  if (one := self._picked().get(coil.order_number or 0)) is not None]
        lines += out_lines(self.out, self.plan.job)
        if any(coil.on_hand is None for coil in self.coils) and (
                said := nothing_came(self.plan.job)):
            lines.append(said)
        if unsaid := self._unsaid():
            lines.append(f"Say first which coil was run: {unsaid}.")
        if self.held_to:
            lines.append(self.held_to)
        if self._lists_now:
            lines.append("On paper: by the lists of the job as it is now, as on the run sheet.")
        # What was put back before this was kept with the job, or taken by another.
        if others := [tag for tag in stays if tag not in self.put.values()]:
            lines.append(f"Not as this job took them, so they stay unless measured: "
                         f"{', '.join(self._stays_words(tag) for tag in others)}")
        return lines

    def _stays_words(self, tag: str) -> str:
        there = self.book.stock.find(tag)
        assert there is not None
        return f"{escape_controls(tag)}, {length_text(there, self.plan.job.units)}"

    def do(self, name: str) -> Outcome:
        """Put all back in one move, or take that back; the form stays for it."""
        return self._put_back() if name == "put_back" else self._step(back=name == "undo")

    def _put_back(self) -> Outcome:
        measured, clear = self._read()
        if not clear:
            return Outcome(unclear=True)
        if self.said:
            return Outcome(say="It is put back already; Ctrl+Z takes it back.")
        if unsaid := self._unsaid():
            return Outcome(say=f"Say first which of the coils that came was run: {unsaid}.")
        before = self.book.stock
        after, _stays, tags = put_back(self.plan, before, measured, self.came(), self.put)
        lines = change_lines(before, after, self.plan.job.units)
        lines += [f"{short_name(coil)} is used up: nothing of it goes to stock"
                  for coil in self.coils if tags.get(coil.key) == "" != self.put.get(coil.key)]
        if not lines:
            return Outcome(say="Nothing to put back: the stock is so already.")
        longer = "" if self._told_longer == measured else longer_words(
            self.plan, self.coils, measured, self._reports())
        unsent = "" if self._told_unsent else self._unsent(measured)
        if longer or unsent:
            self._told_longer, self._told_unsent = measured, self._told_unsent or bool(unsent)
            return Outcome(say=f"{f'{longer} {unsent}'.strip()} Ctrl+S again keeps it.")
        if twice := self._twice(measured, tags):
            return Outcome(say=twice)
        try:
            self.book.change(after, f"run of {self.plan.job.title}",
                             self._steps.made(self.put, tags))
        except StoreError as error:
            return Outcome(failed=str(error))
        self._steps.went()
        self.put = tags
        self._keep(tags)
        then = run_next(self.plan.job)
        self.said = f"Put back: {'; '.join(lines)}. {then}Ctrl+Z takes it back."
        # Said below as well, in the place of what was asked there first.
        return Outcome(changed=True, say="It is put back; Ctrl+Z takes it back.")

    def _twice(self, measured: dict[str, float], tags: dict[str, str]) -> str:
        """That what is put back is of coils that another job's file has too, as it is only where
        one of both was copied by hand; empty for none, and once that was said of them all."""
        if self._session is None:
            return ""
        job = dataclasses.replace(self._session.job, put_in_stock=self.put)
        came = {coil.key: {one.arrival.tag for one in coil.came if one.arrival.is_tagged}
                for coil in self.coils}
        twice = {key: one for key, one in put_elsewhere(
            self.book.store.jobs_folder, self._session.path, job, came).items()
            if measured.get(key) is not None or tags.get(key) != self.put.get(key)}
        if twice.keys() <= self._told_elsewhere:
            return ""
        self._told_elsewhere = {*twice}
        # A coil on hand goes back in its own place, whichever job did it before.
        ours = {key for key in twice if self.put.get(key) or any(
            coil.key == key and coil.on_hand is not None for coil in self.coils)}
        names = {coil.key: ", ".join(sorted(map(escape_controls, came[coil.key])))
                 or short_name(coil) for coil in self.coils}
        return elsewhere_words({key: twice[key] for key in ours} or twice, names,
                               in_place=bool(ours))

    def _unsent(self, measured: dict[str, float]) -> str:
        """That new coils would go to stock though no order was sent, by its life, and nothing is
        entered in Receiving; empty where none would, or they are there already.

        Metal can be bought without either, so it is asked, once, and not refused.
        """
        new = any(measured.get(coil.key) and coil.key not in self.put
                  for coil in self.coils if coil.on_hand is None)
        sent = self.plan.job.life.state not in (OrderState.DRAFT, OrderState.OUT)
        return "" if sent or not new else nothing_came(self.plan.job)

    def _step(self, *, back: bool) -> Outcome:
        """Take the last thing back that was done here, or make it again."""
        shown = {key: self._in_stock(key) for key in self._lengths}
        try:
            taken = self._steps.step(self.texts, back=back)
        except StoreError as error:
            return Outcome(failed=str(error))
        if taken.texts is not None:
            self.texts = dict(taken.texts)
        if taken.put is not None:
            self.put = taken.put
            self._keep(self.put)
            for key, asked in self._lengths.items() if taken.elsewhere else ():
                if self.texts.get(asked.answer.key, "") == shown[key]:  # nobody typed that here
                    self.texts[asked.answer.key] = self._in_stock(key)
        if taken.texts is not None or taken.put is not None:
            self.said = ""
        return Outcome(changed=True, say=taken.said)

    def close(self) -> Outcome:
        """Close; what was typed is gone with it."""
        return Outcome(gone=True)
