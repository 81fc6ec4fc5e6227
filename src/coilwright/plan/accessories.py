"""Beside the coil: clips and their fasteners, underlayment, closures and sealant, counted.

A list of its own, never on the coil order. It counts what the drawing shows; what holds the roof
down is for the tested assembly and the designer.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from coilwright.calc import accessories as calc
from coilwright.calc.roof import shapes
from coilwright.calc.roof.panels import seam_lengths
from coilwright.job.answers.panel import PanelKey
from coilwright.plan.ledger import Lacking, Ledger, Term, known, require
from coilwright.plan.result import Plan
from coilwright.units import Kind
from coilwright.values.figure import Figure, compute, worst
from coilwright.values.formula import Formula
from coilwright.values.keys import Key
from coilwright.values.source import LAYOUT, PRACTICE

_DIGITS = 6
"""Digits of an inch to which two seams are of one length."""
_CLOSED = (Key.EDGES_RIDGE, Key.EDGES_HIP)
"""Edges that close the panels of both planes they part."""


@dataclass(frozen=True, slots=True)
class Accessory:
    """One thing beside the coil: the net amount, its allowance, and both together.

    basis: how it is counted, in words. Terms that are lacking say what they wait for.
    """

    key: str
    name: str
    net: Term
    allowance: Figure
    amount: Term
    basis: str


def accessories(plan: Plan) -> tuple[Accessory, ...]:
    """All that is counted beside the coil; empty while the roof has no plane.

    Nothing here changes the order.
    """
    if not plan.planes:
        return ()
    ledger = Ledger(plan.job)
    ledger.figures.update(plan.figures)
    ledger.lacks.update(plan.lacks)
    spacing, said = _spacing(ledger)
    clips = _clips(ledger, plan, spacing)
    each = _usual(ledger, PanelKey.CLIP_FASTENERS, calc.SCREWS_EACH, Kind.COUNT)
    screws = ledger.put(Key.BESIDE_SCREWS_NET, "Fasteners of the clips", calc.screws, clips, each)
    closed = ledger.put(Key.BESIDE_CLOSURES_NET, "Ridges, hips and walls that close panels",
                        shapes.summed_length, *_closed(ledger))
    beads = _usual(ledger, PanelKey.SEALANT_BEADS, calc.BEADS, Kind.COUNT)
    sealant = ledger.put(Key.BESIDE_SEALANT_NET, "Sealant under the closures", calc.beads_length,
                         closed, beads)
    system = plan.job.units
    return (
        _with_allowance(ledger, "clips", "Clips", clips, PanelKey.CLIP_ALLOWANCE, calc.CLIPS_SPARE,
                        f"on every seam between panels, {said}, one at each end"),
        _with_allowance(ledger, "screws", "Clip fasteners", screws, PanelKey.FASTENER_ALLOWANCE,
                        calc.SCREWS_SPARE, f"{each.text(system)} to a clip"),
        _with_allowance(ledger, "underlayment", "Underlayment", ledger.got(Key.ROOF_AREA),
                        PanelKey.UNDERLAYMENT_ALLOWANCE, calc.UNDERLAYMENT_SPARE,
                        "the roof's area; the allowance is laps and waste"),
        _with_allowance(ledger, "closures", "Closures", closed, PanelKey.CLOSURE_ALLOWANCE,
                        calc.CLOSURES_SPARE,
                        "along ridge and hips on both sides, and along all walls"),
        _with_allowance(ledger, "sealant", "Sealant", sealant, PanelKey.SEALANT_ALLOWANCE,
                        calc.SEALANT_SPARE,
                        f"{beads.text(system)} beads under the closures; other joints come on "
                        "top"),
    )


def figures_of(listed: tuple[Accessory, ...]) -> tuple[Figure, ...]:
    """The figures of the list that are known."""
    terms = (term for one in listed for term in (one.net, one.allowance, one.amount))
    return tuple(figure for term in terms if (figure := known(term)) is not None)


def _usual(ledger: Ledger, key: str, value: float, kind: Kind) -> Figure:
    """An answer, or what is usual."""
    have = ledger.given(key)
    return have or ledger.table(key, ledger.answer(key).label, value, kind, PRACTICE)


def _spacing(ledger: Ledger) -> tuple[Term, str]:
    """How far clips are apart, and whose word it is; the wider of two is never taken."""
    planned, tested = (ledger.given(key)
                       for key in (PanelKey.CLIP_SPACING, PanelKey.REPORT_CLIP_SPACING))
    system = ledger.job.units
    if tested is not None and (planned is None or tested.value < planned.value):
        return tested, f"{tested.text(system)} apart as tested"
    if planned is not None:
        return planned, f"{planned.text(system)} apart as planned"
    return ledger.answer(PanelKey.CLIP_SPACING), "no further apart than they will be planned"


def _clips(ledger: Ledger, plan: Plan, spacing: Term) -> Term:
    """Clips on all seams, net."""
    key, label = "beside.clips.net", "Clips on all seams"
    try:
        apart, laid = require(spacing, ledger.got(Key.PANELS_LENGTH))
    except Lacking as lacking:
        return ledger.lack(key, label, lacking.needs, lacking.because)
    seams: Counter[float] = Counter()
    for plane in plan.planes:
        for length in seam_lengths(plane.panels):
            seams[round(length, _DIGITS)] += plane.alike
    value = sum(calc.clips_on_seam(length, apart.value) * n for length, n in seams.items())
    standing = worst((apart, laid))
    if not seams:
        return ledger.drawn(key, label, 0.0, Kind.COUNT, standing, "no two panels meet")
    return ledger.add(Figure(key, label, value, Kind.COUNT, calc.SPACED, standing, calc.all_clips,
                             _terms(key, seams, apart, laid)))


def _terms(
    key: str, seams: Counter[float], apart: Figure, laid: Figure
) -> Callable[[], tuple[Figure, ...]]:
    """Seams of one length and their clips; made only when somebody opens them."""

    def make() -> tuple[Figure, ...]:
        made = []
        for number, (length, count) in enumerate(sorted(seams.items(), reverse=True), 1):
            own = f"{key}.seam{number}"
            seam = Figure(own, f"Seam {number}", length, Kind.LENGTH, LAYOUT, laid.standing,
                          note="how far a panel and its neighbor reach up together")
            many = Figure(f"{own}.count", f"Seams like seam {number}", float(count), Kind.COUNT,
                          LAYOUT, laid.standing)
            clips = compute(f"{own}.clips", f"Clips on seam {number}", calc.clips_on_seam, seam,
                            apart)
            made.append(compute(f"{own}.all", f"Clips on seams like seam {number}",
                                calc.clips_on_seams, clips, many))
        return tuple(made)

    return make


def _closed(ledger: Ledger) -> tuple[Term, ...]:
    """Edges that close panels: of ridges and hips each plane's own side, and walls."""
    terms: list[Term] = []
    for edge in _CLOSED:
        sides = [ledger.figures[key] for key in (f"{edge}.halves", f"{edge}.alone")
                 if key in ledger.figures]
        terms += sides or [ledger.got(edge)]
    return (*terms, ledger.got(Key.EDGES_WALL))


def _with_allowance(
    ledger: Ledger, key: str, name: str, net: Term, answer: str, usual: float, basis: str
) -> Accessory:
    allowance = _usual(ledger, answer, usual, Kind.PERCENT)
    figure = known(net)
    formula: Formula[Any] = calc.count_to_buy
    if figure is not None and figure.kind is Kind.AREA:
        formula = calc.area_to_buy
    elif figure is not None and figure.kind is Kind.LENGTH:
        formula = calc.length_to_buy
    amount = ledger.put(f"beside.{key}", name, formula, net, allowance)
    return Accessory(key, name, net, allowance, amount, basis)
