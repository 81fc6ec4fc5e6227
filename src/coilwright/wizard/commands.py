"""The command palette: every step, every answer, undo, machines, sheets."""

from __future__ import annotations

import re
from collections.abc import AsyncIterator, Callable, Iterator
from functools import partial
from typing import Any

from textual.command import DiscoveryHit, Hit, Provider
from textual.content import Content

from coilwright.job.answers import asked
from coilwright.job.steps import STEPS
from coilwright.wizard.lists.planes import ACTIONS
from coilwright.wizard.screens.start import StartScreen
from coilwright.wizard.screens.wizard import WizardScreen
from coilwright.wizard.themes import THEMES

Command = tuple[str, str, Callable[[], Any]]


_WHOLE = 1000.0
"""More than any score of letters that only begin a word."""
_BEGINS, _SAID = _WHOLE / 2, _WHOLE / 4
"""What words that begin so count, and those that only stand in what is said of a command; letters
that stand scattered in a name count less."""


def whole_words(query: str, title: str) -> int:
    """How many of the words looked for stand whole in a title.

    >>> whole_words("light", "Look: light"), whole_words("light", "Lighter coils")
    (1, 0)
    """
    there = set(re.findall(r"\w+", title.casefold()))
    return sum(word in there for word in query.casefold().split())


def begins_word(query: str, title: str) -> bool:
    """Whether what is looked for begins a word of a title.

    >>> begins_word("coil", "Lighter coils"), begins_word("sure", "Measured on")
    (True, False)
    """
    return re.search(rf"\b{re.escape(query.casefold())}", title.casefold()) is not None


class WizardCommands(Provider):
    """Commands of the screen that is shown."""

    def _commands(self) -> Iterator[Command]:
        screen = self.screen
        if isinstance(screen, StartScreen):
            yield "Job: new", "Begin a new job", screen.action_new
            yield ("Job: new like the marked one", "Measures, machine and rig come along",
                   screen.action_like)
            yield ("Practice", "Practice jobs, drills, reviewing a class",
                   screen.action_practice)
            yield ("Make practice of the marked job",
                   "How many mistakes, in which steps; names left out",
                   screen.action_make_practice)
            yield "Machines", "What each example holds and forms", screen.action_machines
            yield "Coils on hand", "What stands in the shop", screen.action_coils_on_hand
            yield "My shop", "Buyer, machines, rigs, suppliers", screen.action_shop
            yield "Bin: deleted jobs", "Bring one back", screen.action_bin
        elif isinstance(screen, WizardScreen):
            yield from self._wizard(screen)
        yield from self._everywhere()

    def _everywhere(self) -> Iterator[Command]:
        """What goes for every screen comes last."""
        app = self.app
        yield ("Notices", "What was said here last, to read again (F12)",
               partial(app.run_action, "app.notices"))
        yield ("Looks and settings", "Light, dark, high contrast; lines of drawings (Ctrl+T)",
               partial(app.run_action, "app.looks"))
        for name, title in THEMES.items():
            about = "This one is used now" if name == app.theme else "It is remembered"
            yield (f"Look: {title}", f"Colors of the screen. {about}",
                   partial(setattr, app, "theme", name))
        yield "Leave Coilwright", "All is saved (Ctrl+Q)", app.action_quit

    def _wizard(self, screen: WizardScreen) -> Iterator[Command]:
        for number, step in enumerate(STEPS, 1):
            yield f"Step {number}: {step.title}", step.about, partial(screen.go, step.key)
        yield "Help on this", "Why it is asked, what is usual, who knows (F1)", screen.action_words
        yield ("Keys of this step", "What each does: Ctrl+Home, Page Down and all others",
               screen.controllers.answers.step_help)
        yield "Working", "How the figure was worked out (F2)", screen.action_working
        yield "Questions", "Whom to ask what; write down the replies (F5)", screen.action_questions
        yield ("Accept what holds the order", "On the summary: Enter opens a stop, a takes it on",
               partial(screen.go, "summary"))
        yield ("Waive a question", "In the list of questions: w, with a reason",
               screen.action_questions)
        yield "Figures", "Every figure, and how it was worked out (F6)", screen.action_figures
        yield "Glossary", "The words of the trade (F7)", screen.action_glossary
        yield ("Step: confirm all", "All that is a guess on this step is sure, rows too",
               screen.action_confirm_step)
        yield "Go to an answer", "By its name (Ctrl+G)", screen.action_go_to
        yield "Undo", "Take the last change back (Ctrl+Z)", screen.action_undo
        yield "Redo", "Make the undone change again (Ctrl+Y)", screen.action_redo
        yield "Machine: pick one", "One of mine, or an example", screen.action_pick_machine
        yield "Machine: save to my shop", "Picked again in other jobs", screen.action_keep_machine
        yield "Rig: pick one of mine", "Trailer, tow vehicle, lifting gear", screen.action_pick_rig
        yield "Rig: save to my shop", "Picked again in other jobs", screen.action_keep_rig
        yield "My shop", "Buyer, machines, rigs, suppliers", screen.action_shop
        yield ("Machine: confirm all", "All values were held against the plate",
               screen.action_confirm_machine)
        yield ("Profile: pick one of the machine's", "Its seam, leg and take-up",
               screen.action_pick_profile)
        yield ("Profile: confirm", "It was held against the machine's sheet",
               screen.action_confirm_profile)
        for action in ACTIONS:
            if action.name not in ("all", "guess", "sure"):
                yield (f"Planes: {action.label.lower()}", action.tooltip,
                       partial(screen.plane_key, action.name))
        yield "Coils on hand", "What the shop has, and which fit", screen.action_stock
        yield "Coils on hand: use all that fit", "In this job", screen.action_use_fitting
        yield ("Coils on hand: take what is offered", "Those in stock that save new metal",
               screen.action_take_leftovers)
        yield ("Coils on hand: after the run", "What is left goes back to stock",
               screen.action_run_done)
        yield ("Receiving: coils as they arrive", "Measure, accept or hold; length three ways",
               screen.action_arrivals)
        yield ("Lighter coils", "No coil heavier than what lifts it takes (Ctrl+L)",
               screen.action_lighter_coils)
        yield "Widths: compare", "All coverage widths side by side (F8)", screen.action_widths
        yield ("Least metal: search longer", "The same again stops it",
               screen.action_search_metal)
        yield "Drawing: next plane", "Draw another plane", screen.action_next_plane
        yield ("Drawing: lines", "Dots, lines or plain ASCII, whatever your font has",
               partial(screen.run_action, "app.line_work"))
        yield "Head of the order", "Number, date, supplier, terms", screen.action_order_head
        yield ("Job: new like this one", "Measures, machine and rig come along",
               screen.action_like_this)
        yield ("Life of the order", "Out for quotes, sent, delivered, run; what changed since",
               screen.action_order_life)
        yield "Send the order", "A revision, with its day (Life of the order)", \
            screen.action_order_life
        yield "Requests for a quote", "Who was asked; a sheet for each", screen.action_requests
        yield "Sheets: save", "Save all sheets of this job", screen.action_save_sheets
        yield ("Practice: the brief", "Or the review, once it is handed in (Ctrl+R)",
               screen.action_brief)
        yield ("Projector", "Step through this job, one thing at a time", screen.action_project)
        yield ("Make practice of this job", "How many mistakes, in which steps; names left out",
               screen.action_make_practice)
        yield ("Versions of this job", "What it was before; put one back",
               screen.action_versions)
        yield "Jobs", "Back to the list of jobs (F10)", screen.action_leave
        titles = {step.key: step.title for step in STEPS}
        for answer in asked(screen.session.job):
            yield (f"Answer: {answer.label}", f"On {titles[answer.step]}",
                   partial(screen.go, answer.step, answer.key))

    async def discover(self) -> AsyncIterator[DiscoveryHit]:
        """All of them."""
        for title, about, run in self._commands():
            yield DiscoveryHit(Content(title), run, text=title, help=about)

    async def search(self, query: str) -> AsyncIterator[Hit]:
        """Those that match."""
        matcher = self.matcher(query)
        for title, about, run in self._commands():
            score = matcher.match(title)
            said = whole_words(query, f"{title} {about}") == len(query.split())
            if score > 0 or said:
                # "light" is looked for in "Look: light" before it is in "Lighter coils"; "sure" in
                # what is said of "Step: confirm all" before it is in "Measured on".
                score += _WHOLE * whole_words(query, title)
                if begins_word(query, title):
                    score += _BEGINS
                elif said:
                    score += _SAID
                yield Hit(score, matcher.highlight(title), run, text=title, help=about)
