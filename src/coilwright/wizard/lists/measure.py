"""What is asked of a row: its measures, each one box of the row's form."""

from __future__ import annotations

import dataclasses
from collections.abc import Callable
from dataclasses import dataclass
from enum import StrEnum
from typing import Any, Generic, TypeVar, cast

from coilwright.job.answers import Answer, Form
from coilwright.job.job import Job
from coilwright.job.rows.place import RowPlace
from coilwright.units import Kind

Row = TypeVar("Row")


@dataclass(frozen=True)
class Asked:
    """What one box of a form asks: an answer, one line of help, and what an empty box means.

    table: several rows may be pasted into the box; their lines are joined. more: what F1 says
    besides, such as how it is measured. unasked: why it is not asked, see `Measure`.
    """

    answer: Answer
    help: str
    empty: Any = None
    table: bool = False
    more: str = ""
    unasked: str = ""


@dataclass(frozen=True, kw_only=True)
class Measure(Generic[Row]):
    """One measure of a row.

    spec: how it is read and shown, where plain answers do not do. applies: whether it is asked,
    by the job, the row (None while it is only typed) and the row's key. offered: the same of
    whether it has its place in the form, dim, while it is not asked: so for all that is asked by
    what is typed. unasked: why it then is not, a few words, and after a semicolon what would have
    it asked. get, put: where it is not the row's field of its name. The others are those of an
    `Answer`.
    """

    name: str
    label: str
    help: str
    form: Form = Form.QUANTITY
    kind: Kind | None = None
    bare: tuple[str, str] | None = None
    choices: tuple[StrEnum, ...] = ()
    needed: bool = False
    zero: bool = False
    negative: bool = False
    low: float | None = None
    high: float | None = None
    spec: type[Answer] = Answer
    empty: Any = None
    applies: Callable[[Job, Any, str], bool] | None = None
    offered: Callable[[Job, Any, str], bool] | None = None
    unasked: str = ""
    get: Callable[[Row], Any] | None = None
    put: Callable[[Row, Any], Row] | None = None
    doubt: Callable[[Any], str] = lambda _value: ""
    table: bool = False
    more: str = ""

    def asked(self, place: RowPlace[Row], index: int) -> Asked:
        """What is asked of the row at an index of a job's list."""
        key = place.row_key(index)

        def applies(job: Job) -> bool:
            rows = place.get(job)
            return index < len(rows) and (
                self.applies is None or self.applies(job, rows[index], key))

        def offered(job: Job) -> bool:
            rows = place.get(job)
            return index < len(rows) and (
                self.offered is not None and self.offered(job, rows[index], key))

        def get(job: Job) -> Any:
            rows = place.get(job)
            return self.value(rows[index]) if index < len(rows) else None

        def put(job: Job, value: Any) -> Job:
            return place.replace(job, index, self.changed(place.row(job, index), value))

        return self._asked(key, applies, offered, get, put)

    def typed(self, key: str) -> Asked:
        """What is asked of a row that is only typed yet: its texts lie in a job under a key."""
        def applies(job: Job) -> bool:
            return self.applies is None or self.applies(job, None, key)

        def offered(job: Job) -> bool:
            return self.offered is not None and self.offered(job, None, key)

        return self._asked(key, applies, offered, lambda _job: None, lambda job, _value: job)

    def value(self, row: Row) -> Any:
        """The measure of a row."""
        return getattr(row, self.name) if self.get is None else self.get(row)

    def changed(self, row: Row, value: Any) -> Row:
        """The row with another measure."""
        if self.put is not None:
            return self.put(row, value)
        made: Row = dataclasses.replace(cast("Any", row), **{self.name: value})
        return made

    def _asked(
        self, key: str, applies: Callable[[Job], bool], offered: Callable[[Job], bool],
        get: Callable[[Job], Any], put: Callable[[Job, Any], Job],
    ) -> Asked:
        answer = self.spec(
            f"{key}.{self.name}", self.label, self.form, self.kind, self.bare, self.choices,
            needed=self.needed, zero=self.zero, negative=self.negative, low=self.low,
            high=self.high, asked=applies, offered=offered, getter=get, setter=put)
        return Asked(answer, self.help, self.empty, self.table, self.more, self.unasked)


def always(_job: Job, _row: Any, _key: str) -> bool:
    """For `Measure.offered`: its place in the form is there, asked or not."""
    return True
