"""The Panel step: the seam, the width that shows, and the metal the legs take up."""

from __future__ import annotations

from textual.app import ComposeResult

from coilwright.job.answers.machine import MachineKey
from coilwright.job.answers.panel import PanelKey
from coilwright.job.profiles import profile_guesses, taken_profile
from coilwright.sheets.machine import profile_name
from coilwright.values.keys import Key
from coilwright.wizard.lists.ends_block import EndsBlock
from coilwright.wizard.session import Session
from coilwright.wizard.step_view import Group, Headline, StepView, plane_drawing
from coilwright.wizard.widgets.blocks import BarButton, Block, ButtonBar


class ProfileBlock(Block):
    """Where the machine has profiles: the one that is taken, and another to pick; and what compares
    coverage widths."""

    def compose(self) -> ComposeResult:
        """The buttons."""
        yield ButtonBar(
            BarButton("", id="pick-profile", action="screen.pick_profile"),
            BarButton("Confirm profile", id="confirm-profile", action="screen.confirm_profile"),
            BarButton("Compare widths (F8)", id="compare-widths", action="screen.widths"),
        )

    def show(self, session: Session) -> None:
        """Say which profile it is; offer to confirm it where something of it is a guess."""
        job = session.job
        profiles, taken = job.machine.profiles, taken_profile(job)
        one = "pick one" if len(profiles) < 2 else f"pick one of {len(profiles)}"
        said = one if taken is None else profile_name(taken, job.units)
        pick, confirm = (self.query_one(f"#{name}-profile", BarButton)
                         for name in ("pick", "confirm"))
        pick.say(f"Profile of this machine: {said}")
        pick.display = bool(profiles)
        left = bool(profile_guesses(job))
        if confirm.has_focus and not left:
            pick.focus()
        confirm.display = left

    def begins(self, session: Session) -> bool:
        """A panel nobody has said anything about begins with what the machine has tooling for."""
        return bool(session.job.machine.profiles) and session.job.panel.seam is None

    def take_focus(self) -> bool:
        """Focus the first button that is there."""
        next(one for one in self.query(BarButton) if one.display).focus()
        return True


VIEW = StepView(
    "panel",
    groups=(
        Group(
            "", (PanelKey.SEAM, PanelKey.LEG, PanelKey.COVERAGE, PanelKey.TAKE_UP, PanelKey.PAN)
        ),
        Group(
            "What your machine says of this profile",
            (
                MachineKey.PROFILE_NARROWEST,
                MachineKey.PROFILE_WIDEST,
                MachineKey.PROFILE_TAKE_UP,
                MachineKey.PROFILE_LOWEST_PITCH,
            ),
        ),
        Group(
            "Layout",
            (
                PanelKey.START,
                PanelKey.OFFSET,
                PanelKey.NARROWEST_END,
                PanelKey.END_ALLOWANCE,
                PanelKey.ROUNDING,
            ),
        ),
        Group(
            "What they are fixed to",
            (
                PanelKey.DECK,
                PanelKey.CLIP_TRAVEL,
                PanelKey.CLIP_SPACING,
            ),
        ),
        Group(
            "Tested assembly",
            (
                PanelKey.REPORT,
                PanelKey.REPORT_WIDEST,
                PanelKey.REPORT_THINNEST,
                PanelKey.REPORT_METAL,
                PanelKey.REPORT_DECK,
                PanelKey.REPORT_CLIP_SPACING,
            ),
        ),
        Group(
            "Beside the coil, counted (optional)",
            (
                PanelKey.CLIP_ALLOWANCE,
                PanelKey.CLIP_FASTENERS,
                PanelKey.FASTENER_ALLOWANCE,
                PanelKey.UNDERLAYMENT_ALLOWANCE,
                PanelKey.CLOSURE_ALLOWANCE,
                PanelKey.SEALANT_BEADS,
                PanelKey.SEALANT_ALLOWANCE,
            ),
        ),
    ),
    headlines=(
        Headline(Key.STRIP_WIDTH, "Strip width"),
        Headline(Key.PANELS_COUNT, "Panels"),
        Headline(Key.COIL_LENGTH_ORDERED, "Order"),
        Headline(Key.ROOF_AREA, "Covered roof"),
        Headline(Key.PANELS_LONGEST, "Longest"),
        Headline(Key.COIL_MASS_ORDERED, "Weight"),
    ),
    drawing=plane_drawing,
    above=(ProfileBlock,),
    below=(EndsBlock,),
)
