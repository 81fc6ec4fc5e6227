"""The metal's figures: density, weight by area, the strip, and movement."""

from __future__ import annotations

from coilwright.calc import metals, strip
from coilwright.calc.metals import COATINGS, METALS, Metal
from coilwright.job.metal import ThicknessBasis
from coilwright.plan.ledger import Lack, Ledger, Term
from coilwright.units import Kind
from coilwright.values.figure import Figure
from coilwright.values.standing import Standing

_STATED = ("metal.thickness_basis",)


def enter_metal(ledger: Ledger) -> None:
    """Enter the weight of the sheet and of the strip, and the longest panel's movement."""
    metal = _metal(ledger)
    density = _tabled(ledger, metal, "metal.density", "Density")
    thickness = ledger.answer("metal.thickness")
    answers = ledger.job.metal
    bare = answers.thickness_basis is ThicknessBasis.BARE and answers.metal == "steel"
    if bare and answers.coating is None:
        ledger.lack("metal.sheet_mass", "Weight of the sheet", ("metal.coating",))
        sheet: Term = ledger.lacks["metal.sheet_mass"]
    elif bare and answers.coating is not None:
        coating = COATINGS[answers.coating]
        standing = ledger.job.standing.get("metal.coating", Standing.SURE)
        mass = ledger.add(
            Figure("metal.coating_mass", "Coating, both sides", coating.mass, Kind.MASS_PER_AREA,
                   coating.source, standing)
        )
        ledger.add(
            Figure("metal.coating_thickness", "Coating thickness, both sides",
                   coating.thickness, Kind.THICKNESS, coating.source, standing)
        )
        sheet = ledger.put("metal.sheet_mass", "Weight of the sheet", metals.coated_sheet_mass,
                           density, thickness, mass, picks=_STATED)
    else:
        sheet = ledger.put("metal.sheet_mass", "Weight of the sheet", metals.sheet_mass,
                           density, thickness,
                           note="the coating is counted as metal: heavy by up to 8 % on thin steel",
                           picks=_STATED if answers.metal == "steel" else ())
    width = ledger.put("strip.width", "Strip width", strip.strip_width,
                       ledger.answer("panel.coverage"), ledger.answer("panel.take_up"))
    ledger.put("strip.mass_per_length", "Weight of the strip", strip.mass_per_length, sheet, width)


def enter_movement(ledger: Ledger) -> None:
    """Enter how far the longest panel moves between the coldest and the hottest metal."""
    expansion = _tabled(ledger, _metal(ledger), "metal.expansion", "Thermal expansion")
    longest = ledger.got("panels.longest")
    ledger.put("panel.movement", "Movement of the longest panel", metals.movement, expansion,
               longest, ledger.answer("job.hottest"), ledger.answer("job.coldest"))


def _metal(ledger: Ledger) -> Metal | None:
    name = ledger.job.metal.metal
    return None if name is None else METALS[name]


def _tabled(ledger: Ledger, metal: Metal | None, key: str, label: str) -> Term:
    if metal is None:
        return Lack(key, label, ("metal.metal",))
    standing = ledger.job.standing.get("metal.metal", Standing.SURE)
    if key == "metal.density":
        return ledger.add(Figure(key, label, metal.density, Kind.DENSITY, metal.density_source,
                                 standing))
    return ledger.add(Figure(key, label, metal.expansion, Kind.EXPANSION,
                             metal.expansion_source, standing))
