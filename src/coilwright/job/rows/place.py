"""Where a list of rows lives in a job, and every change that all such lists share.

A row's standing, and what was typed for it and could not be read, lie in the job beside those of
the answers, under the list's key and the row's number: `roof.planes.0` and `roof.planes.0.eave`.
They follow their row.
"""

from __future__ import annotations

import dataclasses
from collections.abc import Callable
from dataclasses import dataclass
from typing import Generic, TypeVar

from coilwright.job.edit import carried
from coilwright.job.job import Job
from coilwright.job.limits import no_room
from coilwright.values.standing import Standing

Row = TypeVar("Row")


@dataclass(frozen=True)
class RowPlace(Generic[Row]):
    """One list of rows in a job. Every change returns a new job; the old one stays as it was.

    key: what the keys of rows begin with, such as `roof.planes.`. get: the rows of a job. put: the
    job with other rows. All changes raise IndexError for a row that is not there.
    """

    key: str
    get: Callable[[Job], tuple[Row, ...]]
    put: Callable[[Job, tuple[Row, ...]], Job]

    def row_key(self, index: int) -> str:
        """The key of a row's standing; those of its measures begin with it."""
        return f"{self.key}{index}"

    def row(self, job: Job, index: int) -> Row:
        """The row at an index. Raises IndexError where there is none."""
        rows = self.get(job)
        if not 0 <= index < len(rows):
            raise IndexError(index)
        return rows[index]

    def standing(self, job: Job, index: int) -> Standing:
        """How far a row's measures can be trusted."""
        self.row(job, index)
        return job.standing.get(self.row_key(index), Standing.SURE)

    def with_standing(self, job: Job, index: int, standing: Standing) -> Job:
        """The job with a row's measures sure or a guess."""
        self.row(job, index)
        marks = {k: v for k, v in job.standing.items() if k != self.row_key(index)}
        if standing is not Standing.SURE:
            marks[self.row_key(index)] = standing
        return dataclasses.replace(job, standing=marks)

    def unreadable(self, job: Job, index: int) -> bool:
        """Whether something typed for a row could not be read."""
        return any(key.startswith(f"{self.row_key(index)}.") for key in job.typed)

    def no_room(self, job: Job, more: int = 1) -> str:
        """Why no more rows can be put in, in one sentence; empty where they can."""
        name = self.key.rstrip(".").rpartition(".")[2]
        fault = no_room(name, len(self.get(job)) + more)
        return f"This list is full: {fault}." if fault else ""

    def add(self, job: Job, *rows: Row) -> Job:
        """The job with rows put at the end."""
        return self.put(job, (*self.get(job), *rows))

    def insert(self, job: Job, index: int, *rows: Row) -> Job:
        """The job with rows put in before the row at an index, or at the end.

        Raises IndexError for an index past the end.
        """
        old = self.get(job)
        if not 0 <= index <= len(old):
            raise IndexError(index)
        return self._arranged(job, (*old[:index], *rows, *old[index:]),
                              lambda i: (i if i < index else i + len(rows),))

    def replace(self, job: Job, index: int, row: Row) -> Job:
        """The job with another row in a place; its standing is kept."""
        self.row(job, index)
        old = self.get(job)
        return self.put(job, (*old[:index], row, *old[index + 1 :]))

    def duplicate(self, job: Job, index: int) -> Job:
        """The job with a row's double right after it, marks and all."""
        self.row(job, index)
        old = self.get(job)
        return self._arranged(job, (*old[: index + 1], *old[index:]),
                              lambda i: (i, i + 1) if i == index else (i + (i > index),))

    def delete(self, job: Job, index: int) -> Job:
        """The job without a row."""
        self.row(job, index)
        old = self.get(job)
        return self._arranged(job, (*old[:index], *old[index + 1 :]),
                              lambda i: () if i == index else (i - (i > index),))

    def move(self, job: Job, index: int, to: int) -> Job:
        """The job with a row moved to another place; those between move up or down by one."""
        self.row(job, index)
        self.row(job, to)
        old = self.get(job)
        order = [i for i in range(len(old)) if i != index]
        order.insert(to, index)
        return self._arranged(job, tuple(old[i] for i in order), lambda i: (order.index(i),))

    def _arranged(
        self, job: Job, rows: tuple[Row, ...], places: Callable[[int], tuple[int, ...]]
    ) -> Job:
        """The job with other rows; places: where the row of an old index stands now."""
        moved = dataclasses.replace(
            job,
            standing=carried(job.standing, self.key, places),
            typed=carried(job.typed, self.key, places),
        )
        return self.put(moved, rows)
