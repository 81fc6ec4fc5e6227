"""A quote in the columns of the list of quotes, and what stands over them."""

from __future__ import annotations

from coilwright.drawing.cost import landed_words
from coilwright.plan.quotes.report import Group, QuoteReport, Share
from coilwright.sheets.quotes import quoted_words, share_words
from coilwright.units import System, short_month
from coilwright.wizard.literal import escape_controls
from coilwright.wizard.widgets.columns import cells, fit, pad, right

_WIDE, NARROW = 96, 75
"""Cells from which the cost by the square stands beside the others, and what was quoted does."""
_SIGNS = {Group.COMPLETE: "", Group.INCOMPLETE: "…", Group.MISSES: "!", Group.FAULTY: "×",
          Group.KEPT_BACK: ""}


def _name_room(width: int) -> int:
    """Cells of a supplier's name: what the other columns leave, within what names take."""
    others = 68 if width >= _WIDE else 57 if width >= NARROW else 40
    return max(17, min(32, width - others))


def _name(report: QuoteReport) -> str:
    return f"{'✓ ' if report.quote.awarded else ''}{escape_controls(report.supplier)}"


def name_is_cut(report: QuoteReport, width: int) -> bool:
    """Whether the column has no room for the supplier's whole name."""
    return cells(_name(report)) > _name_room(width)


def quote_row(report: QuoteReport, rank: int | None, system: System, width: int) -> str:
    """A quote in a row: rank, supplier, quoted, lands at, per square, arrives."""
    sign = str(rank) if rank is not None else _SIGNS[report.group]
    row = [right(sign, 2), pad(_name(report), _name_room(width))]
    if width >= NARROW:
        row.append(pad(quoted_words(report), 16))
    row.append(right(landed_words(report), 20))
    if width >= _WIDE:
        row.append(right(share_words(report, Share.ROOF, system), 10))
    return fit(f"{' '.join(row)}  {_days(report, system)}", width)


def quote_heads(width: int) -> str:
    """What stands over the columns of `quote_row`."""
    row = ["  ", pad("supplier", _name_room(width))]
    if width >= NARROW:
        row.append(pad("quoted", 16))
    row.append(right("lands at", 20))
    if width >= _WIDE:
        row.append(right("by area", 10))
    return fit(f"{' '.join(row)}  arrives  spare", width)


def _days(report: QuoteReport, system: System) -> str:
    """The day of arrival and the days to spare, short: `Mar 30    13 d`; in metric `30 Mar`."""
    day, slack = report.arrives, report.slack
    if day is None:
        days = report.quote.lead_time
        return "?" if days is None else f"in {days} d"
    spare = "" if slack is None else f"{slack:>6} d"
    month = short_month(day)
    short = pad(f"{month} {day.day}" if system is System.US else f"{day.day} {month}", 6)
    return f"{short}{spare}".rstrip()
