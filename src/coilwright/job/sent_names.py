"""What was sent, by name: by its revision alone while one number was sent, else by both.

Each supplier has revisions of its own: two orders can both have a revision A.
"""

from __future__ import annotations

import re

from coilwright.job.job import Job
from coilwright.job.life import OrderState, Sent


def _many_numbers(job: Job) -> bool:
    return len({one.number for one in job.life.sent}) > 1


def sent_words(job: Job, one: Sent) -> str:
    """What was sent, within a sentence: `revision A`, or `revision A of order 2041`."""
    of = f" of order {one.number}" if one.number and _many_numbers(job) else ""
    return f"revision {one.revision}{of}"


def sent_names(job: Job) -> tuple[str, ...]:
    """By what each that was sent can be asked for, the first first: `A`, or `2041-A`."""
    many = _many_numbers(job)
    return tuple(dict.fromkeys(
        f"{one.number}-{one.revision}" if many and one.number else one.revision
        for one in job.life.sent))


def sent_called(job: Job, name: str) -> Sent | None:
    """What was sent of this name: a revision, or a number and a revision; None for neither.

    Of a revision that several orders have, it is the one that was sent last.
    """
    wanted = _plain(name)
    return next((one for one in reversed(job.life.sent)
                 if wanted in (_plain(one.revision), _plain(f"{one.number}-{one.revision}"))), None)


def _plain(name: str) -> str:
    """A name without what people write either way.

    >>> _plain(" 2041  a"), _plain("D-2041 - A")
    ('2041-A', 'D-2041-A')
    """
    return re.sub(r"[\s-]+", "-", name.strip()).upper()


def step_notes(job: Job) -> tuple[str, ...]:
    """The note of each step of the order; where more than one number was sent, with that of what
    was sent by it."""
    sent, notes = iter(job.life.sent), list[str]()
    for step in job.life.steps:
        note = step.note
        if step.state is OrderState.ORDERED and not step.back and (
                one := next(sent, None)) is not None:
            bare = f"revision {one.revision}"
            if note == bare or note.startswith((f"{bare} ", f"{bare}:")):
                note = f"{sent_words(job, one)}{note.removeprefix(bare)}"
        notes.append(note)
    return tuple(notes)
