"""The readings of a coil's thickness, held to what was ordered and to what the machine forms."""

from __future__ import annotations

from collections.abc import Iterator
from typing import assert_never

from coilwright.calc import agreed, sources
from coilwright.calc.coating import COATINGS, CoatingKind
from coilwright.calc.gauges import GAUGES
from coilwright.calc.metal import METALS, ThicknessRule, is_coated
from coilwright.calc.receiving import length as lengths
from coilwright.calc.receiving import measures as calc
from coilwright.job.answers.machine import MachineKey
from coilwright.job.answers.metal import MetalKey
from coilwright.job.answers.panel import PanelKey
from coilwright.job.choices import YesNo
from coilwright.job.metal import ThicknessBasis
from coilwright.plan.receiving.inspection import Inspection, over, under
from coilwright.plan.receiving.report import Compared
from coilwright.units import Kind
from coilwright.values.figure import Figure
from coilwright.values.finding import Level
from coilwright.values.keys import Key
from coilwright.values.source import ANSWER, Source
from coilwright.words.in_units import with_units

_CLOSE = 0.0005
REFUSE = "Do not run it. Tell the supplier, and write it on the bill of lading before you sign."


def ordered_thickness(case: Inspection) -> Figure | None:
    """The thickness a micrometer should find under the paint: with its metallic coating."""
    thickness = case.known(MetalKey.THICKNESS)
    coating = case.known(Key.METAL_COATING_THICKNESS)
    if thickness is None:
        return None
    metal = case.plan.job.metal
    if is_coated(metal.metal) and metal.thickness_basis is ThicknessBasis.BARE:
        if coating is None:
            return None
        return case.put("ordered_thickness", "thickness ordered, with its coating",
                        calc.coated_thickness, thickness, coating)
    return thickness


def thickness_readings(case: Inspection) -> tuple[Figure, ...]:
    """The readings, entered."""
    made = (
        case.given(f"thickness{number}", f"thickness, reading {number}", value, Kind.THICKNESS)
        for number, value in enumerate(case.arrival.thickness, 1)
    )
    return tuple(figure for figure in made if figure is not None)


def painted(case: Inspection) -> bool:
    """Whether a reading is taken over paint; also while nobody knows."""
    return case.plan.job.metal.may_be_painted


def _limits(case: Inspection, ordered: Figure) -> tuple[Figure, Figure, Source]:
    """Least and greatest thickness that count as what was ordered, and by what rule.

    Nothing under the test report's least, where a tested assembly is specified.
    """
    least, most, source = _agreed(case, ordered, *_usual_limits(case, ordered))
    tested = _tested(case)
    if tested is not None and under(least, tested):
        return tested, most, agreed.REPORT
    return least, most, source


def _tested(case: Inspection) -> Figure | None:
    """The test report's least thickness, as a micrometer finds it: with the metallic coating."""
    job = case.plan.job
    if job.job.engineered is not YesNo.YES:
        return None
    tested = case.known(PanelKey.REPORT_THINNEST)
    coating = case.known(Key.METAL_COATING_THICKNESS)
    bare = is_coated(job.metal.metal) and job.metal.thickness_basis is ThicknessBasis.BARE
    if bare and tested is not None and coating is not None:
        return case.put("tested_thickness", "least thickness tested, with its coating",
                        calc.coated_thickness, tested, coating)
    return tested


def _agreed(
    case: Inspection, ordered: Figure, least: Figure, most: Figure, source: Source
) -> tuple[Figure, Figure, Source]:
    """The limits with what the order says of them in their place."""
    said = case.plan.job.metal.thickness_is
    off = case.known(MetalKey.THICKNESS_TOLERANCE)
    if said is None:
        return least, most, source
    if off is not None:
        most = case.put("thickness_most", "greatest thickness as ordered", agreed.thickest_agreed,
                        ordered, off)
    if said.is_least:
        return ordered, most, agreed.AGREED
    if off is None:
        return least, most, source
    least = case.put("thickness_least", "least thickness as ordered", agreed.thinnest_agreed,
                     ordered, off)
    return least, most, agreed.AGREED


def _usual_limits(case: Inspection, ordered: Figure) -> tuple[Figure, Figure, Source]:
    """Least and greatest thickness while the order says nothing of them."""
    metal = case.plan.job.metal
    rule = ThicknessRule.SHARE if metal.metal is None else METALS[metal.metal].thickness_rule
    match rule:
        case ThicknessRule.COATED_STEEL:
            thinner, formula = calc.DELIVERED, calc.least_thickness
        case ThicknessRule.COPPER_POINTS | ThicknessRule.SHARE:
            thinner, formula = calc.THINNER, calc.least_of_others
        case _:
            assert_never(rule)
    off = case.table("thickness_off", "Thickness may be off by", calc.THICKNESS_OFF,
                     Kind.PERCENT, thinner)
    most = case.put("thickness_most", "greatest thickness as ordered", calc.most_thickness,
                    ordered, off)
    gauge = GAUGES.get(metal.gauge or 0)
    zinc = metal.coating is not None and COATINGS[metal.coating].kind is CoatingKind.ZINC
    if rule is ThicknessRule.COATED_STEEL and zinc and gauge is not None and (
        gauge.galvanized_least - _CLOSE <= ordered.value <= gauge.galvanized_most + _CLOSE
    ):
        source = sources.GAUGE_GALVANIZED
        least = case.table(f"gauge{metal.gauge}_least", f"{metal.gauge} ga galvanized, least",
                           gauge.galvanized_least, Kind.THICKNESS, source)
        most = case.table(f"gauge{metal.gauge}_most", f"{metal.gauge} ga galvanized, greatest",
                          gauge.galvanized_most, Kind.THICKNESS, source)
        return least, most, source
    if rule is ThicknessRule.COPPER_POINTS:
        point = next((low for nominal, low in calc.COPPER_LEAST.items()
                      if abs(nominal - ordered.value) <= _CLOSE), None)
        if point is not None:
            least = case.table("copper_least", "Copper, least at any point", point,
                               Kind.THICKNESS, calc.COPPER_POINT)
            return least, most, calc.COPPER_POINT
    least = case.put("thickness_least", "least thickness as ordered", formula, ordered, off)
    return least, most, thinner


def thickness_compared(case: Inspection) -> Iterator[Compared]:
    """The least reading against the least that was ordered, the greatest against the most.

    What is surely too thin holds the coil: even with its paint counted as metal it is under. What
    is too thin under usual paint holds it until somebody measures bare metal.
    The limits shown are those of a reading, which is taken over paint where there is paint.
    """
    ordered, readings = ordered_thickness(case), thickness_readings(case)
    name = "Thickness, painted" if painted(case) else "Thickness"
    least = most = shown = None
    if ordered is not None:
        least, metal_most, source = _limits(case, ordered)
        shown = least
        if painted(case):
            shown = case.put("least_reading", "least reading as ordered, over paint",
                             calc.least_reading, least, _paint(case))
        most = case.put("most_reading", "greatest reading as ordered", calc.most_reading,
                        metal_most, _most_paint(case), _reading(case))
    if not readings:
        yield Compared("thickness", name, ordered, None, shown, most, None)
        return
    low = case.put("thinnest", "least reading", calc.thinnest, *readings)
    high = case.put("thickest", "greatest reading", calc.thickest, *readings)
    thin = thick = None
    if ordered is not None and least is not None and most is not None:
        thin = _thin(case, low, least, ordered, source)
        given = source in (sources.GAUGE_GALVANIZED, agreed.AGREED)
        over_by = source if given else calc.THICKER
        thick = _thick(case, high, most, ordered, over_by)
    yield Compared("thickness", f"{name}, least", ordered, low, shown, None, thin)
    yield Compared("thickest", f"{name}, most", ordered, high, None, most, thick)
    if len(readings) > 1:
        yield _spread(case, readings)


def _paint(case: Inspection) -> Figure:
    return case.table("paint", "Paint on both sides", calc.PAINT, Kind.THICKNESS,
                      calc.PAINT_SOURCE)


def _most_paint(case: Inspection) -> Figure:
    if not painted(case):
        return case.table("no_paint", "Paint: none", 0.0, Kind.THICKNESS, ANSWER)
    return case.table("most_paint", "Paint on both sides, most", calc.MOST_PAINT, Kind.THICKNESS,
                      calc.PAINT_SOURCE)


def _reading(case: Inspection) -> Figure:
    return case.table("thickness_read", "A micrometer is read to",
                      calc.THICKNESS_READ_TO.size(case.system), Kind.THICKNESS, calc.MICROMETER)


def _spread(case: Inspection, readings: tuple[Figure, ...]) -> Compared:
    spread = case.put("spread", "readings lie apart by", calc.spread, *readings)
    allowed = case.table("spread", "Readings may lie apart by", calc.SPREAD.size(case.system),
                         Kind.THICKNESS, calc.SPREAD_SOURCE)
    level = None
    if over(spread, allowed):
        level = case.find(
            Level.CARE, "spread", f"Its readings lie {spread.text(case.system)} apart.",
            "Thickness that varies makes panels that bow and lengths that differ, or a reading "
            "was taken over a burr or on dirt.",
            with_units("Clean the edge and measure again, an inch in from both edges and in the "
                       "middle.", case.system),
            calc.SPREAD_SOURCE)
    return Compared("spread", "Readings lie apart", None, spread, None, allowed, level)


def _thin(
    case: Inspection, low: Figure, least: Figure, ordered: Figure, source: Source
) -> Level | None:
    text, wanted = low.text(case.system), ordered.text(case.system)
    wanted_least = f"{least.text(case.system)} at least"
    if source is agreed.REPORT:
        wanted_least = f"{least.text(case.system)} is the least that was tested"
    at_most = case.put("at_most", "least reading, off the other way", lengths.thicker, low,
                       _reading(case))
    if under(at_most, least):
        return case.find(
            Level.STOP, "thickness",
            f"Its least reading is {text}; {wanted} was ordered, {wanted_least}.",
            "Thinner metal dents, oil-cans and may fall outside the test report. "
            + ("The reading has its paint on, so the metal is thinner still."
               if painted(case) else "It was measured on bare metal."),
            REFUSE + " The mill certificate says what was rolled.", source, MetalKey.THICKNESS)
    if not painted(case):
        if under(low, least):
            return case.find(
                Level.CARE, "thickness",
                f"Its least reading is {text}, by a hair under {least.text(case.system)}.",
                "The difference is smaller than a micrometer in the hand shows.",
                "Measure again, or ask for the mill certificate.", source, MetalKey.THICKNESS)
        return None
    bare = case.put("under_paint", "metal under the least reading", calc.under_paint, low,
                    _paint(case))
    if under(bare, least):
        return case.find(
            Level.STOP, "thickness",
            f"Its least reading is {text} with its paint on; the metal under it is about "
            f"{bare.text(case.system)}, and {wanted} was ordered, {wanted_least}.",
            "Paint is no part of the thickness ordered, and how thick it is nobody measured.",
            "Hold it until the paint is off a spot at the end of the strip and the metal measured "
            "there, or until the mill certificate is read.", calc.PAINT_SOURCE,
            MetalKey.THICKNESS)
    return None


def _thick(
    case: Inspection, high: Figure, most: Figure, ordered: Figure, source: Source
) -> Level | None:
    text = f"Its greatest reading is {high.text(case.system)}"
    text += " with its paint on" if painted(case) else ""
    limit = case.plate(MachineKey.THICKEST)
    if limit is not None:
        formed = case.put("formed_reading", "greatest reading that the machine forms",
                          calc.most_reading, limit, _most_paint(case), _reading(case))
        if over(high, formed):
            return case.find(
                Level.STOP, "thickest", f"{text}; the machine forms {limit.text(case.system)}.",
                "Metal too thick for its rolls bends shafts and strips drives.",
                "Do not run it. Ask the machine's maker, or give the coil back.", limit.source,
                MachineKey.THICKEST)
    if over(high, most):
        return case.find(
            Level.CARE, "thickest", f"{text}; {ordered.text(case.system)} was ordered.",
            with_units("Thicker metal weighs more by the foot: a coil of the ordered weight is "
                       "shorter.", case.system),
            "Set the machine for it, and see whether its length still makes the job.",
            source, MetalKey.THICKNESS)
    return None
