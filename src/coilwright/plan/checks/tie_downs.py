"""Checks of coils hauled as cargo: tie-downs, and the rule for metal coils."""

from __future__ import annotations

from collections.abc import Iterator
from typing import assert_never

from coilwright.calc import tie_down as calc
from coilwright.job.choices import YesNo
from coilwright.job.haul import CoilEye
from coilwright.plan.checks.view import View, care, note, stop
from coilwright.units import Kind
from coilwright.values.finding import Finding
from coilwright.words.counting import counted


def _held_by_eye(eye: CoilEye) -> str:
    match eye:
        case CoilEye.UP:
            return (
                "With the eye up: one tie-down slantwise over the coil each way, one straight "
                "across over its eye, and blocks, friction mats or direct tie-downs against "
                "sliding forward and back. Rows of coils are held otherwise: read the rule."
            )
        case CoilEye.CROSSWISE:
            return (
                "With the eye crosswise: a cradle that keeps the coil from rolling and off the "
                "deck, and through its eye one tie-down forward and one rearward. Nailed wood "
                "alone is no cradle."
            )
        case CoilEye.LENGTHWISE:
            return (
                "With the eye lengthwise: a cradle, two tie-downs through the eye, straight or "
                "slantwise, and one over the coil from side to side. Two over the coil, front "
                "and rear, are the other way."
            )
        case _:
            assert_never(eye)


_EYE_UNKNOWN = "Say which way its eye points: each way is held differently."


def check_tie_downs(view: View) -> Iterator[Finding]:
    """All checks of coils as cargo; nothing where none are hauled."""
    for line in view.loads:
        if line.over and line.key == "haul.tie_count":
            yield _too_few(view)
        elif line.over and line.key == "haul.ties":
            yield stop(
                "haul.ties",
                f"The tie-downs count for {view.text('haul.held')} together; they must hold "
                f"{view.text('haul.must_hold')}, half the weight of the cargo.",
                "A coil that comes loose goes through the cab or on to the road.",
                "Use more or stronger tie-downs, from side to side over the coil: one that goes "
                "to the coil, or back to its own side, counts half. The tag of the weakest part "
                "decides.",
                calc.HOLDING, *line.answers,
            )
    yield from _metal_coils(view)


def _too_few(view: View) -> Finding:
    needed, there = view.figures["haul.ties_needed"], view.figures["haul.ties_there"]
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
        "The rule counts tie-downs by the length and the weight of each coil, whatever they hold.",
        do, calc.COUNTED, "haul.ties_over", "haul.ties_direct", "haul.cargo_coils", "haul.eye",
        "haul.blocked",
    )


def _metal_coils(view: View) -> Iterator[Finding]:
    cargo = view.figures.get("haul.cargo")
    if cargo is None:
        return
    heaviest = cargo.terms[0]
    weight, limit = heaviest.text(view.job.units), view.say(calc.METAL_COIL_FROM, Kind.MASS)
    eye = view.job.haul.eye
    if heaviest.value >= calc.METAL_COIL_FROM:
        yield care(
            "haul.metal_coil",
            f"The heaviest coil hauled as cargo, {weight}, falls under the rule for metal coils, "
            f"which begins at {limit}.",
            "A heavy coil that rolls or slides is stopped by nothing else on the vehicle.",
            f"{_EYE_UNKNOWN if eye is None else _held_by_eye(eye)} Some states ask the driver for "
            "an endorsement: ask the licence office.",
            calc.METAL_COILS, "haul.eye", "haul.cargo_coils", "haul.blocked",
        )
        return
    bound = len(cargo.terms) > 1 and cargo.value >= calc.METAL_COIL_FROM
    yield note(
        "haul.coil_rolls",
        f"The heaviest coil hauled as cargo, {weight}, is under the {limit} from which the rule "
        f"for metal coils begins{'; bound together, the coils are not' if bound else ''}.",
        "A lighter coil rolls and tips all the same.",
        "Cradle or chock it so that it cannot roll, slide or tip, tie it down, and look again "
        "after the first miles.",
        calc.METAL_COILS, "haul.eye", "haul.cargo_coils",
    )
