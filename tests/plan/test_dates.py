"""Days between order and need: the figures, the last day to order, the ends of the calendar."""

from __future__ import annotations

import dataclasses
import datetime

import pytest

from coilwright.job.answers import Value
from coilwright.job.job import Job
from coilwright.job.life import Life, LifeStep, OrderState
from coilwright.plan import plan
from coilwright.values.standing import Standing
from tests.cases import guess, set_answers, small_gable
from tests.values.written import check


def dated(needed: str | None, lead: int | None, ordered: str | None) -> Job:
    given: dict[str, Value | None] = {
        "job.needed_by": datetime.date.fromisoformat(needed) if needed else None,
        "coils.lead_time": lead,
        "coils.order_date": datetime.date.fromisoformat(ordered) if ordered else None,
    }
    return set_answers(small_gable(), given)


def test_worked_by_hand() -> None:
    """1 March to 1 April is 31 days; less 21 leaves 10; the last day to order is 11 March."""
    done = plan(dated("2027-04-01", 21, "2027-03-01"))
    assert done.figures["coils.days"].value == 31
    assert done.figures["coils.days_spare"].value == 10
    assert done.figures["coils.days_spare"].equation == "D − L"
    check(done.figures["coils.days_spare"])
    (told,) = [f for f in done.findings if f.key == "coils.order_by"]
    assert "Mar 11, 2027" in told.what
    assert "it leaves 10 days to spare" in told.what
    step = LifeStep(state=OrderState.ORDERED, date=datetime.date(2027, 3, 1))
    sent = dataclasses.replace(done.job, life=Life(steps=(step,)))
    assert "coils.order_by" not in {f.key for f in plan(sent).findings}, "it is ordered"


def test_a_leap_day_is_a_day() -> None:
    assert plan(dated("2028-03-01", 0, "2028-02-28")).figures["coils.days"].value == 2


def test_too_late_says_by_how_much_and_when_it_would_have_done() -> None:
    (told,) = [f for f in plan(dated("2027-04-01", 32, "2027-03-01")).findings
               if f.key.startswith(("coils.late", "coils.order_by"))]  # fmt: skip
    assert told.key == "coils.late"
    assert "1 day after Apr 1, 2027" in told.what
    assert "Feb 28, 2027" in told.do


@pytest.mark.parametrize(
    ("needed", "lead", "ordered"),
    [(None, 21, "2027-03-01"), ("2027-04-01", None, "2027-03-01"), ("2027-04-01", 21, None)],
)
def test_nothing_is_computed_for_what_is_not_given(
    needed: str | None, lead: int | None, ordered: str | None
) -> None:
    done = plan(dated(needed, lead, ordered))
    assert "coils.days_spare" not in done.figures
    given = {"job.needed_by": needed, "coils.order_date": ordered, "coils.lead_time": lead}
    lacking = tuple(key for key, value in given.items() if value is None)
    assert done.lacks["coils.days_spare"].needs == lacking, "the plan says what it waits for"


@pytest.mark.parametrize("key", ["job.needed_by", "coils.order_date", "coils.lead_time"])
def test_a_guess_marks_the_days_to_spare(key: str) -> None:
    done = plan(guess(dated("2027-04-01", 21, "2027-03-01"), key))
    assert done.figures["coils.days_spare"].standing is Standing.GUESS


@pytest.mark.parametrize(
    ("needed", "ordered"),
    [("0001-01-02", "9999-12-31"), ("9999-12-31", "0001-01-01"), ("0001-01-01", None)],
)
def test_the_ends_of_the_calendar_break_nothing(needed: str, ordered: str | None) -> None:
    assert plan(dated(needed, 730, ordered)).coils
