"""Coils on hand: how the list shows them, held to a job or not, and what may be done.

They are kept across jobs, in a file of their own; a job takes some of them. No screens here.
"""

from __future__ import annotations

import dataclasses
from collections.abc import Sequence
from typing import Any

from coilwright.job.job import Job
from coilwright.job.stock import CoilOnHand, Stock
from coilwright.plan import Plan
from coilwright.plan.coils.leftovers import with_fitting
from coilwright.store import StoreError
from coilwright.store.claims import claimed_of
from coilwright.units import System
from coilwright.wizard.lists.coil_draft import AS_JOB, MEASURES, CoilDraft
from coilwright.wizard.lists.coil_planes import PLANES, plane_choices, plane_words, toggle_plane
from coilwright.wizard.lists.form import (
    Action,
    EntryView,
    Line,
    ListView,
    Outcome,
    Part,
    RowForm,
    Screens,
)
from coilwright.wizard.lists.stock_book import NEW, StockBook
from coilwright.wizard.lists.stock_text import (
    StockRow,
    Use,
    about_lines,
    columns_of,
    row_text,
    saved_line,
    stock_rows,
    toggled,
)
from coilwright.wizard.literal import escape_controls
from coilwright.wizard.session import Session
from coilwright.wizard.undoing import not_here

# -- the list ------------------------------------------------------------------------------


class StockRows:
    """The list of coils on hand, open; with a session, held to its job."""

    def __init__(
        self, book: StockBook, session: Session | None = None, screens: Screens | None = None
    ) -> None:
        self.screens: Screens = screens or {}
        self._planes_of = ""
        """The tag of the coil whose planes are picked."""
        self.form: RowForm[Any] = COILS_ON_HAND
        self.book = book
        self.session = session
        self._units = book.store.usual_units() if session is None else session.job.units
        self._done: list[str] = []
        """What was changed here, `list` or `job`, the latest last: undo goes back that way."""
        self._undone: list[str] = []
        """What of it was taken back, the latest last."""
        self._told: object = None
        """The run that undo or redo has just named."""
        self._before = book.stock
        self._claimed: tuple[Stock, dict[str, str]] | None = None

    @property
    def job(self) -> Job | None:
        """The job the coils are held to."""
        return None if self.session is None else self.session.job

    @property
    def plan(self) -> Plan | None:
        """What is made of that job."""
        return None if self.session is None else self.session.plan

    @property
    def system(self) -> System:
        """The units sizes are shown in."""
        return self._units if self.session is None else self.session.job.units

    @property
    def claimed(self) -> dict[str, str]:
        """By tag, which other saved jobs claim a coil; looked up anew when the list changes."""
        if self._claimed is None or self._claimed[0] is not self.book.stock:
            besides = None if self.session is None else self.session.path
            self._claimed = (self.book.stock, claimed_of(
                self.book.stock, self.book.store.claimants(besides)))
        return self._claimed[1]

    def lines(self) -> Sequence[Line]:
        """The coils as they are now."""
        return self.form.lines(self)

    def entry(self, index: int) -> CoilDraft:
        """The form of a coil of the list, or of one that is not in it yet."""
        self._before = self.book.stock
        coils = self.book.stock.coils
        tag = coils[index].tag if index < len(coils) else NEW
        return CoilDraft(self.form.entry, self.book, tag, self.job, self.system)

    def closed(self, screen: str, result: Any) -> Outcome:
        """The form of a coil was closed; a coil that is new or changed is marked."""
        if screen == PLANES:
            return self._kept_to(result)
        new = None
        if self.book.stock != self._before:
            self._did("list")
            new = next((c.tag for c in self.book.stock.coils if c not in self._before.coils), None)
        return Outcome(changed=True, mark=new)

    def close(self) -> None:
        """All is kept."""

    # -- actions ---------------------------------------------------------------------------

    def do(self, name: str, line: Line | None) -> Outcome:
        """Do an action with the marked coil."""
        if name in ("undo", "redo"):
            return self._step(name)
        self._told = None
        if name == "fitting":
            return self._use_fitting()
        if name == "add" or (name == "open" and line is None):
            return Outcome(entry=len(self.book.stock.coils))
        if name == PLANES:
            return self._planes(line)
        if name == "use":
            return Outcome() if line is None else self._use(line.row)
        if line is None:
            return Outcome(say=self.form.no_row)
        if line.index is None:
            return Outcome(say=line.fixed)
        if name == "open":
            return Outcome(entry=line.index)
        return self._copy(line.row) if name == "copy" else self._delete(line.row)

    def _copy(self, row: StockRow) -> Outcome:
        """One more coil like the marked one, with a tag of its own."""
        stock = self.book.stock
        tag = stock.free_tag(row.coil.tag[:50])
        made = stock.put(dataclasses.replace(row.coil, tag=tag))
        return self._change(made, f"{tag} added",
                            Outcome(changed=True, mark=tag, entry=len(stock.coils)))

    def _delete(self, row: StockRow) -> Outcome:
        """Take the marked coil out of the list."""
        used = "; this job still uses it" if row.taken is not None else ""
        said = self.form.deleted.format(name=escape_controls(row.coil.tag), used=used)
        return self._change(self.book.stock.take(row.coil.tag), f"{row.coil.tag} deleted",
                            Outcome(changed=True, say=said))

    def _change(self, stock: Stock, label: str, outcome: Outcome) -> Outcome:
        try:
            self.book.change(stock, label)
        except StoreError as error:
            return Outcome(changed=True, failed=str(error))
        self._did("list")
        return outcome

    def _did(self, what: str) -> None:
        """Keep that the list or the job was changed here, for undo."""
        self._done.append(what)
        self._undone.clear()

    def _step(self, name: str) -> Outcome:
        """Take the last change made here back, or make the one that was taken back last again."""
        back = name == "undo"
        steps, others = (self._done, self._undone) if back else (self._undone, self._done)
        what = steps[-1] if steps else "list"
        change = self.book.next(back=back) if what == "list" else None
        if (change is not None and change.run is not None and self.session is not None
                and not change.run.is_of(self.session) and self._told is not change):
            # It lies in this list, but another job put it there: said first.
            self._told = change
            return Outcome(say=not_here(change.label, "After the run of another job", back=back))
        job = self.session if what == "job" else None
        try:
            if job is not None:
                label = job.undo() if back else job.redo()
            else:
                label = self.book.undo() if back else self.book.redo()
        except StoreError as error:
            return Outcome(changed=True, failed=str(error))
        del steps[-1:]
        if label is None:
            return Outcome(changed=True, say=f"Nothing to {name}.")
        others.append(what)
        if (self.session is not None and change is not None and change.run is not None
                and change.run.is_of(self.session)):
            self.session.keep_put(change.run.before if back else change.run.after)
        return Outcome(changed=True, say=f"Undid: {escape_controls(label)}; Ctrl+Y makes it again"
                       if back else f"Redid: {escape_controls(label)}")

    def _use(self, row: StockRow) -> Outcome:
        """Use the marked coil in this job, or no longer."""
        if self.session is None:
            return Outcome()
        if row.use is Use.UNFIT:
            return Outcome(say=f"It does not fit this job. {row.reasons[0]}")
        word = "taken" if row.use in (Use.FITS, Use.CHANGED) else "not used"
        self.session.seal()
        if self.session.change(toggled(self.session.job, row), f"Coil {row.coil.tag} {word}"):
            self._did("job")
        return Outcome(changed=True, mark=row.coil.tag)

    def _planes(self, line: Line | None) -> Outcome:
        """Pick a plane that the marked coil is kept to, or no longer."""
        if self.session is None or line is None:
            return Outcome()
        row: StockRow = line.row
        if row.taken is None:
            return Outcome(say="This job does not use it; Space uses it.")
        self._planes_of = row.coil.tag
        return Outcome(screen=PLANES, subject=plane_choices(self.session.plan, row.coil.tag))

    def _kept_to(self, picked: str | None) -> Outcome:
        """Keep the coil to the plane that was picked, too; or to it no longer, or to none."""
        assert self.session is not None
        tag = self._planes_of
        if picked is None:
            return Outcome()
        self.session.seal()
        made = toggle_plane(self.session.job, tag, picked)
        if self.session.change(made, f"Planes of coil {tag}"):
            self._did("job")
        return Outcome(changed=True, mark=tag, say=plane_words(self.session.job, tag))

    def _use_fitting(self) -> Outcome:
        """Use all coils that fit, as the list has them now."""
        if self.session is None:
            return Outcome()
        job = with_fitting(self.session.job, self.book.stock)
        self.session.seal()
        said = ""
        if self.session.change(job, f"All {len(job.on_hand)} coils that fit taken"):
            self._did("job")
        elif not job.on_hand:
            said = "No coil in the list fits this job; each says why."
        return Outcome(changed=True, say=said)


def _lines(opened: StockRows) -> list[Line]:
    places = {coil.tag: index for index, coil in enumerate(opened.book.stock.coils)}
    return [
        Line(row.coil.tag, None if row.use is Use.GONE else places[row.coil.tag], row.coil.tag,
             row, "The list has this coil no longer; only the job has it.")
        for row in stock_rows(opened.book.stock, opened.job, opened.plan, opened.claimed)
    ]


def _show(opened: StockRows, lines: Sequence[Line], width: int) -> list[Sequence[Part]]:
    columns = columns_of([line.row for line in lines], opened.system, width)
    return [(row_text(line.row, opened.system, width, columns),) for line in lines]


def _about(opened: StockRows, line: Line | None, _width: int) -> list[str]:
    if line is None:
        return ["A coil, or what is left of one: with it on the list, its metal need not be "
                "bought again."]
    return about_lines(line.row, opened.plan, opened.system)


def _hint(opened: StockRows) -> str:
    begun = "; a goes on with the coil you began" if NEW in opened.book.drafts else ""
    return f"Kept across jobs{begun}. Tab reads on; Escape closes"


COILS_ON_HAND: RowForm[CoilOnHand] = RowForm(
    key="stock",
    measures=MEASURES,
    lines=_lines,
    show=_show,
    actions=(
        Action(name="add", keys="a,insert", label="Add", tooltip="One more coil", word="a add"),
        Action(name="open", keys="", label="Change", tooltip="Change the coil",
               word="Enter change"),
        Action(name="copy", keys="c", label="Copy", tooltip="One more coil like this one",
               word="c copy"),
        Action(name="delete", keys="d,delete", label="Delete", word="d delete",
               tooltip="Take the coil out of the list; u brings it back"),
        Action(name="undo", keys="u,ctrl+z", label="Undo", tooltip="Take the last change back",
               word="u undo"),
        Action(name="redo", keys="ctrl+y", label="Redo", tooltip="Make the undone change again"),
        Action(name="use", keys="space", label="Use", tooltip="Use it in this job, or not",
               word="Space use", job_only=True),
        Action(name=PLANES, keys="p", label="Planes", word="p planes", job_only=True,
               tooltip="Planes, or trim, that it is kept to, so that two lots never meet"),
        Action(name="fitting", keys="f", label="All that fit", word="f all that fit",
               job_only=True, tooltip="Use all coils that fit this job, and no others"),
    ),
    empty="   none yet: a adds one",
    no_row="There is no coil yet; a adds one.",
    deleted="{name} is out of the list{used}; u brings it back",
    view=ListView(
        title=lambda opened: "Coils on hand" if opened.job is None else (
            f"Coils on hand, for {escape_controls(opened.job.title)}"),
        hint=_hint,
        about=_about, scrolls=True,
        trouble=lambda opened: opened.book.trouble,
        foot=lambda opened: "" if opened.session is None else saved_line(opened.session.plan),
    ),
    entry=EntryView(
        title=lambda _opened, _index: "A coil on hand",
        hint="Escape or Done puts it in the list; what is not complete is kept aside",
        keys=(Action(name=AS_JOB, keys="f4", label="Metal as the job's",
                     tooltip="The job's metal, coating, thickness and color into empty boxes"),),
        label_width=23,
    ),
)
"""The list of coils on hand."""
