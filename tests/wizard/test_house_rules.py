"""Rules of the house for the wizard's code."""

from __future__ import annotations

import re
import subprocess
import sys
from pathlib import Path

import coilwright.wizard
from coilwright.job.answers import answers_of
from coilwright.job.steps import STEPS
from coilwright.plan import plan
from coilwright.shipped import demo_jobs
from coilwright.values.figure import Figure
from coilwright.wizard.keys import START_KEYS, WIZARD_KEYS
from coilwright.wizard.step_view import view_of

HERE = Path(coilwright.wizard.__file__).parent
FILES = sorted(HERE.rglob("*.py"))


def test_every_answer_of_a_step_is_on_its_form_once() -> None:
    for step in STEPS:
        keys = view_of(step.key).keys
        assert sorted(keys) == sorted(a.key for a in answers_of(step.key))


def test_every_headline_is_a_figure() -> None:
    known: set[str] = set()
    for job in demo_jobs().values():
        found = plan(job)
        known |= set(found.figures) | set(found.lacks)
    for step in STEPS:
        for headline in view_of(step.key).headlines:
            assert headline.key in known or headline.key.startswith("roof."), headline


def test_every_key_has_an_id_words_and_a_tooltip() -> None:
    keys = [*WIZARD_KEYS, *START_KEYS]
    assert all(k.id and k.description and k.tooltip for k in keys)
    assert len({k.id for k in keys}) == len(keys)


def test_no_text_from_outside_is_parsed_as_markup() -> None:
    for path in FILES:
        code = path.read_text("utf-8")
        assert "from_markup" not in code, path
        assert "markup import" not in code, path
        for call in re.findall(r"notify\((?:[^()]|\([^()]*\))*\)", code):
            assert "markup=False" in call, (path, call)


def test_no_private_textual_names_and_no_files_too_long() -> None:
    for path in FILES:
        code = path.read_text("utf-8")
        assert not re.search(r"\bapp\._|screen\._compositor|\.query\._", code), path
        assert len(code.splitlines()) <= 400, path


def test_the_session_and_rows_know_no_screens() -> None:
    for name in ("session", "machines", "marks", "sheets_out", "lists/form", "lists/job_rows",
                 "lists/planes", "lists/openings", "lists/trim", "lists/arrivals",
                 "lists/coils_on_hand", "lists/coil_draft", "lists/run_done"):
        code = (HERE / f"{name}.py").read_text("utf-8")
        assert "import textual" not in code
        assert "from textual" not in code


def test_the_wizard_does_no_arithmetic_on_figures() -> None:
    """No figure's value is added, scaled or compared here: the plan does that."""
    for path in FILES:
        for line in path.read_text("utf-8").splitlines():
            assert not re.search(r"\.value\s*[-+*/<>]\s*[\w(]", line), (path, line)
            assert not re.search(r"[-+*/]\s*\w+\.value\b(?!\()", line), (path, line)
    assert Figure.__name__ == "Figure"


def test_starting_imports_neither_pint_nor_what_comes_later() -> None:
    code = (
        "import sys\n"
        "import coilwright.wizard.app, coilwright.wizard.screens.wizard, "
        "coilwright.wizard.steps.job\n"
        "late = ['pint', 'coilwright.ask_first', 'coilwright.sheets', 'coilwright.drawing', "
        "'coilwright.shipped', 'coilwright.wizard.screens.working', "
        "'coilwright.wizard.widgets.summary_block', 'coilwright.wizard.commands']\n"
        "print([name for name in late if name in sys.modules])\n"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "[]"
