"""A rule over many cases tells of every case that breaks it."""

from __future__ import annotations

import pytest

from tests.rules import for_each


def test_every_case_that_breaks_it_is_told() -> None:
    @for_each([1, 2, 3, 4])
    def even(number: int) -> None:
        assert number % 2 == 0

    with pytest.raises(pytest.fail.Exception) as told:
        even()
    assert str(told.value).startswith("2 of 4 break the rule\n1: AssertionError")
    assert "\n3: AssertionError" in str(told.value)


def test_parts_of_a_case_are_arguments_and_errors_are_told_too() -> None:
    @for_each({"a": 0, "b": 1}.items())
    def whole(name: str, number: int) -> None:
        assert name
        assert 1 // number

    with pytest.raises(pytest.fail.Exception, match="a, 0: ZeroDivisionError"):
        whole()


def test_a_case_that_should_have_been_refused_is_told() -> None:
    @for_each([("1", 2), ("x", 3)])
    def refused(text: str, _more: int) -> None:
        with pytest.raises(ValueError, match="invalid"):
            int(text)

    with pytest.raises(pytest.fail.Exception, match="1 of 2 break the rule\n1, 2: Failed: DID NOT"):
        refused()


def test_a_rule_without_a_case_fails() -> None:
    @for_each([])
    def nothing(_case: object) -> None:
        pass

    with pytest.raises(AssertionError, match="holds nothing"):
        nothing()
