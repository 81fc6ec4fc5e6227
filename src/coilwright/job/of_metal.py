"""What of an order's metal a price, a production lot and “has the color” are said of."""

from __future__ import annotations

from coilwright.job.answers.metal import MetalKey
from coilwright.job.answers.panel import PanelKey
from coilwright.job.confirmations import basis, changes
from coilwright.job.edit import as_asked
from coilwright.job.job import Job
from coilwright.job.life import Sent

OF_THE_METAL = (
    MetalKey.METAL, MetalKey.COATING, MetalKey.THICKNESS, MetalKey.THICKNESS_IS, MetalKey.FINISH,
    MetalKey.COLOR, PanelKey.COVERAGE, PanelKey.TAKE_UP,
)
"""The answers that say it."""


def given_now(job: Job) -> dict[str, str]:
    """What is asked of the metal now, which is what an awarded quote filled in only where nobody
    asked for anything else."""
    return basis(as_asked(job), OF_THE_METAL)


def confirmed_of(job: Job, sent: Sent) -> bool:
    """Whether its supplier wrote back on what was sent, that it stands, and the metal is still the
    one it named."""
    return (sent.confirmed is not None and sent.canceled is None and bool(sent.metal)
            and not changes(as_asked(job), sent.metal))
