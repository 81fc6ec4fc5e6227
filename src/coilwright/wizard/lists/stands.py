"""How the rows of a job stand: the keys that turn one sure or a guess, in its list and in its form.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from coilwright.values.standing import Standing
from coilwright.wizard.lists.form import Action
from coilwright.wizard.lists.job_rows import JobRows

ROW_STANDS = (
    Action(name="guess", keys="f3", label="A guess",
           tooltip="The marked row's measures are a guess"),
    Action(name="sure", keys="f4", label="Sure", tooltip="The marked row's measures are sure"),
)
"""In a list: of the marked row, by the keys that the screen around has for answers."""
FORM_STANDS = (
    Action(name="guess", keys="f3", label="It is a guess", tooltip="These measures are a guess"),
    Action(name="sure", keys="f4", label="Confirm", tooltip="These measures are sure"),
)
"""In the form of one row."""


def _turn_words(opened: JobRows, index: int) -> str:
    guess = opened.place.standing(opened.session.job, index) is Standing.GUESS
    return "Mark as sure" if guess else "Mark as a guess"


TURN: tuple[str, Callable[[Any, int], str]] = ("turn", _turn_words)
"""The button of that form."""
