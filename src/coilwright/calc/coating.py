"""Metallic coatings of steel sheet: mass, thickness, designations, what the code lists."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import assert_never

from coilwright.calc import sources
from coilwright.values.source import Source

OUNCE_PER_SQUARE_FOOT = 1 / 16 / 144
"""lb/in² in one oz/ft²."""
GRAM_PER_SQUARE_METER = 0.0254**2 / 453.59237
"""lb/in² in one g/m²."""
GRAM_PER_CM3 = 0.036127292
"""lb/in³ in one g/cm³ (1 lb/in³ = 27.6799047 g/cm³)."""


class CoatingName(StrEnum):
    """Metallic coatings by their standards' designations: of ASTM by ounces, of EN by grams."""

    AZ50 = "AZ50"
    AZ55 = "AZ55"
    AZ60 = "AZ60"
    G60 = "G60"
    G90 = "G90"
    NONE = "none"
    AZ100 = "AZ100"
    AZ150 = "AZ150"
    AZ185 = "AZ185"
    Z100 = "Z100"
    Z140 = "Z140"
    Z200 = "Z200"
    Z225 = "Z225"
    Z275 = "Z275"


class CoatingKind(StrEnum):
    """What a metallic coating is made of."""

    NONE = "none"
    ZINC = "zinc"
    ALUMINUM_ZINC = "aluminum-zinc"


@dataclass(frozen=True, slots=True, kw_only=True)
class Coating:
    """A metallic coating. mass: lb/in², both sides together; thickness: inches, both sides."""

    name: CoatingName
    kind: CoatingKind
    mass: float
    thickness: float
    source: Source
    standard: str
    """The sheet's standard; empty where the coating leaves it open."""
    metric: str
    """The same coating in the standard's metric edition; empty where its own name is metric."""
    standard_source: Source
    on_code_list: bool
    """Whether the model code lists it, or a heavier one of its kind, for steel roofs."""
    code_source: Source
    usually_painted: bool
    """Whether a bare roof usually gets a heavier one of its kind."""
    bare_source: Source


EN_SHEET = "EN 10346"
"""The European standard of coated sheet (from memory)."""
_AL_ZN_DENSITY, _ZINC_DENSITY = 3.75, 7.14  # g/cm³


def _by_weight(
    name: CoatingName, kind: CoatingKind, ounces: float, density: float, source: Source, *,
    standard: str, metric: str, standard_source: Source, on_code_list: bool, usually_painted: bool,
    bare_source: Source = sources.BARE_COATING,
) -> Coating:
    """A coating by its weight [oz/ft², both sides together] and density [g/cm³]."""
    mass = ounces * OUNCE_PER_SQUARE_FOOT
    return Coating(
        name=name, kind=kind, mass=mass, thickness=mass / (density * GRAM_PER_CM3), source=source,
        standard=standard, metric=metric, standard_source=standard_source,
        on_code_list=on_code_list, code_source=sources.CODE_COATING,
        usually_painted=usually_painted, bare_source=bare_source,
    )


def _by_grams(name: CoatingName, kind: CoatingKind, *, on_code_list: bool,
              usually_painted: bool = False) -> Coating:
    """A coating of EN 10346, whose name is its weight [g/m², both sides together]."""
    grams = float(name.lstrip("AZ"))
    return _by_weight(
        name, kind, grams * GRAM_PER_SQUARE_METER / OUNCE_PER_SQUARE_FOOT,
        _AL_ZN_DENSITY if kind is CoatingKind.ALUMINUM_ZINC else _ZINC_DENSITY,
        sources.EN_COATING, standard=EN_SHEET, metric="", standard_source=sources.EN_COATING,
        on_code_list=on_code_list, usually_painted=usually_painted,
        bare_source=sources.EN_BARE_COATING)


def coating(name: CoatingName) -> Coating:
    """The record of a coating. A coating without one fails type checking."""
    zinc, al_zn = CoatingKind.ZINC, CoatingKind.ALUMINUM_ZINC
    match name:
        case CoatingName.AZ50:
            return _by_weight(
                name, al_zn, 0.50, _AL_ZN_DENSITY, sources.AL_ZN_COATING,
                standard="ASTM A792", metric="A792M: AZM150",
                standard_source=sources.COATED_SHEET_AL_ZN, on_code_list=True,
                usually_painted=True)
        case CoatingName.AZ55:
            return _by_weight(
                name, al_zn, 0.55, _AL_ZN_DENSITY, sources.AL_ZN_COATING,
                standard="ASTM A792", metric="A792M: AZM165",
                standard_source=sources.COATED_SHEET_AL_ZN, on_code_list=True,
                usually_painted=False)
        case CoatingName.AZ60:
            return _by_weight(
                name, al_zn, 0.60, _AL_ZN_DENSITY, sources.AL_ZN_COATING,
                standard="ASTM A792", metric="A792M: AZM180",
                standard_source=sources.COATED_SHEET_AL_ZN, on_code_list=True,
                usually_painted=False)
        case CoatingName.G60:
            return _by_weight(
                name, zinc, 0.60, _ZINC_DENSITY, sources.ZINC_COATING,
                standard="ASTM A653", metric="A653M: Z180",
                standard_source=sources.COATED_SHEET_ZINC, on_code_list=False,
                usually_painted=False)
        case CoatingName.G90:
            return _by_weight(
                name, zinc, 0.90, _ZINC_DENSITY, sources.ZINC_COATING,
                standard="ASTM A653", metric="A653M: Z275",
                standard_source=sources.COATED_SHEET_ZINC, on_code_list=True,
                usually_painted=False)
        case CoatingName.NONE:
            return Coating(
                name=name, kind=CoatingKind.NONE, mass=0.0, thickness=0.0, source=sources.TRADE,
                standard="", metric="", standard_source=sources.TRADE, on_code_list=False,
                code_source=sources.CODE_COATING, usually_painted=False,
                bare_source=sources.BARE_COATING)
        case CoatingName.AZ100:
            return _by_grams(name, al_zn, on_code_list=False)
        case CoatingName.AZ150:
            return _by_grams(name, al_zn, on_code_list=True, usually_painted=True)
        case CoatingName.AZ185:
            return _by_grams(name, al_zn, on_code_list=True)
        case CoatingName.Z100 | CoatingName.Z140 | CoatingName.Z200 | CoatingName.Z225:
            return _by_grams(name, zinc, on_code_list=False)
        case CoatingName.Z275:
            return _by_grams(name, zinc, on_code_list=True)
        case _:
            assert_never(name)


COATINGS: dict[CoatingName, Coating] = {name: coating(name) for name in CoatingName}

EN_NAMES = tuple(name for name, one in COATINGS.items() if one.standard == EN_SHEET)
"""The coatings that are called by their grams."""
US_NAMES = tuple(name for name in COATINGS if name not in EN_NAMES)


def is_same(one: CoatingName, other: CoatingName) -> bool:
    """Whether two names are of one coating, by ounces and by grams.

    >>> is_same(CoatingName.AZ50, CoatingName.AZ150), is_same(CoatingName.AZ55, CoatingName.AZ150)
    (True, False)
    """
    return one is other or _in_grams(COATINGS[one]) == _in_grams(COATINGS[other])


def _in_grams(coated: Coating) -> str:
    """The metric name, as EN has it: what ASTM calls AZM150 is AZ150 there (from memory)."""
    return (coated.metric.rpartition(" ")[2] or coated.name.value).replace("AZM", "AZ")


def twin(name: CoatingName, among: tuple[CoatingName, ...]) -> CoatingName | None:
    """The coating of this name as others call it; None where they have no such."""
    return next((other for other in among if is_same(name, other)), None)
