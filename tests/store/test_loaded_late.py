"""What reads files is loaded with the first file: the start screen and a new job do without."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

from coilwright.job.edit import new_job
from coilwright.store import Store

START = """
import asyncio, sys
from pathlib import Path
from coilwright.store import Store
from coilwright.wizard.app import CoilwrightApp
from tests.wizard.pilot import driven

async def run(*keys):
    app = CoilwrightApp(Store(Path(sys.argv[1])))
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.pause()
        await app.workers.wait_for_complete()
        await pilot.press(*keys)
        await pilot.pause()
        print(type(app.screen).__name__, "pydantic" in sys.modules)

"""


def said(script: str, folder: Path) -> str:
    """What a clean interpreter prints."""
    run = subprocess.run(
        [sys.executable, "-c", script, str(folder)], capture_output=True, encoding="utf-8",
        check=False,
    )  # fmt: skip
    assert run.returncode == 0, run.stderr
    return run.stdout.strip()


def test_the_start_screen_and_a_new_job_load_no_reader(tmp_path: Path) -> None:
    Store(tmp_path).create(new_job("Barn"))
    assert said(START + 'asyncio.run(run("n"))', tmp_path) == "WizardScreen False"


def test_opening_a_saved_job_loads_it(tmp_path: Path) -> None:
    """So that the test above cannot pass for a wrong reason."""
    Store(tmp_path).create(new_job("Barn"))
    assert said(START + 'asyncio.run(run("down", "enter"))', tmp_path) == "WizardScreen True"


@pytest.mark.parametrize("command", ["jobs", "demo"])
def test_lists_of_jobs_load_neither_reader_nor_plan(command: str, tmp_path: Path) -> None:
    Store(tmp_path).create(new_job("Barn"))
    more = ', "--list"' if command == "demo" else ""
    script = (
        "import os, sys; os.environ['COILWRIGHT_HOME'] = sys.argv[1]; "
        f"from coilwright.cli import main; code = main(['{command}'{more}]); "
        "print(code, 'pydantic' in sys.modules, 'coilwright.plan' in sys.modules)"
    )
    assert said(script, tmp_path).splitlines()[-1] == "0 False False"
