"""Openings in labelled boxes: on a building's face and in a measured plane, in one list."""

from __future__ import annotations

import dataclasses
from collections.abc import Callable

import pytest
from textual.widgets import Static

from coilwright.job.roof import Building, MeasuredTo, Opening, Plane
from coilwright.wizard.app import CoilwrightApp
from coilwright.wizard.lists.entry import EntryScreen
from coilwright.wizard.lists.opening_rows import split_sizes
from coilwright.wizard.steps.roof import Faces
from tests.cases import building, with_planes
from tests.wizard.pilot import driven
from tests.wizard.wizard_driving import screen_text, settle, wizard

AppOn = Callable[..., CoilwrightApp]


@pytest.mark.quick
@pytest.mark.parametrize(("box", "text", "found"), [
    ("width", "2 x 3 ft", {"width": "2 ft", "height": "3 ft"}),
    ("width", "21 by 45 in", {"width": "21 in", "height": "45 in"}),
    ("height", "2' 6\" × 4'", {"width": "2' 6\"", "height": "4'"}),
    ("left", "10 ft, 4 ft, 2 ft, 3 ft",
     {"left": "10 ft", "up": "4 ft", "width": "2 ft", "height": "3 ft"}),
    ("width", "2 ft 6 in", {}),
    ("width", "3 1/2", {}),
    ("up", "2 x 3 ft", {}),
    ("width", "0,6 x 0,9 m", {"width": "0,6 m", "height": "0,9 m"}),
    ("left", "3,5; 1,2; 0,6; 0,9",
     {"left": "3,5", "up": "1,2", "width": "0,6", "height": "0,9"}),
    ("left", "3,5, 1,2", {}),
    ("width", "2 x", {}),
])
def test_a_text_of_several_sizes_fills_several_boxes(
    box: str, text: str, found: dict[str, str]
) -> None:
    assert split_sizes(box, text) == found


async def test_openings_of_a_building_and_of_a_plane_in_one_list(app_on: AppOn) -> None:
    job = with_planes(building(Building.HIP), Plane(
        name="Shed", eave=240.0, slope_length=120.0, pitch=3.0,
        openings=(Opening(left=24.0, up=24.0, width=24.0, height=24.0),)))
    app = app_on(job, "roof")
    async with driven(app, size=(80, 24)) as pilot:
        await settle(pilot)
        session = wizard(app).session
        # From above, a click on a face chooses it: 3 is the end at the right, 4 that at the left.
        faces = wizard(app).query_one(Faces)
        for column, chosen in ((4, 4), (1, 4), (None, 3)):
            faces.focus()
            await settle(pilot)
            wide = max(map(len, str(faces.render()).splitlines()))
            at = (wide - 4 if column is None else column, faces.size.height // 2 - 1)
            await pilot.click(faces, offset=at)
            await settle(pilot)
            assert session.chosen_plane == chosen
            assert f"[{chosen}]" in str(faces.render())
        others = wizard(app).query("AboveBlock Hanging").results(Static)
        below = [str(one.content) for one in others]
        assert below == [" Not in it, as nobody said where they lie: 5 Shed"]
        await pilot.press("enter", "left")  # by keyboard: the next, and back
        await settle(pilot)
        assert session.chosen_plane == 3
        wizard(app).query_one("#opening-rows").focus()
        await settle(pilot)
        assert "5 Shed" in screen_text(app)
        assert "2 ft × 2 ft, 2 ft from left, 2 ft up" in screen_text(app)
        await pilot.press("a")
        await settle(pilot)
        assert "Which plane does it lie in?" in screen_text(app)
        assert "▸3 End 1" in screen_text(app)  # the plane that was drawn
        await pilot.press("enter")
        await settle(pilot)
        assert isinstance(app.screen, EntryScreen)
        assert "Opening 1 on End 1" in screen_text(app)
        assert "3 End 1" in screen_text(app)  # as the list of planes has it
        await pilot.press("down", "down", "right", "down")  # measured to its middle
        await pilot.press("f1")  # what the box asks, as on a step, and the keys
        await settle(pilot)
        help_text = screen_text(app)
        assert all(words in help_text for words in (
            "From left", "In short", "A length, such as 42 ft 6 in. A number alone is read in ft.",
            "Keys here"))
        await pilot.press("escape")
        await settle(pilot)
        for text in ("10 ft", "4 ft", "2 x 3 ft"):
            await pilot.paste(text)
            await pilot.press("down")
        await settle(pilot)
        made = session.job.roof.building_openings
        assert made == (Opening(on="End 1", left=120.0, up=48.0, width=24.0, height=36.0,
                                to=MeasuredTo.MIDDLE),)
        assert len(session.plan.planes[2].openings) == 1
        await pilot.press("escape")
        await settle(pilot)
        assert "3 End 1" in screen_text(app)
        await pilot.press("c", "escape")  # one more, which lies over the first
        await settle(pilot)
        assert "Opening 2 on End 1 cannot be drawn: it overlaps another" in " ".join(
            f.what for f in session.plan.findings)
        await pilot.press("d")
        await settle(pilot)
        assert session.job.roof.building_openings == made
        # The plane's own lies in the plane.
        await pilot.press("down", "enter")
        await settle(pilot)
        assert "Opening 1 on Shed" in screen_text(app)
        await pilot.press("f3", "escape")
        await settle(pilot)
        assert "roof.planes.0.openings.0" in session.plan.guesses
        assert session.job.roof.planes[0].openings == (dataclasses.replace(
            job.roof.planes[0].openings[0]),)
