"""What the run sheet says of a coil as it came: what was decided on it and why, what stands
against it, its length and its weight. Who runs it has no other paper."""

from __future__ import annotations

from collections.abc import Iterator
from typing import assert_never

from coilwright.job.receiving import Decision
from coilwright.plan.coils.run import RunCoil
from coilwright.plan.receiving.report import ArrivalReport, Verdict
from coilwright.sheets.blocks import Inline, Text, joined, line, strong
from coilwright.sheets.names import figure_text
from coilwright.units import System
from coilwright.values.finding import Level, worst_first
from coilwright.words.counting import capitalized


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
