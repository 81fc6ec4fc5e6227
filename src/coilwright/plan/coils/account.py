"""Where the metal goes: the ordered weight, part by part, and what it costs."""

from __future__ import annotations

from dataclasses import replace

from coilwright.calc import account, coil, on_hand, price, slitting
from coilwright.calc.roof import shapes
from coilwright.job.answers.coils import CoilsKey
from coilwright.job.answers.machine import MachineKey
from coilwright.job.answers.panel import PanelKey
from coilwright.plan.coils.sold import longer_name
from coilwright.plan.ledger import Ledger, require
from coilwright.plan.result import AccountLine, PlanePlan, SlitPlan
from coilwright.units import Kind, System
from coilwright.units.kinds import METER, SQUARE_IN_SQUARE_INCHES
from coilwright.values.figure import Figure
from coilwright.values.keys import Key, part_of
from coilwright.values.source import Grade, Source
from coilwright.values.standing import Standing


def enter_cost(ledger: Ledger) -> None:
    """Enter the order's cost before freight and slitting; nothing while the price is not known."""
    each, mass = ledger.given(CoilsKey.PRICE), ledger.figures.get(Key.COIL_MASS_ORDERED)
    if each is None or mass is None:
        return
    lump = _lump(ledger)
    cost = ledger.add(replace(lump, key=Key.COIL_COST, label="Cost of the coils")) if lump else (
        ledger.put(Key.COIL_COST, "Cost of the coils", price.cost, mass, each,
                   note="by weight alone: freight, slitting and minimums come on top"))
    area = ledger.figures.get(Key.ROOF_AREA)
    if area is None or area.value <= 0:
        return
    us = ledger.job.units is System.US
    name, size = ("One square of roof", SQUARE_IN_SQUARE_INCHES) if us else (
        "One m² of roof", METER**2)
    unit = ledger.table(Key.COIL_COST_UNIT, name, float(size), Kind.AREA, price.UNIT_OF_ROOF)
    ledger.put(Key.COIL_COST_AREA, "Cost per square of roof" if us else "Cost per m² of roof",
               price.cost_by_area, cost, area, unit)


def _lump(ledger: Ledger) -> Figure | None:
    """The lump that the order's price was worked out from; None where it is no such price.

    It is for the coils that were quoted: by their weight, others would cost more or less than
    anybody said.
    """
    quote = ledger.job.quotes.by_lump
    if quote is None or quote.price is None or CoilsKey.PRICE not in ledger.job.by_quote:
        return None
    return Figure("coil.lump", "The lump that was quoted", float(quote.price.amount), Kind.MONEY,
                  Source(f"the quote of {ledger.job.by_quote[CoilsKey.PRICE]}", Grade.ANSWER),
                  Standing.SURE, note="a lump, for the coils that were quoted")


_RESTS_ON = (CoilsKey.SPARE, CoilsKey.TOLERANCE, PanelKey.TAKE_UP, PanelKey.COVERAGE,
             MachineKey.THREAD_UP, MachineKey.TAIL)


def enter_account(
    ledger: Ledger, planes: tuple[PlanePlan, ...], slits: tuple[SlitPlan, ...] = ()
) -> tuple[AccountLine, ...]:
    """Enter each part of the ordered weight; empty while there is no order.

    The parts are of all panels, wherever they are cut from; what coils on hand give is then
    taken off. Shares are of the order, or of all metal used where coils on hand give some. slits:
    of an order in passes, whose drop is a part of its own.
    """
    whole, of = ledger.figures.get(Key.COIL_MASS_ORDERED), "the order"
    if whole is None:
        return ()
    parts = _parts(ledger, planes)
    if slits:
        parts += _parts_of_passes(ledger, slits[0])
    elif Key.COIL_WANTED_LENGTH in ledger.figures:
        parts.append(_longer(ledger, longer_name(ledger.job)))
    taken = ledger.figures.get(Key.ON_HAND_TAKEN)
    if taken is not None:
        whole, of = ledger.put(Key.ACCOUNT_USED, "all metal used", account.accounted,
                               *(mass for _, mass in parts)), "all metal used"
        given = ledger.put(Key.ACCOUNT_ON_HAND, "from coils on hand", account.on_hand_mass, taken,
                           ledger.figures[Key.STRIP_MASS_PER_LENGTH])
        parts.append(("from coils on hand", given))
    ledger.put(Key.ACCOUNT_TOTAL, "all parts together", account.accounted,
               *(mass for _, mass in parts))
    return tuple(_line(ledger, name, mass, whole, of) for name, mass in parts)


def _parts(ledger: Ledger, planes: tuple[PlanePlan, ...]) -> list[tuple[str, Figure]]:
    """What the metal is for, by name, in the order a roof is covered."""
    figures = ledger.figures
    sheet, per_length = figures[Key.METAL_SHEET_MASS], figures[Key.STRIP_MASS_PER_LENGTH]
    panels, extents = figures[Key.PANELS_LENGTH], figures[Key.PANELS_EXTENT]
    laid = figures[Key.PANELS_LAID]
    net = figures.get(Key.COIL_CUT, panels)
    covered, cut_out = laid, None
    holes = _openings(ledger, planes)
    if holes is not None:
        covered = ledger.put(Key.PANELS_COVERED, "Roof under panels, less openings",
                             shapes.less_openings, laid, holes)
        cut_out = ledger.put(Key.ACCOUNT_OPENINGS, "cut out at openings", account.area_mass,
                             holes, sheet)
    threaded = figures.get(Key.COIL_RUN_COUNT) or figures[Key.COIL_COUNT]
    if Key.ON_HAND_TAKEN in figures:
        threaded = ledger.put(Key.COIL_THREADED, "Coils threaded up", on_hand.coils_threaded,
                              threaded, figures[Key.ON_HAND_COUNT])
    wanted = figures.get(Key.COIL_WANTED_LENGTH) or figures[Key.COIL_LENGTH_ORDERED]
    # Where something is ordered, all that the order rests on is known.
    spare, tolerance, take_up, coverage, thread_up, tail = require(*map(ledger.answer, _RESTS_ON))
    parts = [
        ("roof covered", ledger.put(Key.ACCOUNT_ROOF, "roof covered", account.area_mass, covered,
                                    sheet)),
        ("seam take-up", ledger.put(Key.ACCOUNT_TAKE_UP, "seam take-up", account.take_up_mass,
                                    extents, take_up, sheet)),
        ("ripped edges", ledger.put(Key.ACCOUNT_RIPPED, "angled and ripped edges",
                                    account.ripped_mass, extents, coverage, laid,
                                    sheet)),
        ("end allowance", ledger.put(Key.ACCOUNT_ENDS, "end allowances and rounding",
                                     account.ends_mass, panels, extents, per_length)),
        ("thread and tail", ledger.put(Key.ACCOUNT_THREAD, "thread-up and tail",
                                       account.thread_mass, threaded, thread_up, tail,
                                       per_length)),
        ("spare", ledger.put(Key.ACCOUNT_SPARE, "spare", account.spare_mass, net, spare,
                             per_length)),
        ("tolerance", ledger.put(Key.ACCOUNT_TOLERANCE, "supplier's tolerance",
                                 account.tolerance_mass,
                                 wanted, tolerance, per_length)),
    ]
    trim = figures.get(Key.TRIM_FROM_COIL)
    if trim is not None:
        parts.insert(-3, ("trim", ledger.put(Key.ACCOUNT_TRIM, "trim from the panel coil",
                                             coil.coil_mass, per_length, trim)))
    if cut_out is not None:
        parts.insert(2, ("cut out at openings", cut_out))
    return parts


def _parts_of_passes(
    ledger: Ledger, slit: SlitPlan
) -> list[tuple[str, Figure]]:
    """What an order in passes takes beyond the coils wanted: longer strands, trim, the drop."""
    figures = ledger.figures
    parts = [_longer(ledger, "strands as long as their pass")]
    beside = [
        ledger.put(f"{one.key}.trim{number}", f"Strand {number} for trim, weight",
                   slitting.master_mass, figures[Key.METAL_SHEET_MASS], strand.width, one.length)
        for one in slit.passes for number, strand in enumerate(one.strands)
        if strand.coil is None
    ]
    if beside:
        parts.append(("trim beside the strip", ledger.put(
            Key.ACCOUNT_BESIDE, "trim beside the strip", coil.summed_mass, *beside)))
    parts.append(("drop by slitting", ledger.put(
        Key.ACCOUNT_DROP, "drop by slitting", coil.summed_mass, slit.drop_mass)))
    return parts


def _longer(ledger: Ledger, name: str) -> tuple[str, Figure]:
    """What comes beyond the coils wanted."""
    figures = ledger.figures
    longer = ledger.put(Key.COIL_LONGER, "Strip beyond what is wanted",
                        slitting.longer_than_wanted, figures[Key.COIL_LENGTH_ORDERED],
                        figures[Key.COIL_WANTED_LENGTH])
    return name, ledger.put(Key.ACCOUNT_LONGER, name, coil.coil_mass,
                            figures[Key.STRIP_MASS_PER_LENGTH], longer)


def _line(ledger: Ledger, name: str, mass: Figure, whole: Figure, of: str) -> AccountLine:
    share = ledger.put(part_of(mass.key, "share"), f"{name}: share of {of}", account.share_of_order,
                       mass, whole)
    length = ledger.put(part_of(mass.key, "length"), f"{name}: as strip", coil.length_of_mass, mass,
                        ledger.figures[Key.STRIP_MASS_PER_LENGTH])
    each = ledger.given(CoilsKey.PRICE)
    if each is None:
        return AccountLine(name, mass, share, length)
    key, label = part_of(mass.key, "money"), f"{name}: cost"
    lump = _lump(ledger)
    money = ledger.put(key, label, price.cost, mass, each) if lump is None else ledger.put(
        key, label, price.charge_by_weight, lump, mass, ledger.figures[Key.COIL_MASS_ORDERED])
    return AccountLine(name, mass, share, length, money)


def _openings(ledger: Ledger, planes: tuple[PlanePlan, ...]) -> Figure | None:
    """The area of openings that panels run over, or None where there is none."""
    treated = ledger.job.roof.openings
    if treated is not None and treated.deducts:
        return None
    holes = [
        (plane, ledger.figures[part_of(plane.key, "openings")])
        for plane in planes
        if plane.openings
    ]
    if not holes:
        return None
    areas = []
    for plane, hole in holes:
        alike = Figure(
            part_of(plane.key, "alike"),
            f"{plane.name}: planes alike",
            float(plane.alike),
            Kind.COUNT,
            plane.area.source,
            plane.area.standing,
        )
        areas.append(ledger.put(part_of(plane.key, "openings_alike"),
                                f"{plane.name}: openings, all", shapes.alike_area, hole, alike))
    return ledger.put(Key.ROOF_OPENINGS_AREA, "Openings panels run over", shapes.summed_area,
                      *areas)
