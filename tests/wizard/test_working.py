"""Every figure can be opened, down to the answers."""

from __future__ import annotations

import dataclasses
from collections.abc import Callable

from coilwright.plan import plan
from coilwright.plan.working import as_put_in, as_worked, put_in
from coilwright.store.shipped import demo_jobs
from coilwright.units import System
from coilwright.values.figure import Figure
from coilwright.values.formula import number_text
from coilwright.wizard.app import CoilwrightApp
from coilwright.wizard.screens.figures import WorkingScreen
from tests.wizard.pilot import driven
from tests.wizard.wizard_driving import READY, job_of, screen_text, settle, wizard


async def test_open_a_term_go_back_and_go_to_the_answer(
    app_on: Callable[..., CoilwrightApp]
) -> None:
    app = app_on(job_of(READY), "panel", "panel.take_up")
    async with driven(app, size=(80, 24)) as pilot:
        await settle(pilot)
        await pilot.press("f2")
        await settle(pilot)
        text = screen_text(app)
        assert "Strip width" in text
        assert "c + u" in text
        assert "16 + 5" in text
        assert "21 in" in text
        await pilot.press("down", "enter")
        await settle(pilot)
        assert "source  your answer" in screen_text(app)
        await pilot.press("backspace")
        await settle(pilot)
        assert "16 + 5" in screen_text(app)
        # The term that was opened is still marked.
        await pilot.press("g")
        await settle(pilot)
        field = wizard(app).focused_field()
        assert field is not None
        assert field.key == "panel.take_up"


def _all_figures() -> list[Figure]:
    figures: dict[int, Figure] = {}
    for job in (job_of(READY), *demo_jobs().values()):
        for figure in plan(job).figures.values():
            for part in figure.below():
                figures.setdefault(id(part), part)
    return list(figures.values())


def test_the_numbers_put_in_give_the_result() -> None:
    """The written-out equation, evaluated as arithmetic, is the figure's value."""
    import math

    checked = 0
    for figure in _all_figures():
        text = put_in(figure)
        if not text or figure.formula is None:
            continue
        # The numbers are written to a few digits, so only those written whole are checked here.
        terms = [float(number_text(t.value).replace("−", "-")) for t in figure.terms]
        if any(abs(v - t.value) > 1e-9 * abs(t.value) for v, t in zip(terms, figure.terms,
                                                                     strict=True)):
            continue
        python = (text.replace("·", "*").replace("−", "-").replace("²", "**2")
                  .replace("³", "**3").replace("π", "pi"))
        if any(c in python for c in "⌈⌉⌊⌋√|Σ…") or "min(" in python or "max(" in python:
            continue
        value = eval(python, {"__builtins__": {}}, {"pi": math.pi})
        # Two equal numbers taken from each other leave the last bits of the larger one.
        noise = 1e-12 * max(1.0, *(abs(t) for t in terms))
        assert math.isclose(value, figure.value, rel_tol=1e-9, abs_tol=noise), (figure.key, text)
        checked += 1
    assert checked > 50


def test_every_number_put_in_stands_beside_what_is_read() -> None:
    """Whoever reads 67 ft 0 in finds the 804 that stands in the equation."""
    for figure in _all_figures():
        for term in figure.terms if put_in(figure) else ():
            said = as_put_in(term, System.US, figure)
            assert number_text(term.value) in said.replace("°", " ").split(), (figure.key, said)


def test_a_metric_working_counts_in_meters_and_kilograms_or_millimeters() -> None:
    figures = plan(dataclasses.replace(demo_jobs()["heron-lane-barn"], units=System.METRIC)).figures
    mass, strip = figures["coil.1.mass"], figures["strip.width"]
    assert put_in(mass, System.METRIC) == "2.507321·407.0954"
    assert as_worked(mass, System.METRIC) == "1020.719 kg = 1021 kg"
    assert put_in(strip, System.METRIC) == "406.4 + 127"
    assert as_worked(strip, System.METRIC) == "533.4 mm"


async def test_every_figure_of_the_demo_opens(app_on: Callable[..., CoilwrightApp]) -> None:
    job = demo_jobs()["quarry-house-hip"]
    app = app_on(job, "coils")
    async with driven(app, size=(80, 24)) as pilot:
        await settle(pilot)
        for key in list(wizard(app).session.plan.figures)[::7]:
            figure = wizard(app).session.plan.figures[key]
            app.push_screen(WorkingScreen(figure, job.units))
            await pilot.pause()
            assert figure.text(job.units) in screen_text(app)
            await pilot.press("escape")
            await pilot.pause()
