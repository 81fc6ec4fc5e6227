"""The saved jobs as a list: read once, and again only where a file changed. No screens here.

A job's file says how far the job is; one that does not is planned. With thousands of jobs even
reading is too long to wait for, so the list is there at once with what is known, and the rest is
read while it is looked at.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from coilwright.store import SUFFIX, Entry, Stamp, Store
from coilwright.store.clock import local_time
from coilwright.units import System

MOST_SHOWN = 300
"""Jobs shown at a time: each key lays them out anew. Finding looks at all of them."""


@dataclass(frozen=True, slots=True)
class Row:
    """One saved job: its entry, and whether it was read yet; until then it has its file's name."""

    entry: Entry
    read: bool

    def answers_to(self, words: list[str]) -> bool:
        """Whether all words, in small letters, stand in its title, file name or state."""
        text = f"{self.entry.title} {self.entry.name} {self.entry.state}".casefold()
        return all(word in text for word in words)


class JobList:
    """The jobs of a store, the latest first."""

    def __init__(self, store: Store) -> None:
        self.store = store
        self._read: dict[Path, tuple[Stamp, Entry]] = {}
        self._rows: dict[Path, Row] = {}

    def known(self) -> list[Row]:
        """All jobs that were there when the folder was last looked into, as far as read by now."""
        return list(self._rows.values())

    def rows(self) -> list[Row]:
        """All jobs that are there now, with what is known of them. Raises OSError."""
        self._rows = {}
        if not self.store.jobs_folder.is_dir():
            return []
        found = [
            (path, stamp) for path in self.store.jobs_folder.glob(f"*{SUFFIX}")
            if (stamp := self.store.stamp(path)) is not None
        ]
        found.sort(key=lambda pair: pair[1].changed, reverse=True)
        self._rows = {path: self._row(path, stamp) for path, stamp in found}
        return self.known()

    def _row(self, path: Path, stamp: Stamp) -> Row:
        known = self._read.get(path)
        if known is not None and known[0] == stamp:
            return Row(known[1], True)
        name = path.name.removesuffix(SUFFIX)
        title = known[1].title if known is not None else name
        units = known[1].units if known is not None else System.US
        return Row(Entry(path, name, title, "…", local_time(stamp.changed), units=units), False)

    def read_rest(self, rows: list[Row]) -> Iterator[Entry]:
        """Read those not read yet, one by one."""
        for row in rows:
            if not row.read:
                entry = self._entry(row.entry.path)
                if entry is not None:
                    yield entry

    def _entry(self, path: Path) -> Entry | None:
        listed = self._rows  # by another thread, which may list the folder anew meanwhile
        stamp = self.store.stamp(path)
        if stamp is None:
            return None
        entry = self.store.entry(path)
        self._read[path] = (stamp, entry)
        if path in listed:
            listed[path] = Row(entry, True)
        return entry
