"""The hints of a decision: those that were taken, and the way to the next."""

from __future__ import annotations

from textual.binding import Binding

from coilwright.job.attempt import Response
from coilwright.plan.practice.hints import hints_told, next_hint, take_hint
from coilwright.plan.practice.solve import Solution
from coilwright.wizard.screens.help import TextModal


class HintsScreen(TextModal[bool]):
    """Those that were taken, the newest first. Returns True where one more is asked for.

    before: what was taken when one more was asked for; the same as now where none was.
    """

    BINDINGS = [
        # Keys that count are told of; elsewhere a text to read is closed as it was opened.
        Binding("f1", "app.keys", "Help", show=False, tooltip="The keys that work here",
                id="hints.keys"),
        Binding("h", "more", "Next hint", tooltip="Take the next hint; it counts", id="hints.more"),
    ]

    def __init__(self, solution: Solution, response: Response, before: Response) -> None:
        told, known = hints_told(solution, response), hints_told(solution, before)
        parts = [(f"Hint {number}", hint) for number, hint in enumerate(told, 1)][::-1]
        nothing = response != before and len(told) == len(known)
        parts.insert(0, (
            "Nothing more is told, and the asking was counted" if nothing
            else "And now" if told else "No hint taken yet", next_hint(solution, response)))
        super().__init__(
            f"Hints: {response.hints} counted" if response.hints else "Hints", parts)
        self._more = take_hint(solution, response) != response
        if self._more:
            self.more_keys = "h next hint; "

    def action_more(self) -> None:
        """Take the next one, where there is one to be taken."""
        if self._more:
            self.dismiss(True)
