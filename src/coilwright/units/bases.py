"""What a price is for: a pound, a hundred pounds, a foot, a square, a coil, a mile, a share.

A basis of ours is in a table with its exact size. Any other unit of weight, length or area is
looked up by name in pint, which loads only then.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction
from functools import lru_cache

from coilwright.units.kinds import UNITS, Kind
from coilwright.units.numbers import UnreadableQuantity, quote
from coilwright.units.registry import size_by_name


class Per(StrEnum):
    """What the units of a basis measure."""

    WEIGHT = "weight"
    LENGTH = "length"
    AREA = "area"
    """Of the coil as it is shipped."""
    ROOF_AREA = "roof area"
    COIL = "coils"
    LUMP = "all together"
    DISTANCE = "distance"
    SHARE = "share"


@dataclass(frozen=True, slots=True)
class Basis:
    """One unit that a price is for.

    name: as files keep it and people read it. size: how much one is of what it measures [lb],
    [in], [in²] of coil, [in²] of roof, coils; a distance is told in the basis' own unit.
    """

    name: str
    per: Per
    size: Fraction


_ONE = Fraction(1)
BASES: dict[str, Basis] = {basis.name: basis for basis in (
    Basis("lb", Per.WEIGHT, _ONE),
    Basis("kg", Per.WEIGHT, UNITS["kg"].size),
    Basis("cwt", Per.WEIGHT, Fraction(100)),
    Basis("short ton", Per.WEIGHT, UNITS["short ton"].size),
    Basis("tonne", Per.WEIGHT, UNITS["t"].size),
    Basis("ft", Per.LENGTH, UNITS["ft"].size),
    Basis("m", Per.LENGTH, UNITS["m"].size),
    Basis("sq ft", Per.AREA, UNITS["ft2"].size),
    Basis("m²", Per.AREA, UNITS["m2"].size),
    Basis("square", Per.AREA, UNITS["square"].size),
    Basis("roof square", Per.ROOF_AREA, UNITS["square"].size),
    Basis("coil", Per.COIL, _ONE),
    Basis("lump", Per.LUMP, _ONE),
    Basis("mile", Per.DISTANCE, _ONE),
    Basis("km", Per.DISTANCE, _ONE),
    Basis("%", Per.SHARE, Fraction(1, 100)),
)}
"""The usual bases by name. A hundredweight is the short one, 100 lb."""

_SPELLED = {
    "lb": "lb lbs # pound pounds",
    "kg": "kg kgs kilo kilos kilogram kilograms",
    "cwt": "cwt hundredweight hundredweights shorthundredweight c#",
    "short ton": "shortton shorttons uston ustons",
    "tonne": "t tonne tonnes metricton metrictons",
    "ft": "ft foot feet lf linft linearfoot linearfeet linealfoot linealfeet lft",
    "m": "m meter meters metre metres linearmeter lm",
    "sq ft": "sqft squarefoot squarefeet sf ft2 ft²",
    "m²": "m2 m² sqm squaremeter squaremeters squaremetre",
    "square": "square squares sq sqs coilsquare squareofcoil squareofflatcoil squaresofflatcoil",
    "roof square": "roofsquare roofsquares squareofroof squaresofroof",
    "coil": "coil coils each ea skid skids",
    "lump": "lump lumpsum flat total all inall",
    "mile": "mile miles mi loadedmile",
    "km": "km kms kilometer kilometers kilometre",
    "%": "% percent pct",
}
_NAMED = {word: name for name, words in _SPELLED.items() for word in words.split()}
_NAMED |= {"".join(name.split()): name for name in BASES}
_NAME = re.compile(r"[a-z]{2,20}(?:[ _][a-z]{2,20}){0,2}")
"""Plain words only: nothing that could be a sum is ever given to pint."""


def basis_named(text: str) -> Basis:
    """The basis of a name: ours, or a unit of weight, length or area that pint knows.

    Raises UnreadableQuantity with a sentence for the person who typed.

    >>> basis_named("Lbs").name, basis_named("long ton").size
    ('lb', Fraction(2240, 1))
    """
    plain = " ".join(text.casefold().replace(".", " ").split())
    known = _NAMED.get("".join(plain.split()))
    if known is not None:
        return BASES[known]
    if plain in ("ton", "tons"):
        raise UnreadableQuantity(
            f"{quote(text)} does not say which ton: write short ton (2000 lb) or tonne (1000 kg)."
        )
    found = _looked_up(plain)
    if found is None:
        raise UnreadableQuantity(
            f"{quote(text)} is nothing a price is for; there are: {', '.join(BASES)}."
        )
    return found


@lru_cache(maxsize=128)
def _looked_up(name: str) -> Basis | None:
    """A unit that is none of ours, by its name in pint."""
    if not _NAME.fullmatch(name):
        return None
    word = name.replace(" ", "_")
    for per, kind in ((Per.WEIGHT, Kind.MASS), (Per.LENGTH, Kind.LENGTH), (Per.AREA, Kind.AREA)):
        if size := size_by_name(word, kind):
            return Basis(name, per, size)
    return None
