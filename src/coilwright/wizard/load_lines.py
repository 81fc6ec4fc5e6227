"""Loads against their ratings in lines of text. No screens here."""

from __future__ import annotations

from collections import Counter
from typing import TYPE_CHECKING

from coilwright.drawing.safe_text import one_line
from coilwright.job.answers import ANSWERS
from coilwright.plan.result import NOT_KNOWN
from coilwright.units import Kind, System
from coilwright.values.figure import Figure
from coilwright.wizard.literal import fit, pad

if TYPE_CHECKING:
    from coilwright.plan import LoadLine, Plan

_NONE = "—"
_LIFTS = ("site", "shop")
_WORDS = ("OVER", "TOO FEW", "not known", "inside as entered")
"""What is counted, the worst first."""
_ONE_ROW = 70
"""Cells from which a load stands on one line."""


def count_line(plan: Plan) -> str:
    """All loads in a few words: how many are over, not known, inside; or what is missing."""
    loads = plan.loads
    if not loads:
        return "No loads yet: they need coils, a trailer or a lift"
    words = Counter(
        line.word if line.over else "inside as entered" if line.known else "not known"
        for line in loads
    )
    said = ", ".join(f"{words[word]} {word}" for word in _WORDS if words[word])
    many = "1 load" if len(loads) == 1 else f"{len(loads)} loads"
    return f"{many}: {said}"


def load_text(line: LoadLine, system: System, width: int) -> str:
    """One load: name, load, rating, margin, and a word; on two lines where there is less room.

    A blank stands first for the sign of the marked row. A load or rating that is not known
    leaves no margin, and says so.
    """
    load, rating, margin = (_text(f, system) for f in (line.load, line.rating, line.margin))
    name, word = one_line(line.name), line.word
    if width >= _ONE_ROW:
        head = f" {pad(name, 26)} {load:>11}"
        if line.rating is None:
            return fit(f"{head}  {word}", width)
        if line.load is None:
            return fit(f"{head} {rating:>11}  {_said(line)}", width)
        return fit(f"{head} {rating:>11} {margin:>11}  {word}", width)
    if line.rating is None:
        return f"{fit(f' {name}', width)}\n{fit(f'   {load} · {word}', width)}"
    if line.load is None:
        return f"{fit(f' {name}', width)}\n{fit(f'   {_said(line)}; rating {rating}', width)}"
    second = f"   {load} of {rating}, margin {margin}"
    if line.load.kind is Kind.COUNT:
        second = f"   {load} needed, {rating} there"
    return f"{pad(f' {name}', width - 9)} {word}\n{fit(second, width)}"


def load_heading(width: int) -> str:
    """The names of the columns, where a load stands on one line."""
    if width < _ONE_ROW:
        return ""
    return fit(f" {pad('', 26)} {'load':>11} {'rating':>11} {'margin':>11}", width)


def leads_to(line: LoadLine) -> str:
    """The answer to look at for a load: what it waits for, else what would change it."""
    return next((key for key in (*line.needs, *line.answers) if key in ANSWERS), "")


def lighter_words(before: Plan, after: Plan) -> str:
    """What the lift's limit changed of the order."""
    system = after.job.units
    said = f"No coil heavier than {_figure(after, 'coils.site_lift', system)} as ordered."
    if after.coils:
        said += f" Before: {_coils(before)}; now: {_coils(after)}."
    still = [line.name for line in after.loads if line.place in _LIFTS and line.over]
    if still:
        said += f" Still over: {', '.join(still)}."
    return f"{said} Ctrl+Z takes it back."


def no_lighter_words(plan: Plan) -> str:
    """Why there is no limit to hand to the coils, and what lighter coils would be wanted for."""
    road = [line.name for line in plan.loads if line.over and line.place not in _LIFTS]
    said = _no_limit_words(plan)
    if road:
        said += f" The lift alone decides here; over on the road: {', '.join(road)}."
    return said


def _no_limit_words(plan: Plan) -> str:
    lifts = [line for line in plan.loads if line.place in _LIFTS]
    if not lifts:
        return "First say what lifts the coils at the site or in the shop."
    limits = [f"haul.{line.place}_coil_limit" for line in lifts]
    if any(key in plan.figures for key in limits):
        return ("Nothing changed: the order is held to what the lifting gear takes, or it takes "
                "no coil.")
    because = next((lack.because for key in limits if (lack := plan.lacks.get(key)) and
                    lack.because), "")
    return f"No coil will do: {because}." if because else f"What the lift takes is {NOT_KNOWN}."


def _coils(plan: Plan) -> str:
    """How many coils, and the heaviest."""
    heaviest = max((coil.mass for coil in plan.coils), key=lambda mass: mass.value, default=None)
    if heaviest is None:
        return "no coils"
    many = "one coil of" if len(plan.coils) == 1 else f"{len(plan.coils)} coils, the heaviest"
    return f"{many} {heaviest.text(plan.job.units)}"


def _figure(plan: Plan, key: str, system: System) -> str:
    figure = plan.figures.get(key)
    return _NONE if figure is None else figure.text(system)


def _said(line: LoadLine) -> str:
    """The word; for a load that is not known, what it waits for."""
    if line.load is not None or line.rating is None:
        return line.word
    needs = [ANSWERS[key].label for key in line.needs if key in ANSWERS]
    return f"needs {needs[0]}" if needs else line.word


def _text(figure: Figure | None, system: System) -> str:
    return _NONE if figure is None else f"{figure.mark} {figure.text(system)}".strip()
