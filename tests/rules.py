"""A rule held to many cases in one test, which tells of every case that breaks it."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable

import pytest

BRITISH = re.compile(
    r"\b(?:colour|aluminium|centre|galvanis|grey|mould|metre|tyre|licence)\w*"
)
"""Spellings that the program's American readers would stumble over."""

Check = Callable[..., None]


def case_name(argument: object) -> str:
    """What a case is called: the key or the name of an entry, or the text itself."""
    for attribute in ("key", "name"):
        if isinstance(name := getattr(argument, attribute, None), str):
            return name
    return str(argument)


def for_each(
    cases: Iterable[object], name: Callable[..., str] | None = None
) -> Callable[[Check], Callable[[], None]]:
    """One test of a check over all cases, instead of a test a case.

    cases: what the check is called with; the parts of a tuple are its arguments.
    name: gives the name of a case from its first argument; without it all of them are named.
    """
    held = [case if isinstance(case, tuple) else (case,) for case in cases]

    def rule(check: Check) -> Callable[[], None]:
        def test() -> None:
            broken = []
            for case in held:
                try:
                    check(*case)
                except (Exception, pytest.fail.Exception) as error:
                    told = "\n    ".join(f"{type(error).__name__}: {error}".splitlines())
                    called = name(case[0]) if name else ", ".join(map(case_name, case))
                    broken.append(f"{called}: {told}")
            assert held, "a rule without a case holds nothing"
            if broken:
                head = f"{len(broken)} of {len(held)} break the rule"
                pytest.fail("\n".join([head, *broken]), pytrace=False)

        # no functools.wraps: pytest would look through it and ask for the check's arguments
        for attribute in ("__name__", "__qualname__", "__module__", "__doc__"):
            setattr(test, attribute, getattr(check, attribute))
        return test

    return rule
