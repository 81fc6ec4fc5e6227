"""A data folder of its own for every test, and an app on it."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from coilwright.job.job import Job
from coilwright.store import Store
from coilwright.wizard.app import CoilwrightApp
from coilwright.wizard.session import Session


@pytest.fixture
def store(tmp_path: Path) -> Store:
    """An empty data folder."""
    return Store(tmp_path / "data")


@pytest.fixture
def app_on(store: Store) -> Callable[..., CoilwrightApp]:
    """An app that opens a job at a step, or the list of jobs."""

    def make(
        job: Job | None = None, at: str = "job", key: str | None = None,
        search_seconds: float = 0.0,
    ) -> CoilwrightApp:
        # No search for less metal starts by itself, but where a test is about it.
        session = None if job is None else Session(store, job, search_seconds=search_seconds)
        return CoilwrightApp(store, session, at, key)

    return make
