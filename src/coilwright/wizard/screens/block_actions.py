"""What the blocks of single steps do: planes, machine, sheets."""

from __future__ import annotations

from textual import on

from coilwright.store import StoreError
from coilwright.wizard.lists.block import RowsBlock
from coilwright.wizard.lists.entry import carry_out
from coilwright.wizard.screens.job_screen import JobScreen


class BlockActions(JobScreen):
    """Actions of the roof, machine and summary steps."""

    # -- lists of rows ---------------------------------------------------------------------

    async def plane_key(self, action: str) -> None:
        """Do to the list of planes what one of its keys does, from wherever one is."""
        if self.step != "roof":
            await self.go("roof")
        for block in self.form.query(RowsBlock):
            block.take_focus()
            block.do(action)

    @on(RowsBlock.Reported)
    def _rows_reported(self, event: RowsBlock.Reported) -> None:
        """Carry out what came of an action of a list on the step."""
        event.stop()
        if event.outcome.redraw:
            self.refresh_all()
        else:
            carry_out(self, event.rows, event.outcome, self.changed, then=event.block.report)

    def action_next_plane(self) -> None:
        """Draw the next plane."""
        numbers = [plane.number for plane in self.session.plan.planes]
        if numbers:
            chosen = self.session.chosen_plane
            at = numbers.index(chosen) if chosen in numbers else -1
            self.session.chosen_plane = numbers[(at + 1) % len(numbers)]
            self.refresh_all()

    # -- the machine -----------------------------------------------------------------------

    def action_pick_machine(self) -> None:
        """Pick an example machine; its values come in as guesses."""
        from coilwright.wizard.machines import with_machine
        from coilwright.wizard.screens.machines import MachinesScreen, shipped_machines

        try:
            machines = shipped_machines()
        except StoreError as error:
            self.notify(str(error), severity="error", markup=False)
            return

        def picked(key: str | None) -> None:
            if key is not None:
                machine = machines[key]
                self.session.seal()
                self.session.change(with_machine(self.session.job, machine),
                                    f"Machine {machine.name or key}")
                self.changed()
                self.notify("Every value is a guess until you hold it against the plate.",
                            markup=False)

        self.app.push_screen(MachinesScreen(machines, self.session.job.units, pick=True), picked)

    def action_confirm_machine(self) -> None:
        """All values of the machine were held against its plate."""
        from coilwright.wizard.machines import confirm_machine, is_picked

        if not is_picked(self.session.job):
            self.notify("There is no machine to confirm yet: pick one, or type its values.",
                        markup=False)
            return
        self.session.seal()
        if self.session.change(confirm_machine(self.session.job), "Machine confirmed"):
            self.changed()
            self.notify("All values that are there are sure now. The plate decides.",
                        markup=False)
        else:
            self.notify("Nothing to confirm: no value of the machine is a guess.", markup=False)
        if self.step == "machine" and (self.focused is None or not self.focused.display):
            self.form.first()

    # -- sheets ----------------------------------------------------------------------------

    def action_save_sheets(self) -> None:
        """Save all sheets into the folder that is named."""
        from coilwright.wizard.sheets_out import save_sheets, saved_words

        folder = self.sheets_folder()
        try:
            saved = save_sheets(self.session.plan, folder)
        except StoreError as error:
            self.notify(str(error), title="Not saved", severity="error", timeout=15,
                        markup=False)
            return
        self.notify(saved_words(saved, folder), title="Sheets saved", timeout=10, markup=False)
