"""The head of a job's order, and what somebody takes on knowingly, on the command line."""

from __future__ import annotations

import argparse
import dataclasses
import sys
from typing import TYPE_CHECKING, Any

from coilwright.cli.problems import Problem
from coilwright.drawing.safe_text import one_line

if TYPE_CHECKING:
    from coilwright.cli.finding import Found
    from coilwright.job.job import Job

_LONGEST = 200


def _find_saved(name: str) -> tuple[Job, Found]:
    """A saved job, and where it was found. Raises Problem for a demo job, which is nobody's."""
    from coilwright.cli.finding import find_job

    found = find_job(name)
    if found.path is None:
        raise Problem("A demo job is kept as it is, and so is one from standard input; open it in "
                      "the wizard for a copy of your own.")
    return found.job, found


def _save(found: Found, job: Job) -> None:
    from coilwright.cli.kept import kept

    assert found.path is not None
    kept().save(found.path, job, seen=found.seen)
    print(f"Saved {found.path}", file=sys.stderr)


# -- the head of the order -----------------------------------------------------------------


def order(given: argparse.Namespace) -> int:
    """Print the head of a job's order, or set lines of it."""
    from coilwright.cli.finding import find_job
    from coilwright.job.from_shop import with_buyer
    from coilwright.store import home
    from coilwright.store.shop import load_shop

    if not given.set and not given.from_shop:
        _print_head(find_job(given.job).job)
        return 0
    job, place = _find_saved(given.job)
    new = job
    for text in given.set or ():
        name, value = _line(text, job)
        head: Any = dataclasses.replace(new.order, **{name: value})
        new = dataclasses.replace(new, order=head)
    if given.from_shop:
        shop, trouble = load_shop(home())
        if trouble:
            raise Problem(trouble)
        new = with_buyer(new, shop.buyer)
    if new != job:
        _save(place, new)
        _tell_number(job, new.order.number)
    _print_head(new)
    return 0


def _tell_number(before: Job, number: str) -> None:
    """Say that what was sent bears another number than the order does now: the supplier's papers
    and tags go on to name that one."""
    sent = before.life.latest
    if sent is not None and number not in (before.order.number, sent.number):
        then = f"goes out as {one_line(number)}" if number else "needs a number before it goes out"
        print(f"The order was sent {f'as {one_line(sent.number)}' if sent.number else 'unnumbered'}"
              f", revision {sent.revision}; what comes of it bears that. The next revision {then}.",
              file=sys.stderr)


def _names() -> list[str]:
    from coilwright.job.order import Order

    return [field.name for field in dataclasses.fields(Order)]


def _line(text: str, job: Job) -> tuple[str, Any]:
    """The name and value that `NAME=TEXT` sets. Raises Problem."""
    from coilwright.units import UnreadableQuantity, read_date

    name, equals, value = text.partition("=")
    name, value = name.strip().lower().replace("-", "_").replace(" ", "_"), one_line(value.strip())
    if not equals or name not in _names():
        raise Problem(f"“{one_line(text)[:40]}” sets no line of the order; write NAME=TEXT, with "
                      f"a name of: {', '.join(_names())}.")
    if name == "date":
        try:
            return name, read_date(value, job.units) if value else None
        except UnreadableQuantity as error:
            raise Problem(str(error)) from None
    if len(value) > _LONGEST:
        raise Problem(f"{name}: {len(value)} characters are too many; {_LONGEST} fit.")
    return name, value


def _print_head(job: Job) -> None:
    for name in _names():
        value = getattr(job.order, name)
        print(f"{name}: {one_line(str(value)) if value else ''}".rstrip())


# -- taken on knowingly --------------------------------------------------------------------


def settle(given: argparse.Namespace) -> int:
    """Print what holds a job's order by key, take one on, waive one, or take that back."""
    from coilwright.job.edit import accept, withdraw
    from coilwright.plan import plan
    from coilwright.plan.questions import against_words, question_of, waive

    for option, value, wanted, told in (
            ("--by", given.by, given.accept, "--accept KEY"),
            ("--reason", given.reason, given.accept or given.waive, "--accept KEY or --waive KEY")):
        if value is not None and wanted is None:
            raise Problem(f"{option} goes with {told}.")
    if given.accept is None and given.waive is None and given.withdraw is None:
        from coilwright.cli.finding import find_job

        _print_reasons(find_job(given.job).job)
        return 0
    job, place = _find_saved(given.job)
    if given.accept is not None:
        found = {finding.key: finding for finding in plan(job).findings if finding.accept}
        if given.accept not in found:
            raise Problem(f"Nothing that can be taken on has the key “{one_line(given.accept)[:60]}"
                          f"”; {_there_are(found)}")
        try:
            new = accept(job, given.accept, found[given.accept].accept, one_line(given.by or ""),
                         one_line(given.reason or ""), found[given.accept].what)
        except ValueError as error:
            raise Problem(f"{error} (--by NAME --reason TEXT)") from None
    elif given.waive is not None:
        if not (given.reason or "").strip():
            raise Problem("Why may the order go out without an answer? Give --reason TEXT.")
        try:
            # “settle JOB” lists a reply against the order by its finding.
            key = given.waive.removeprefix("questions.against.")
            new, asked = waive(job, key, one_line(given.reason)), question_of(job, key)
        except KeyError:
            raise Problem(f"No question has the key “{one_line(given.waive)[:60]}”; “settle JOB” "
                          "lists those that hold the order.") from None
        if asked.stands:
            raise Problem(f"{one_line(against_words(job, asked))} No waiver lifts it: another "
                          "reply does.")
    else:
        new = withdraw(job, given.withdraw)
        if given.withdraw in job.questions:
            new = waive(new, given.withdraw, "")
        if new == job:
            key = one_line(given.withdraw)[:60]
            raise Problem(f"Nothing was taken on or waived under “{key}”.")
    _save(place, new)
    _print_reasons(new)
    return 0


def _there_are(found: dict[str, Any]) -> str:
    return f"there are: {', '.join(found)}." if found else "there is none now."


def _print_reasons(job: Job) -> None:
    from coilwright.plan import plan

    found = plan(job)
    for reason in found.reasons:
        print(f"{reason.kind} {reason.key}: {one_line(reason.text)}")
    for one in found.readiness.settled:
        print(f"{one.kind} {one.key}: {one_line(one.text)}")
    if not found.reasons:
        print("Nothing holds the order.", file=sys.stderr)
