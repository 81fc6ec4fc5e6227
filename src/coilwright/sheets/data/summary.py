"""The summary as JSON: a stable interface, numbers as numbers with their units beside them.

`figures` holds every figure of the plan and all that they rest on, by key, in canonical units
(inch, in², pound, °F); `missing` those that cannot be computed yet. The shape is
`schema.SCHEMA`; a change that breaks a reader raises `version`.
"""

from __future__ import annotations

import json
import re
from collections.abc import Iterable
from typing import Any

from coilwright.plan.arrivals import reasons
from coilwright.plan.ask_first import ask_first
from coilwright.plan.questions import questions
from coilwright.plan.receiving.receive import receive
from coilwright.plan.receiving.report import ArrivalReport, Compared, Way
from coilwright.plan.result import (
    CoilPlan,
    Cut,
    Fit,
    LoadLine,
    Plan,
    PlanePlan,
    SlitPlan,
    StockCoil,
    TrimNest,
)
from coilwright.sheets.names import label
from coilwright.sheets.reasons import why_not
from coilwright.units import Kind, System, show
from coilwright.values.figure import Figure
from coilwright.values.finding import Finding

FORMAT, VERSION = "coilwright-summary", 1
PITCH_UNIT = "in per 12 in"
"""A pitch of 6 is 6 in of rise for 12 in of run; a bare 1 would be read as a slope of 6."""

Json = dict[str, Any]


_CONTROL = re.compile("[\x7f-\x9f]")


def summary_json(plan: Plan) -> str:
    """The summary as JSON text; always valid JSON, for no figure is infinite or undefined."""
    text = json.dumps(summary_data(plan), ensure_ascii=False, indent=1, allow_nan=False) + "\n"
    # JSON leaves these as they are, and a terminal obeys some of them.
    return _CONTROL.sub(lambda sign: f"\\u{ord(sign[0]):04x}", text)


def summary_data(plan: Plan) -> Json:
    """The summary as plain dicts and lists."""
    job, system = plan.job, plan.job.units
    return {
        "format": FORMAT,
        "version": VERSION,
        "job": _job(plan),
        "units": system.value,
        "ready": plan.ready,
        "state": plan.state,
        "why_not": [
            {"kind": r.kind, "key": r.key, "words": r.words, "do": r.do} for r in why_not(plan)
        ],
        "figures": _figures(plan.figures.values(), system),
        "missing": {
            key: {"label": lack.label, "needs": list(lack.needs), "because": lack.because}
            for key, lack in plan.lacks.items()
        },
        "planes": [_plane(plane, system) for plane in plan.planes],
        "limits": [
            {
                "key": limit.key, "name": limit.name, "words": limit.words,
                "length": _of(limit.length, system), "governs": limit is plan.governing,
            }
            for limit in plan.limits
        ],
        "fits": [_fit(fit, system) for fit in plan.fits],
        "coils": [_coil(plan, coil) for coil in plan.coils],
        "cut_plan": _proof(plan),
        "budget": [
            {
                "name": line.name, "key": line.mass.key, "mass": _of(line.mass, system),
                "share": _of(line.share, system),
                "length": _or_null(line.length, system),
                "money": _or_null(line.money, system),
            }
            for line in plan.account
        ],
        "on_hand": [_on_hand(plan, coil) for coil in plan.from_stock],
        "trim": [_nest(nest, plan) for nest in plan.nests],
        "slitting": [_slit(slit, system) for slit in plan.slits],
        "loads": [_load(line, system) for line in plan.loads],
        **_arrived(plan),
        "findings": [_finding(f) for f in plan.findings],
        "questions": [
            {
                "key": q.key, "who": q.who, "ask": q.words.ask, "why": q.words.why,
                "good_answer": q.words.good, "otherwise": q.words.otherwise,
                "answer": q.words.answer or None, "status": q.status.value, "said": q.said,
                "holds_the_order": q.urgent,
            }
            for q in questions(job, plan)
        ],
        "ask_first": [
            {
                "answer": e.key, "label": e.label, "standing": e.standing.value, "who": e.who,
                "tried": e.tried, "moves": e.words, "stops": e.stops,
                "mass": None if e.mass is None else _quantity(e.mass, Kind.MASS, system),
            }
            for e in ask_first(job, plan)
        ],
        "quotes": [],
    }


def _proof(plan: Plan) -> Json | None:
    """How good the cut plan is; None while there is none."""
    proof = plan.proof
    if proof is None:
        return None
    return {
        "proven": proof.proven, "least": _of(proof.least, plan.job.units),
        "gap": _of(proof.gap, plan.job.units), "gap_mass": _of(proof.gap_mass, plan.job.units),
    }


def _arrived(plan: Plan) -> Json:
    """Coils that arrived; nothing at all while none has."""
    if not plan.job.arrived:
        return {}
    return {"arrived": [_arrival(report, plan.job.units) for report in receive(plan)]}


def all_figures(figures: Iterable[Figure]) -> Iterable[Figure]:
    """The figures and all that they rest on, each once."""
    seen: dict[str, Figure] = {}
    waiting = list(figures)[::-1]
    while waiting:
        figure = waiting.pop()
        if figure.key not in seen:
            seen[figure.key] = figure
            waiting.extend(figure.terms)
    return seen.values()


def _job(plan: Plan) -> Json:
    said = plan.job.job
    return {
        "name": said.name,
        "client": said.client,
        "site": said.site,
        "needed_by": None if said.needed_by is None else said.needed_by.isoformat(),
        "open_answers": [{"answer": k, "label": label(plan.job, k)} for k in plan.open_answers],
        "guesses": [{"answer": k, "label": label(plan.job, k)} for k in plan.guesses],
    }


def _quantity(value: float, kind: Kind, system: System) -> Json:
    unit = PITCH_UNIT if kind is Kind.PITCH else kind.unit
    return {"value": value, "unit": unit, "text": show(value, kind, system)}


def _of(figure: Figure, system: System) -> Json:
    return {**_quantity(figure.value, figure.kind, system), "standing": figure.standing.value}


def _figure(figure: Figure, system: System) -> Json:
    terms = figure.terms
    return {
        "label": figure.label,
        **_of(figure, system),
        "equation": figure.equation,
        "terms": dict(zip(figure.symbols, (t.key for t in terms), strict=True)),
        "source": str(figure.source),
        "note": figure.note,
    }


def _figures(figures: Iterable[Figure], system: System) -> Json:
    """The figures and all that they rest on, by key."""
    return {f.key: _figure(f, system) for f in all_figures(figures)}


def _or_null(figure: Figure | None, system: System) -> Json | None:
    return None if figure is None else _of(figure, system)


def _finding(f: Finding) -> Json:
    return {
        "level": f.level.value, "key": f.key, "what": f.what, "why": f.why, "do": f.do,
        "source": str(f.source), "step": f.step, "answers": list(f.answers),
    }


def _plane(plane: PlanePlan, system: System) -> Json:
    def length(value: float) -> Json:
        return _quantity(value, Kind.LENGTH, system)

    return {
        "key": plane.key,
        "name": plane.name,
        "alike": plane.alike,
        "area": _of(plane.area, system),
        "pitch": None if plane.pitch is None else _quantity(plane.pitch, Kind.PITCH, system),
        "outline": {"unit": "in", "corners": [list(point) for point in plane.outline]},
        "openings": [
            {"unit": "in", "corners": [list(point) for point in hole]} for hole in plane.openings
        ],
        "edges": [
            {"number": e.number, "kind": e.kind.value, "length": length(e.length)}
            for e in plane.edges
        ],
        "start": None if plane.start is None else length(plane.start),
        "panels": [{"length": length(g.length), "count": g.count} for g in plane.groups],
    }


def _coil(plan: Plan, coil: CoilPlan) -> Json:
    system = plan.job.units
    governing = plan.governing
    return {
        "number": coil.number,
        "kind": "new",
        "width": _of(plan.figures["strip.width"], system),
        "length": _of(coil.length, system),
        "mass": _of(coil.mass, system),
        "outside_diameter": _of(coil.outside_diameter, system),
        "governing_limit": None if governing is None else governing.key,
        "cuts": [_cut(cut, system) for cut in coil.cuts],
    }


def _on_hand(plan: Plan, coil: StockCoil) -> Json:
    system = plan.job.units
    return {
        "tag": coil.tag,
        "strip": coil.strip,
        "strips": coil.strips,
        "length": _of(coil.length, system),
        "taken": _of(coil.taken, system),
        "left": _of(coil.left, system),
        "stub": coil.stub,
        "cuts": [_cut(cut, system) for cut in coil.cuts],
    }


def _nest(nest: TrimNest, plan: Plan) -> Json:
    system = plan.job.units
    pieces = plan.job.trim.pieces
    return {
        "made_from": nest.made_from.value,
        "width": _of(nest.width, system),
        "blank": _of(nest.blank, system),
        "rows": _of(nest.rows, system),
        "sheets": _or_null(nest.sheets, system),
        "drop": _of(nest.drop, system),
        "proven": nest.proven,
        "patterns": [
            {
                "times": pattern.times,
                "across": [
                    {"piece": pieces[number - 1].name, "count": count}
                    for number, count in pattern.across
                ],
                "drop": _quantity(pattern.drop, Kind.WIDTH, system),
            }
            for pattern in nest.patterns
        ],
    }


def _slit(slit: SlitPlan, system: System) -> Json:
    return {
        "key": slit.key,
        "master": _of(slit.master, system),
        "trim": "beside the strip" if slit.beside else "from the strip",
        "strips_across": _of(slit.strips, system),
        "length": _of(slit.length, system),
        "mass": _of(slit.mass, system),
        "drop": {
            "width": _of(slit.width, system),
            "share": _of(slit.share, system),
            "area": _of(slit.drop, system),
            "mass": _of(slit.drop_mass, system),
            "money": _or_null(slit.money, system),
        },
        "lanes": [
            {
                "name": lane.name, "width": _of(lane.width, system),
                "length": _of(lane.length, system),
            }
            for lane in slit.lanes
        ],
        "set_ups": [
            {
                "length": _of(set_up.length, system),
                "across": [{"lane": index, "count": count} for index, count in set_up.across],
                "drop": _of(set_up.drop, system),
            }
            for set_up in slit.set_ups
        ],
        "proven": slit.proven,
        "least": _of(slit.least, system),
        "left_out": list(slit.left_out),
    }


def _cut(cut: Cut, system: System) -> Json:
    return {
        "plane": f"plane.{cut.plane}", "name": cut.name,
        "length": _quantity(cut.length, Kind.LENGTH, system), "count": cut.count,
    }


def _fit(fit: Fit, system: System) -> Json:
    return {
        "key": fit.key,
        "name": fit.name,
        "value": _of(fit.value, system),
        "least": _or_null(fit.least, system),
        "most": _or_null(fit.most, system),
        "known": fit.known,
        "fits": fit.fits if fit.known else None,
    }


def _load(line: LoadLine, system: System) -> Json:
    return {
        "key": line.key,
        "name": line.name,
        "place": line.place,
        "load": _or_null(line.load, system),
        "rating": _or_null(line.rating, system),
        "margin": _or_null(line.margin, system),
        "known": line.known,
        "over": line.over if line.known else None,
        "word": line.word,
        "needs": list(line.needs),
    }


def _arrival(report: ArrivalReport, system: System) -> Json:
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
        "reasons": [_finding(f) for f in reasons(report)],
        "sizes": [_size(size, system) for size in report.sizes],
        "enough": report.enough.value,
        "need": _or_null(report.need, system),
        "need_without_spare": _or_null(report.need_panels, system),
        "lengths": [_way(way, system) for way in report.ways],
        "disagree": [
            {"longer": a.longer.key, "shorter": a.shorter.key, "apart": _of(a.gap, system),
             "causes": list(a.causes)}
            for a in report.apart
        ],
        "remark": report.arrival.remark,
        "figures": _figures(report.figures.values(), system),
    }


def _size(size: Compared, system: System) -> Json:
    return {
        "key": size.key, "name": size.name, "ordered": _or_null(size.ordered, system),
        "found": _or_null(size.found, system), "least": _or_null(size.least, system),
        "most": _or_null(size.most, system), "words": size.words,
    }


def _way(way: Way, system: System) -> Json:
    return {
        "key": way.key, "name": way.name,
        "likely": _of(way.best, system), "least": _of(way.least, system),
        "most": _of(way.most, system), "enough": way.enough.value, "short": way.short,
        "margin": _or_null(way.margin, system),
    }
