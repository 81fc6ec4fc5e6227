"""Of which lots the new coils are, by the tags of what came."""

from __future__ import annotations

from coilwright.job.plain_name import plain_name
from coilwright.plan.view import View


def lots_that_came(view: View) -> dict[str, str]:
    """The lots on the tags of what came for the new coils and was kept, as they are compared."""
    return {plain_name(one.lot): one.lot.strip() for one in view.job.arrived
            if one.lot.strip() and not one.is_gone}


def all_told(view: View) -> bool:
    """Whether the tag of each new coil for panels tells its lot: one speaks for no other."""
    told = {one.coil or 1 for one in view.job.arrived if one.lot.strip() and not one.is_gone}
    return all(coil.number in told for coil in view.coils if any(cut.plane for cut in coil.cuts))
