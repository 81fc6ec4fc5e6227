"""Undo and redo, wherever the key is: of what was changed elsewhere it is said first what it is.

No screens here.
"""

from __future__ import annotations

import dataclasses
from dataclasses import dataclass

from coilwright.job.answers import step_of
from coilwright.job.job import Job
from coilwright.job.steps import STEPS
from coilwright.wizard.changes import Change, stepped
from coilwright.wizard.literal import escape_controls
from coilwright.wizard.session import Session

LIFE = "life"
QUESTION = "question"
_TITLES = {step.key: step.title for step in STEPS} | {
    "arrival": "Receiving", "request": "Requests for a quote", "order-head": "Head of the order",
    LIFE: "Life of the order", QUESTION: "Questions",
    "my-buyer": "Buyer and delivery", "my-machine": "My machines", "my-rig": "My rigs",
    "my-supplier": "My suppliers",
}
"""What is worked on, by its key: a step, or what opens over any of them, such as a list by the key
of its form. A list that stands on a step is part of that."""
_STANDS_AT = {
    "coils": ("coils", "on_hand", "on_hand_planes"), "summary": ("questions", "accepted"),
    "arrival": ("arrived",), "request": ("requests",), "order-head": ("order",),
    QUESTION: ("questions",),
}
"""What of a job stands there; on any other, its own part."""
_BY_ANSWER = ("standing", "typed")
_BEHIND = ("confirmed", "by_quote", "before_quote", "found_cuts")
"""What follows what was changed, and is shown with it."""


@dataclass(frozen=True, slots=True)
class Stepped:
    """What came of undo or redo: words for the user, and whether the job changed."""

    said: str
    done: bool


def go_into(session: Session | None, key: str) -> None:
    """Say that a list or a form has the keys now, where it is one over any step."""
    if session is not None and key in _TITLES:
        session.here = key


def step_back(session: Session, at: str = "") -> Stepped:
    """Take the last change back; one of elsewhere is named first, and the same again does it.

    at: where the key was pressed, if the session does not know it.
    """
    return _step(session, at or session.here, back=True)


def step_again(session: Session, at: str = "") -> Stepped:
    """Make the undone change again; one of elsewhere is named first, and the same again does it."""
    return _step(session, at or session.here, back=False)


def _step(session: Session, at: str, *, back: bool) -> Stepped:
    put = session.changes.put_last if back else ""
    change = session.changes.next(session.job, back=back)
    if put:
        if change is not None:
            # Named once, and with it what the same key takes back now.
            session.changes.note_put("")
            session.told = at, change.made_at
        return Stepped(_put_in_stock(put, change, at), False)
    if change is None:
        return Stepped(f"Nothing to {'undo' if back else 'redo'}.", False)
    made_at = change.made_at
    known = made_at == at or _stands_at(session.job, stepped(session.job, change.before), at)
    if not known and session.told != (at, made_at):
        # Once it was told of one place, all that was done there can be gone back through.
        session.told = at, made_at
        return Stepped(not_here(change.label, _TITLES.get(made_at, ""), back=back), False)
    label = session.undo() if back else session.redo()
    return Stepped(f"{'Undid' if back else 'Redid'}: {escape_controls(label or '')}", True)


def _put_in_stock(put: str, change: Change | None, at: str) -> str:
    """That what was done last went to stock, where that is taken back, and what was changed before
    it."""
    # No key is named in it: where it is read, that key takes back something else.
    there = f"{escape_controls(put)}; After the run, or Coils on hand, takes it back"
    if change is None:
        return f"Nothing to undo here. Last put in stock: {there}."
    where = _TITLES.get(change.made_at, "") if change.made_at != at else ""
    place = f" ({where})" if where else ""
    return (f"Last put in stock: {there}. The same key again undoes: "
            f"{escape_controls(change.label)}{place}.")


def not_here(label: str, where: str, *, back: bool) -> str:
    """That the step that comes next is of elsewhere, and how it is taken all the same.

    where: as what is worked on there is called; empty where that is not known.
    """
    what, does = ("changed", "takes it back") if back else ("taken back", "makes it again")
    place = f" ({where})" if where else ""
    return (f"Last {what}, and not here: {escape_controls(label)}{place}. The same key again "
            f"{does}.")


def _stands_at(one: Job, other: Job, at: str) -> bool:
    """Whether all in which two jobs differ stands on what is worked on."""
    mine = _STANDS_AT.get(at, (at,))
    for name in (field.name for field in dataclasses.fields(one)):
        a, b = getattr(one, name), getattr(other, name)
        if a is b or name in mine or name in _BEHIND or a == b:
            continue
        if name not in _BY_ANSWER or any(
                step_of(key) not in mine for key in {*a, *b} if a.get(key) != b.get(key)):
            return False
    return True
