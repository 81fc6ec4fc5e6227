"""What the machine can form and carry, limit by limit, how close each is, and its checks."""

from __future__ import annotations

from collections.abc import Iterator

from coilwright.calc.agreed import THICKNESS_READ
from coilwright.calc.coil import INSIDE_ROUNDED
from coilwright.job.answers import answers_of
from coilwright.job.answers.coils import CoilsKey
from coilwright.job.answers.machine import MachineKey
from coilwright.job.answers.metal import MetalKey
from coilwright.job.answers.panel import PanelKey
from coilwright.job.coils import CoilOn
from coilwright.job.job import Job
from coilwright.job.panel import Seam
from coilwright.plan.ledger import Ledger
from coilwright.plan.order_limits import thickest_allowed
from coilwright.plan.result import CoilPlan, Fit
from coilwright.plan.view import View, care, stop
from coilwright.units import Kind
from coilwright.values.figure import Figure
from coilwright.values.finding import Finding
from coilwright.values.keys import Key
from coilwright.values.source import PLATE
from coilwright.values.standing import Standing


def enter_fits(ledger: Ledger, coils: tuple[CoilPlan, ...]) -> tuple[Fit, ...]:
    """Every size that can be held to the machine, in the order a strip meets it."""
    on = ledger.job.coils.coil_on
    rack = on is None or on.is_rack
    place = "machine.rack" if rack else "machine.decoiler"
    inside = "machine." if rack else "machine.decoiler_"
    heaviest = max(coils, key=lambda c: c.mass.value).mass if coils else None
    largest = (
        max(coils, key=lambda c: c.outside_diameter.value).outside_diameter if coils else None
    )
    load = MachineKey.ARBOR_LOAD if rack else MachineKey.DECOILER_LOAD
    rows = (
        ("thickness", "Thickness", _known(ledger, MetalKey.THICKNESS),
         MachineKey.THINNEST, MachineKey.THICKEST),
        ("strip", "Strip width", ledger.figures.get(Key.STRIP_WIDTH),
         MachineKey.NARROWEST_STRIP, MachineKey.WIDEST_STRIP),
        ("coverage", "Coverage width", _known(ledger, PanelKey.COVERAGE),
         MachineKey.PROFILE_NARROWEST, MachineKey.PROFILE_WIDEST),
        ("inside", "Coil inside diameter", _known(ledger, CoilsKey.INSIDE_DIAMETER),
         f"{inside}smallest_coil_id", f"{inside}largest_coil_id"),
        ("diameter", "Coil outside diameter", largest, None, f"{place}_diameter"),
        ("load", "Heaviest as ordered", heaviest, None, load),
    )
    fits = []
    for key, name, value, least, most in rows:
        if value is not None:
            answers = tuple(k for k in (most, least) if k)
            fits.append(
                Fit(key, name, value, _known(ledger, least), _known(ledger, most), answers,
                    _NAMES_APART.get(key, 0.0))
            )
    return tuple(fits)


def _known(ledger: Ledger, key: str | None) -> Figure | None:
    return None if key is None else ledger.given(key)


_NAMES_APART = {"inside": INSIDE_ROUNDED, "thickness": THICKNESS_READ}
"""So far two names of one size lie apart [in], by the key of what is held."""
_WIDTH = Kind.WIDTH
_WHY = {
    "thickness": "The rolls are set for a range: thinner metal wrinkles, thicker metal "
    "strains the machine.",
    "strip": "The strip must pass between the guides and reach both forming stations.",
    "coverage": "The tooling of a profile moves only so far in and out.",
    "inside": "A coil whose inside diameter does not match the arbor cannot be held, and "
              "may come off it.",
    "diameter": "The coil would foul the rack, or could not be put on.",
    "load": "An arbor loaded over its rating can fail with people beside it.",
}
_DO = {
    "thickness": "Choose a thickness in the range, or ask the machine's maker.",
    "strip": "Choose another coverage width, or ask the machine's maker.",
    "coverage": "Choose a coverage width in the range, or another profile.",
    "inside": "Ask the supplier for another inside diameter, or the maker for adapter rings.",
    "diameter": "Order smaller coils.",
    "load": "Order smaller coils; the rating plate decides.",
}


def check_machine(view: View) -> Iterator[Finding]:
    """What does not fit the machine."""
    yield from _forms(view)
    yield from _holds(view)
    for fit in view.fits:
        if fit.fits:
            continue
        limit = fit.least if fit.too_little else fit.most
        assert limit is not None
        side = "least" if fit.too_little else "most"
        yield stop(
            f"machine.{fit.key}",
            f"{fit.name} {fit.value.text(view.job.units)}; the machine takes "
            f"{limit.text(view.job.units)} at {side}.",
            _WHY[fit.key], _DO[fit.key], limit.source, *fit.answers,
        )
    yield from _may_be_thick(view)
    yield from _is_example(view.job)


def _is_example(job: Job) -> Iterator[Finding]:
    """An invented example all of whose values count as read off a plate.

    While one is a guess, that says it. Whoever has held them against a plate has a machine with a
    name of its own.
    """
    if not job.machine.is_called_an_example or any(
            one.asked(job) and one.section == "machine" and one.standing(job) is Standing.GUESS
            for one in answers_of("machine")):
        return
    yield care(
        "machine.example",
        f"The machine is called “{job.machine.name}”, and each of its values stands as sure.",
        "An example's values are read off no plate. A coil that is ordered by them may overload "
        "your arbor or rack, which can then fail with people beside it, or not go through your "
        "machine.",
        "Hold each value on Machine against the plate and manual of your machine, and then put its "
        "own name into “Machine” there.",
        PLATE, MachineKey.NAME,
    )


def _may_be_thick(view: View) -> Iterator[Finding]:
    """Metal that fits as it is ordered, and may come thicker than the machine forms.

    No stop: makers rate machines by gauge, and what they make of its tolerance they say themselves.
    """
    fit = next((one for one in view.fits if one.key == "thickness"), None)
    allowed = thickest_allowed(view)
    if fit is None or fit.most is None or not fit.fits or allowed is None or (
            allowed <= fit.most.value + THICKNESS_READ):
        return
    yield care(
        "machine.may_be_thick",
        f"The order lets the metal come at {view.say(allowed, Kind.THICKNESS)}; the machine forms "
        f"{fit.most.text(view.job.units)} at most.",
        "A coil that is thicker than the machine forms is held when it arrives, and strains the "
        "rolls.",
        "Agree on a smaller tolerance of thickness, order thinner metal, or ask the machine's "
        "maker in writing.",
        fit.most.source, MetalKey.THICKNESS_TOLERANCE, *fit.answers,
    )


def _forms(view: View) -> Iterator[Finding]:
    machine, metal, panel = view.job.machine, view.job.metal.metal, view.job.panel
    if metal is not None and machine.forms and metal not in machine.forms:
        listed = ", ".join(machine.forms)
        yield stop(
            "machine.metal", f"This machine forms {listed}; {metal} is not on its list.",
            "Rolls, clearances and power are made for certain metals; others mark, crack or "
            "stall it.",
            "Choose a metal it forms, or ask the machine's maker in writing.",
            PLATE, MetalKey.METAL, step="machine",
        )
    if panel.seam is None or panel.leg is None:
        return
    profile = machine.profile(panel.seam, panel.leg)
    if machine.profiles and profile is None:
        yield stop(
            "machine.profile", _no_tooling(view, panel.seam, panel.leg),
            "Without the tooling the panel cannot be formed at all.",
            "Choose a profile it has, or ask the maker for the tooling and its lead time.",
            PLATE, PanelKey.SEAM, PanelKey.LEG,
        )
    elif (
        profile is not None
        and profile.take_up is not None
        and panel.take_up is not None
        and abs(profile.take_up - panel.take_up) > 1 / 32
    ):
        yield stop(
            "machine.take_up",
            f"The machine's sheet says take-up {view.say(profile.take_up, _WIDTH)}, "
            f"the job {view.say(panel.take_up, _WIDTH)}.",
            "Every strip of the order would come in the wrong width.",
            "Go by the machine's sheet, and prove it on a test panel.",
            PLATE, PanelKey.TAKE_UP, MachineKey.PROFILE_TAKE_UP,
        )


def _no_tooling(view: View, seam: Seam, leg: float) -> str:
    """What the machine has comes first: the line may be cut where there is little room."""
    legs: dict[Seam, list[str]] = {}
    for profile in view.job.machine.profiles:
        legs.setdefault(profile.seam, []).append(view.say(profile.leg, _WIDTH))
    if seam in legs:
        return (f"This machine's {seam} has leg {' or '.join(legs[seam])}, not "
                f"{view.say(leg, _WIDTH)}.")
    had = "; ".join(f"{one}, leg {' or '.join(sizes)}" for one, sizes in legs.items())
    return f"This machine has tooling for {had}; none for {seam}."


def _holds(view: View) -> Iterator[Finding]:
    machine, on = view.job.machine, view.job.coils.coil_on
    if on is CoilOn.RACK and machine.arbors == 0:
        yield stop(
            "machine.no_rack", "This machine has no arbors, so the coil cannot sit on its rack.",
            "A coil needs a holder that is rated for it.",
            "Put the coil on a floor decoiler, or choose another machine.",
            PLATE, CoilsKey.COIL_ON, MachineKey.ARBORS, step="coils",
        )
    if (
        on is CoilOn.DECOILER
        and machine.name
        and machine.decoiler_load is None
        and machine.decoiler_diameter is None
    ):
        yield stop(
            "machine.no_decoiler", "No floor decoiler is known for this machine.",
            "A coil needs a holder that is rated for it.",
            "Enter the decoiler's rating plate, or put the coil on the rack.",
            PLATE, MachineKey.DECOILER_LOAD, CoilsKey.COIL_ON, step="machine",
        )
