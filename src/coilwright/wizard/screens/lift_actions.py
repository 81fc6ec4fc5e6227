"""Coils too heavy to lift: the lift's limit goes back to the coils step in one key."""

from __future__ import annotations

from coilwright.wizard.screens.job_screen import JobScreen

_LIMIT = "coils.site_lift"


class LiftActions(JobScreen):
    """What the haul step hands to the coils step."""

    async def action_lighter_coils(self) -> None:
        """Hold the order to what the gear lifts, go to the limit, and say what changed."""
        from coilwright.edit_lift import lighter_coils
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
