"""What the machine can form and carry, limit by limit, in words."""

from __future__ import annotations

from coilwright.plan import Fit
from coilwright.units import System
from coilwright.wizard.literal import pad
from coilwright.wizard.session import Session
from coilwright.wizard.widgets.text_block import TextBlock


class FitsBlock(TextBlock):
    """Every size of the job held to the machine."""

    title = "Does it fit the machine?"

    def lines(self, session: Session, width: int) -> list[str]:
        """A line a limit: what, how much, the limits, fits or not."""
        return [fit_line(fit, session.job.units, width) for fit in session.plan.fits]


def fit_line(fit: Fit, system: System, width: int) -> str:
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
    if width < 60:
        return f"{pad(fit.name, 21)} {value}: {word} ({limits})"
    return f"{pad(fit.name, 22)} {pad(value, 14)} {pad(limits, 24)} {word}"
