"""One record per metal with every fact of it, and what a sheet of it weighs and how it moves.

A new metal is a member of `MetalName` and a record in `metal`; a fact left out of the record, or
a record left out, fails type checking. Nothing else may ask a metal for its name to learn a fact.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from enum import StrEnum
from typing import assert_never

from coilwright.calc import sources
from coilwright.calc.coating import CoatingName
from coilwright.calc.gauges import GaugeScale
from coilwright.units import Kind
from coilwright.values.formula import formula
from coilwright.values.source import Grade, Source


class MetalName(StrEnum):
    """Roofing metals. Steel is coated or painted steel."""

    STEEL = "steel"
    ALUMINUM = "aluminum"
    COPPER = "copper"
    STAINLESS = "stainless steel"
    ZINC = "zinc"


class ThicknessRule(StrEnum):
    """How thin a delivered sheet may be and still count as what was ordered."""

    COATED_STEEL = "the galvanized table where a gauge fits, else 95 % of the thickness"
    COPPER_POINTS = "the copper table of least thickness at any point, else 5 % less"
    SHARE = "5 % less"


@dataclass(frozen=True, slots=True)
class Standard:
    """The standard an order names, and what the supplier still has to name beside it."""

    name: str
    left_open: str
    source: Source


@dataclass(frozen=True, slots=True)
class Unlike:
    """Why the metal must be kept apart from a material, and who says so."""

    because: str
    source: Source


@dataclass(frozen=True, slots=True, kw_only=True)
class Contact:
    """What happens where the metal touches another material in the wet; None: they may meet."""

    copper: Unlike | None
    """Also where water drains off copper."""
    aluminum: Unlike | None
    steel: Unlike | None
    treated_wood: Unlike | None
    masonry: Unlike | None


@dataclass(frozen=True, slots=True)
class UsualSheet:
    """A thickness portable machines usually form: how it is said, and what that spans [in]."""

    said: str
    thinnest: float
    thickest: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Metal:
    """A roofing metal. Lengths in inches, density in lb/in³, expansion per degree F.

    No field has a default: a metal is known whole or not at all.
    """

    name: MetalName
    density: float
    density_source: Source
    expansion: float
    expansion_source: Source
    gauge: GaugeScale
    """The scale a gauge number, or copper's ounces, is read on."""
    ordered_by_gauge: bool
    """Whether people say a gauge or ounces for it; else only its decimal thickness is asked."""
    gauge_source: Source
    flat_from: float
    """Thickness that lies flatter in a wide pan."""
    flat_source: Source
    comes_painted: bool
    """Whether roofing sheet of it is sold painted; else nothing of paint is asked."""
    coatings: tuple[CoatingName, ...]
    """Metallic coatings it comes with; only with one can a thickness be said without it."""
    standard: Standard | None
    """The sheet's standard; None where the coating names it."""
    contact: Contact
    worst_near_salt: bool
    """Whether it fares worst of the metals near salt water."""
    salt_source: Source
    thickness_rule: ThicknessRule
    code_thinnest: float | None
    """The thinnest sheet the model code lists for a roof, where it lists one by thickness."""
    code_source: Source
    usual: tuple[UsualSheet, ...]
    """What portable machines usually form, thinnest first."""
    usual_source: Source
    grade_word: str
    """What the trade calls it that makes one sort of this metal."""
    grades: tuple[str, ...]
    """Grades of strength, alloys or types usual for roofs."""
    tempers: tuple[str, ...]
    """Tempers usual for roofs; empty where the metal is not ordered by one."""
    grades_source: Source

    @property
    def word(self) -> str:
        """The metal as people say it; files hold the same word."""
        return self.name.value

    @property
    def usual_thinnest(self) -> float:
        """The thinnest sheet portable machines usually form [in]."""
        return min(sheet.thinnest for sheet in self.usual)

    @property
    def usual_thickest(self) -> float:
        """The thickest sheet portable machines usually form [in]."""
        return max(sheet.thickest for sheet in self.usual)


# Sources that several metals share; one of a single metal stands in its record.
_USUALLY_FORMED = Source("what portable machines form with little adjustment", Grade.PRACTICE)
_CODE_METALS = Source("IBC Table 1507.4.3(1)", Grade.PUBLISHED)
_GALVANIC = Source("UFGS 07612N para 3.2; Canadian Copper & Brass Development Association",
                   Grade.PUBLISHED)
_COPPER_RUNOFF = Source("UFGS 07600 para 2.1.1: no copper draining over other metal",
                        Grade.PUBLISHED)
_CONTACT = Source("what acts on coated steel, zinc and stainless steel", Grade.MEMORY)
_SALT_AIR = Source("finish and substrate warranties set the distance from salt water",
                   Grade.MEMORY)

_STEEL = Metal(
    name=MetalName.STEEL,
    density=0.2833,
    density_source=Source("ASTM B258 appendix, as quoted by GNU units 2.22: 0.2833 lb/in³",
                          Grade.PUBLISHED),
    expansion=6.7e-6, expansion_source=Source("carbon steel sheet: 6.7e-6 per °F", Grade.MEMORY),
    gauge=GaugeScale.COATED_STEEL, ordered_by_gauge=True, gauge_source=sources.GAUGE_GALVANIZED,
    flat_from=0.0236, flat_source=sources.TRADE,
    comes_painted=True,
    coatings=tuple(CoatingName),
    standard=None,
    contact=Contact(
        copper=Unlike("water off copper eats zinc and aluminum-zinc coatings",
                      _COPPER_RUNOFF),
        aluminum=None,
        steel=None,
        treated_wood=Unlike("treated wood eats the coating", _CONTACT),
        masonry=Unlike("wet concrete and mortar eat aluminum-zinc coatings", _CONTACT),
    ),
    worst_near_salt=True, salt_source=_SALT_AIR,
    thickness_rule=ThicknessRule.COATED_STEEL,
    code_thinnest=None, code_source=_CODE_METALS,
    usual=(UsualSheet("28 ga", 0.0149, 0.0187), UsualSheet("26 ga", 0.0179, 0.0217),
           UsualSheet("24 ga", 0.0236, 0.0276), UsualSheet("22 ga", 0.0296, 0.0336)),
    usual_source=_USUALLY_FORMED,
    grade_word="Grade",
    grades=("33", "40", "50"), tempers=(),
    grades_source=Source("structural grades of ASTM A653 and A792, in ksi", Grade.MEMORY),
)
_ALUMINUM = Metal(
    name=MetalName.ALUMINUM,
    density=0.098,
    density_source=Source(
        "Kissell & Ferry, Aluminum Structures, Table 4.3: 3004 and 3105, 0.098 lb/in³", Grade.COPY
    ),
    expansion=12.8e-6,
    expansion_source=Source("thermal expansion table: aluminum 23.1e-6 per °C, 12.8e-6 per °F",
                            Grade.COPY),
    gauge=GaugeScale.WIRE, ordered_by_gauge=False, gauge_source=sources.GAUGE_AWG,
    flat_from=0.032, flat_source=sources.TRADE,
    comes_painted=True,
    coatings=(),
    standard=Standard("ASTM B209", "alloy and temper", _CODE_METALS),
    contact=Contact(
        copper=Unlike("copper eats aluminum, and so does water off it", _GALVANIC),
        aluminum=None,
        steel=Unlike("they act on each other in damp or salty air", _GALVANIC),
        treated_wood=Unlike("treated wood eats aluminum", _GALVANIC),
        masonry=Unlike("wet concrete and mortar eat aluminum", _GALVANIC),
    ),
    worst_near_salt=False, salt_source=_SALT_AIR,
    thickness_rule=ThicknessRule.SHARE,
    code_thinnest=0.024, code_source=_CODE_METALS,
    usual=(UsualSheet("0.027 in", 0.027, 0.027), UsualSheet("0.032 in", 0.032, 0.032),
           UsualSheet("0.040 in", 0.040, 0.040)),
    usual_source=_USUALLY_FORMED,
    grade_word="Alloy",
    grades=("3003", "3004", "3105"), tempers=("H14", "H24"),
    grades_source=Source("alloys and tempers of ASTM B209 usual for panels", Grade.MEMORY),
)
_COPPER = Metal(
    name=MetalName.COPPER,
    density=0.32117,
    density_source=Source("IACS copper, GNU units 2.22: 0.32117 lb/in³", Grade.PUBLISHED),
    expansion=9.4e-6,
    expansion_source=Source("thermal expansion table: copper 17e-6 per °C, 9.4e-6 per °F",
                            Grade.COPY),
    gauge=GaugeScale.COPPER_OUNCES, ordered_by_gauge=True, gauge_source=sources.COPPER_OUNCES,
    flat_from=0.0270, flat_source=sources.TRADE,
    comes_painted=False,
    coatings=(),
    standard=Standard("ASTM B370", "alloy and temper", _CODE_METALS),
    contact=Contact(
        copper=None,
        aluminum=Unlike("the aluminum is eaten where they touch", _GALVANIC),
        steel=Unlike("the coating of the steel is eaten where they touch", _CONTACT),
        treated_wood=None,
        masonry=None,
    ),
    worst_near_salt=False, salt_source=_SALT_AIR,
    thickness_rule=ThicknessRule.COPPER_POINTS,
    code_thinnest=0.0216, code_source=_CODE_METALS,
    usual=(UsualSheet("16 oz", 0.0216, 0.0216), UsualSheet("20 oz", 0.0270, 0.0270)),
    usual_source=_USUALLY_FORMED,
    # Three-quarter hard (H03) is what portable machines usually form (common practice, no source).
    grade_word="Alloy",
    grades=("C11000", "C12200"), tempers=("060", "H00", "H01", "H02", "H03", "H04"),
    grades_source=Source("tempers of ASTM B370, soft to hard", Grade.MEMORY),
)
_STAINLESS = Metal(
    name=MetalName.STAINLESS,
    density=0.29, density_source=Source("mill sheets for type 304: 0.29 lb/in³", Grade.MEMORY),
    expansion=9.6e-6,
    expansion_source=Source("thermal expansion table: stainless 17.3e-6 per °C, 9.6e-6 per °F",
                            Grade.COPY),
    gauge=GaugeScale.US_STANDARD, ordered_by_gauge=True, gauge_source=sources.GAUGE_US,
    flat_from=0.018, flat_source=sources.TRADE,
    comes_painted=True,
    coatings=(),
    standard=Standard("ASTM A240", "the type", Source("ASTM A240: stainless sheet", Grade.MEMORY)),
    contact=Contact(
        copper=None,
        aluminum=None,
        steel=Unlike("the plain steel's coating goes first where they touch", _CONTACT),
        treated_wood=None,
        masonry=None,
    ),
    worst_near_salt=False, salt_source=_SALT_AIR,
    thickness_rule=ThicknessRule.SHARE,
    code_thinnest=None, code_source=_CODE_METALS,
    usual=(UsualSheet("28 ga", 0.015, 0.0156), UsualSheet("26 ga", 0.018, 0.0188),
           UsualSheet("24 ga", 0.024, 0.025)),
    usual_source=Source("stainless roofs: 28 to 24 ga", Grade.MEMORY),
    grade_word="Type",
    grades=("304", "316"), tempers=(),
    grades_source=Source("types of ASTM A240 usual for roofs", Grade.MEMORY),
)
_ZINC = Metal(
    name=MetalName.ZINC,
    density=0.258, density_source=Source("architectural zinc, EN 988: 0.258 lb/in³", Grade.MEMORY),
    expansion=12.2e-6,
    expansion_source=Source("architectural zinc along the roll, EN 988: 12.2e-6 per °F",
                            Grade.MEMORY),
    gauge=GaugeScale.ZINC, ordered_by_gauge=True, gauge_source=sources.ZINC_GAUGE,
    flat_from=0.0315, flat_source=sources.TRADE,
    comes_painted=True,
    coatings=(),
    standard=Standard("ASTM B69 (Europe: EN 988)", "the alloy", Source(
        "ASTM B69: rolled zinc; EN 988: rolled flat zinc for building", Grade.MEMORY
    )),
    contact=Contact(
        copper=Unlike("water off copper eats zinc", _COPPER_RUNOFF),
        aluminum=None,
        steel=None,
        treated_wood=None,
        masonry=Unlike("wet concrete and mortar eat zinc", _CONTACT),
    ),
    worst_near_salt=False, salt_source=_SALT_AIR,
    thickness_rule=ThicknessRule.SHARE,
    code_thinnest=0.027, code_source=Source("IBC Table 1507.4.3(1)", Grade.MEMORY),
    usual=(UsualSheet("0.7 mm", 0.027, 0.0276), UsualSheet("0.8 mm", 0.0315, 0.032),
           UsualSheet("1.0 mm", 0.0394, 0.040)),
    usual_source=Source("zinc roofs: 0.7 to 1.0 mm", Grade.MEMORY),
    grade_word="Alloy",
    grades=("zinc-copper-titanium",), tempers=(),
    grades_source=Source("the alloy of EN 988", Grade.MEMORY),
)


def metal(name: MetalName) -> Metal:
    """The record of a metal.

    >>> metal(MetalName.COPPER).code_thinnest
    0.0216
    """
    match name:
        case MetalName.STEEL:
            return _STEEL
        case MetalName.ALUMINUM:
            return _ALUMINUM
        case MetalName.COPPER:
            return _COPPER
        case MetalName.STAINLESS:
            return _STAINLESS
        case MetalName.ZINC:
            return _ZINC
        case _:
            assert_never(name)


METALS: dict[MetalName, Metal] = {name: metal(name) for name in MetalName}


_NAMED: dict[str, Callable[[Metal], object]] = {
    "{coated}": lambda metal: metal.coatings,
    "{tempered}": lambda metal: metal.tempers,
    "{by thickness}": lambda metal: not metal.ordered_by_gauge,
    "{bare}": lambda metal: not metal.comes_painted,
}
"""What stands in words for the metals of which something holds."""


def name_metals(text: str) -> str:
    """Words with the metals that `{coated}` and such stand for, by their records.

    >>> name_metals("for {tempered}")
    'for aluminum, copper'
    """
    for mark, holds in _NAMED.items():
        if mark in text:
            text = text.replace(mark, ", ".join(m.word for m in METALS.values() if holds(m)))
    return text


def is_coated(name: MetalName | None) -> bool:
    """Whether a metal comes with metallic coatings; not while nobody knows the metal.

    >>> is_coated(MetalName.STEEL), is_coated(MetalName.ZINC), is_coated(None)
    (True, False, False)
    """
    return name is not None and bool(METALS[name].coatings)


@formula(Kind.MASS_PER_AREA, sources.MASS, "ρ t")
def sheet_mass(density: float, thickness: float) -> float:
    """Weight of a sheet whose thickness is stated over its coating: ρ·t [lb/in²].

    The coating is counted as if it were the metal: on coated steel that errs to the heavy
    side, by 4 % at 0.0236 in with AZ50 and by up to 8 % on the thinnest sheet with AZ60.
    density [lb/in³], thickness [in].

    Terms: density [lb/in³], thickness [in].

    >>> round(sheet_mass(density=0.2833, thickness=0.0236), 6)
    0.006686
    """
    return density * thickness


@formula(Kind.MASS_PER_AREA, sources.MASS, "ρ t m")
def coated_sheet_mass(density: float, thickness: float, coating: float) -> float:
    """Weight of a sheet whose thickness is stated bare, plus its coating: ρ·t + m [lb/in²].

    density [lb/in³], bare thickness [in], coating mass of both sides together [lb/in²].

    Terms: density [lb/in³], thickness [in], coating [lb/in²].

    >>> round(coated_sheet_mass(density=0.2833, thickness=0.0236, coating=0.0016), 6)
    0.008286
    """
    return density * thickness + coating


@formula(Kind.LENGTH, sources.EXPANSION, "α L Th Tc")
def movement(expansion: float, length: float, hottest: float, coldest: float) -> float:
    """Movement of a panel between the coldest and the hottest metal: α·L·(Th − Tc) [in].

    expansion [1/°F], length [in], temperatures [°F].

    Terms: expansion [1/Δ°F], length [in], hottest [°F], coldest [°F].

    >>> round(movement(expansion=6.7e-06, length=216, hottest=160, coldest=0), 6)
    0.231552
    """
    return expansion * length * (hottest - coldest)
