"""Where the metal goes: the ordered weight, part by part."""

from __future__ import annotations

from coilwright.calc import account, shapes
from coilwright.choices import Openings
from coilwright.figures import Figure
from coilwright.plan.ledger import Lack, Ledger
from coilwright.plan.result import AccountLine, PlanePlan
from coilwright.units import Kind


def enter_account(ledger: Ledger, planes: tuple[PlanePlan, ...]) -> tuple[AccountLine, ...]:
    """Enter each part of the ordered weight; empty while there is no order."""
    ordered = ledger.figures.get("coil.mass_ordered")
    if ordered is None:
        return ()
    figures = ledger.figures
    sheet, per_length = figures["metal.sheet_mass"], figures["strip.mass_per_length"]
    net, extents = figures["panels.length"], figures["panels.extent"]
    laid = figures["panels.laid"]
    covered: Figure | Lack = laid
    cut_out: Figure | Lack | None = None
    holes = _openings(ledger, planes)
    if holes is not None:
        covered = ledger.put("panels.covered", "Roof under panels, less openings",
                             shapes.less_openings, laid, holes)
        cut_out = ledger.put("account.openings", "cut out at openings", account.area_mass,
                             holes, sheet)
    spare, tolerance = ledger.answer("coils.spare"), ledger.answer("coils.tolerance")
    parts: list[tuple[str, Figure | Lack]] = [
        ("roof covered", ledger.put("account.roof", "roof covered", account.area_mass, covered,
                                    sheet)),
        ("seam take-up", ledger.put("account.take_up", "seam take-up", account.take_up_mass,
                                    extents, ledger.answer("panel.take_up"), sheet)),
        ("ripped edges", ledger.put("account.ripped", "angled and ripped edges",
                                    account.ripped_mass, extents,
                                    ledger.answer("panel.coverage"), laid, sheet)),
        ("end allowance", ledger.put("account.ends", "end allowances and rounding",
                                     account.ends_mass, net, extents, per_length)),
        ("thread and tail", ledger.put("account.thread", "thread-up and tail",
                                       account.thread_mass, figures["coil.count"],
                                       ledger.answer("machine.thread_up"),
                                       ledger.answer("machine.tail"), per_length)),
        ("spare", ledger.put("account.spare", "spare", account.spare_mass, net, spare,
                             per_length)),
        ("tolerance", ledger.put("account.tolerance", "supplier's tolerance",
                                 account.tolerance_mass, figures["coil.length_ordered"],
                                 tolerance, per_length)),
    ]
    if cut_out is not None:
        parts.insert(2, ("cut out at openings", cut_out))
    masses = [(name, mass) for name, mass in parts if isinstance(mass, Figure)]
    ledger.put("account.total", "all parts together", account.accounted, *(m for _, m in masses))
    lines = []
    for name, mass in masses:
        share = ledger.put(f"{mass.key}.share", f"{name}: share of the order",
                           account.share_of_order, mass, ordered)
        assert isinstance(share, Figure)
        lines.append(AccountLine(name, mass, share))
    return tuple(lines)


def _openings(ledger: Ledger, planes: tuple[PlanePlan, ...]) -> Figure | Lack | None:
    """The area of openings that panels run over, or None where there is none."""
    if ledger.job.roof.openings is Openings.DEDUCT:
        return None
    holes = [
        (plane, ledger.figures[f"{plane.key}.openings"]) for plane in planes if plane.openings
    ]
    if not holes:
        return None
    parts: list[Figure | Lack] = []
    for plane, hole in holes:
        alike = Figure(f"{plane.key}.alike", f"{plane.name}: planes alike", float(plane.alike),
                       Kind.COUNT, plane.area.source, plane.area.standing)
        parts.append(ledger.put(f"{plane.key}.openings_alike", f"{plane.name}: openings, all",
                                shapes.alike_area, hole, alike))
    return ledger.put("roof.openings_area", "Openings panels run over", shapes.summed_area,
                      *parts)
