"""Lead times: days and weeks are read, working days are refused with what they can come to."""

from __future__ import annotations

import datetime

import pytest

from coilwright.job.answers import ANSWERS, UnreadableAnswer
from coilwright.job.edit import give_text
from coilwright.job.job import Job
from coilwright.units import System
from tests.rules import for_each

LEAD = ANSWERS["coils.lead_time"]


@for_each([("21", 21), ("21 days", 21), ("1 day", 1), ("3 weeks", 21), ("3 WKS", 21), ("2 w", 14),
     ("10 calendar days", 10), (" 4  weeks ", 28), ("0", 0)])  # fmt: skip
def test_days_and_weeks(typed: str, days: int) -> None:
    for system in System:
        assert LEAD.read(typed, system) == days


@pytest.mark.parametrize(
    "typed", ["2.5 weeks", "two weeks", "3 months", "-3", "1000 weeks", "21 lb"]
)
def test_what_is_not_a_number_of_days_is_refused_and_kept(typed: str) -> None:
    job, error = give_text(Job(), "coils.lead_time", typed)
    assert error
    assert job.typed == {"coils.lead_time": typed}


@for_each(range(1, 30))
def test_working_days_are_refused_with_the_most_they_can_be(count: int) -> None:
    """Counted on the calendar from each weekday, Saturdays and Sundays left out."""

    def calendar_days(start: datetime.date) -> int:
        day, left = start, count
        while left:
            day += datetime.timedelta(days=1)
            left -= day.weekday() < 5
        return (day - start).days

    most = max(calendar_days(datetime.date(2027, 3, d)) for d in range(1, 8))
    with pytest.raises(UnreadableAnswer, match=f"are up to {most} calendar days"):
        LEAD.read(f"{count} working days")
