"""The Job step: who it is for, by when, and who decides."""

from __future__ import annotations

from coilwright.job.answers.job import JobKey
from coilwright.values.keys import Key
from coilwright.wizard.step_view import Group, Headline, StepView

VIEW = StepView(
    "job",
    groups=(
        Group("", (
            JobKey.NAME, JobKey.UNITS, JobKey.CLIENT, JobKey.SITE,
            JobKey.BUILDING_USE, JobKey.NEEDED_BY, JobKey.ENGINEERED, JobKey.DESIGNER,
            JobKey.TRIM_IN_HOUSE, JobKey.SALT_WATER, JobKey.COLDEST, JobKey.HOTTEST,
            JobKey.LONGEST_HANDLED,
            # Last, as metric units bring it: the rows below those stay where they are.
            JobKey.CURRENCY,
        )),
    ),
    headlines=(
        Headline(Key.ROOF_AREA, "Roof area"),
        Headline(Key.PANELS_COUNT, "Panels"),
        Headline(Key.COIL_MASS_ORDERED, "Order weight"),
        Headline(Key.PANEL_MOVEMENT, "Heat movement"),
    ),
)
