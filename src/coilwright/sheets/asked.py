"""Requests as they were asked: whose saved page is no more what the job would ask now.

Whoever quotes answers to what they were sent: a request that is saved with its number and day stays
as it is, and what changed since is asked anew, under a number of its own. Whether it left the house
only its sender knows: one that nobody has answered is written anew where they say that it did not.
"""

from __future__ import annotations

import contextlib
from collections.abc import Collection, Iterator, Mapping, Sequence
from pathlib import Path
from types import MappingProxyType

from coilwright.job.job import Job
from coilwright.job.life import OrderState
from coilwright.job.plain_name import plain_name
from coilwright.job.requests import Request
from coilwright.job.sending import awaited, latest_requests
from coilwright.plan.result import Plan
from coilwright.sheets import ending, render, sheet_files
from coilwright.sheets.blocks import DRAFT
from coilwright.sheets.file_names import file_stem
from coilwright.store import StoreError
from coilwright.store.files import read_text
from coilwright.store.jobs import Store
from coilwright.units import show_date
from coilwright.words.counting import in_series

_COMPARED = ("text", "md")
"""The forms that say all of a request and nothing of how its page is set."""
_LOOKED_INTO = 200
"""Jobs that are looked into for a number, those changed last."""
Asked = tuple[str, str]
"""The number of a request, and whom it asks, as names are compared."""
_NOBODY: Mapping[Asked, str] = MappingProxyType({})
ELSEWHERE = "s in Requests, pressed twice, writes"
"""What writes requests anew, where the list of requests is not open."""


def asked_otherwise(plan: Plan, folder: Path) -> tuple[Request, ...]:
    """The requests whose files in a folder say something else than the job does now.

    Of each supplier the last one. One without a number or a day was asked of nobody yet, and one
    that is saved as a draft was not to go out.
    """
    return tuple(one for one in latest_requests(plan.job)
                 if one.number and one.date and _says_otherwise(plan, folder, one.supplier))


def _says_otherwise(plan: Plan, folder: Path, supplier: str) -> bool:
    stem = file_stem(plan, "request", supplier)
    for form in _COMPARED:
        path = folder / f"{stem}.{ending(form)}"
        if not path.is_file():
            continue
        try:
            saved = read_text(path)
        except StoreError:
            return True  # it is not known what it says: it is not written over
        return (not saved.lstrip("*").startswith(DRAFT)
                and saved != render("request", plan, form, to=supplier))
    return False


def perhaps_unsent(
    job: Job, asked: Sequence[Request], others: Mapping[Asked, str] = _NOBODY
) -> tuple[Request, ...]:
    """Of requests those that may not have left the house: nobody quoted to them, the order is not
    sent yet, and no other job has their number (see `asked_before_words`)."""
    if job.life.state not in (OrderState.DRAFT, OrderState.OUT):
        return ()
    unanswered = awaited(job)
    return tuple(one for one in asked if one in unanswered and _asked(one) not in others)


def files_to_save(
    plan: Plan, folder: Path, kinds: tuple[str, ...] = (), unsent: Collection[Request] = ()
) -> Iterator[tuple[str, str]]:
    """The files of sheets for a folder, as `sheet_files` gives them, without those of a request
    that stays there as it was asked. unsent: requests that do not stay, for they were not sent."""
    stay = {file_stem(plan, "request", one.supplier) for one in asked_otherwise(plan, folder)
            if one not in unsent}
    return ((name, text) for name, text in sheet_files(plan, kinds)
            if name.rsplit(".", 1)[0] not in stay)


def _asked(one: Request) -> Asked:
    return one.number, plain_name(one.supplier)


def numbers_of_others(
    store: Store, own: Path | None, asked: Sequence[Request]
) -> dict[Asked, str]:
    """Which other job has asked the same supplier under the same number: its title, by both.

    own: the file of the job whose requests they are. Looks into the jobs that were changed last.
    """
    found: dict[Asked, str] = {}
    for entry in store.jobs()[:_LOOKED_INTO] if asked else ():
        if entry.path == own:
            continue
        with contextlib.suppress(StoreError):
            theirs = {_asked(one) for one in store.load(entry.path).requests}
            found.update((_asked(one), entry.title) for one in asked if _asked(one) in theirs)
    return found


def asked_before_words(
    job: Job, asked: Sequence[Request], others: Mapping[Asked, str] = _NOBODY, *,
    writes: str = ELSEWHERE,
) -> str:
    """That requests stay as they were asked, and what to do, in sentences; empty for none.

    others: titles of the jobs that have the numbers of some of them, by number and supplier.
    writes: what writes anew one that was not sent.
    """
    said = []
    if theirs := [one for one in asked if _asked(one) in others]:
        numbers = " and ".join(dict.fromkeys(
            f"{one.number} is the number of a request of “{others[_asked(one)]}”"
            for one in theirs))
        said.append(f"{numbers}, whose files stay as they are: n in Requests asks here under a "
                    "number of its own.")
    if unsent := perhaps_unsent(job, asked, others):
        one = len(unsent) == 1
        # What lies there names no job: a number that was typed may be one that another job has.
        said.append(
            f"{in_series([each.number for each in unsent])} not sent yet? {writes} "
            f"{'it' if one else 'them'} anew. Sent? n {'' if one else 'on its row '}asks anew, "
            f"under a number of its own: {'it is' if one else 'they are'} saved otherwise than "
            "the job is now.")
    if sent := [one for one in asked if one not in unsent and one not in theirs]:
        one = len(sent) == 1
        named = in_series([f"{each.number} of {show_date(each.date, job.units)}" for each in sent
                           if each.date])
        said.append(
            f"{named} {'was' if one else 'were'} asked before the job changed, and "
            f"{'its' if one else 'their'} files stay as they are: n in Requests asks anew, under a "
            "number of its own.")
    return " ".join(said)
