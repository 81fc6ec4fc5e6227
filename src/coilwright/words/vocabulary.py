"""The words that the program itself writes of answers, steps and questions."""

from __future__ import annotations

import re
from functools import cache
from importlib.resources import files

_WORD = re.compile(r"[^\W_]+")


@cache
def own_words() -> frozenset[str]:
    """All words of the program's own texts that stand there in small letters: in what it wrote they
    name nobody. What stands there with a capital alone may be a name, as of an example."""
    return frozenset(
        word for file in files("coilwright.words").iterdir() if file.name.endswith(".toml")
        for word in _WORD.findall(file.read_text("utf-8")) if word.islower())
