"""Step 1: who it is for, by when, and who decides."""

from __future__ import annotations

from coilwright.wizard.step_view import Group, Headline, StepView

VIEW = StepView(
    "job",
    groups=(
        Group("", (
            "job.name", "job.units", "job.client", "job.site", "job.building_use",
            "job.needed_by", "job.engineered", "job.designer", "job.trim_in_house",
            "job.salt_water", "job.coldest", "job.hottest", "job.longest_handled",
        )),
    ),
    headlines=(
        Headline("roof.area", "Roof area"),
        Headline("panels.count", "Panels"),
        Headline("coil.mass_ordered", "Order weight"),
        Headline("panel.movement", "Heat movement"),
    ),
)
