"""The core stands by itself: no screens, no unit registry, no numpy."""

from __future__ import annotations

import re
import subprocess
import sys
from pathlib import Path

SOURCE = Path(__file__).resolve().parents[2] / "src"
HEAVY = ("textual", "rich", "pint", "numpy", "scipy", "shapely")
CORE = (
    "coilwright.units", "coilwright.values.formula", "coilwright.values.figure",
    "coilwright.job.answers",
    "coilwright.job.job", "coilwright.job.machine", "coilwright.job.edit", "coilwright.words",
    "coilwright.plan", "coilwright.plan.ask_first", "coilwright.store", "coilwright.store.shipped",
    "coilwright.drawing", "coilwright.sheets", "coilwright.cli",
)  # fmt: skip


def loaded_after(code: str) -> set[str]:
    """Heavy packages loaded by a clean interpreter that runs the code."""
    script = (
        f"import sys; sys.path.insert(0, {str(SOURCE)!r}); {code}; "
        f"print(*(m for m in {HEAVY!r} if m in sys.modules))"
    )
    run = subprocess.run(
        [sys.executable, "-c", script], capture_output=True, text=True, check=False
    )
    assert run.returncode == 0, run.stderr
    return set(run.stdout.split())


def test_importing_brings_in_nothing_heavy() -> None:
    """Nothing heavy after any of them, so after none by itself."""
    assert loaded_after("; ".join(f"import {module}" for module in CORE)) == set()


def test_a_plan_brings_in_nothing_heavy() -> None:
    code = (
        "from coilwright.store import shipped; from coilwright.plan import plan; "
        "from coilwright.plan.ask_first import ask_first; "
        "[(plan(j), [f.text() for f in plan(j).figures.values()]) "
        "for j in shipped.demo_jobs().values()]"
    )
    assert loaded_after(code) == set()


def test_calc_and_plan_read_no_files_and_no_clock() -> None:
    """Only the search for the best cut may look at the clock, to know when to stop."""
    banned = re.compile(r"^(from|import) (time|pathlib|os|io|random)\b|\bopen\("
                        r"|\.(today|now|utcnow)\(|\bfromtimestamp\b", re.M)
    for folder in ("calc", "plan"):
        for file in (SOURCE / "coilwright" / folder).rglob("*.py"):
            if "cutting" not in file.parts:
                assert banned.search(file.read_text("utf-8")) is None, file
