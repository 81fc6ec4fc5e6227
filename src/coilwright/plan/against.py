"""Checks of replies that are against what the job says, where they hold no order by themselves."""

from __future__ import annotations

from collections.abc import Iterator

from coilwright.calc import sources
from coilwright.job.agreement import read_agreement
from coilwright.job.answers.haul import HaulKey
from coilwright.job.choices import YesNo
from coilwright.job.questions import all_questions
from coilwright.plan.questions import Status, against_words, question_of
from coilwright.plan.view import View, care, stop
from coilwright.values.finding import Finding

_RACK = "machine_maker.rack_on_the_road"
_NOT_ON_THE_ROAD = ("not on the road", "not on the rack", "never on the road")


def check_against(view: View) -> Iterator[Finding]:
    """Coils on the rack that its maker forbids there, and replies against the order.

    A question that the order waits for holds it by itself until its reply agrees.
    """
    said, coils = view.job.questions.get(_RACK), view.value(HaulKey.RACK_COILS)
    if coils and said is not None and said.settled and (
            read_agreement(said.text, differs=_NOT_ON_THE_ROAD) is YesNo.NO):
        yield stop(
            "haul.rack_against", f"The machine maker replied “{said.text.strip().rstrip('.')}” to "
            "whether coils may ride on the rack; the job hauls coils on it.",
            "A rack that is not made for the road lets a coil work loose from its arbor behind "
            "you.", "Haul them low, tied down as cargo: take them off the rack here.",
            sources.TRADE, HaulKey.RACK_COILS, HaulKey.CARGO_COILS,
        )
    for words in all_questions().values():
        if not words.order_says or words.holds:
            continue
        question = question_of(view.job, words.key)
        if question.status is Status.AGAINST:
            yield care(
                f"questions.against.{words.key}", against_words(view.job, question),
                words.otherwise, "Settle one of the two before the order goes out: what it says "
                "is what the supplier is held to.", sources.TRADE, step="quotes")
