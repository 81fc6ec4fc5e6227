"""Coils on hand: how the list shows them, held to a job or not, and what may be done.

They are kept across jobs, in a file of their own; a job takes some of them. No screens here.
"""

from __future__ import annotations

import dataclasses
from collections.abc import Sequence
from dataclasses import dataclass
from enum import Enum
from typing import TYPE_CHECKING, Any

from coilwright.job.job import Job
from coilwright.job.stock import CoilOnHand, Stock
from coilwright.plan import fitting
from coilwright.plan.coils.leftovers import with_fitting
from coilwright.store import StoreError
from coilwright.units import Kind, System, show
from coilwright.values.finding import Level
from coilwright.values.keys import Key
from coilwright.wizard.lists.coil_draft import AS_JOB, MEASURES, CoilDraft, length_text
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
from coilwright.wizard.lists.job_rows import undone
from coilwright.wizard.lists.stock_book import NEW, StockBook
from coilwright.wizard.literal import escape_controls
from coilwright.wizard.session import Session
from coilwright.wizard.widgets.columns import cells, fit, fit_end, left, pad

if TYPE_CHECKING:
    from coilwright.plan import Plan

_COLOR = 10
"""A color is not begun in less room than this; it stands below the list too."""


class Use(Enum):
    """What a coil is to a job."""

    USED = "used"
    FITS = "fits"
    UNFIT = "no fit"
    GONE = "gone"
    """The job takes it; the list has it no longer."""
    CHANGED = "changed"
    """The job takes it as it was; the list has it otherwise."""
    NONE = ""
    """There is no job."""


@dataclass(frozen=True, slots=True)
class StockRow:
    """A coil in the list. taken: as the job took it. reasons: why it does not fit."""

    coil: CoilOnHand
    use: Use
    taken: CoilOnHand | None = None
    reasons: tuple[str, ...] = ()


def stock_rows(stock: Stock, job: Job | None) -> tuple[StockRow, ...]:
    """All coils; for a job those it takes first, then those that fit."""
    if job is None:
        return tuple(StockRow(coil, Use.NONE) for coil in stock.coils)
    taken = Stock(coils=job.on_hand)
    made = []
    for coil in stock.coils:
        own, reasons = taken.find(coil.tag), fitting(job, coil)
        use = Use.UNFIT if reasons else Use.FITS
        if own is not None:
            use = Use.USED if own == coil else Use.CHANGED
        made.append(StockRow(coil, use, own, reasons))
    made += [StockRow(coil, Use.GONE, coil, fitting(job, coil)) for coil in job.on_hand
             if stock.find(coil.tag) is None]
    order = [Use.USED, Use.CHANGED, Use.GONE, Use.FITS, Use.UNFIT]
    return tuple(sorted(made, key=lambda row: order.index(row.use)))


def toggled(job: Job, row: StockRow) -> Job:
    """The job with a coil taken, renewed where the list has it otherwise, or put back."""
    if row.use in (Use.FITS, Use.UNFIT):
        coils = (*job.on_hand, row.coil)
    elif row.use is Use.CHANGED:
        coils = tuple(row.coil if coil == row.taken else coil for coil in job.on_hand)
    else:
        coils = tuple(coil for coil in job.on_hand if coil != row.taken)
    return dataclasses.replace(job, on_hand=coils)


def row_text(row: StockRow, system: System, width: int, tag: int = 11) -> str:
    """One coil on a line. tag: cells of the column of tags, up to a third of the line."""
    coil = row.coil
    metal = f"{coil.metal.value} {show(coil.thickness, Kind.THICKNESS, system)}"
    use = f"{pad(row.use.value, 8)}" if row.use is not Use.NONE else ""
    line = (
        f" {use}{left(fit_end(escape_controls(coil.tag), tag), tag)} {pad(metal, 17)} "
        f"{pad(show(coil.width, Kind.WIDTH, system), 9)} {pad(length_text(coil, system), 27)} "
    )
    if width - cells(line) < _COLOR:
        return fit(line.rstrip(), width)
    return fit(f"{line}{escape_controls(coil.color) or 'bare'}", width)


def about_lines(row: StockRow, plan: Plan | None, system: System) -> list[str]:
    """All there is to say about a coil: its papers, its length, and what the job makes of it."""
    coil = row.coil
    facts = [coil.coating.value if coil.coating else "",
             escape_controls(coil.color) or "bare metal",
             f"lot {escape_controls(coil.lot)}" if coil.lot else "",
             f"from {escape_controls(coil.supplier)}" if coil.supplier else "",
             f"stands at {escape_controls(coil.where)}" if coil.where else ""]
    lines = [", ".join(fact for fact in facts if fact)]
    if coil.length is None and coil.outside is not None and coil.inside is not None:
        across = " and ".join(
            show(size, Kind.WIDTH, system) for size in (coil.outside, coil.inside))
        lines.append(f"Diameters {across}: {length_text(coil, system)}; the least is counted on.")
    if row.use is Use.CHANGED:
        lines.append("This job took it as it was before; Space takes it as it is now.")
    if row.use is Use.GONE:
        lines.append("This job takes it, but the list has it no longer; Space leaves it out.")
    if row.reasons:
        lines.append(f"Does not fit this job: {' '.join(row.reasons)}")
    elif row.use is Use.FITS:
        lines.append("It fits this job; Space uses it.")
    if plan is not None and row.taken is not None:
        if plan.job.on_hand_planes.get(coil.tag):
            lines.append(f"{plane_words(plan.job, coil.tag)} Nothing else is cut from it.")
        elif any(f.key == "coils.lots" and f.level is not Level.NOTE for f in plan.findings):
            lines.append("Panels of two lots meet on a plane: p keeps a coil to planes of its own.")
        lines.extend(_in_plan(plan, row.taken, system))
    return lines


def _in_plan(plan: Plan, coil: CoilOnHand, system: System) -> list[str]:
    """What the plan cuts from it."""
    lines = []
    for used in plan.from_stock:
        if plan.job.on_hand[used.index] == coil:
            cuts = ", ".join(
                f"{cut.count} × {show(cut.length, Kind.LENGTH, system)} {escape_controls(cut.name)}"
                for cut in used.cuts)
            short = ", too short to keep" if used.too_short else ""
            name, left = escape_controls(used.name), used.left.text(system)
            lines.append(f"{name}: {cuts}; {left} left over past spare, thread-up and tail{short}.")
    return lines


def saved_line(plan: Plan) -> str:
    """What the coils on hand save of the order; empty where they save nothing to speak of."""
    figures, system = plan.figures, plan.job.units
    parts = [figures[key].text(system) for key in ("save.length", "save.mass", Key.SAVE_MONEY)
             if key in figures]
    if not parts:
        return ""
    order = figures.get(Key.COIL_LENGTH_ORDERED)
    still = f"; still to order {order.text(system)}" if order is not None else ""
    price = "" if Key.SAVE_MONEY in figures else " (no price is known)"
    return (f"Coils on hand save {', '.join(parts)}{price}, with the spare, tolerance and "
            f"coil ends that would be ordered with it{still}.")


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
        self._before = book.stock

    @property
    def job(self) -> Job | None:
        """The job the coils are held to."""
        return None if self.session is None else self.session.job

    @property
    def system(self) -> System:
        """The units sizes are shown in."""
        return self._units if self.session is None else self.session.job.units

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
            self._done.append("list")
            new = next((c.tag for c in self.book.stock.coils if c not in self._before.coils), None)
        return Outcome(changed=True, mark=new)

    def close(self) -> None:
        """All is kept."""

    # -- actions ---------------------------------------------------------------------------

    def do(self, name: str, line: Line | None) -> Outcome:
        """Do an action with the marked coil."""
        if name == "undo":
            return self._undo()
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
        self._done.append("list")
        return outcome

    def _undo(self) -> Outcome:
        """Take the last change made here back."""
        if self._done[-1:] == ["job"] and self.session is not None:
            del self._done[-1:]
            return undone(self.session)
        try:
            label = self.book.undo()
        except StoreError as error:
            return Outcome(changed=True, failed=str(error))
        del self._done[-1:]
        return Outcome(changed=True, say="Nothing to undo." if label is None
                       else f"Undid: {escape_controls(label)}")

    def _use(self, row: StockRow) -> Outcome:
        """Use the marked coil in this job, or no longer."""
        if self.session is None:
            return Outcome()
        if row.use is Use.UNFIT:
            return Outcome(say=f"It does not fit this job. {row.reasons[0]}")
        word = "taken" if row.use in (Use.FITS, Use.CHANGED) else "not used"
        self.session.seal()
        if self.session.change(toggled(self.session.job, row), f"Coil {row.coil.tag} {word}"):
            self._done.append("job")
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
            self._done.append("job")
        return Outcome(changed=True, mark=tag, say=plane_words(self.session.job, tag))

    def _use_fitting(self) -> Outcome:
        """Use all coils that fit, as the list has them now."""
        if self.session is None:
            return Outcome()
        job = with_fitting(self.session.job, self.book.stock)
        self.session.seal()
        said = ""
        if self.session.change(job, f"All {len(job.on_hand)} coils that fit taken"):
            self._done.append("job")
        elif not job.on_hand:
            said = "No coil in the list fits this job; each says why."
        return Outcome(changed=True, say=said)


def _lines(opened: StockRows) -> list[Line]:
    places = {coil.tag: index for index, coil in enumerate(opened.book.stock.coils)}
    return [
        Line(row.coil.tag, None if row.use is Use.GONE else places[row.coil.tag], row.coil.tag,
             row, "The list has this coil no longer; only the job has it.")
        for row in stock_rows(opened.book.stock, opened.job)
    ]


def _show(opened: StockRows, lines: Sequence[Line], width: int) -> list[Sequence[Part]]:
    tag = min(max([11, *(cells(line.name) for line in lines)]), max(11, width // 3))
    return [(row_text(line.row, opened.system, width, tag),) for line in lines]


def _about(opened: StockRows, line: Line | None, _width: int) -> list[str]:
    if line is None:
        return ["A coil, or what is left of one: with it on the list, its metal need not be "
                "bought again."]
    plan = None if opened.session is None else opened.session.plan
    return about_lines(line.row, plan, opened.system)


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
        Action(name="use", keys="space", label="Use", tooltip="Use it in this job, or not",
               word="Space use", job_only=True),
        Action(name=PLANES, keys="p", label="Planes", word="p planes", job_only=True,
               tooltip="Planes that are cut from it alone, so that two lots never meet on one"),
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
