"""One finding, whole: what, why, what to do, and where that comes from."""

from __future__ import annotations

from textual.binding import Binding

from coilwright.job.answers import ANSWERS
from coilwright.values.finding import Finding
from coilwright.wizard.screens.over import Over
from coilwright.wizard.screens.words import TextOver


class FindingScreen(TextOver):
    """A finding; Enter goes to the answer that would change it."""

    BINDINGS = [Binding("enter", "go", "Go to the answer", id="finding.go")]

    def __init__(self, finding: Finding) -> None:
        super().__init__()
        self.finding = finding

    def title_text(self) -> str:
        """How heavy it is."""
        return {"stop": "STOP: settle this before ordering", "care": "CARE: weigh this",
                "note": "NOTE"}[self.finding.level.value]

    def parts(self) -> list[tuple[str, str]]:
        """What, why, what to do, source."""
        f = self.finding
        made = [("What", f.what), ("Why", f.why), ("What to do", f.do), ("Source", str(f.source))]
        names = [ANSWERS[k].label for k in f.answers if k in ANSWERS]
        if names:
            made.append(("Answers that change it", ", ".join(names) + "\nEnter goes to the first."))
        return made

    def action_go(self) -> None:
        """Go to the answer that would change it, or to its step."""
        screen: Over[object] = self  # type: ignore[assignment]
        screen.dismiss(self.finding.answers[0] if self.finding.answers else self.finding.step)
