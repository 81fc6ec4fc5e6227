"""Columns of text: widths in cells, so that wide characters do not push a column aside."""

from __future__ import annotations

import doctest

import pytest
from rich.cells import cell_len as rich_cells

from coilwright.job.answers import ANSWERS
from coilwright.units import System
from coilwright.wizard.widgets import columns
from coilwright.wizard.widgets.ask_first import SETTLE, SO_FAR, shorten
from coilwright.wizard.widgets.columns import (
    Column,
    cells,
    fit,
    hang,
    left,
    natural_columns,
    pad,
    right,
    set_row,
    set_table,
    table_width,
    whole_sentences,
)
from coilwright.words import words
from coilwright.words.in_units import with_units
from tests.rules import for_each


def test_the_examples_hold() -> None:
    done = doctest.testmod(columns)
    assert done.attempted
    assert not done.failed


def test_wide_characters_take_two_cells() -> None:
    assert cells("板") == 2
    for made in (left("板", 5), right("板", 5), pad("板板板板", 5)):
        assert cells(made) == 5
    assert fit("板板", 3) == "板…"


def test_a_number_is_never_cut_and_a_name_is() -> None:
    columns_given = (Column(6, cut=True), Column(4, right=True))
    assert set_row(("a long name", "123,456"), columns_given) == "a lon… 123,456"
    assert set_row(("name", "12"), columns_given) == "name     12"


def test_every_row_of_a_table_is_as_wide_as_the_widest_texts_ask() -> None:
    rows = [("panels", "ordered"), ("板板板板", "1")]
    made = set_table(rows, right_from=1)
    assert [cells(line) for line in made] == [table_width(natural_columns(rows))] * 2
    assert made[1].endswith(" 1")


def test_a_row_with_a_text_too_many_is_refused() -> None:
    with pytest.raises(ValueError, match="zip"):
        set_row(("one", "two"), (Column(3),))


@for_each([
    "Heron Lane", "屋根工事の見積", "Ĉielo-domo", "🏠🏠 barn", "cafe\u0301 roof", "गाँव का घर",
    "בית על הגבעה",
    "A name that is longer than any column has room for, and goes on",
    "屋根工事の見積屋根工事の見積屋根工事の見積", "",
])  # fmt: skip
def test_what_follows_a_name_of_any_script_stands_in_its_column(name: str) -> None:
    """Widths are those of the terminal: rich's table of cells, which the screen paints by."""
    row = set_row((name, "1,234 lb"), (Column(24, cut=True), Column(10, right=True)))
    before = row[: row.index("  1,234 lb")] if name else row[: -len("1,234 lb")]
    assert rich_cells(row) == 24 + 1 + 10
    assert rich_cells(before) == 24 + 1 if name else before.isspace()
    assert row.endswith("1,234 lb")
    table = set_table(((name, "1 ft"), ("屋根", "22 ft")), right_from=1)
    assert len({rich_cells(line) for line in table}) == 1
    for width in range(1, 30):
        assert rich_cells(pad(name, width)) == width


@for_each(range(20, 60))
def test_no_line_that_hangs_is_longer_than_its_room(width: int) -> None:
    said = "Roof edges and openings need fall protection. Local rules say from what height."
    made = hang(((" ▲ ", ""), (said, "")), width, 3).plain.split("\n")
    assert all(rich_cells(line) <= width for line in made)
    assert " ".join(" ".join(made).split()) == f"▲ {said}"


@pytest.mark.quick
@pytest.mark.parametrize("moves", [
    "does not change the amount, but nothing can be ordered without it. The color is on one side",
    "does not change the amount over its usual range. The rack has a limit of its own",
    "does not change the amount to speak of. A coil with a larger hole sits loose on its arbor",
    "nothing can be ordered without it: strip width, length to order, weight to order wait for it",
    "strip 20 to 22 in; order 2,377 to 2,614 lb; would stop at 3/4 in: the strip is too wide",
    "A panel creased by wind or cut wrong needs metal of the same production lot",
])
def test_what_to_settle_first_is_never_cut(moves: str) -> None:
    """Beside the longest name of an answer, and in the narrowest terminal."""
    for answer in ANSWERS.values():
        for width in range(60, 101):
            room = width - cells(SETTLE) - cells(answer.label) - 2
            said = shorten(moves, room, SO_FAR)
            assert said
            assert "…" not in said
            assert cells(said) <= room


@pytest.mark.quick
def test_no_caution_of_an_answer_is_cut_where_most_people_read_it() -> None:
    """In two lines at 80 columns; narrower it ends with a sign, and never within a sentence."""
    for key in ANSWERS:
        for system in System:
            said = with_units(words(key).caution, system)
            assert whole_sentences(said, 76, 2, "… F1 says more") == said, key
            short = whole_sentences(said, 55, 2, "… F1 says more")
            assert short == said or short.endswith(("… F1 says more",)), key
            lines = str(hang(((short, ""),), 55, 0)).split("\n")
            assert len(lines) <= 2
            assert all(len(line.rstrip()) <= 55 for line in lines), key
