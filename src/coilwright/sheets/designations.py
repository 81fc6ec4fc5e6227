"""The standards an order names, in words. The facts stand with the metal and its coating."""

from __future__ import annotations

import re
from typing import assert_never

from coilwright.calc.coating import (
    COATINGS,
    EN_NAMES,
    Coating,
    CoatingKind,
    CoatingName,
    twin,
)
from coilwright.calc.metal import METALS, is_coated
from coilwright.job.metal import MetalSection

# ASTM A755: prepainted steel sheet, over a coated one (from memory).
_PREPAINTED = "prepainted to ASTM A755 over it"
# EN 10169: organic coated flat steel (from memory).
_PREPAINTED_EN = "prepainted to EN 10169 over it"
_GRADE = "the supplier names type and grade"


def designation(metal: MetalSection, standard_only: bool = False) -> str:
    """The metal's standard and coating; empty while the metal or the coating is not known.

    standard_only: without grade and temper, where they stand beside it.
    """
    if metal.metal is None:
        return ""
    record = METALS[metal.metal]
    standard = record.standard
    grade = own_grade(metal)
    temper = f"temper {metal.temper}" if record.tempers and metal.temper else ""
    named = ", ".join(filter(None, (grade, temper)))
    if metal.standard:
        said = _by_own_standard(
            metal.standard, metal.coating if is_coated(metal.metal) else None)
        return said if standard_only or not named else f"{said}, {named}"
    if standard is not None:
        left_open = f"; the supplier names {standard.left_open}" if standard.left_open else ""
        if standard_only:
            return standard.name
        return f"{standard.name}{f', {named}' if named else left_open}"
    if metal.coating is None:
        return ""
    if grade and not grade.casefold().startswith("grade"):
        grade = f"grade {grade}"
    grade = grade or _GRADE
    said = _coated(COATINGS[metal.coating], metal.is_painted)
    has_standard = bool(COATINGS[metal.coating].standard)
    return said if standard_only or not has_standard else f"{said}; {grade}"


def _by_own_standard(standard: str, coated: CoatingName | None) -> str:
    """A standard that was typed, with the coating as it calls it: EN 10346 by grams (from memory),
    which has no class for each of ASTM's; others by their metric edition."""
    coating = None if coated is None else COATINGS[coated]
    if coating is None or not coating.standard:
        return standard
    if re.search(r"\bEN\s*\d", standard, re.IGNORECASE):
        own = twin(coating.name, EN_NAMES)
        if own is coating.name:
            return f"{standard}, coating {own}"
        if own is not None:
            return f"{standard}, coating {own} ({coating.name})"
        return f"{standard}, coating {coating.name} by {coating.standard}"
    metric = coating.metric.rpartition(" ")[2]
    return f"{standard}, coating {metric} ({coating.name})" if metric else (
        f"{standard}, coating {coating.name} by {coating.standard}")


def own_grade(metal: MetalSection) -> str:
    """The grade, alloy or type; empty where it was typed for another metal, and says nothing of
    this one. The standard that stands beside it is not said again: `50, A792` is grade 50."""
    if metal.metal is None or not metal.grade:
        return ""
    own = METALS[metal.metal].grades
    others = {grade for record in METALS.values() for grade in record.grades}
    grade = _without_standard(metal.grade, _standard_named(metal))
    foreign = grade in others and grade not in own
    return grade if own and not foreign else ""


def _standard_named(metal: MetalSection) -> str:
    """The standard that the order names, its metric edition too."""
    if metal.standard or metal.metal is None:
        return metal.standard or ""
    if (standard := METALS[metal.metal].standard) is not None:
        return standard.name
    if metal.coating is None:
        return ""
    coating = COATINGS[metal.coating]
    return f"{coating.standard} {coating.metric}"


def _without_standard(grade: str, standard: str) -> str:
    """A grade without a number of that standard beside it; one that is nothing else stays."""
    for number in re.findall(r"[A-Z]+ ?\d{3,5}M?\b", standard):
        pattern = re.escape(number).replace(r"\ ", " ?")
        bare = re.sub(rf"[\s,;(/]*(?:\b(?:to|per|of|by) )?(?:ASTM )?\b{pattern}\b[\s,;)/]*", " ",
                      grade, flags=re.IGNORECASE).strip()
        grade = re.sub(r"^grade (?=\S)", "", bare, flags=re.IGNORECASE) or grade
    return grade


def _coated(coating: Coating, painted: bool) -> str:
    if not coating.standard:
        return "no metallic coating; the supplier names the sheet's standard"
    by_grams = coating.name in EN_NAMES
    over = f"; {_PREPAINTED_EN if by_grams else _PREPAINTED}" if painted else ""
    metric = f" ({coating.metric})" if coating.metric else ""
    return f"{coating.standard}, coating {coating.name}{metric}{over}"


def metal_words(metal: MetalSection) -> str:
    """The metal in a word or two."""
    if metal.metal is None:
        return ""
    word = METALS[metal.metal].word
    if not is_coated(metal.metal) or metal.coating is None:
        return word
    kind = COATINGS[metal.coating].kind
    match kind:
        case CoatingKind.NONE:
            return f"{word}, uncoated"
        case CoatingKind.ZINC | CoatingKind.ALUMINUM_ZINC:
            return f"{word}, {kind}-coated"
        case _:
            assert_never(kind)
