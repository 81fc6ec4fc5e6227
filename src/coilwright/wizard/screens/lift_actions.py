"""Coils too heavy to lift: the lift's limit goes back to the coils step in one key."""

from __future__ import annotations

from coilwright.wizard.screens.job_screen import JobScreen
from coilwright.wizard.step_view import Block

_LIMIT = "coils.site_lift"


class LiftActions(JobScreen):
    """What the haul step hands to the coils step."""

    def action_loads(self) -> None:
        """To the loads at the foot of the form."""
        for block in self.query("LoadsBlock").results(Block):
            block.take_focus()

    async def action_lighter_coils(self) -> None:
        """Hold the order to what the gear lifts, go to the limit, and say what changed."""
        from coilwright.plan.lighter_coils import lighter_coils
        from coilwright.wizard.load_lines import lighter_words, no_lighter_words

        before = self.session.plan
        job = lighter_coils(self.session.job, before)
        self.session.seal()
        if job is None or not self.session.change(job, "Lighter coils for the lift"):
            self.notify(no_lighter_words(before), title="Lighter coils", timeout=8, markup=False)
            return
        self.session.seal()
        self.changed()
        await self.go_to_key(_LIMIT)
        self.notify(lighter_words(before, self.session.plan), title="Lighter coils", timeout=10,
                    markup=False)
