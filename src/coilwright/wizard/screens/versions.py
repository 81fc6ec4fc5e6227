"""Earlier versions of a job: one is picked and put in its place."""

from __future__ import annotations

import datetime
from collections.abc import Callable, Sequence

from coilwright.store import Entry, Store, StoreError
from coilwright.store.files import Seen
from coilwright.units import System, show_date
from coilwright.wizard.context import Context, Say
from coilwright.wizard.literal import escape_controls
from coilwright.wizard.screens.base import SizedScreen
from coilwright.wizard.screens.pick import PickScreen
from coilwright.wizard.widgets.columns import fit


def put_back_version(
    screen: SizedScreen, store: Store, entry: Entry | None, done: Callable[[], object]
) -> None:
    """Ask which version of a job is wanted, and put it back; what is there becomes a version.

    entry: the marked job, if one is. done: called once the job's file is another.
    """
    say = screen.say
    if entry is None:
        say("Mark one of your own jobs first.")
        return
    seen = Seen(store.stamp(entry.path))
    kept = store.versions(entry.path)
    if not kept:
        say("No earlier version of this job is kept yet.")
        return

    def put_back(version: Entry) -> None:
        job = store.bring_back(entry.path, version.path, seen)
        done()
        say(f"{escape_controls(job.title)} is as it was saved at "
            f"{_when(version.changed)}; what it was is a version now.")

    screen.app.push_screen(*_pick(entry.title, kept, put_back, say))


def put_version_into(context: Context) -> None:
    """Ask which version of the job that is open is wanted, and take it as one change of the job."""
    session, say = context.session, context.say
    session.seal()
    kept = [] if session.path is None else session.store.versions(session.path)
    if not kept:
        say("No earlier version of this job is kept yet.")
        return

    def put_back(version: Entry) -> None:
        job, when = session.store.load(version.path), _when(version.changed)
        if not session.change(job, f"Version of {when}"):
            say("That version is as the job is now.")
            return
        session.seal()
        context.changed()
        say(f"The job is as it was saved at {when}; Ctrl+Z takes that back.", timeout=10)

    context.open(*_pick(session.job.title, kept, put_back, say))


def _pick(
    title: str, kept: Sequence[Entry], put_back: Callable[[Entry], None], say: Say
) -> tuple[PickScreen, Callable[[str | None], None]]:
    """The screen with the versions of a job, and what puts the picked one back, or says why not."""
    lines = tuple(
        f"{number:2}  {_when(one.changed):21}  {fit(one.title, 20)}  {fit(one.state, 30)}"
        for number, one in enumerate(kept, 1)
    )

    def picked(line: str | None) -> None:
        if line is None:
            return
        try:
            put_back(kept[lines.index(line)])
        except StoreError as error:
            say(str(error), title="Not put back", severity="error", timeout=15)

    return PickScreen(f"Put back: {title}", lines, ""), picked


def _when(moment: datetime.datetime) -> str:
    """Day and time, to the second: versions can follow upon each other."""
    return f"{show_date(moment.date(), System.US)} {moment:%H:%M:%S}"
