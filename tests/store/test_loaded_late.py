"""What reads files is loaded with the first file, and what only saved, copied, sent or planned jobs
need after the first paint: the start screen and a new job do without."""

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
FIRST_PAINT = """
import asyncio, sys
from pathlib import Path
from coilwright import words
from coilwright.job.edit import new_job
from coilwright.store import Store
from coilwright.wizard.app import CoilwrightApp
from coilwright.wizard.session import Session
from coilwright.wizard.screens.wizard import WizardScreen

whole = WizardScreen._after_first_paint

async def painted(screen):
    print(*(name for name in sys.modules if name.startswith(("coilwright.", "pydantic"))))
    print(words._of.cache_info().currsize)
    await whole(screen)

async def run():
    WizardScreen._after_first_paint = painted
    store = Store(Path(sys.argv[1]))
    app = CoilwrightApp(store, Session(store, new_job()))
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.pause()

asyncio.run(run())
"""
LATE = ("pydantic", "coilwright.plan", "coilwright.sheets", "coilwright.job.shop",
        "coilwright.job.practice", "coilwright.job.questions", "coilwright.job.copies",
        "coilwright.job.sending", "coilwright.calc.roof.layout")
"""What takes long to load; a module that the first paint needs not is easily loaded by another."""


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


def test_the_first_paint_of_a_new_job_waits_for_nothing_else(tmp_path: Path) -> None:
    """The words of its own step are read until then, and those of no other."""
    modules, read = said(FIRST_PAINT, tmp_path).splitlines()
    assert "coilwright.job.quotes" in modules.split()
    assert [name for name in LATE if name in modules.split()] == []
    assert read == "1"


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
