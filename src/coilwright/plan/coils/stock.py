"""Coils on hand held to a job: which fit, how long each can be counted on, strips from each."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from coilwright.calc import coil as wound
from coilwright.calc import on_hand as calc
from coilwright.calc import slitting
from coilwright.calc.coating import COATINGS, is_same
from coilwright.calc.metal import is_coated
from coilwright.job.answers.coils import CoilsKey
from coilwright.job.answers.machine import MachineKey
from coilwright.job.answers.metal import MetalKey
from coilwright.job.answers.panel import PanelKey
from coilwright.job.job import Job
from coilwright.job.metal import MetalSection, ThicknessBasis
from coilwright.job.stock import CoilOnHand, LengthBy
from coilwright.plan.ledger import Lacking, Ledger, require
from coilwright.units import Kind, System, show
from coilwright.values.figure import Figure, compute
from coilwright.values.finding import Finding, Level
from coilwright.values.keys import AnswerKey, Key, part_of, row_key
from coilwright.values.rounding import Rounding
from coilwright.values.source import MEASURED, PRACTICE, Grade, Source
from coilwright.values.standing import Standing

THICKNESS_CLOSE = 0.0005
"""Thicknesses this close are the same [in] (common practice, no source)."""
TAG = Source("the coil's tag, or a tape", Grade.PLATE)
_LOOSE = 1e-6
FITS_BY = (
    MetalKey.METAL, MetalKey.COATING, MetalKey.THICKNESS, MetalKey.THICKNESS_BASIS, MetalKey.FINISH,
    MetalKey.COLOR, PanelKey.COVERAGE, PanelKey.TAKE_UP,
)
"""The answers that decide whether a coil on hand fits."""


NOT_USED = "on hand is not used: "
"""Stands before the reason in what is said of a coil that does not fit."""


def fitting(job: Job, coil: CoilOnHand) -> tuple[str, ...]:
    """Why a coil on hand does not fit a job, a sentence each; empty where it fits.

    While somebody practices it says no more than that.
    """
    if job.practicing:
        return ("This is practice: whether it fits shows once it is handed in.",)
    return tuple(words for _, words in _reasons(job, coil))


def _reasons(job: Job, coil: CoilOnHand) -> Iterator[tuple[AnswerKey, str]]:
    """Why it does not fit: the answer it differs in, and a sentence."""
    metal, system = job.metal, job.units
    if metal.metal is None:
        yield MetalKey.METAL, "The job's metal is not known yet."
    elif coil.metal is not metal.metal:
        yield MetalKey.METAL, f"It is {coil.metal}; the job takes {metal.metal}."
    elif is_coated(metal.metal):
        yield from _coating(job, coil)
    if metal.thickness is None:
        yield MetalKey.THICKNESS, "The job's thickness is not known yet."
    elif abs(coil.thickness - metal.thickness) > THICKNESS_CLOSE + 1e-9:
        yield MetalKey.THICKNESS, (
            f"It is {show(coil.thickness, Kind.THICKNESS, system)} thick; the job takes "
            f"{show(metal.thickness, Kind.THICKNESS, system)}."
        )
    strip = _strip(job)
    if strip is None:
        yield PanelKey.COVERAGE, "The job's strip width is not known yet."
    elif coil.width < strip - _LOOSE:
        yield PanelKey.COVERAGE, (
            f"It is {show(coil.width, Kind.WIDTH, system)} wide; the strip is "
            f"{show(strip, Kind.WIDTH, system)}."
        )
    yield from _color(job, coil)


def job_metal(job: Job) -> dict[str, Any]:
    """What is known of the job's metal and strip that a coil on hand has to be to fit it, by the
    coil's fields. Its lot and length are the coil's own."""
    metal = job.metal
    coated = metal.metal is not None and is_coated(metal.metal)
    found = {
        "metal": metal.metal, "thickness": metal.thickness,
        "coating": metal.coating if coated else None,
        "thickness_basis": metal.thickness_basis if coated else None,
        "color": metal.color if metal.may_be_painted else None,
        "color_code": metal.color_code if metal.may_be_painted else None, "width": _strip(job),
    }
    return {name: value for name, value in found.items() if value is not None}


def _coating(job: Job, coil: CoilOnHand) -> Iterator[tuple[AnswerKey, str]]:
    wanted, basis = job.metal.coating, job.metal.thickness_basis
    if wanted is None:
        yield MetalKey.COATING, "The job's metallic coating is not known yet."
    elif coil.coating is None:
        yield MetalKey.COATING, f"Its metallic coating is not known; the job takes {wanted}."
    elif not is_same(coil.coating, wanted):
        yield MetalKey.COATING, f"Its coating is {coil.coating}; the job takes {wanted}."
    if basis and coil.thickness_basis and basis is not coil.thickness_basis:
        yield MetalKey.THICKNESS_BASIS, (
            f"Its thickness is stated {coil.thickness_basis}; the job's {basis}.")


def _color(job: Job, coil: CoilOnHand) -> Iterator[tuple[AnswerKey, str]]:
    metal, own = job.metal, coil.color.strip() or coil.color_code.strip()
    if metal.finish is not None and not metal.finish.is_paint:
        if own:
            yield MetalKey.FINISH, f"It is painted {coil.color_words}; the job takes bare metal."
    elif not metal.color:
        yield MetalKey.COLOR, "The job's color is not known yet."
    elif not own:
        yield MetalKey.COLOR, f"It has no color written on it; the job takes {metal.color}."
    elif plain_color(own) not in known_colors(metal):
        yield MetalKey.COLOR, f"Its color is {coil.color_words}; the job takes {_named(metal)}."
    elif coil.color_code.strip() and metal.color_code and (
            plain_color(coil.color_code) != plain_color(metal.color_code)):
        # Two codes under one name are two colors: the client signed for one of them.
        yield MetalKey.COLOR_CODE, (
            f"Its color code is {coil.color_code.strip()}; the job takes {_named(metal)}.")


def _named(metal: MetalSection) -> str:
    """The job's color with its code: a tag may bear the same name and another code."""
    return ", ".join(text for text in (metal.color, metal.color_code) if text)


def plain_color(text: str) -> str:
    """The words of a color without case, signs and the two spellings of gray."""
    words = re.findall(r"\w+", re.sub("gr[ae]y", "gray", text.casefold()))
    return " ".join(words)


def known_colors(metal: MetalSection) -> tuple[str, ...]:
    """What a tag may call the job's color, in plain words: its name, its code, or both."""
    said = [text for text in (metal.color, metal.color_code) if text]
    return tuple(plain_color(text) for text in (*said, " ".join(said), " ".join(said[::-1]))
                 if text)


def _strip(job: Job) -> float | None:
    panel = job.panel
    if panel.coverage is None or panel.take_up is None:
        return None
    return panel.coverage + panel.take_up


def _margin(coil: CoilOnHand) -> tuple[float, Source]:
    """How far a length that nobody measured may be off, as a share of it, and by which rule."""
    if coil.length_by is LengthBy.GUESSED:
        return calc.GUESSED_TO, calc.GUESSED_LENGTH
    return calc.LENGTH_SURE_TO, calc.SAID_LENGTH


def coil_lengths(
    coil: CoilOnHand, system: System, key: str = "on_hand"
) -> tuple[Figure, Figure]:
    """The least and the greatest length of a coil on hand; the same figure where it is measured.

    A length that nobody measured may be off by a margin. By its diameters: both off by a reading
    the bad way, and wound as loosely (least) or as tightly (greatest) as is usual.
    """
    name = coil.tag
    if coil.length is not None:
        if coil.length_by is LengthBy.MEASURED:
            length = Figure(part_of(key, "length"), f"{name}: length", coil.length, Kind.LENGTH,
                            MEASURED, Standing.SURE)
            return length, length
        margin, source = _margin(coil)
        said = Figure(part_of(key, "said"), f"{name}: length as it is said", coil.length,
                      Kind.LENGTH, TAG, Standing.SURE)
        off = Figure(part_of(key, "margin"), f"{name}: its length may be off by", margin,
                     Kind.PERCENT, source, Standing.SURE)
        return (
            compute(part_of(key, "length"), f"{name}: least length", calc.shortest_said, said, off,
                    rounding=Rounding.DOWN),
            compute(part_of(key, "longest"), f"{name}: greatest length", calc.longest_said, said,
                    off),
        )
    assert coil.outside is not None
    assert coil.inside is not None

    def given(part: str, label: str, value: float, kind: Kind, source: Source = TAG) -> Figure:
        return Figure(f"{key}.{part}", f"{name}: {label}", value, kind, source, Standing.SURE)

    across = (
        given("outside", "outside diameter, measured", coil.outside, Kind.WIDTH),
        given("inside", "inside diameter, measured", coil.inside, Kind.WIDTH),
        given("reading", "each diameter may be off by", calc.DIAMETERS_READ_TO.size(system),
              Kind.WIDTH, calc.READING),
    )
    thickness = given("thickness", "thickness", coil.thickness, Kind.THICKNESS)
    loose = given("loose", "loosest winding", calc.LOOSEST_WRAP, Kind.PERCENT, calc.LOOSE)
    coating = coil.coating and COATINGS[coil.coating]
    if coating and is_coated(coil.metal) and (
        coil.thickness_basis is not ThicknessBasis.OVER_COATING
    ):
        added = given("coating", "coating, both sides", coating.thickness, Kind.THICKNESS,
                      coating.source)
        thickest = compute(
            part_of(key, "wrap"),
            f"{name}: most one wrap takes",
            wound.wound_thickness_over_coating,
            thickness,
            added,
            loose,
        )
    else:
        thickest = compute(
            part_of(key, "wrap"),
            f"{name}: most one wrap takes",
            wound.wound_thickness,
            thickness,
            loose,
        )
    return (
        compute(part_of(key, "length"), f"{name}: least length by its diameters",
                calc.shortest_wound, *across, thickest, rounding=Rounding.DOWN),
        compute(part_of(key, "longest"), f"{name}: greatest length by its diameters",
                calc.longest_wound, *across, thickness),
    )


@dataclass(frozen=True, slots=True)
class Strand:
    """One strip of a coil on hand that a job may use.

    index: the coil's place in the job's list. number: which strip of it, from 1. key: begins
    the keys of its figures. name: its tag, with the strip's number where there are several.
    usable: panels it can be counted on for.
    """

    index: int
    coil: CoilOnHand
    number: int
    key: str
    name: str
    length: Figure
    longest: Figure
    usable: Figure


def enter_stock(ledger: Ledger) -> tuple[tuple[Strand, ...], list[Finding]]:
    """The strips that coils on hand give this job, and a word on each coil that gives none.

    Coils that fit are slit into as many strips as their width gives. Empty while the strip's
    width, thread-up, tail or spare is not known.
    """
    strip = ledger.figures.get(Key.STRIP_WIDTH)
    losses = map(ledger.answer, (MachineKey.THREAD_UP, MachineKey.TAIL, CoilsKey.SPARE))
    try:
        ready = require(*losses)
    except Lacking:
        return (), []
    if not ledger.job.on_hand or strip is None:
        return (), []
    strands: list[Strand] = []
    findings: list[Finding] = []
    for index, coil in enumerate(ledger.job.on_hand):
        reasons = tuple(_reasons(ledger.job, coil))
        if reasons:
            findings.append(_unfit(
                index, coil, " ".join(words for _, words in reasons),
                *dict.fromkeys(key for key, _ in reasons)))
            continue
        own = _strands(ledger, index, coil, strip, ready)
        if own[0].usable.value <= 0:
            findings.append(_unfit(
                index, coil,
                f"It is {own[0].length.text(ledger.job.units)} long, no longer than what "
                "threading up and the tail lose.", MachineKey.THREAD_UP,
            ))
            continue
        strands.extend(own)
    return tuple(strands), findings


def _strands(
    ledger: Ledger, index: int, coil: CoilOnHand, strip: Figure, losses: tuple[Figure, ...]
) -> list[Strand]:
    key = row_key("on_hand", index + 1)
    least, most = coil_lengths(coil, ledger.job.units, key)
    ledger.add(least)
    ledger.add(most)
    strips = 1
    if coil.width > strip.value + _LOOSE:
        width = ledger.table(part_of(key, "width"), f"{coil.tag}: width", coil.width, Kind.WIDTH,
                             TAG)
        none = ledger.table(part_of(key, "edge"), f"{coil.tag}: edge trim", 0.0, Kind.WIDTH,
                            PRACTICE)
        across = ledger.put(part_of(key, "strips"), f"{coil.tag}: strips across",
                            slitting.strips_across, width, none, strip)
        strips = int(across.value)
        ledger.put(part_of(key, "drop"), f"{coil.tag}: drop from slitting", slitting.slit_drop,
                   width, across, strip)
    usable = ledger.put(part_of(key, "usable"), f"{coil.tag}: panels it is good for",
                        calc.usable_on_hand, least, *losses)
    return [
        Strand(index, coil, number, f"{key}.{number}" if strips > 1 else key,
             f"{coil.tag}, strip {number}" if strips > 1 else coil.tag, least, most, usable)
        for number in range(1, strips + 1)
    ]


def _unfit(index: int, coil: CoilOnHand, why: str, *answers: AnswerKey) -> Finding:
    return Finding(
        Level.NOTE, f"on_hand.{index + 1}.unfit",
        f"Coil “{coil.tag}” {NOT_USED}{why[:1].lower()}{why[1:]}",
        "A coil on hand is used where its metal, thickness, width and color are the job's.",
        "If its tag is wrong, put it right; otherwise keep it for another job.",
        PRACTICE, "coils", answers,
    )
