"""Every line fits; every size works; color is never the only sign."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from textual.app import App, ComposeResult
from textual.containers import Vertical
from textual.content import Content

from coilwright.job.edit import new_job
from coilwright.job.steps import STEPS
from coilwright.store.shipped import demo_jobs
from coilwright.wizard.app import CoilwrightApp
from coilwright.wizard.progress import Mark, state_on
from coilwright.wizard.widgets.text import Text
from coilwright.words import cautions
from tests.wizard.pilot import driven
from tests.wizard.wizard_driving import (
    READY,
    job_of,
    screen_lines,
    screen_text,
    settle,
    wizard,
)

JOBS = {"empty": new_job(), "ready": job_of(READY), **demo_jobs()}


@pytest.mark.parametrize(("name", "size"), [
    ("empty", (80, 24)), ("mill-row-mistakes", (80, 24)), ("quarry-house-hip", (120, 40)),
])
async def test_every_line_fits_on_every_step(
    app_on: Callable[..., CoilwrightApp], size: tuple[int, int], name: str
) -> None:
    app = app_on(JOBS[name])
    async with driven(app, size=size) as pilot:
        for number, step in enumerate(STEPS, 1):
            await settle(pilot)
            lines = screen_lines(app)
            assert len(lines) == size[1]
            assert all(Content(line).cell_length == size[0] for line in lines)
            assert JOBS[name].title in lines[0]
            assert f"{number} of {len(STEPS)} · {step.title}" in lines[0]
            assert lines[0].rstrip().endswith(state_on(wizard(app).session.plan, step.key))
            assert "^b Back" in lines[1] + lines[-2]
            assert "^g Go to" in lines[-2]
            assert ("Summary" in lines[-2]) != (step is STEPS[-1])
            await pilot.press("ctrl+n")


@pytest.mark.parametrize("step", ["machine", "coils", "roof"])
async def test_a_caution_is_seen_on_steps_that_can_hurt(
    app_on: Callable[..., CoilwrightApp], step: str
) -> None:
    app = app_on(job_of(READY), step)
    async with driven(app, size=(80, 24)) as pilot:
        await settle(pilot)
        text = " ".join(screen_text(app).split())
        marks = [line for line in screen_lines(app) if "▲" in line]
        assert marks
        field = wizard(app).focused_field()
        from coilwright.words import words

        own = words(field.key).caution if field is not None else ""
        assert any(" ".join(c.split()) in text for c in (*cautions(step), own) if c)
        if step != "roof":
            return
        # Side by side none stands in the form and beside it at once, however much of it is seen.
        seen = set()
        for height in (30, 45, 50, 55, 60):
            await pilot.resize_terminal(104, height)
            await settle(pilot)
            shown = screen_text(app)
            seen.add(len([c for c in cautions(step) if c[:20] in shown]))
            assert all(shown.count(c[:20]) <= 1 for c in cautions(step)), height
        assert len(seen) > 1, "from one of them to all"


async def test_each_step_has_its_mark_as_sign_and_word(
    app_on: Callable[..., CoilwrightApp]
) -> None:
    from coilwright.wizard.progress import step_mark

    app = app_on(JOBS["mill-row-mistakes"])
    async with driven(app, size=(120, 40)) as pilot:
        await settle(pilot)
        lines = screen_lines(app)
        for number, step in enumerate(STEPS, 1):
            mark = step_mark(wizard(app).session.plan, step.key)
            word = step.title.split()[0]
            row = next(line for line in lines if f"{number:2} {word}" in line[:19])
            assert mark.sign in row[13:19]
            # What a sign means stands below the steps.
            assert any(line[:20].strip(" │") == f"{mark.sign} {mark.word}" for line in lines)
    assert len({m.sign for m in Mark}) == len(Mark)


async def test_resize_keeps_focus_and_text(app_on: Callable[..., CoilwrightApp]) -> None:
    app = app_on(new_job(), "panel", "panel.take_up")
    async with driven(app, size=(120, 40)) as pilot:
        await pilot.press(*"5.2")
        for width, height in ((80, 24), (60, 18), (140, 50), (99, 30), (100, 24)):
            await pilot.resize_terminal(width, height)
            await settle(pilot)
            field = wizard(app).focused_field()
            assert field is not None
            assert field.key == "panel.take_up"
            assert field.box.value == "5.2"
            assert all(
                Content(line).cell_length == width for line in screen_lines(app)
            )
            assert "Take-up" in screen_text(app)


async def test_too_small_says_one_clear_line_and_comes_back(
    app_on: Callable[..., CoilwrightApp]
) -> None:
    app = app_on(new_job())
    async with driven(app, size=(59, 17)) as pilot:
        await settle(pilot)
        seen = [line.strip() for line in screen_lines(app) if line.strip()]
        assert seen == ["Too small: needs 60 × 18, now 59 × 17."]
        await pilot.resize_terminal(80, 24)
        await settle(pilot)
        assert f"1 of {len(STEPS)} · Job" in screen_text(app)


async def test_no_color_still_says_everything_in_words(
    app_on: Callable[..., CoilwrightApp], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("NO_COLOR", "1")
    app = app_on(JOBS["mill-row-mistakes"], "panel")
    async with driven(app, size=(120, 40)) as pilot:
        await settle(pilot)
        assert app.no_color
        text = screen_text(app)
        for word in ("STOP", "sure", "! stop", "✓ done", "DRAFT"):
            assert word in text
        for strip in app.screen._compositor.render_strips():
            for segment in strip:
                for color in (segment.style and segment.style.color,):
                    if color is not None and color.triplet is not None:
                        r, g, b = color.triplet
                        assert r == g == b


async def test_light_and_dark_are_there(app_on: Callable[..., CoilwrightApp]) -> None:
    app = app_on(new_job())
    async with driven(app, size=(80, 24)) as pilot:
        for theme in ("coilwright-light", "coilwright-dark"):
            app.theme = theme
            await settle(pilot)
            assert f"1 of {len(STEPS)} · Job" in screen_text(app)


class _Hiding(App[None]):
    """A text in a box that is hidden, and one that is not."""

    def compose(self) -> ComposeResult:
        """The two."""
        with Vertical(id="hidden"):
            yield Text("one line", id="in-it")
        yield Text("one line", id="seen")


async def test_what_is_hidden_lays_nothing_out_until_it_is_shown() -> None:
    """The drawing that only a narrow screen has cost a wide one a layout at each letter."""
    app = _Hiding()
    async with driven(app, size=(40, 20)) as pilot:
        box, inside, seen = (app.query_one(f"#{name}") for name in ("hidden", "in-it", "seen"))
        assert isinstance(inside, Text)
        assert isinstance(seen, Text)
        box.display = False
        await settle(pilot)
        inside.update("two\nlines")
        assert not inside._another_size()
        seen.update("two\nlines")
        assert seen._another_size()
        box.display = True
        await settle(pilot)
        assert (inside.size.height, seen.size.height) == (2, 2)
