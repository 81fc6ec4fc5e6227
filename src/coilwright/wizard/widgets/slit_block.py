"""How the supplier's masters are slit for the order, and what is lost of each."""

from __future__ import annotations

from coilwright.wizard.session import Session
from coilwright.wizard.slit_lines import slit_lines
from coilwright.wizard.widgets.text_block import TextBlock


class SlitBlock(TextBlock):
    """The masters by the metal they take, and the set-ups of the best."""

    title = "Slitting, the least metal first"

    def lines(self, session: Session, width: int) -> list[str]:
        """The lines; none while no master is given."""
        return slit_lines(session.plan, width)
