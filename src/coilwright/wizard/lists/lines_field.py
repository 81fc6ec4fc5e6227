"""The field of one measure of a row; one whose rows may come from a table joins what is pasted."""

from __future__ import annotations

from textual import events

from coilwright.wizard.lists.measure import Asked
from coilwright.wizard.literal import escape_controls
from coilwright.wizard.widgets.box import Box
from coilwright.wizard.widgets.columns import cells, fit
from coilwright.wizard.widgets.field import Field


class LinesInput(Box):
    """A box for several rows on one line: pasted lines are joined instead of cut off."""

    def on_paste(self, event: events.Paste) -> None:
        """Join what is pasted by semicolons."""
        lines = [line.strip() for line in event.text.splitlines() if line.strip()]
        event.stop()
        event.prevent_default()
        self.replace("; ".join(line.replace("\t", ", ") for line in lines), *self.selection)


class LinesField(Field):
    """A field whose rows may come from a table."""

    def __init__(self, asked: Asked, label_width: int) -> None:
        super().__init__(asked.answer, asked.help, standing=False, label_width=label_width,
                         unasked=asked.unasked)
        margin = self.box.styles.margin
        self.box = LinesInput(compact=True, max_length=20_000)
        self.box.styles.margin = margin

    def whole(self, width: int) -> str:
        """All that stands in the box, where it cannot show it."""
        text = str(self.box.value)
        if cells(text) <= self.box.size.width:
            return ""
        return f"\n   {fit(escape_controls(text), width)}"


def row_field(asked: Asked, label_width: int) -> Field:
    """The field of one measure of a row."""
    if asked.table:
        return LinesField(asked, label_width)
    return Field(asked.answer, asked.help, standing=False, label_width=label_width,
                 unasked=asked.unasked)
