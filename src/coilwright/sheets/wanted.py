"""What is wanted, as the order and the request for a quote both say it."""

from __future__ import annotations

from collections.abc import Iterator

from coilwright.calc.gauges import GaugeScale
from coilwright.calc.metal import METALS, is_coated
from coilwright.drawing.rounding import down_to_step
from coilwright.drawing.safe_text import one_line
from coilwright.job.answers.coils import CoilsKey
from coilwright.job.answers.metal import MetalKey
from coilwright.job.camber import camber_over_words
from coilwright.job.choices import YesNo
from coilwright.job.questions import question_words
from coilwright.plan.order_limits import capped_coils, heaviest_package
from coilwright.plan.purchases import BuyWhat
from coilwright.plan.ready import WAIVED
from coilwright.plan.result import Plan
from coilwright.sheets.blocks import (
    Block,
    Inline,
    Text,
    line,
    paragraph,
    room,
    table,
)
from coilwright.sheets.designations import designation, metal_words, own_grade
from coilwright.sheets.names import by_standard, value_text
from coilwright.units import Kind
from coilwright.values.figure import Figure
from coilwright.values.keys import Key

_WIDE, NARROW = 28, 12
"""Letters of room to write: a line, and a number."""
LEFT_TO_YOU = "your standard; state it when you confirm"
"""What the buyer leaves to the supplier, knowingly: its question was waived."""
PLEASE_STATE = "please state"
"""What a request asks for where the buyer has not said it."""
STATED = frozenset((
    MetalKey.METAL, MetalKey.COATING, MetalKey.GRADE, MetalKey.TEMPER, MetalKey.THICKNESS,
    MetalKey.THICKNESS_IS, MetalKey.THICKNESS_BASIS, MetalKey.THICKNESS_TOLERANCE, MetalKey.FINISH,
    MetalKey.COLOR, MetalKey.COLOR_CODE, MetalKey.BACK_COAT, MetalKey.PAINTED_SIDE, MetalKey.FILM,
    CoilsKey.WIDTH_TOLERANCE, CoilsKey.CAMBER, CoilsKey.INSIDE_DIAMETER, CoilsKey.TOLERANCE,
    CoilsKey.TOLERANCE_OVER, CoilsKey.EYE, CoilsKey.SKID,
))
"""The answers with a line below, which says them or has room for them."""


def each(plan: Plan) -> str:
    """What the lines of every coil are of, where a coil for trim has its own."""
    trim = any(bought.what is BuyWhat.TRIM_COIL for bought in plan.buy)
    return "every coil for panels" if trim else "every coil"


def trim_metal(plan: Plan, *, request: bool = False) -> tuple[Block, ...]:
    """Metal for trim, beside the coils: flat sheets and other coils. Empty where there is none."""
    system = plan.job.units
    rows = [
        (bought.count.text(system), bought.what.value, bought.width.text(system),
         bought.thickness.text(system), bought.length.text(system),
         f"{'about ' if request else ''}{bought.each.text(system)}")
        for bought in plan.buy if bought.what is not BuyWhat.COIL
    ]
    if not rows:
        return ()
    return (
        table(("count", "metal for trim", "width", "thickness", "length each", "weight each"),
              rows, right=(0, 2, 3, 4, 5)),
        paragraph("Metal for trim: all that is said of the metal above, minimum or nominal and "
                  "tolerance too, in the thickness given here.", _TRIM_COIL if any(
                      bought.what is BuyWhat.TRIM_COIL for bought in plan.buy) else ""),
    )


_TRIM_COIL = (" A coil for trim: no shorter than given; tolerance of its width, camber, ID, eye, "
              "skid and tag as of the other coils.")


def or_room(text: str, *, narrow: bool = False) -> Text:
    """What was given, or room to write it."""
    return line(text) if text else line(room(NARROW if narrow else _WIDE))


def in_one_line(*parts: str) -> str:
    """What was given, commas between."""
    return ", ".join(filter(None, map(one_line, parts)))


def answer(plan: Plan, key: str) -> Text:
    """What was given to one question, or room to write it."""
    return or_room(value_text(plan.job, key), narrow=True)


def _stated(plan: Plan, key: str, *, request: bool) -> Text:
    """What was given; left to the supplier; asked for by a request; or room to write it."""
    said = "" if key == MetalKey.GRADE else value_text(plan.job, key)
    if said:
        return line(said)
    if request:
        return line(PLEASE_STATE)
    return line(LEFT_TO_YOU) if key in _left_to_supplier(plan) else line(room(NARROW))


def _left_to_supplier(plan: Plan) -> frozenset[str]:
    """The answers whose questions were waived, with a reason."""
    return frozenset(question_words(one.key).answer for one in plan.readiness.settled
                     if one.kind == WAIVED)


def metal_facts(plan: Plan, *, request: bool = False) -> Iterator[tuple[str, Inline]]:
    """The metal, fully said; nothing that does not apply to it. request: what is open is asked."""
    metal = plan.job.metal
    yield "Metal", or_room(metal_words(metal), narrow=True)
    yield "Standard", or_room(designation(metal, standard_only=True), narrow=True)
    record = None if metal.metal is None else METALS[metal.metal]
    if record is not None and record.grades:
        grade = own_grade(metal)
        yield record.grade_word, line(grade) if grade else _stated(
            plan, MetalKey.GRADE, request=request)
    if record is not None and record.tempers:
        yield "Temper", _stated(plan, MetalKey.TEMPER, request=request)
    yield "Thickness", _thickness(plan)
    # What is open has a cell of its own: with it, that of the thickness would be four lines high.
    if metal.thickness_is is None:
        yield "Minimum or nominal, and tolerance", _stated(
            plan, MetalKey.THICKNESS_IS, request=request)
    elif not value_text(plan.job, MetalKey.THICKNESS_TOLERANCE):
        yield "Thickness tolerance", line(
            _stated(plan, MetalKey.THICKNESS_TOLERANCE, request=request), by_standard(plan.job))
    if record is not None and record.gauge is GaugeScale.COPPER_OUNCES and metal.gauge is not None:
        yield "Weight of the sheet", f"{metal.gauge} oz per sq ft, nominal; the thickness governs"
    if metal.finish is None and not metal.may_be_painted:
        return
    yield "Finish", answer(plan, MetalKey.FINISH)
    if not metal.may_be_painted:
        return
    yield "Color", answer(plan, MetalKey.COLOR)
    yield "Color code", _stated(plan, MetalKey.COLOR_CODE, request=request)
    yield "Back coat", _stated(plan, MetalKey.BACK_COAT, request=request)
    yield "Painted (prime) side", answer(plan, MetalKey.PAINTED_SIDE)
    film = metal.film is YesNo.YES
    yield "Protective film", line(_stated(plan, MetalKey.FILM, request=request), (
        ", on the painted side; state how soon it comes off" if film else ""))


def _thickness(plan: Plan) -> Text:
    """The decimal thickness, what it means and what it includes."""
    metal = plan.job.metal
    said = answer(plan, MetalKey.THICKNESS)
    off = value_text(plan.job, MetalKey.THICKNESS_TOLERANCE)
    if metal.thickness_is is not None:
        sign = "+" if metal.thickness_is.is_least else "±"
        said = line(said, f" {metal.thickness_is}",
                    f", {sign} {off}{by_standard(plan.job)}" if off else "")
    if is_coated(metal.metal):
        said = line(said, ", ", answer(plan, MetalKey.THICKNESS_BASIS))
    return line(said, "; paint is not part of it" if metal.may_be_painted else "")


def every_coil(plan: Plan, *, request: bool = False) -> Iterator[tuple[str, Inline]]:
    """What holds for every coil of the order. request: what is open is asked."""
    job = plan.job
    off = value_text(job, CoilsKey.WIDTH_TOLERANCE)
    width = _figure(plan, plan.figures.get(Key.STRIP_WIDTH))
    yield "Slit width", line(width, f" ± {off}" if off else line(
        "; tolerance: ", _stated(plan, CoilsKey.WIDTH_TOLERANCE, request=request)))
    camber = value_text(job, CoilsKey.CAMBER)
    over = f"in {camber_over_words(job)}"
    yield "Camber", f"{camber} {over} at most" if camber else line(
        _stated(plan, CoilsKey.CAMBER, request=request), f" ({over})")
    yield "Inside diameter, ID", answer(plan, CoilsKey.INSIDE_DIAMETER)
    under = value_text(job, CoilsKey.TOLERANCE)
    over = value_text(job, CoilsKey.TOLERANCE_OVER) or under
    yield ("Weight tolerance, each coil",
           f"{under} under, {over} over{_capped(plan)}" if under else line(room(NARROW)))
    yield "Eye of the coils", _stated(plan, CoilsKey.EYE, request=request)
    yield "Skid", _SKID[job.coils.skid] if job.coils.skid else _stated(
        plan, CoilsKey.SKID, request=request)


_SKID = {YesNo.YES: "each coil on one of its own", YesNo.NO: "none"}


def _capped(plan: Plan) -> str:
    """That max weight comes before the over side, where it does."""
    return ", never past max weight" if capped_coils(plan) else ""


def _figure(plan: Plan, figure: Figure | None) -> Text:
    return line(room(NARROW)) if figure is None else line(figure.text(plan.job.units))


def unloading(plan: Plan) -> Text:
    """The gear there, and how much it lifts where that is known."""
    gear, lifted = one_line(plan.job.order.unloading), heaviest_package(plan)
    said = or_room(gear)
    if lifted is not None:
        most = down_to_step(lifted, Kind.MASS, plan.job.units)
        said = line(f"{gear}; " if gear else "",
                    f"no package over {most}, skid and packing included")
    phone = one_line(plan.job.order.phone)
    return line(said, f"; call {phone or 'us'} before shipping: day, truck, how it is loaded")
