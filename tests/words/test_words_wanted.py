"""The words people see: what was found wanting stands nowhere in them any more.

Looked through are the files of words, the labels of all answers, every text in the code that is no
key and no docstring, and all sheets of the demo jobs as they are written.
"""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from functools import cache
from pathlib import Path

from coilwright.job.answers import ANSWERS
from coilwright.job.steps import STEPS
from coilwright.plan import plan
from coilwright.sheets import KINDS, render
from coilwright.store.shipped import demo_jobs
from coilwright.words import cautions
from tests.house.source import nodes
from tests.rules import for_each

SOURCE = Path(__file__).parents[2] / "src" / "coilwright"
NOT_SEEN = ("calc/cutting", "store/older.py", "units/")
"""Where texts are for the program alone: a search, older files, units as they may be typed."""

WANTING = [
    r"\bgirths?\b", r"\bstubs?\b", r"\blanes?\b", r"\blong end\b", r"\bshort end\b",
    r"smallest inside", r"towing vehicle", r"hitch load", r"load on the hitch",
    r"delivery note", r"\bcarriage\b", r"\brollers\b", r"Fixed to", r"How panels lie",
    r"How dark it is", r"Client confirmed it", r"Thickness is$", r"Coil sits on", r"Coils stand$",
    r"When, and where they stand", r"Day of the order", r"Trailer hitch may pull",
    r"Load the hitch may carry", r"Trailer vehicle may tow", r"legs that carry",
    r"larger across", r"counted on, either way", r"Ordered together", r"which way they lie",
    r"^Mind$", r"[Ww]hat governs", r"put the machine right", r"slantwise", r"[Uu]nlike metals",
    r"eat(ing)? (one )?another", r"given late turns", r"dearest", r"[Nn]obody holds it by hand",
    r"in one go", r"calmer air", r"nobody's business", r"it was another's", r"buy on a scare",
    r"the lift (is|are) booked", r"the less the truck", r"[Kk]eep the less", r"canning will show",
    r"will show (its )?waves", r"\bcolour", r"aluminium", r"\btyre", r"\bgrey\b", r"\bmetres?\b",
    r"\benquir",
]
"""What was found wanting, as it was written."""


def _docstrings(path: Path) -> set[ast.AST]:
    """The texts that stand alone: docstrings, and what is said under a constant."""
    return {node.value for node in nodes(path)
            if isinstance(node, ast.Expr) and isinstance(node.value, ast.Constant)}


def _texts(path: Path) -> Iterator[tuple[str, str]]:
    alone = _docstrings(path)
    for node in nodes(path):
        if (isinstance(node, ast.Constant) and isinstance(node.value, str) and node not in alone
                and re.search(r"[A-Z ]", node.value)):
            yield f"{path.name}:{node.lineno}", node.value


@cache
def seen() -> list[tuple[str, str]]:
    """(where, text) of all that people see."""
    found = [(key, answer.label) for key, answer in ANSWERS.items()]
    for path in sorted(SOURCE.glob("words/*.toml")):
        lines = path.read_text("utf-8").splitlines()
        found += [(f"{path.name}:{n}", line) for n, line in enumerate(lines, 1)
                  if not line.startswith(("[", "answer", "#"))]
    for path in sorted(SOURCE.rglob("*.py")):
        if not path.relative_to(SOURCE).as_posix().startswith(NOT_SEEN):
            found += _texts(path)
    for name, job in demo_jobs().items():
        made = plan(job)
        for kind in KINDS:
            found += [(f"{name} {kind}", line)
                      for line in render(kind, made, "md").splitlines()]
    return found


def test_what_was_wanting_is_said_no_more() -> None:
    any_of_them = re.compile("|".join(WANTING))
    assert [one for one in seen() if any_of_them.search(one[1])] == []


def test_there_is_something_to_look_through() -> None:
    text = " ".join(text for _, text in seen())
    for words in ("Run coil from", "Hitch: max trailer", "Color signed off", "Deck under clips",
                  "heaviest it may come", "limits a coil to"):
        assert words in text, words


def test_no_caution_heads_two_steps() -> None:
    sentences = [s for step in STEPS for line in cautions(step.key)
                 for s in re.split(r"(?<=[.])\s+", line)]
    assert sorted(sentences) == sorted(set(sentences))


@for_each(["trailer is leveled, its jacks are down and its wheels chocked",
     "Never lift a coil by its bands", "coil turner or upender", "emergency stop",
     "Lock the drive out before hands go near",
     "Engine exhaust", "generator", "ground-fault protection", "slides off", "hearing protection"])
def test_a_danger_is_told_of_once(words: str) -> None:
    text = " ".join(" ".join(path.read_text("utf-8").replace("\\\n", "").split())
                    for path in sorted(SOURCE.glob("words/*.toml")))
    assert text.count(words) == 1
