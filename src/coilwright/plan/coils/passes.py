"""An order in passes: on which master, which coils side by side, and how long each pass is.

All strands of a pass are as long as it, so the panels are also shared out anew to as many even
coils as fill whole passes, and the sharing that takes the least master is ordered. Metal for trim
from another coil of the panels' thickness rides in the passes too.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache

from coilwright.calc import coil, price, slitting, split
from coilwright.calc.passes import Passes, Wanted, slit_in_passes
from coilwright.calc.roof import shapes
from coilwright.calc.split import Batch
from coilwright.job.answers.coils import MASTERS, CoilsKey
from coilwright.job.trim import TrimFrom
from coilwright.plan.coils.cut_lists import Needed, cuts_of, enter_coil, enter_cuts, enter_length
from coilwright.plan.coils.cuts import Batches
from coilwright.plan.ledger import Ledger
from coilwright.plan.result import CoilPlan, PlanePlan, SlitPass, SlitPlan, SlitStrand, TrimNest
from coilwright.units import Kind
from coilwright.values.figure import Figure
from coilwright.values.keys import Key, part_of, row_key
from coilwright.values.rounding import Rounding
from coilwright.values.standing import Standing

_QUICK = 0.012
"""Allowance of work for one master and one sharing, as seconds of a plain machine."""
_MOST_MORE = 2
"""Times that the coils are made enough to fill whole passes, one pass more each time."""
_MOST_TRIM = 50
"""Strands of one width for trim at most."""
_SLACK = 1 + 1e-8
_LOOSE = 1e-6
_DIGITS = 6
PANEL_STRIP, OTHER_COIL = "panel strip", "coil for trim"
PICKS = (CoilsKey.SLITTING, *MASTERS, CoilsKey.EDGE_TRIM, CoilsKey.MASTER_HEAVIEST)
"""Answers that decide which passes there are."""
TrimMetal = tuple[float, float | None]
"""Width and thickness of a coil for trim, as it is bought; the panels' thickness is none."""


@dataclass(frozen=True, slots=True)
class TrimStrands:
    """A coil for trim that rides in the passes: its metal, and the strands wanted of it."""

    metal: TrimMetal
    name: str
    width: Figure
    wanted: tuple[Figure, ...]


@dataclass(frozen=True, slots=True)
class Made:
    """The order in passes. slits: the master ordered first, then the others as they compare.

    trim: length of each strand for trim, by metal.
    """

    coils: tuple[CoilPlan, ...]
    slits: tuple[SlitPlan, ...]
    trim: dict[TrimMetal, tuple[Figure, ...]]


@dataclass(frozen=True, slots=True)
class _Choice:
    """One master with one sharing of the panels, and the passes for it."""

    number: int
    master: Figure
    shared: tuple[Batches, ...]
    passes: Passes
    across: int

    @property
    def rank(self) -> tuple[float, int, int, int]:
        return (round(self.passes.area, 3), len(self.passes.passes), len(self.shared), self.number)


def given_masters(ledger: Ledger) -> list[tuple[int, Figure]]:
    """The masters given, by their number; a width given twice counts once."""
    found: dict[float, tuple[int, Figure]] = {}
    for number, key in enumerate(MASTERS, 1):
        master = ledger.given(key)
        if master is not None:
            found.setdefault(master.value, (number, master))
    return list(found.values())


def enter_passes(
    ledger: Ledger, planes: tuple[PlanePlan, ...], nests: tuple[TrimNest, ...],
    shared: tuple[Batches, ...], usable: Figure, need: Needed, edge: Figure, standing: Standing,
) -> Made | None:
    """Choose master and passes for panels shared out to new coils, and enter coils and passes.

    usable: panels one longest strand is good for. None where no master takes the strip.
    """
    strip, longest = ledger.figures[Key.STRIP_WIDTH], ledger.figures[Key.COIL_STRAND_LONGEST]
    wide = [(number, master) for number, master in given_masters(ledger)
            if strip.value <= master.value - edge.value + _LOOSE]
    if not wide:
        return None
    lengths = {number: _longest_pass(ledger, master) for number, master in wide}
    trim, left_out = _trim(ledger, nests, min(m.value for _, m in wide) - edge.value,
                           min(lengths.values()), need)
    choices = []
    for number, master in wide:
        made = _choose(number, master, edge.value, strip.value, longest.value, shared, usable.value,
                       lengths[number], need, trim, ledger)
        if made is not None:
            choices.append(made)
    if not choices:
        return None
    choices.sort(key=lambda one: one.rank)
    if ledger.guessed(*PICKS):
        standing = Standing.GUESS
    coils, ordered, by_metal = _enter_order(ledger, choices[0], planes, need, edge, trim, left_out,
                                            standing)
    others = [_enter_other(ledger, one, edge, left_out, standing) for one in choices[1:]]
    return Made(coils, (ordered, *others), by_metal)


# ---------------------------------------------------------------- what strands may be


def _longest_pass(ledger: Ledger, master: Figure) -> float:
    """How long a pass may be by the heaviest master the supplier has [in]."""
    heaviest = ledger.given(CoilsKey.MASTER_HEAVIEST)
    if heaviest is None:
        return math.inf
    return coil.length_of_mass(heaviest.value,
                               ledger.figures[Key.METAL_SHEET_MASS].value * master.value)


def _longest_of_width(ledger: Ledger, width: float, need: Needed) -> float:
    """The longest strand of another width by the limits of the coil, over side and all [in].

    A narrower strand weighs less by the foot; wound, it measures as much across.
    """
    strip = ledger.figures[Key.STRIP_WIDTH].value
    limits = ledger.figures[Key.COIL_LONGEST].terms
    return min(slitting.longest_strand(
        limit.value * (1 if limit.key == Key.LIMIT_DIAMETER else strip / width), need.over.value)
        for limit in limits)


def _trim(
    ledger: Ledger, nests: tuple[TrimNest, ...], room: float, longest: float, need: Needed
) -> tuple[tuple[TrimStrands, ...], tuple[str, ...]]:
    """Coils for trim that ride in the passes, and those that do not, in words."""
    by_metal: dict[TrimMetal, list[TrimNest]] = {}
    for nest in nests:
        if nest.made_from is TrimFrom.OTHER_COIL:
            by_metal.setdefault((round(nest.width.value, _DIGITS), nest.thickness), []).append(nest)
    found, left_out = [], []
    for number, (metal, same) in enumerate(by_metal.items(), 1):
        width = same[0].width
        name = f"{OTHER_COIL} {width.text(ledger.job.units)}"
        most = min(longest, _longest_of_width(ledger, width.value, need))
        fits = metal[1] is None and width.value <= room + _LOOSE
        wanted = _trim_lengths(ledger, f"slit.trim{number}", name, same, most, need) if fits else ()
        if wanted:
            found.append(TrimStrands(metal, name, width, wanted))
        else:
            left_out.append(name)
    return tuple(found), tuple(left_out)


def _trim_lengths(
    ledger: Ledger, key: str, name: str, nests: Sequence[TrimNest], most: float, need: Needed
) -> tuple[Figure, ...]:
    """The strands wanted of one width: one, or as many alike as its limits take."""
    lengths = [nest.length for nest in nests]
    label = f"{name.capitalize()}: length wanted"
    whole = slitting.strand_length(need.spare.value, need.under.value, *(f.value for f in lengths))
    if whole <= most:
        return (ledger.put(part_of(key, "length"), label, slitting.strand_length, need.spare,
                           need.under, *lengths),)
    blank = max((nest.blank for nest in nests), key=lambda figure: figure.value)
    for count in range(2, _MOST_TRIM + 1):
        each = slitting.shared_strand_length(
            need.spare.value, need.under.value, float(count), blank.value,
            *(figure.value for figure in lengths))
        if each <= most:
            many = ledger.drawn(part_of(key, "count"), f"{name.capitalize()}: strands",
                                float(count), Kind.COUNT, blank.standing,
                                "as few as its limits take", slitting.PASS)
            one = ledger.put(part_of(key, "length"), f"{label} of each",
                             slitting.shared_strand_length, need.spare, need.under, many, blank,
                             *lengths)
            return (one,) * count
    return ()


# ---------------------------------------------------------------- the choice


def _choose(
    number: int, master: Figure, edge: float, strip: float, longest: float,
    shared: tuple[Batches, ...], usable: float, pass_longest: float, need: Needed,
    trim: tuple[TrimStrands, ...], ledger: Ledger,
) -> _Choice | None:
    """The sharing that takes the least of one master; None where no pass may be long enough."""
    across = int(slitting.strips_across(master.value, edge, strip))
    if pass_longest < longest:
        usable = min(usable, coil.usable_length(
            pass_longest, need.under.value, need.thread_up.value, need.tail.value,
            need.spare.value))
    others = tuple(
        Wanted(one.width.value, tuple(f.value for f in one.wanted), longest=_SLACK * max(
            _longest_of_width(ledger, one.width.value, need), one.wanted[0].value))
        for one in trim
    )
    found = []
    for coils in _sharings(shared, across, usable):
        lengths = tuple(need.length_for(math.fsum(b.length * b.count for b in one))
                        for one in coils)
        wanted = (Wanted(strip, lengths, longest=longest * _SLACK), *others)
        passes = _passes(master.value, edge, wanted, pass_longest * _SLACK)
        if passes is not None:
            found.append(_Choice(number, master, coils, passes, across))
    return min(found, key=lambda one: one.rank, default=None)


@lru_cache(maxsize=256)
def _passes(
    master: float, edge: float, wanted: tuple[Wanted, ...], longest: float
) -> Passes | None:
    return slit_in_passes(master, edge, wanted, longest, _QUICK)


def _sharings(
    shared: tuple[Batches, ...], across: int, usable: float
) -> Iterator[tuple[Batches, ...]]:
    """The panels as they were shared out, and evenly in coils that fill whole passes."""
    counts: dict[tuple[int, float], int] = {}
    for batch in (batch for one in shared for batch in one):
        counts[batch.plane, batch.length] = counts.get((batch.plane, batch.length), 0) + batch.count
    # Planes in their order, and of a plane the longest panels first, as they are laid out.
    batches = tuple(Batch(plane, length, count) for (plane, length), count in sorted(
        counts.items(), key=lambda item: (item[0][0], -item[0][1])))
    most = usable * (1 + 1e-9)
    fits = all(math.fsum(b.length * b.count for b in one) <= most for one in shared)
    if fits:
        yield shared
    try:
        fewest = len(shared) if fits else len(split.split(batches, usable).coils)
    except split.PanelTooLong:
        return
    if not fits:
        yield split.split(batches, usable).coils
    filled = math.ceil(fewest / across) * across
    for count in range(filled, filled + _MOST_MORE * across, across):
        even = split.split_into(batches, count, usable)
        if even is not None:
            yield even


# ---------------------------------------------------------------- as figures


def _enter_order(
    ledger: Ledger, choice: _Choice, planes: tuple[PlanePlan, ...], need: Needed, edge: Figure,
    trim: tuple[TrimStrands, ...], left_out: tuple[str, ...], standing: Standing,
) -> tuple[tuple[CoilPlan, ...], SlitPlan, dict[TrimMetal, tuple[Figure, ...]]]:
    strip, sheet = ledger.figures[Key.STRIP_WIDTH], ledger.figures[Key.METAL_SHEET_MASS]
    key = row_key("slit", choice.number)
    name = f"Master {choice.master.text(ledger.job.units)}"
    cut, made, wanted = [], [], []
    for number, batches in enumerate(choice.shared, 1):
        at, coil_name = row_key("coil", number), f"Coil {number}"
        cut.append(cuts_of(batches, planes))
        made.append(enter_cuts(ledger, at, coil_name, cut[-1], standing))
        wanted.append(enter_length(ledger, part_of(at, "wanted"), f"{coil_name}: length wanted",
                                   made[-1], need))
    coil_lengths: dict[int, Figure] = {}
    trim_lengths: dict[TrimMetal, list[Figure]] = {one.metal: [] for one in trim}
    surplus = len(choice.shared)
    passes, beside_masses = [], []
    for number, one in enumerate(choice.passes.passes, 1):
        run, label = f"{key}.pass{number}", f"{name}, pass {number}"
        terms = [
            wanted[strand.coil] if strand.wanted == 0 else trim[strand.wanted - 1].wanted[0]
            for strand in one.strands if strand.coil is not None
        ]
        length = ledger.put(part_of(run, "length"), f"{label}: length", slitting.pass_length,
                            *terms, picks=PICKS, rounding=Rounding.UP)
        strands = []
        for strand in one.strands:
            if strand.wanted:
                beside = trim[strand.wanted - 1]
                strands.append(SlitStrand(beside.name, beside.width, None))
                trim_lengths[beside.metal].append(length)
                beside_masses.append(ledger.put(
                    f"{run}.strand{len(strands)}", f"{label}: weight of {beside.name}",
                    slitting.master_mass, sheet, beside.width, length))
                continue
            if strand.coil is None:
                surplus += 1
            coil_number = surplus if strand.coil is None else strand.coil + 1
            coil_lengths[coil_number] = length
            strands.append(SlitStrand(PANEL_STRIP, strip, coil_number))
        drop = ledger.put(part_of(run, "drop"), f"{label}: drop by width", slitting.drop_width,
                          choice.master, *(strand.width for strand in strands))
        mass = ledger.put(part_of(run, "mass"), f"{label}: weight of master", slitting.master_mass,
                          sheet, choice.master, length)
        weight = ledger.put(part_of(run, "drop_mass"), f"{label}: drop by weight",
                            slitting.drop_mass, sheet, drop, length)
        passes.append(SlitPass(run, tuple(strands), length, drop, mass, weight))
    coils = []
    for number in range(1, surplus + 1):
        at, label = row_key("coil", number), f"Coil {number}"
        length = ledger.put(part_of(at, "length"), f"{label}: length to order",
                            slitting.as_long_as_pass, coil_lengths[number],
                            rounding=Rounding.UP)
        if number <= len(made):
            panels, cuts = made[number - 1], cut[number - 1]
        else:
            panels, cuts = ledger.drawn(
                part_of(at, "panels"), f"{label}: panels cut from it", 0.0, Kind.LENGTH, standing,
                "the pass winds one more strand than is needed"), ()
        coils.append(enter_coil(ledger, number, panels, length, cuts, need))
    ledger.put(Key.COIL_WANTED_LENGTH, "Length wanted", shapes.summed_length, *wanted)
    length = ledger.put(part_of(key, "length"), f"{name}: length", shapes.summed_length,
                        *(one.length for one in passes), rounding=Rounding.SUM)
    weight = ledger.put(part_of(key, "drop_mass"), f"{name}: drop by weight", coil.summed_mass,
                        *(one.drop_mass for one in passes), rounding=Rounding.NEAREST)
    # Of its strands and drop, not of its passes: so they add up on the order's page.
    mass = ledger.put(part_of(key, "mass"), f"{name}: weight", coil.summed_mass,
                      *(one.mass for one in coils), *beside_masses, weight,
                      rounding=Rounding.SUM)
    plan = _compared(ledger, choice, edge, length, mass, weight, left_out, tuple(passes))
    return tuple(coils), plan, {metal: tuple(found) for metal, found in trim_lengths.items()}


def _enter_other(
    ledger: Ledger, choice: _Choice, edge: Figure, left_out: tuple[str, ...], standing: Standing
) -> SlitPlan:
    """A master that is not ordered: what it would take."""
    key, sheet = row_key("slit", choice.number), ledger.figures[Key.METAL_SHEET_MASS]
    name = f"Master {choice.master.text(ledger.job.units)}"
    note = f"in {len(choice.passes.passes)} passes of its own"
    length = ledger.drawn(part_of(key, "length"), f"{name}: length", choice.passes.length,
                          Kind.LENGTH, standing, note, slitting.PASS)
    mass = ledger.put(part_of(key, "mass"), f"{name}: weight", slitting.master_mass, sheet,
                      choice.master, length)
    weight = ledger.drawn(part_of(key, "drop_mass"), f"{name}: drop by weight",
                          choice.passes.drop * sheet.value, Kind.MASS, standing, note,
                          slitting.PASS)
    return _compared(ledger, choice, edge, length, mass, weight, left_out, ())


def _compared(
    ledger: Ledger, choice: _Choice, edge: Figure, length: Figure, mass: Figure, weight: Figure,
    left_out: tuple[str, ...], passes: tuple[SlitPass, ...],
) -> SlitPlan:
    key = row_key("slit", choice.number)
    name = f"Master {choice.master.text(ledger.job.units)}"
    sheet = ledger.figures[Key.METAL_SHEET_MASS]
    strips = ledger.put(part_of(key, "strips"), f"{name}: strips side by side",
                        slitting.strips_across, choice.master, edge,
                        ledger.figures[Key.STRIP_WIDTH])
    width = ledger.put(part_of(key, "width"), f"{name}: drop by width, on the average",
                       slitting.mean_drop, weight, sheet, length)
    share = ledger.put(part_of(key, "share"), f"{name}: drop as a share", slitting.drop_share,
                       weight, mass)
    each, money = ledger.given(CoilsKey.PRICE), None
    if each is not None:
        money = ledger.put(part_of(key, "money"), f"{name}: cost of the drop", price.cost, weight,
                           each)
    return SlitPlan(
        key=key, master=choice.master, strips=strips, length=length, mass=mass, width=width,
        share=share, drop_mass=weight, money=money, passes=passes,
        coils=sum(strand.wanted == 0 for one in choice.passes.passes for strand in one.strands),
        proven=choice.passes.is_least, left_out=left_out,
    )
