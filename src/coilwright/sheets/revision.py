"""What a revision of the order changes, in the order's own words: nothing private, nothing else."""

from __future__ import annotations

import dataclasses
from collections.abc import Callable, Iterable, Iterator
from functools import lru_cache

from coilwright.job.job import Job
from coilwright.job.life import Sent
from coilwright.job.sending import changed_since_sent, next_revision
from coilwright.plan import plan as make_plan
from coilwright.plan.result import Plan
from coilwright.sheets.blocks import Block, Facts, Sheet, Table, bullets, paragraph, plain, strong
from coilwright.store.files import StoreError
from coilwright.store.reader import read_model
from coilwright.units import show_date

_HEAD = ("Order number", "Revision", "Date", "Page")
"""Lines that every revision has its own of."""
_NOTHING = "nothing"


@lru_cache(maxsize=4)
def job_sent(sent: Sent) -> Job:
    """The job as it was when it was sent. Raises StoreError where its text was spoiled."""
    return read_model(sent.job, Job, f"revision {sent.revision} as it was sent")


def next_headed(plan: Plan) -> Plan:
    """The plan with the next revision at its order's head, where it changed since it was sent."""
    job, last = plan.job, plan.job.life.latest
    if last is None or job.order.revision != last.revision or not changed_since_sent(job):
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
    lines = [*_differing(old, blocks)]
    if not lines:
        return (paragraph(f"Nothing on it changed since revision {before.revision}."),)
    day = show_date(before.date)
    return (paragraph(strong(f"Changed since revision {before.revision} of {day}:")),
            bullets(lines))


def _differing(before: Iterable[Block], now: Iterable[Block]) -> Iterator[str]:
    old, new = dict(_lines(before)), dict(_lines(now))
    for label in dict.fromkeys((*new, *old)):
        was, text = old.get(label, _NOTHING), new.get(label, _NOTHING)
        if was != text:
            yield f"{label}: {was} → {text}"


def _lines(blocks: Iterable[Block]) -> Iterator[tuple[str, str]]:
    """The lines of an order by their labels: its facts, and its tables row by row."""
    for block in blocks:
        match block:
            case Facts(_, rows):
                for label, value in rows:
                    if plain(label) not in _HEAD:
                        yield plain(label), plain(value)
            case Table(header, rows):
                names = [plain(cell) for cell in header]
                for number, row in enumerate(rows, 1):
                    cells = [f"{name} {plain(cell)}".strip()
                             for name, cell in zip(names, row, strict=True)]
                    yield f"{names[1] or names[0]}, line {number}", ", ".join(cells)
            case _:
                pass
