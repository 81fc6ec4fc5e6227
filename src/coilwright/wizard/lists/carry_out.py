"""What came of an action on a list: it is said, and what it opens is opened."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from textual.screen import Screen

from coilwright.wizard.lists.form import Opened, Outcome
from coilwright.wizard.lists.say_outcome import say


def carry_out(
    screen: Screen[Any], rows: Opened, outcome: Outcome, changed: Callable[[], None],
    writes: Callable[[], None] | None = None, *, then: Callable[[Outcome], None],
) -> None:
    """On a screen with a list: show what an action came to, say it, open what it opens.

    changed: shows the rows anew. writes: has a change written while a row's form is open. then:
    takes what came of a screen that was closed.
    """
    if outcome.changed:
        changed()
    say(screen, outcome)

    def closed(result: object) -> None:
        then(rows.closed(outcome.screen, result))

    if outcome.screen:
        screen.app.push_screen(rows.screens[outcome.screen](rows, outcome.subject), closed)
    elif outcome.entry is not None:
        from coilwright.wizard.lists.entry import entry_screen  # costs start-up

        entry = rows.entry(outcome.entry)
        at = entry.view.opens_at(rows, outcome.entry)
        screen.app.push_screen(entry_screen(entry, rows, writes, at), closed)
