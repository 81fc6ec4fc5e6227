"""Slitting: each master width the supplier has, slit for the strip and the trim of the order.

Nothing here changes the order: it says how much master metal the order takes, and what is lost.
Trim from the panel coil is looked at both ways: cut from the strip, as the order counts it, and
slit to its flat widths beside a strip that is as much shorter. Trim from another coil is taken to
be of the job's one metal, so that coil is a strand as wide as it is; flat sheets are not slit.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import lru_cache

from coilwright.calc import account, price, slitting
from coilwright.calc.roof import shapes
from coilwright.job.answers.coils import MASTERS, CoilsKey
from coilwright.job.answers.panel import PanelKey
from coilwright.job.trim import TrimFrom
from coilwright.plan.ledger import Lacking, Ledger, require
from coilwright.plan.result import SlitPlan, SlitSetUp, SlitStrand, TrimNest, TrimRow
from coilwright.plan.view import View, care, note
from coilwright.units import Kind
from coilwright.values.figure import Figure, worst
from coilwright.values.finding import Finding
from coilwright.values.keys import Key, part_of, row_key

_QUICK = 0.03
"""Allowance of work for one master, as seconds of a plain machine."""
_LOOSE = 1e-6
_ALIKE = 6
"""Digits to which two amounts of metal are the same: the search goes no deeper."""
PANEL_STRIP, OTHER_COIL = "panel strip", "other coil for trim"


def enter_slitting(
    ledger: Ledger, trim: tuple[TrimRow, ...], nests: tuple[TrimNest, ...], from_stock: bool
) -> tuple[SlitPlan, ...]:
    """Enter how every master given is slit; the one that takes the least metal comes first.

    Empty while no master is given, while something is lacking, or where nothing is ordered.
    from_stock: coils on hand are used; what trim they give is then not told apart, so trim is
    looked at only as the order counts it.
    """
    masters = _masters(ledger)
    if not masters:
        return ()
    terms = (
        ledger.answer(CoilsKey.EDGE_TRIM), ledger.got(Key.STRIP_WIDTH),
        ledger.got(Key.COIL_LENGTH_ORDERED, "no order yet"), ledger.got(Key.METAL_SHEET_MASS),
    )
    try:
        edge, strip, ordered, _ = require(*terms)
    except Lacking as lacking:
        ledger.lack(Key.SLIT_DROP_MASS, "Drop by slitting", lacking.needs, lacking.because)
        return ()
    if ordered.value <= 0:
        return ()
    rooms = [m.value - edge.value for _, m in masters if strip.value <= m.value - edge.value
             + _LOOSE]
    others, left_out = _other_coils(ledger, nests, min(rooms, default=0.0))
    ways = [(False, (SlitStrand(PANEL_STRIP, strip, ordered), *others))]
    if not from_stock and (beside := _beside(ledger, strip, ordered, trim)):
        ways.append((True, (*beside, *others)))
    made = [
        one
        for is_beside, strands in ways
        for number, master in masters
        if (one := _slit(ledger, number, master, edge, strands, is_beside, left_out)) is not None
    ]
    _enter_saving(ledger, made)
    least = min((one.mass.value for one in made), default=0.0)
    return tuple(sorted(made, key=lambda one: (
        round(one.mass.value / least, _ALIKE), one.beside, len(one.set_ups), one.master.value,
    )))


def _masters(ledger: Ledger) -> list[tuple[int, Figure]]:
    """The masters given, by their number; a width given twice counts once."""
    found: dict[float, tuple[int, Figure]] = {}
    for number, key in enumerate(MASTERS, 1):
        master = ledger.given(key)
        if master is not None:
            found.setdefault(master.value, (number, master))
    return list(found.values())


def _share(ledger: Ledger) -> tuple[Figure, ...]:
    """Spare and tolerance, which are known where there is an order."""
    return require(ledger.answer(CoilsKey.SPARE), ledger.answer(CoilsKey.TOLERANCE))


def _other_coils(
    ledger: Ledger, nests: tuple[TrimNest, ...], room: float
) -> tuple[tuple[SlitStrand, ...], tuple[str, ...]]:
    """Other coils for trim as strands, by width; and those too wide for the masters."""
    by_width: dict[float, list[TrimNest]] = {}
    for nest in nests:
        if nest.made_from is TrimFrom.OTHER_COIL:
            by_width.setdefault(nest.width.value, []).append(nest)
    strands, left_out = [], []
    for number, same in enumerate(by_width.values(), 1):
        width = same[0].width
        if width.value > room + _LOOSE:
            left_out.append(f"{OTHER_COIL} {width.text(ledger.job.units)}")
            continue
        length = ledger.put(f"slit.other{number}.length", f"{OTHER_COIL.capitalize()} "
                            f"{width.text(ledger.job.units)}: length to order",
                            slitting.strand_length, *_share(ledger), *(n.length for n in same))
        strands.append(SlitStrand(OTHER_COIL, width, length))
    return tuple(strands), tuple(left_out)


def _beside(
    ledger: Ledger, strip: Figure, ordered: Figure, trim: tuple[TrimRow, ...]
) -> tuple[SlitStrand, ...]:
    """The strip less its trim, and that trim's flat widths; empty where the strip gives none."""
    taken = ledger.figures.get(Key.TRIM_FROM_COIL)
    rows = [row for row in trim if row.piece.made_from is TrimFrom.PANEL_COIL]
    if taken is None or not rows:
        return ()
    less = ledger.put(Key.SLIT_STRIP_LENGTH, "Panel strip to order, trim slit beside it",
                      slitting.strip_less_trim, ordered, *_share(ledger), taken)
    by_flat_width: dict[float, list[TrimRow]] = {}
    for row in rows:
        by_flat_width.setdefault(row.flat_width.value, []).append(row)
    strands = []
    for number, same in enumerate(by_flat_width.values(), 1):
        name = ", ".join(row.piece.name for row in same)
        length = ledger.put(f"slit.flat_width{number}.length", f"{name}: length to order",
                            slitting.strand_length, *_share(ledger),
                            *(row.cut for row in same))
        strands.append(SlitStrand(name, same[0].flat_width, length))
    return (SlitStrand(PANEL_STRIP, strip, less), *strands) if less.value > 0 else ()


@lru_cache(maxsize=512)
def _found(
    master: float, edge: float, widths: tuple[tuple[float, float], ...]
) -> slitting.Slitting | None:
    return slitting.slit(master, edge, widths, _QUICK)


def _slit(
    ledger: Ledger, number: int, master: Figure, edge: Figure, strands: tuple[SlitStrand, ...],
    is_beside: bool, left_out: tuple[str, ...],
) -> SlitPlan | None:
    """One master slit one way; None where the strip does not fit on it."""
    key = row_key("slit", number, "beside") if is_beside else row_key("slit", number)
    name = f"Master {master.text(ledger.job.units)}"
    if is_beside:
        name += ", trim beside"
    strip = strands[0].width
    strips = ledger.put(row_key("slit", number, "strips"),
                        f"Master {master.text(ledger.job.units)}: strips side by side",
                        slitting.strips_across, master, edge, strip)
    widths = tuple((strand.width.value, strand.length.value) for strand in strands)
    found = _found(master.value, edge.value, widths)
    if found is None or not found.strands:
        return None
    set_ups = tuple(_set_ups(ledger, key, name, master, edge, strands, found))
    put, figures = ledger.put, ledger.figures
    length = put(part_of(key, "length"), f"{name}: length", shapes.summed_length,
                 *(s.length for s in set_ups))
    area = put(part_of(key, "area"), f"{name}: area", slitting.strand_area, master, length)
    mass = put(part_of(key, "mass"), f"{name}: weight", account.area_mass, area,
               figures[Key.METAL_SHEET_MASS])
    drop = put(
        part_of(key, "drop"),
        f"{name}: drop by area",
        slitting.drop_area,
        area,
        *_needed(ledger, is_beside, strands),
    )
    width = put(
        part_of(key, "width"),
        f"{name}: drop by width, on the average",
        slitting.mean_drop,
        drop,
        length,
    )
    share = put(part_of(key, "share"), f"{name}: drop as a share", slitting.drop_share, drop, area)
    weight = put(part_of(key, "drop_mass"), f"{name}: drop by weight", slitting.drop_mass,
                 figures[Key.METAL_SHEET_MASS], drop)
    each = ledger.given(CoilsKey.PRICE)
    money = None
    if each is not None:
        money = put(part_of(key, "money"), f"{name}: cost of the drop", price.cost, weight, each)
    least = ledger.drawn(
        part_of(key, "least"), f"{name}: no slitting takes less than",
        length.value if found.proven else found.bound / found.master, Kind.LENGTH,
        length.standing, "this slitting takes no more" if found.proven else
        "by the prices of the strands", slitting.SLIT,
    )
    return SlitPlan(
        key=key, master=master, beside=is_beside, strands=strands, set_ups=set_ups, strips=strips,
        length=length, mass=mass, drop=drop, width=width, share=share, drop_mass=weight,
        money=money, least=least, proven=found.proven, left_out=left_out,
    )


def _set_ups(
    ledger: Ledger, key: str, name: str, master: Figure, edge: Figure,
    strands: tuple[SlitStrand, ...], found: slitting.Slitting,
) -> Iterator[SlitSetUp]:
    standing = worst((master, edge, *(strand.width for strand in strands),
                      *(strand.length for strand in strands)))
    note = "strands side by side between the edges, with the least metal" + (
        "; no slitting of this master takes less" if found.proven else " found")
    for number, strand_set in enumerate(found.strands, 1):
        at = f"{key}.setup{number}"
        length = ledger.drawn(part_of(at, "length"), f"{name}: length of set-up {number}",
                              strand_set.length, Kind.LENGTH, standing, note, slitting.SLIT)
        taken = []
        for index, many in strand_set.across:
            count = ledger.drawn(f"{at}.strand{index}", f"{strands[index].name}: strands",
                                 float(many), Kind.COUNT, standing, note, slitting.SLIT)
            taken.append(ledger.put(f"{at}.strand{index}.width", f"{strands[index].name}: width "
                                    "of its strands", slitting.strands_width, count,
                                    strands[index].width))
        drop = ledger.put(part_of(at, "drop"), f"{name}: drop in set-up {number}",
                          slitting.width_left, master, *taken)
        yield SlitSetUp(strand_set.across, length, drop)


def _needed(
    ledger: Ledger, is_beside: bool, strands: tuple[SlitStrand, ...]
) -> Iterator[Figure]:
    """What is needed of each strand, as area; the same for all masters, so made once."""
    way = "slit.beside" if is_beside else "slit"
    for index, strand in enumerate(strands):
        key = f"{way}.strand{index}.area"
        have = ledger.figures.get(key)
        yield have or ledger.put(
            key, f"{strand.name}: area needed", slitting.strand_area, strand.width, strand.length
        )


def _enter_saving(ledger: Ledger, made: list[SlitPlan]) -> None:
    """What slitting the trim beside the strip saves of each master; below nothing if it costs."""
    in_strip = {one.master.key: one for one in made if not one.beside}
    for one in made:
        if one.beside and (other := in_strip.get(one.master.key)) is not None:
            master = one.master.text(ledger.job.units)
            ledger.put(part_of(one.key, "saves"),
                       f"Master {master}: saved by slitting the trim beside",
                       slitting.mass_saved, other.mass, one.mass)


_LEAST_SAVED = 1.0
"""Less than this [lb] is not worth another set-up of the slitter (common practice, no source)."""


def check_slitting(view: View) -> Iterator[Finding]:
    """All checks of the supplier's masters."""
    masters = [
        (number, key, view.figures[key]) for number, key in enumerate(MASTERS, 1)
        if key in view.figures
    ]
    if not masters:
        return
    yield from _narrow(view, masters)
    yield from _trim_beside(view, masters)


def _narrow(view: View, masters: Sequence[tuple[int, str, Figure]]) -> Iterator[Finding]:
    strip, edge = view.value(Key.STRIP_WIDTH), view.value(CoilsKey.EDGE_TRIM) or 0.0
    if strip is None:
        return
    narrow = [m for m in masters if strip > m[2].value - edge + _LOOSE]
    say = note if len(narrow) < len(masters) else care
    trimmed = f" less {view.text('coils.edge_trim')} of edge trim" if edge else ""
    for number, key, master in narrow:
        yield say(
            f"slit.narrow{number}",
            f"The strip, {view.text('strip.width')}, is wider than the master, "
            f"{master.text(view.job.units)}{trimmed}.",
            "No strip of that width can be slit from it.",
            "Use a wider master, or a narrower coverage width.",
            slitting.SLIT, key, CoilsKey.EDGE_TRIM, PanelKey.COVERAGE,
        )


def _trim_beside(view: View, masters: Sequence[tuple[int, str, Figure]]) -> Iterator[Finding]:
    """Of the masters that take less metal so, the one that takes the least."""
    saved = [
        (view.figures[row_key("slit", number, "beside.mass")].value, number, key, master)
        for number, key, master in masters
        if (view.value(row_key("slit", number, "beside.saves")) or 0.0) >= _LEAST_SAVED
    ]
    if not saved:
        return
    _, number, key, master = min(saved, key=lambda row: row[:2])
    yield note(
        "slit.beside",
        f"Slit to its flat widths beside the strip, the trim takes "
        f"{view.text(f'slit.{number}.beside.saves')} less of a {master.text(view.job.units)} "
        "master.",
        "Trim cut from the strip takes strip; slit beside it, it takes what would be lost.",
        "Ask the supplier to slit the flat widths too and what that costs; to order so, set the "
        "pieces to come from another coil as wide as their flat width.",
        slitting.SLIT, key, CoilsKey.EDGE_TRIM,
    )
