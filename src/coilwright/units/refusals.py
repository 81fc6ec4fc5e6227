"""How a text that cannot be read as a quantity is refused: one clear sentence."""

from __future__ import annotations

from typing import NamedTuple

LONGEST_QUOTE = 30
"""Longest piece of the typed text that a sentence repeats, in characters."""


class UnreadableQuantity(ValueError):
    """The text is not a quantity of the kind wanted.

    `str()` of it is one sentence for the person who typed: what was wrong and what would be right.
    """


def quote(text: str) -> str:
    """Return the typed text in quotation marks, shortened and safe to print on one line."""
    plain = "".join(ch if ch.isprintable() else " " for ch in text[: 4 * LONGEST_QUOTE])
    plain = " ".join(plain.split())
    if len(plain) > LONGEST_QUOTE or len(text) > 4 * LONGEST_QUOTE:
        plain = plain[: LONGEST_QUOTE - 1].rstrip() + "…"
    return f"“{plain}”"


class Asked(NamedTuple):
    """What was typed and what was wanted, for the sentence when the two do not meet."""

    typed: str
    wanted: str
    """What is wanted, with its article: "a length"."""
    example: str
    """A text that would be read."""

    @property
    def like(self) -> str:
        """The end of a sentence: what would be right."""
        return f"write it such as {self.example}."

    @property
    def rather(self) -> str:
        """The end of a sentence where the text was something else."""
        return f"{self.wanted} is wanted, such as {self.example}."
