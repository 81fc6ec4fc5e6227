"""Measures that make no building of the chosen shape, and what would be right."""

from __future__ import annotations

from collections.abc import Iterator

from coilwright.calc import sources
from coilwright.job.roof import Building
from coilwright.plan.building_pitch import pitch_answers, pitch_fault
from coilwright.plan.ledger import Ledger
from coilwright.units import Kind, show
from coilwright.values.finding import Finding, Level

SAME = 1e-6
"""Lengths [in] nearer than this are one."""


def building_faults(ledger: Ledger) -> list[Finding]:
    """A stop for each way the measures given do not fit the building shape."""
    shape = ledger.job.roof.building
    found = list(_pitch_faults(ledger))
    if shape is Building.GAMBREL:
        found += _gambrel_faults(ledger)
    if shape in (Building.ELL, Building.CROSS):
        found += _wing_faults(ledger)
    return found


def cannot_be(because: str) -> Finding:
    """A stop for measures that make a face no roof can have, whatever the reason."""
    return _stop("no_building", f"These measures make no such building. {because}",
                 "Correct the measures of the building, or measure its planes one by one.",
                 "roof.building", "roof.length", "roof.width")


def _stop(key: str, what: str, do: str, *answers: str) -> Finding:
    return Finding(
        Level.STOP, f"roof.{key}", what,
        "No roof has these measures, so none of its planes can be drawn.",
        do, sources.PLANE_GEOMETRY, "roof", answers,
    )


def _pitch_faults(ledger: Ledger) -> Iterator[Finding]:
    fault = pitch_fault(ledger)
    if fault:
        yield _stop(
            "no_pitch", fault, "Measure both lengths again, or give the pitch itself.",
            *pitch_answers(ledger.job),
        )


def _gambrel_faults(ledger: Ledger) -> Iterator[Finding]:
    roof = ledger.job.roof
    if roof.width is None or roof.lower_run is None or roof.lower_run < roof.width / 2 - SAME:
        return
    half = show(roof.width / 2, Kind.LENGTH, ledger.job.units)
    yield _stop(
        "lower_run_long",
        f"The lower slope's run is {show(roof.lower_run, Kind.LENGTH, ledger.job.units)}; half "
        f"the width is {half}.",
        f"Give a run of less than {half}, so that something is left for the upper slope.",
        "roof.lower_run", "roof.width",
    )


def _wing_faults(ledger: Ledger) -> Iterator[Finding]:
    roof = ledger.job.roof
    length, width = roof.length, roof.width
    wide, out = roof.wing_width, roof.wing_projection
    eave, rake = roof.eave_overhang, roof.rake_overhang

    def said(value: float) -> str:
        return show(value, Kind.LENGTH, ledger.job.units)

    if wide is not None and width is not None and wide > width + SAME:
        yield _stop(
            "wing_wide", f"The wing is {said(wide)} wide; the main part is {said(width)}.",
            f"Give a wing of {said(width)} or less: with equal pitches a wider one would stand "
            "above the main ridge. Or take the wider part as the main one.",
            "roof.wing_width", "roof.width",
        )
    if eave is None or rake is None:
        return
    if out is not None and out + rake - eave <= SAME:
        yield _stop(
            "wing_short",
            f"The wing stands out {said(out)}, which does not clear the main part's eave.",
            f"Give more than {said(eave - rake)}: the eave overhang less the rake overhang.",
            "roof.wing_projection", "roof.eave_overhang", "roof.rake_overhang",
        )
    if length is None or wide is None:
        return
    if roof.building is Building.ELL and width is not None:
        least = max(wide + 2 * eave, width / 2 + eave) - eave - rake
        if length <= least + SAME:
            yield _stop(
                "main_short",
                f"The main part is {said(length)} long, which leaves it no eave beside the wing.",
                f"Give more than {said(least)}, or take the longer part as the main one.",
                "roof.length", "roof.wing_width",
            )
    left = roof.wing_left
    if roof.building is Building.CROSS and left is not None:
        first, last = max(0.0, eave - rake), length + min(0.0, rake - eave) - wide
        if last < first - SAME:
            yield _stop(
                "wing_outside",
                f"A wing {said(wide)} wide with its eaves does not fit along {said(length)}.",
                f"Give a wing of {said(max(0.0, wide + last - first))} or less.",
                "roof.wing_width", "roof.length",
            )
        elif not first - SAME <= left <= last + SAME:
            yield _stop(
                "wing_outside",
                f"A wing {said(left)} from the left end reaches past the main part's ends.",
                f"Give {said(first)} to {said(last)}, so that its eaves stay between the rakes.",
                "roof.wing_left", "roof.wing_width", "roof.length",
            )
