"""Coverage widths compared: what each takes of metal, panels and seams, and what is against it.

Worked out when asked for, one plan for each width; never with every plan.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace

from coilwright.calc.on_hand import length_mass
from coilwright.calc.roof.layout import Panel
from coilwright.calc.roof.panels import seam_lengths
from coilwright.job.answers import ANSWERS
from coilwright.job.answers.panel import PanelKey
from coilwright.job.choices import YesNo
from coilwright.job.job import Job
from coilwright.plan.coils.sold import sells_any_length
from coilwright.plan.plan import plan
from coilwright.plan.quotes.as_sold import coils_not_sold
from coilwright.plan.result import Plan
from coilwright.units import Kind, System
from coilwright.values.figure import Figure, compute
from coilwright.values.finding import Level
from coilwright.values.keys import Key
from coilwright.values.rounding import Rounding, show_rounded, step_near
from coilwright.values.source import LAYOUT
from coilwright.values.standing import Standing

_LOOSE = 1e-6
_HALF_UP_TO = 6.0
"""Ranges no wider than this [in] are gone through by half inches (or 10 mm), others by inches."""
_MOST = 60
"""Widths compared at most; a wider range is gone through in larger steps."""
_METRIC_STEP = 10 / 25.4


@dataclass(frozen=True, slots=True)
class WidthRow:
    """One coverage width and what follows from it. Figures are None where they lack something.

    seams: length of all seams between panels. slit_drop: weight of what slitting the best of the
    supplier's masters leaves, over the length ordered. takes: the weight it takes before coils are
    as long as their supplier sells them; None where any length is sold. trim: length of panel coil
    that trim takes. against: sentences; none in practice. chosen: the job's own width. length, mass
    and cost are None too where the supplier sells no coil that can be used, for none can be bought
    so.
    """

    coverage: float
    strip: Figure | None
    panels: Figure | None
    seams: Figure | None
    length: Figure | None
    mass: Figure | None
    takes: Figure | None
    slit_drop: Figure | None
    trim: Figure | None
    cost: Figure | None
    against: tuple[str, ...]
    chosen: bool


_last: list[tuple[Job, tuple[WidthRow, ...]]] = []


def compare(job: Job) -> tuple[WidthRow, ...]:
    """A row for each coverage width the machine's profile can be set to, narrowest first.

    Empty while the profile's range is not known. The last job's rows are kept.
    """
    for known, rows in _last:
        if known == job:
            return rows
    rows = tuple(compared(job))
    _last[:] = [(job, rows)]
    return rows


def compared(
    job: Job, canceled: Callable[[], bool] | None = None,
    progress: Callable[[int, int], None] | None = None,
) -> Iterator[WidthRow]:
    """As `compare`, for a worker: it can be canceled, and tells how many of how many are done.

    No row comes before all are worked out, for seams are held against the least. Not kept.
    """
    rows: list[WidthRow] = []
    unfit: list[dict[str, str]] = []
    wanted = widths(job)
    for width in wanted:
        if canceled is not None and canceled():
            return
        if progress is not None:
            progress(len(rows), len(wanted))
        row, coils = _row(job, width)
        rows.append(row)
        unfit.append(coils)
    fewest = min((row.seams.value for row in rows if row.seams is not None), default=0.0)
    for row, coils in zip(rows, unfit, strict=True):
        if job.practicing:  # what argues against a width is what there is to be found
            yield replace(row, against=())
            continue
        # A coil that fits at no width argues against none of them.
        said = (words for key, words in coils.items() if any(key not in other for other in unfit))
        yield _with_seams(job, replace(row, against=(*row.against, *said)), fewest)


def widths(job: Job) -> tuple[float, ...]:
    """The coverage widths worth comparing [in]: by steps, both ends, and the job's own."""
    profile = job.machine.profile(job.panel.seam, job.panel.leg)
    if profile is None or profile.narrowest is None or profile.widest is None:
        return ()
    low, high = profile.narrowest, profile.widest
    take_up = job.panel.take_up or 0.0
    if take_up and job.machine.narrowest_strip is not None:
        low = max(low, job.machine.narrowest_strip - take_up)
    if take_up and job.machine.widest_strip is not None:
        high = min(high, job.machine.widest_strip - take_up)
    if job.job.engineered is YesNo.YES and job.panel.report_widest is not None:
        high = min(high, job.panel.report_widest)
    if low > high + _LOOSE or low <= 0:
        return ()
    step = 0.5 if high - low <= _HALF_UP_TO + _LOOSE else 1.0
    if job.units is System.METRIC:
        step = _METRIC_STEP * (1 if step < 1 else 2)
    step *= max(1, math.ceil((high - low) / step / _MOST))
    first = math.ceil(low / step - _LOOSE)
    found = [low, high]
    found += [n * step for n in range(first, math.floor(high / step + _LOOSE) + 1)]
    own = job.panel.coverage
    # In practice it is there like any other: that it is left out would say that it is wrong.
    if own is not None and (job.practicing or low - _LOOSE <= own <= high + _LOOSE):
        found.insert(0, own)
    kept: list[float] = []
    for width in found:
        if all(abs(width - one) > _LOOSE for one in kept):
            kept.append(width)
    return tuple(sorted(kept))


def _row(job: Job, width: float) -> tuple[WidthRow, dict[str, str]]:
    """The row of one width, and apart from it why coils on hand do not fit, by their key."""
    own = job.panel.coverage
    chosen = own is not None and abs(own - width) <= _LOOSE
    done = plan(job if chosen else ANSWERS[PanelKey.COVERAGE].put(job, width))
    figures = done.figures
    # Of a roof whose pitch nobody knows no plane is there, and no seam is known: none is not 0.
    seams = None if Key.ROOF_AREA not in figures else Figure(
        Key.COMPARE_SEAMS, "Seams between panels",
        math.fsum(plane.alike * seam_length(plane.panels) for plane in done.planes),
        Kind.LENGTH, LAYOUT, figures[Key.PANELS_LENGTH].standing if Key.PANELS_LENGTH in figures
        else Standing.GUESS, note="how far each panel and its neighbor reach up together",
    )
    against = [
        f.what for f in done.findings
        # A note too: it comes with the width.
        if (PanelKey.COVERAGE in f.answers and not f.key.endswith(".unfit"))
        or (f.level is not Level.NOTE and f.key.startswith(("coil.", "panels.", "trim.")))
    ]
    panel = job.panel
    if job.job.engineered is YesNo.YES and not (panel.report and panel.report_widest):
        against.append("A tested assembly is specified, and no tested width is known here to hold "
                       "this one to.")
    unsold = [*coils_not_sold(done.job, figures, done.coils, tried=True)]
    if unsold:
        against.insert(0, f"The size sold does not fit this width: {'; '.join(unsold)}.")
    unfit = {f.key: f.what for f in done.findings if f.key.endswith(".unfit")}
    bought = {} if unsold else figures
    row = WidthRow(
        width, figures.get(Key.STRIP_WIDTH), figures.get(Key.PANELS_COUNT), seams,
        bought.get(Key.COIL_LENGTH_ORDERED), bought.get(Key.COIL_MASS_ORDERED), _takes(done),
        done.slits[0].drop_mass if done.slits and not unsold else None,
        figures.get(Key.TRIM_FROM_COIL), bought.get(Key.COIL_COST), tuple(against), chosen,
    )
    return row, unfit


def _takes(done: Plan) -> Figure | None:
    """The weight of what it takes, where the supplier of the order sells sizes or steps: what is
    bought of them can be the same at every width."""
    length = done.figures.get(Key.COIL_WANTED_LENGTH) or done.figures.get(Key.COIL_LENGTH_ORDERED)
    each = done.figures.get(Key.STRIP_MASS_PER_LENGTH)
    if sells_any_length(done.job.quotes.as_awarded) or length is None or each is None:
        return None
    return compute(Key.COMPARE_TAKES, "Takes, before sizes sold", length_mass, length, each,
                   rounding=Rounding.NEAREST)


def _with_seams(job: Job, row: WidthRow, fewest: float) -> WidthRow:
    if row.seams is None:
        return row
    more = row.seams.value - fewest
    if more <= _LOOSE or fewest <= 0:
        return row
    # No closer than so many meters of seam are read beside it.
    read = show_rounded(step_near(more, Kind.LENGTH, job.units), Kind.LENGTH, job.units)
    said = (
        f"{read} more seam to lock, clip and keep tight than the "
        "width with the least."
    )
    return replace(row, against=(*row.against, said))


def seam_length(panels: tuple[Panel, ...]) -> float:
    """Length of the seams on one plane [in]: where a panel lies beside one of the next strip."""
    return math.fsum(seam_lengths(panels))
