"""No size from 60 × 18 up takes a box, a standing or a button away.

Here at widths where the layout changes; `python -m tests.widths` goes through all of them.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.widths import JOBS, look

WHERE_IT_CHANGES = {
    "full": ((60, 18), (100, 24), (119, 40), (120, 24)),
    "empty": ((60, 18), (120, 24)),
}


@pytest.mark.parametrize("name", list(JOBS))
async def test_no_width_takes_anything_away(name: str, tmp_path: Path) -> None:
    assert await look(JOBS[name](), WHERE_IT_CHANGES[name], tmp_path) == {}
