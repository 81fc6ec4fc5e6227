"""Tolerances whose two sides are typed at once: `−0/+10 %`, `± 1/16`, `+0.006/−0 in`."""

from __future__ import annotations

from coilwright.job.answers.spec import Answer, UnreadableAnswer, Value
from coilwright.units import Sides, System, sides
from coilwright.units.numbers import quote

_OVER = "_over"
"""Ends the key of the box of an over side; that of its under side is the same without it."""


def other_side(key: str) -> str:
    """The key of the box for the other side."""
    return key.removesuffix(_OVER) if key.endswith(_OVER) else f"{key}{_OVER}"


def side_of(key: str, both: Sides) -> str:
    """What of two sides belongs into a box."""
    return both.over if key.endswith(_OVER) else both.under


class SideAnswer(Answer):
    """One side of a tolerance that has a box for each; typed with both, it takes its own.

    The other goes into its box: see `said_with`.
    """

    def read(self, text: str, system: System = System.US) -> Value:
        """This side. Raises UnreadableAnswer with a sentence for the user, for the other too."""
        both = sides(text)
        if both is None:
            return super().read(text, system)
        for one in both:
            super().read(one, system)
        return super().read(side_of(self.key, both), system)


class OneSideAnswer(Answer):
    """One side of a tolerance in a list, where a text fills no box but its own."""

    def read(self, text: str, system: System = System.US) -> Value:
        """This side. Raises UnreadableAnswer, which says what belongs into which box."""
        both = sides(text)
        if both is None:
            return super().read(text, system)
        raise UnreadableAnswer(
            f"{self.label}: {quote(text)} says both sides. Put {both.under} into the box of what "
            f"may come under, and {both.over} into that of what may come over.")


class EitherWayAnswer(Answer):
    """A tolerance that an order says as one size, either way."""

    def read(self, text: str, system: System = System.US) -> Value:
        """The size. Raises UnreadableAnswer where the sides differ."""
        both = sides(text)
        if both is None:
            return super().read(text, system)
        read = super().read
        under, over = (read(one, system) for one in both)
        if under == over:
            return under
        less, size = min((float(value), said)  # type: ignore[arg-type]
                         for value, said in ((under, both.under), (over, both.over)))
        do = (f"Put {size} here, which is inside both." if less else
              f"Agree on one, such as {self.example(system)}.")
        raise UnreadableAnswer(f"{self.label}: {quote(text)} differs by side, and the order says "
                               f"one size either way. {do}")
