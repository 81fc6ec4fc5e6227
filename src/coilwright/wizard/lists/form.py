"""One declared form for lists of rows: their measures, how a row is shown, what may be done.

A list is one `RowForm`. The list on a step (`block.py`), the list over the wizard (`screen.py`) and
the form of one row (`entry.py`) are the same for all lists; what they show and do they take from
the declaration. Rows that live in a job need nothing else, see `job_rows.py`; rows kept elsewhere
bring what opens them, as the coils on hand do. No screens here.
"""

from __future__ import annotations

from collections.abc import Callable, Hashable, Mapping, Sequence
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any, Generic, Protocol, TypeVar

from coilwright.job.job import Job
from coilwright.job.rows.place import RowPlace
from coilwright.values.standing import Standing
from coilwright.wizard.lists.measure import Asked, Measure

if TYPE_CHECKING:
    from coilwright.drawing.line_work import LineWork
    from coilwright.wizard.session import Session

Row = TypeVar("Row")
Part = str | tuple[str, str]
"""A text, or a text and its style."""
STANDING = "standing"
"""The style of the word on how a row stands: a click turns it."""
Screens = Mapping[str, Callable[[Any, Any], Any]]
"""What makes the screens that a list's actions open, by their names: of the list and a subject."""
CLOSE = "close"
"""What closes a form, where an action's name is wanted."""


@dataclass(frozen=True)
class Line:
    """A row as a list shows it.

    key: the mark follows it. index: its place in the list; None: it cannot be changed here, and
    `fixed` says why, `as_sure` on what its standing rests. row: what the declaration shows it from.
    """

    key: Hashable
    index: int | None
    name: str
    row: Any = None
    fixed: str = ""
    as_sure: str = ""


@dataclass(frozen=True, kw_only=True)
class Outcome:
    """What came of an action, for the screen to carry out.

    say, failed: words for the user; failed, that something was not saved. changed: the rows did;
    redraw: only what is drawn. mark: the key of the line to be marked. entry: the place of the row
    whose form is to be opened, begun where it is new. screen: the name of a screen to be opened, on
    a subject where the list alone does not say it.
    gone: the row whose form is open is no longer there, or done with. unclear: boxes of the form
    cannot be read, so nothing was done. box: the measure whose box in the form is in hand next.
    """

    say: str = ""
    failed: str = ""
    changed: bool = False
    redraw: bool = False
    mark: Hashable = None
    entry: int | None = None
    begun: bool = False
    screen: str = ""
    subject: Any = None
    gone: bool = False
    unclear: bool = False
    box: str = ""


@dataclass(frozen=True, kw_only=True)
class Action:
    """Something a key does. name: what it is called between widgets and lists.

    keys: none where only the word does it. word: what is pressed by mouse beside the heading.
    job_only: its word stands there only where a job is worked on. do: what it does with the marked
    line; None for what all lists do alike: add, copy, delete, up, down, turn, guess, sure, undo,
    open, and on a step find and all. on_row: it is done to the marked row, so on a step that row's
    mark is shown first where it was not.
    """

    name: str
    keys: str
    label: str
    tooltip: str
    word: str = ""
    job_only: bool = False
    do: Callable[[Any, Line | None], Outcome] | None = None
    on_row: bool = False

    @property
    def needs_mark(self) -> bool:
        """Whether it is done to the marked row."""
        return self.on_row or (self.do is None and self.name in _ON_ROW)


STANDINGS = frozenset({"turn", "guess", "sure"})
"""Of what all lists do alike, what turns a row's standing."""
_ON_ROW = STANDINGS | {"open", "copy", "delete", "up", "down"}
"""Of what all lists do alike, what is done to a row."""


@dataclass(frozen=True, kw_only=True)
class ListView:
    """What stands around the rows of a list that opens over the wizard.

    about: on the marked line, by list, line and width. trouble: what is wrong with its file.
    foot: below all of it. scrolls: what is said about a line can be longer than its room.
    """

    title: Callable[[Any], str]
    hint: Callable[[Any], str]
    about: Callable[[Any, Line | None, int], Sequence[str]]
    trouble: Callable[[Any], str] = field(default=lambda _rows: "")
    foot: Callable[[Any], str] | None = None
    scrolls: bool = False


@dataclass(frozen=True, kw_only=True)
class EntryView:
    """What stands around the boxes of one row's form.

    title, about: by list and index; about: and the width, and with scrolls longer than its room.
    picture: beside the boxes, by list, index, width, height and line work. keys: of its own, beside
    Escape. buttons: name of an action or screen, and its words by list and index. opens_at: the box
    in hand first, by list and index; empty: the first. instead: what stands for an empty box.
    """

    title: Callable[[Any, int], str]
    about: Callable[[Any, int, int], Sequence[str]] | None = None
    picture: Callable[[Any, int, int, int, LineWork], list[str]] | None = None
    hint: str = "All is kept as you type; Escape closes"
    keys: tuple[Action, ...] = ()
    buttons: tuple[tuple[str, Callable[[Any, int], str]], ...] = ()
    label_width: int = 20
    opens_at: Callable[[Any, int], str] = lambda _rows, _index: ""
    instead: Callable[[Job], Mapping[str, str]] | None = None
    scrolls: bool = False


@dataclass(frozen=True, eq=False, kw_only=True)
class RowForm(Generic[Row]):
    """A list of rows, declared.

    key: names it in ids of keys and widgets. lines, show: its rows by an opened list, and each of
    them in cells for a width. name: of a row for labels of changes. new: the next row, None where
    a form makes it. added, copied, deleted: said, with {name} and {number}; added names the change
    too. empty: stands in the list while no row does; a function where it goes by the open list.
    no_row: said where one is wanted.
    unreadable_is_guess: text that cannot be read makes its row a guess while it stands there.

    On a step: heading, by rows shown and all rows; bars: words to press, by the names of actions;
    tallest: lines shown at once; columns: what stands over the rows, by width; below, below_title:
    text under the rows, by session and width; draws: the number of the plane that is drawn while a
    line is marked; find: the lines a search finds; enter: the action on a line that has no form;
    closed: takes what a screen returned, by list, the screen's name and its result.

    guessed: fills in what is usual for a row that becomes a guess, and says so. held: why a row may
    not be deleted, in a sentence; empty where it may. split: the texts of all boxes that a text for
    one of them fills, by the measures' names; none where it is that box's alone. taken: the job
    once a measure was typed for the row in a place, with what follows from it in that row.
    stands: how a line is shown to stand.
    """

    key: str
    measures: tuple[Measure[Row], ...]
    lines: Callable[[Any], Sequence[Line]]
    show: Callable[[Any, Sequence[Line], int], Sequence[Sequence[Part]]]
    actions: tuple[Action, ...]
    entry: EntryView
    empty: str | Callable[[Any], str]
    no_row: str
    place: RowPlace[Row] | None = None
    name: Callable[[Job, int], str] | None = None
    new: Callable[[Job], Row] | None = None
    added: str = "{name} added"
    copied: str = ""
    deleted: str = "{name} deleted; Ctrl+Z brings it back"
    unreadable_is_guess: bool = False
    heading: Callable[[int, int], str] = field(default=lambda _shown, _all: "")
    bars: tuple[tuple[tuple[str, ...], ...], ...] = ()
    tallest: int = 9
    columns: Callable[[int], str] | None = None
    below: Callable[[Session, int], list[str]] | None = None
    below_title: str = ""
    draws: Callable[[Line], int] | None = None
    find: Callable[[Sequence[Line], str], Sequence[Line]] | None = None
    find_hint: str = ""
    nothing_found: str = ""
    enter: str = ""
    closed: Callable[[Any, str, Any], Outcome] | None = None
    guessed: Callable[[Job, int], tuple[Job, str]] | None = None
    held: Callable[[Job, int], str] | None = None
    view: ListView | None = None
    split: Callable[[str, str], Mapping[str, str]] | None = None
    taken: Callable[[Any, Job, int], Job] | None = None
    stands: Callable[[Any, Line], Standing] | None = None

    def instead(self, rows: Opened) -> str:
        """What stands in the list while no row does."""
        return self.empty if isinstance(self.empty, str) else self.empty(rows)

    def action(self, name: str) -> Action | None:
        """The action of a name."""
        return next((action for action in self.actions if action.name == name), None)

    def asked(self, index: int) -> tuple[Asked, ...]:
        """What is asked of the row at an index of a job's list, in order."""
        assert self.place is not None
        return tuple(measure.asked(self.place, index) for measure in self.measures)


class Entry(Protocol):
    """One row while its form is open. All is said by the job that `job` gives."""

    @property
    def view(self) -> EntryView:
        """What stands around the boxes."""

    @property
    def asked(self) -> Sequence[Asked]:
        """The boxes, in order."""

    @property
    def done(self) -> tuple[str, str]:
        """What the first button does, an action's name or CLOSE, and its words."""

    def job(self) -> Job:
        """The job whose answers, and whose typed texts, the boxes show."""

    def there(self) -> bool:
        """Whether the row still is: a change taken back may have taken it along."""

    def title(self) -> str:
        """What stands on top."""

    def about(self, width: int) -> Sequence[str]:
        """What follows from the boxes, a line each."""

    def picture(self, width: int, height: int, work: LineWork) -> list[str]:
        """The drawing beside the boxes."""

    def buttons(self) -> Sequence[tuple[str, str]]:
        """Buttons of its own: the name of an action or screen, and the words."""

    def take(self, at: int, text: str) -> bool:
        """Take what was typed into a box. Returns whether the rows changed."""

    def left(self, at: int) -> Outcome | None:
        """A box was left. Returns what followed for other boxes, if anything did."""

    def do(self, name: str) -> Outcome:
        """Do what a key or a button says."""

    def close(self) -> Outcome:
        """Close; gone where that can be."""


class Opened(Protocol):
    """A list that is open: its declaration, and where its rows are changed.

    screens: those its actions may open, by name; what they return is taken by `closed`.
    """

    @property
    def form(self) -> RowForm[Any]:
        """The declaration."""

    @property
    def session(self) -> Session | None:
        """The job that is worked on; None where there is none."""

    @property
    def screens(self) -> Screens:
        """What makes a screen of a name."""

    def lines(self) -> Sequence[Line]:
        """The rows as they are now."""

    def do(self, name: str, line: Line | None) -> Outcome:
        """Do an action with the marked line."""

    def entry(self, index: int) -> Entry:
        """The form of a row."""

    def closed(self, screen: str, result: Any) -> Outcome:
        """A screen was closed; an empty name stands for the form of a row."""

    def close(self) -> None:
        """The list is closed."""
