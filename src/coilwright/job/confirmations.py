"""What an answer was confirmed for: a sign-off, a weighing or a reply lapses when that changes.

An answer says what it rests on (`Answer.rests_on`). When it is given or confirmed as sure, the
job keeps those answers as they were (`Job.confirmed`); a reply to a question keeps the answers
its condition looks at (`Asked.of`). Where one of them changes, the answer becomes a guess and the
reply is open again. A job from before anything was kept counts as confirmed for what it says.
"""

from __future__ import annotations

import dataclasses
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from coilwright.job.answers import ANSWERS, Answer
from coilwright.job.answers.spec import ARRIVED_AS, ORDER
from coilwright.job.choices import YesNo
from coilwright.job.job import Job
from coilwright.job.receiving import came_for
from coilwright.values.digest import digest
from coilwright.values.standing import Standing

_ORDERED_BY = ("roof", "metal", "panel", "machine", "trim", "coils")
"""The sections whose answers the weights of an order follow from."""
_CONFIRMED = tuple(answer for answer in ANSWERS.values() if answer.rests_on)


AS_ORDERED = "no coil of the order came as several"
"""What a count of coils is of until one arrived as several."""


@dataclass(frozen=True, slots=True)
class Change:
    """One answer that changed since something was confirmed for it; empty text: not given.

    key: of the answer, or `ORDER` for the whole order, whose texts say nothing to a reader, or
    `ARRIVED_AS`, whose texts do.
    """

    key: str
    before: str
    now: str


def basis(job: Job, keys: tuple[str, ...]) -> dict[str, str]:
    """These answers as they are now, as text that does not depend on the job's units."""
    return {key: _text(job, key) for key in keys}


def condition_keys(question: str) -> tuple[str, ...]:
    """The answers that a question's condition looks at; none for a question nobody wrote."""
    from coilwright.job.questions import all_questions  # costs start-up: a new job has no reply

    words = all_questions().get(question)
    return () if words is None else tuple(dict.fromkeys((*words.when, *words.unless)))


def changes(job: Job, before: Mapping[str, str]) -> tuple[Change, ...]:
    """What is no longer as it was."""
    return tuple(
        Change(key, text, now)
        for key, text in before.items()
        if (key in (ORDER, ARRIVED_AS) or key in ANSWERS) and (now := _text(job, key)) != text
    )


def lapsed(job: Job) -> Job:
    """The job with every sure answer made a guess whose basis changed.

    A measure, a code or a shade that was given before its basis was takes the basis that comes
    first; a sign-off was of nothing then, and lapses, but for what need not be known, as the code
    of a color that its supplier tells later.
    """
    marks, confirmed = dict(job.standing), dict(job.confirmed)
    for answer in _CONFIRMED:
        before = confirmed.get(answer.key)
        if before is None or answer.standing(job) is not Standing.SURE:
            continue
        # Where none rides, nothing hangs on how they arrived.
        changed = [one for one in changes(job, before)
                   if one.key != ARRIVED_AS or answer.value(job)]
        if not changed:
            continue
        if not any(change.before or (_is_sign_off(answer) and _is_needed(change.key))
                   for change in changed):
            confirmed[answer.key] = {**before, **{c.key: c.now for c in changed}}
        else:
            marks[answer.key] = Standing.GUESS
    if marks == job.standing and confirmed == job.confirmed:
        return job
    return dataclasses.replace(job, standing=marks, confirmed=confirmed)


def _is_sign_off(answer: Answer) -> bool:
    """Whether it says of something else that it was agreed to."""
    return answer.choices == tuple(YesNo)


def _is_needed(key: str) -> bool:
    """Whether nothing is agreed to while it is not known."""
    return key == ORDER or ANSWERS[key].needed


def carry_from_start(start: Job, new: Job) -> Job:
    """A changed job with its confirmations renewed, where the change is one that goes on.

    start: the job before its first key. What is half typed is nothing that was confirmed for: what
    was sure at the start is held to the whole change.
    """
    marks, confirmed = dict(new.standing), dict(new.confirmed)
    for answer in _CONFIRMED:
        key = answer.key
        was = _mark(start, answer)
        if key not in start.confirmed or was[0] != answer.value(new) or was[1] is not Standing.SURE:
            continue
        marks.pop(key, None)
        confirmed[key] = start.confirmed[key]
    if marks != new.standing or confirmed != new.confirmed:
        new = dataclasses.replace(new, standing=marks, confirmed=confirmed)
    return carry_confirmations(start, new)


def kept_through(before: Job, now: Job, opened: frozenset[str]) -> Job:
    """A changed job in which what was sure before is sure still, where what it is of is as it was:
    a change of many steps, as an award made anew, may only have passed what is none of it.

    opened: what the change opens of itself, by key; that stays a guess.
    """
    marks, confirmed, own = dict(now.standing), dict(now.confirmed), dict(now.before_quote)
    for answer in _CONFIRMED:
        key, was = answer.key, before.confirmed.get(answer.key)
        if (was is None or key in opened or _mark(before, answer)[1] is not Standing.SURE
                or _mark(now, answer) != (answer.value(before), Standing.GUESS)
                or changes(now, was)):
            continue
        del marks[key]
        confirmed[key] = was
        if key not in now.by_quote and key not in before.before_quote:
            own.pop(key, None)  # it did not lapse, and nothing has to come back
    if marks == now.standing:
        return now
    return dataclasses.replace(now, standing=marks, confirmed=confirmed, before_quote=own)


def carry_confirmations(old: Job, new: Job) -> Job:
    """A changed job with its confirmations renewed.

    What was given or confirmed by the change holds the answers as they are now; what was sure
    before holds them as they were, and is a guess where they changed.
    """
    if old is new:
        return new
    confirmed = dict(new.confirmed)
    for answer in _CONFIRMED:
        key = answer.key
        was, now = _mark(old, answer), _mark(new, answer)
        if now[0] is not None and now[0] == was[0] and now[1] is Standing.GUESS and changes(
                new, confirmed.get(key, {})):
            continue  # it lapsed: what it was of says why it is a guess
        if now[0] is None or (now != was and now[1] is not Standing.SURE):
            confirmed.pop(key, None)
        elif now != was:
            confirmed[key] = basis(new, answer.rests_on)
        elif now[1] is Standing.SURE and any(
                rest not in confirmed.get(key, {}) for rest in answer.rests_on):
            # A file of an earlier program kept less, or nothing: it is of what the job said.
            confirmed[key] = {**basis(old, answer.rests_on), **_as_ordered(answer),
                              **confirmed.get(key, {})}
    questions = {
        key: dataclasses.replace(asked, of=basis(old, condition_keys(key)))
        if (asked.settled or asked.waived) and not asked.of and condition_keys(key) else asked
        for key, asked in new.questions.items()
    }
    if confirmed != new.confirmed or questions != new.questions:
        new = dataclasses.replace(new, confirmed=confirmed, questions=questions)
    return lapsed(new)


def _as_ordered(answer: Answer) -> dict[str, str]:
    """What a count that was kept for nothing yet is of: of coils as ordered, however they came."""
    return {ARRIVED_AS: AS_ORDERED} if ARRIVED_AS in answer.rests_on else {}


def is_of_what_arrived(job: Job, key: str) -> bool:
    """Whether a count of coils was given, or confirmed, since each arrived as what it came as."""
    return ANSWERS[key].standing(job) is Standing.SURE and (
        job.confirmed.get(key, {}).get(ARRIVED_AS, AS_ORDERED) == arrived_as(job))


def arrived_as(job: Job) -> str:
    """Which coils of the order arrived as several, in words that stand in a file."""
    return "; ".join(f"coil {number} of the order came as {len(numbers)}"
                     for number, numbers in came_for(job.arrived).items()
                     if len(numbers) > 1) or AS_ORDERED


def _mark(job: Job, answer: Answer) -> tuple[Any, Standing]:
    return answer.value(job), job.standing.get(answer.key, Standing.SURE)


def _text(job: Job, key: str) -> str:
    if key == ORDER:
        if job.haul.rack_coils == 0 and not job.haul.cargo_coils:
            return "no coil of it on the road"  # a load that holds none does not hang on it
        text = "\n".join(_order(job))
        return digest(text)[:16]
    if key == ARRIVED_AS:
        return arrived_as(job)
    answer = ANSWERS[key]
    return answer.text(answer.value(job))


def _order(job: Job) -> Iterator[str]:
    """All that the weights of the order follow from. Only what is given counts, so that a field
    that is new in a later program changes nothing."""
    # By key: the order of the steps may change, and what was confirmed stays confirmed.
    for _, answer in sorted(ANSWERS.items()):
        if answer.moves and answer.section in _ORDERED_BY and answer.bears(job):
            value = answer.value(job)
            if value is not None:
                yield f"{answer.key} {value!s}"
    for rows in (job.roof.planes, job.roof.building_openings, job.trim.pieces, job.on_hand):
        for row in rows:
            yield repr([
                (f.name, value) for f in dataclasses.fields(row)
                if f.name != "name" and (value := getattr(row, f.name)) is not None
                and value != f.default
            ])
