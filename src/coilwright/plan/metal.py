"""The metal: density, weight by area, the strip and movement; and its checks."""

from __future__ import annotations

from collections.abc import Iterator

from coilwright.calc import metals, sources, strip
from coilwright.calc.gauges import gauge_meanings
from coilwright.calc.metals import COATINGS, METALS, Metal
from coilwright.job.choices import YesNo
from coilwright.job.metal import CoatingName, Finish, MetalName, ThicknessBasis, Touching
from coilwright.plan.ledger import Lack, Ledger, Term
from coilwright.plan.view import View, care, note, stop
from coilwright.units import Kind
from coilwright.values.figure import Figure
from coilwright.values.finding import Finding
from coilwright.values.source import Source
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


_UNLIKE: dict[tuple[MetalName, Touching], tuple[str, Source]] = {
    (MetalName.ALUMINIUM, Touching.COPPER):
        ("copper eats aluminium, and so does water off it", sources.GALVANIC),
    (MetalName.STEEL, Touching.COPPER):
        ("water off copper eats zinc and aluminium-zinc coatings", sources.COPPER_RUNOFF),
    (MetalName.ZINC, Touching.COPPER): ("water off copper eats zinc", sources.COPPER_RUNOFF),
    (MetalName.COPPER, Touching.ALUMINIUM):
        ("the aluminium is eaten where they touch", sources.GALVANIC),
    (MetalName.COPPER, Touching.STEEL):
        ("the coating of the steel is eaten where they touch", sources.CONTACT),
    (MetalName.ALUMINIUM, Touching.STEEL):
        ("they act on each other in damp or salty air", sources.GALVANIC),
    (MetalName.ALUMINIUM, Touching.TREATED_WOOD): ("treated wood eats aluminium", sources.GALVANIC),
    (MetalName.STEEL, Touching.TREATED_WOOD): ("treated wood eats the coating", sources.CONTACT),
    (MetalName.ALUMINIUM, Touching.MASONRY):
        ("wet concrete and mortar eat aluminium", sources.GALVANIC),
    (MetalName.STEEL, Touching.MASONRY):
        ("wet concrete and mortar eat aluminium-zinc coatings", sources.CONTACT),
    (MetalName.ZINC, Touching.MASONRY): ("wet concrete and mortar eat zinc", sources.CONTACT),
    (MetalName.STAINLESS, Touching.STEEL):
        ("the plain steel's coating goes first where they touch", sources.CONTACT),
}  # fmt: skip
"""Why two materials must be kept apart, and who says so; what is not listed may meet."""


def check_metal(view: View) -> Iterator[Finding]:
    """All checks of the metal."""
    yield from _thickness(view)
    yield from _coating(view)
    yield from _surroundings(view)
    yield from _colour(view)


def _thickness(view: View) -> Iterator[Finding]:
    metal = view.job.metal
    meanings = gauge_meanings(metal.gauge, metal.metal) if metal.gauge and metal.metal else ()
    listed = "; ".join(f"{view.say(m.thickness, Kind.THICKNESS)} {m.words}" for m in meanings)
    if metal.gauge is not None and metal.thickness is None:
        yield stop(
            "metal.gauge_only",
            f"Gauge {metal.gauge} is not a thickness"
            + (f": it can mean {listed}." if listed else "."),
            "Weight, coil length and what the machine forms all follow from the decimal "
            "thickness.",
            "Ask the supplier for the decimal thickness, and whether the coating is included.",
            sources.THICKNESS_ORDERING, "metal.thickness", "metal.gauge",
        )
    if metal.gauge is not None and metal.thickness is not None and meanings:
        low, high = meanings[0].thickness, meanings[-1].thickness
        if not low * 0.97 <= metal.thickness <= high * 1.03:
            yield care(
                "metal.gauge_differs",
                f"{view.say(metal.thickness, Kind.THICKNESS)} is not gauge {metal.gauge}: "
                f"that is {listed}.",
                "One of the two is wrong, and the wrong one may be what is delivered.",
                "Settle the decimal thickness with the supplier; order by that alone.",
                meanings[0].source, "metal.thickness", "metal.gauge",
            )
    if metal.metal is None:
        return
    least, listed_by = METALS[metal.metal].code_thinnest, METALS[metal.metal].code_source
    if least is not None and metal.thickness is not None and metal.thickness < least - 1e-9:
        yield care(
            "metal.under_code",
            f"{view.say(metal.thickness, Kind.THICKNESS)} is thinner than the "
            f"{view.say(least, Kind.THICKNESS)} the model code lists for {metal.metal} roofs.",
            "The building department may refuse it.",
            "Ask the building department and the designer before ordering.",
            listed_by, "metal.thickness",
        )


def _coating(view: View) -> Iterator[Finding]:
    metal = view.job.metal
    if metal.metal is not MetalName.STEEL or metal.coating is None:
        return
    if metal.coating in (CoatingName.NONE, CoatingName.G60):
        yield care(
            "metal.thin_coating",
            f"Coating “{metal.coating}” is less than the model code lists for steel roofs: "
            "AZ50 or G90.",
            "The coating is what keeps steel from rusting at cut edges and scratches.",
            "Ask the supplier for AZ50, AZ55 or G90, and the building department what it accepts.",
            sources.CODE_COATING, "metal.coating",
        )
    elif metal.coating is CoatingName.AZ50 and metal.finish is Finish.BARE:
        yield care(
            "metal.bare_az50", "AZ50 is usually painted; bare roofs usually get AZ55.",
            "Without paint the coating is all the protection there is.",
            "Ask the supplier for AZ55, and for the substrate warranty.",
            sources.BARE_COATING, "metal.coating", "metal.finish",
        )


def _surroundings(view: View) -> Iterator[Finding]:
    metal = view.job.metal
    if metal.metal is None:
        return
    if view.job.job.salt_water is YesNo.YES:
        steel = metal.metal is MetalName.STEEL
        words = care if steel else note
        yield words(
            "metal.salt_air", "The site is near salt water.",
            "Warranties on finish and metal end at a distance from salt water that each maker "
            "sets" + ("; coated steel fares worst." if steel else "."),
            "Ask the supplier for the distance in writing"
            + (", and compare painted aluminium." if steel else "."),
            sources.SALT_AIR, "metal.metal", "job.salt_water",
        )
    if metal.touching is not None:
        unlike = _UNLIKE.get((metal.metal, metal.touching))
        if unlike:
            because, source = unlike
            level = stop if metal.touching is Touching.COPPER else care
            yield level(
                "metal.unlike",
                f"{metal.metal.value.capitalize()} here meets {metal.touching}: {because}.",
                "What gives way, the roof or what it touches, is eaten through, sometimes in a few "
                "years.",
                "Separate them, or change one of the metals; the designer says how.",
                source, "metal.touching", "metal.metal",
            )


def _colour(view: View) -> Iterator[Finding]:
    metal = view.job.metal
    if metal.finish in (None, Finish.BARE):
        return
    if metal.colour and metal.colour_confirmed is YesNo.NO:
        yield stop(
            "metal.colour_unconfirmed",
            f"The client has not confirmed the colour “{metal.colour}”.",
            "Coil cannot be sent back for its colour.",
            "Get the colour confirmed in writing, from a painted sample, not from a screen.",
            sources.TRADE, "metal.colour_confirmed",
        )
    if metal.custom_colour is YesNo.YES:
        yield care(
            "metal.custom_colour", "A custom colour takes longer and has a minimum.",
            "Suppliers paint it for you alone: there is no stock to top up from.",
            "Ask for the minimum, the lead time, and how a second batch is matched.",
            sources.TRADE, "metal.custom_colour",
        )
    if view.job.job.trim_in_house is YesNo.YES:
        yield note(
            "metal.one_lot", "Trim is made in-house: order its metal with the panels.",
            "Two production lots differ in shade, and it shows where trim meets panel.",
            "Ask for one production lot for panels and trim.", sources.TRADE,
            "job.trim_in_house", step="metal",
        )
