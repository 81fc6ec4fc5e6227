"""The summary as JSON: a stable interface, numbers as numbers with their units beside them.

`figures` holds every figure of the plan and all that they rest on, by key, in canonical units
(inch, in², pound, °F); `missing` those that cannot be computed yet. The shape is
`schema.SCHEMA`; a change that breaks a reader raises `version`.
"""

from __future__ import annotations

from collections.abc import Iterable

from coilwright.plan.accessories import accessories, figures_of
from coilwright.plan.ask_first import ask_first
from coilwright.plan.quotes.compare import compare
from coilwright.plan.receiving.receive import receive
from coilwright.plan.receiving.report import ArrivalReport, Compared, Way, reasons
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
from coilwright.sheets.baseline import baseline, baseline_words, is_on_file
from coilwright.sheets.data.buying import buying
from coilwright.sheets.data.quantities import Json, figure_data, json_text, or_null, quantity
from coilwright.sheets.data.quotes import life_data, quotes_data
from coilwright.sheets.names import label
from coilwright.sheets.state import is_sound, state_of
from coilwright.units import Kind, System
from coilwright.values.figure import Figure
from coilwright.values.finding import Finding
from coilwright.values.keys import Key, row_key

FORMAT, VERSION = "coilwright-summary", 1



def summary_json(plan: Plan) -> str:
    """The summary as JSON text; always valid JSON, for no figure is infinite or undefined."""
    return json_text(summary_data(plan))


def summary_data(plan: Plan) -> Json:
    """The summary as plain dicts and lists."""
    job, system = plan.job, plan.job.units
    beside = accessories(plan)
    return {
        "format": FORMAT,
        "version": VERSION,
        "job": _job(plan),
        "units": system.value,
        "ready": plan.ready,
        "sound": is_sound(plan),
        "state": state_of(plan),
        "why_not": [
            {"kind": r.kind.value, "key": r.key, "words": r.words, "do": r.do}
            for r in plan.reasons
        ],
        "settled": [
            {"kind": s.kind, "key": s.key, "words": s.words, "by": s.by or None,
             "reason": s.reason}
            for s in plan.readiness.settled
        ],
        "nothing_to_buy": plan.readiness.nothing_to_buy,
        "figures": _figures((*plan.figures.values(), *figures_of(beside)), system),
        "missing": {
            key: {"label": lack.label, "needs": list(lack.needs), "because": lack.because}
            for key, lack in plan.lacks.items()
        },
        "planes": [_plane(plane, system) for plane in plan.planes],
        "limits": [
            {
                "key": limit.key, "name": limit.name, "words": limit.words,
                "length": figure_data(limit.length, system), "governs": limit is plan.governing,
            }
            for limit in plan.limits
        ],
        "fits": [_fit(fit, system) for fit in plan.fits],
        "coils": [_coil(plan, coil) for coil in plan.coils],
        **buying(plan, beside),
        "cut_plan": _proof(plan),
        "budget": [
            {
                "name": line.name, "key": line.mass.key, "mass": figure_data(line.mass, system),
                "share": figure_data(line.share, system),
                "length": or_null(line.length, system),
                "money": or_null(line.money, system),
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
                "holds_the_order": q.key in plan.readiness.holding, "waived": q.waived or None,
            }
            for q in plan.questions
        ],
        "ask_first": [
            {
                "answer": e.key, "label": e.label, "standing": e.standing.value, "who": e.who,
                "tried": e.tried, "moves": e.words, "stops": e.stops,
                "mass": None if e.ends is None else quantity(e.ends[1] - e.ends[0], Kind.MASS,
                                                             system),
            }
            for e in ask_first(job, plan)
        ],
        "quotes": quotes_data(compare(plan), system),
        "life": life_data(plan),
    }


def _proof(plan: Plan) -> Json | None:
    """How good the cut plan is; None while there is none."""
    proof = plan.proof
    if proof is None:
        return None
    return {
        "proven": proof.proven, "least": figure_data(proof.least, plan.job.units),
        "gap": figure_data(proof.gap, plan.job.units),
        "gap_mass": figure_data(proof.gap_mass, plan.job.units),
    }


def _arrived(plan: Plan) -> Json:
    """Coils that arrived, and what they are held to; nothing at all while none has."""
    if not plan.job.arrived:
        return {}
    last = plan.job.life.latest
    return {
        "arrived": [_arrival(report, plan.job.units) for report in receive(baseline(plan))],
        "held_to": None if last is None else {
            "revision": last.revision, "sent": last.date.isoformat(),
            "on_file": is_on_file(plan), "words": baseline_words(plan)},
    }


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


def _figure(figure: Figure, system: System) -> Json:
    terms = figure.terms
    return {
        "label": figure.label,
        **figure_data(figure, system),
        "equation": figure.equation,
        "terms": dict(zip(figure.symbols, (t.key for t in terms), strict=True)),
        "source": str(figure.source),
        "note": figure.note,
    }


def _figures(figures: Iterable[Figure], system: System) -> Json:
    """The figures and all that they rest on, by key."""
    return {f.key: _figure(f, system) for f in all_figures(figures)}


def _finding(f: Finding) -> Json:
    return {
        "level": f.level.value, "key": f.key, "what": f.what, "why": f.why, "do": f.do,
        "source": str(f.source), "step": f.step, "answers": list(f.answers),
        "accept": f.accept or None,
    }


def _plane(plane: PlanePlan, system: System) -> Json:
    def length(value: float) -> Json:
        return quantity(value, Kind.LENGTH, system)

    return {
        "key": plane.key,
        "name": plane.name,
        "alike": plane.alike,
        "area": figure_data(plane.area, system),
        "pitch": None if plane.pitch is None else quantity(plane.pitch, Kind.PITCH, system),
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
        "width": figure_data(plan.figures[Key.STRIP_WIDTH], system),
        "length": figure_data(coil.length, system),
        "mass": figure_data(coil.mass, system),
        "outside_diameter": figure_data(coil.outside_diameter, system),
        "governing_limit": None if governing is None else governing.key,
        "cuts": [_cut(cut, system) for cut in coil.cuts],
    }


def _on_hand(plan: Plan, coil: StockCoil) -> Json:
    system = plan.job.units
    return {
        "tag": coil.tag,
        "strip": coil.strip,
        "strips": coil.strips,
        "length": figure_data(coil.length, system),
        "taken": figure_data(coil.taken, system),
        "leftover": figure_data(coil.left, system),
        "too_short": coil.too_short,
        "cuts": [_cut(cut, system) for cut in coil.cuts],
    }


def _nest(nest: TrimNest, plan: Plan) -> Json:
    system = plan.job.units
    pieces = plan.job.trim.pieces
    return {
        "made_from": nest.made_from.value,
        "width": figure_data(nest.width, system),
        "blank": figure_data(nest.blank, system),
        "rows": figure_data(nest.rows, system),
        "length": figure_data(nest.length, system),
        "sheets": or_null(nest.sheets, system),
        "drop": figure_data(nest.drop, system),
        "proven": nest.proven,
        "patterns": [
            {
                "times": pattern.times,
                "length": quantity(pattern.length, Kind.LENGTH, system),
                "across": [
                    {"piece": pieces[number - 1].name, "count": count}
                    for number, count in pattern.across
                ],
                "drop": quantity(pattern.drop, Kind.WIDTH, system),
            }
            for pattern in nest.patterns
        ],
    }


def _slit(slit: SlitPlan, system: System) -> Json:
    return {
        "key": slit.key,
        "master": figure_data(slit.master, system),
        "ordered": bool(slit.passes),
        "strips_across": figure_data(slit.strips, system),
        "length": figure_data(slit.length, system),
        "mass": figure_data(slit.mass, system),
        "drop": {
            "width": figure_data(slit.width, system),
            "share": figure_data(slit.share, system),
            "mass": figure_data(slit.drop_mass, system),
            "money": or_null(slit.money, system),
        },
        "passes": [
            {
                "key": one.key,
                "length": figure_data(one.length, system),
                "strands": [
                    {"name": strand.name, "width": figure_data(strand.width, system),
                     "coil": strand.coil}
                    for strand in one.strands
                ],
                "mass": figure_data(one.mass, system),
                "drop": {"width": figure_data(one.drop, system),
                         "mass": figure_data(one.drop_mass, system)},
            }
            for one in slit.passes
        ],
        "proven": slit.proven,
        "left_out": list(slit.left_out),
    }


def _cut(cut: Cut, system: System) -> Json:
    return {
        "plane": row_key("plane", cut.plane), "name": cut.name,
        "length": quantity(cut.length, Kind.LENGTH, system), "count": cut.count,
    }


def _fit(fit: Fit, system: System) -> Json:
    return {
        "key": fit.key,
        "name": fit.name,
        "value": figure_data(fit.value, system),
        "least": or_null(fit.least, system),
        "most": or_null(fit.most, system),
        "known": fit.known,
        "fits": fit.fits if fit.known else None,
    }


def _load(line: LoadLine, system: System) -> Json:
    return {
        "key": line.key,
        "name": line.name,
        "place": line.place,
        "load": or_null(line.load, system),
        "weight_known": or_null(line.weight, system),
        "rating": or_null(line.rating, system),
        "margin": or_null(line.margin, system),
        "known": line.known,
        "over": line.over if line.known else None,
        "word": line.word,
        "needs": list(line.needs),
    }


def _arrival(report: ArrivalReport, system: System) -> Json:
    return {
        "number": report.number,
        "name": report.name,
        "tag": report.arrival.tag,
        "coil": None if report.coil is None else report.coil.number,
        "lot": report.arrival.lot,
        "color": report.arrival.color,
        "verdict": report.verdict.value,
        "words": report.words,
        "missing": list(report.missing),
        "faults": [fault.value for fault in report.faults],
        "reasons": [_finding(f) for f in reasons(report)],
        "sizes": [_size(size, system) for size in report.sizes],
        "enough": report.enough.value,
        "need": or_null(report.need, system),
        "need_without_spare": or_null(report.need_panels, system),
        "lengths": [_way(way, system) for way in report.ways],
        "disagree": [
            {"longer": a.longer.key, "shorter": a.shorter.key, "apart": figure_data(a.gap, system),
             "causes": list(a.causes)}
            for a in report.apart
        ],
        "remark": report.arrival.remark,
        "figures": _figures(report.figures.values(), system),
    }


def _size(size: Compared, system: System) -> Json:
    return {
        "key": size.key, "name": size.name, "ordered": or_null(size.ordered, system),
        "found": or_null(size.found, system), "least": or_null(size.least, system),
        "most": or_null(size.most, system), "words": size.words,
    }


def _way(way: Way, system: System) -> Json:
    return {
        "key": way.key, "name": way.name,
        "likely": figure_data(way.best, system), "least": figure_data(way.least, system),
        "most": figure_data(way.most, system), "enough": way.enough.value, "short": way.short,
        "margin": or_null(way.margin, system),
    }
