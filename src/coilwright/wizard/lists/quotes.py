"""Quotes: what is asked of one, how they stand beside each other, awarding. No screens here.

What was typed and could not be read lies in the job, under `quotes.received.0.price`; the quote is
then kept and not ranked, see `plan/quotes`.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from textwrap import wrap

from coilwright.drawing.cost import cost_lines, landed_words
from coilwright.job.answers.quotes import QuotesKey
from coilwright.job.edit import give
from coilwright.job.job import Job
from coilwright.job.life_lines import with_award
from coilwright.job.quotes import Quote, Sorting
from coilwright.job.rows.quotes import QUOTES as PLACE
from coilwright.job.rows.quotes import new_quote
from coilwright.job.shop import Supplier, find
from coilwright.plan.quotes.asked_anew import opened_words
from coilwright.plan.quotes.award import (
    CannotAward,
    anew_words,
    award,
    award_after_sending,
    award_closed,
    award_sent,
    otherwise_words,
    since_award,
    withdrawn,
)
from coilwright.plan.quotes.compare import compare, with_given_for
from coilwright.plan.quotes.report import Comparison, Group, QuoteReport, Share
from coilwright.plan.result import Plan
from coilwright.sheets.quotes import (
    UNKNOWN,
    arrival_words,
    awaited_words,
    compared_words,
    note_words,
    quote_facts,
    quoted_words,
    share_words,
    ships_words,
)
from coilwright.store.files import StoreError
from coilwright.store.shop import read_shop
from coilwright.units import System
from coilwright.wizard.lists.form import (
    Action,
    EntryView,
    Line,
    ListView,
    Opened,
    Outcome,
    Part,
    RowForm,
)
from coilwright.wizard.lists.job_rows import JobRows
from coilwright.wizard.lists.quote_columns import NARROW, name_is_cut, quote_heads, quote_row
from coilwright.wizard.lists.quote_measures import MEASURES
from coilwright.wizard.literal import escape_controls
from coilwright.wizard.session import Session
from coilwright.wizard.today import today
from coilwright.wizard.widgets.columns import fit, pad, right

_latest: list[tuple[Plan, Comparison]] = []


def compared(plan: Plan) -> Comparison:
    """The comparison of a plan, kept while the same plan is shown."""
    if not _latest or _latest[0][0] is not plan:
        _latest[:] = [(plan, compare(plan))]
    return _latest[0][1]


# -- in lines of text ----------------------------------------------------------------------


def quote_lines(report: QuoteReport, rank: int | None, system: System, width: int) -> str:
    """The row of a quote and below it what is to be known first."""
    first = quote_row(report, rank, system, width)
    words = note_words(report, system)
    if width < NARROW:
        words = f"{quoted_words(report)}{'; ' if words else ''}{words}"
        if name_is_cut(report, width):
            words = f"{report.supplier}: {words}"
    # What it lacks is what is looked for: it goes on below instead of being cut off.
    rows = wrap(escape_controls(words), max(20, width - 6))
    return "\n".join((first, *(f"      {row}" for row in rows)))


def detail_lines(report: QuoteReport, system: System) -> Iterator[str]:
    """All that is said of a quote: what would ship, how the cost is made, what is missing."""
    given = ", awarded" if report.quote.awarded else ""
    yield f"{escape_controls(report.supplier)}: {landed_words(report)}, {report.group}{given}"
    for head, words in (("Cannot be compared", report.faults), ("Not ranked", report.misses),
                        ("Deviates", report.deviations), ("Coils on hand", report.own_coils)):
        for one in words:
            yield f"{head}: {escape_controls(one)}"
    if report.missing:
        yield f"Missing: {escape_controls('; '.join(report.missing))}."
    if report.cost is not None:
        yield ""
        for each in report.cost.lines:
            amount = right(report.money(each.amount), 14)
            yield f"{pad(each.name, 26)}{amount}   {escape_controls(each.words)}"
        yield f"{pad('Lands at', 26)}{right(report.money(report.cost.landed), 14)}"
    facts = [*quote_facts(report, system)]
    if facts:
        yield ""
        for label, value in facts:
            yield f"{pad(label, 18)} {escape_controls(value)}"
    if report.unsaid:
        yield ""
        yield f"Worth asking: {'; '.join(report.unsaid)}."


def about_short(report: QuoteReport, system: System, width: int) -> list[str]:
    """What the form says while it is filled in: what it lands at, and what comes first."""
    amount = share_words(report, Share.ROOF, system)
    by = f", {amount} {Share.ROOF.words(system)}" if amount else ""
    lands = "What it lands at is not known" if report.landed is None else (
        f"{landed_words(report)}{by}")
    arrives = arrival_words(report, system)
    arrives = "arrival is not known" if arrives == UNKNOWN else f"arrives {arrives}"
    lines = [fit(f"{lands}, {report.group}; {arrives}", width)]
    if report.group is Group.KEPT_BACK:
        # When it comes is no more than what the supplier said: it stands on every list.
        lines = [fit(f"What it lands at is {report.group}; {arrives}", width)]
    if note := note_words(report, system):
        lines.append(fit(escape_controls(note), 2 * width - 12))
    return lines


# -- the list ------------------------------------------------------------------------------


def _lines(opened: JobRows) -> list[Line]:
    plan = opened.session.plan
    found = compared(plan)
    return [
        Line(report.number - 1, report.number - 1, report.supplier, report)
        for report in found.sorted(plan.job.quotes.sort_by or Sorting.LANDED)
    ]


def _ranks(lines: Sequence[Line]) -> Iterator[tuple[QuoteReport, int | None]]:
    rank = 0
    for line in lines:
        ranked = line.row.group is Group.COMPLETE
        rank += ranked
        yield line.row, rank if ranked else None


def _show(opened: JobRows, lines: Sequence[Line], width: int) -> list[Sequence[Part]]:
    system = opened.session.job.units
    return [(quote_lines(one, rank, system, width),) for one, rank in _ranks(lines)]


def _show_short(opened: JobRows, lines: Sequence[Line], width: int) -> list[Sequence[Part]]:
    system = opened.session.job.units
    return [(quote_row(one, rank, system, width),) for one, rank in _ranks(lines)]


def _below(session: Session, width: int) -> list[str]:
    """What is compared, the picture of the cost, and where to look next."""
    found = compared(session.plan)
    if not found.quotes and not found.awaited:
        return []
    words = compared_words(session.plan, found)
    needed = session.job.job.needed_by
    said = [*_anew(session.job, found), words or found.lack,
            found.lack if words and session.plan.concealed else "",
            f"Needed by {session.job.day(needed)}" if words and needed else "",
            found.trim]
    if found.awaited:
        names = "; ".join(awaited_words(one, session.job.units) for one in found.awaited)
        said.append(f"Asked, not quoted yet: {names}")
    # What does not fit goes on below: the end of such a line is what is looked for.
    lines = [row for line in said if line for row in wrap(escape_controls(line), width)]
    if bars := cost_lines(found, width):
        lines += ["", *bars]
    if found.order_day is None and any(one.quote.lead_time is not None for one in found.quotes):
        lines += ["", fit("Days of arrival need the order date, on the Coils step.", width)]
    return lines


def _anew(job: Job, found: Comparison) -> Iterator[str]:
    """What the awarded quote gives otherwise by now, for it or the job changed, and how the order
    takes it in."""
    for report in found.quotes:
        if changed := since_award(job, report):
            yield (f"By now the quote of {report.supplier} says otherwise than when it was "
                   f"awarded: {'; '.join(changed)}. The order does not follow by itself; w on its "
                   "row takes the quote in as it is now.")
        if report.quote.awarded and report.anew is not None and report.shipment is not None:
            ordered, anew = (ships_words(one) for one in (report.shipment, report.anew))
            yield (f"Ordered of {report.supplier}: {ordered}. Awarded anew it would ship {anew}"
                   f"{'.' if changed else ': w on its row takes that in.'}")


def _award(opened: JobRows, line: Line | None) -> Outcome:
    if line is None:
        return Outcome(say=QUOTES.no_row)
    if closed := award_closed(opened.session.job):
        return Outcome(say=escape_controls(closed))
    job = opened.session.job
    why = otherwise_words(opened.session.plan, line.row)
    asked = opened.asked_about == (line.key, job)
    if not asked:
        opened.asked_about = (line.key, job)
        if why:
            return Outcome(say=escape_controls(
                f"Is the quote of {line.row.supplier} for the order as it is now? w once more "
                f"awards it anew. {why}"))
        if words := award_sent(job):
            return Outcome(say=f"{escape_controls(words)} w once more does it.")
        if line.row.quote.awarded:
            return Outcome(say=f"The order goes to {escape_controls(line.name)} by this quote. "
                               "w once more takes that back.")
    if line.row.quote.awarded and not why:
        name = escape_controls(line.name)
        opened.change(with_award(withdrawn(job), line.name, today(), off=True),
                      f"{name}: no longer awarded")
        return Outcome(changed=True, mark=line.key, say=(
            f"The order does not go to {name} any more.{_opened(opened, job)} What its quote had "
            f"filled is again what stood there before.{_with_supplier(opened)}"))
    try:
        job = award(opened.session.plan, line.row.number, _known(opened, line.row.supplier))
    except CannotAward as error:
        return Outcome(say=escape_controls(str(error)))
    name, before = escape_controls(line.name), opened.session.job
    note = anew_words(opened.session.plan, line.row)
    opened.change(with_award(job, line.name, today(), note=note), f"{name}: awarded")
    missing = f" Still missing in it: {', '.join(line.row.missing)}." if line.row.at_least else ""
    return Outcome(changed=True, mark=line.key, say=(
        f"The order goes to {name}.{_opened(opened, before)} What it says of days, limits and "
        "price is sure, by quote; what you had there comes back where w takes it back."
        f"{escape_controls(missing)}{_with_supplier(opened)}"))


def _known(opened: JobRows, supplier: str) -> Supplier | None:
    """A supplier as the shop knows it; None where it does not, or cannot be read."""
    try:
        return find(read_shop(opened.session.store.folder).suppliers, supplier)
    except StoreError:
        return None


def _opened(opened: JobRows, before: Job) -> str:
    """What it did to what another supplier had replied."""
    return escape_controls(opened_words(before, opened.session.job))


def _with_supplier(opened: JobRows) -> str:
    """What it did to an order that a supplier has."""
    return escape_controls(award_after_sending(opened.session.job))


def _held(job: Job, index: int) -> str:
    """Why a quote may not be deleted: the order goes by it."""
    if not job.quotes.received[index].awarded:
        return ""
    return (f"The order goes to {_name(job, index)} by this quote; w takes that back, and then it "
            "can be deleted.")


def _details(_opened: JobRows, line: Line | None) -> Outcome:
    return Outcome(say=QUOTES.no_row) if line is None else Outcome(screen="quotes", subject=line)


def _sort(opened: JobRows, line: Line | None) -> Outcome:
    """Sort by the next thing there is to sort by."""
    job, ways = opened.session.job, tuple(Sorting)
    now = job.quotes.sort_by or Sorting.LANDED
    by = ways[(ways.index(now) + 1) % len(ways)]
    opened.change(give(job, QuotesKey.SORT_BY, by), f"Quotes sorted by {by}")
    return Outcome(changed=True, mark=None if line is None else line.key,
                   say=f"Sorted by {by}; what is complete stands first.")


def _working(opened: JobRows, line: Line | None) -> Outcome:
    """The working of what the marked quote lands at."""
    if line is None:
        return Outcome(say=QUOTES.no_row)
    figures = line.row.figures(opened.session.job.units)
    if not figures:
        return Outcome(say=f"{escape_controls(line.name)}: nothing can be added up yet.")
    return Outcome(screen="working", subject=figures[0])


def _about(opened: JobRows, line: Line | None, width: int) -> list[str]:
    if line is None:
        return ["No quotes yet: a adds the first."]
    return [fit(text, width) if text.startswith(" ") else text
            for text in detail_lines(line.row, opened.session.job.units)]


def _about_one(opened: JobRows, index: int, width: int) -> list[str]:
    report = compared(opened.session.plan).quotes[index]
    lines = about_short(report, opened.session.job.units, width)
    if report.quote.awarded and otherwise_words(opened.session.plan, report):
        follows = fit("The order does not follow yet: w on its row takes that in.", width)
        return [lines[0], follows, *lines[1:]]
    return lines


def _name(job: Job, index: int) -> str:
    return escape_controls(job.quotes.received[index].supplier)


def _instead(rows: Opened) -> str:
    assert rows.session is not None
    first = "" if rows.session.job.requests else (
        "\n    1  “Requests for a quote”, below: the sheet that asks for one."
        "\n    2  Type each quote as it comes, in whatever unit it is.")
    return f"    none yet: a adds the first quote{first}"


_UNDO = "Take the last change back"
QUOTES: RowForm[Quote] = RowForm(
    key="quote",
    place=PLACE,
    measures=MEASURES,
    lines=_lines,
    show=_show,
    actions=(
        Action(name="add", keys="a,insert", label="Add quote", tooltip="A supplier has quoted",
               word="a add"),
        Action(name="open", keys="", label="Change", tooltip="What was quoted",
               word="Enter change"),
        Action(name="details", keys="v", label="All of it", word="v all of it", do=_details,
               tooltip="What would ship, how the cost is made, what is missing"),
        Action(name="sort", keys="s", label="Sort", word="s sort", do=_sort,
               tooltip="By what it lands at, arrival, cash before delivery, weight"),
        Action(name="working", keys="f2", label="Working", do=_working,
               tooltip="How what the marked quote lands at was worked out"),
        Action(name="award", keys="w", label="Award", word="w award", do=_award, on_row=True,
               tooltip="The order goes to this supplier, on what it quotes"),
        Action(name="copy", keys="c", label="Copy quote", word="c copy",
               tooltip="One more quote like this one"),
        Action(name="delete", keys="d,delete", label="Delete quote", word="d delete",
               tooltip="Take the quote out; Ctrl+Z brings it back"),
        Action(name="undo", keys="u", label="Undo", tooltip=_UNDO),
    ),
    name=_name,
    new=new_quote,
    added="{name} quotes",
    copied="{name} copied",
    held=_held,
    taken=lambda opened, job, index: with_given_for(opened.session.plan, job, index),
    empty=_instead,
    no_row="There is no quote yet; a adds one.",
    heading=lambda _shown, _all: " Quotes ",
    bars=((("add", "open", "details"), ("sort", "award", "copy", "delete")),),
    tallest=12,
    columns=quote_heads,
    below=_below,
    below_title="What they land at",
    view=ListView(
        title=lambda opened: f"Quotes on one footing, {opened.session.job.title}",
        hint=lambda _opened: "w awards; s sorts; F2 shows the working; Tab reads on; Escape closes",
        about=_about,
        scrolls=True,
    ),
    entry=EntryView(
        title=lambda opened, index: f"{_name(opened.session.job, index)}: what was quoted",
        about=_about_one,
        hint="All counts as you type; empty means it was not said; Escape closes",
        label_width=24,
        keys=(Action(name="undo", keys="ctrl+z", label="Undo", tooltip=_UNDO),),
    ),
)
"""The list of quotes."""

QUOTES_READ: RowForm[Quote] = replace(
    QUOTES, key="quote-read", show=_show_short,
    actions=tuple(action for action in QUOTES.actions if action.name != "details"),
)
"""The same list over the wizard, where all is read that is said of the marked one."""
