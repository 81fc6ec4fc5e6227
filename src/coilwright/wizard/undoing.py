"""What is said after undo and redo, the same on every screen."""

from __future__ import annotations

from textual.widget import Widget

from coilwright.wizard.literal import tame


def say_undone(screen: Widget, label: str | None) -> bool:
    """Say what was taken back, or that there was nothing; whether there was something."""
    return _say(screen, "Undid", "undo", label)


def say_redone(screen: Widget, label: str | None) -> bool:
    """Say what was made again, or that there was nothing; whether there was something."""
    return _say(screen, "Redid", "redo", label)


def _say(screen: Widget, done: str, verb: str, label: str | None) -> bool:
    if label is None:
        screen.notify(f"Nothing to {verb}.", markup=False)
        return False
    screen.notify(f"{done}: {tame(label)}", markup=False)
    return True
