"""Reading the files of words: an entry that does not fit is refused, named by file and key."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

from coilwright.words import GuidanceError, Words, read_cautions, read_words

GOOD = """
[panel.take_up]
help = "Usual 4 to 6 in."
why = "The legs use metal. It covers no roof."
who = "machine maker"
ask = "How much do the legs take up?"
"""


def written(folder: Path, text: str, name: str = "panel.toml") -> Path:
    (folder / name).write_text(text, "utf-8")
    return folder


def test_an_entry_is_read_as_written(tmp_path: Path) -> None:
    text = GOOD + """
usual = "5 in"
low = "4 in"
high = "6 in"
others = ["4.5 in"]
source = "common practice, no source"
caution = "Mind the edges."
"""
    assert read_words(written(tmp_path, text)) == {
        "panel.take_up": Words(
            help="Usual 4 to 6 in.",
            why="The legs use metal. It covers no roof.",
            who="machine maker",
            ask="How much do the legs take up?",
            usual="5 in",
            low="4 in",
            high="6 in",
            others=("4.5 in",),
            source="common practice, no source",
            caution="Mind the edges.",
        )
    }


def test_what_is_left_out_is_empty(tmp_path: Path) -> None:
    entry = read_words(written(tmp_path, GOOD))["panel.take_up"]
    assert (entry.usual, entry.low, entry.high, entry.others) == (None, None, None, ())
    assert (entry.source, entry.caution) == ("", "")


def test_you_need_no_question_to_yourself(tmp_path: Path) -> None:
    text = GOOD.replace("machine maker", "you").replace('ask = "How much do the legs take up?"', "")
    assert read_words(written(tmp_path, text))["panel.take_up"].ask == ""


@pytest.mark.parametrize(
    ("text", "says"),
    [
        pytest.param(GOOD + 'color = "red"', "unknown “color”", id="unknown field"),
        pytest.param(GOOD.replace("help =", "source ="), "help is missing", id="no help"),
        pytest.param(GOOD.replace("Usual 4 to 6 in.", "  "), "help is missing", id="blank help"),
        pytest.param(GOOD.replace("why =", "source ="), "why is missing", id="no why"),
        pytest.param(GOOD.replace("who =", "source ="), "who is missing", id="no who"),
        pytest.param(GOOD.replace("machine maker", "plumber"), "“plumber”", id="who not listed"),
        pytest.param(GOOD.replace("ask =", "source ="), "ask is missing", id="no question"),
        pytest.param(GOOD + "usual = 5", "usual is not a text", id="number without quotes"),
        pytest.param(GOOD + 'usual = "5 in"', "source is missing", id="usual without source"),
        pytest.param(GOOD + 'low = "4 in"', "source is missing", id="range without source"),
        pytest.param(GOOD + 'others = "4 in"', "others is not a list", id="others not a list"),
        pytest.param(GOOD + "others = [4]", "others is not a list", id="others not texts"),
        pytest.param("[panel]\ntake_up = 5", "not an entry", id="value for an entry"),
    ],
)
def test_an_entry_that_does_not_fit_names_file_and_key(
    tmp_path: Path, text: str, says: str
) -> None:
    with pytest.raises(GuidanceError) as caught:
        read_words(written(tmp_path, text))
    message = str(caught.value)
    assert message.startswith("panel.toml, panel.take_up: ")
    assert says in message


def test_broken_toml_names_file_key_and_line(tmp_path: Path) -> None:
    text = GOOD + "usual = 5 in\n[panel.start]\n"
    with pytest.raises(GuidanceError, match=r"^panel\.toml, panel\.take_up: .*line 7"):
        read_words(written(tmp_path, text))


def test_broken_toml_at_the_end_names_file_and_key(tmp_path: Path) -> None:
    with pytest.raises(GuidanceError, match=r"^panel\.toml, panel\.take_up: "):
        read_words(written(tmp_path, GOOD + 'usual = "5 in'))


def test_broken_toml_before_any_entry_names_the_file(tmp_path: Path) -> None:
    with pytest.raises(GuidanceError, match=r"^panel\.toml: .*line 1"):
        read_words(written(tmp_path, "the panel" + GOOD))


def test_a_byte_order_mark_does_no_harm(tmp_path: Path) -> None:
    assert list(read_words(written(tmp_path, "\ufeff" + GOOD))) == ["panel.take_up"]


def test_text_in_another_encoding_names_the_file(tmp_path: Path) -> None:
    (tmp_path / "panel.toml").write_bytes(GOOD.replace("4 to 6 in", "4 to 6 °").encode("latin-1"))
    with pytest.raises(GuidanceError, match=r"^panel\.toml: it is not UTF-8"):
        read_words(tmp_path)


def test_a_line_outside_any_entry_names_the_file(tmp_path: Path) -> None:
    with pytest.raises(GuidanceError, match=r"^panel\.toml, help: it stands outside"):
        read_words(written(tmp_path, 'help = "Usual 4 to 6 in."' + GOOD))


def test_two_files_with_one_entry_are_refused(tmp_path: Path) -> None:
    written(tmp_path, GOOD, "a.toml")
    written(tmp_path, GOOD, "b.toml")
    with pytest.raises(GuidanceError, match=r"^b\.toml, panel\.take_up: another file"):
        read_words(tmp_path)


def test_other_files_in_the_folder_are_passed_over(tmp_path: Path) -> None:
    written(tmp_path, GOOD)
    written(tmp_path, "not words", "notes.txt")
    written(tmp_path, "not words", "_other.toml")
    assert list(read_words(tmp_path)) == ["panel.take_up"]


def test_cautions_are_read_by_step(tmp_path: Path) -> None:
    text = 'roof = ["Mind the edge.", "Mind the wind."]'
    assert read_cautions(written(tmp_path, text, "_cautions.toml")) == {
        "roof": ("Mind the edge.", "Mind the wind.")
    }


@pytest.mark.parametrize("text", ['roof = "Mind the edge."', "roof = [1]", 'roof = [" "]'])
def test_cautions_that_do_not_fit_name_file_and_step(tmp_path: Path, text: str) -> None:
    with pytest.raises(GuidanceError, match=r"^_cautions\.toml, roof: it is not a list"):
        read_cautions(written(tmp_path, text, "_cautions.toml"))


def test_the_words_load_without_textual_rich_or_pint() -> None:
    code = (
        "import sys, coilwright.words as g; g.all_words(); g.cautions('coils'); "
        "print(sorted({'textual', 'rich', 'pint'} & set(sys.modules)))"
    )
    run = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert run.stdout.strip() == "[]"
