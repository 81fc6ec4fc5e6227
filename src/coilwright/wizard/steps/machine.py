"""Step 5: what the roll former can form, hold and carry."""

from __future__ import annotations

from coilwright.wizard.step_view import Group, Headline, StepView
from coilwright.wizard.widgets.fits_block import FitsBlock
from coilwright.wizard.widgets.machine_block import MachineBlock

VIEW = StepView(
    "machine",
    groups=(
        Group("", (
            "machine.name", "machine.thinnest", "machine.thickest", "machine.narrowest_strip",
            "machine.widest_strip",
        )),
        Group("Tooling for this seam and leg", (
            "machine.profile_narrowest", "machine.profile_widest", "machine.profile_take_up",
            "machine.profile_lowest_pitch",
        )),
        Group("Where the coil sits", (
            "machine.arbors", "machine.arbor_load", "machine.rack_load",
            "machine.rack_diameter", "machine.smallest_inside", "machine.largest_inside",
            "machine.decoiler_load", "machine.decoiler_diameter",
            "machine.decoiler_smallest_inside", "machine.decoiler_largest_inside",
        )),
        Group("Running", (
            "machine.thread_up", "machine.tail", "machine.speed", "machine.weight",
        )),
    ),
    headlines=(
        Headline("strip.width", "Strip width"),
        Headline("coil.1.mass", "Coil 1 weight"),
        Headline("coil.1.outside_diameter", "Coil 1 diameter"),
        Headline("coil.longest", "Longest coil it takes"),
        Headline("coil.heaviest", "Heaviest coil"),
        Headline("coil.count", "Coils to order"),
    ),
    above=(MachineBlock,),
    below=(FitsBlock,),
)
