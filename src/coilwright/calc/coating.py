"""Metallic coatings of steel sheet: mass, thickness, designations, what the code lists."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import assert_never

from coilwright.calc import sources
from coilwright.values.source import Source

OUNCE_PER_SQUARE_FOOT = 1 / 16 / 144
"""lb/in² in one oz/ft²."""
GRAM_PER_CM3 = 0.036127292
"""lb/in³ in one g/cm³ (1 lb/in³ = 27.6799047 g/cm³)."""


class CoatingName(StrEnum):
    """Metallic coatings by their standards' designations."""

    AZ50 = "AZ50"
    AZ55 = "AZ55"
    AZ60 = "AZ60"
    G60 = "G60"
    G90 = "G90"
    NONE = "none"


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
    """The same coating in the standard's metric edition; empty with the standard."""
    standard_source: Source
    on_code_list: bool
    """Whether the model code lists it, or a heavier one of its kind, for steel roofs."""
    code_source: Source
    usually_painted: bool
    """Whether a bare roof usually gets a heavier one of its kind."""
    bare_source: Source


_AL_ZN_DENSITY, _ZINC_DENSITY = 3.75, 7.14  # g/cm³


def _by_weight(
    name: CoatingName, kind: CoatingKind, ounces: float, density: float, source: Source, *,
    standard: str, metric: str, standard_source: Source, on_code_list: bool, usually_painted: bool,
) -> Coating:
    """A coating by its weight [oz/ft², both sides together] and density [g/cm³]."""
    mass = ounces * OUNCE_PER_SQUARE_FOOT
    return Coating(
        name=name, kind=kind, mass=mass, thickness=mass / (density * GRAM_PER_CM3), source=source,
        standard=standard, metric=metric, standard_source=standard_source,
        on_code_list=on_code_list, code_source=sources.CODE_COATING,
        usually_painted=usually_painted, bare_source=sources.BARE_COATING,
    )


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
        case _:
            assert_never(name)


COATINGS: dict[CoatingName, Coating] = {name: coating(name) for name in CoatingName}
