"""A second job like an old one takes few keys; `python -m tests.key_counts` counts a first too."""

from __future__ import annotations

from pathlib import Path

from tests.key_counts import count

GOAL = 25


async def test_a_job_like_an_old_one_takes_few_control_keys(tmp_path: Path) -> None:
    counted = await count("expert", tmp_path)
    assert 0 < counted.control <= GOAL
