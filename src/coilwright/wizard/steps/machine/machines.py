"""Taking a machine into a job, and saying what one holds and forms. No screens here."""

from __future__ import annotations

import dataclasses

from coilwright.job import edit, from_shop
from coilwright.job.answers import ANSWERS, answers_of
from coilwright.job.fields import LONGEST_NAME
from coilwright.job.job import Job
from coilwright.job.machine import Machine, asked_of_example
from coilwright.job.profiles import profile_guesses
from coilwright.job.shop import Shop, put
from coilwright.store import StoreError
from coilwright.store.shop import load_shop
from coilwright.values.standing import Standing
from coilwright.wizard.context import Context
from coilwright.wizard.literal import escape_controls
from coilwright.wizard.shop_session import change_shop
from coilwright.words import starts_from


def with_machine(job: Job, machine: Machine) -> Job:
    """The job with a machine; every value of it is a guess until held against the plate."""
    return from_shop.take_machine(job, machine)


def is_picked(job: Job) -> bool:
    """Whether there is a machine: picked, named, or with a value of its own."""
    machine = job.machine
    if machine.invented or machine.name:
        return True
    begun = starts_from(job.units)
    return any(ANSWERS[key].value(job) is not None
               for key in from_shop.MACHINE_KEYS if key not in begun)


def to_confirm(job: Job) -> tuple[str, ...]:
    """The machine's values on its step that are guesses, to be held against its plate."""
    return tuple(
        key for key in _keys()
        if ANSWERS[key].asked(job) and ANSWERS[key].standing(job) is Standing.GUESS
    )


def _keys() -> tuple[str, ...]:
    # What else is asked on its step stands on no plate.
    return tuple(one.key for one in answers_of("machine") if one.section == "machine")


def confirm_machine(job: Job) -> Job:
    """The job with every value of the machine's step sure; the same job where there is no machine.

    What the machine says of one profile is confirmed where it is asked, beside seam and leg.
    """
    if not is_picked(job):
        return job
    for key in _keys():
        job = edit.confirm(job, key)
    return job


class MachineController:
    """Picks an example machine for a job, and takes its values as held against the plate."""

    def __init__(self, context: Context) -> None:
        self._context = context
        self._asked_of: Job | None = None

    def pick(self) -> None:
        """Pick a machine: one of the shop's as sure as it was kept, an example's a guess."""
        from coilwright.wizard.screens.machines import MINE, MachinesScreen, shipped_machines

        context = self._context
        try:
            machines = shipped_machines()
            shop, trouble = load_shop(context.session.store.folder)
        except StoreError as error:
            context.say(str(error), severity="error")
            return
        if trouble:
            context.say(trouble, title="My shop", severity="error", timeout=15)
        mine = {f"{MINE}{kept.name}": kept for kept in shop.machines}

        def picked(key: str | None) -> None:
            if key is None:
                return
            job = context.session.job
            if key in mine:
                job, name = from_shop.with_machine(job, mine[key]), mine[key].name
                said = "It is as it was saved; what was a guess still is. The plate decides."
            else:
                job, name = with_machine(job, machines[key]), machines[key].name or key
                said = "Every value is a guess until you hold it against the plate."
            context.session.seal()
            context.session.change(job, f"Machine {name}")
            context.changed()
            context.say(said)

        every = {**{key: kept.named for key, kept in mine.items()}, **machines}
        job = context.session.job
        context.open(MachinesScreen(every, job.units, pick=True, taken=job.machine), picked)

    def save(self) -> None:
        """Keep the job's machine in the shop under a name."""
        from coilwright.wizard.screens.lines import Line, LinesScreen

        context = self._context
        machine = context.session.job.machine
        if not is_picked(context.session.job):
            context.say("There is no machine to save yet: pick one, or type its values.")
            return

        def given(said: tuple[str, ...] | None) -> None:
            if said is not None:
                self._save(said[0].strip()[:LONGEST_NAME])

        context.open(LinesScreen(
            "Save the machine to my shop", "Other jobs pick it; what is a guess stays one. One of "
            "the same name is replaced.",
            (Line("Name", machine.name, "such as Old blue"),),
        ), given)

    def _save(self, name: str) -> None:
        context = self._context
        job = context.session.job

        def kept(shop: Shop) -> Shop:
            machine = from_shop.keep_machine(job, name, shop.machines)
            return dataclasses.replace(shop, machines=put(shop.machines, machine))

        try:
            change_shop(context.session.store, kept)
        except StoreError as error:
            context.say(str(error), title="Not saved", severity="error", timeout=15)
            return
        context.say(f"{escape_controls(name)} is in your shop; the next job picks it.")

    def confirm(self) -> None:
        """All values of the machine were held against its plate."""
        context = self._context
        if not is_picked(context.session.job):
            context.say("There is no machine to confirm yet: pick one, or type its values.")
            return
        job = context.session.job
        ask = asked_of_example(job.machine, len(to_confirm(job)))
        if ask and self._asked_of is not job:
            self._asked_of = job
            context.say(ask, severity="warning")
            return
        context.session.seal()
        if context.session.change(confirm_machine(context.session.job), "Machine confirmed"):
            context.changed()
            left = profile_guesses(context.session.job)
            context.say("All values that are there are sure now. The plate decides." + (
                " Those of the profile are confirmed on the Panel step." if left else ""))
        else:
            context.say("Nothing to confirm: no value of the machine is a guess.")
