"""Coils hauled as cargo: how many tie-downs they need, what these must hold, and the checks."""

from __future__ import annotations

from collections.abc import Iterator
from typing import assert_never

from coilwright.calc import tie_down as calc
from coilwright.job.answers.haul import HaulKey
from coilwright.job.choices import YesNo
from coilwright.job.haul import CoilEye
from coilwright.plan.haul.loads import CoilToHaul, Hauled, across, load_line
from coilwright.plan.ledger import Lack, Ledger, Term, known
from coilwright.plan.result import LoadLine
from coilwright.plan.view import View, care, note, stop
from coilwright.units import Kind, System
from coilwright.values.figure import Figure
from coilwright.values.finding import Finding
from coilwright.values.keys import Key, cargo_key, part_of
from coilwright.values.source import ANSWER
from coilwright.values.standing import Standing
from coilwright.words.counting import counted
from coilwright.words.in_units import with_units

_PICKS = (HaulKey.EYE, HaulKey.BLOCKED, HaulKey.CARGO_COILS)
_KINDS = (
    (HaulKey.TIES_OVER, HaulKey.TIE_OVER_LIMIT, Key.HAUL_HELD_OVER, "side to side",
     calc.held_over),
    (HaulKey.TIES_DIRECT, HaulKey.TIE_DIRECT_LIMIT, Key.HAUL_HELD_DIRECT, "to the coil, or back",
     calc.held_direct),
)


def enter_ties(ledger: Ledger, hauled: Hauled) -> list[LoadLine]:
    """Enter what holds the cargo; nothing where no coil is hauled as cargo."""
    if hauled.cargo is None:
        return []
    must = ledger.put(Key.HAUL_MUST_HOLD, "What the tie-downs must hold", calc.must_hold,
                      hauled.cargo)
    there, held = _have(ledger)
    return [
        load_line(ledger, "haul.tie_count", "Number of tie-downs", "cargo",
                  _needed(ledger, hauled, hauled.cargo), there, HaulKey.TIES_OVER,
                  HaulKey.TIES_DIRECT, HaulKey.CARGO_COILS, HaulKey.EYE, HaulKey.BLOCKED),
        load_line(ledger, "haul.ties", "Hold of the tie-downs", "cargo", must, held,
                  HaulKey.TIES_OVER, HaulKey.TIE_OVER_LIMIT, HaulKey.TIES_DIRECT,
                  HaulKey.TIE_DIRECT_LIMIT, HaulKey.CARGO_COILS),
    ]


def _have(ledger: Ledger) -> tuple[Term, Term]:
    """The tie-downs there are, and what they count for; one kind not told of is not there."""
    counts: list[Figure] = []
    held: list[Term] = []
    for many, limit, key, words, formula in _KINDS:
        count = ledger.given(many)
        if count is None:
            continue
        counts.append(count)
        if count.value:
            held.append(ledger.put(key, f"Tie-downs {words} count for", formula, count,
                                   ledger.answer(limit)))
    if not counts:
        none = Lack(Key.HAUL_TIES_THERE, "Tie-downs there are", (HaulKey.TIES_OVER,))
        return none, none
    picks = (HaulKey.TIES_OVER, HaulKey.TIES_DIRECT)
    there = ledger.put(Key.HAUL_TIES_THERE, "Tie-downs there are", calc.tie_downs_together, *counts,
                       picks=picks)
    if held:
        return there, ledger.put(Key.HAUL_HELD, "All tie-downs count for", calc.held_together,
                                 *held, picks=picks)
    return there, ledger.drawn(Key.HAUL_HELD, "All tie-downs count for", 0.0, Kind.MASS,
                               there.standing, "there are none", calc.HOLDING)


def _needed(ledger: Ledger, hauled: Hauled, cargo: Term) -> Term:
    key, label = Key.HAUL_TIES_NEEDED, "Tie-downs needed"
    if not hauled.coils:
        return ledger.put(key, label, calc.tie_downs_together, cargo)
    each = ledger.table(
        Key.HAUL_TIE_EACH, "One tie-down for each", calc.EACH, Kind.LENGTH, calc.COUNTED
    )
    short = ledger.table(
        Key.HAUL_TIE_SHORT, "Short is up to", calc.SHORT, Kind.LENGTH, calc.COUNTED
    )
    light = ledger.table(Key.HAUL_TIE_LIGHT, "Light is up to", calc.LIGHT, Kind.MASS, calc.COUNTED)
    sizes = (each, short, light)
    if _is_group(ledger):
        return _group(ledger, key, label, hauled, cargo, sizes)
    counts = []
    for number, coil in enumerate(hauled.coils, 1):
        at, name = cargo_key(number), f"{coil.name}: tie-downs"
        along = _along(ledger, at, coil)
        if coil.mass.value < calc.METAL_COIL_FROM:
            counts.append(_count(ledger, part_of(at, "ties"), name, along, coil.mass, sizes))
            continue
        general = _count(ledger, part_of(at, "ties_general"), f"{name} by length and weight", along,
                         coil.mass, sizes)
        by_eye = ledger.table(part_of(at, "by_eye"), f"{name} by the metal coil rule",
                              _by_eye(ledger.job.haul.eye), Kind.COUNT, calc.METAL_COILS)
        counts.append(ledger.put(part_of(at, "ties"), name, calc.tie_downs_by_eye, general, by_eye,
                                 picks=_PICKS))
    if ledger.job.haul.grouped is YesNo.NO or not _row_by_rule(ledger, cargo, len(counts)):
        return ledger.put(key, label, calc.tie_downs_together, *counts,
                          picks=_grouped_pick(hauled))
    # Nobody says whether they are grouped: the count that takes more holds.
    general = ledger.put(Key.HAUL_TIES_GENERAL, f"{label}, each coil by itself",
                         calc.tie_downs_together, *counts)
    return ledger.put(key, label, calc.tie_downs_of_row, general, _many(ledger, hauled),
                      picks=_PICKS)


def _is_group(ledger: Ledger) -> bool:
    """Whether the coils are said to be banded or contained together, so that they count as one."""
    return (ledger.job.haul.cargo_coils or 0) > 1 and ledger.job.haul.grouped is YesNo.YES


def _grouped_pick(hauled: Hauled) -> tuple[str, ...]:
    return (HaulKey.GROUPED,) if len(hauled.coils) > 1 else ()


def _group(
    ledger: Ledger, key: str, label: str, hauled: Hauled, cargo: Term,
    sizes: tuple[Figure, Figure, Figure],
) -> Term:
    """Tie-downs of coils grouped as one, taken to stand one behind the other: the longest way."""
    along = ledger.put(
        Key.HAUL_CARGO_ALONG, "Grouped coils: along the vehicle at most", calc.row_length,
        *(_along(ledger, cargo_key(n), coil) for n, coil in enumerate(hauled.coils, 1)))
    if not _row_by_rule(ledger, cargo, len(hauled.coils)):
        return _count(ledger, key, label, along, cargo, sizes, HaulKey.GROUPED)
    general = _count(ledger, Key.HAUL_TIES_GENERAL, f"{label} by length and weight", along, cargo,
                     sizes, HaulKey.GROUPED)
    return ledger.put(key, label, calc.tie_downs_of_row, general, _many(ledger, hauled),
                      picks=(*_PICKS, HaulKey.GROUPED))


def _row_by_rule(ledger: Ledger, cargo: Term, many: int) -> bool:
    """Whether coils that may be grouped eye up are a row under the metal coil rule."""
    whole = known(cargo)
    return many > 1 and ledger.job.haul.eye in (None, CoilEye.UP) and whole is not None and (
        whole.value >= calc.METAL_COIL_FROM)


def _many(ledger: Ledger, hauled: Hauled) -> Figure:
    return ledger.drawn(Key.HAUL_CARGO_COUNT, "Coils in the row", float(len(hauled.coils)),
                        Kind.COUNT, Standing.SURE, source=ANSWER)


def _count(
    ledger: Ledger, key: str, name: str, along: Term, mass: Term,
    sizes: tuple[Figure, Figure, Figure], *picks: str,
) -> Term:
    """Tie-downs by length and weight."""
    each, short, light = sizes
    if ledger.job.haul.blocked is YesNo.YES:
        return ledger.put(key, name, calc.tie_downs_blocked, along, each, picks=(*_PICKS, *picks))
    return ledger.put(key, name, calc.tie_downs, along, mass, each, short, light,
                      picks=(*_PICKS, *picks))


def _by_eye(eye: CoilEye | None) -> float:
    """Fewest tie-downs of one coil under the metal coil rule; the most of all while not known."""
    match eye:
        case CoilEye.UP | None:
            return calc.EYE_UP
        case CoilEye.CROSSWISE:
            return calc.EYE_CROSSWISE
        case CoilEye.LENGTHWISE:
            return calc.EYE_LENGTHWISE
        case _:
            assert_never(eye)


def _along(ledger: Ledger, key: str, coil: CoilToHaul) -> Term:
    """How far the coil reaches along the vehicle, by its eye; the longer way while not known."""
    strip = ledger.got(Key.STRIP_WIDTH)
    eye = ledger.job.haul.eye
    match eye:
        case CoilEye.LENGTHWISE:
            return strip
        case CoilEye.UP | CoilEye.CROSSWISE:
            return across(ledger, coil)
        case None:
            return ledger.put(part_of(key, "along"), f"{coil.name}: along the vehicle at most",
                              calc.longest_way, across(ledger, coil), strip)
        case _:
            assert_never(eye)


def _held_by_eye(eye: CoilEye) -> str:
    match eye:
        case CoilEye.UP:
            return (
                "With the eye up: one tie-down diagonally across the eye each way, one straight "
                "across over it, and blocks, friction mats or direct tie-downs against sliding "
                "forward and back. A row of coils: one in front, one in the rear, and one over "
                "each coil or each pair side by side."
            )
        case CoilEye.CROSSWISE:
            return (
                "With the eye crosswise: a cradle that keeps the coil from rolling and off the "
                "deck, and through its eye one tie-down forward and one rearward, each at 45° or "
                "less. The two do not cross in an X. Nailed wood alone is no cradle."
            )
        case CoilEye.LENGTHWISE:
            return (
                "With the eye lengthwise: a cradle that keeps the coil from rolling and off the "
                "deck, two tie-downs through the eye, diagonal or straight, at 45° or less, one "
                "over the coil from side to side, and blocks or friction mats in front and "
                "behind. Two over the coil, front and rear, are the other way."
            )
        case _:
            assert_never(eye)


def _slides(view: View) -> str:
    """What to say where nothing is entered that keeps a coil from sliding on its deck."""
    haul = view.job.haul
    if haul.eye is CoilEye.CROSSWISE or YesNo.YES in (haul.blocked, haul.mats):
        return ""
    return " Nothing is entered yet that keeps it from sliding: blocks, or friction mats."


_EYE_UNKNOWN = "Say which way its eye points: each way is held differently."


def check_tie_downs(view: View) -> Iterator[Finding]:
    """All checks of coils as cargo; nothing where none are hauled."""
    for line in view.loads:
        if line.over and line.key == "haul.tie_count":
            yield _too_few(view)
        elif line.over and line.key == "haul.ties":
            yield stop(
                "haul.ties",
                f"The tie-downs count for {view.text(Key.HAUL_HELD)} together; they must hold "
                f"{view.text(Key.HAUL_MUST_HOLD)}, half the weight of the cargo.",
                "A coil that comes loose goes through the cab or on to the road.",
                "Use more or stronger tie-downs, from side to side over the coil: one that goes "
                "to the coil, or back to its own side, counts half. The tag of the weakest part "
                "decides.",
                calc.HOLDING, *line.answers,
            )
    yield from _metal_coils(view)


def _too_few(view: View) -> Finding:
    needed, there = view.figures[Key.HAUL_TIES_NEEDED], view.figures[Key.HAUL_TIES_THERE]
    do = "Use more tie-downs."
    if view.job.haul.blocked is not YesNo.YES:
        do += " Fewer may do where the coil is blocked from moving forward; say so if it is."
    if view.job.haul.eye is None:
        do += " Say which way the eye points: it is counted the longer way."
    there_are = {0: "are none", 1: "is 1"}.get(round(there.value), f"are {there.value:.0f}")
    return stop(
        "haul.tie_count",
        f"The coils hauled as cargo need {counted(round(needed.value), 'tie-down')} at the least; "
        f"there {there_are}.",
        f"The {'' if view.job.units is System.US else 'US '}rule counts tie-downs by the length "
        "and the weight of each coil, whatever they hold.",
        do, calc.COUNTED, HaulKey.TIES_OVER, HaulKey.TIES_DIRECT, HaulKey.CARGO_COILS, HaulKey.EYE,
        HaulKey.BLOCKED, HaulKey.GROUPED,
    )


def _metal_coils(view: View) -> Iterator[Finding]:
    cargo = view.figures.get(Key.HAUL_CARGO)
    if cargo is None:
        return
    coils = cargo.terms
    heaviest, many = max(coils, key=lambda coil: coil.value), len(coils)
    system, limit = view.job.units, view.say(calc.METAL_COIL_FROM, Kind.MASS)
    eye, grouped = view.job.haul.eye, view.job.haul.grouped
    rule, office = ("the rule for metal coils", "Some states ask the driver for an endorsement: "
                    "ask the license office.") if system is System.US else (
        "the US rule for metal coils", "Ask which rule holds where it is driven, and what it asks "
        "of the driver.")
    if cargo.value >= calc.METAL_COIL_FROM:
        if heaviest.value >= calc.METAL_COIL_FROM:
            what = (f"The heaviest coil hauled as cargo, {heaviest.text(system)}, falls under "
                    f"{rule}, which begins at {limit}.")
        else:
            what = (f"The {many} coils hauled as cargo come to {cargo.text(system)}; grouped "
                    f"together they fall under {rule}, which begins at {limit}.")
        loose = (
            " Coils that are neither banded nor contained together may be outside it; hold them "
            "by it all the same." if heaviest.value < calc.METAL_COIL_FROM
            and grouped is not YesNo.YES else ""
        )
        yield care(
            "haul.metal_coil", what,
            "A heavy coil that rolls or slides is stopped by nothing else on the vehicle.",
            f"{_EYE_UNKNOWN if eye is None else _held_by_eye(eye)}{_slides(view)}{loose} "
            f"{office}",
            calc.METAL_COILS, HaulKey.EYE, HaulKey.GROUPED, HaulKey.CARGO_COILS, HaulKey.BLOCKED,
            HaulKey.MATS,
        )
        return
    yield note(
        "haul.coil_rolls",
        f"The {'coil' if many == 1 else f'{many} coils'} hauled as cargo, {cargo.text(system)}"
        f"{'' if many == 1 else ' together'}, {'is' if many == 1 else 'are'} under the {limit} "
        f"from which {rule} begins.",
        "A lighter coil rolls and tips all the same.",
        with_units("Cradle or chock it so that it cannot roll, slide or tip, tie it down, and look "
                   "again after the first miles.", system),
        calc.METAL_COILS, HaulKey.EYE, HaulKey.CARGO_COILS,
    )
