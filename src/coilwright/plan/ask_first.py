"""What to find out first: the open and guessed answers, by how far they move the order."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterator
from dataclasses import dataclass

from coilwright.job.answers import ANSWERS, Answer, Form, UnreadableAnswer, Value
from coilwright.job.answers.metal import MetalKey
from coilwright.job.edit import give, usual_in, usual_range, words_in
from coilwright.job.job import Job
from coilwright.job.names import not_taken
from coilwright.plan.ledger import Lack
from coilwright.plan.plan import plan
from coilwright.plan.result import Plan
from coilwright.units import Kind, System, show
from coilwright.values.finding import Finding
from coilwright.values.keys import Key
from coilwright.values.standing import Standing
from coilwright.words import words
from coilwright.words.counting import listed
from coilwright.words.sentences import first_sentence

_EITHER_WAY = 0.1
"""Where no usual range is known, this share either way shows what a mistake would move."""
_STIR = 1e-6
_NAMED = 2
"""Waiting figures that are named; of more, their number is given."""
_TELLING: dict[str, int] = {
    key: place
    for place, key in enumerate((
        Key.ROOF_AREA, Key.PANELS_COUNT, Key.STRIP_WIDTH, Key.METAL_SHEET_MASS, Key.COIL_LONGEST,
        Key.COIL_MASS_ORDERED,
    ))
}
"""Figures that say most by their names come first."""


@dataclass(frozen=True, slots=True)
class Effect:
    """What one unknown does to the order over its usual range.

    tried: the range in words. words: what moves, both ends. stops: findings to stop for that
    come, or go with every coil on hand still used. mass: how far the ordered weight moves
    [lb], before it is rounded; None where it cannot be computed. now: the answer as it stands.
    ends: least and greatest ordered weight, as an order says them [lb]. stop: which value would
    stop the order and why, or which stop it can clear, and for how much more metal. would_stop: it
    is the first of the two. blocks: nothing can be ordered without it. final: metal that has come
    cannot be made otherwise. unread: that what is typed there cannot be read.
    """

    key: str
    label: str
    standing: Standing
    who: str
    tried: str
    words: str
    stops: int
    mass: float | None
    now: str = ""
    ends: tuple[float, float] | None = None
    stop: str = ""
    would_stop: bool = False
    blocks: bool = False
    final: bool = False
    unread: str = ""


_FINAL = {MetalKey.METAL, MetalKey.COATING, MetalKey.FINISH, MetalKey.COLOR, MetalKey.PAINTED_SIDE}
"""Answers that nobody can change once the coil has come, while a length can be made up."""


def ask_first(
    job: Job, base: Plan | None = None, canceled: Callable[[], bool] | None = None
) -> tuple[Effect, ...]:
    """The unknowns in the order worth asking.

    First what nothing can be ordered without, by how many figures wait for it; then stops, then
    weight moved; of equal ones first what cannot be changed once the coil has come. One
    answer at a time is put through its usual range; all others stay as they are. base: the
    job's own plan where the caller has it. canceled: asked before each answer; once true
    the list is given up, and is empty.
    """
    base = base or plan(job)
    if base.concealed:
        return ()
    keys = [k for k in (*base.open_answers, *base.guesses) if k in ANSWERS]
    effects = []
    for key in dict.fromkeys(keys):
        if canceled is not None and canceled():
            return ()
        effects.append(_effect(job, base, ANSWERS[key]))
    waiting = Counter(key for lack in base.lacks.values() for key in lack.needs)

    def weight(effect: Effect) -> tuple[bool, int, int, float, bool, int, bool]:
        is_open, waits = effect.standing is Standing.ASK, waiting[effect.key]
        return (not effect.blocks, -waits if effect.blocks else 0, -effect.stops,
                -(effect.mass or 0.0), not effect.final, -waits, not is_open)

    return tuple(sorted(effects, key=weight))


def _effect(job: Job, base: Plan, answer: Answer) -> Effect:
    own = answer.value(job)
    # The value it has gives the plan there is: confirming it moves nothing.
    plans = [
        (value, base if value == own else plan(give(job, answer.key, value)))
        for value in _range(job, answer)
    ]
    stops = len({f.key for _, p in plans for f in (*_come(base, p), *_cleared(base, p))})
    weights = [m for _, p in plans if (m := p.figures.get(Key.COIL_MASS_ORDERED))]
    exact, read = [m.value for m in weights], [m.as_read(job.units) for m in weights]
    moved = max(exact) - min(exact) if len(exact) > 1 else None
    said = _words(job, base, answer, plans, moved)
    would_stop = any(_come(base, p) for _, p in plans)
    return Effect(
        answer.key, answer.label, answer.standing(job), words(answer.key).who,
        _tried(job, answer), said, stops, moved,
        now="" if own is None else answer.shown(own, job.units),
        ends=(min(read), max(read)) if len(read) > 1 else None,
        stop=_stop(job, base, answer, plans), would_stop=would_stop,
        blocks=own is None and _is_blocking(base, answer), final=answer.key in _FINAL,
        unread=_unread(job, answer),
    )


def _is_blocking(base: Plan, answer: Answer) -> bool:
    """Whether figures wait for it that the order waits for: not those of an optional answer."""
    if answer.needed:
        return any(answer.key in lack.needs for lack in base.lacks.values())
    ordered = base.lacks.get(Key.COIL_MASS_ORDERED)
    return ordered is not None and answer.key in ordered.needs


def _unread(job: Job, answer: Answer) -> str:
    """Why what is typed there is not taken; empty where it is, or nothing is."""
    why = not_taken(job, answer.key)
    return f"{why}: type it again" if why else ""


def _come(base: Plan, tried: Plan) -> list[Finding]:
    """The stops that a value brings."""
    now = {f.key for f in base.stops}
    return [f for f in tried.stops if f.key not in now]


def _cleared(base: Plan, tried: Plan) -> list[Finding]:
    """The stops that a value clears.

    None where a coil on hand that is used is left unused with it: what is said of that coil goes
    too, but metal that is there is no stop, and to buy it anew is no cure. None either where
    nothing can be ordered with it, as by a shape that lacks a measure: of no coil there is
    nothing to stop.
    """
    if Key.COIL_MASS_ORDERED in base.figures and Key.COIL_MASS_ORDERED not in tried.figures:
        return []
    if not {c.key for c in base.from_stock} <= {c.key for c in tried.from_stock}:
        return []
    there = {f.key for f in tried.stops}
    return [f for f in base.stops if f.key not in there]


def _stop(job: Job, base: Plan, answer: Answer, plans: list[tuple[Value, Plan]]) -> str:
    """The first value that would stop the order, with why; else the stop that a value clears."""
    for value, tried in plans:
        for finding in _come(base, tried):
            return f"would stop at {_as_read(answer, value, job.units)}: {finding.what}"
    for value, tried in plans:
        for finding in _cleared(base, tried):
            dearer = _dearer(base, tried, job.units)
            said = _as_read(answer, value, job.units)
            return f"{said} clears a stop{dearer}: {finding.what}"
    return ""


def _as_read(answer: Answer, value: Value, system: System) -> str:
    """A value that is tried, as it is read beside its answer: a tenth more of 12 ft is no text that
    anybody typed, so that in full it would come in inches."""
    if isinstance(value, float) and _without_range(answer) and answer.kind is not None:
        return show(value, answer.kind, system)
    return answer.shown(value, system)


def _dearer(base: Plan, tried: Plan, system: System) -> str:
    """How much more metal is bought with a value, in words; empty where it is not more."""
    was, new = (p.figures.get(Key.COIL_MASS_ORDERED) for p in (base, tried))
    more = (new.as_read(system) - was.as_read(system)
            if was is not None and new is not None else 0.0)
    if was is None or more <= _STIR * was.value:
        return ""
    return f", for {show(more, Kind.MASS, system)} more to buy"


def _range(job: Job, answer: Answer) -> Iterator[Value]:
    """The usual range: both ends and the usual value, or the other usual picks."""
    said = words_in(job, answer.key)
    seen: set[object] = set()
    texts = said.usual_texts(job.units)
    own = answer.value(job)
    values: list[Value] = [] if own is None else [own]
    for text in texts:
        try:
            values.append(answer.read(text))
        except UnreadableAnswer:
            continue
    if answer.form is Form.CHOICE and not texts:
        values.extend(answer.picks(job))
    if _without_range(answer) and isinstance(own, float):
        values.extend(own * share for share in (1 - _EITHER_WAY, 1 + _EITHER_WAY))
    for value in values:
        if value not in seen:
            seen.add(value)
            yield value


def _without_range(answer: Answer) -> bool:
    """Whether the words give a quantity no range, so that a tenth either way stands in."""
    said = words(answer.key)
    return answer.form is Form.QUANTITY and not (said.low and said.high)


def _tried(job: Job, answer: Answer) -> str:
    said = words_in(job, answer.key)
    own = answer.value(job)
    here = answer.shown(own, job.units) if own is not None else ""
    usual = ("" if said.usual is None
             else answer.shown(usual_in(job, answer.key), job.units))
    if (ends := usual_range(answer.key, job.units)) is not None:
        span = f"usual {_between(*ends)}"
    elif said.others:
        picks = dict.fromkeys(p for p in (usual, *said.others) if p and p != here)
        span = f"{'or' if here else 'usual'} {', '.join(picks)}"
    elif usual and usual != here:
        span = f"usual {usual}"
    else:
        span = "which is usual" if usual else ""
    if here and _without_range(answer):
        span = f"{span}, tried a tenth either way" if span else "a tenth either way"
    return ", ".join(part for part in (f"guess {here}" if here else "", span) if part)


def _words(
    job: Job,
    base: Plan,
    answer: Answer,
    plans: list[tuple[Value, Plan]],
    moved: float | None,
) -> str:
    if unread := _unread(job, answer):
        return unread
    system, standing = job.units, answer.standing(job)
    parts = []
    for key, name, kind in (
        (Key.STRIP_WIDTH, "strip", Kind.WIDTH),
        (Key.COIL_MASS_ORDERED, "order", Kind.MASS),
        (Key.COIL_COUNT, "coils", Kind.COUNT),
    ):
        span = _span(plans, key, system)
        # A stir too small to be read says nothing.
        if span is not None and show(span[0], kind, system) != show(span[1], kind, system):
            parts.append(f"{name} {_ends(span, kind, system)}")
    for value, tried in plans:
        if come := _come(base, tried):
            parts.append(f"would stop at {_as_read(answer, value, system)}: {come[0].what}")
            break
    if gone := [f for _, p in plans for f in _cleared(base, p)]:
        parts.append(f"can clear a stop: {gone[0].what}")
    if parts:
        return "; ".join(part.rstrip(".") for part in parts)
    why = _first_sentence(words(answer.key).why)
    if waiting := [lack for lack in base.lacks.values() if answer.key in lack.needs]:
        return f"nothing can be ordered without it: {_waiting(waiting)}"
    if len(plans) > 1 and not (moved is None and answer.moves):
        same = "does not change the amount"
        if standing is Standing.GUESS:
            over = "to speak of" if _without_range(answer) else "over its usual range"
            return f"{same} {over}. {why}"
        return f"{same}, but nothing can be ordered without it. {why}"
    if standing is Standing.GUESS:
        return f"no usual range to try. {why}" if len(plans) < 2 else why
    return f"nothing can be ordered without it. {why}"


def _first_sentence(text: str) -> str:
    """The first sentence, without its full stop: it ends a line of the list."""
    return first_sentence(text).strip().rstrip(".")


def _waiting(lacks: list[Lack]) -> str:
    """What waits, by name where it is little, else the first by name and how many more."""
    lacks = sorted(lacks, key=lambda lack: _TELLING.get(lack.key, len(_TELLING)))
    named = [lack.label[:1].lower() + lack.label[1:] for lack in lacks]
    return f"{listed(named, _NAMED)} {'waits' if len(named) == 1 else 'wait'} for it"


def _span(
    plans: list[tuple[Value, Plan]], key: str, system: System
) -> tuple[float, float] | None:
    values = [f.as_read(system) for _, p in plans if (f := p.figures.get(key))]
    if len(values) < 2 or max(values) - min(values) <= _STIR * max(values):
        return None
    return min(values), max(values)


def _ends(span: tuple[float, float], kind: Kind, system: System) -> str:
    low, high = (show(value, kind, system) for value in span)
    return _between(low, high)


def _between(low: str, high: str) -> str:
    """Two values as a range, the unit said once where both have the same."""
    number, _, unit = low.rpartition(" ")
    if number and high.endswith(f" {unit}") and " " not in number:
        return f"{number} to {high}"
    return f"{low} to {high}"
