"""A coil that arrived, size by size against the order and what rack and machine take."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from coilwright.calc import agreed, lifting, sources
from coilwright.calc.coil import INSIDE_ROUNDED
from coilwright.calc.receiving import measures as calc
from coilwright.job.answers import ANSWERS
from coilwright.job.answers.coils import CoilsKey
from coilwright.job.answers.machine import MachineKey
from coilwright.job.answers.panel import PanelKey
from coilwright.job.camber import camber_over_words
from coilwright.job.stock import LEAST_WOUND
from coilwright.plan.haul.lifting import gear_limit
from coilwright.plan.order_limits import (
    heaviest_coil,
    largest_coil,
    largest_of_all,
    tight_package,
)
from coilwright.plan.receiving.inspection import TAGGED, Inspection, is_more, over, under
from coilwright.plan.receiving.report import Compared
from coilwright.plan.receiving.thickness import REFUSE, thickness_compared
from coilwright.units import Kind, System
from coilwright.values.figure import Figure
from coilwright.values.finding import Level
from coilwright.values.keys import Key, LiftPlace, lift_key, row_key
from coilwright.values.source import Source
from coilwright.words.in_units import with_units


def compare_sizes(case: Inspection) -> tuple[Compared, ...]:
    """Every size beside what was ordered; what is wrong goes into the findings."""
    return tuple(part for each in _SIZES for part in each(case))


def _width(case: Inspection) -> Iterator[Compared]:
    ordered = case.known(Key.STRIP_WIDTH)
    found = case.given("width", "width", case.arrival.width, Kind.WIDTH)
    least = most = surely = too_wide = None
    level = None
    if ordered is not None:
        reading = case.table("read_to", "A tape is read to", calc.READ_TO.size(case.system),
                             Kind.WIDTH, calc.CLOSE_READING)
        off = case.known(CoilsKey.WIDTH_TOLERANCE)
        if off is None:
            wider = case.table("wider", "A slit strip may be wider by",
                               calc.WIDER.size(case.system), Kind.WIDTH, calc.SLIT_WIDTH)
            least = case.put("width_least", "least width", calc.narrowest_strip, ordered, reading)
            most = case.put("width_most", "greatest width", calc.widest_strip, ordered, wider)
            surely = least
        else:
            least = case.put("width_least", "least width", agreed.narrowest_agreed, ordered, off)
            most = case.put("width_most", "greatest width", agreed.widest_agreed, ordered, off)
            surely = case.put("width_sure", "too narrow past any doubt", calc.narrowest_strip,
                              least, reading)
            too_wide = case.put("width_over", "too wide past any doubt", calc.wider_past_doubt,
                                most, reading)
    if found is not None and ordered is not None:
        text, wanted = found.text(case.system), ordered.text(case.system)
        # The order's own ± where it has one, else what is usual.
        said = calc.SLIT_WIDTH if off is None else agreed.AGREED
        assert least is not None
        assert most is not None
        by_order = (f"ordered {wanted}, allowed {least.text(case.system)} to "
                    f"{most.text(case.system)}")
        widest = case.plate(MachineKey.WIDEST_STRIP)
        if under(found, surely):
            level = case.find(
                Level.STOP, "width", f"It is {text} wide; {by_order}.",
                "A narrower strip cannot be formed to the coverage width: the legs come short and "
                "the seam does not hold.", REFUSE, said, PanelKey.COVERAGE,
                PanelKey.TAKE_UP)
        elif over(found, widest):
            assert widest is not None
            level = case.find(
                Level.STOP, "width",
                f"It is {text} wide; the machine takes {widest.text(case.system)}.",
                "A strip wider than the guides is crushed at its edges or stops the machine.",
                f"Have it slit to {wanted}, or give it back.", widest.source,
                MachineKey.WIDEST_STRIP)
        elif over(found, most):
            # What was agreed is held to: a tape's reading past it, somebody decides.
            held = over(found, too_wide)
            level = case.find(
                Level.STOP if held else Level.CARE, "width", f"It is {text} wide; {by_order}.",
                with_units("The metal beyond the strip goes into the legs: seams stand uneven, and "
                           "it weighs more by the foot.", case.system),
                (_WIDER_HELD if held else "") +
                "Set the guides, run one panel and measure its legs; ask the supplier to slit it "
                "to size if they are not right.", said, PanelKey.TAKE_UP)
        elif under(found, least):
            level = case.find(
                Level.CARE, "width",
                f"It is {text} wide, by a hair under {least.text(case.system)}.",
                "The difference is smaller than a tape shows.",
                "Measure it again at three places.", calc.CLOSE_READING, CoilsKey.WIDTH_TOLERANCE)
    yield Compared("width", "Width", ordered, found, least, most, level)


_WIDER_HELD = ("The order says how wide it may come, so the person in charge decides: refuse it, "
               "or take it knowingly, with name and reason. ")


def _inside(case: Inspection) -> Iterator[Compared]:
    ordered = case.known(CoilsKey.INSIDE_DIAMETER)
    found = case.given("inside", "inside diameter", case.arrival.inside, Kind.WIDTH)
    on = case.gear.job.coils.coil_on
    rack = on is None or on.is_rack
    place = "machine." if rack else "machine.decoiler_"
    smallest = case.plate(f"{place}smallest_coil_id")
    largest = case.plate(f"{place}largest_coil_id")
    least = most = None
    level = None
    if ordered is not None:
        off = case.table("inside_off", "A core may differ by", calc.INSIDE_OFF.size(case.system),
                         Kind.WIDTH, calc.INSIDE_SOURCE)
        least = case.put("inside_least", "least inside diameter", calc.least_inside, ordered,
                     off)
        most = case.put("inside_most", "greatest inside diameter", calc.most_inside, ordered,
                    off)
    if found is not None:
        text = found.text(case.system)
        small = under(found, smallest, INSIDE_ROUNDED)
        if small or over(found, largest, INSIDE_ROUNDED):
            limit = smallest if small else largest
            assert limit is not None
            level = case.find(
                Level.STOP, "inside",
                f"It is {text} inside; the arbor takes {limit.text(case.system)}"
                f"{' or more' if limit is smallest else ' or less'}.",
                "A coil that does not fit its arbor can slip or fall. Do not make it fit.",
                "Do not lift it on to the machine. Have it wound on another core, or give it back.",
                limit.source, CoilsKey.INSIDE_DIAMETER, limit.key)
        elif ordered is not None and (under(found, least) or over(found, most)):
            level = case.find(
                Level.CARE, "inside",
                f"It is {text} inside; {ordered.text(case.system)} was ordered.",
                "The arbor takes it, yet it may need other blocks, and its outside diameter is not "
                "the one worked out.", "Hold its outside diameter to the rack before lifting it.",
                calc.INSIDE_SOURCE, CoilsKey.INSIDE_DIAMETER)
    yield Compared("inside", "Inside diameter", ordered, found, least or smallest,
                   most or largest, level)


def _outside(case: Inspection) -> Iterator[Compared]:
    found = case.given("outside", "outside diameter", case.arrival.outside, Kind.WIDTH)
    on = case.gear.job.coils.coil_on
    rack = on is None or on.is_rack
    largest = case.plate(MachineKey.RACK_DIAMETER if rack else MachineKey.DECOILER_DIAMETER)
    agreed_most = largest_of_all(case.plan) if case.coil is None else largest_coil(
        case.plan, case.coil)
    ordered = case.coil.outside_diameter if case.coil else None
    inside = case.arrival.inside
    level = None
    if found is not None:
        text = found.text(case.system)
        if inside is not None and found.value - inside < LEAST_WOUND:
            level = case.find(
                Level.STOP, "outside",
                f"It is {text} outside, hardly more than its inside diameter or less.",
                "No coil is like that; one of the two was measured or typed wrong.",
                "Measure both again: outside across the wound metal, inside across the hole.",
                sources.PLANE_GEOMETRY)
        elif over(found, largest):
            assert largest is not None
            level = case.find(
                Level.STOP, "outside",
                f"It is {text} outside; the {'rack' if rack else 'decoiler'} takes "
                f"{largest.text(case.system)}.",
                "A coil larger than its place rubs, jams, or cannot be set down safely.",
                "Do not lift it on to the machine. Have it wound down to two, or give it back.",
                largest.source, largest.key)
        elif agreed_most is not None and is_more(found, agreed_most.as_read(case.system)):
            level = case.find(
                Level.CARE, "outside",
                f"It is {text} outside; the order says {agreed_most.text(case.system)} at most.",
                _why_larger(agreed_most, largest),
                "Hold it to the plate of its place before it is lifted.",
                agreed_most.source, agreed_most.key if agreed_most.key in ANSWERS else (
                    _side(case, light=False)))
    most = min((one for one in (largest, agreed_most) if one is not None),
               key=lambda one: one.as_read(case.system), default=None)
    yield Compared("outside", "Outside diameter", ordered, found, None, most, level)


def _why_larger(agreed: Figure, largest: Figure | None) -> str:
    """What it means that a coil is over the order's max OD, though its place takes it."""
    if largest is None:
        return "The supplier was to ship none so large, and what its place takes is not known."
    if agreed.key == largest.key and agreed.value < largest.value * (1 - _LIKE):
        return "What takes it now is larger than it was when the coil was ordered."
    return "Its place takes it, and yet the supplier was to ship none so large."


_LIKE = 1e-9
"""As a share: numbers this near are one."""
_HALF = {System.US: 0.5, System.METRIC: 0.5 / 0.45359237}
"""Half of what weights are read to [lb]: a coil exactly as ordered is not too heavy for being read
to the next whole pound or kilogram."""


def _mass(case: Inspection) -> Iterator[Compared]:
    weighed = case.given("weighed", "weight on the scale", case.arrival.weighed, Kind.MASS)
    tag = case.given("mass", "weight on its tag", case.arrival.mass, Kind.MASS, TAGGED)
    ordered = case.coil.mass if case.coil else None
    tolerance = case.known(CoilsKey.TOLERANCE)
    least = most = None
    level: Level | None = None
    if ordered is not None and tolerance is not None:
        least = case.put("lightest", "lightest it may come",
                     calc.lightest_arrival, ordered, tolerance)
        assert case.coil is not None
        if case.known(row_key("coil", case.coil.number, "heaviest")) is not None:
            most = heaviest_coil(case.plan, case.coil)
    found = weighed or tag
    if found is not None:
        level = _too_heavy(case, max((m for m in (weighed, tag) if m), key=lambda m: m.value))
        text = found.text(case.system)
        heavy = most is not None and is_more(found, most.as_read(case.system), _HALF[case.system])
        # An end is held as it is read: 582 lb is not too light for a limit of 582.12 lb.
        light = least is not None and found.value < least.as_read(case.system) - _HALF[case.system]
        end = least if light else most
        if level is None and ordered is not None and (light or heavy) and (
                end is not None and end.text(case.system) != text):  # read alike they are alike
            level = _too_light(case, text, ordered, end) if light else _over_the_order(
                case, text, ordered, end)
    yield Compared("mass", "Weight", ordered, found, least, most, level)
    if weighed is not None and tag is not None:
        differ = case.put("tag_off", "tag against scale", calc.tag_off_scale, tag, weighed)
        allowed = case.table("tag_and_scale", "Tag and scale may differ by", calc.TAG_AND_SCALE,
                             Kind.PERCENT, calc.TAG_AND_SCALE_SOURCE)
        far = None
        if over(differ, allowed):
            far = case.find(
                Level.CARE, "tag_off",
                f"Its tag says {tag.text(case.system)}, the scale {weighed.text(case.system)}.",
                "A tag may count skid, core and wrapping; a scale may not have been at nothing.",
                "Ask whether the tag is gross or net. Lift by the greater of the two.",
                calc.TAG_AND_SCALE_SOURCE)
        yield Compared("tag_off", "Tag against scale", None, differ, None, allowed, far)


def _side(case: Inspection, light: bool) -> str:
    """The answer that says how far a coil may come under, or over, the ordered weight."""
    both = light or case.plan.job.coils.tolerance_over is None
    return CoilsKey.TOLERANCE if both else CoilsKey.TOLERANCE_OVER


def _too_light(case: Inspection, text: str, ordered: Figure, least: Figure) -> Level:
    return case.find(
        Level.CARE, "mass",
        f"It weighs {text}; {ordered.text(case.system)} was ordered, "
        f"{least.text(case.system)} is the lightest it may come.",
        "That is outside the tolerance the order counts on.",
        "Ask the supplier, and see whether its length still makes the job.",
        agreed.AGREED, _side(case, light=True))


def _over_the_order(case: Inspection, text: str, ordered: Figure, most: Figure) -> Level:
    """Hold a coil over the order's max weight, though everything that is known carries it."""
    return case.find(
        Level.STOP, "mass",
        f"It weighs {text}; {ordered.text(case.system)} was ordered, and the order says "
        f"{most.text(case.system)} at most, as shipped.",
        "No plate that is known here is under it; but whoever lifts and runs it counts on the "
        "order, and coil is paid by weight.",
        f"{_counts(case, most)} decides: refuse it, or take it knowingly, with name and "
        "reason. Read the plates of what lifts it again before anybody does.",
        agreed.AGREED, _side(case, light=False))


def _counts(case: Inspection, most: Figure) -> str:
    """Whether the order's max weight is with skid and packing, and so who decides."""
    tight = tight_package(case.plan)
    if tight is not None and tight.gross and tight.heaviest.key == most.key:
        return "The order says max weight gross, skid and packing included. Whoever is in charge"
    return ("Ask first whether that is with skid and wrapping: the order counts the metal alone. "
            "If it is not, whoever is in charge")


def _too_heavy(case: Inspection, mass: Figure) -> Level | None:
    """Hold a coil that is over what is to carry it on the machine, or to lift it."""
    found = [*_on_machine(case, mass), *_in_the_air(case, mass)]
    for part, words, do, source, answer in found:
        case.find(
            Level.STOP, part, f"It weighs {mass.text(case.system)}; {words}.",
            "An overloaded arbor, fork or sling lets go without warning. The rating plate decides.",
            do, source, answer)
    return Level.STOP if found else None


_Over = tuple[str, str, str, Source, str]
"""The finding's key, in words what carries less, what to do, the source, the answer."""
_GIVE_BACK = "Do not lift it. Have it wound down to two, or give it back."
_BRING = "Do not lift it with that. Bring gear whose plates cover it, or give it back."


def _on_machine(case: Inspection, mass: Figure) -> Iterator[_Over]:
    on = case.gear.job.coils.coil_on
    if on is not None and not on.is_rack:
        place, holder = MachineKey.DECOILER_LOAD, "the decoiler"
    else:
        place, holder = MachineKey.ARBOR_LOAD, "one arbor"
    limit = case.plate(place)
    if limit is not None and over(mass, limit):
        yield (f"over_{place.rpartition('.')[2]}", f"{holder} carries {limit.text(case.system)}",
               _GIVE_BACK, limit.source, place)
        return
    share, rack = case.plate(Key.LIMIT_RACK_MASS), case.plate(MachineKey.RACK_LOAD)
    if share is not None and rack is not None and over(mass, share):
        yield ("over_rack_load", f"its share of the rack's load is {share.text(case.system)}",
               "Put it on the rack alone, or beside one so light that all on it stay within "
               f"{rack.text(case.system)}.", rack.source, MachineKey.RACK_LOAD)


_LIFTED: tuple[tuple[LiftPlace, str], ...] = (("site", "at the site"), ("shop", "in the shop"))


def _in_the_air(case: Inspection, mass: Figure) -> Iterator[_Over]:
    told, gear = case.plate(CoilsKey.SITE_LIFT), gear_limit(case.gear.figures)
    # A limit taken over from the gear is one to order by: the heaviest it may come is allowed for.
    if told is not None and over(mass, told) and (gear is None or gear[0] != told.value):
        yield ("over_site_lift", f"what the site lifts is {told.text(case.system)}", _BRING,
               told.source, CoilsKey.SITE_LIFT)
    for place, where in _LIFTED:
        fork = case.plate(lift_key(place, "fork_carries"))
        slings = case.plate(lift_key(place, "slings_carry"))
        carries = fork or slings
        if carries is None:
            continue
        by = getattr(case.gear.job.haul, place).by
        attachment = case.plate(lift_key(place, "attachment"))
        load = mass if attachment is None else case.put(
            f"lifted_{place}", f"coil and attachment, {where}", lifting.lifted, mass, attachment)
        if over(load, carries):
            with_it = "" if load is mass else f"{load.text(case.system)} with the attachment, and "
            yield (f"over_{place}_gear",
                   f"{with_it}{where} the {f'{by} carries' if fork else 'slings carry'} "
                   f"{carries.text(case.system)}", _BRING,
                   lifting.WITHIN if fork else lifting.TENSION, lift_key(place, "by"))


def _camber(case: Inspection) -> Iterator[Compared]:
    bow = case.given("camber", "camber", case.arrival.camber, Kind.WIDTH)
    beside = case.given("camber_over", "camber measured over", case.arrival.camber_over,
                        Kind.LENGTH)
    most = None
    level = None
    if beside is not None:
        usual = calc.CAMBER_SOURCE if case.system is System.US else calc.CAMBER_IN_METRIC
        allowed = case.known(CoilsKey.CAMBER) or case.table(
            "camber", "Camber allowed", calc.CAMBER.size(case.system), Kind.WIDTH, usual)
        # An order's own without a length is over 8 ft in either system.
        own = allowed.key == CoilsKey.CAMBER
        stated = (case.known(CoilsKey.CAMBER_OVER) if own else None) or case.table(
            "camber_over", "… over", calc.CAMBER_OVER.size(System.US if own else case.system),
            Kind.LENGTH, usual)
        most = case.put("camber_most", "camber allowed over that length", calc.camber_allowed,
                    allowed, beside, stated)
    if bow is not None and beside is not None and most is not None:
        said = f"Its edge bows {bow.text(case.system)} in {beside.text(case.system)}"
        reading = case.table("read_to", "A tape is read to", calc.READ_TO.size(case.system),
                             Kind.WIDTH, calc.CLOSE_READING)
        again = f"Measure it over {camber_over_words(case.plan.job)} or more on a flat floor."
        surely = case.put("camber_sure", "camber past any doubt", calc.camber_past_doubt, most,
                      reading)
        if over(bow, surely):
            level = case.find(
                Level.STOP, "camber", f"{said}; {most.text(case.system)} is allowed.",
                "A bowed strip makes bowed panels: seams do not close, and panels walk off their "
                "line.", REFUSE, allowed.source)
        elif over(bow, most):
            level = case.find(
                Level.CARE, "camber", f"{said}, as much as is allowed or a little more.",
                "The difference is smaller than a tape shows.",
                again, allowed.source)
        elif beside.value < calc.SHORTEST_CAMBER:
            level = case.find(
                Level.CARE, "camber", f"{said}: too short a length to tell.",
                "The bow of an even bend goes with the square of the length; over a short one it "
                "is smaller than a tape shows.", again, calc.BOW)
    yield Compared("camber", "Camber", None, bow if beside is not None else None, None, most,
                   level)


_SIZES: tuple[Callable[[Inspection], Iterator[Compared]], ...] = (
    _width, thickness_compared, _inside, _outside, _mass, _camber,
)
