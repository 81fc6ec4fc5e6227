"""The trim step: pieces by keyboard and mouse, texts that cannot be read, lines for the brake."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from coilwright.calc.roof.edges import EdgeKind
from coilwright.job.edit import new_job
from coilwright.job.job import Job
from coilwright.job.roof import OpeningWhat
from coilwright.job.rows import trim as edit_trim
from coilwright.job.trim import TrimFrom, TrimPiece
from coilwright.plan import plan
from coilwright.values.standing import Standing
from coilwright.wizard.app import CoilwrightApp
from coilwright.wizard.lists.block import RowsBlock
from coilwright.wizard.lists.entry import EntryScreen
from coilwright.wizard.lists.trim import TRIM, GoesOn
from coilwright.wizard.lists.trim_text import nest_lines
from coilwright.wizard.widgets.field import Field
from coilwright.words import usual_flat_width
from tests.rules import for_each
from tests.wizard.pilot import driven
from tests.wizard.wizard_driving import (
    READY,
    give_row,
    job_of,
    screen_lines,
    screen_text,
    settle,
    type_text,
    wizard,
)

Make = Callable[..., CoilwrightApp]
BLANKS = {"trim.lap": "4", "trim.blank": "10 ft"}


def trimmed(*pieces: TrimPiece) -> Job:
    """A whole job with these pieces."""
    return job_of(BLANKS, edit_trim.add(job_of(READY), *pieces))


def give(job: Job, index: int, name: str, text: str) -> tuple[Job, str]:
    return give_row(TRIM, job, index, name, text)


def test_every_kind_of_edge_and_opening_can_be_picked_and_has_a_usual_flat_width() -> None:
    assert {on.value for on in GoesOn} == {
        *(kind.value for kind in EdgeKind), *(what.noun for what in OpeningWhat), "elsewhere"}
    assert all(usual_flat_width(on.value) for on in GoesOn if on is not GoesOn.ELSEWHERE)


def test_a_length_of_its_own_divides_into_equal_runs_each_with_its_last_piece() -> None:
    """Eight rakes of 12 ft from 10 ft blanks are eight runs of two pieces, where 96 ft in one run
    take ten; a roof's own edges are runs already and ask nothing."""
    job = trimmed(TrimPiece(name="Rakes", flat_width=12.0))
    runs = next(asked.answer for asked in TRIM.asked(0) if asked.answer.key.endswith(".runs"))
    assert not runs.asked(job)
    job, _ = give(job, 0, "length", "96 ft")
    assert runs.asked(job)
    one = next(row for row in plan(job).trim if row.number == 1).count.value
    job, error = give(job, 0, "runs", "8")
    assert not error
    assert job.trim.pieces[0].runs == 8
    eight = next(row for row in plan(job).trim if row.number == 1).count.value
    assert (one, eight) == (10, 16)
    for text in ("0", "-2", "many", "1001"):
        assert give(job, 0, "runs", text)[1], text
    assert give(job, 0, "runs", "")[0].trim.pieces[0].runs == 1


@pytest.mark.parametrize(("units", "text"), [("US", "8 in"), ("metric", "200 mm")])
def test_a_usual_flat_width_is_a_guess_where_none_is_given(units: str, text: str) -> None:
    assert TRIM.guessed is not None
    job = job_of({"job.units": units}, edit_trim.add(
        new_job(), TrimPiece(name="A", kind=EdgeKind.EAVE), TrimPiece(name="B", legs=(3.0,)),
        TrimPiece(name="C")))
    filled, said = TRIM.guessed(job, 0)
    assert text in said
    assert filled.trim.pieces[0].flat_width == pytest.approx(8.0 if units == "US" else 200 / 25.4)
    typed, _ = give(job, 0, "flat_width", "wide")
    for other, index in ((job, 1), (job, 2), (typed, 0)):
        assert TRIM.guessed(other, index) == (other, ""), "legs given, nowhere, typed already"


def test_texts_follow_their_piece() -> None:
    job = edit_trim.add(new_job(), *(TrimPiece(name=n) for n in "ABC"))
    job, error = give(job, 1, "flat_width", "wide")
    assert error
    assert edit_trim.delete(job, 0).typed == {"trim.pieces.0.flat_width": "wide"}
    assert edit_trim.delete(job, 1).typed == {}
    assert edit_trim.delete(job, 2).typed == job.typed
    assert set(edit_trim.duplicate(job, 1).typed) == {
        "trim.pieces.1.flat_width", "trim.pieces.2.flat_width"}
    for change in (edit_trim.delete, edit_trim.duplicate):
        with pytest.raises(IndexError):
            change(job, 3)


def test_a_text_that_cannot_be_read_stops_the_piece_and_stays() -> None:
    job = trimmed(TrimPiece(name="Cap", flat_width=12, kind=EdgeKind.RIDGE, length=400.0))
    assert plan(job).ready
    job, error = give(job, 0, "length", "from here to there")
    assert error
    done = plan(job)
    assert not done.ready, "the ridge's own length must not stand in without a word"
    assert any("from here to there" in f.what for f in done.stops)
    job, error = give(job, 0, "length", "")
    assert not error
    assert plan(job).ready


@for_each([("legs", "3; 5 1/2 + 1", (3.0, 5.5, 1.0)), ("hems", "1/2", (0.5,)),
     ("flat_width", "14 1/2", 14.5), ("kind", "hip", EdgeKind.HIP), ("kind", "elsewhere", None),
     ("made_from", "flat sheet", TrimFrom.FLAT_SHEET), ("length", "12", 144.0),
     ("radius", "1/16", 0.0625), ("radius", "0", 0.0), ("angles", "90; 45°;135 deg", (90, 45, 135)),
     ("angles", "22,5", (22.5,)), ("thickness", "0.032", 0.032),
     ("lap", "0", 0.0), ("name", "  Ridge   cap ", "Ridge cap")])
def test_measures_are_read(name: str, text: str, value: object) -> None:
    job, error = give(edit_trim.add(new_job(), TrimPiece(name="A")), 0, name, text)
    assert not error
    assert getattr(job.trim.pieces[0], name) == value


@for_each([("legs", "3;;4"), ("legs", "3; -1"), ("flat_width", "0"), ("flat_width", "900"),
     ("length", "-4 ft"), ("angles", "90;"), ("angles", "180"), ("angles", "0"),
     ("angles", "right"),
     ("angles", "-45"), ("radius", "-1"), ("thickness", "0"), ("name", "x" * 61),
     ("kind", "gutter"), ("lap", "4 lb")])
def test_bad_measures_are_one_sentence_and_kept(name: str, text: str) -> None:
    job, error = give(edit_trim.add(new_job(), TrimPiece(name="A")), 0, name, text)
    assert error.endswith(".")
    assert job.typed == {f"trim.pieces.0.{name}": text}


def test_a_comma_that_parts_sizes_or_marks_decimals_is_asked_about_in_metric() -> None:
    job = job_of({"job.units": "metric"}, edit_trim.add(new_job(), TrimPiece(name="A")))
    _, error = give(job, 0, "legs", "12,8")
    assert "“12,8” can be one size or two: write 12.8, or 12; 8." in error
    for text, mm in (("12,8; 3", (12.8, 3.0)), ("12,8;", None), ("12, 8", (12.0, 8.0))):
        done, error = give(job, 0, "legs", text)
        assert bool(error) == (mm is None)
        assert mm is None or done.trim.pieces[0].legs == pytest.approx([s / 25.4 for s in mm])


def test_lines_for_the_brake_lose_no_blank() -> None:
    pieces = [TrimPiece(name=f"A piece with a long name {n}", flat_width=3.0 + n, length=900.0,
                        made_from=TrimFrom.FLAT_SHEET) for n in range(5)]
    job = job_of({"trim.sheet_width": "48", "trim.sheet_length": "10 ft"}, trimmed(*pieces))
    done = plan(job)
    (nest,) = done.nests
    for width in (50, 76, 120):
        lines = nest_lines(done, nest, width)
        assert all(len(line) <= width for line in lines)
        text = " ".join(" ".join(lines).split())
        for pattern in nest.patterns:
            for number, count in pattern.across:
                assert f"{count} × {done.trim[number - 1].flat_width.text()} " in text
        assert sum(line.count(" rows: ") + line.count(" row: ") for line in lines) == len(
            nest.patterns)


async def test_pieces_by_keyboard(app_on: Make) -> None:
    app = app_on(job_of(READY), "trim")
    async with driven(app, size=(80, 24), notifications=True) as pilot:
        await settle(pilot)
        session = wizard(app).session
        assert "1  Enter on a piece: its width flat" in screen_text(app)
        await pilot.press("e")
        await settle(pilot)
        assert "Trim laps by" in screen_text(app), "asked once there is a piece"
        names = [piece.name for piece in session.job.trim.pieces]
        assert names == ["Eave trim", "Rake trim", "Ridge cap"]
        await pilot.press("e")
        await settle(pilot)
        assert len(session.job.trim.pieces) == 3, "no kind of edge twice"
        assert all(piece.flat_width for piece in session.job.trim.pieces), "usual ones, as guesses"
        assert session.plan.guesses[-1] == "trim.pieces.2"
        for key, metal in (("s", TrimFrom.FLAT_SHEET), ("p", TrimFrom.PANEL_COIL)):
            await pilot.press(key)
            await settle(pilot)
            assert {piece.made_from for piece in session.job.trim.pieces} == {metal}
        await pilot.press("a")
        await settle(pilot)
        assert isinstance(app.screen, EntryScreen)
        await pilot.press(*"Odd", "down", "down", "down", *"7 1/2", "down", *"20 ft")
        await settle(pilot)
        await pilot.press("escape")
        await settle(pilot)
        piece = session.job.trim.pieces[3]
        assert (piece.name, piece.flat_width, piece.length) == ("Odd", 7.5, 240)
        assert isinstance(app.focused, type(wizard(app).query_one(RowsBlock).list))
        await pilot.press("c")
        await settle(pilot)
        await pilot.press("escape")
        await settle(pilot)
        assert [p.name for p in session.job.trim.pieces[3:]] == ["Odd", "Odd"]
        await pilot.press("d", "d")  # a key that is struck twice deletes one
        await settle(pilot)
        assert len(session.job.trim.pieces) == 4
        await pilot.press("ctrl+z")
        await settle(pilot)
        assert len(session.job.trim.pieces) == 5


async def test_pieces_by_mouse(app_on: Make) -> None:
    app = app_on(trimmed(TrimPiece(name="Cap", flat_width=12, length=400.0)), "trim")
    async with driven(app, size=(80, 24), notifications=True) as pilot:
        await settle(pilot)
        screen = wizard(app)
        block = screen.query_one(RowsBlock)
        for words, count in (("c copy", 2), ("d delete", 1)):
            word = next(w for w in block.query("RowWord") if str(w.render()) == words)
            if not block.list.has_focus:  # which piece is meant is shown first
                await pilot.click(word, times=2)  # a double click shows it too, and no more
                await settle(pilot)
                assert len(screen.session.job.trim.pieces) == 1
                assert "▸ shows which row is meant" in screen_text(app)
            await pilot.click(word)
            await settle(pilot)
            if isinstance(app.screen, EntryScreen):
                await pilot.click("#entry-done")
                await settle(pilot)
            assert len(screen.session.job.trim.pieces) == count
        await pilot.click(word)  # a double click: what the first one deleted is still said
        await settle(pilot)
        assert len(screen.session.job.trim.pieces) == 1
        assert "brings it back. Again deletes row ▸ too." in screen_text(app)
        screen.focused_field()
        screen.form.first()
        await settle(pilot)
        # The first click shows the mark, the next one opens the row that has it.
        await pilot.click("#trim-rows", offset=(10, 0))
        await settle(pilot)
        assert app.screen is screen
        assert block.list.has_focus
        await pilot.click("#trim-rows", offset=(10, 0))
        await settle(pilot)
        assert isinstance(app.screen, EntryScreen)


async def test_an_unreadable_flat_width_stays_in_its_box(app_on: Make) -> None:
    app = app_on(trimmed(TrimPiece(name="Cap", flat_width=12, length=400.0)), "trim")
    async with driven(app, size=(80, 24), notifications=True) as pilot:
        await settle(pilot)
        wizard(app).query_one(RowsBlock).list.focus()
        await pilot.press("enter")
        await settle(pilot)
        await pilot.press("down", "down", "down")
        await type_text(pilot, "a foot or so")
        await pilot.press("enter")
        await settle(pilot)
        assert "×" in screen_text(app)
        await pilot.press("escape")
        await settle(pilot)
        assert "unclear" in screen_text(app)
        await pilot.press("enter")
        await settle(pilot)
        assert "a foot or so" in screen_text(app)
        await pilot.press("ctrl+z")
        await settle(pilot)
        assert wizard_job(app).trim.pieces[0].flat_width == 12


def wizard_job(app: CoilwrightApp) -> Job:
    screen = app.screen
    assert isinstance(screen, EntryScreen)
    return screen.entry.job()


async def test_a_piece_is_a_guess_by_key_in_list_and_form(app_on: Make) -> None:
    app = app_on(trimmed(TrimPiece(name="Cap", flat_width=12, length=400.0)), "trim")
    async with driven(app, size=(80, 24), notifications=True) as pilot:
        await settle(pilot)
        session = wizard(app).session
        wizard(app).query_one(RowsBlock).list.focus()
        assert session.plan.ready
        for key, guess in (("g", True), ("g", False), ("f3", True), ("f4", False),
                           ("f3", True), ("y", False), ("y", False), ("f3", True)):
            await pilot.press(key)
            await settle(pilot)
            assert session.plan.guesses == (("trim.pieces.0",) if guess else ())
            # Beside the mark of the row one is at, not in its place.
            assert ("▸~1 Cap" in screen_text(app)) == guess
            assert ("▸ 1 Cap" in screen_text(app)) != guess
            assert ("~12 in flat" in screen_text(app)) == guess
        assert any(one.message == "Every piece is sure already." for one in app.notices), "no undo"
        await pilot.press("enter")
        await settle(pilot)
        assert isinstance(app.screen, EntryScreen)
        assert "Cap  (guess)" in screen_text(app)
        await pilot.click("#entry-turn")
        await settle(pilot)
        assert "Cap  (sure)" in screen_text(app)
        await pilot.click("#entry-turn")
        app.screen.query(Field).first().focus()
        await pilot.press("f4")
        await settle(pilot)
        assert "Cap  (sure)" in screen_text(app)
        assert session.plan.ready
        await pilot.press("f3", "down", "down", "down")
        await settle(pilot)
        assert not session.plan.ready
        # The usual width was what it guessed: one that is typed makes it sure.
        await pilot.press(*"11 in")
        await settle(pilot)
        assert "Cap  (sure)" in screen_text(app)
        assert session.plan.ready
        await pilot.press("f3", "escape", "ctrl+z")
        await settle(pilot)
        assert session.plan.ready


async def test_the_summary_leads_to_the_guessed_piece(app_on: Make) -> None:
    """The list is as high as its pieces, so that only the form scrolls: always to a whole row."""
    pieces = [TrimPiece(name=f"Piece {n}", flat_width=6, length=400.0) for n in range(1, 17)]
    job = trimmed(*pieces[:9], TrimPiece(name="Cap", flat_width=12, length=400.0), *pieces[9:])
    app = app_on(edit_trim.with_standing(job, 9, Standing.GUESS), "summary")
    async with driven(app, size=(80, 24), notifications=True) as pilot:
        await settle(pilot)
        assert "Trim “Cap”" in screen_text(app)
        await wizard(app).go_to_key("trim.pieces.9")
        await settle(pilot)
        rows, form = wizard(app).query_one(RowsBlock).list, wizard(app).form
        assert app.focused is rows
        assert rows.highlighted == 9
        assert rows.max_scroll_y == 0
        assert rows.size.height > form.size.height
        marked = []
        for key, where in (("", "~10 Cap"), ("down", "11 Piece 10"), ("up", "~10 Cap"),
                           ("pagedown", ""), ("end", "17 Piece 16"), ("pageup", ""),
                           ("shift+tab", ""),
                           ("tab", ""), ("home", " 1 Piece 1 ")):
            await pilot.press(*([key] if key else []))
            await settle(pilot)
            marked.append(rows.highlighted)
            lines = screen_lines(app)
            (row, ends), = [(line, lines[at + 1]) for at, line in enumerate(lines)
                            if line.startswith("▸")]
            if key != "shift+tab":
                assert where in row
                assert "in flat" in ends, "the whole row is in sight"
        assert any(line.startswith(" Pieces") for line in lines), "with what stands above the rows"
        page = form.size.height // 2  # two lines a piece
        assert marked == [9, 10, 9, 9 + page, 16, 16 - page, 16 - page, 16 - page, 0]
        # From an end of the list to that of the step; an arrow comes in at the row next to it.
        await pilot.press("home")
        await settle(pilot)
        assert wizard(app).focused_field() is next(iter(form.fields()))
        rows.focus()
        await settle(pilot)
        await pilot.press("end", "down")
        await settle(pilot)
        assert app.focused is not rows
        await pilot.press("up")
        await settle(pilot)
        assert (app.focused, rows.highlighted) == (rows, 16)
        line = wizard(app).query("CautionLine").first()
        line.focus()
        await settle(pilot)
        await pilot.press("4", "5")
        assert [one.message for one in app._notifications] == [
            "“4” changes nothing: this row takes no text. ↑ ↓ go to the boxes."], "told once"
        rows.focus()
        await settle(pilot)
        await pilot.press("shift+tab", "down")
        await settle(pilot)
        assert (app.focused, rows.highlighted) == (rows, 0)


async def test_bends_in_the_form_show_flat_width_plain_and_developed(app_on: Make) -> None:
    """The channel of FAA-H-8083-31, Airframe, vol. 1, ch. 4, typed in; see tests/published."""
    job = trimmed(TrimPiece(name="Channel", length=400.0))
    app = app_on(job_of({"metal.thickness": "0.040"}, job), "trim")
    async with driven(app, size=(80, 24), notifications=True) as pilot:
        await settle(pilot)
        wizard(app).query_one(RowsBlock).list.focus()
        await pilot.press("enter")
        await settle(pilot)
        screen = app.screen
        assert isinstance(screen, EntryScreen)
        for key, text in (("legs", "1; 2; 1"), ("radius", "0.16"), ("angles", "90; 90")):
            field = next(f for f in screen.entries if f.key.endswith(f".{key}"))
            assert field.display, key
            field.focus()
            await settle(pilot)
            await type_text(pilot, text)
            await settle(pilot)
        words = " ".join(screen_text(app).split())
        assert "Legs and hems added up: 4 in. With its bends: 3.758 in." in words
        assert next(f for f in screen.entries if f.key.endswith(".thickness")).idle


async def test_undo_of_the_piece_closes_its_form(app_on: Make) -> None:
    app = app_on(job_of(READY), "trim")
    async with driven(app, size=(80, 24), notifications=True) as pilot:
        await settle(pilot)
        await pilot.press("a")
        await settle(pilot)
        await pilot.press("ctrl+z")
        await settle(pilot)
        assert not wizard(app).session.job.trim.pieces
