"""Step 4: the seam, the width that shows, and the metal the legs take up."""

from __future__ import annotations

from textual.app import ComposeResult

from coilwright.wizard.step_view import Group, Headline, StepView, plane_drawing
from coilwright.wizard.widgets.blocks import BarButton, Block, ButtonBar
from coilwright.wizard.widgets.ends_block import EndsBlock


class WidthsBar(Block):
    """A button that compares the coverage widths."""

    def compose(self) -> ComposeResult:
        """The button; where no width is known yet it says what is missing."""
        yield ButtonBar(
            BarButton("Compare widths (F8)", id="compare-widths", action="screen.widths"))


VIEW = StepView(
    "panel",
    groups=(
        Group("", ("panel.seam", "panel.leg", "panel.coverage", "panel.take_up",
                   "panel.pan")),
        Group("How panels lie", (
            "panel.start", "panel.offset", "panel.narrowest_end", "panel.end_allowance",
            "panel.rounding",
        )),
        Group("What they are fixed to", (
            "panel.deck", "panel.clip_travel", "panel.clip_spacing",
        )),
        Group("Tested assembly", (
            "panel.report", "panel.report_widest", "panel.report_thinnest", "panel.report_metal",
            "panel.report_deck", "panel.report_clip_spacing",
        )),
        Group("Beside the coil, counted (optional)", (
            "panel.clip_allowance", "panel.clip_fasteners", "panel.fastener_allowance",
            "panel.underlayment_allowance", "panel.closure_allowance", "panel.sealant_beads",
            "panel.sealant_allowance",
        )),
    ),
    headlines=(
        Headline("strip.width", "Strip width"),
        Headline("panels.count", "Panels"),
        Headline("coil.length_ordered", "Order"),
        Headline("roof.area", "Covered roof"),
        Headline("panels.longest", "Longest"),
        Headline("coil.mass_ordered", "Weight"),
    ),
    drawing=plane_drawing,
    below=(WidthsBar, EndsBlock),
)
