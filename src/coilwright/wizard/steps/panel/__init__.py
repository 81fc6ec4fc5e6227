"""Step 5: the seam, the width that shows, and the metal the legs take up."""

from __future__ import annotations

from textual.app import ComposeResult

from coilwright.job.answers.machine import MachineKey
from coilwright.job.answers.panel import PanelKey
from coilwright.values.keys import Key
from coilwright.wizard.lists.ends_block import EndsBlock
from coilwright.wizard.step_view import Group, Headline, StepView, plane_drawing
from coilwright.wizard.widgets.blocks import BarButton, Block, ButtonBar


class WidthsBar(Block):
    """A button that compares the coverage widths."""

    def compose(self) -> ComposeResult:
        """The button; where no width is known yet it says what is missing."""
        yield ButtonBar(
            BarButton("Compare widths (F8)", id="compare-widths", action="screen.widths"))


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
    below=(WidthsBar, EndsBlock),
)
