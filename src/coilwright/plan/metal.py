"""The metal: density, weight by area, the strip and movement; and its checks."""

from __future__ import annotations

from collections.abc import Iterator
from typing import assert_never

from coilwright.calc import metal as metals
from coilwright.calc import sources, strip
from coilwright.calc.agreed import THICKNESS_READ
from coilwright.calc.coating import COATINGS, EN_NAMES
from coilwright.calc.gauges import gauge_meanings
from coilwright.calc.metal import METALS, Contact, Metal, Unlike, is_coated
from coilwright.job.answers import ANSWERS
from coilwright.job.answers.job import JobKey
from coilwright.job.answers.metal import MetalKey
from coilwright.job.answers.panel import PanelKey
from coilwright.job.choices import YesNo
from coilwright.job.metal import MetalName, ThicknessBasis, Touching
from coilwright.plan.ledger import Lack, Ledger, Term
from coilwright.plan.purchases import BuyWhat
from coilwright.plan.view import View, care, note, stop
from coilwright.units import Kind, System
from coilwright.values.figure import Figure
from coilwright.values.finding import Finding
from coilwright.values.keys import Key
from coilwright.values.standing import Standing

_OTHER_DENSITY = (
    "European papers reckon with 7850 kg/m³, from memory: 0.1 % more, less than any tolerance of "
    "weight; with one figure for all a job keeps its order when its units change")
_STATED = (MetalKey.THICKNESS_BASIS,)


def enter_metal(ledger: Ledger) -> None:
    """Enter the weight of the sheet and of the strip, and the longest panel's movement."""
    metal = _metal(ledger)
    density = _tabled(ledger, metal, Key.METAL_DENSITY, "Density")
    thickness = ledger.answer(MetalKey.THICKNESS)
    answers = ledger.job.metal
    coated = is_coated(answers.metal)
    bare = answers.thickness_basis is ThicknessBasis.BARE and coated
    if bare and answers.coating is None:
        ledger.lack(Key.METAL_SHEET_MASS, "Weight of the sheet", (MetalKey.COATING,))
        sheet: Term = ledger.lacks[Key.METAL_SHEET_MASS]
    elif bare and answers.coating is not None:
        coating = COATINGS[answers.coating]
        standing = ledger.job.standing.get(MetalKey.COATING, Standing.SURE)
        mass = ledger.add(
            Figure(Key.METAL_COATING_MASS, "Coating, both sides", coating.mass, Kind.MASS_PER_AREA,
                   coating.source, standing)
        )
        ledger.add(
            Figure(Key.METAL_COATING_THICKNESS, "Coating thickness, both sides",
                   coating.thickness, Kind.THICKNESS, coating.source, standing)
        )
        sheet = ledger.put(Key.METAL_SHEET_MASS, "Weight of the sheet", metals.coated_sheet_mass,
                           density, thickness, mass, picks=_STATED)
    else:
        sheet = ledger.put(Key.METAL_SHEET_MASS, "Weight of the sheet", metals.sheet_mass,
                           density, thickness,
                           note=_COUNTED if coated else "", picks=_STATED if coated else ())
    width = ledger.put(
        Key.STRIP_WIDTH,
        "Strip width",
        strip.strip_width,
        ledger.answer(PanelKey.COVERAGE),
        ledger.answer(PanelKey.TAKE_UP),
    )
    ledger.put(
        Key.STRIP_MASS_PER_LENGTH, "Weight of the strip", strip.mass_per_length, sheet, width
    )


_COUNTED = "the coating is counted as metal: heavy by up to 8 % on thin steel"


def enter_movement(ledger: Ledger) -> None:
    """Enter how far the longest panel moves between the coldest and the hottest metal."""
    expansion = _tabled(ledger, _metal(ledger), Key.METAL_EXPANSION, "Thermal expansion")
    longest = ledger.got(Key.PANELS_LONGEST)
    hottest, coldest = ledger.given(JobKey.HOTTEST), ledger.given(JobKey.COLDEST)
    if hottest is not None and coldest is not None and coldest.value >= hottest.value:
        ledger.lack(Key.PANEL_MOVEMENT, "Movement of the longest panel", (),
                    "the coldest metal is not colder than the hottest")
        return
    ledger.put(Key.PANEL_MOVEMENT, "Movement of the longest panel", metals.movement, expansion,
               longest, ledger.answer(JobKey.HOTTEST), ledger.answer(JobKey.COLDEST))


def _metal(ledger: Ledger) -> Metal | None:
    name = ledger.job.metal.metal
    return None if name is None else METALS[name]


def _tabled(ledger: Ledger, metal: Metal | None, key: str, label: str) -> Term:
    if metal is None:
        return Lack(key, label, (MetalKey.METAL,))
    standing = ledger.job.standing.get(MetalKey.METAL, Standing.SURE)
    if key == Key.METAL_DENSITY:
        ours = ledger.job.units is System.METRIC and metal is METALS[MetalName.STEEL]
        return ledger.add(Figure(key, label, metal.density, Kind.DENSITY, metal.density_source,
                                 standing, note=_OTHER_DENSITY if ours else ""))
    return ledger.add(Figure(key, label, metal.expansion, Kind.EXPANSION,
                             metal.expansion_source, standing))


def check_metal(view: View) -> Iterator[Finding]:
    """All checks of the metal."""
    yield from _temperatures(view)
    yield from _thickness(view)
    yield from _coating(view)
    yield from _surroundings(view)
    yield from _color(view)


def _temperatures(view: View) -> Iterator[Finding]:
    coldest, hottest = view.value(JobKey.COLDEST), view.value(JobKey.HOTTEST)
    if coldest is not None and hottest is not None and coldest >= hottest:
        yield stop(
            "job.temperatures",
            f"The coldest metal is put at {view.text(JobKey.COLDEST)}, the hottest at "
            f"{view.text(JobKey.HOTTEST)}.",
            "How far a panel moves follows from the two; the wrong way round it is nothing.",
            "Put the right temperatures in: usual are the coldest night, and the metal in the sun.",
            sources.EXPANSION, JobKey.COLDEST, JobKey.HOTTEST,
        )


def _thickness(view: View) -> Iterator[Finding]:
    metal = view.job.metal
    # One that was typed before the metal was another stands in a row that is asked no more.
    gauge = metal.gauge if ANSWERS[MetalKey.GAUGE].asked(view.job) else None
    meanings = (gauge_meanings(gauge, METALS[metal.metal].gauge)
                if gauge and metal.metal else ())
    listed = "; ".join(f"{view.say(m.thickness, Kind.THICKNESS)} {m.words}" for m in meanings)
    if gauge is not None and metal.thickness is None:
        yield stop(
            "metal.gauge_only",
            f"Gauge {gauge} is not a thickness"
            + (f": it can mean {listed}." if listed else "."),
            "Weight, coil length and what the machine forms all follow from the decimal "
            "thickness.",
            "Ask the supplier for the decimal thickness, and whether the coating is included.",
            sources.THICKNESS_ORDERING, MetalKey.THICKNESS, MetalKey.GAUGE,
        )
    if gauge is not None and metal.thickness is not None and meanings:
        low, high = meanings[0].thickness, meanings[-1].thickness
        if not low * 0.97 <= metal.thickness <= high * 1.03:
            yield stop(
                "metal.gauge_differs",
                f"{view.say(metal.thickness, Kind.THICKNESS)} is not gauge {gauge}: "
                f"that is {listed}.",
                "One of the two is wrong, and the wrong one may be what is delivered.",
                "Settle the decimal thickness with the supplier. Then put the other right, or take "
                "the gauge away: the order goes by the thickness.",
                meanings[0].source, MetalKey.THICKNESS, MetalKey.GAUGE,
            )
    if metal.metal is None:
        return
    least, listed_by = METALS[metal.metal].code_thinnest, METALS[metal.metal].code_source
    thickness = metal.thickness
    if least is not None and thickness is not None and thickness < least - THICKNESS_READ:
        yield care(
            "metal.under_code",
            f"{view.say(thickness, Kind.THICKNESS)} is thinner than the "
            f"{view.say(least, Kind.THICKNESS)} the model code lists for {metal.metal} roofs.",
            "The building department may refuse it.",
            "Ask the building department and the designer before ordering.",
            listed_by, MetalKey.THICKNESS,
        )


_BY_GRAMS = {"AZ50": "AZ150", "AZ55": "AZ185", "G90": "Z275"}
"""What roofs get, by ounces and by grams; the heavier of aluminum-zinc is one class more."""


def _coating(view: View) -> Iterator[Finding]:
    metal = view.job.metal
    if not is_coated(metal.metal) or metal.coating is None:
        return
    coating = COATINGS[metal.coating]
    by_grams = metal.coating in EN_NAMES or view.job.units is System.METRIC
    code = "the US model code" if by_grams else "the model code"
    names = _BY_GRAMS if by_grams else {name: name for name in _BY_GRAMS}
    if not coating.on_code_list:
        yield care(
            "metal.thin_coating",
            f"Coating “{metal.coating}” is less than {code} lists for steel roofs: "
            f"{names['AZ50']} or {names['G90']}.",
            "The coating is what keeps steel from rusting at cut edges and scratches.",
            f"Ask the supplier for {names['AZ50']}, {names['AZ55']} or {names['G90']}, and the "
            "building department what it accepts.",
            coating.code_source, MetalKey.COATING,
        )
    elif coating.usually_painted and metal.finish is not None and not metal.finish.is_paint:
        yield care(
            "metal.bare_az50", f"{metal.coating} is usually painted; bare roofs usually get "
            f"{names['AZ55']}.",
            "Without paint the coating is all the protection there is.",
            f"Ask the supplier for {names['AZ55']}, and for the substrate warranty.",
            coating.bare_source, MetalKey.COATING, MetalKey.FINISH,
        )


def _surroundings(view: View) -> Iterator[Finding]:
    metal = view.job.metal
    if metal.metal is None:
        return
    if view.job.job.salt_water is YesNo.YES:
        worst = METALS[metal.metal].worst_near_salt
        words = care if worst else note
        yield words(
            "metal.salt_air", "The site is near salt water.",
            "Warranties on finish and metal end at a distance from salt water that each maker "
            "sets" + ("; coated steel fares worst." if worst else "."),
            "Ask the supplier for the distance in writing"
            + (", and compare painted aluminum." if worst else "."),
            METALS[metal.metal].salt_source, MetalKey.METAL, JobKey.SALT_WATER,
        )
    if metal.touching is not None:
        unlike = unlike_at(METALS[metal.metal].contact, metal.touching)
        if unlike is not None:
            level = stop if metal.touching is Touching.COPPER else care
            yield level(
                "metal.unlike",
                f"{metal.metal.value.capitalize()} here meets {metal.touching}: {unlike.because}.",
                "What gives way, the roof or what it touches, is eaten through, sometimes in a few "
                "years.",
                "Separate them, or change one of the metals; the designer says how.",
                unlike.source, MetalKey.TOUCHING, MetalKey.METAL,
            )


def unlike_at(contact: Contact, touching: Touching) -> Unlike | None:
    """Why a metal of this contact must be kept apart from a material; None where they may meet."""
    match touching:
        case Touching.NOTHING:
            return None
        case Touching.COPPER:
            return contact.copper
        case Touching.ALUMINUM:
            return contact.aluminum
        case Touching.STEEL:
            return contact.steel
        case Touching.TREATED_WOOD:
            return contact.treated_wood
        case Touching.MASONRY:
            return contact.masonry
        case _:
            assert_never(touching)


def _color(view: View) -> Iterator[Finding]:
    metal = view.job.metal
    if metal.finish is None or not metal.finish.is_paint:
        return
    if metal.color and metal.color_confirmed is YesNo.NO:
        yield stop(
            "metal.color_unconfirmed",
            f"The client has not confirmed the color “{metal.color}”.",
            "Coil cannot be sent back for its color.",
            "Get the color confirmed in writing, from a painted sample, not from a screen.",
            sources.TRADE, MetalKey.COLOR_CONFIRMED,
        )
    if metal.custom_color is YesNo.YES:
        yield care(
            "metal.custom_color", "A custom color takes longer and has a minimum.",
            "Suppliers paint it for you alone: there is no stock to top up from.",
            "Ask for the minimum, the lead time, and how a second production lot is matched.",
            sources.TRADE, MetalKey.CUSTOM_COLOR,
        )
    if (view.job.job.trim_in_house is YesNo.YES and not view.job.life.is_ordered
            and not _trim_is_there(view)):
        yield note(
            "metal.one_lot", "Trim is made in-house: order its metal with the panels.",
            "Two production lots differ in shade, and it shows where trim meets panel.",
            "Ask for one production lot for panels and trim.", sources.TRADE,
            JobKey.TRIM_IN_HOUSE, step="metal",
        )


def _trim_is_there(view: View) -> bool:
    """Whether all metal for trim is on hand, so that none of it is ordered."""
    of_stock = any(not cut.plane for coil in view.from_stock for cut in coil.cuts)
    of_new = any(not cut.plane for coil in view.coils for cut in coil.cuts)
    bought = any(one.what is not BuyWhat.COIL for one in view.buy)
    return of_stock and not of_new and not bought
