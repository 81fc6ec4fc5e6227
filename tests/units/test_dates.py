"""Days as people write them, against the calendar of the standard library."""

from __future__ import annotations

import calendar
import datetime
import re

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from coilwright.units import (
    System,
    UnreadableQuantity,
    date_example,
    date_order,
    read_date,
    show_date,
)
from coilwright.words import words
from coilwright.words.in_units import with_units
from tests.rules import for_each

DAYS = st.dates(datetime.date(2000, 1, 1), datetime.date(2099, 12, 31))


@given(DAYS)
@settings(max_examples=100, deadline=None)
def test_every_usual_way_to_write_a_day_is_read(day: datetime.date) -> None:
    year, month, number = day.year, day.month, day.day
    for text in (
        day.isoformat(), f"{month}/{number}/{year}", f"{month:02}/{number:02}/{year % 100:02}",
        f"{month}-{number}-{year}", f"{month} {number}  {year}",
        f"{calendar.month_name[month]} {number}, {year}",
        f"{calendar.month_abbr[month]} {number} {year}",
        f"{calendar.month_abbr[month]}. {number}th, {year}",
        f"{number} {calendar.month_name[month]} {year}",
        f"{number}-{calendar.month_abbr[month]}-{year}",
    ):  # fmt: skip
        assert read_date(text) == day, text


@given(DAYS)
@settings(max_examples=100, deadline=None)
def test_where_it_could_be_either_way_it_is_asked_for(day: datetime.date) -> None:
    # With blanks the day is first, as the empty box says.
    assert read_date(f"{day.day} {day.month} {day.year}", System.METRIC) == day
    for text in (f"{day.day}/{day.month}/{day.year}", f"{day.day}-{day.month}-{day.year}"):
        if day.day > 12 or day.day == day.month:
            assert read_date(text, System.METRIC) == day
            continue
        with pytest.raises(UnreadableQuantity, match="either of two days") as caught:
            read_date(text, System.METRIC)
        said = str(caught.value).split(": write ")[1].rstrip(".").split(" or ")
        month_first = datetime.date(day.year, day.day, day.month)
        assert [read_date(words) for words in said] == [day, month_first], "the day first"
        assert said[0].startswith(f"{day.day} ")


def test_today_is_a_day_only_where_a_clock_is_at_hand() -> None:
    today = datetime.date(2027, 12, 31)
    assert read_date(" Today ", today=today) == today
    assert read_date("tomorrow", System.METRIC, today) == datetime.date(2028, 1, 1)
    with pytest.raises(UnreadableQuantity, match="is not a date"):
        read_date("today")


@for_each([
    ("", "is not a date"), ("next week", "is not a date"), ("1/2", "is not a date"),
    ("13/13/2027", "no calendar has"), ("2/30/2027", "no calendar has"),
    ("Smarch 3 2027", "names no month"), ("Ju 3 2027", "is not a date"),
    ("jun 0 2027", "no calendar has"), ("9" * 40, "is not a date"),
    ("2027-02-29", "no calendar has"),
])  # fmt: skip
def test_what_is_no_day_is_refused_with_a_sentence(text: str, said: str) -> None:
    with pytest.raises(UnreadableQuantity, match=said):
        read_date(text)


@for_each(list(System))
def test_what_is_shown_as_a_day_is_read_in_the_same_units(system: System) -> None:
    first, second = date_example(system).split(" or ")
    day = read_date(first, system)
    assert read_date(second, system) == day
    # What is asked for lies ahead, and so does its example, in the order that is written there.
    assert day > datetime.date(2030, 1, 1)
    assert read_date(show_date(day, system), system) == day
    assert date_order(system).startswith("month" if first.startswith("May") else "day")
    with pytest.raises(UnreadableQuantity, match=f"write {date_order(system)}, such as {first}"):
        read_date("soon", system)
    help_line = with_units(words("job.needed_by").help, system)
    assert first in help_line
    (example,) = re.findall(r"such as (.*)\.", with_units(words("coils.order_date").help, system))
    assert read_date(example, system) == datetime.date(2030, 5, 10)
    assert example.startswith("May" if system is System.US else "10")
