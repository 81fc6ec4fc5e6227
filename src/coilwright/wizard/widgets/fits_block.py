"""What the machine can form and carry, limit by limit, in words."""

from __future__ import annotations

from typing import TYPE_CHECKING

from coilwright.units import System
from coilwright.wizard.literal import pad
from coilwright.wizard.session import Session
from coilwright.wizard.widgets.text_block import TextBlock

if TYPE_CHECKING:
    from coilwright.plan import Fit


class FitsBlock(TextBlock):
    """Every size of the job held to the machine."""

    title = "Does it fit the machine?"

    def lines(self, session: Session, width: int) -> list[str]:
        """What, how much, the limits, fits or not: a line a limit where there is room."""
        system = session.job.units
        return [line for fit in session.plan.fits for line in fit_lines(fit, system, width)]


def fit_lines(fit: Fit, system: System, width: int) -> list[str]:
    """One limit in words."""
    if fit.too_little:
        word = "TOO LITTLE"
    elif fit.too_much:
        word = "TOO MUCH"
    elif not fit.known:
        word = "limit not known"
    else:
        word = "fits"
    least = fit.least.text(system) if fit.least else ""
    most = fit.most.text(system) if fit.most else ""
    if least and most:
        limits = f"{least} to {most}"
    elif most:
        limits = f"at most {most}"
    elif least:
        limits = f"at least {least}"
    else:
        limits = "—"
    value = f"{fit.value.text(system)}{' ~' if fit.value.mark else ''}"
    if width < 70:
        return [f"{pad(fit.name, 22)} {pad(value, 13)} {word}", f"  {limits}"]
    return [f"{pad(fit.name, 22)} {pad(value, 13)} {pad(limits, 22)} {word}"]
