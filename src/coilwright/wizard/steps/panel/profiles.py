"""Picks a profile of the machine for a job, and takes it as held against the machine's sheet."""

from __future__ import annotations

from coilwright.job.machine import Profile
from coilwright.job.profiles import confirm_profile, profile_guesses, take_profile, taken_profile
from coilwright.sheets.machine import profile_facts, profile_name
from coilwright.wizard.context import Context

ANOTHER = "another"


class ProfileController:
    """The profile of the job's machine."""

    def __init__(self, context: Context) -> None:
        self._context = context

    def pick(self) -> None:
        """Pick a profile: seam, leg and take-up are the machine's, and may be changed."""
        from coilwright.wizard.screens.pick import PickScreen

        context = self._context
        job, units = context.session.job, context.session.job.units
        profiles: dict[str, Profile] = {}
        for profile in job.machine.profiles:
            profiles.setdefault(profile_name(profile, units), profile)
        if not profiles:
            context.say("No profile of the machine is known: pick a machine, or give seam and leg.")
            return
        about = {name: profile_facts(profile, units) for name, profile in profiles.items()}
        about[ANOTHER] = "leaves seam, leg and take-up as they are"
        taken = taken_profile(job)

        def picked(name: str | None) -> None:
            profile = profiles.get(name or "")
            if profile is None:
                return
            context.session.seal()
            made = take_profile(context.session.job, profile)
            if context.session.change(made, f"Profile {name}"):
                context.changed()
            left = profile_guesses(context.session.job)
            context.say("Hold it against the machine's sheet, then confirm it." if left
                        else "It is as sure as the machine's own values are.")

        context.open(PickScreen(
            "Profile of this machine", (*profiles, ANOTHER),
            "" if taken is None else profile_name(taken, units), about=about), picked)

    def confirm(self) -> None:
        """All of the profile was held against the machine's sheet."""
        context = self._context
        context.session.seal()
        made = confirm_profile(context.session.job)
        if context.session.change(made, "Profile confirmed"):
            context.changed()
            context.say("All that is known of this profile is sure now.")
        else:
            context.say("Nothing to confirm: no value of a profile is a guess.")
