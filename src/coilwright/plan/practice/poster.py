"""The gauge table that hangs on the wall of the shop: what a gauge is in each metal's scale."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from coilwright.calc.gauges import COPPER_OUNCES, GAUGES, ZINC_GAUGES, GaugeScale, gauge_meanings
from coilwright.calc.metal import METALS
from coilwright.job.choices import MetalName
from coilwright.job.job import Job
from coilwright.job.practice import Option, Paper
from coilwright.units import Kind, show

_GAUGE = "gauge"
_THINNEST, _THICKEST = 20, 28
"""The gauges of a roof that a shop has on its wall, by twos. Common practice, no source."""
_SOLD = (MetalName.STEEL, MetalName.ALUMINUM)
"""Metals that are on it whatever the job is of: a table of one metal alone tells which it is."""


def posters(job: Job, options: Iterable[Option]) -> Iterator[Paper]:
    """The gauge table, where an option names a gauge: it is judged by no other paper."""
    if any(_GAUGE in option.words.casefold() for option in options):
        metals = (*_SOLD, *((job.metal.metal,) if job.metal.metal not in (*_SOLD, None) else ()))
        lines = [line for metal in metals if metal is not None for line in _lines(metal, job)]
        yield Paper(title="Thickness by gauge, on the wall of the shop", lines=tuple(lines))


def _lines(metal: MetalName, job: Job) -> Iterator[tuple[str, str]]:
    """What each gauge is in one metal, a line for each way it is meant."""
    scale = METALS[metal].gauge
    by_words: dict[str, list[str]] = {}
    for gauge in _gauges(scale, job):
        for meaning in gauge_meanings(gauge, scale):
            words = meaning.words.removeprefix(f"{gauge} oz ")
            called = f"{gauge} oz" if scale is GaugeScale.COPPER_OUNCES else f"{gauge} gauge"
            by_words.setdefault(words, []).append(
                f"{called} {show(meaning.thickness, Kind.THICKNESS, job.units)}")
    for words, said in by_words.items():
        yield f"{str(metal).capitalize()}: {words}", ", ".join(said)


def _gauges(scale: GaugeScale, job: Job) -> list[int]:
    """Those that are on the table, and the job's own."""
    if scale is GaugeScale.COPPER_OUNCES:
        return sorted(COPPER_OUNCES)
    if scale is GaugeScale.ZINC:
        return sorted(ZINC_GAUGES)
    own = {job.metal.gauge} if job.metal.gauge in GAUGES else set()
    return sorted({*range(_THINNEST, _THICKEST + 1, 2), *(one for one in own if one is not None)})
