"""Coils on hand that are used: what is cut from each, what is left, and what they save."""

from __future__ import annotations

from coilwright.calc import coil as wound
from coilwright.calc import on_hand as calc
from coilwright.calc import price, sources, split
from coilwright.calc.roof import shapes
from coilwright.job.answers.coils import CoilsKey
from coilwright.job.answers.machine import MachineKey
from coilwright.job.stock import LengthBy
from coilwright.plan.coils.cut_lists import Needed, cuts_of, enter_cuts, enter_length
from coilwright.plan.coils.cuts import Batches, Question, share_out
from coilwright.plan.coils.sold import enter_lengths
from coilwright.plan.coils.stock import TAG, Strand
from coilwright.plan.ledger import Ledger, Term, known, require
from coilwright.plan.result import CoilPlan, PlanePlan, StockCoil
from coilwright.units import Kind, show
from coilwright.values.figure import Figure
from coilwright.values.finding import Finding, Level
from coilwright.values.keys import Key, part_of, row_key
from coilwright.values.rounding import Rounding
from coilwright.values.source import PRACTICE, Source
from coilwright.values.standing import Standing

_LOOSE = 1e-6
_SAVINGS = (
    ("save.length", "Coils on hand save, length"), ("save.mass", "Coils on hand save, weight"),
)


def enter_from_stock(
    ledger: Ledger, planes: tuple[PlanePlan, ...], strands: tuple[Strand, ...],
    shared: tuple[tuple[int, Batches], ...], keep: float, standing: Standing,
) -> tuple[StockCoil, ...]:
    """Enter the figures of each strip on hand that is used, and how much is used of all."""
    strips: dict[int, int] = {}
    for strand in strands:
        strips[strand.index] = strips.get(strand.index, 0) + 1
    losses = require(
        *map(ledger.answer, (CoilsKey.SPARE, MachineKey.THREAD_UP, MachineKey.TAIL))
    )
    used = []
    for number, batches in _first_strips_first(strands, shared):
        strand = strands[number]
        cuts = cuts_of(batches, planes)
        panels = enter_cuts(ledger, strand.key, strand.name, cuts, standing)
        taken = ledger.put(part_of(strand.key, "taken"), f"{strand.name}: used, with spare "
                           "and losses", calc.taken_off, panels, *losses)
        left = ledger.put(part_of(strand.key, "left"),
                          f"{strand.name}: leftover at least, past the spare",
                          calc.left_on, strand.length, taken, rounding=Rounding.DOWN)
        heaviest = ledger.put(part_of(strand.key, "heaviest"), f"{strand.name}: weight at most",
                              wound.coil_mass, ledger.figures[Key.STRIP_MASS_PER_LENGTH],
                              strand.longest, rounding=Rounding.UP)
        # What reads as nothing is used up.
        too_short = (left.value < keep - _LOOSE
                     and left.as_read(ledger.job.units) > _LOOSE)
        used.append(StockCoil(
            index=strand.index, tag=strand.coil.tag, strip=strand.number,
            strips=strips[strand.index], key=strand.key, name=strand.name,
            length=strand.length, usable=strand.usable,
            panels_length=panels, taken=taken, left=left, heaviest=heaviest,
            too_short=too_short, cuts=cuts,
        ))
    if used:
        ledger.put(Key.ON_HAND_PANELS, "Panels cut from coils on hand", shapes.summed_length,
                   *(c.panels_length for c in used))
        ledger.put(Key.ON_HAND_TAKEN, "Used of coils on hand", shapes.summed_length,
                   *(c.taken for c in used))
        ledger.drawn(Key.ON_HAND_COUNT, "Strips on hand used", float(len(used)), Kind.COUNT,
                     standing, "shared out with the least metal newly ordered")
    return tuple(used)


def _first_strips_first(
    strands: tuple[Strand, ...], shared: tuple[tuple[int, Batches], ...]
) -> list[tuple[int, Batches]]:
    """The strips of one coil are alike, so those used are its first ones."""
    free: dict[int, list[int]] = {}
    for number, strand in enumerate(strands):
        free.setdefault(strand.index, []).append(number)
    return sorted(
        ((free[strands[number].index].pop(0), batches) for number, batches in sorted(shared)),
        key=lambda pair: pair[0],
    )


def enter_savings(
    ledger: Ledger, planes: tuple[PlanePlan, ...], batches: Batches, usable: Figure, loss: float,
    need: Needed, standing: Standing,
) -> None:
    """Enter what the order would be without the coils on hand, and what they save of it.

    It is by how much the order falls where they are taken, as both are read.
    """
    try:
        alone, _ = share_out(Question(batches, usable.value, loss, (), 0.0))
    except split.PanelTooLong:
        because = "without them a panel is longer than one coil is good for"
        for key, label in _SAVINGS:
            ledger.lack(key, label, (), because)
        return
    made = [enter_cuts(ledger, row_key("alone", number), f"Without those on hand, coil {number}",
                       cuts_of(one, planes), standing)
            for number, one in enumerate(alone.new, 1)]
    strip = ledger.figures[Key.STRIP_MASS_PER_LENGTH]
    in_passes = ledger.job.coils.in_passes
    if in_passes:
        # Strands come longer than is wanted; that is no matter of the coils on hand.
        lengths = tuple(
            enter_length(ledger, row_key("alone", number, "length"),
                         f"Without those on hand, coil {number}: length", one, need)
            for number, one in enumerate(made, 1))
    else:
        longest = ledger.figures[Key.COIL_LONGEST].value
        lengths = enter_lengths(ledger, made, need, longest, alone=True)
    ledger.drawn(Key.SAVE_COUNT, "Coils to order without those on hand", float(len(alone.new)),
                 Kind.COUNT, standing, "whole panels shared out to new coils only")
    without = ledger.put(Key.SAVE_WITHOUT, "Length to order without coils on hand",
                         shapes.summed_length, *lengths, rounding=Rounding.SUM)
    if in_passes:
        ordered = ledger.figures.get(Key.COIL_WANTED_LENGTH) or (
            ledger.figures[Key.COIL_LENGTH_ORDERED])
        saved = ledger.put(*_SAVINGS[0], calc.ordered_above, without, ordered)
        mass = ledger.put(*_SAVINGS[1], calc.length_mass, saved, strip)
    else:
        masses = [
            ledger.put(row_key("alone", number, "mass"),
                       f"Without those on hand, coil {number}: weight", wound.coil_mass, strip,
                       length, rounding=Rounding.NEAREST)
            for number, length in enumerate(lengths, 1)]
        heavy = ledger.put(Key.SAVE_WITHOUT_MASS, "Weight to order without coils on hand",
                           wound.summed_mass, *masses, rounding=Rounding.SUM)
        ledger.put(*_SAVINGS[0], calc.ordered_above, without,
                   ledger.figures[Key.COIL_LENGTH_ORDERED], rounding=Rounding.REST)
        mass = ledger.put(*_SAVINGS[1], calc.mass_above, heavy,
                          ledger.figures[Key.COIL_MASS_ORDERED], rounding=Rounding.REST)
    each = ledger.given(CoilsKey.PRICE)
    if each is not None:
        ledger.put(Key.SAVE_MONEY, "Coils on hand save, money", price.cost, mass, each)


def stock_findings(
    ledger: Ledger, strands: tuple[Strand, ...], used: tuple[StockCoil, ...],
    coils: tuple[CoilPlan, ...],
) -> list[Finding]:
    """What must be minded about the coils on hand, used and not."""
    found = [
        *_tight(ledger, used), *_slit(ledger, used), *_short_leftovers(ledger, used),
        *_unused(ledger, strands, used), *_too_much(ledger, used), *_lifting(ledger, used, coils),
    ]
    return [*found, *_together(ledger, used, coils)]


def _finding(level: Level, key: str, what: str, why: str, do: str, source: Source) -> Finding:
    return Finding(level, key, what, why, do, source, "coils", (CoilsKey.COIL_ON,))


def _tight(ledger: Ledger, used: tuple[StockCoil, ...]) -> list[Finding]:
    """Coils whose length nobody measured: what is held back of each, so that no panel is cut from
    metal that may not be there."""
    system = ledger.job.units
    found = []
    for coil in used:
        own = ledger.job.on_hand[coil.index]
        if own.length is None or own.length_by is LengthBy.MEASURED:
            continue
        guessed = own.length_by is LengthBy.GUESSED
        said = show(own.length, Kind.LENGTH, system)
        found.append(_finding(
            Level.CARE if guessed else Level.NOTE, part_of(coil.key, "tight"),
            f"Coil “{coil.name}” is planned as {coil.length.text(system)}, not the {said} that "
            f"{'somebody estimates' if guessed else 'its tag or a list says'}.",
            "Nobody measured it. What it may be short by is held back, so that the last panel is "
            "not cut from metal that is not there.",
            "Measure it as it is unwound, or give its diameters; what is more is left over.",
            calc.GUESSED_LENGTH if guessed else calc.SAID_LENGTH,
        ))
    return found


def _slit(ledger: Ledger, used: tuple[StockCoil, ...]) -> list[Finding]:
    found = []
    for index in dict.fromkeys(c.index for c in used):
        drop = ledger.figures.get(row_key("on_hand", index + 1, "drop"))
        if drop is None:
            continue
        one = next(c for c in used if c.index == index)
        system = ledger.job.units
        strips = "one strip" if one.strips == 1 else f"{one.strips} strips"
        found.append(_finding(
            Level.NOTE, row_key("on_hand", index + 1, "slit"),
            f"Coil “{one.tag}” must be slit to {strips} of "
            f"{ledger.figures[Key.STRIP_WIDTH].text(system)}; the drop is "
            f"{drop.text(system)} wide.",
            "It is wider than the strip. A wide coil does not go into the machine.",
            "Ask what slitting costs before counting on it.", one.length.source,
        ))
    return found


def _short_leftovers(ledger: Ledger, used: tuple[StockCoil, ...]) -> list[Finding]:
    short = [c for c in used if c.too_short]
    if not short:
        return []
    system = ledger.job.units
    said = ", ".join(f"“{c.name}” {c.left.text(system)}" for c in short)
    return [_finding(
        Level.NOTE, "on_hand.leftovers",
        f"Leftovers too short to keep, once the spare is used: {said}.",
        "A short leftover takes a place in the shop and seldom fits a job.",
        "Plan it for trim, or take it as spare.", PRACTICE,
    )]


def _unused(
    ledger: Ledger, strands: tuple[Strand, ...], used: tuple[StockCoil, ...]
) -> list[Finding]:
    taken = {c.index for c in used}
    idle = {strand.index: strand for strand in strands if strand.index not in taken}
    system = ledger.job.units
    longest = ledger.figures[Key.PANELS_LONGEST]
    found = []
    for index, strand in idle.items():
        if ledger.job.on_hand_planes.get(strand.coil.tag):
            continue  # why it is not used is said of the planes it is kept to
        short = strand.usable.value < longest.value
        found.append(_finding(
            Level.NOTE, row_key("on_hand", index + 1, "unused"),
            f"Coil “{strand.coil.tag}” fits but is not used.",
            f"It is good for {strand.usable.text(system)} of panels, and the longest panel is "
            f"{longest.text(system)}." if short
            else "The others give as little newly ordered metal without it.",
            "Keep it for another job.", strand.length.source,
        ))
    return found


def across_on_hand(ledger: Ledger, coil: StockCoil) -> Term:
    """What a coil on hand is across: measured, or worked out from its length.

    One of known length is taken to be wound on the job's inside diameter.
    """
    key, name = part_of(coil.key, "across"), f"{coil.name}: diameter"
    measured = ledger.job.on_hand[coil.index].outside
    if measured is not None:
        return ledger.table(key, name, measured, Kind.WIDTH, TAG)
    wrap = ledger.got(Key.COIL_WRAP)
    return ledger.put(key, name, wound.outside_diameter, ledger.answer(CoilsKey.INSIDE_DIAMETER),
                      coil.length, wrap)


def _too_much(ledger: Ledger, used: tuple[StockCoil, ...]) -> list[Finding]:
    on = ledger.job.coils.coil_on
    rack = on is None or on.is_rack
    load = ledger.given(MachineKey.ARBOR_LOAD if rack else MachineKey.DECOILER_LOAD)
    largest = ledger.given(MachineKey.RACK_DIAMETER if rack else MachineKey.DECOILER_DIAMETER)
    system = ledger.job.units
    found = []
    for coil in used:
        if load is not None and coil.heaviest.value > load.value * (1 + 1e-9):
            found.append(_finding(
                Level.STOP, part_of(coil.key, "too_heavy"),
                f"Coil “{coil.name}” can weigh {coil.heaviest.text(system)}; the machine takes "
                f"{load.text(system)}.",
                "A coil over the load of its arbor can bend it or come down.",
                "Weigh it, wind some off, or leave it out of this job.", load.source,
            ))
        across = known(across_on_hand(ledger, coil))
        if (
            across is not None and largest is not None
            and across.value > largest.value + _LOOSE
        ):
            measured = ledger.job.on_hand[coil.index].outside is not None
            found.append(_finding(
                Level.STOP, part_of(coil.key, "too_large"),
                f"Coil “{coil.name}” is {'' if measured else 'about '}{across.text(system)} "
                f"in diameter; the machine takes {largest.text(system)}.",
                "A coil that does not fit cannot be loaded.",
                ("" if measured else "Measure it and put its diameters in. ")
                + "Have some wound off, or leave it out of this job.", largest.source,
            ))
        found += _no_arbor(ledger, coil, "machine." if rack else "machine.decoiler_")
    return found


def _no_arbor(ledger: Ledger, coil: StockCoil, place: str) -> list[Finding]:
    """A stop where the measured hole fits no arbor; slitting winds a coil anew."""
    inside = ledger.job.on_hand[coil.index].inside
    if inside is None or row_key("on_hand", coil.index + 1, "drop") in ledger.figures:
        return []
    least, most = (ledger.given(f"{place}{end}_coil_id") for end in ("smallest", "largest"))
    small = least is not None and inside < least.value - wound.INSIDE_ROUNDED - _LOOSE
    limit = least if small else most
    if limit is None or not (small or inside > limit.value + wound.INSIDE_ROUNDED + _LOOSE):
        return []
    system = ledger.job.units
    return [_finding(
        Level.STOP, part_of(coil.key, "inside"),
        f"Coil “{coil.name}” is {show(inside, Kind.WIDTH, system)} inside; the "
        f"{'least' if small else 'most'} this machine takes is {limit.text(system)}.",
        "A coil whose inside diameter does not match the arbor cannot be held, and may come "
        "off it.",
        "Have it wound on another core, ask the maker for adapter rings, or leave it out of this "
        "job.", limit.source,
    )]


def _lifting(
    ledger: Ledger, used: tuple[StockCoil, ...], coils: tuple[CoilPlan, ...]
) -> list[Finding]:
    heaviest = max(used, key=lambda c: c.heaviest.value, default=None)
    if heaviest is None or any(c.mass.value >= heaviest.heaviest.value for c in coils):
        return []
    slit = heaviest.strips > 1 or row_key("on_hand", heaviest.index + 1, "drop") in ledger.figures
    return [_finding(
        Level.CARE, "on_hand.lifting",
        f"Coil “{heaviest.name}” can weigh {heaviest.heaviest.text(ledger.job.units)}"
        f"{', and more before it is slit' if slit else ''}. Nobody under it, ever.",
        "A coil that slips kills. Gear must be rated for the coil and its attachment together.",
        "Read the rating plates of forklift, slings, arbors and rack; they decide, not this "
        "program.", sources.SLINGS,
    )]


def _together(
    ledger: Ledger, used: tuple[StockCoil, ...], coils: tuple[CoilPlan, ...]
) -> list[Finding]:
    """The heaviest coils that could be on the rack at once against what the rack carries."""
    arbors, load = ledger.given(MachineKey.ARBORS), ledger.figures.get(MachineKey.RACK_LOAD)
    if arbors is None or load is None or arbors.value < 2 or not used:
        return []
    arriving = (ledger.figures[row_key("coil", c.number, "heaviest")] for c in coils)
    masses = sorted([*(c.heaviest for c in used), *arriving],
                    key=lambda f: -f.value)[: int(arbors.value)]
    both = ledger.put(Key.COIL_RACK_TOGETHER, "Heaviest coils on the rack at once",
                                     wound.summed_mass, *masses)
    if both.value <= load.value * (1 + 1e-9):
        return []
    system = ledger.job.units
    return [_finding(
        Level.CARE, "coils.rack_together",
        f"The heaviest {len(masses)} coils on the rack at once are {both.text(system)}; it "
        f"carries {load.text(system)}.",
        "Each arbor may hold its coil and the rack still be over its load.",
        "Load the heaviest coils one at a time, each beside a light one or none.", load.source,
    )]
