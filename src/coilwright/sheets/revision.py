"""What a revision of the order changes, in the order's own words: nothing private, nothing else."""

from __future__ import annotations

import dataclasses
from collections.abc import Callable, Iterable, Iterator, Mapping
from functools import lru_cache

from coilwright.job.job import Job
from coilwright.job.life import Sent
from coilwright.job.sending import changed_since_sent, next_revision, still_out
from coilwright.plan import plan as make_plan
from coilwright.plan.life import pair_changed
from coilwright.plan.result import Plan
from coilwright.sheets.blocks import Block, Facts, Sheet, Table, bullets, paragraph, plain, strong
from coilwright.store.files import StoreError
from coilwright.store.reader import read_model
from coilwright.units import System, show_date

_HEAD = ("Order number", "Revision", "Date", "Page")
"""Lines that every revision has its own of."""
NOTHING = "nothing"
"""What stands for a line that is not there."""


@lru_cache(maxsize=4)
def job_sent(sent: Sent) -> Job:
    """The job as it was when it was sent. Raises StoreError where its text was spoiled."""
    return read_model(sent.job, Job, f"revision {sent.revision} as it was sent")


@lru_cache(maxsize=4)
def plan_sent(sent: Sent, units: System, *, practicing: bool = False) -> Plan:
    """The plan of the job as it was when it was sent, in units. Raises StoreError as `job_sent`.

    practicing: whether it is practice that is not handed in, and keeps back what is to be found.
    """
    job = job_sent(sent)
    practice = job.practice if practicing else None
    return make_plan(dataclasses.replace(job, units=units, practice=practice))


def is_as_sent(job: Job) -> bool:
    """Whether the order as it would be printed is the one that was sent last, in its units too.

    One that went a step back since is not: nothing stands as sent.
    """
    last = job.life.latest
    if last is None or still_out(job) or changed_since_sent(job):
        return False
    try:
        return job_sent(last).units is job.units
    except StoreError:
        return False


def next_headed(plan: Plan) -> Plan:
    """The plan with the next revision at its order's head, where what was sent is not it: it has
    changed since, or went a step back."""
    job, last = plan.job, plan.job.life.latest
    if last is None or job.order.revision != last.revision or not (
            still_out(job) or changed_since_sent(job)):
        return plan
    order = dataclasses.replace(job.order, revision=next_revision(job.life), date=None)
    return dataclasses.replace(plan, job=dataclasses.replace(job, order=order))


def revision_part(
    plan: Plan, blocks: Iterable[Block], make: Callable[[Plan], Sheet]
) -> tuple[Block, ...]:
    """What is not as it was on the revision before this one. Empty on the first.

    blocks: of this order. make: the order sheet of a plan.
    """
    before = next((one for one in reversed(plan.job.life.sent)
                   if one.revision != plan.job.order.revision), None)
    if before is None:
        return ()
    try:
        old = make(make_plan(job_sent(before))).blocks
    except StoreError as error:
        return (paragraph(strong(f"Changes since revision {before.revision}: "), str(error)),)
    # Of a row only what differs, each size by its name: that is what is looked for.
    lines = [f"{label}: {cell_words(was)} → {cell_words(now)}" if not was or not now else
             f"{label}: " + ", ".join(f"{name} {was.get(name, NOTHING)} → "
                                      f"{now.get(name, NOTHING)}".strip()
                                      for name in dict.fromkeys((*now, *was)))
             for label, was, now in changed_lines(old, blocks)]
    if not lines:
        return (paragraph(f"Nothing on it changed since revision {before.revision}."),)
    day = show_date(before.date)
    return (paragraph(strong(f"Changed since revision {before.revision} of {day}:")),
            bullets(lines))


Cells = Mapping[str, str]


def changed_lines(
    before: Iterable[Block], now: Iterable[Block], *, coils: bool = True
) -> Iterator[tuple[str, Cells, Cells]]:
    """The lines of two orders that differ: label, and what differs by the names of its cells.

    A coil has its number, which is on its tag; a line of another table is known by what it says.
    coils: whether those are among them.
    """
    old, new = _lines(before, coils=coils), _lines(now, coils=coils)
    for label in dict.fromkeys((*new, *old)):
        were, are = old.get(label, []), new.get(label, [])
        for was, place in pair_changed(were, are):
            gone = {} if was is None else were[was]
            come = {} if place is None else are[place]
            if gone and come:
                differ = [name for name in dict.fromkeys((*come, *gone))
                          if gone.get(name) != come.get(name)]
                gone, come = ({name: cells[name] for name in differ if name in cells}
                              for cells in (gone, come))
            yield label, gone, come


def cell_words(cells: Cells) -> str:
    """A line, or what differs of it, each size by its name."""
    return ", ".join(f"{name} {text}".strip() for name, text in cells.items()) or NOTHING


def _lines(blocks: Iterable[Block], *, coils: bool) -> dict[str, list[dict[str, str]]]:
    """The lines of an order by their labels, each with its cells by name: its facts, and its
    tables row by row; a coil by its number."""
    found: dict[str, list[dict[str, str]]] = {}
    for block in blocks:
        match block:
            case Facts(_, rows):
                for label, value in rows:
                    if plain(label) not in _HEAD:
                        found.setdefault(plain(label), []).append({"": plain(value)})
            case Table(header, rows):
                names = [plain(cell) for cell in header]
                for row in rows if coils or "coil" not in names else ():
                    cells = dict(zip(names, map(plain, row), strict=True))
                    name = (f"coil {cells.pop('coil')}" if "coil" in cells
                             else next(name for name in names if name != "count"))
                    found.setdefault(name, []).append(cells)
            case _:
                pass
    return found
