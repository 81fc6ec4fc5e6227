"""Coils that arrived, in the summary's JSON: verdict, why, sizes, length three ways."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from coilwright.plan.arrivals import reasons
from coilwright.plan.receiving.receive import receive
from coilwright.plan.receiving.report import ArrivalReport, Compared, Way
from coilwright.plan.result import Plan
from coilwright.values.figure import Figure

Json = dict[str, Any]
Of = Callable[[Figure], Json]


def arrived_data(plan: Plan, of: Of, opened: Callable[[Figure], Json],
                 all_figures: Callable[[Any], Any]) -> list[Json]:
    """Every coil that arrived, in the order of the list.

    of: a figure as a quantity with its standing; opened: with its equation and terms;
    all_figures: figures and all they rest on.
    """
    return [_arrived(report, of) | {
        "figures": {f.key: opened(f) for f in all_figures(report.figures.values())},
    } for report in receive(plan)]


def _arrived(report: ArrivalReport, of: Of) -> Json:
    return {
        "number": report.number,
        "tag": report.arrival.tag,
        "coil": None if report.coil is None else report.coil.number,
        "lot": report.arrival.lot,
        "colour": report.arrival.colour,
        "verdict": report.verdict.value,
        "words": report.words,
        "missing": list(report.missing),
        "faults": [fault.value for fault in report.faults],
        "reasons": [
            {
                "level": f.level.value, "key": f.key, "what": f.what, "why": f.why, "do": f.do,
                "source": str(f.source), "step": f.step, "answers": list(f.answers),
            }
            for f in reasons(report)
        ],
        "sizes": [_size(size, of) for size in report.sizes],
        "enough": report.enough.value,
        "need": _or_null(report.need, of),
        "need_without_spare": _or_null(report.need_panels, of),
        "lengths": [_way(way, of) for way in report.ways],
        "disagree": [
            {"longer": a.longer.key, "shorter": a.shorter.key, "apart": of(a.gap),
             "causes": list(a.causes)}
            for a in report.apart
        ],
        "remark": report.arrival.remark,
    }


def _or_null(figure: Figure | None, of: Of) -> Json | None:
    return None if figure is None else of(figure)


def _size(size: Compared, of: Of) -> Json:
    return {
        "key": size.key, "name": size.name, "ordered": _or_null(size.ordered, of),
        "found": _or_null(size.found, of), "least": _or_null(size.least, of),
        "most": _or_null(size.most, of), "words": size.words,
    }


def _way(way: Way, of: Of) -> Json:
    return {
        "key": way.key, "name": way.name, "likely": of(way.best), "least": of(way.least),
        "most": of(way.most), "enough": way.enough.value, "short": way.short,
        "margin": _or_null(way.margin, of),
    }
