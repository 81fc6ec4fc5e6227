"""What of a job is held to a limit: its sizes to the machine, its loads to what carries them."""

from __future__ import annotations

from dataclasses import dataclass
from typing import get_args

from coilwright.units import Kind
from coilwright.values.figure import Figure
from coilwright.values.keys import LIFT_PLACES, LiftPart, lift_key

_SAME = 1e-9
"""As a share of a limit: a value nearer to it is at the limit, not past it."""
_LITTLE = 0.05
"""Of a rating: less left over, people and tools can use up. Common practice, no source."""
NOT_KNOWN = "not known: read it off the plate"
"""What a load says whose rating nobody has read: it clears nothing."""
_HOW_FAR_OUT = "not known: face to coil middle"
"""The same where the plate was read, and how far out the coil lies is on no plate."""
_HOW_HELD = "not known: how the slings hold it"
"""The same where the tag was read, and the hitch or its angle is seen, on no tag."""
_ATTACHMENT = "attachment's weight"
ON_NO_PLATE: tuple[LiftPart, ...] = (
    "coil_center", "angle", "choke_angle", "sling_length", "sling_height", "legs", "sling_hitch",
)
"""What is seen or measured where the coil is lifted, and read off nothing."""


@dataclass(frozen=True, slots=True)
class Fit:
    """One size of the job held to the machine's limits; a limit of None is not known.

    names_apart: so far two names of one size may lie apart [in], as 508 and 510 mm of an inside
    diameter.
    """

    key: str
    name: str
    value: Figure
    least: Figure | None
    most: Figure | None
    answers: tuple[str, ...]
    names_apart: float = 0.0

    @property
    def too_little(self) -> bool:
        """Under the least."""
        return self.least is not None and (
            self.value.value + self.names_apart < self.least.value * (1 - _SAME))

    @property
    def too_much(self) -> bool:
        """Over the most."""
        return self.most is not None and (
            self.value.value - self.names_apart > self.most.value * (1 + _SAME))

    @property
    def fits(self) -> bool:
        """Inside the limits that are known."""
        return not (self.too_little or self.too_much)

    @property
    def known(self) -> bool:
        """Whether there is a limit to hold it to."""
        return self.least is not None or self.most is not None


@dataclass(frozen=True, slots=True)
class LoadLine:
    """A load held to the rating that carries it, on the road or in the air.

    place: what it belongs to: trailer, hitch, tow, cargo, site or shop. load or rating is None
    where it is not known; margin (rating less load) is there when both are. needs: the answers
    that would make it known. answers: those that would change it. weight: what is known of the
    weight where the load is not known.
    """

    key: str
    name: str
    place: str
    load: Figure | None
    rating: Figure | None
    margin: Figure | None
    needs: tuple[str, ...]
    answers: tuple[str, ...]
    weight: Figure | None = None

    @property
    def known(self) -> bool:
        """Whether load and rating are both known; if not, nothing is cleared."""
        return self.margin is not None

    @property
    def over(self) -> bool:
        """Whether the load is more than the rating."""
        return (self.load is not None and self.rating is not None
                and self.load.value > self.rating.value * (1 + _SAME))

    @property
    def word(self) -> str:
        """Over, inside or not known, in words; inside means its rating as entered, no more."""
        counted = self.load is not None and self.load.kind is Kind.COUNT
        if self.rating is None:
            if counted:
                return "not known: count them"
            return self._not_rated
        if self.load is None:
            return f"not known: {_ATTACHMENT}" if self._waits_for_attachment else "load not known"
        if self.over:
            return "TOO FEW" if counted else "OVER"
        return "no fewer" if counted else "inside"

    @property
    def _not_rated(self) -> str:
        """What the rating waits for: its plate, or where that was read, what is on no plate."""
        if self.place not in LIFT_PLACES:
            return NOT_KNOWN
        # What the attachment weighs is a part of the load, not of what its rating waits for.
        own = {part for part in get_args(LiftPart)
               if part != "attachment" and lift_key(self.place, part) in self.needs}
        if not own or not own.issubset(ON_NO_PLATE):
            return NOT_KNOWN
        word = _HOW_FAR_OUT if "coil_center" in own else _HOW_HELD
        return f"{word}, {_ATTACHMENT}" if self._waits_for_attachment else word

    @property
    def _waits_for_attachment(self) -> bool:
        """Whether nobody said what the attachment weighs that lifts it."""
        return self.place in LIFT_PLACES and lift_key(self.place, "attachment") in self.needs

    @property
    def little_left(self) -> bool:
        """Whether it is inside its rating by less than people and tools can use up."""
        return (self.word == "inside" and self.rating is not None and self.margin is not None
                and self.margin.value < _LITTLE * self.rating.value)
