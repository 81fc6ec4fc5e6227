"""How good the cut plan is, and the longer search for less metal."""

from __future__ import annotations

from textual.app import ComposeResult
from textual.widgets import Static

from coilwright.sheets.proof_words import is_proven, proof_line
from coilwright.wizard.lists.coils_on_hand import saved_line
from coilwright.wizard.literal import plain
from coilwright.wizard.session import Session
from coilwright.wizard.step_view import Block
from coilwright.wizard.widgets.act import Act, Bar


class SearchBlock(Block):
    """What is proven, what coils on hand save, and a button to search longer."""

    DEFAULT_CSS = """
    SearchBlock { margin-top: 1; }
    SearchBlock > Static { height: auto; }
    """

    def __init__(self) -> None:
        super().__init__()
        self._search = Act("Search longer for less metal", id="search-metal",
                           action="screen.search_metal")
        self._proof = Static("", markup=False)
        self._saved = Static("", markup=False)

    def compose(self) -> ComposeResult:
        """Button, what is proven, what is saved."""
        yield Bar(self._search)
        yield self._proof
        yield self._saved

    def show(self, session: Session) -> None:
        """Show what is proven of the plan."""
        plan = session.plan
        self._search.display = plan.proof is not None and not is_proven(plan)
        self._search.say("Search longer for less metal")
        self.say(proof_line(plan))
        saved = saved_line(plan)
        self._saved.display = bool(saved)
        self._saved.update(plain(f" {saved}"))

    def searching(self, words: str) -> None:
        """Show how far a search is; the button now stops it."""
        self._search.display = True
        self._search.say("Stop the search")
        self.say(words)

    def say(self, words: str) -> None:
        """Say something about the cut plan."""
        self._proof.display = bool(words)
        self._proof.update(plain(f" {words}"))
