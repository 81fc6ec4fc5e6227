"""The coils to order: how many, what is cut from each, how long, heavy and large they are."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace

from coilwright.calc import coil, on_hand, slitting, split
from coilwright.calc.cutting.cutplan import WORTH_KEEPING
from coilwright.calc.roof import shapes
from coilwright.calc.split import Batch
from coilwright.job.answers import ANSWERS
from coilwright.job.answers.coils import CoilsKey
from coilwright.job.answers.machine import MachineKey
from coilwright.job.answers.roof import RoofKey
from coilwright.job.found_cuts import FoundCuts
from coilwright.job.trim import TrimFrom
from coilwright.plan.coils.cut_lists import Needed, cuts_of, enter_coil, enter_cuts
from coilwright.plan.coils.cuts import Effort, Question, Shared, share_out
from coilwright.plan.coils.from_stock import enter_from_stock, enter_savings, stock_findings
from coilwright.plan.coils.own_planes import cut_own_planes
from coilwright.plan.coils.passes import TrimMetal, enter_passes
from coilwright.plan.coils.sold import enter_lengths
from coilwright.plan.coils.stock import FITS_BY, Strand
from coilwright.plan.coils.stock_by_lot import lots_kept_apart
from coilwright.plan.coils.trim_by_lot import trim_kept_together
from coilwright.plan.haul.came import came_at
from coilwright.plan.ledger import Lacking, Ledger, require
from coilwright.plan.result import (
    CoilPlan,
    Cut,
    Limit,
    PlanePlan,
    Proof,
    SlitPlan,
    StockCoil,
    TrimNest,
)
from coilwright.units import Kind
from coilwright.values.figure import Figure, worst
from coilwright.values.finding import Finding, Level
from coilwright.values.keys import Key, part_of, row_key
from coilwright.values.rounding import Rounding
from coilwright.values.source import LAYOUT, MEASURED, PRACTICE, SHARED_OUT, Grade, Source
from coilwright.values.standing import Standing
from coilwright.words.counting import capitalized

MOST_COILS = 400
"""Coils beyond which the measures are taken to be wrong: of 500 lb each they are a hundred tons,
and each takes its part of what a keystroke waits for."""
SEARCH = Source("no sharing out needs less: material, and panels too long to pair", Grade.GEOMETRY)
_TOTALS = (
    (Key.COIL_COUNT, "Coils"),
    (Key.COIL_LENGTH_ORDERED, "Length to order"),
    (Key.COIL_MASS_ORDERED, "Weight to order"),
)
_NOTHING_LEFT = Shared((), (), 0.0, 0.0, 0)
"""What is shared out where coils with planes of their own hold all panels."""
_NEEDS = (CoilsKey.TOLERANCE, MachineKey.THREAD_UP, MachineKey.TAIL, CoilsKey.SPARE)


@dataclass(frozen=True, slots=True)
class Coils:
    """The coils of a plan; all empty while there is no order.

    slits: the master and passes ordered, then the other masters; empty where the supplier slits to
    width. trim: length of each strand for trim in the passes, by metal.
    found: what a longer search found beyond the quick one and these coils follow; for the job to
    keep.
    """

    new: tuple[CoilPlan, ...] = ()
    from_stock: tuple[StockCoil, ...] = ()
    fewest: int | None = None
    proof: Proof | None = None
    found: FoundCuts | None = None
    slits: tuple[SlitPlan, ...] = ()
    trim: Mapping[TrimMetal, tuple[Figure, ...]] = field(default_factory=dict)


def enter_coils(
    ledger: Ledger, planes: tuple[PlanePlan, ...], nests: tuple[TrimNest, ...],
    governing: Limit | None, strands: tuple[Strand, ...], effort: Effort,
) -> tuple[Coils, list[Finding]]:
    """Share the panels out to coils on hand and new ones; enter their figures and the totals."""
    needed = [ledger.answer(key) for key in _NEEDS]
    longest, edge = ledger.got(Key.COIL_LONGEST), ledger.got(Key.COIL_LONGEST)
    in_passes = ledger.job.coils.in_passes
    if in_passes:
        longest = ledger.put(Key.COIL_STRAND_LONGEST, "Longest strand", slitting.longest_strand,
                             longest, ledger.over_side(), picks=(CoilsKey.SLITTING,))
        edge = ledger.answer(CoilsKey.EDGE_TRIM)
    good_for = ledger.put(Key.COIL_USABLE, "Panels one longest coil is good for",
                          coil.usable_length, longest, *needed,
                          note="where it comes as short as its tolerance lets it")
    try:
        usable, net, edge_trim = require(good_for, ledger.got(Key.PANELS_LENGTH), edge)
        need = Needed(*require(*needed, ledger.answer(CoilsKey.INSIDE_DIAMETER),
                               ledger.over_side()))
    except Lacking as lacking:
        ledger.lack_all(_TOTALS, lacking)
        return Coils(), []
    panels = tuple(
        Batch(index, group.length, group.count)
        for index, plane in enumerate(planes)
        for group in plane.groups
    )
    if not panels:
        return Coils(), [_no_panels(ledger)]
    # Rows of blanks are shared out like panels, as those of one plane more.
    batches = panels + tuple(
        Batch(len(planes), length, times) for length, times in _rows_by_length(nests)
    )
    trim = ledger.figures.get(Key.TRIM_FROM_COIL)
    if trim is not None:
        net = ledger.put(Key.COIL_CUT, "Panels and trim to cut from coil", shapes.summed_length,
                         net, trim)
    if net.value > MOST_COILS * usable.value > 0:
        return Coils(), [_too_many(ledger, coil.fewest_coils(net.value, usable.value))]
    # What a coil loses is told as panels: the spare is counted on panels, not on losses.
    loss = (need.thread_up.value + need.tail.value) / (1 + need.spare.value)
    keep = _keep(ledger)
    as_panels = keep / (1 + need.spare.value)
    own = cut_own_planes(ledger, planes, strands, batches, as_panels)
    rooms = tuple(0.0 if number in own.closed else strand.usable.value
                  for number, strand in enumerate(strands))
    question = Question(own.rest, usable.value, loss, rooms, as_panels)
    shared, found = _NOTHING_LEFT, ledger.job.found_cuts
    try:
        if own.rest:
            shared, found = share_out(question, effort, found)
            shared = lots_kept_apart(question, shared, strands, len(planes))
    except split.PanelTooLong:
        return Coils(), [_too_long(ledger, usable, governing, bool(strands))]
    shared = replace(shared, on_hand=(*own.cut, *shared.on_hand))
    shared = trim_kept_together(ledger.job, nests, question, shared, strands, len(planes),
                                own.closed)
    if len(shared.new) > MOST_COILS:
        # Long panels leave much of each coil, so that there are more than their length says.
        return Coils(), [_too_many(ledger, len(shared.new))]
    standing = _standing(ledger, net, usable, strands)
    used = enter_from_stock(ledger, planes, strands, shared.on_hand, keep, standing)
    rest = net
    if used:
        rest = ledger.put(Key.COIL_FROM_NEW, "Panels that come from new coils",
                          on_hand.rest_of_panels, net, ledger.figures[Key.ON_HAND_PANELS])
    fewest = ledger.put(Key.COIL_FEWEST, "No fewer coils than", coil.fewest_coils, rest, usable)
    slits: tuple[SlitPlan, ...] = ()
    trim_strands: Mapping[TrimMetal, tuple[Figure, ...]] = {}
    if in_passes and shared.new:
        made = enter_passes(ledger, planes, nests, shared.new, usable, need, edge_trim, standing)
        if made is None:
            return Coils(), [_no_passes(ledger)]
        coils, slits, trim_strands = made.coils, made.slits, made.trim
        standing = worst((slits[0].length, net))
    else:
        coils = _coils(ledger, [cuts_of(one, planes) for one in shared.new], need, standing,
                       ledger.figures[Key.COIL_LONGEST].value)
    _enter_totals(ledger, coils, slits, standing)
    proof = _proof(ledger, shared, slits, need, standing)
    if strands:
        enter_savings(ledger, planes, batches, usable, loss, need, standing)
    return Coils(coils, used, int(fewest.value), proof, found, slits, trim_strands), [
        *stock_findings(ledger, strands, used, coils), *own.findings,
        *_unproven(ledger, proof, bool(slits))]


def _rows_by_length(nests: tuple[TrimNest, ...]) -> list[tuple[float, int]]:
    """Rows of blanks cut from the panel coil: lengths [in] and how many, longest first."""
    rows: dict[float, int] = {}
    for nest in nests:
        if nest.made_from is TrimFrom.PANEL_COIL:
            for pattern in nest.patterns:
                rows[pattern.length] = rows.get(pattern.length, 0) + pattern.times
    return sorted(rows.items(), reverse=True)


def _standing(
    ledger: Ledger, net: Figure, usable: Figure, strands: tuple[Strand, ...]
) -> Standing:
    """How sure the sharing is.

    Which panels go to which coil rests on what the coils are good for, not on the panels alone;
    and on all answers that decide which coils on hand fit, where there are any.
    """
    # What is not asked of this metal, as a coating of bare aluminum, decides of no coil.
    fits_by = (key for key in FITS_BY if ANSWERS[key].asked(ledger.job))
    if ledger.job.on_hand and ledger.guessed(*fits_by):
        return Standing.GUESS
    return worst((net, usable, *(strand.usable for strand in strands)))


def _keep(ledger: Ledger) -> float:
    """Leftover worth keeping [in]: as answered, else what is usual."""
    keep = ledger.given(CoilsKey.KEEP_LENGTH)
    if keep is None:
        keep = ledger.table(CoilsKey.KEEP_LENGTH, "Leftover worth keeping", WORTH_KEEPING,
                            Kind.LENGTH, PRACTICE)
    return keep.value


def _enter_totals(
    ledger: Ledger, coils: tuple[CoilPlan, ...], slits: tuple[SlitPlan, ...], standing: Standing
) -> None:
    note = "whole panels shared out evenly to coils, none over what it is good for"
    ledger.drawn(Key.COIL_COUNT, "Coils", float(len(coils)), Kind.COUNT, standing, note,
                 SHARED_OUT)
    if not coils:
        note = "all panels come from coils on hand"
        ledger.drawn(Key.COIL_LENGTH_ORDERED, "Length to order", 0.0, Kind.LENGTH, standing, note,
                     SHARED_OUT)
        ledger.drawn(Key.COIL_MASS_ORDERED, "Weight to order", 0.0, Kind.MASS, standing, note,
                     SHARED_OUT)
        return
    ledger.put(Key.COIL_LENGTH_ORDERED, "Length to order", shapes.summed_length,
               *(c.length for c in coils), rounding=Rounding.SUM)
    masses = [c.mass for c in coils]
    if slits:
        run = [c for c in coils if c.cuts]
        if len(run) < len(coils):
            ledger.drawn(Key.COIL_RUN_COUNT, "Coils that are run", float(len(run)), Kind.COUNT,
                         standing, "those that panels are cut from", SHARED_OUT)
        ledger.put(Key.COIL_MASS_ORDERED, "Weight to order", coil.summed_mass, slits[0].mass,
                   note="the master metal of all passes, drop included",
                   rounding=Rounding.SUM)
    else:
        ledger.put(Key.COIL_MASS_ORDERED, "Weight to order", coil.summed_mass, *masses,
                   rounding=Rounding.SUM)
    most = ledger.put(Key.COIL_HEAVIEST, "Heaviest a coil may come", coil.heaviest_of,
                      *(ledger.figures[row_key("coil", c.number, "heaviest")] for c in coils),
                      rounding=Rounding.GREATEST)
    if (came := max(came_at(ledger.job, c) for c in coils)) > most.value:
        ledger.drawn(Key.COIL_CAME, "Heaviest coil, as it came", came, Kind.MASS, Standing.SURE,
                     "over what any may come at", MEASURED)


def _proof(
    ledger: Ledger, shared: Shared, slits: tuple[SlitPlan, ...], need: Needed, standing: Standing
) -> Proof:
    bound = ledger.add(Figure(
        Key.COIL_LEAST_METAL, "Least metal from new coils, with their losses", shared.bound,
        Kind.LENGTH, SEARCH, standing, note="" if shared.least else "more may be needed",
    ))
    least = ledger.put(Key.COIL_LEAST_ORDERED, "No cut plan orders less than",
                       on_hand.least_ordered, bound, need.spare, need.under)
    if slits:
        return _passes_proof(ledger, slits[0], least)
    if shared.least:
        gap = ledger.drawn(Key.COIL_GAP, "Above the least that is proven", 0.0, Kind.LENGTH,
                           standing, "proven: no cut plan orders less")
    else:
        # What a supplier sells longer than is wanted is no matter of the cut plan.
        wanted = ledger.figures.get(Key.COIL_WANTED_LENGTH)
        gap = ledger.put(Key.COIL_GAP, "Above the least that is proven", on_hand.ordered_above,
                         wanted or ledger.figures[Key.COIL_LENGTH_ORDERED], least)
    mass = ledger.put(Key.COIL_GAP_MASS, "Weight above the least that is proven",
                      on_hand.length_mass, gap, ledger.figures[Key.STRIP_MASS_PER_LENGTH])
    return Proof(shared.proven, least, gap, mass)


def _passes_proof(ledger: Ledger, slit: SlitPlan, least: Figure) -> Proof:
    """How far the master ordered is above what any order of strips takes of it."""
    bound = ledger.put(part_of(slit.key, "least"), "No order in passes takes less of this master",
                       slitting.least_master, least, slit.strips)
    gap = ledger.put(Key.COIL_GAP, "Master above the least there could be", on_hand.ordered_above,
                     slit.length, bound)
    mass = ledger.put(Key.COIL_GAP_MASS, "Weight above the least there could be",
                      slitting.master_mass, ledger.figures[Key.METAL_SHEET_MASS], slit.master, gap)
    return Proof(gap.value <= 1e-6 * slit.length.value, bound, gap, mass)


def _unproven(ledger: Ledger, proof: Proof, in_passes: bool) -> list[Finding]:
    has_come = ledger.job.life.state.has_come  # nothing is left to search for
    if proof.is_least or (in_passes and proof.proven) or has_come:
        return []
    system = ledger.job.units
    if in_passes:
        return [Finding(
            Level.NOTE, "coils.unproven",
            f"These passes take {proof.gap.text(system)} ({proof.gap_mass.text(system)}) more of "
            "the master than the least there could be.",
            f"No order of strips takes less than {proof.least.text(system)} of it; every strand "
            "is as long as its pass, and what lies between is not settled.",
            "Compare another master, or have the supplier slit to width.", SEARCH, "coils",
            (CoilsKey.SLITTING,),
        )]
    return [Finding(
        Level.NOTE, "coils.unproven",
        f"This cut plan is within {proof.gap.text(system)} ({proof.gap_mass.text(system)}) of the "
        "least there could be.",
        f"No cut plan can order less than {proof.least.text(system)}; the search has not settled "
        "what lies between.",
        "Give the search more time before ordering.", SEARCH, "coils", (CoilsKey.COIL_ON,),
    )]


def _no_passes(ledger: Ledger) -> Finding:
    because = "no master takes a strand as wide and long as a panel needs"
    for key, label in _TOTALS:
        ledger.lack(key, label, (), because)
    return Finding(
        Level.STOP, "slit.none", "No master given takes a strand as wide and long as is needed.",
        "All strands lie between the edges of the master, and none is longer than its pass.",
        "Give a wider master or a heavier one, or let the supplier slit to width.",
        slitting.PASS, "coils", (CoilsKey.MASTER, CoilsKey.MASTER_HEAVIEST, CoilsKey.SLITTING),
    )


def _coils(
    ledger: Ledger, cuts: Sequence[tuple[Cut, ...]], need: Needed, standing: Standing,
    longest: float,
) -> tuple[CoilPlan, ...]:
    made = [enter_cuts(ledger, row_key("coil", number), f"Coil {number}", one, standing)
            for number, one in enumerate(cuts, 1)]
    lengths = enter_lengths(ledger, made, need, longest)
    return tuple(
        enter_coil(ledger, number, panels, length, one, need)
        for number, (panels, length, one) in enumerate(zip(made, lengths, cuts, strict=True), 1))


def _too_long(
    ledger: Ledger, usable: Figure, governing: Limit | None, on_hand_too: bool
) -> Finding:
    because = "one panel is longer than one coil is good for"
    for key, label in _TOTALS:
        ledger.lack(key, label, (), because)
    system = ledger.job.units
    panel = ledger.figures[Key.PANELS_LONGEST].text(system)
    words = governing.words if governing else "the limits of the rack"
    held = " No way was found to cut all panels so long from the coils on hand."
    return Finding(
        Level.STOP, "coil.panel_too_long",
        f"The longest panel, {panel}, is longer than the {usable.text(system)} one "
        f"{'new ' if on_hand_too else ''}coil is good for.",
        f"{capitalized(words)} sets that length; a panel cannot be cut from two coils."
        f"{held if on_hand_too else ''}",
        "Check the roof's measures and the machine's limits; a panel this long needs a joint or "
        "another machine.",
        SHARED_OUT, "coils", (RoofKey.PITCH, MachineKey.RACK_DIAMETER, MachineKey.ARBOR_LOAD),
    )


def _too_many(ledger: Ledger, coils: float) -> Finding:
    because = f"the order would take some {coils:,.0f} coils"
    for key, label in _TOTALS:
        ledger.lack(key, label, (), because)
    return Finding(
        Level.STOP, "coil.too_many", f"The order would take some {coils:,.0f} coils.",
        f"No order has more than {MOST_COILS}; one of the measures or limits is likely in the "
        "wrong unit.",
        "Check the roof's measures and the limits of the coil.",
        SHARED_OUT, "coils", (RoofKey.LENGTH, "roof.planes", MachineKey.ARBOR_LOAD),
    )


def _no_panels(ledger: Ledger) -> Finding:
    because = "no plane leaves room for a panel"
    for key, label in _TOTALS:
        ledger.lack(key, label, (), because)
    return Finding(
        Level.STOP, "panels.none", "No plane leaves room for a panel.",
        "Planes narrower than a panel's least width, or wholly taken by openings, get none.",
        "Check the planes' measures and their openings on the Roof step.",
        LAYOUT, "roof", ("roof.planes", RoofKey.OPENINGS),
    )
