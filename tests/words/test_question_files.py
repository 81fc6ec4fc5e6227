"""Reading the file of questions: an entry that does not fit is refused, named by its key."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

from coilwright.job.questions import QuestionWords, read_questions
from coilwright.words import GuidanceError, read_words

GOOD = """
[supplier.lead_time]
ask = "When will it be on site?"
why = "The crew is booked by it."
good = "In ten days."
otherwise = "The crew waits."
"""
FILLS = """
[metal.painted_side]
help = "Which side of the strip is painted."
why = "The machine forms one side up."
who = "machine maker"
ask = "Which side must be painted?"

[metal.painted_side.asked.supplier]
good = "Outside."
otherwise = "It is upside down."
"""
OF_AN_ANSWER = "metal.toml, metal.painted_side.asked.supplier"


def read(folder: Path, text: str = "", beside: str = "") -> dict[str, QuestionWords]:
    (folder / "_questions.toml").write_text(text, "utf-8")
    (folder / "metal.toml").write_text(beside, "utf-8")
    return read_questions(folder, read_words(folder))


def test_an_entry_is_read_as_written(tmp_path: Path) -> None:
    text = GOOD + """
when = { "metal.metal" = ["steel", "not known"], "job.engineered" = "yes" }
unless = { "metal.finish" = "bare, not painted" }
caution = "Mind the coil."
holds = true
"""
    assert read(tmp_path, text) == {
        "supplier.lead_time": QuestionWords(
            key="supplier.lead_time",
            who="supplier",
            ask="When will it be on site?",
            why="The crew is booked by it.",
            good="In ten days.",
            otherwise="The crew waits.",
            when={"metal.metal": ("steel", "not known"), "job.engineered": ("yes",)},
            unless={"metal.finish": ("bare, not painted",)},
            caution="Mind the coil.",
            holds=True,
        )
    }


def test_words_may_be_left_to_the_answer(tmp_path: Path) -> None:
    entry = read(tmp_path, beside=FILLS + 'settled_by = ["outside of the coil"]')[
        "supplier.painted_side"
    ]
    assert entry.answer == "metal.painted_side"
    assert entry.ask == "Which side must be painted?"
    assert entry.why == "The machine forms one side up."
    assert entry.settled_by == ("outside of the coil",)


def test_persons_come_in_the_order_they_are_asked(tmp_path: Path) -> None:
    text = GOOD + GOOD.replace("supplier", "building_department") + GOOD.replace(
        "supplier", "client"
    ).replace("lead_time", "dates")
    assert list(read(tmp_path, text)) == [
        "client.dates", "building_department.lead_time", "supplier.lead_time",
    ]  # fmt: skip


def test_of_one_person_first_what_the_order_names_then_the_others(tmp_path: Path) -> None:
    text = GOOD + GOOD.replace("lead_time", "camber")
    assert list(read(tmp_path, text, FILLS + 'name = "side"')) == [
        "supplier.lead_time", "supplier.camber", "supplier.side",
    ]  # fmt: skip
    order = '[order]\nsupplier = ["side", "camber"]\n'
    assert list(read(tmp_path, order + text, FILLS + 'name = "side"')) == [
        "supplier.side", "supplier.camber", "supplier.lead_time",
    ]  # fmt: skip


@pytest.mark.parametrize(
    ("text", "says"),
    [
        (GOOD + 'color = "red"', "unknown “color”"),
        (GOOD.replace("ask =", "caution ="), "ask is missing"),
        (GOOD.replace("In ten days.", " "), "good is missing"),
        (GOOD.replace("otherwise =", "caution ="), "otherwise is missing"),
        (GOOD.replace("on site?", "on site."), "end it with a question mark"),
        (GOOD + "holds = 1", "holds is neither true nor false"),
        (GOOD + 'holds = "yes"', "holds is neither true nor false"),
        (GOOD + "caution = 1", "caution is not a text"),
        (GOOD + 'answer = "metal.metal"', "unknown “answer”"),
        (GOOD + 'when = "always"', "when is no condition"),
        (GOOD + 'when = { "panel.weather" = "yes" }', "no answer is called “panel.weather”"),
        (GOOD + 'when = { "job.engineered" = "maybe" }', "“maybe” is no pick of job.engineered"),
        (GOOD + 'when = { "job.engineered" = 1 }', "neither a text in quotes nor a list"),
        (GOOD + 'when = { "job.engineered" = [] }', "neither a text in quotes nor a list"),
        (GOOD + 'when = { "panel.take_up" = "5 in" }', "not picked from a list"),
        (GOOD + 'unless = { "metal.metal" = "not known" }', "“not known” is no pick"),
        (GOOD + 'settled_by = ["yes"]', "settled_by needs an answer"),
    ],
)  # fmt: skip
def test_an_entry_that_does_not_fit_names_file_and_key(
    tmp_path: Path, text: str, says: str
) -> None:
    with pytest.raises(GuidanceError) as caught:
        read(tmp_path, text)
    message = str(caught.value)
    assert message.startswith("_questions.toml, supplier.lead_time")
    assert says in message
    assert "\n" not in message


@pytest.mark.parametrize(
    ("text", "says"),
    [
        (GOOD.replace("supplier", "plumber"), "plumber: nobody to ask"),
        ("[supplier]\nlead_time = 5", "supplier.lead_time: it is not an entry"),
        ("supplier = 5", "supplier: begin an entry with"),
        (GOOD + "holds = tru\n", "supplier.lead_time: "),
        ("order = 5", "order: write it as"),
        ('[order]\nclient = ["weather"]', "order: there is no question client.weather"),
    ],
)
def test_other_slips_name_the_place(tmp_path: Path, text: str, says: str) -> None:
    with pytest.raises(GuidanceError) as caught:
        read(tmp_path, text)
    assert str(caught.value).startswith(f"_questions.toml, {says}")


@pytest.mark.parametrize(
    ("beside", "says"),
    [
        (FILLS + 'settled_by = ["upward"]', ", settled_by: “upward” is no pick"),
        (FILLS + 'settled_by = "both sides"', ": settled_by is not a list"),
        (FILLS + 'color = "red"', ": unknown “color”"),
        (FILLS + "name = 5", ": name is not a text"),
        (FILLS + 'name = "lead_time"', ": another question is called supplier.lead_time"),
        (FILLS.replace("good", "caution"), ": good is missing"),
    ],
)
def test_a_slip_beside_an_answer_names_the_place(tmp_path: Path, beside: str, says: str) -> None:
    with pytest.raises(GuidanceError) as caught:
        read(tmp_path, GOOD, beside)
    assert str(caught.value).startswith(OF_AN_ANSWER + says)


@pytest.mark.parametrize(
    ("beside", "says"),
    [
        (FILLS.replace("supplier", "plumber"),
         "metal.toml, metal.painted_side.asked.plumber: nobody to ask"),
        (FILLS.replace(".supplier", ""), "metal.toml, metal.painted_side: asked names nobody"),
        (FILLS.replace("painted_side", "weather"),
         "metal.toml, metal.weather.asked.supplier: no answer is called “metal.weather”"),
    ],
)
def test_a_question_for_nobody_or_nothing_is_refused(
    tmp_path: Path, beside: str, says: str
) -> None:
    with pytest.raises(GuidanceError) as caught:
        read(tmp_path, beside=beside)
    assert str(caught.value).startswith(says)


def test_the_questions_load_without_textual_rich_or_pint() -> None:
    code = (
        "import sys; from coilwright.plan import questions, working; "
        "from coilwright.job import questions as q; from coilwright.words import glossary; "
        "q.all_questions(); glossary.glossary(); "
        "print(sorted({'textual', 'rich', 'pint'} & set(sys.modules)))"
    )
    run = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert run.stdout.strip() == "[]"
