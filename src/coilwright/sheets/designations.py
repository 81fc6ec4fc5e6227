"""The standards an order names, in words. The facts stand with the metal and its coating."""

from __future__ import annotations

from typing import assert_never

from coilwright.calc.coating import COATINGS, Coating, CoatingKind
from coilwright.calc.metal import METALS, is_coated
from coilwright.job.metal import MetalSection

# ASTM A755: prepainted steel sheet, over a coated one (from memory).
_PREPAINTED = "prepainted to ASTM A755 over it"
_GRADE = "the supplier names type and grade"


def designation(metal: MetalSection) -> str:
    """The metal's standard and coating; empty while the metal or the coating is not known."""
    if metal.metal is None:
        return ""
    standard = METALS[metal.metal].standard
    if standard is not None:
        left_open = f"; the supplier names {standard.left_open}" if standard.left_open else ""
        return f"{standard.name}{left_open}"
    if metal.coating is None:
        return ""
    return _coated(COATINGS[metal.coating], metal.finish is not None and metal.finish.is_paint)


def _coated(coating: Coating, painted: bool) -> str:
    if not coating.standard:
        return "no metallic coating; the supplier names the sheet's standard"
    over = f"; {_PREPAINTED}" if painted else ""
    return f"{coating.standard}, coating {coating.name} ({coating.metric}){over}; {_GRADE}"


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
