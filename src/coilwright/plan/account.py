"""Where the metal goes: the ordered weight, part by part."""

from __future__ import annotations

from coilwright.calc import account, coil, on_hand, price
from coilwright.calc.roof import shapes
from coilwright.plan.ledger import Lack, Ledger
from coilwright.plan.result import AccountLine, PlanePlan
from coilwright.units import Kind
from coilwright.values.figure import Figure


def enter_account(ledger: Ledger, planes: tuple[PlanePlan, ...]) -> tuple[AccountLine, ...]:
    """Enter each part of the ordered weight; empty while there is no order.

    The parts are of all panels, wherever they are cut from; what coils on hand give is then
    taken off. Shares are of the order, or of all metal used where coils on hand give some.
    """
    ordered = ledger.figures.get("coil.mass_ordered")
    if ordered is None:
        return ()
    figures = ledger.figures
    sheet, per_length = figures["metal.sheet_mass"], figures["strip.mass_per_length"]
    panels, extents = figures["panels.length"], figures["panels.extent"]
    laid = figures["panels.laid"]
    net = figures.get("coil.cut", panels)
    covered: Figure | Lack = laid
    cut_out: Figure | Lack | None = None
    holes = _openings(ledger, planes)
    if holes is not None:
        covered = ledger.put("panels.covered", "Roof under panels, less openings",
                             shapes.less_openings, laid, holes)
        cut_out = ledger.put("account.openings", "cut out at openings", account.area_mass,
                             holes, sheet)
    threaded: Figure | Lack = figures["coil.count"]
    taken = figures.get("on_hand.taken")
    if taken is not None:
        threaded = ledger.put("coil.threaded", "Coils threaded up", on_hand.coils_threaded,
                              threaded, figures["on_hand.count"])
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
                                     account.ends_mass, panels, extents, per_length)),
        ("thread and tail", ledger.put("account.thread", "thread-up and tail",
                                       account.thread_mass, threaded,
                                       ledger.answer("machine.thread_up"),
                                       ledger.answer("machine.tail"), per_length)),
        ("spare", ledger.put("account.spare", "spare", account.spare_mass, net, spare,
                             per_length)),
        ("tolerance", ledger.put("account.tolerance", "supplier's tolerance",
                                 account.tolerance_mass, figures["coil.length_ordered"],
                                 tolerance, per_length)),
    ]
    trim = figures.get("trim.from_coil")
    if trim is not None:
        parts.insert(-3, ("trim", ledger.put("account.trim", "trim from the panel coil",
                                             coil.coil_mass, per_length, trim)))
    if cut_out is not None:
        parts.insert(2, ("cut out at openings", cut_out))
    masses = [(name, mass) for name, mass in parts if isinstance(mass, Figure)]
    whole, of = ordered, "the order"
    if taken is not None:
        used = ledger.put("account.used", "all metal used", account.accounted,
                          *(m for _, m in masses))
        assert isinstance(used, Figure)
        whole, of = used, "all metal used"
        given = ledger.put("account.on_hand", "from coils on hand", account.on_hand_mass, taken,
                           per_length)
        assert isinstance(given, Figure)
        masses.append(("from coils on hand", given))
    ledger.put("account.total", "all parts together", account.accounted, *(m for _, m in masses))
    return tuple(_line(ledger, name, mass, whole, of) for name, mass in masses)


def _line(ledger: Ledger, name: str, mass: Figure, whole: Figure, of: str) -> AccountLine:
    share = ledger.put(f"{mass.key}.share", f"{name}: share of {of}", account.share_of_order,
                       mass, whole)
    length = ledger.put(f"{mass.key}.length", f"{name}: as strip", coil.length_of_mass, mass,
                        ledger.figures["strip.mass_per_length"])
    assert isinstance(share, Figure)
    assert isinstance(length, Figure)
    each = ledger.answer("coils.price")
    if isinstance(each, Lack):
        return AccountLine(name, mass, share, length)
    money = ledger.put(f"{mass.key}.money", f"{name}: cost", price.cost, mass, each)
    assert isinstance(money, Figure)
    return AccountLine(name, mass, share, length, money)


def _openings(ledger: Ledger, planes: tuple[PlanePlan, ...]) -> Figure | Lack | None:
    """The area of openings that panels run over, or None where there is none."""
    treated = ledger.job.roof.openings
    if treated is not None and treated.deducts:
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
