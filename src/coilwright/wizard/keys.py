"""The keys of the wizard, in one place: each with an id, a description and a tooltip."""

from __future__ import annotations

from textual.binding import Binding

WIZARD_KEYS: list[Binding] = [
    Binding("ctrl+b", "back", "Back", tooltip="Go to the step before", id="step.back"),
    Binding("ctrl+n", "next", "Next", tooltip="Go to the next step", id="step.next"),
    Binding("f1", "words", "Help", tooltip="Why this is asked, what is usual, who knows",
            id="answer.words"),
    Binding("f2", "working", "Working", tooltip="Show how the figure was worked out",
            id="figure.working"),
    Binding("f3", "do_not_know", "Don't know", tooltip="Let the usual value stand in, as a guess",
            id="answer.unknown"),
    Binding("f4", "confirm", "Confirm", tooltip="This answer is sure", id="answer.confirm"),
    Binding("f8", "widths", "Widths", tooltip="Compare the coverage widths side by side",
            id="panel.widths", show=False),
    Binding("f9", "summary", "Summary", tooltip="Ready or not, and why", id="step.summary"),
    Binding("ctrl+p", "app.command_palette", "All", tooltip="Every command, step and answer",
            id="wizard.all"),
    Binding("f5", "questions", "Questions", tooltip="Whom to ask what; write down the replies",
            id="job.questions", show=False),
    Binding("f6", "figures", "Figures", tooltip="Every figure, and how it was worked out",
            id="job.figures", show=False),
    Binding("f7", "glossary", "Glossary", tooltip="The words of the trade", id="job.glossary",
            show=False),
    Binding("ctrl+z", "undo", "Undo", tooltip="Take the last change back", id="job.undo",
            show=False),
    Binding("ctrl+y", "redo", "Redo", tooltip="Make the undone change again", id="job.redo",
            show=False),
    Binding("ctrl+g", "go_to", "Go to", tooltip="Go to an answer by its name", id="answer.go",
            show=False),
    Binding("escape", "leave", "Jobs", tooltip="Back to the list of jobs; all is saved",
            id="job.leave", show=False),
    Binding("up", "move(-1)", "Field above", tooltip="To the field above", id="field.up",
            show=False),
    Binding("down", "move(1)", "Field below", tooltip="To the field below", id="field.down",
            show=False),
    Binding("pageup", "page(-1)", "Page up", tooltip="Scroll the form up", id="form.up",
            show=False),
    Binding("pagedown", "page(1)", "Page down", tooltip="Scroll the form down", id="form.down",
            show=False),
]

START_KEYS: list[Binding] = [
    Binding("slash", "find", "Find", tooltip="Find a job by part of its title",
            id="start.find", key_display="/"),
    Binding("n", "new", "New job", tooltip="Begin a new job", id="start.new"),
    Binding("d,delete", "delete", "Delete", tooltip="Move the marked job to the bin",
            id="start.delete", key_display="d"),
    Binding("u,ctrl+z", "undelete", "Undo delete", tooltip="Bring the deleted job back",
            id="start.undelete", key_display="u"),
    Binding("m", "machines", "Machines", tooltip="What each example machine holds and forms",
            id="start.machines"),
    Binding("c", "coils_on_hand", "Coils on hand", tooltip="What stands in the shop",
            id="start.coils"),
    Binding("q", "app.quit", "Quit", tooltip="Leave Coilwright", id="start.quit"),
]
