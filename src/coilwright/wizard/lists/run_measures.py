"""What After the run asks of a coil: what is left of it, and which of several it was."""

from __future__ import annotations

from enum import StrEnum

from coilwright.job.answers import Form
from coilwright.job.receiving import coil_name
from coilwright.plan.coils.run import RunCoil
from coilwright.plan.result import Plan
from coilwright.units import Kind
from coilwright.wizard.lists.measure import Asked, Measure
from coilwright.wizard.lists.run_words import on_paper, short_name
from coilwright.wizard.literal import escape_controls
from coilwright.wizard.widgets.columns import cells

_KEY, _WHICH = "left", "which"
"""What the keys of lengths, and of which coil was run, begin with."""
_ROOM = 24
"""Cells of a label beside its box."""


def asked_length(coil: RunCoil, plan: Plan) -> Asked:
    """What is left of a coil."""
    said = (f"{on_paper(coil, plan)} A new coil goes to stock only as measured."
            if coil.on_hand is None else
            f"On paper {coil.left.text(plan.job.units)} is left, no spare used. Empty: "
            "the least that can be.")
    measure: Measure[RunCoil] = Measure(
        name=coil.key, label=_label(coil), help=said, form=Form.QUANTITY,
        kind=Kind.LENGTH, bare=("ft", "m"), zero=True, high=240_000)
    return measure.typed(_KEY)


def _label(coil: RunCoil) -> str:
    """A coil beside its box: a new one by the tag that hangs on it too, where there is room."""
    number, came = coil.order_number, [one.arrival for one in coil.came]
    if number is not None and not coil.is_part and len(came) == 1 and came[0].is_tagged:
        tagged = f"coil {number}, tag {escape_controls(came[0].tag)}"
        if cells(tagged) <= _ROOM:
            return tagged
    return short_name(coil)


def asked_which(coil: RunCoil) -> Asked:
    """Which of the coils that came for one was run."""
    named = {f"COIL_{n}": escape_controls(coil_name(None, one.arrival))
             for n, one in enumerate(coil.came, 1)}
    for n, name in enumerate(named):
        if list(named.values()).count(named[name]) > 1:
            named[name] += f" ({n + 1})"
    kind = StrEnum("kind", named)  # type: ignore[misc]
    picks: tuple[StrEnum, ...] = tuple(kind.__members__.values())
    measure: Measure[RunCoil] = Measure(
        name=coil.key, label=f"Which coil {coil.order_number} was run",
        help="Several came for it: what is left goes back with the tag and lot of this one.",
        form=Form.CHOICE, choices=picks)
    return measure.typed(_WHICH)
