"""Changes to a job, one answer at a time. Each returns a new job; the old one stays as it was."""

from __future__ import annotations

import dataclasses
import re
from collections.abc import Callable, Mapping
from typing import TypeVar

from coilwright.job.answers import ANSWERS, Answer, Form, UnreadableAnswer, Value, answers_of
from coilwright.job.answers.coils import CoilsKey
from coilwright.job.answers.job import JobKey
from coilwright.job.answers.machine import MachineKey
from coilwright.job.answers.panel import PanelKey
from coilwright.job.answers.said_with import said_with
from coilwright.job.confirmations import carry_confirmations
from coilwright.job.found_cuts import FoundCuts
from coilwright.job.job import Acceptance, Job
from coilwright.job.quotes import OwnAnswer
from coilwright.job.weights_said import weights_said
from coilwright.units import System, show
from coilwright.units.currency import in_currency
from coilwright.values.standing import Standing
from coilwright.words import Words, starts_from, words
from coilwright.words.in_units import with_units


def _with(old: Job, job: Job, key: str, standing: Standing | None, typed: str | None) -> Job:
    """The job with the marks of one answer renewed: None takes a mark away.

    old: the job before the change; what was confirmed there lapses where its basis changed.
    """
    mark = ANSWERS[key].mark(job)
    marks = {k: v for k, v in job.standing.items() if k != mark}
    if standing is not None and standing is not marks.get(key, Standing.SURE):
        marks[mark] = standing
    texts = {k: v for k, v in job.typed.items() if k != key}
    if typed is not None:
        texts[key] = typed
    quoted = {k: v for k, v in job.by_quote.items() if k != key}
    own = {k: v for k, v in job.before_quote.items() if k != key}
    new = dataclasses.replace(
        job, standing=marks, typed=texts, by_quote=quoted, before_quote=own)
    return carry_confirmations(old, _by_profile(old, new, key))


_PROFILED = {PanelKey.SEAM, PanelKey.LEG, MachineKey.PROFILE_TAKE_UP}


def _by_profile(old: Job, new: Job, key: str) -> Job:
    """The job with a take-up that nobody gave as its profile has it: a guess until confirmed.

    It goes with the profile, key by key; what somebody gave stays.
    """
    mine, value = PanelKey.TAKE_UP, old.panel.take_up
    was, now = machine_value(old, mine), machine_value(new, mine)
    guessed = old.standing.get(mine) is Standing.GUESS and value == was
    if key not in _PROFILED or was == now or mine in old.typed or not (value is None or guessed):
        return new
    marks = {k: v for k, v in new.standing.items() if k != mine}
    if now is not None:
        marks[mine] = Standing.GUESS
    return dataclasses.replace(ANSWERS[mine].put(new, now), standing=marks)


def give(job: Job, key: str, value: Value, standing: Standing = Standing.SURE) -> Job:
    """The job with an answer given. Raises KeyError for an answer nobody asks.

    Where the units change, what is still guessed at its usual value is usual in the new ones; no
    size that somebody gave changes.
    """
    given = _with(job, ANSWERS[key].put(job, value), key, standing, None)
    if key == JobKey.UNITS and given.units is not job.units:
        for other, mark in job.standing.items():
            usual = usual_in(job, other) if other in ANSWERS else None
            if mark is Standing.GUESS and usual is not None and usual == ANSWERS[other].value(job):
                given = give(given, other, usual_in(given, other) or usual, mark)
    return given


def give_text(job: Job, key: str, text: str, *, again: bool = False) -> tuple[Job, str]:
    """The job with what was typed taken as the answer, and the error if it could not be.

    Text that cannot be read stays in the job beside the answer, which is then open: an old
    value must not stand in for one that was typed over it. Nothing typed takes the answer
    away. What it says of other answers is given too: see `said_with`. again: what stands there
    was typed over itself, and so is meant: a guess is sure then.
    """
    answer = ANSWERS[key]
    if not text.strip():
        return clear(job, key), ""
    if _stands_there(job, answer, text):
        return (confirm(job, key) if again else job), ""
    try:
        value = answer.in_job(job).read(text, job.units)
    except UnreadableAnswer as error:
        return _with(job, answer.put(job, None), key, None, text), str(error)
    for other, said in said_with(key, text, job.units):
        job = give(job, other, said)
    # What stands in a box is not given by being shown there, but typed in other words it is; a
    # pick is only given by hand.
    if value == answer.value(job) and key not in job.typed and answer.form is not Form.CHOICE and (
            answer.standing(job) is Standing.SURE or text == answer.said(job)):
        return (confirm(job, key) if again else job), ""
    return give(job, key, value), ""


def _stands_there(job: Job, answer: Answer, text: str) -> bool:
    """Whether a text is what stands in the box already, perhaps rounded: then nothing changed."""
    value = answer.value(job)
    return (answer.key not in job.typed and isinstance(value, float)
            and text == answer.said(job))


def clear(job: Job, key: str) -> Job:
    """The job without this answer; it is to ask."""
    return _with(job, ANSWERS[key].put(job, None), key, None, None)


def usual_value(key: str, system: System = System.US) -> Value | None:
    """The usual value of an answer, where the guidance has one; in metric as it is said there.

    What is usual is usual in round numbers: 6 ft, but 2 m. Where the guidance says no other
    for metric, it is the same size, as it is printed: 50.8 mm for 2 in.
    """
    return _usual(words(key), ANSWERS[key], system)


def words_in(job: Job, key: str) -> Words:
    """The words for an answer, with what is usual where the job's other answers are as they are."""
    return words(key).where(lambda other: ANSWERS[other].value(job))


def usual_in(job: Job, key: str) -> Value | None:
    """The usual value of an answer where the job's other answers are as they are, in its units."""
    return _usual(words_in(job, key), ANSWERS[key], job.units)


def _usual(said: Words, answer: Answer, system: System) -> Value | None:
    usual = said.usual
    if usual is None:
        return None
    if system is System.METRIC and said.usual_in_metric is not None:
        return answer.read(said.usual_in_metric, system)
    value = answer.read(usual)
    if system is System.US or answer.kind is None or not isinstance(value, float):
        return value
    return answer.read(show(value, answer.kind, system), system)


def usual_range(key: str, system: System = System.US) -> tuple[str, str] | None:
    """The ends of what is usual, as they are said there: rounded in metric; None without them."""
    said, answer = words(key), ANSWERS[key]
    if said.low is None or said.high is None:
        return None
    if system is System.METRIC and said.low_in_metric and said.high_in_metric:
        return said.low_in_metric, said.high_in_metric
    low, high = (
        with_units(text, system) if system is System.METRIC and answer.read(text)
        else answer.shown(answer.read(text), system) for text in (said.low, said.high))
    return low, high


def machine_value(job: Job, key: str) -> Value | None:
    """What the machine's own profiles say of an answer; None where they say nothing, or two things.

    Seam, leg and take-up belong to the rolls: where the machine forms one seam, it is that; where
    it has one profile of the seam, its leg is that one's, and with the leg known its take-up.
    """
    machine, panel = job.machine, job.panel
    if key == PanelKey.SEAM:
        seams = {one.seam for one in machine.profiles}
        return seams.pop() if len(seams) == 1 else None
    if key == PanelKey.LEG:
        legs = {one.leg for one in machine.profiles if one.seam is panel.seam}
        return legs.pop() if len(legs) == 1 else None
    if key == PanelKey.TAKE_UP:
        profile = machine.profile(panel.seam, panel.leg)
        return None if profile is None else profile.take_up
    return None


def head_value(job: Job, key: str) -> Value | None:
    """What the head of the order says of an answer; None where it says nothing, or two things.

    Its unloading gear may say what is lifted at the site: `forklift 8000 lb`.
    """
    if key != CoilsKey.SITE_LIFT:
        return None
    said = {*weights_said(job.order.unloading, job.units)}
    told = said.pop() if len(said) == 1 else None
    return None if told is None or ANSWERS[key].fault(told, job.units) else told


def do_not_know(job: Job, key: str) -> Job:
    """The job with a guess: the answer as it stands, or a value where there is none.

    That is what the profiles of the job's machine say, or the head of its order, else the usual
    value.

    What is typed is never overwritten. Where nothing is there and nothing is usual, the answer
    stays open; so does one whose text cannot be read. A guess at what was usual until another
    answer was given is none that anybody knows: what is usual now takes its place.
    """
    said = (machine_value(job, key), head_value(job, key), usual_in(job, key))
    usual = next((value for value in said if value is not None), None)
    if ANSWERS[key].value(job) is not None and (usual is None or not _was_usual(job, key)):
        return _with(job, job, key, Standing.GUESS, job.typed.get(key))
    if usual is None or key in job.typed:
        return job
    return give(job, key, usual, Standing.GUESS)


def _was_usual(job: Job, key: str) -> bool:
    """Whether an answer is a guess at what is usual, where other answers are one way or another."""
    answer, plain = ANSWERS[key], words(key)
    elsewhere = plain.where(lambda _other: plain.usual_where["is"])
    return answer.standing(job) is Standing.GUESS and answer.value(job) in (
        _usual(plain, answer, job.units), _usual(elsewhere, answer, job.units))


def confirm(job: Job, key: str) -> Job:
    """The job with an answer that is there made sure."""
    if ANSWERS[key].value(job) is None:
        return job
    return _with(job, job, key, Standing.SURE, job.typed.get(key))


_ROW = re.compile(r"[a-z_.\d]+\.\d+")
"""The key of a row's standing; that of an answer ends in a word, or in what its value is of."""


def step_guesses(job: Job, step: str) -> tuple[str, ...]:
    """What is a guess on a step: its answers, then its rows, by key."""
    rows = [key for key, mark in job.standing.items()
            if mark is Standing.GUESS and key.startswith(f"{step}.") and _ROW.fullmatch(key)
            and not any(text.startswith(f"{key}.") for text in job.typed)]
    return (*(one.key for one in answers_of(step)
              if one.asked(job) and one.standing(job) is Standing.GUESS), *rows)


def confirm_step(job: Job, step: str) -> Job:
    """The job with all that is a guess on a step made sure; a row that cannot be read is not."""
    guesses = step_guesses(job, step)
    for key in guesses:
        if key in ANSWERS:
            job = confirm(job, key)
    return dataclasses.replace(
        job, standing={k: v for k, v in job.standing.items() if k in ANSWERS or k not in guesses})


def accept(job: Job, finding: str, of: str, by: str, reason: str, words: str = "") -> Job:
    """The job with a finding taken on knowingly, by name and with a reason.

    finding: its key. of: what it is of now (`Finding.accept`). words: what it reads now. Raises
    ValueError where the name or the reason is empty, or where it is none that can be accepted.
    """
    by, reason = " ".join(by.split()), " ".join(reason.split())
    if not of:
        raise ValueError("This cannot be accepted; it has to be put right.")
    if not by:
        raise ValueError("Who takes it on? Give a name.")
    if not reason:
        raise ValueError("Why is it acceptable? Give a reason.")
    return dataclasses.replace(
        job, accepted={**job.accepted, finding: Acceptance(
            by=by, reason=reason, of=of, words=words)}
    )


def withdraw(job: Job, finding: str) -> Job:
    """The job without what somebody took on; it holds the order again."""
    return dataclasses.replace(
        job, accepted={k: v for k, v in job.accepted.items() if k != finding}
    )


def guessed_anew(before: Job, now: Job) -> list[str]:
    """What stays a guess and is another size in the units a job was turned to, in words.

    What every new job begins with says nothing to somebody who has settled nothing of its step.
    """
    settled = {answer.step for answer in ANSWERS.values()
               if answer.value(now) is not None and answer.standing(now) is Standing.SURE}
    return [f"{ANSWERS[key].label} {ANSWERS[key].shown(value, now.units)}"
            for key, mark in now.standing.items()
            if mark is Standing.GUESS and key in ANSWERS
            and (ANSWERS[key].step in settled or key not in starts_from(now.units))
            and (value := ANSWERS[key].value(now)) is not None
            and value != ANSWERS[key].value(before) is not None]


def give_by_quote(job: Job, key: str, value: Value, whose: str) -> Job:
    """The job with an answer as an awarded quote says it; what stood there is kept beside it.

    So is what was sure until then and rests on it: a take-up, say, of another thickness.
    """
    new = give(job, key, value)
    lapsed = {other for other, answer in ANSWERS.items() if answer.rests_on
              and answer.standing(job) is Standing.SURE
              and answer.standing(new) is Standing.GUESS}
    own = {one: OwnAnswer(text=ANSWERS[one].text(ANSWERS[one].value(job), job.units),
                          standing=ANSWERS[one].standing(job)) for one in (key, *sorted(lapsed))}
    return dataclasses.replace(new, by_quote={**new.by_quote, key: whose},
                               before_quote={**own, **new.before_quote, key: own[key]})


def by_quote(job: Job, key: str) -> list[str]:
    """That an answer is by the awarded quote, and what stood there, in words; nothing for none."""
    own = job.before_quote.get(key)
    if key not in job.by_quote:
        return []
    yours = in_currency(own.text, job.currency) if own else ""
    return [f"by the awarded quote{f'; yours was {yours}' if yours else ''}"]


def as_asked(job: Job) -> Job:
    """The job as it was asked for: what an awarded quote filled is again what stood there."""
    # What only lapsed comes last: it rests on the others.
    for key in sorted(job.before_quote, key=lambda one: one not in job.by_quote):
        if key not in ANSWERS:
            continue
        own = job.before_quote[key]
        try:
            job = (give(job, key, ANSWERS[key].read(own.text, job.units), own.standing)
                   if own.text else clear(job, key))
        except UnreadableAnswer:  # a file that was edited by hand
            continue
    return job


def keep_found(job: Job, found: FoundCuts) -> Job:
    """The job with the cuts that a longer search found (`Plan.found`)."""
    return dataclasses.replace(job, found_cuts=found)


def new_job(name: str | None = None, units: System = System.US) -> Job:
    """A new job: nothing answered but the few that have a usual value worth starting from."""
    job = Job(units=units)
    for key, usual in starts_from(units).items():
        job = give(job, key, ANSWERS[key].read(usual, units), Standing.GUESS)
    return give(job, JobKey.NAME, name) if name else job


def give_typed(job: Job, answer: Answer, empty: Value | None, text: str) -> tuple[Job, str]:
    """The job with what was typed taken as a measure, and the error if it was not.

    empty: what an empty box means. Text that cannot be read stays in the job, under the answer's
    key; the measure is then what an empty box means.
    """
    typed = {k: v for k, v in job.typed.items() if k != answer.key}
    bare = dataclasses.replace(job, typed=typed)
    if not text.strip():
        return answer.put(bare, empty), ""
    if _stands_there(job, answer, text):
        return job, ""
    try:
        value = answer.in_job(job).read(text, job.units)
    except UnreadableAnswer as error:
        kept = answer.put(bare, empty)
        return dataclasses.replace(kept, typed={**typed, answer.key: text}), str(error)
    if value == answer.value(job) and answer.key not in job.typed:
        return job, ""
    return answer.put(bare, value), ""


Mark = TypeVar("Mark")


def carried(
    marks: Mapping[str, Mark], rows: str, to: Callable[[int], tuple[int, ...]]
) -> dict[str, Mark]:
    """The marks with those of a list's rows where their rows stand now.

    rows: what the rows' keys begin with, such as `roof.planes.`; a number follows, and whatever
    belongs to the row. to: the places of the row of an old number; none where it is gone.
    """
    kept: dict[str, Mark] = {}
    for key, mark in marks.items():
        number, dot, rest = key.removeprefix(rows).partition(".")
        if not key.startswith(rows) or not number.isdecimal():
            kept[key] = mark
            continue
        for place in to(int(number)):
            kept[f"{rows}{place}{dot}{rest}"] = mark
    return kept
