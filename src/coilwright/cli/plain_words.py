"""What the parser of arguments finds wrong, in plain words."""

from __future__ import annotations

import re
from collections.abc import Mapping

_OPTION = r"argument (?P<option>.+?)"
_SAID = (
    (re.compile(rf"{_OPTION}: expected (?:one|at least one) argument"),
     "{option} needs {value} after it"),
    (re.compile(rf"{_OPTION}: not allowed with argument (?P<other>.+)"),
     "{option} and {other} do not go together; give one of them"),
    (re.compile(rf"{_OPTION}: ignored explicit argument (?P<given>.+)"),
     "{option} takes nothing after it, and {given} stands there"),
    (re.compile(rf"{_OPTION}: invalid int value: '(?P<given>.*)'"),
     "{option}: “{given}” is not a whole number"),
    (re.compile(r"the following arguments are required: (?P<option>.+)"), "{option} is missing"),
    (re.compile(r"one of the arguments (?P<option>.+) is required"),
     "one of these is missing: {option}"),
    (re.compile(r"unrecognized arguments: (?P<option>.+)"),
     "this command does not know what to do with: {option}"),
    (re.compile(rf"{_OPTION}: (?P<given>.+)"), "{option}: {given}"),
)


def in_plain_words(message: str, values: Mapping[str, str]) -> str:
    """What was wrong, without the parser's own words. values: by option, what stands after it.

    >>> in_plain_words("argument --rows: expected one argument", {"--rows": "FILE"})
    '--rows needs FILE after it'
    >>> in_plain_words("the following arguments are required: JOB", {})
    'JOB is missing'
    >>> in_plain_words("argument --seed: “x” is no number", {})
    '--seed: “x” is no number'
    """
    for pattern, words in _SAID:
        if (found := pattern.fullmatch(message)) is not None:
            parts = found.groupdict()
            return words.format(**parts, value=values.get(parts["option"], "a value"))
    return message
