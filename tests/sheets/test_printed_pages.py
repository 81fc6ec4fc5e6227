"""Sheets as a browser prints them: those that promise one page take one, on Letter and on A4."""

from __future__ import annotations

import dataclasses
import re
import shutil
import subprocess
from pathlib import Path

import pytest

from coilwright.job.job import Job
from coilwright.job.order import Order
from coilwright.plan import plan
from coilwright.sheets import render
from tests.cases import set_answers
from tests.endurance.browser import CHROMIUM
from tests.sheets.test_haul_sheet import hauled
from tests.sheets.trial_jobs import trial_jobs

FONT = "DejaVu Sans"
"""The widest of the usual fonts; in another one these pages are not the same pages."""
HEAD = Order(number="D-1041", revision="A", supplier="Birch & Daughters (invented), order desk",
             buyer="Demo Seam & Gutter (invented), R. Demo", bill_to="Box 12, Demoville (invented)",
             ship_to="Quarry Rise 9, top of the steep drive (invented)", hours="Mon to Fri, 7 to 3",
             unloading="forklift", freight="prepaid by supplier, added to the bill")


def has_font() -> bool:
    """Whether a page's `sans-serif` is the font that these pages were looked at in."""
    if shutil.which("fc-match") is None:
        return False
    found = subprocess.run(["fc-match", "sans-serif"], capture_output=True, text=True, check=False)
    return FONT in found.stdout


def pages(job: Job, kind: str, paper: str, folder: Path) -> int:
    """Pages a sheet takes on a paper."""
    assert CHROMIUM is not None
    html = render(kind, plan(dataclasses.replace(job, order=HEAD)), "html")
    sized = re.sub(r"(@page(?: card)? \{)", rf"\1 size: {paper};", html)
    page, made = folder / f"{kind}.html", folder / f"{kind}.pdf"
    page.write_text(sized, "utf-8")
    subprocess.run(
        [CHROMIUM, "--headless", "--no-sandbox", "--disable-gpu", "--no-first-run",
         "--no-pdf-header-footer", f"--user-data-dir={folder / 'browser'}",
         f"--print-to-pdf={made}", page.as_uri()], capture_output=True, check=True)
    return len(re.findall(rb"/Type /Page\b(?!s)", made.read_bytes()))


@pytest.mark.slow
@pytest.mark.skipif(CHROMIUM is None or not has_font(), reason="no Chromium, or another font")
@pytest.mark.parametrize("paper", ["letter", "a4"])
def test_order_and_card_take_one_page(paper: str, tmp_path: Path) -> None:
    """The fullest order of the trial jobs; the fullest card: all chosen, no plate read, 6 coils."""
    order = trial_jobs()["quarry-house-hip"]
    assert pages(order, "order", paper, tmp_path) == 1
    assert pages(set_answers(hauled(), {"machine.arbor_load": 250.0}), "haul", paper, tmp_path) == 1
    # What counts pages sees more than one where there are more; a guess's mark takes room too.
    assert 1 < pages(order, "run", paper, tmp_path) <= 6
