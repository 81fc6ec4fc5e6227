"""How the rows of the start screen read."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from textual.content import Content
from textual.widgets.option_list import Option

from coilwright.store import Entry, StoreError
from coilwright.store.claims import ClaimsByJob, claim_words
from coilwright.units import show_date
from coilwright.wizard.job_list import MOST_SHOWN, Row
from coilwright.wizard.literal import escape_controls, plain
from coilwright.wizard.widgets.columns import cells, fit, hang, pad

_WITH_ROOM = 108
"""Cells from which a name of some words is read whole; narrower, how far a job is has the room."""
_WITH_TIME = 100
"""Cells from which the time stands with the day; narrower, how far a job is has the room."""


def heading(text: str, *, airy: bool = False) -> Option:
    """What the rows below are; airy: there is room for a line above it."""
    above = "\n" if airy else ""
    return Option(Content.styled(f"{above} {text}", "bold"), disabled=True)


def job_rows(rows: Sequence[Row], claims: ClaimsByJob, width: int) -> list[Option]:
    """Saved jobs, as many as are shown at once."""
    name = _names_room([row.entry for row in rows[:MOST_SHOWN]], width)
    made = [_job_row(row.entry, claim_words(claims, row.entry.path), width, name)
            for row in rows[:MOST_SHOWN]]
    if (more := len(rows) - MOST_SHOWN) > 0:
        made.append(Option(plain(f"  and {more:,} more: / finds them", "dim"), disabled=True))
    return made


def _names_room(entries: Sequence[Entry], width: int) -> int:
    """Cells of the names of saved jobs: all of them whole where how far each is leaves the room."""
    least = _name_room(width)
    if not entries:
        return least
    free = width - 8 - max(cells(f"{_state(one)}{_when(one, width)}") for one in entries)
    return max(least, min(free, max(cells(escape_controls(one.title)) for one in entries)))


def _state(entry: Entry) -> str:
    return f"damaged: {entry.state}" if entry.damaged else entry.state


def _when(entry: Entry, width: int) -> str:
    time = f" {entry.changed:%H:%M}" if width >= _WITH_TIME else ""
    return f"{show_date(entry.changed.date(), entry.units)}{time}"


def _job_row(entry: Entry, claimed: str, width: int, name: int) -> Option:
    """A saved job: its name, in so many cells, its state, when it changed, and coils that another
    job takes too."""
    when, state = _when(entry, width), _state(entry)
    room = width - name - 6 - len(when) - 2
    said = "\n" + fit(f"    {escape_controls(claimed)}", width - 2) if claimed else ""
    return Option(Content.assemble(
        f"  {pad(escape_controls(entry.title), name)} ",
        (pad(escape_controls(state), room), "bold"),
        f" {when}", said,
    ), id=f"job:{entry.path}")


def demo_rows(width: int, words: Sequence[str] = ()) -> list[Option]:
    """The demo jobs; where there are words, in small letters, those that all of them are said of.
    """
    from coilwright.store.shipped import demo_entries

    try:
        jobs = demo_entries()
    except StoreError as error:
        return [Option(plain(f"  {error}"), disabled=True)]
    return [_shipped_row("demo", key, job.title, _first_sentence(job.about), width)
            for key, job in jobs.items() if _has(words, key, job.title, job.about)]


def found_elsewhere(words: Sequence[str], folder: Path, width: int) -> list[Option]:
    """What a search finds beside saved jobs: demo jobs and practice jobs, under their headings."""
    from coilwright.sheets.practice import task_words
    from coilwright.store.practice import practices

    try:
        known = practices(folder)[0]
    except StoreError:
        known = {}
    found = {
        "Demo jobs": demo_rows(width, words),
        "Practice jobs": [_shipped_row("practice", key, one.title, task_words(one), width)
                          for key, one in known.items()
                          if _has(words, key, one.title, one.teaches)],
    }
    return [option for title, rows in found.items() if rows for option in (heading(title), *rows)]


def _has(words: Sequence[str], *texts: str) -> bool:
    said = " ".join(texts).casefold()
    return all(word in said for word in words)


def _shipped_row(kind: str, key: str, title: str, about: str, width: int) -> Option:
    """A demo job or a practice job; a line that is too short for what it is goes on below."""
    name = _name_room(width)
    return Option(hang((
        (f"  {pad(escape_controls(title), name)} ", ""),
        (escape_controls(about), "dim"),
    ), width - 4, name + 3), id=f"{kind}:{key}")


def _name_room(width: int) -> int:
    """Cells of a job's name; what is said of it is read whole on a narrow terminal too."""
    return 38 if width >= _WITH_ROOM else 28 if width >= 88 else 24


def _first_sentence(about: str) -> str:
    """What a demo job is, without saying again that it is one."""
    said = about.removeprefix("An invented demo").lstrip(": ")
    return f"{said.split('. ')[0].rstrip('.')}."
