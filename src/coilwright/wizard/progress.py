"""How far a job is: a mark for each step, and what a figure that is not there yet waits for.

No screens here.
"""

from __future__ import annotations

from enum import Enum
from typing import TYPE_CHECKING, assert_never

from coilwright.job.answers import ANSWERS, step_of
from coilwright.values.keys import Key
from coilwright.words.counting import listed

if TYPE_CHECKING:
    from coilwright.plan import Plan

_NAMED = 5
"""How many answers a sentence names."""


class Mark(Enum):
    """The state of a step: sign and word."""

    STOP = ("!", "stop")
    ASK = ("?", "ask")
    GUESS = ("~", "guess")
    DONE = ("✓", "done")
    NONE = ("-", "none")

    @property
    def sign(self) -> str:
        """One character."""
        return self.value[0]

    @property
    def word(self) -> str:
        """One word."""
        return self.value[1]


def step_mark(plan: Plan, step: str) -> Mark:
    """The mark of one step: the worst of what it still holds.

    It asks only for what the order waits for: no step of one that is READY asks anything.
    """
    everything = step == "summary"

    def here(key: str) -> bool:
        return everything or step_of(key) == step

    if any(everything or f.step == step for f in plan.stops):
        return Mark.STOP
    if any(here(key) for key in plan.open_answers):
        return Mark.ASK
    if step == "haul" and not plan.loads:
        # No load is worked out: that is not done, though the order does not wait for it.
        return Mark.NONE
    if _is_untouched(plan, step):
        return Mark.NONE
    if step == "roof" and Key.ROOF_AREA not in plan.figures:
        return Mark.ASK
    if any(here(key) for key in plan.guesses):
        return Mark.GUESS
    if step == "haul" and _not_known(plan):
        # Not done either; but what the order does not wait for asks nothing.
        return Mark.NONE
    if everything and not plan.ready:
        return Mark.ASK
    return Mark.DONE


def _is_untouched(plan: Plan, step: str) -> bool:
    """Whether a step that the order does not wait for has nothing on its list."""
    listed = {"trim": plan.job.trim.pieces, "quotes": plan.job.quotes.received}
    return step in listed and not listed[step]


def left_on(plan: Plan, step: str) -> int:
    """How many stops a step has; without one, how much there is to settle on it.

    Open answers and guesses count where they are asked. On the summary all of them count, and the
    questions and the order head too: as many as the title says.
    """
    everything = step == "summary"
    if step_mark(plan, step) is Mark.STOP:
        return sum(1 for f in plan.stops if everything or f.step == step)
    return plan.readiness.to_settle if everything else _to_settle_on(plan, step)


def state_on(plan: Plan, step: str) -> str:
    """The state as the title line of a step says it.

    A step says what there is to settle on it, and the summary the sum: to somebody who has just
    begun, all that is open in ten steps says nothing of the one in hand.
    """
    here = None if step == "summary" else _to_settle_on(plan, step)
    if not plan.job.life.steps:
        # Nothing was sent, so no paper is held to another: sheets need not be loaded to begin.
        from coilwright.plan.life import state_words

        return state_words(plan.job, plan.readiness, here, otherwise=False, on_hold=0)
    from coilwright.sheets.state import state_at

    return state_at(plan, here)


def _to_settle_on(plan: Plan, step: str) -> int:
    return sum(step_of(key) == step for key in (*plan.open_answers, *plan.guesses))


def _not_known(plan: Plan) -> int:
    """How many loads or their ratings are not known."""
    return sum(1 for line in plan.loads if not line.known)


class Wait(Enum):
    """Why a figure waits for an answer, by the word that stands before the answer's name."""

    UNREADABLE = "cannot read"
    MISSING = "needs"
    WRONG = "check"
    """It is given and readable, and cannot be so: with the others it makes nothing."""


def waiting_for(plan: Plan, keys: tuple[str, ...]) -> tuple[Wait, tuple[str, ...]]:
    """Why, and those of the answers that it is so with: what cannot be read first."""
    job = plan.job
    unread = tuple(key for key in keys
                   if any(f"{typed}.".startswith(f"{key}.") for typed in job.typed))
    if unread:
        return Wait.UNREADABLE, unread
    absent = tuple(key for key in keys if key not in ANSWERS or ANSWERS[key].value(job) is None)
    if absent:
        return Wait.MISSING, absent
    # In the order they are asked: what was answered last is the likeliest to be the wrong one.
    return Wait.WRONG, keys[::-1]


def find_lack(plan: Plan, key: str) -> tuple[tuple[str, ...], str]:
    """The keys of the answers a figure waits for, or else the reason it is not there.

    A figure of one coil waits for what the whole order waits for. Where the plan gives no
    reason, it is an answer itself that is named, or those of its own step that are
    still open: never those of another step, on which it need not wait.
    """
    lack = plan.lacks.get(key)
    if lack is None and key.startswith(("coil.", "on_hand.")):
        lack = plan.lacks.get(Key.COIL_LENGTH_ORDERED)
    if lack is not None and lack.needs:
        return lack.needs, lack.because
    if lack is not None and lack.because:
        return (), lack.because
    step = key.partition(".")[0]
    if step == "haul":
        # Nothing about hauling is asked before an order, so no open answer is what it waits for.
        return (), "nothing to haul yet" if not plan.loads else ""
    if _is_wanted(plan, key):
        return (key,), ""
    return tuple(k for k in plan.open_answers if step_of(k) == step), ""


def _is_wanted(plan: Plan, key: str) -> bool:
    """Whether a key is that of an answer which is asked and not given."""
    answer = ANSWERS.get(key)
    return answer is not None and answer.asked(plan.job) and answer.value(plan.job) is None


def _is_kept_back(plan: Plan, key: str) -> bool:
    """Whether a figure is not there because it is what somebody who practices is to find."""
    if not plan.concealed:
        return False
    from coilwright.plan.conceal import is_hidden

    return is_hidden(key)


def waits_for(plan: Plan, key: str) -> str:
    """The same in a few words: `needs Take-up`, `cannot read Plan length`, `check Wing width`."""
    if _is_kept_back(plan, key):
        return "kept back"
    keys, because = find_lack(plan, key)
    if keys:
        why, keys = waiting_for(plan, keys)
        return f"{why.value} {names_of(keys)[0]}"
    return because or "not for this job"


def lack_sentence(plan: Plan, key: str, label: str) -> str:
    """The same in one sentence, with all the answers named that fit."""
    if _is_kept_back(plan, key):
        return f"{label} is kept back until the practice is handed in."
    keys, because = find_lack(plan, key)
    if keys:
        why, keys = waiting_for(plan, keys)
        also = f" ({because})" if because else ""
        said = listed(names_of(keys), _NAMED)
        match why:
            case Wait.UNREADABLE:
                return f"{label} waits for what cannot be read: {said}.{also}"
            case Wait.MISSING:
                return f"{label} still needs: {said}.{also}"
            case Wait.WRONG:
                return f"{label} cannot be worked out; check: {said}.{also}"
            case _:
                assert_never(why)
    if because:
        return f"{label} cannot be worked out: {because}."
    return f"{label}: this job has none."


def names_of(keys: tuple[str, ...]) -> tuple[str, ...]:
    """Answers by their labels, planes as planes, each once; one with a comma in quotes, so that
    `Tolerance, under` reads as one."""
    labels = (ANSWERS[key].label if key in ANSWERS else "the planes' measures" for key in keys)
    return tuple(dict.fromkeys(f"“{label}”" if "," in label else label for label in labels))
