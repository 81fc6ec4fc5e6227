"""What to find out first: the open and guessed answers, by how far they move the order."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass

from coilwright.answers import ANSWERS, Answer, Form, UnreadableAnswer, Value
from coilwright.edit import give
from coilwright.figures import Standing
from coilwright.guidance import words
from coilwright.job import Job
from coilwright.plan import Plan, plan
from coilwright.units import Kind, System, show

_STIR = 1e-6


@dataclass(frozen=True, slots=True)
class Effect:
    """What one unknown does to the order over its usual range.

    tried: the range in words. words: what moves, both ends. stops: findings to stop for that
    come or go. mass: how far the ordered weight moves [lb]; None where it cannot be computed.
    """

    key: str
    label: str
    standing: Standing
    who: str
    tried: str
    words: str
    stops: int
    mass: float | None


def ask_first(job: Job, base: Plan | None = None) -> tuple[Effect, ...]:
    """The unknowns in the order worth asking: stops first, then weight moved, then the rest.

    While the weight cannot be worked out, what the most figures wait for comes first. One
    answer at a time is put through its usual range; all others stay as they are. base: the
    job's own plan where the caller has it.
    """
    base = base or plan(job)
    keys = [k for k in (*base.open_answers, *base.guesses) if k in ANSWERS]
    effects = [_effect(job, base, ANSWERS[key]) for key in dict.fromkeys(keys)]
    waiting = Counter(key for lack in base.lacks.values() for key in lack.needs)

    def weight(effect: Effect) -> tuple[int, float, int, bool]:
        is_open = effect.standing is Standing.ASK
        return -effect.stops, -(effect.mass or 0.0), -waiting[effect.key], not is_open

    return tuple(sorted(effects, key=weight))


def _effect(job: Job, base: Plan, answer: Answer) -> Effect:
    plans = [(value, plan(give(job, answer.key, value))) for value in _range(job, answer)]
    told = base.stops
    now = {f.key for f in told}
    stops = len({key for _, p in plans for key in {f.key for f in p.stops} ^ now})
    masses = [m.value for _, p in plans if (m := p.figures.get("coil.mass_ordered"))]
    moved = max(masses) - min(masses) if len(masses) > 1 else None
    return Effect(
        answer.key, answer.label, answer.standing(job), words(answer.key).who,
        _tried(job, answer), _words(job, base, answer, plans, now, moved),
        stops, moved,
    )


def _range(job: Job, answer: Answer) -> Iterator[Value]:
    """The usual range: both ends and the usual value, or the other usual picks."""
    said = words(answer.key)
    seen: set[object] = set()
    texts = [t for t in (said.low, said.usual, said.high, *said.others) if t is not None]
    own = answer.value(job)
    values: list[Value] = [] if own is None else [own]
    for text in texts:
        try:
            values.append(answer.read(text))
        except UnreadableAnswer:
            continue
    if answer.form is Form.CHOICE and not texts:
        values.extend(answer.choices)
    for value in values:
        if value not in seen:
            seen.add(value)
            yield value


def _tried(job: Job, answer: Answer) -> str:
    said = words(answer.key)
    own = answer.value(job)
    here = f"guess {answer.text(own, job.units)}" if own is not None else ""
    if said.low and said.high:
        low, high = (
            answer.text(answer.read(text), job.units) for text in (said.low, said.high)
        )
        usual = f"usual {low} to {high}"
    elif said.others:
        usual = f"usual {', '.join((*((said.usual,) if said.usual else ()), *said.others))}"
    elif said.usual:
        usual = f"usual {answer.text(answer.read(said.usual), job.units)}"
    else:
        usual = ""
    return ", ".join(part for part in (here, usual) if part)


def _words(
    job: Job,
    base: Plan,
    answer: Answer,
    plans: list[tuple[Value, Plan]],
    now: set[str],
    moved: float | None,
) -> str:
    system, standing = job.units, answer.standing(job)
    parts = []
    for key, name, kind in (
        ("strip.width", "strip", Kind.WIDTH),
        ("coil.mass_ordered", "order", Kind.MASS),
        ("coil.count", "coils", Kind.COUNT),
    ):
        span = _span(plans, key)
        if span is not None:
            parts.append(f"{name} {_ends(span, kind, system)}")
    come = {f.key: f.what for _, p in plans for f in p.stops if f.key not in now}
    gone = [
        f.what for f in base.stops if any(f.key not in {s.key for s in p.stops} for _, p in plans)
    ]
    if come:
        parts.append(f"can stop the order: {next(iter(come.values()))}")
    if gone:
        parts.append(f"can clear a stop: {gone[0]}")
    if parts:
        return "; ".join(parts)
    waiting = [lack for lack in base.lacks.values() if answer.key in lack.needs]
    if waiting:
        figures = "figure waits" if len(waiting) == 1 else "figures wait"
        return f"{len(waiting)} {figures} for it; nothing can be ordered without it"
    if len(plans) < 2 and standing is Standing.GUESS:
        return "no usual range to try; confirm it before ordering"
    if len(plans) < 2:
        return "nothing can be ordered without it"
    if moved is None and answer.moves:
        return "the order cannot be worked out for the whole range until more is answered"
    return "does not change the amount, but nothing can be ordered without it"


def _span(plans: list[tuple[Value, Plan]], key: str) -> tuple[float, float] | None:
    values = [f.value for _, p in plans if (f := p.figures.get(key))]
    if len(values) < 2 or max(values) - min(values) <= _STIR * max(values):
        return None
    return min(values), max(values)


def _ends(span: tuple[float, float], kind: Kind, system: System) -> str:
    low, high = (show(value, kind, system) for value in span)
    number, _, unit = low.rpartition(" ")
    if number and high.endswith(f" {unit}") and " " not in number:
        return f"{number} to {high}"
    return f"{low} to {high}"
