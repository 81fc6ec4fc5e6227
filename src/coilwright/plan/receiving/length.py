"""The length of a coil that arrived, three ways, and whether it still makes its cuts."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import combinations

from coilwright.calc import coil as wound
from coilwright.calc import on_hand
from coilwright.calc.receiving import length as lengths
from coilwright.calc.receiving import measures as calc
from coilwright.job.answers.coils import CoilsKey
from coilwright.job.answers.machine import MachineKey
from coilwright.job.stock import LEAST_WOUND
from coilwright.plan.receiving.inspection import TAGGED, Inspection, over, under
from coilwright.plan.receiving.report import Apart, Enough, Way
from coilwright.plan.receiving.thickness import ordered_thickness, painted, thickness_readings
from coilwright.units import Kind
from coilwright.values.figure import Figure
from coilwright.values.finding import Level
from coilwright.values.keys import Key
from coilwright.values.rounding import Rounding

_SLIPS = (
    (3.28084, "feet and meters were taken for one another"),
    (2.20462, "pounds and kilograms were taken for one another"),
    (12.0, "feet and inches were taken for one another"),
)
_NEAR = 0.06
_GROSS = "the weight counts skid, core and wrapping: gross, not net"
_LOOSE = "its wraps are loose, or film lies between them"
_THICKNESS = {
    ("by_tag", "by_mass"): "thinner", ("by_mass", "by_tag"): "thicker",
    ("by_tag", "by_across"): "thinner", ("by_across", "by_tag"): "thicker",
}
"""By the longer and the shorter measure: what other thickness would explain it. Between weight
and diameters it explains nothing, for it moves both alike."""
_USUAL = {
    ("by_tag", "by_mass"): ("the tag's length was worked out from another weight",),
    ("by_mass", "by_tag"): (_GROSS,),
    ("by_tag", "by_across"): ("a piece was cut off it after it was tagged",),
    ("by_across", "by_tag"): (_LOOSE,),
    ("by_mass", "by_across"): (_GROSS, "the metal is another than ordered"),
    ("by_across", "by_mass"): (_LOOSE, "the metal is another than ordered"),
}
"""By the longer and the shorter measure (common practice, no source)."""


@dataclass(frozen=True, slots=True)
class _Thick:
    """The coil's thickness: likeliest, least, greatest, and how far those may be off."""

    best: Figure
    low: Figure
    high: Figure
    off: Figure
    measured: bool


def needed_lengths(case: Inspection) -> tuple[Figure | None, Figure | None]:
    """What its cuts take, with and without the spare; None while its ordered coil is unknown.

    Read up, as the order's min length is, which is the same where a coil may just come so.
    """
    if case.coil is None:
        return None, None
    ends = [case.known(key) for key in (MachineKey.THREAD_UP, MachineKey.TAIL)]
    spare = case.known(CoilsKey.SPARE)
    known = [end for end in ends if end is not None]
    if spare is None or len(known) < len(ends):
        return None, None
    net = case.coil.panels_length
    return (
        case.put("need", "what its cuts take, spare included", on_hand.taken_off, net, spare,
                 *known, rounding=Rounding.UP),
        case.put("need_panels", "what its cuts take without spare", lengths.without_spare, net,
                 *known, rounding=Rounding.UP),
    )


def measured_lengths(
    case: Inspection, need: Figure | None, panels: Figure | None
) -> tuple[Way, ...]:
    """Its length by tag, by weight and by diameters, as far as each was measured."""
    thick = _thickness(case)
    made = (_tagged(case), _weighed(case, thick), _across(case, thick))
    return tuple(_way(case, *found, (need, panels)) for found in made if found is not None)


def _way(
    case: Inspection, key: str, name: str, best: Figure, least: Figure, most: Figure,
    needs: tuple[Figure | None, Figure | None],
) -> Way:
    need, panels = needs
    if need is None or panels is None:
        return Way(key, name, best, least, most, Enough.UNKNOWN, None, False)
    short = under(best, need)
    if not under(least, need):
        enough = Enough.YES
    elif not short:
        enough = Enough.MAYBE if under(least, panels) else Enough.SPARE
    else:
        enough = Enough.NO if under(most, need) else Enough.LIKELY
    # As a reader takes it from the two; what is less than the need is read up by is nothing.
    read = Rounding.DOWN if need.value <= best.value < need.as_read(case.system) else Rounding.REST
    margin = (
        case.put(f"{key}_margin", f"{name}: short by", lengths.short_by, need, best,
                 rounding=read) if short
        else case.put(f"{key}_margin", f"{name}: beyond the need", lengths.beyond, best, need,
                      rounding=read)
    )
    return Way(key, name, best, least, most, enough, margin, short)


_Found = tuple[str, str, Figure, Figure, Figure]


def _tagged(case: Inspection) -> _Found | None:
    tag = case.given("tag_length", "length on its tag", case.arrival.length, Kind.LENGTH, TAGGED)
    if tag is None:
        return None
    off = case.table("tag_off", "A tag's length may be off by", calc.TAG_OFF, Kind.PERCENT,
                     calc.TAG_SOURCE)
    return (
        "by_tag", "by its tag", tag,
        case.put("by_tag_least", "least length by its tag", lengths.shortest_tagged, tag, off),
        case.put("by_tag_most", "greatest length by its tag", lengths.longest_tagged, tag, off),
    )


def _thickness(case: Inspection) -> _Thick | None:
    readings = thickness_readings(case)
    if readings:
        off = case.table("thickness_read", "A micrometer is read to",
                         calc.THICKNESS_READ_TO.size(case.system), Kind.THICKNESS,
                         calc.MICROMETER)
        return _Thick(
            case.put("mean", "mean of the readings", calc.mean_reading, *readings),
            case.put("thinnest", "least reading", calc.thinnest, *readings),
            case.put("thickest", "greatest reading", calc.thickest, *readings), off, True,
        )
    ordered = ordered_thickness(case)
    if ordered is None:
        return None
    share = case.table("unmeasured", "Thickness not measured may be off by", calc.THICKNESS_OFF,
                       Kind.PERCENT, calc.UNMEASURED)
    off = case.put("thickness_off", "thickness not measured may be off by",
                   lengths.thickness_margin, ordered, share)
    return _Thick(ordered, ordered, ordered, off, False)


def _weighed(case: Inspection, thick: _Thick | None) -> _Found | None:
    arrival, ordered = case.arrival, ordered_thickness(case)
    value = arrival.weighed if arrival.weighed is not None else arrival.mass
    by = "weighed" if arrival.weighed is not None else "mass"
    mass = case.given(by, "weight on the scale" if by == "weighed" else "weight on its tag", value,
                      Kind.MASS, *(() if by == "weighed" else (TAGGED,)))
    per_length = case.known(Key.STRIP_MASS_PER_LENGTH)
    if mass is None or per_length is None or thick is None or ordered is None:
        return None
    strip = case.known(Key.STRIP_WIDTH)
    if arrival.width is not None and strip is not None:
        width = case.given("width", "width", arrival.width, Kind.WIDTH)
        assert width is not None
        per_length = case.put("by_width", "weight of the strip at its width", lengths.mass_at_width,
                              per_length, width, strip)

    def at(part: str, label: str, thickness: Figure) -> Figure:
        return case.put(f"strip_{part}", f"weight of the strip, {label}", lengths.mass_at_thickness,
                        per_length, thickness, ordered)

    best, low = thick.best, case.put("thin", "least thickness", lengths.thinner, thick.low,
                                     thick.off)
    if thick.measured and painted(case):
        usual = case.table("paint", "Paint on both sides", calc.PAINT, Kind.THICKNESS,
                           calc.PAINT_SOURCE)
        most = case.table("most_paint", "Paint on both sides, most", calc.MOST_PAINT,
                          Kind.THICKNESS, calc.PAINT_SOURCE)
        best = case.put("metal", "metal under the mean reading", calc.under_paint, thick.best,
                        usual)
        low = case.put("thin_metal", "least metal", lengths.least_metal, thick.low, thick.off, most)
    high = case.put("thick", "greatest thickness", lengths.thicker, thick.high, thick.off)
    off = case.table("scale_off", "A weight may be off by", calc.SCALE_OFF, Kind.PERCENT,
                     calc.SCALE_SOURCE)
    return (
        "by_mass", "by its weight",
        case.put("by_mass", "length by its weight", wound.length_of_mass, mass,
                 at("likely", "likeliest", best)),
        case.put("by_mass_least", "least length by its weight", lengths.shortest_of_mass, mass,
                 off, at("heaviest", "most", high)),
        case.put("by_mass_most", "greatest length by its weight", lengths.longest_of_mass, mass,
                 off, at("lightest", "least", low)),
    )


def _across(case: Inspection, thick: _Thick | None) -> _Found | None:
    outside = case.given("outside", "outside diameter", case.arrival.outside, Kind.WIDTH)
    inside = case.given("inside", "inside diameter", case.arrival.inside, Kind.WIDTH)
    if outside is None or inside is None or thick is None:
        return None
    if case.arrival.outside is None or case.arrival.inside is None:
        return None
    if case.arrival.outside < case.arrival.inside + LEAST_WOUND:
        return None
    reading = case.table("diameter_read", "Each diameter may be off by",
                         on_hand.DIAMETERS_READ_TO.size(case.system), Kind.WIDTH, on_hand.READING)
    loosest: Figure
    if thick.measured:
        air = case.table("air", "Film and air between wraps", calc.AIR, Kind.PERCENT,
                         calc.AIR_SOURCE)
        loosest = case.table("most_air", "Film and air between wraps, most", calc.MOST_AIR,
                             Kind.PERCENT, calc.AIR_SOURCE)
        wrap: Figure | None = case.put("wrap", "thickness of one wrap", wound.wound_thickness,
                                       thick.best, air)
    else:
        wrap = case.known(Key.COIL_WRAP)
        loosest = case.table("loosest", "Loosest winding", on_hand.LOOSEST_WRAP, Kind.PERCENT,
                             on_hand.LOOSE)
        own = case.known(CoilsKey.WRAP_ALLOWANCE)
        if own is not None and over(own, loosest):
            loosest = own
    if wrap is None:
        return None
    low = case.put("thin", "least thickness", lengths.thinner, thick.low, thick.off)
    high = case.put("thick", "greatest thickness", lengths.thicker, thick.high, thick.off)
    loose = case.put("loose", "most one wrap takes", wound.wound_thickness, high, loosest)
    return (
        "by_across", "by its diameters",
        case.put("by_across", "length by its diameters", wound.wound_length, outside, inside,
                 wrap),
        case.put("by_across_least", "least length by its diameters", on_hand.shortest_wound,
                 outside, inside, reading, loose),
        case.put("by_across_most", "greatest length by its diameters", on_hand.longest_wound,
                 outside, inside, reading, low),
    )


# ---------------------------------------------------------------- what follows
def find_length(case: Inspection, ways: tuple[Way, ...], need: Figure | None,
                panels: Figure | None) -> None:
    """Note where it does not make its cuts, and by which measures only."""
    if need is None or panels is None:
        return
    if ways and all(way.enough in (Enough.MAYBE, Enough.SPARE) for way in ways):
        closest = max(ways, key=lambda way: way.least.value)
        spare = closest.enough is Enough.SPARE
        case.find(
            Level.NOTE if spare else Level.CARE, "length_open",
            f"Its cuts take {need.text(case.system)}, spare included; reckoned {closest.name} it "
            f"is {closest.least.text(case.system)} to {closest.most.text(case.system)} long, and "
            "no measure is sure of more.",
            "Its panels come out of it even so; only part of the spare is not sure." if spare else
            "It may just be enough: the difference is smaller than what each measure may be off.",
            "Cut the longest panels first and measure what is left, or have the supplier confirm "
            "its length.", closest.best.source, CoilsKey.SPARE)
    for way in ways:
        if way.enough not in (Enough.NO, Enough.LIKELY):
            continue
        assert way.margin is not None
        said = [(" and ".join(w.name for w in ways if w.enough is enough), words)
                for enough, words in (
                    (Enough.YES, "it is enough"),
                    (Enough.SPARE, "it is enough, but for part of the spare at the worst"),
                    (Enough.MAYBE, "it may just be enough"))]
        others = "; ".join(f"{names} {words}" for names, words in said if names)
        alone = f" But {others}." if others else ""
        least = "Its panels alone still come out of it." if not under(way.least, panels) else (
            "Even without spare its panels may not come out of it."
            if not under(way.best, panels) else "Even without spare its panels do not come out.")
        case.find(
            Level.STOP, f"{way.key}_short",
            f"Reckoned {way.name} it is {way.best.text(case.system)} long, "
            f"{way.margin_text(case.system)} less than its cuts take, spare included.",
            f"{least}{alone}",
            "Measure again. If it stays so, tell the supplier before you sign, and order "
            "what is missing from the same production lot.", way.best.source, CoilsKey.SPARE,
            CoilsKey.TOLERANCE)


def find_apart(case: Inspection, ways: tuple[Way, ...]) -> tuple[Apart, ...]:
    """Pairs of measures that disagree by more than both may be off."""
    found = tuple(_apart(case, ways))
    for one in found:
        system = case.system
        case.find(
            Level.CARE, f"apart_{one.longer.key}_{one.shorter.key}",
            f"It is {one.longer.best.text(system)} {one.longer.name}, but "
            f"{one.shorter.best.text(system)} {one.shorter.name}: {one.gap.text(system)} apart "
            "even with both as far off as they may be.",
            f"Usual causes: {'; '.join(one.causes)}.",
            "Measure what the two rest on again. Until it is clear, count on the shorter.",
            one.longer.best.source)
    return found


def _apart(case: Inspection, ways: tuple[Way, ...]) -> Iterator[Apart]:
    for one, other in combinations(ways, 2):
        longer, shorter = (one, other) if over(one.least, other.most) else (other, one)
        if not over(longer.least, shorter.most):
            continue
        gap = case.put(f"apart_{longer.key}_{shorter.key}",
                       f"apart {longer.name} and {shorter.name}", lengths.apart, longer.least,
                       shorter.most)
        yield Apart(longer, shorter, gap, tuple(_causes(case, longer, shorter)))


def _causes(case: Inspection, longer: Way, shorter: Way) -> Iterator[str]:
    ratio = longer.best.value / shorter.best.value
    for slip, words in _SLIPS:
        if abs(ratio / slip - 1) < _NEAR:
            yield words
    pair = (longer.key, shorter.key)
    # What was measured is reckoned with already; only what was not can explain a difference.
    other = _THICKNESS.get(pair)
    if other and not case.arrival.thickness:
        yield f"the metal is {other} than ordered: measure its thickness"
    yield from _USUAL[pair]
    if "by_across" in pair:
        yield "a diameter was measured over bands or a bulge"
    yield "the tag belongs to another coil"
