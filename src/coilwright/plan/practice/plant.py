"""Mistakes put into a job: one answer says something else, and one stop follows from it.

What is put in and what is only said to be wrong are made alike, by the same plan: neither its form
nor its precision tells them apart, only the numbers in the job do.
"""

from __future__ import annotations

import re
from collections import deque
from collections.abc import Collection, Iterator
from dataclasses import dataclass

from coilwright.calc.gauges import GAUGES
from coilwright.job.answers import Answer, Form, UnreadableAnswer, asked
from coilwright.job.edit import give
from coilwright.job.job import Job
from coilwright.job.places import put_place
from coilwright.job.steps import MISTAKEN_IN
from coilwright.plan.plan import plan
from coilwright.plan.result import Plan
from coilwright.units import Kind
from coilwright.values.digest import digest
from coilwright.values.finding import Finding

MOST_MISTAKES = 9
"""How many mistakes are put into one job: more would hide each other."""
_FACTORS = (0.85, 1.2, 0.7, 1.4)
"""How far off a mistaken number is, nearest first. Common practice, no source."""
_PLAINLY = 0.1
"""So much nearer to what stood there a mistake must still be one. Common practice, no source."""
_STEPS = (12.0, 6.0, 1.0, 1 / 2, 1 / 4, 1 / 8, 1 / 16, 1 / 32)
"""How finely a size is given [in]; a mistaken one is given as finely."""
_NUMBER = re.compile(r"([\d,]+)(?:\.(\d+))?(.*)", re.DOTALL)
_TRUE_ANYWAY = frozenset(("machine.no_decoiler",))
"""Stops whose words may be true of a job in which they are nothing to put right."""
_NEVER = frozenset((Kind.TEMPERATURE, Kind.MONEY_PER_MASS))


@dataclass(frozen=True, slots=True)
class Planted:
    """A mistake. answer: which answer it is made in; was, says: what stood there, and what stands
    there with the mistake; finding: the stop that follows."""

    answer: Answer
    was: str
    says: str
    finding: Finding


def mistakes_in(
    base: Plan, mix: str, subjects: Collection[str] = MISTAKEN_IN, *, hidden: bool = True
) -> Iterator[Planted]:
    """Mistakes that could be made in a job, each by itself, no two with the same stop.

    mix: a text by which they are shuffled; the same one gives the same mistakes. hidden: only
    those that nothing but the stop shows, neither an answer that is asked then nor a figure that
    is missing: they can be put in.
    """
    job, seen = base.job, {finding.key for finding in base.findings}
    answers = [one for one in asked(job) if one.step in subjects and one.form in _MADE
               and one.kind not in _NEVER and one.value(job) is not None]
    for answer in sorted(answers, key=lambda one: digest(f"{mix}/{one.key}")):
        for says in _other_texts(answer, job):
            made = _made(base, answer, says, hidden)
            if made is not None and made.key not in seen and _is_told(answer, says, made):
                seen.add(made.key)
                yield Planted(answer, answer.shown(answer.value(job), job.units), says, made)
                break


_MADE = (Form.QUANTITY, Form.COUNT, Form.CHOICE)


def _made(base: Plan, answer: Answer, says: str, hidden: bool) -> Finding | None:
    """The one stop that a mistake makes; None where it makes none, or more than one."""
    try:
        job = put_place(base.job, answer.key, says)
    except ValueError:
        return None
    made = plan(job)
    if hidden and _shows(made, base):
        return None
    stops = _new_stops(made, base)
    if len(stops) != 1 or stops[0].accept or not _is_plainly_wrong(base, answer, job, stops[0]):
        return None
    return stops[0]


def _is_plainly_wrong(base: Plan, answer: Answer, job: Job, stop: Finding) -> bool:
    """Whether it still stops the order a little nearer to what stood there.

    Else it may be wrong by the last digit alone, where nobody who reads the papers can see it:
    0.813 mm is not less than 0.813 mm.
    """
    was, says = answer.value(base.job), answer.value(job)
    if answer.form is not Form.QUANTITY:
        return True
    assert isinstance(was, int | float)
    assert isinstance(says, int | float)
    near = give(job, answer.key, says + (was - says) * _PLAINLY)
    return any(finding.key == stop.key for finding in plan(near).stops)


def _shows(made: Plan, base: Plan) -> bool:
    """Whether something beside the stop shows it: an answer that is asked now, a figure that is
    not there."""
    return (set(made.open_answers) != set(base.open_answers)
            or set(made.lacks) != set(base.lacks))


def _is_told(answer: Answer, says: str, made: Finding) -> bool:
    """Whether the stop names the mistaken number: then it can be held to the paper it is on."""
    if made.key in _TRUE_ANYWAY:
        return False
    if says == "0":
        return " no " in made.what
    return answer.form is Form.CHOICE or re.search(
        rf"(?<![\d,./]){re.escape(says)}(?!\d|,\d|/)", made.what) is not None


def _new_stops(made: Plan, base: Plan) -> list[Finding]:
    there = {finding.key for finding in base.stops}
    return [finding for finding in made.stops if finding.key not in there]


def plant(
    base: Plan, count: int, mix: str, subjects: Collection[str] = MISTAKEN_IN
) -> tuple[Job, tuple[Planted, ...]]:
    """A job with so many mistakes put in, and which; fewer where no more can be made.

    The subjects take turns. What the mistakes make together is exactly what each makes by itself.
    """
    job, put = base.job, list[Planted]()
    for one in _in_turn([mistakes_in(base, mix, (step,)) for step in subjects]):
        if any(one.finding.key == other.finding.key for other in put):
            continue
        trial = put_place(job, one.answer.key, one.says)
        made = plan(trial)
        stops = {finding.key for finding in _new_stops(made, base)}
        wanted = {one.finding.key, *(other.finding.key for other in put)}
        if stops == wanted and not _shows(made, base):
            job = trial
            put.append(one)
        if len(put) == count:
            break
    return job, tuple(put)


def _in_turn(subjects: list[Iterator[Planted]]) -> Iterator[Planted]:
    """Of each subject one, then of each the next; none is looked for before it is wanted."""
    waiting = deque(subjects)
    while waiting:
        found = next(waiting[0], None)
        if found is None:
            waiting.popleft()
        else:
            yield found
            waiting.rotate(-1)


def read_mistakes(text: str, none: bool = False) -> int:
    """How many mistakes are to be put in, as typed. none: whether 0 will do.

    Raises ValueError with a sentence.
    """
    least, words = (0 if none else 1), text.strip()
    if not (words.isdecimal() and len(words) < 4 and least <= int(words) <= MOST_MISTAKES):
        raise ValueError(f"“{words[:40]}” is no number of mistakes; give {least} to "
                         f"{MOST_MISTAKES}")
    return int(words)


def read_subjects(text: str) -> tuple[str, ...]:
    """The steps in which mistakes are made, as typed, parted by commas; all where nothing was.

    Raises ValueError with a sentence.
    """
    found = tuple(dict.fromkeys(
        part.strip().casefold() for part in text.split(",") if part.strip()))
    for one in found:
        if one not in MISTAKEN_IN:
            raise ValueError(
                f"“{one[:40]}” is no such step; there are: {', '.join(MISTAKEN_IN)}")
    return found or MISTAKEN_IN


# -- what an answer might say instead ------------------------------------------------------


def _other_texts(answer: Answer, job: Job) -> Iterator[str]:
    """What somebody might have written instead, nearest first, as finely as what stands there."""
    value = answer.value(job)
    shown = answer.shown(value, job.units)
    if answer.form is Form.CHOICE:
        yield from (one.value for one in answer.choices if one != value)
        return
    assert isinstance(value, int | float)
    made: list[str] = []
    if answer.form is Form.COUNT:
        by = 1 if value < 10 else 2
        made = [str(round(value + step)) for step in (-by, by, -2 * by, 2 * by)]
    elif answer.kind is Kind.THICKNESS:
        made = [_as_shown(answer, near, job) for near in _near(float(value))]
    elif (number := _NUMBER.fullmatch(shown)) and _is_plain(number[3]):
        made = [_scaled(number, factor) for factor in _FACTORS]
    elif answer.kind in (Kind.WIDTH, Kind.LENGTH):
        step = next((one for one in _STEPS if _fits(float(value), one)), _STEPS[-1])
        made = [_as_shown(answer, round(value * factor / step) * step, job)
                for factor in _FACTORS]
    for text in dict.fromkeys(made):
        if text != shown and _is_readable(answer, text, job):
            yield text


def _is_readable(answer: Answer, text: str, job: Job) -> bool:
    try:
        return answer.shown(answer.read(text, job.units), job.units) == text
    except UnreadableAnswer:
        return False


def _as_shown(answer: Answer, value: float, job: Job) -> str:
    return answer.shown(value, job.units)


def _is_plain(unit: str) -> bool:
    """Whether after a number only a unit comes: `26 in`, not `4 1/2 in` or `8 ft 6 in`."""
    return not any(sign.isdigit() for sign in unit.removeprefix(":12")) and "/" not in (
        unit.replace("ft/min", ""))


def _scaled(number: re.Match[str], factor: float) -> str:
    """A number so many times as large, with as many decimals or zeros at its end."""
    whole, decimals, unit = number[1].replace(",", ""), number[2] or "", number[3]
    value = float(f"{whole}.{decimals or 0}")
    step = 10.0 ** -len(decimals) if decimals else _last_place(int(whole))
    return f"{round(value * factor / step) * step:,.{len(decimals)}f}{unit}"


def _last_place(value: int) -> float:
    """How finely a whole number is given: to hundreds, tens or ones, never too coarsely to move."""
    step = 1000
    while step > 1 and (value % step or step * 4 > value):
        step //= 10
    return float(step)


def _fits(value: float, step: float) -> bool:
    return step * 4 <= value and abs(value / step - round(value / step)) < 1e-6


def _near(value: float) -> list[float]:
    """Thicknesses that are sold, nearest first [in]."""
    sold = {row.galvanized_least for gauge, row in GAUGES.items() if gauge % 2 == 0} | _SOLD_BARE
    others = [one for one in sold if abs(one - value) > 0.002]
    return sorted(others, key=lambda one: abs(one - value))[:6]


_SOLD_BARE = {0.024, 0.027, 0.032, 0.040, 0.050}
"""Usual thicknesses of aluminum [in]. Common practice, no source."""
