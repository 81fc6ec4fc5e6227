"""Step 8: loads on the road and in the air, against their plates."""

from __future__ import annotations

from coilwright.wizard.step_view import Group, StepView

VIEW = StepView("haul", groups=(Group("", ()),))
