"""The list of practice jobs and drills, and what they begin; and a class to review."""

from __future__ import annotations

import random
from collections.abc import Callable
from functools import partial

from textual import on
from textual.app import ComposeResult
from textual.binding import Binding
from textual.containers import Vertical
from textual.widgets import OptionList, Static

from coilwright.job.attempt import MOST_SEED
from coilwright.job.drills import DRILLS
from coilwright.job.job import Job
from coilwright.job.practice import Practice, to_work_on
from coilwright.job.variant_draw import MOST_VARIANTS
from coilwright.sheets.practice import key_sheet
from coilwright.store import Store, StoreError
from coilwright.store.begun import begin_attempt
from coilwright.store.files import named_path
from coilwright.store.opened_keys import IS_NOTED, REVIEWS_ARE_NOTED, note_opened_key
from coilwright.store.practice import (
    bin_practice,
    last_binned,
    practices,
    shipped_practices,
    unbin_practice,
)
from coilwright.wizard.literal import escape_controls
from coilwright.wizard.screens.base import Modal
from coilwright.wizard.screens.lines import Line, LinesScreen
from coilwright.wizard.screens.practice.begin_words import BeginWords
from coilwright.wizard.screens.practice.classroom import class_screen
from coilwright.wizard.screens.practice.controller import (
    forget_variants,
    hand_in_folder,
    solved_variant,
)
from coilwright.wizard.screens.practice.drill import DrillScreen
from coilwright.wizard.screens.practice.make import PickJobScreen, PracticeMaker
from coilwright.wizard.screens.practice.paper import (
    ANSWERS_AHEAD,
    AnswersAhead,
    PaperScreen,
)
from coilwright.wizard.screens.practice.projector import ProjectorScreen
from coilwright.wizard.screens.practice.rows import PracticeRows, practice_rows
from coilwright.wizard.screens.practice.sharing import PracticeSharing
from coilwright.wizard.screens.practice.slides import practice_slides
from coilwright.wizard.session import Session

_CLASS = """\
1. Pick a job, or make one at the end of the list; read its key with k, and show it on the \
projector with p: on your own machine, for what is handed in later says that its key was opened \
where it was.
2. Print a class's handouts and keys with s: as many variants as there are people.
3. Everyone begins it here, with a name and the variant on the handout, or works on the paper; \
the steps show figures as answers are typed, and keep back what there is to be found.
4. Everyone hands in, with i on the brief, into one folder that you can read. Whoever can list \
it reads what the others decided: on Linux and macOS one of mode 1733 takes their files and lists \
them to you alone.
5. Review that folder: the table and the commonest mistakes first, then everyone's own; \
s saves them to print.
6. A practice job of your own goes to the class's machines in a file: e writes it, sealed, and \
“Take in a practice job” at the end of the list there reads it."""
_WHO_READS = "Whoever can list it can read them; F1 on the list says how you alone do."
_REVEALS = f"One thing at a time; Enter reveals the answer to a question. {IS_NOTED}"


class ChooseScreen(Modal[Session]):
    """Returns a session on the practice job that is begun."""

    BINDINGS = [
        Binding("p", "project", "Projector", id="choose.project",
                tooltip="Step through it before a class, answers with the reveal key"),
        Binding("k", "key", "Key", id="choose.key",
                tooltip="Read the key of the marked job: what is right, and why"),
        Binding("s", "save", "Papers", id="choose.save",
                tooltip="Save a class's handouts and keys of the marked job, to print"),
        Binding("e", "export", "Export", id="choose.export",
                tooltip="Write the marked practice job to a file, sealed, for other machines"),
        Binding("r", "rename", "Rename", id="choose.rename",
                tooltip="Another title and story for the marked practice job, one of your own"),
        Binding("d,delete", "delete", "Delete", id="choose.delete", key_display="d",
                tooltip="Move the marked practice job, one of your own, to a bin"),
        Binding("u,ctrl+z", "undelete", "Undo delete", id="choose.undelete", key_display="u",
                tooltip="Bring the practice job that was deleted back"),
    ]
    help_parts = (("How a class goes", _CLASS),)

    def __init__(self, store: Store, marked: str = "") -> None:
        super().__init__()
        self.store = store
        self._first = marked
        self.practices, self._told = practices(store.folder)
        self._fits = 0
        """The room that the rows are broken for."""

    def compose(self) -> ComposeResult:
        """The list."""
        with Vertical(classes="box"):
            yield Static("Practice: invented, or changed for it", classes="over-title")
            yield PracticeRows(*practice_rows(self.practices, self.room), compact=True,
                               id="choose-list")
            yield Static("Enter begins · p projector · k key · s papers · e export · "
                         "r rename · d delete · F1 help · Escape closes",
                         classes="over-hint", markup=False)

    def on_mount(self) -> None:
        """The list has the focus; files that cannot be used are told."""
        rows = self.query_one(OptionList)
        self._fits = self.room
        rows.focus()
        if self._first in self.practices:
            rows.highlighted = rows.get_option_index(f"practice:{self._first}")
        for text in self._told:
            self.say(text, severity="warning", timeout=10)

    @on(OptionList.OptionSelected)
    def _selected(self, event: OptionList.OptionSelected) -> None:
        event.stop()
        if self.query_one(PracticeRows).only_marked:
            return
        kind, _, key = (event.option_id or "").partition(":")
        if kind == "practice":
            self._ask(key, "Practice", BeginWords(self.store, self.practices[key]), self._begin,
                      named=True)
        elif kind == "drill":
            # Nothing hangs on which one comes: a drill is over with its minute.
            seed = random.SystemRandom().randrange(10_000)
            self.app.push_screen(DrillScreen(DRILLS[key], seed))
        elif kind == "make":
            self.app.push_screen(PickJobScreen(self.store), self._make)
        elif kind == "take":
            self._sharing().take_in(self._made)
        elif kind == "class":
            self._ask_review(str(hand_in_folder(self.store.folder)))

    def _make(self, job: Job | None) -> None:
        if job is not None:
            PracticeMaker(self.store.folder, self.app.push_screen, self.say, self._made).ask(job)

    def _sharing(self) -> PracticeSharing:
        return PracticeSharing(self.store.folder, self.app.push_screen, self.say)

    def action_export(self) -> None:
        """Write the marked practice job to a file, for the machines of a class."""
        if (marked := self._marked()) is not None:
            self._sharing().begin_export(marked, self.store.sheets_folder)

    def _made(self, made: Practice) -> None:
        """Show the list with what was made, marked."""
        self._show_again(f"practice:{made.name}")

    def on_resize(self) -> None:
        """Break the rows anew where they have more room, or less."""
        if self._fits not in (0, self.room):
            self._draw_rows("")

    def _show_again(self, mark: str) -> None:
        forget_variants()
        self.practices, _ = practices(self.store.folder)
        self._draw_rows(mark)

    def _draw_rows(self, mark: str) -> None:
        rows = self.query_one(OptionList)
        at, self._fits = rows.highlighted, self.room
        rows.set_options(practice_rows(self.practices, self.room))
        ids = [option.id for option in rows.options]
        rows.highlighted = ids.index(mark) if mark in ids else at

    # -- one of your own -------------------------------------------------------------------

    def action_rename(self) -> None:
        """Give the marked practice job another title and story, where it is the trainer's own."""
        if (marked := self._marked()) is None:
            return
        if marked.name in shipped_practices():
            self.say(f"“{escape_controls(marked.title)}” comes with the program: it stays as it "
                     "is.")
            return
        self._sharing().rename(marked, self._made, (marked.title, marked.story))

    def action_delete(self) -> None:
        """Move the marked practice job to the bin, where it is the trainer's own."""
        if (marked := self._marked()) is None:
            return
        rows = self.query_one(PracticeRows)
        if said := rows.just_came():
            self.say(said)
            return
        try:
            bin_practice(self.store.folder, marked)
        except StoreError as error:
            self.say(escape_controls(str(error)), severity="warning")
            return
        self._show_again("")
        gone = (f"“{escape_controls(marked.title)}” is in the bin of practice jobs: u in this list "
                "brings it back.")
        rows.row_deleted(gone)
        self.say(gone, timeout=10)

    def action_undelete(self) -> None:
        """Bring back the practice job that was deleted last, here or another day."""
        place, before = last_binned(self.store.folder), {*self.practices}
        if place is None:
            self.say("No practice job of yours is in the bin.")
            return
        try:
            unbin_practice(self.store.folder, place)
        except StoreError as error:
            self.say(escape_controls(str(error)), severity="error")
            return
        self._show_again("")
        for made in (one for name, one in self.practices.items() if name not in before):
            self._made(made)
            self.say(f"“{escape_controls(made.title)}” is back.")

    def _ask(
        self, name: str, heading: str, about: str | Callable[[tuple[str, ...]], str],
        then: Callable[[str, int, str], None],
        named: bool, by: str = "", variant: str = "1", wrong: str = "",
    ) -> None:
        """Ask for the variant, and who practices. by, variant: as typed before; wrong: what is
        wrong with the variant."""
        varies = self.practices[name].varies
        lines = [Line("Variant", variant, f"a number, 1 to {MOST_SEED}")] if varies else []
        if named:
            lines.insert(0, Line("Name", by, "who practices, as the class's table shows it"))

        def given(texts: tuple[str, ...] | None) -> None:
            if texts is None:
                return
            seed = texts[-1].strip() if varies else "0"
            if varies and not (seed.isdecimal() and 0 < int(seed) <= MOST_SEED):
                self._ask(name, heading, about, then, named, texts[0] if named else "", seed,
                          f"“{seed[:20]}” is no variant; give 1 to {MOST_SEED}.")
                return
            then(name, int(seed), texts[0] if named else "")

        if lines:
            at = len(lines) - 1 if wrong else 0
            self.app.push_screen(LinesScreen(heading, about, tuple(lines), at, wrong), given)
        else:
            then(name, 0, "")

    def _begin(self, name: str, seed: int, by: str) -> None:
        attempt = begin_attempt(self.store, self.practices[name], seed, by)
        try:
            solved = solved_variant(self.store.folder, name, seed)
        except StoreError as error:
            self.say(str(error), severity="error")
            return
        job = to_work_on(solved.practice, attempt)
        try:
            # Kept from the start: who began and answers another day finds it in the list.
            self.dismiss(Session.open(self.store, self.store.create(job)))
        except StoreError as error:
            self.say(f"It is not kept yet: {error}", severity="warning", timeout=15)
            self.dismiss(Session(self.store, job))

    def _marked(self) -> Practice | None:
        """The practice job that is marked; says so where none is."""
        option = self.query_one(OptionList).highlighted_option
        kind, _, key = (option.id or "" if option is not None else "").partition(":")
        if kind != "practice":
            self.say("Mark a practice job first.")
            return None
        return self.practices[key]

    def action_project(self) -> None:
        """Step through the marked practice job on a projector."""
        self._ask_ahead("Projector", _REVEALS, self._project)

    def action_key(self) -> None:
        """Read the key of a variant of the marked practice job."""
        self._ask_ahead("Key", ANSWERS_AHEAD, self._key)

    def _ask_ahead(
        self, heading: str, about: str, then: Callable[[str, int, str], None]
    ) -> None:
        """Say what is ahead where answers are, and ask for the variant where there are several."""
        if (marked := self._marked()) is None:
            return
        if marked.varies:
            self._ask(marked.name, heading, about, then, named=False)
        else:
            self.app.push_screen(AnswersAhead(marked.title, about), lambda wanted: (
                then(marked.name, 0, "") if wanted else None))

    def _note_key(self, name: str) -> None:
        """Keep that a key is opened: what is handed in from here says so."""
        try:
            note_opened_key(self.store.folder, name)
        except StoreError as error:
            self.say(f"That the key is opened could not be noted: {error}", severity="warning")

    def _key(self, name: str, seed: int, _by: str) -> None:
        try:
            solved = solved_variant(self.store.folder, name, seed)
        except StoreError as error:
            self.say(str(error), severity="error")
            return
        self._note_key(name)
        self.app.push_screen(PaperScreen(key_sheet(solved, details=False), key_sheet(solved)))

    def action_save(self) -> None:
        """Save the handouts and keys of as many variants as a class has people."""
        if (marked := self._marked()) is not None:
            self._ask_papers(marked, "12", str(self.store.sheets_folder))

    def _ask_papers(
        self, marked: Practice, many: str, folder: str, wrong: str = "", at: int = 0
    ) -> None:
        """wrong: what is wrong with what was typed, and at: in which line."""
        lines = [Line("Folder", folder, "where the pages are saved")]
        about = "It has one variant only: everybody gets the same handout."
        if marked.varies:
            about = "One page to print with the handouts of variants 1 to N, one with their keys."
            lines.insert(0, Line("Variants", many, f"how many, 1 to {MOST_VARIANTS}"))

        def given(texts: tuple[str, ...] | None) -> None:
            if texts is None:
                return
            count = texts[0].strip() if marked.varies else "0"
            if marked.varies and not (count.isdecimal() and 0 < int(count) <= MOST_VARIANTS):
                self._ask_papers(
                    marked, count, texts[-1],
                    f"“{count[:20]}” is no number of variants; give 1 to {MOST_VARIANTS}.")
                return
            self._save(marked, int(count), texts[-1])

        self.app.push_screen(
            LinesScreen("A class's papers", f"{about} {IS_NOTED}", tuple(lines), at, wrong),
            given)

    def _save(self, practice: Practice, count: int, place: str) -> None:
        from coilwright.sheets.saving import save_class_papers

        try:
            folder = named_path(place)
            variants = [solved_variant(self.store.folder, practice.name, seed)
                        for seed in (range(1, count + 1) if count else (0,))]
            saved = save_class_papers(variants, folder)
        except StoreError as error:
            self._ask_papers(practice, str(count), place, f"Not saved: {error}",
                             int(practice.varies))
            return
        self._note_key(practice.name)
        names = " and ".join(path.name for path in saved)
        self.say(f"{names} in {folder}. Print them from a browser.", title="Papers saved",
                 timeout=10)

    def _project(self, name: str, seed: int, _by: str) -> None:
        try:
            solved = solved_variant(self.store.folder, name, seed)
        except StoreError as error:
            self.say(str(error), severity="error")
            return
        self.app.push_screen(ProjectorScreen(partial(practice_slides, solved),
                                             partial(self._note_key, name)))

    # -- a class ---------------------------------------------------------------------------

    def _ask_review(self, place: str, wrong: str = "") -> None:
        """wrong: what is wrong with the folder as it was typed; it is asked again."""
        self.app.push_screen(LinesScreen(
            "Review attempts",
            f"A folder with the attempts that were handed in. {_WHO_READS} {REVIEWS_ARE_NOTED}",
            (Line("Folder", place),), wrong=wrong), self._review)

    def _review(self, texts: tuple[str, ...] | None) -> None:
        if texts is None:
            return
        try:
            self.app.push_screen(class_screen(
                texts[0], self.store.folder, self.store.sheets_folder, self.say))
        except StoreError as error:
            self._ask_review(texts[0], escape_controls(str(error)))
