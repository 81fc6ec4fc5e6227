"""Loads on the road: trailer, axles, hitch, tow vehicle and cargo against their ratings."""

from __future__ import annotations

from collections.abc import Sequence
from typing import assert_never

from coilwright.calc import coil as wound
from coilwright.calc import haul as calc
from coilwright.job.answers import ANSWERS
from coilwright.job.answers.haul import HaulKey
from coilwright.job.answers.machine import MachineKey
from coilwright.job.haul import HitchKind
from coilwright.plan.haul.loads import Hauled, coils_to_haul, enter_hauled, load_line
from coilwright.plan.haul.tie_downs import enter_ties
from coilwright.plan.ledger import Lack, Ledger, Term, known, missing
from coilwright.plan.result import CoilPlan, LoadLine, StockCoil
from coilwright.units import Kind
from coilwright.values.figure import Figure
from coilwright.values.keys import AnswerKey, Key
from coilwright.values.rounding import Rounding
from coilwright.values.source import ANSWER
from coilwright.values.standing import Standing

RATINGS = (
    "trailer_gvwr",
    "axles",
    "axle_rating",
    "hitch",
    "hitch_rating",
    "tongue_weight_rating",
    "tow_gvwr",
    "tow_pull",
    "gcwr",
)
"""Answers about hauling that plates say."""
_ABOARD = (HaulKey.RACK_COILS, HaulKey.RACK_MASS, HaulKey.GEAR, HaulKey.CARGO_COILS,
           MachineKey.WEIGHT, HaulKey.TRAILER_WEIGHED)  # fmt: skip


def enter_hauling(
    ledger: Ledger, coils: tuple[CoilPlan, ...], from_stock: tuple[StockCoil, ...]
) -> tuple[LoadLine, ...]:
    """Enter every load on the road and its rating; nothing while there is nothing to haul."""
    haul = ledger.job.haul
    there = bool(coils or from_stock)
    told = ledger.job.machine.weight is not None or any(
        getattr(haul, name) is not None for name in RATINGS
    )
    if not ((there and told) or haul.rack_coils or haul.cargo_coils):
        return ()
    for name in ("arbors", "arbor_load", "rack_load"):
        # Also where the order's coils sit on a decoiler: the rack carries what rides on it.
        ledger.answer(f"machine.{name}")
    all_coils = coils_to_haul(ledger, coils, from_stock) if there else ()
    hauled = enter_hauled(ledger, all_coils)
    return (*_trailer(ledger, hauled), *enter_ties(ledger, hauled))


def _trailer(ledger: Ledger, hauled: Hauled) -> list[LoadLine]:
    gross, part = _gross(ledger, hauled)
    hitch, light = _tongue_weight(ledger, hauled, gross)
    kind = ledger.job.haul.hitch
    on_hitch = "Tongue or pin weight" if kind is None else kind.load_name.capitalize()
    axles = ledger.put(Key.HAUL_AXLES_RATING, "All axles together", calc.axles_rating,
                       ledger.answer(HaulKey.AXLES), ledger.answer(HaulKey.AXLE_RATING))
    tow = _towed(ledger, HaulKey.TOW_WEIGHT)
    tow_loaded = ledger.put(Key.HAUL_TOW_LOADED, "Tow vehicle with the tongue or pin weight",
                            calc.tow_vehicle_load, tow, hitch, rounding=Rounding.SUM)
    both = ledger.put(Key.HAUL_COMBINATION_LOAD, "Tow vehicle and loaded trailer",
                      wound.summed_mass, tow, gross, rounding=Rounding.SUM)
    both_known = _known_part(ledger, Key.HAUL_COMBINATION_KNOWN,
                             "Tow vehicle and trailer, what is known of them",
                             [tow, known(gross), part])
    _ratings_together(ledger)
    axles_known = _axles_known(ledger, part, known(light))
    return [
        load_line(ledger, "haul.trailer", "Loaded trailer", "trailer", gross,
                  ledger.answer(HaulKey.TRAILER_GVWR), HaulKey.TRAILER_GVWR, *_ABOARD,
                  at_least=part),
        load_line(ledger, HaulKey.AXLES, "Axles", "trailer",
                  _axle_load(ledger, gross, light, axles_known), axles, HaulKey.AXLES,
                  HaulKey.AXLE_RATING, HaulKey.TONGUE_WEIGHT, HaulKey.AXLES_WEIGHED, *_ABOARD,
                  at_least=axles_known),
        load_line(ledger, HaulKey.HITCH, "Trailer on the hitch", "hitch", gross,
                  _towed(ledger, HaulKey.HITCH_RATING), HaulKey.HITCH_RATING, *_ABOARD,
                  at_least=part),
        load_line(ledger, HaulKey.TONGUE_WEIGHT, on_hitch, "hitch", hitch,
                  _towed(ledger, HaulKey.TONGUE_WEIGHT_RATING), HaulKey.TONGUE_WEIGHT_RATING,
                  HaulKey.TONGUE_WEIGHT, HaulKey.RACK_AT, HaulKey.GEAR_AT),
        load_line(ledger, "haul.tow", "Trailer being towed", "tow", gross,
                  _towed(ledger, HaulKey.TOW_PULL), HaulKey.TOW_PULL, *_ABOARD, at_least=part),
        load_line(ledger, "haul.tow_vehicle", "Tow vehicle", "tow", tow_loaded,
                  _towed(ledger, HaulKey.TOW_GVWR), HaulKey.TOW_GVWR, HaulKey.TOW_WEIGHT,
                  HaulKey.TONGUE_WEIGHT, at_least=known(tow)),
        load_line(ledger, "haul.combination", "Vehicle and trailer", "tow", both,
                  _towed(ledger, HaulKey.GCWR), HaulKey.GCWR,
                  HaulKey.TOW_WEIGHT, *_ABOARD, at_least=both_known),
    ]


def _towed(ledger: Ledger, key: AnswerKey) -> Term:
    """An answer about what pulls the trailer, which is asked once the hitch is known."""
    if ledger.job.haul.hitch is None:
        return Lack(key, ANSWERS[key].label, (HaulKey.HITCH,))
    return ledger.answer(key)


def _gross(ledger: Ledger, hauled: Hauled) -> tuple[Term, Figure | None]:
    """The loaded trailer; while a part of it is not known, what the others come to."""
    parts = [ledger.answer(MachineKey.WEIGHT), hauled.rack, ledger.answer(HaulKey.GEAR)]
    if hauled.aboard is not None:
        parts.append(hauled.aboard)
    picks = (
        (HaulKey.CARGO_COILS, HaulKey.CARGO_ON)
        if hauled.cargo is not None
        else (HaulKey.CARGO_COILS,)
    )
    weighed = ledger.given(HaulKey.TRAILER_WEIGHED)
    key, label = Key.HAUL_GROSS, "Loaded trailer"
    if weighed is None:
        gross = ledger.put(key, label, wound.summed_mass, *parts, picks=picks,
                           rounding=Rounding.SUM)
    else:
        worked = ledger.put(
            Key.HAUL_GROSS_WORKED, f"{label}, worked out", wound.summed_mass, *parts, picks=picks,
            rounding=Rounding.SUM)
        known_part = _known_part(ledger, Key.HAUL_GROSS_KNOWN, f"{label}, what is known of it",
                                 parts)
        # Of a sum that is not whole the part that is known counts against the scale.
        held = known(worked) or known_part
        if held is None:
            gross = ledger.drawn(key, f"{label}, by the scale", weighed.value, Kind.MASS,
                                 weighed.standing, source=ANSWER)
        else:
            gross = ledger.put(key, f"{label}, the worse of scale and sum", calc.worse, held,
                               weighed, rounding=Rounding.GREATEST)
    if known(gross) is not None:
        return gross, None
    return gross, _known_part(ledger, Key.HAUL_GROSS_KNOWN, "Loaded trailer, what is known of it",
                              parts)


def _known_part(
    ledger: Ledger, key: str, label: str, parts: Sequence[Term | None]
) -> Figure | None:
    """What those parts that are known come to, where some are missing."""
    have = [figure for part in parts if (figure := known(part)) is not None]
    if not have or len(have) == len(parts):
        return None
    return ledger.put(key, label, wound.summed_mass, *have, rounding=Rounding.SUM)


def _tongue_weight(ledger: Ledger, hauled: Hauled, gross: Term) -> tuple[Term, Term]:
    """The tongue or pin weight, weighed and from where things sit: the heavier and the lighter.

    The heavier is held to what carries the hitch; the lighter leaves more to the axles.
    """
    weighed = _towed(ledger, HaulKey.TONGUE_WEIGHT)
    moments = _by_moments(ledger, hauled)
    scale, worked = known(weighed), known(moments)
    heavy = light = scale or moments or weighed
    kind = ledger.job.haul.hitch
    ledger.put(Key.HAUL_HITCH_SHARE, "Share of the trailer on its hitch", calc.hitch_share,
               heavy, gross)
    if scale is not None and worked is not None:
        name = "Tongue or pin weight" if kind is None else kind.load_name.capitalize()
        heavy = ledger.put(Key.HAUL_HITCH_WORSE, f"{name}, the worse of scale and sum", calc.worse,
                           worked, scale)
        light = ledger.put(Key.HAUL_HITCH_LEAST, f"{name}, the lighter of scale and sum",
                           calc.lighter, worked, scale)
        ledger.put(Key.HAUL_HITCH_SHARE_WORKED, "Share on the hitch, from where things sit",
                   calc.hitch_share, worked, gross)
    if known(heavy) is not None and known(gross) is not None and kind is not None:
        match kind:
            case HitchKind.BALL:
                band = calc.BALL_BAND
            case HitchKind.GOOSENECK:
                band = calc.GOOSENECK_BAND
            case HitchKind.FIFTH_WHEEL:
                band = calc.FIFTH_WHEEL_BAND
            case _:
                assert_never(kind)
        standing = Standing.GUESS if ledger.guessed(HaulKey.HITCH) else Standing.SURE
        for key, name, value in zip((Key.HAUL_SHARE_LEAST, Key.HAUL_SHARE_MOST),
                                    ("least", "greatest"), band, strict=True):
            ledger.add(Figure(key, f"Usual {name} share on a {kind}", value,
                              Kind.PERCENT, calc.BAND, standing))
    return heavy, light


def _by_moments(ledger: Ledger, hauled: Hauled) -> Term | None:
    """The tongue or pin weight from where things sit; None while nobody began to say so."""
    haul = ledger.job.haul
    if haul.empty_tongue_weight is None and haul.hitch_to_axles is None:
        return None
    terms = [ledger.answer(HaulKey.HITCH_TO_AXLES), ledger.answer(HaulKey.EMPTY_TONGUE_WEIGHT)]
    picks: tuple[str, ...] = (HaulKey.CARGO_COILS,)
    loads = [(hauled.rack, HaulKey.RACK_AT), (ledger.answer(HaulKey.GEAR), HaulKey.GEAR_AT)]
    if hauled.aboard is not None:
        loads.append((hauled.aboard, HaulKey.CARGO_AT))
    if hauled.cargo is not None:
        picks = (*picks, HaulKey.CARGO_ON)
    for load, at in loads:
        weight = known(load)
        if weight is None or weight.value:
            terms += [load, ledger.answer(at)]
        elif weight.standing is not Standing.SURE:
            # Nothing is there by a guess: were there something, it would count.
            picks = (*picks, weight.key)
    picks = (*picks, HaulKey.RACK_COILS) if haul.weighed_on_rack is None else picks
    return ledger.put(Key.HAUL_HITCH_MOMENTS, "Tongue or pin weight, from where things sit",
                      calc.tongue_weight, *terms, picks=picks)


def _axle_load(
    ledger: Ledger, gross: Term, hitch: Term, at_least: Figure | None
) -> Term:
    """What rests on the axles: worked out, or weighed where that is more."""
    weighed = ledger.given(HaulKey.AXLES_WEIGHED)
    key, name = Key.HAUL_AXLE_LOAD, "Load on the axles"
    worked = _axles_worked(ledger, key if weighed is None else f"{key}_worked", name, gross, hitch)
    if weighed is None:
        return worked
    held = known(worked) or at_least
    if held is None:
        return weighed
    return ledger.put(key, f"{name}, the worse of scale and sum", calc.worse, held, weighed,
                      rounding=Rounding.GREATEST)


def _axles_worked(ledger: Ledger, key: str, name: str, gross: Term, hitch: Term) -> Term:
    loaded, carried = known(gross), known(hitch)
    if loaded is None:
        return ledger.put(key, name, calc.whole_on_axles, gross, rounding=Rounding.SUM)
    if carried is None or carried.value >= loaded.value:
        return ledger.put(key, f"{name} at most", calc.whole_on_axles, loaded,
                          note="no tongue or pin weight known: the whole trailer is counted here",
                          rounding=Rounding.SUM)
    return ledger.put(key, name, calc.axle_load, loaded, carried, rounding=Rounding.REST)


def _axles_known(
    ledger: Ledger, part: Figure | None, hitch: Figure | None
) -> Figure | None:
    """What rests on the axles at the least: what is known of the trailer less its hitch's share."""
    if part is None or hitch is None or hitch.value >= part.value:
        return None
    return ledger.put(Key.HAUL_AXLE_KNOWN, "Load on the axles, what is known of it",
                      calc.axle_load, part, hitch, rounding=Rounding.REST)


def _ratings_together(ledger: Ledger) -> None:
    """Enter what the plates of vehicle and trailer say together, which a license goes by."""
    terms = _towed(ledger, HaulKey.TOW_GVWR), ledger.answer(HaulKey.TRAILER_GVWR)
    if not missing(terms):
        ledger.put(Key.HAUL_RATINGS_TOGETHER, "Ratings of vehicle and trailer together",
                   wound.summed_mass, *terms)
