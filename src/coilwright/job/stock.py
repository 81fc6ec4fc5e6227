"""Coils on hand: what stands in the shop, kept across jobs. Nothing here is computed."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import Annotated, Literal

from coilwright.job.fields import STRICT, Length, Thickness, Width, text_between
from coilwright.job.metal import CoatingName, MetalName, ThicknessBasis
from coilwright.job.plain_name import plain_name


class LengthBy(StrEnum):
    """How the length of a coil on hand is known."""

    MEASURED = "measured, unwound or counted off"
    SAID = "a tag or a list"
    GUESSED = "an estimate"


LEAST_WOUND = 0.5
"""Least difference of outside and inside diameter [in]; closer ones measure nothing."""


@dataclass(frozen=True, kw_only=True, slots=True)
class CoilOnHand:
    """A coil, or what is left of one, as its tag or a tape says.

    Its length is given, or its outside and inside diameter are, from which a length is worked
    out. color: empty for bare metal; color_code: the code beside its name, empty where none was
    read. lot: the production lot. supplier: who shipped it. where: where it stands. remark: what
    who takes it next must know, such as faults it came with.
    thickness_basis: None where nobody knows whether the coating is part of the
    thickness. length_by: how a given length is known; one that nobody measured is counted on with a
    margin, as if a tag said it where it is None.
    """

    __pydantic_config__ = STRICT

    tag: Annotated[str, text_between(1, 60)]
    metal: MetalName
    coating: CoatingName | None = None
    thickness: Thickness
    thickness_basis: ThicknessBasis | None = None
    width: Width
    color: str = ""
    color_code: str = ""
    lot: str = ""
    supplier: str = ""
    where: str = ""
    remark: str = ""
    length: Length | None = None
    length_by: LengthBy | None = None
    outside: Width | None = None
    inside: Width | None = None

    @property
    def color_words(self) -> str:
        """Its color with its code; empty for bare metal."""
        return ", ".join(filter(None, (self.color.strip(), self.color_code.strip())))

    def __post_init__(self) -> None:
        if not self.tag.strip():
            raise ValueError("a coil needs a tag, so that it can be found again")
        for name in ("thickness", "width", "length", "outside", "inside"):
            size = getattr(self, name)
            if size is not None and not size > 0:
                raise ValueError(f"“{self.tag}”: its {name} must be above 0")
        across = (self.outside, self.inside)
        if self.length is not None:
            if across != (None, None):
                raise ValueError(f"“{self.tag}” has a length and diameters; give one or the other")
            return
        if self.outside is None or self.inside is None:
            raise ValueError(
                f"“{self.tag}” has no length; give it, or both outside and inside diameter"
            )
        if self.outside < self.inside + LEAST_WOUND:
            raise ValueError(
                f"“{self.tag}”: the outside diameter must be {LEAST_WOUND:g} in or more above "
                "the inside one"
            )


@dataclass(frozen=True, kw_only=True, slots=True)
class Stock:
    """All coils on hand, in the order they were put in. Tags differ, capitals aside."""

    __pydantic_config__ = STRICT

    format: Literal["coilwright-stock"] = "coilwright-stock"
    version: Literal[2] = 2
    coils: tuple[CoilOnHand, ...] = ()

    def __post_init__(self) -> None:
        seen = set[str]()
        for coil in self.coils:
            if plain_name(coil.tag) in seen:
                raise ValueError(f"two coils have the tag “{coil.tag}”; give each its own")
            seen.add(plain_name(coil.tag))

    def find(self, tag: str) -> CoilOnHand | None:
        """The coil with this tag, if there is one."""
        return next((c for c in self.coils if plain_name(c.tag) == plain_name(tag)), None)

    def put(self, coil: CoilOnHand) -> Stock:
        """The stock with this coil, in the place of one with its tag if there is one."""
        if self.find(coil.tag) is None:
            return Stock(coils=(*self.coils, coil))
        same = plain_name(coil.tag)
        return Stock(coils=tuple(coil if plain_name(c.tag) == same else c for c in self.coils))

    def swap(self, tag: str, coil: CoilOnHand) -> Stock:
        """The stock with this coil in the place of the one of a tag; its own may differ.

        Raises ValueError where another coil has the new one's tag.
        """
        same = plain_name(tag)
        return Stock(coils=tuple(coil if plain_name(c.tag) == same else c for c in self.coils))

    def take(self, tag: str) -> Stock:
        """The stock without the coil of this tag; the same stock where there is none."""
        return Stock(coils=tuple(c for c in self.coils if plain_name(c.tag) != plain_name(tag)))

    def free_tag(self, tag: str) -> str:
        """This tag, or with the first number behind it that no coil has."""
        number, free = 1, tag
        while self.find(free) is not None:
            number += 1
            free = f"{tag}-{number}"
        return free
