"""What the run sheet says of a coil as it came: what was decided on it and why, what stands
against it, its length and its weight. Who runs it has no other paper."""

from __future__ import annotations

from collections.abc import Iterator
from typing import assert_never

from coilwright.job.receiving import Decision, coil_name
from coilwright.plan.coils.as_several import Unshared
from coilwright.plan.coils.run import Run, RunCoil
from coilwright.plan.receiving.report import ArrivalReport, Verdict
from coilwright.sheets.blocks import Block, Inline, Text, joined, line, paragraph, strong
from coilwright.sheets.names import figure_text
from coilwright.units import Kind, System, show
from coilwright.values.finding import Level, worst_first
from coilwright.words.counting import capitalized, counted, in_series


def several_words(run: Run, system: System) -> Iterator[Block]:
    """Of an ordered coil that came as several: that each has a list of its own, or that the list
    could not be shared out to them, and what is short."""
    for one in run.unshared:
        yield paragraph(strong(
            f"STOP: {came_as_words(one)}. {_why_unshared(one, system)} Below it stands as one "
            "coil, which nobody has: cut nothing by that list."),
            " Enter in Receiving what each holds, or have the rest sent, before it is loaded.")
    for number in dict.fromkeys(coil.order_number for coil in run.coils if coil.is_part):
        parts = [coil for coil in run.coils if coil.is_part and coil.order_number == number]
        yield paragraph(
            strong(f"{capitalized(coil_name(number))} came as several coils: "
                   f"{counted(len(parts), 'load')} of it below, each with its own list, within "
                   "what that coil came at."),
            " Each loses a thread-up and a tail. Cut by no earlier list.",
            strong(" They hold the list only where no spare is kept: what is spoiled may have no "
                   "metal to be made from again.") if number in run.bare else "")


def came_as_words(one: Unshared) -> str:
    """That an ordered coil came as several, and which."""
    names = in_series([coil_name(None, own.arrival) or "one with neither tag nor lot"
                       for own in one.came])
    return f"{coil_name(one.number)} came as {counted(len(one.came), 'coil')}, {names}"


def _why_unshared(one: Unshared, system: System) -> str:
    if one.short is None:
        return "One of them has no length yet, so its list cannot be shared out to them."
    if one.short > 0:
        return (f"Together they are {show(one.short, Kind.LENGTH, system)} short of its list, by "
                "the least they can be.")
    return "No way was found to share its list out to them, panel by panel."


def decided_words(coil: RunCoil) -> Iterator[Inline]:
    """Of each coil that came for it: that it is on hold; else that it is taken knowingly, by whom
    and why, and what stands against it. Its remark stands with either.

    Each names its coil where several came for one of the order. Of one that was refused or sent
    back while nothing came in its place, that there is nothing to run.
    """
    for one in coil.gone:
        yield strong(f"{capitalized(one.name)}: {one.verdict}, and nothing has come in its "
                     "place: there is nothing to run")
    for one in coil.came:
        whose = one.name if len(coil.came) > 1 else ""
        match one.verdict:
            case Verdict.HOLD:
                yield strong("ON HOLD in Receiving: do not run "
                             f"{whose or 'this coil'} before that is settled")
            case Verdict.TAKEN | Verdict.ACCEPT | Verdict.OPEN:
                if one.arrival.decision is Decision.TAKEN:
                    yield _of(whose, strong("Taken knowingly"), _by_whom(one))
                yield from (_of(whose, said) for said in _against(one))
            case Verdict.REFUSED | Verdict.SENT_BACK:
                continue  # it counts no more, and the run has none of it
            case _:
                assert_never(one.verdict)
        if remark := one.arrival.remark.strip().rstrip("."):
            yield _of(whose, f"Remark: {remark}")


def _of(whose: str, *said: Inline) -> Text:
    return line(f"{capitalized(whose)}: " if whose else "", *said)


def _by_whom(one: ArrivalReport) -> str:
    by, why = one.arrival.decided_by.strip(), one.arrival.reason.strip().rstrip(".")
    return f"{f' by {by}' if by else ''}{f': {why}' if why else ''}"


def _against(one: ArrivalReport) -> Iterator[Text]:
    """The faults that were seen, then what its measures say against it, the gravest first."""
    if one.faults:
        yield line(strong(f"Seen on it: {', '.join(dict.fromkeys(one.faults))}"))
    for found in worst_first(one.findings):
        match found.level:
            case Level.STOP:
                yield line(strong(found.what.rstrip(".")))
            case Level.CARE:
                yield line(found.what.rstrip("."))
            case Level.NOTE:
                continue
            case _:
                assert_never(found.level)


def as_it_came(coil: RunCoil, system: System) -> Iterator[Inline]:
    """Length and weight of the one coil that came, by each measure; which the list counts by."""
    (one,) = coil.came
    assert coil.counted is not None
    ways = joined([line(figure_text(way.best, system), f" {way.name}")
                   for way in one.ways], ", ")
    yield line("As it came: ", ways)
    yield line(f"The list counts {coil.counted.name}",
               ", the shorter of two that disagree" if one.apart else "", ": from ",
               figure_text(coil.counted.least, system), " to ",
               figure_text(coil.counted.most, system))
    if one.weight is not None:
        by = "a scale" if one.arrival.weighed is not None else "its tag"
        yield line("It weighs ", figure_text(one.weight, system), f" by {by}")
