"""Metals and their coatings: density, movement with temperature, weight on the square foot."""

from __future__ import annotations

from dataclasses import dataclass

from coilwright.calc import sources
from coilwright.units import Kind
from coilwright.values.formula import formula
from coilwright.values.source import Source

OUNCE_PER_SQUARE_FOOT = 1 / 16 / 144
"""lb/in² in one oz/ft²."""
GRAM_PER_CM3 = 0.036127292
"""lb/in³ in one g/cm³ (1 lb/in³ = 27.6799047 g/cm³)."""


@dataclass(frozen=True, slots=True)
class Metal:
    """A roofing metal. density in lb/in³, expansion per degree F, thicknesses in inches."""

    name: str
    density: float
    density_source: Source
    expansion: float
    expansion_source: Source
    code_thinnest: float | None
    """The thinnest sheet the model code lists for a roof, where it lists one by thickness."""
    code_source: Source
    usual_thinnest: float
    usual_thickest: float
    """What portable machines usually form (common practice, no source)."""


METALS: dict[str, Metal] = {
    m.name: m
    for m in (
        Metal("steel", 0.2833, sources.STEEL_DENSITY, 6.7e-6, sources.STEEL_EXPANSION,
              None, sources.CODE_METALS, 0.0149, 0.0336),
        Metal("aluminium", 0.098, sources.ALUMINIUM_DENSITY, 12.8e-6, sources.ALUMINIUM_EXPANSION,
              0.024, sources.CODE_METALS, 0.027, 0.040),
        Metal("copper", 0.32117, sources.COPPER_DENSITY, 9.4e-6, sources.COPPER_EXPANSION,
              0.0216, sources.CODE_METALS, 0.0216, 0.0270),
        Metal("stainless steel", 0.29, sources.STAINLESS_DENSITY, 9.6e-6,
              sources.STAINLESS_EXPANSION, None, sources.CODE_METALS, 0.015, 0.025),
        Metal("zinc", 0.258, sources.ZINC_DENSITY, 12.2e-6, sources.ZINC_EXPANSION,
              0.027, sources.CODE_ZINC, 0.027, 0.040),
    )
}


@dataclass(frozen=True, slots=True)
class Coating:
    """A metallic coating. mass: lb/in², both sides together; thickness: inches, both sides."""

    name: str
    mass: float
    thickness: float
    on: tuple[str, ...]
    source: Source


def _coating(name: str, ounces: float, density: float, source: Source) -> Coating:
    mass = ounces * OUNCE_PER_SQUARE_FOOT
    return Coating(name, mass, mass / (density * GRAM_PER_CM3), ("steel",), source)


COATINGS: dict[str, Coating] = {
    c.name: c
    for c in (
        _coating("AZ50", 0.50, 3.75, sources.AL_ZN_COATING),
        _coating("AZ55", 0.55, 3.75, sources.AL_ZN_COATING),
        _coating("AZ60", 0.60, 3.75, sources.AL_ZN_COATING),
        _coating("G60", 0.60, 7.14, sources.ZINC_COATING),
        _coating("G90", 0.90, 7.14, sources.ZINC_COATING),
        Coating("none", 0.0, 0.0, tuple(METALS), sources.TRADE),
    )
}


@formula(Kind.MASS_PER_AREA, sources.MASS, "ρ t")
def sheet_mass(density: float, thickness: float) -> float:
    """Weight of a sheet whose thickness is stated over its coating: ρ·t [lb/in²].

    The coating is counted as if it were the metal: on coated steel that errs to the heavy
    side, by 4 % at 0.0236 in with AZ50 and by up to 8 % on the thinnest sheet with AZ60.
    density [lb/in³], thickness [in].

    Terms: density [lb/in³], thickness [in].
    """
    return density * thickness


@formula(Kind.MASS_PER_AREA, sources.MASS, "ρ t m")
def coated_sheet_mass(density: float, thickness: float, coating: float) -> float:
    """Weight of a sheet whose thickness is stated bare, plus its coating: ρ·t + m [lb/in²].

    density [lb/in³], bare thickness [in], coating mass of both sides together [lb/in²].

    Terms: density [lb/in³], thickness [in], coating [lb/in²].
    """
    return density * thickness + coating


@formula(Kind.LENGTH, sources.EXPANSION, "α L Th Tc")
def movement(expansion: float, length: float, hottest: float, coldest: float) -> float:
    """Movement of a panel between the coldest and the hottest metal: α·L·(Th − Tc) [in].

    expansion [1/°F], length [in], temperatures [°F].

    Terms: expansion [1/Δ°F], length [in], hottest [°F], coldest [°F].
    """
    return expansion * length * (hottest - coldest)
