"""What an action on a list has to say, as a notice."""

from __future__ import annotations

from typing import Any

from textual.screen import Screen

from coilwright.wizard.lists.form import Outcome


def say(screen: Screen[Any], outcome: Outcome) -> None:
    """Say what an outcome has to say."""
    if outcome.failed:
        screen.notify(outcome.failed, title="Not saved", severity="error", timeout=12,
                      markup=False)
    elif outcome.say:
        screen.notify(outcome.say, markup=False)
