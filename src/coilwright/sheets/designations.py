"""The standards an order names, by metal and coating. Designations only."""

from __future__ import annotations

from coilwright.job.metal import CoatingName, Finish, MetalName, MetalSection

# IBC Table 1507.4.3(1) names A792 for AZ50, B209, B370 (published); A653 for G90, A755 over a
# coated sheet, A240 for stainless (from memory); EN 988 for zinc (from memory); AZM and Z
# numbers are the same coatings in g/m² (A653: read in a copy; A792: from memory).
_COATED = {
    CoatingName.AZ50: "ASTM A792, coating AZ50 (A792M: AZM150)",
    CoatingName.AZ55: "ASTM A792, coating AZ55 (A792M: AZM165)",
    CoatingName.AZ60: "ASTM A792, coating AZ60 (A792M: AZM180)",
    CoatingName.G60: "ASTM A653, coating G60 (A653M: Z180)",
    CoatingName.G90: "ASTM A653, coating G90 (A653M: Z275)",
    CoatingName.NONE: "no metallic coating; the supplier names the sheet's standard",
}
_PREPAINTED = "prepainted to ASTM A755 over it"
_GRADE = "the supplier names type and grade"
_METALS = {
    MetalName.ALUMINIUM: "ASTM B209; the supplier names alloy and temper",
    MetalName.COPPER: "ASTM B370; the supplier names the temper",
    MetalName.STAINLESS: "ASTM A240; the supplier names the type",
    MetalName.ZINC: "EN 988",
}


def designation(metal: MetalSection) -> str:
    """The metal's standard and coating; empty while the metal or the coating is not known."""
    if metal.metal is None:
        return ""
    if metal.metal is not MetalName.STEEL:
        return _METALS[metal.metal]
    if metal.coating is None:
        return ""
    painted = metal.finish not in (None, Finish.BARE)
    coated = metal.coating is not CoatingName.NONE
    over = f"; {_PREPAINTED}" if painted and coated else ""
    grade = f"; {_GRADE}" if coated else ""
    return f"{_COATED[metal.coating]}{over}{grade}"


def metal_words(metal: MetalSection) -> str:
    """The metal in a word or two."""
    if metal.metal is None:
        return ""
    if metal.metal is not MetalName.STEEL or metal.coating is None:
        return metal.metal.value
    if metal.coating is CoatingName.NONE:
        return "steel, uncoated"
    zinc = metal.coating in (CoatingName.G60, CoatingName.G90)
    return "steel, zinc-coated" if zinc else "steel, aluminium-zinc-coated"
