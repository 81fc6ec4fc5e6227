"""Openings in labeled boxes: on a building's face and in a measured plane, in one list."""

from __future__ import annotations

import dataclasses
from collections.abc import Callable
from pathlib import Path

import pytest
from textual.widgets import Static

from coilwright.job.answers.meant import in_smaller_unit
from coilwright.job.job import Job
from coilwright.job.roof import (
    Building,
    MeasuredTo,
    Opening,
    OpeningMeasured,
    OpeningWhat,
    Plane,
    Shape,
    WingEnd,
)
from coilwright.store import Store
from coilwright.units import System
from coilwright.wizard.app import CoilwrightApp
from coilwright.wizard.lists.entry import EntryScreen
from coilwright.wizard.lists.job_rows import JobRows
from coilwright.wizard.lists.opening_measures import MEASURES
from coilwright.wizard.lists.opening_places import in_plane
from coilwright.wizard.lists.opening_rows import OPENINGS, OpeningRows
from coilwright.wizard.lists.openings import split_sizes
from coilwright.wizard.screens.pick import PickScreen
from coilwright.wizard.session import Session
from coilwright.wizard.steps.roof import Faces, FacesKeys, which_plane
from coilwright.wizard.widgets.field import Field
from tests.cases import building, set_answers, with_planes
from tests.rules import for_each
from tests.wizard.pilot import driven
from tests.wizard.wizard_driving import screen_lines, screen_text, settle, wizard

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


@pytest.mark.quick
def test_a_form_says_whose_left_it_is_and_what_was_measured_level() -> None:
    asked = {one.name: one for one in MEASURES}
    assert asked["left"].help.startswith("Standing before this eave, from its left end")
    assert [f"{asked['measured'].label} {pick}" for pick in OpeningMeasured] == [
        "Measured on the slope", "Measured its height in plan",
        "Measured place and height in plan"]


@for_each([
    ("width", "550", "550 mm"), ("width", " 1200 ", "1200 mm"), ("width", "0.55", ""),
    ("width", "550 m", ""), ("width", "550 mm", ""), ("left", "2500", "2500 mm"),
    ("left", "2.5", ""), ("width", "99999999", ""),
])
def test_millimeters_typed_in_a_box_of_meters_are_offered(
    name: str, text: str, wanted: str
) -> None:
    answer = next(one for one in MEASURES if one.name == name).typed("roof.openings.0").answer
    assert in_smaller_unit(answer, text, System.METRIC) == wanted


def about(job: Job, plane: int | None = None) -> list[str]:
    """What the form of the first opening says of it: of a building's, or of a plane's."""
    session = Session(Store(Path("nowhere")), job)
    form = OPENINGS if plane is None else dataclasses.replace(OPENINGS, place=in_plane(plane))
    assert form.entry.about is not None
    return list(form.entry.about(JobRows(form, session), 0, 76))


@pytest.mark.quick
def test_what_is_wrong_with_an_opening_is_said_in_its_form() -> None:
    """The gravest first, whether it lies on a face or in a measured plane."""
    chimney = Opening(on="Side 1", what=OpeningWhat.CHIMNEY, left=120.0, up=60.0, width=36.0,
                      height=36.0)

    def of(*openings: Opening) -> list[str]:
        job = building(Building.HIP)
        return about(dataclasses.replace(job, roof=dataclasses.replace(
            job.roof, building_openings=openings)))

    # At 6:12 a slope is √1.25 times as long as it is in plan: 36 in are 40 1/4.
    small = dataclasses.replace(chimney, width=24.0)
    assert of(dataclasses.replace(small, measured=OpeningMeasured.HEIGHT_IN_PLAN)) == [
        "3 ft in plan is 3 ft 4 1/4 in along this slope."]
    assert not of(small), "what was measured along the slope asks nothing more"
    assert of(chimney)[0].startswith("NOTE  A chimney is 3 ft wide")
    outside = of(dataclasses.replace(chimney, left=1.0))
    assert outside[0].startswith("STOP  Opening 1 on Side 1 cannot be drawn: the lower left corner")
    assert "(+1 more on the summary)" in outside[1]
    assert not of(dataclasses.replace(chimney, left=None, width=None)), "the title says it"
    trapezoid = Plane(name="Bay", shape=Shape.TRAPEZOID, eave=240.0, top=60.0, slope_length=120.0,
                      pitch=6.0, openings=(dataclasses.replace(chimney, on="", left=6.0),))
    said = about(with_planes(building(Building.HIP), trapezoid), 0)
    assert said[0].startswith("STOP  Bay cannot be drawn: Opening 1: the lower left corner")


@pytest.mark.quick
@pytest.mark.parametrize(("shape", "end", "more", "face", "words"), [
    # 20 ft of wing and two overhangs of 12 in are 22 ft; they begin 6 in left of a rake of 6 in.
    (Building.GABLED_ELL, "left", {}, "Front",
     "0 is this plane's left edge; its eave begins 21 ft 6 in right of it: "
     "add 21 ft 6 in to a length taped from where the eave begins."),
    (Building.GABLED_ELL, "right", {}, "Front", ""),
    (Building.GABLED_ELL, "left", {"rake_overhang": 24.0}, "Front",
     "0 is the left end of the left eave; the next eave begins 23 ft from there: "
     "add 23 ft to a length taped from where that begins."),
    (Building.CROSS, "left", {}, "Front",
     "0 is the left end of the left eave; the next eave begins 26 ft 6 in from there: "
     "add 26 ft 6 in to a length taped from where that begins."),
    # The valley leans 11 ft to the left, under half of 20 ft and two overhangs.
    (Building.ELL, "left", {"rake_overhang": 12.0}, "Front",
     "The plane reaches 11 ft left of 0; a place there has a minus."),
    (Building.ELL, "right", {}, "Front", ""),
    (Building.HIP, "left", {}, "Side 1", ""),
])
def test_where_from_left_begins_is_said_where_the_eave_does_not_say_it(
    shape: Building, end: str, more: dict[str, float], face: str, words: str
) -> None:
    job = building(shape, wing_width=240.0, wing_projection=144.0, wing_left=60.0, **more)
    job = set_answers(job, {"roof.wing_end": WingEnd(end)})
    chimney = Opening(on=face)
    assert " ".join(about(dataclasses.replace(job, roof=dataclasses.replace(
        job.roof, building_openings=(chimney,))))) == words


@pytest.mark.quick
def test_an_opening_that_lacks_a_size_is_not_made_sure_in_its_list() -> None:
    job = building(Building.HIP)
    session = Session(Store(Path("nowhere")), dataclasses.replace(job, roof=dataclasses.replace(
        job.roof, building_openings=(Opening(on="Side 1"),))))
    rows, job = OpeningRows(OPENINGS, session), session.job
    for key in ("turn", "guess", "sure"):
        outcome = rows.do(key, rows.lines()[0])
        assert outcome.say == "Opening 1 on Side 1 still needs measures: Enter opens it."
        assert not outcome.changed
        assert session.job is job


@pytest.mark.quick
def test_the_plane_of_a_new_opening_is_the_chosen_one_else_the_largest() -> None:
    session = Session(Store(Path("nowhere")), with_planes(building(Building.HIP), Plane(
        name="Shed", eave=2400.0, slope_length=240.0, pitch=3.0)))
    rows = OpeningRows(OPENINGS, session)
    assert which_plane(rows, None).value == "5 Shed"
    session.choose_plane(2)
    session.chosen_plane = 4  # drawn, as arrows passed it
    assert which_plane(rows, None).value == "2 Side 2"


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
        line = wizard(app).query_one(FacesKeys)
        await pilot.click(line, offset=(str(line.render()).index("Enter"), 0))
        await settle(pilot)
        assert session.chosen_plane != 3
        await pilot.press("left")
        await settle(pilot)
        assert session.chosen_plane == 3, "one click, one face"
        session.chosen_plane = 4  # arrows passed it in the list: it is marked in the drawing
        await pilot.click(line, offset=(str(line.render()).index("a add"), 0))
        await settle(pilot)
        assert isinstance(app.screen, PickScreen), "a click on words is as the key before them"
        assert app.screen.value.startswith("4 ")
        await pilot.press("escape")
        session.choose_plane(3)
        await settle(pilot)
        wizard(app).query_one("#opening-rows").focus()
        await settle(pilot)
        assert "5 Shed" in screen_text(app)
        assert "2 ft × 2 ft, 2 ft from left, 2 ft up" in screen_text(app)
        # Rows that arrows only pass on their way to the openings are not meant.
        wizard(app).query_one("#plane-rows").focus()
        await pilot.press(*["down"] * 2)
        assert session.chosen_plane == 5
        await pilot.press("down")
        assert app.focused is wizard(app).query_one("#opening-rows")
        await pilot.press("a")
        await settle(pilot)
        assert "Which plane does it lie in?" in screen_text(app)
        assert "▸3 End 1" in screen_text(app)  # the plane that was chosen from above
        await pilot.press("enter")
        await settle(pilot)
        assert isinstance(app.screen, EntryScreen)
        assert "Opening 1 on End 1" in screen_text(app)
        assert "3 End 1" in screen_text(app)  # as the list of planes has it
        # As on a step: the cursor stays on a pick, and what is typed next goes nowhere else.
        await pilot.press("down", "enter")
        await settle(pilot)
        await pilot.press("up", "enter")
        await settle(pilot)
        assert session.job.roof.building_openings[0].on == "Side 2"
        picked, job = app.focused, session.job
        assert "‹2 Side 2› ▾ Enter goes on" in screen_text(app)
        await pilot.press("x", "4")
        assert app.focused is picked
        assert session.job is job
        assert "“x” changed nothing" in next(iter(app._notifications)).message
        await pilot.press("right")
        assert len(app._notifications) == 0, "it was said of the key before"
        await pilot.press("down", "right", "down", "down")  # measured to its middle
        await pilot.press("f1")  # what the box asks, as on a step, and the keys
        await settle(pilot)
        help_text = screen_text(app)
        assert all(words in help_text for words in (
            "From left", "In short", "A length, such as 42 ft 6 in. A number alone, such as 12,",
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
        await pilot.press("c")  # one more, which lies over the first: said in its form at once
        await settle(pilot)
        assert "STOP  Opening 2 on End 1 cannot be drawn: it overlaps another" in screen_text(app)
        await pilot.press("escape")
        await settle(pilot)
        assert "Opening 2 on End 1 cannot be drawn: it overlaps another" in " ".join(
            f.what for f in session.plan.findings)
        await pilot.press("d")
        await settle(pilot)
        assert session.job.roof.building_openings == made
        # The plane's own lies in the plane; each is turned by the keys, one as the other.
        faces, own = "roof.building_openings.0", "roof.planes.0.openings.0"
        for key, guessed in (("f4", [faces]), ("down", [faces]), ("f3", [faces, own]),
                             ("f3", [faces]), ("up", [faces]), ("f4", [])):
            await pilot.press(key)
            assert sorted(session.job.standing) == guessed
        await pilot.press("down", "enter")
        await settle(pilot)
        assert "Opening 1 on Shed" in screen_text(app)
        assert "(sure)" in screen_text(app)
        for stands, then in (("a guess", "guess"), ("sure", "sure"), ("a guess", "guess")):
            assert f"Mark as {stands}" in screen_text(app)
            await pilot.click("#entry-turn")
            await settle(pilot)
            assert f"({then})" in screen_text(app)
        app.screen.query(Field).first().focus()
        await pilot.press("down", "down", "down")
        await pilot.paste("two feet or so")
        await pilot.press("escape")
        await settle(pilot)
        said = app.notices[0].message
        assert said.startswith("From left: “two feet or so” was not understood; it stands there")
        await pilot.press("enter")  # the box that was not understood has the focus
        await settle(pilot)
        assert "two feet or so" in screen_text(app)
        await pilot.paste("2 ft")
        await pilot.press("down", "down")
        await pilot.paste("150")  # meant in inches; in feet it is no hole in a roof
        await pilot.press("enter")
        await settle(pilot)
        said = " ".join(screen_text(app).replace("│", "").split())
        assert "150 ft is too much to be real; 100 ft or less is. 150 in? Enter takes it." in said
        # A click on the offer is as the key; one on the sentence before it is none.
        left, top = app.screen.query_one("#entry-help").region.offset
        at = {word: (line.index(word) - left, y - top)
              for y, line in enumerate(screen_lines(app))
              for word in ("too much", "takes it") if word in line}
        await pilot.click("#entry-help", offset=at["too much"])
        assert session.job.roof.planes[0].openings[0].width != 150.0
        await pilot.click("#entry-help", offset=at["takes it"])
        await settle(pilot)
        assert session.job.roof.planes[0].openings[0].width == 150.0
        await pilot.press("escape")
        await settle(pilot)
        assert "roof.planes.0.openings.0" in session.plan.guesses
        assert session.job.roof.planes[0].openings == (dataclasses.replace(
            job.roof.planes[0].openings[0], width=150.0),)
