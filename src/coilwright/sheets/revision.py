"""What a revision of the order changes, in the order's own words: nothing private, nothing else."""

from __future__ import annotations

import dataclasses
import re
from collections.abc import Iterable, Iterator, Mapping
from functools import lru_cache

from coilwright.job.job import Job
from coilwright.job.life import Sent
from coilwright.job.plain_name import plain_name
from coilwright.plan import plan as make_plan
from coilwright.plan.life import pair_changed
from coilwright.plan.result import Plan
from coilwright.sheets.blocks import (
    Block,
    Facts,
    List,
    Paragraph,
    Style,
    Table,
    Text,
    bullets,
    paragraph,
    plain,
    stacked,
    strong,
)
from coilwright.sheets.coil_changes import NOTHING, coil_changes
from coilwright.sheets.order_body import order_body, ordered_coils
from coilwright.store.files import StoreError
from coilwright.store.reader import read_model
from coilwright.units import System

_HEAD = ("Revision", "Date")
"""Lines that every revision has its own of."""
_COIL = "coil "
"""Before the numbers of coils, as their line is called."""
_TERMS = "terms"
"""What sentences are called that stand under no label of their own."""

_END = re.compile(r"(?<=\.) (?=[A-Z])")


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


def revision_part(plan: Plan, blocks: Iterable[Block]) -> tuple[Block, ...]:
    """Which revision this one replaces, and what is not as it was on that. Empty on the first.

    blocks: of this order. What another supplier had, and was told of its price, is not this one's
    to read: to them this is the first.
    """
    order = plan.job.order
    before = next((one for one in reversed(plan.job.life.sent)
                   if one.revision != order.revision
                   and plain_name(one.supplier) == plain_name(order.supplier)), None)
    if before is None:
        return ()
    number = f"order {before.number}, " if before.number != order.number else ""
    replaces = strong(f"Replaces {number}revision {before.revision} of "
                      f"{plan.job.day(before.dated or before.date)}. ")
    if before.canceled is not None:
        replaces = strong(f"Ordered anew: {number}revision {before.revision} of "
                          f"{plan.job.day(before.dated or before.date)} was canceled on "
                          f"{plan.job.day(before.canceled.date)} and stays so. ")
    try:
        old = order_body(plan_sent(before, plan.job.units))
    except StoreError as error:
        return (paragraph(replaces, f"Changes since then: {error}"),)
    now = tuple(blocks)
    found = [*changed_lines(old, now)]
    lines, which = [], ""
    if any(_of_coils(label) and not (was and new) for label, was, new in found):
        # Other coils are alike by now: what becomes of each is said, number by number.
        found = [one for one in found if not _of_coils(one[0])]
        lines = [f"{one.label[:1].lower()}{one.label[1:]}: {one.before} → {one.now}"
                 for one in coil_changes(ordered_coils(plan_sent(before, plan.job.units)),
                                         ordered_coils(plan))]
        which = "The coils to make are those listed below, and no others."
    lines += [_changed_words(*one) for one in found]
    if not lines:
        return (paragraph(replaces, "Nothing on it changed."),)
    return stacked(paragraph(replaces, "Changed:"), bullets(lines), paragraph(which))


Cells = Mapping[str, str]


def _of_coils(label: str) -> bool:
    return label.startswith(_COIL)


def _changed_words(label: str, was: Cells, now: Cells) -> str:
    """Of a row only what differs, each size by its name: that is what is looked for."""
    if not was or not now:
        return f"{label}: {cell_words(was)} → {cell_words(now)}"
    return f"{label}: " + ", ".join(
        f"{name} {was.get(name, NOTHING)} → {now.get(name, NOTHING)}".strip()
        for name in dict.fromkeys((*now, *was)))


def changed_lines(
    before: Iterable[Block], now: Iterable[Block], *, coils: bool = True
) -> Iterator[tuple[str, Cells, Cells]]:
    """The lines of two orders that differ: label, and what differs by the names of its cells.

    A coil has its number, which is on its tag; a line of another table is known by what it says.
    coils: whether those are among them.
    """
    old, new = (lines_of(blocks, coils=coils) for blocks in (before, now))
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


def lines_of(blocks: Iterable[Block], *, coils: bool = True) -> dict[str, list[dict[str, str]]]:
    """The lines of an order by their labels, each with its cells by name: its facts, its tables
    row by row, a coil by its number, and its sentences.

    coils: whether the coils are among them.
    """
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
                    name = (f"{_COIL}{cells.pop('coil')}" if "coil" in cells
                             else next(name for name in names if name != "count"))
                    found.setdefault(name, []).append(cells)
            case List(items):
                for item in items:
                    found.setdefault(_TERMS, []).append({"": plain(item)})
            case Paragraph(text):
                for name, sentence in _sentences(text):
                    found.setdefault(name, []).append({"": sentence})
            case _:
                pass
    return found


def _sentences(text: Text) -> Iterator[tuple[str, str]]:
    """The sentences of a paragraph; the words that stand out at its beginning label the first."""
    label, rest = _TERMS, text
    if text and text[0].style is Style.STRONG:
        label, rest = plain(text[:1]).rstrip(":"), text[1:]
    for place, sentence in enumerate(_END.split(plain(rest).strip())):
        yield (_TERMS if place else label), sentence.rstrip(".")
