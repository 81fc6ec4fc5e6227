"""The short versions, on a seed: soon over, and the same every time."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.endurance.browser import CHROMIUM, hostile_sheets
from tests.endurance.events import random_events
from tests.endurance.result import Result
from tests.endurance.trials import hostile_inputs, kills, races


@pytest.mark.slow
@pytest.mark.usefixtures("collected")
@pytest.mark.parametrize(("trial", "count"), [
    (kills, 2), (races, 6), (hostile_inputs, 1500), (random_events, 24),
])
def test_nothing_is_lost_and_nothing_falls_over(
    tmp_path: Path, trial: object, count: int
) -> None:
    result = trial(tmp_path, count, 1)  # type: ignore[operator]
    assert isinstance(result, Result)
    assert result.made == count
    assert result.faults == []


@pytest.mark.slow
@pytest.mark.skipif(CHROMIUM is None, reason="Chromium is not installed")
def test_no_script_of_a_sheet_runs_and_no_request_leaves(tmp_path: Path) -> None:
    result = hostile_sheets(tmp_path, 1)
    assert (result.made, result.faults) == (1, [])
