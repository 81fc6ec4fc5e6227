"""The jobs that are kept, and how far each is where its file does not say it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from coilwright.store import Store, home

if TYPE_CHECKING:
    from coilwright.job.job import Job


def kept() -> Store:
    """The store of the data folder."""
    return Store(home(), _state)


def _state(job: Job) -> str:
    from coilwright.sheets.state import state_of_job  # costs start-up

    return state_of_job(job)
