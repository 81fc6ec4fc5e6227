"""What a sheet is made of: blocks, and in them text in runs. Nothing here knows a page's markup.

Text in a block is plain text, whoever wrote it: it bears no markup, and each renderer escapes
all of it in its own way. Signs that control a terminal or turn the reading direction are gone
before a block holds it.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass
from enum import StrEnum

from coilwright.drawing.safe_text import escape_controls, with_single_blanks

BOX, TICKED = "☐", "☑"
DRAFT = "DRAFT"
"""What stands across a sheet that is not to be acted on yet."""


class Style(StrEnum):
    """How a run of text is set. GUESS is the mark of a guess; ROOM is room to write by hand."""

    PLAIN = "plain"
    STRONG = "strong"
    EMPHASIS = "emphasis"
    CODE = "code"
    GUESS = "guess"
    ROOM = "room"


@dataclass(frozen=True, slots=True)
class Run:
    """A run of text in one style, on one line: any white space in it becomes one blank."""

    text: str
    style: Style = Style.PLAIN

    def __post_init__(self) -> None:
        object.__setattr__(self, "text", escape_controls(with_single_blanks(self.text)))


Text = tuple[Run, ...]
Inline = str | Run | Text
"""What a line of text can be put together from."""


def line(*parts: Inline) -> Text:
    """A line of text from its parts; empty ones fall out."""
    runs: list[Run] = []
    for part in parts:
        if isinstance(part, tuple):
            runs += part
        else:
            runs.append(part if isinstance(part, Run) else Run(part))
    return tuple(run for run in runs if run.text)


def joined(parts: Iterable[Inline], between: str = ", ") -> Text:
    """A line of text from parts, with `between` between two of them."""
    runs: list[Inline] = []
    for part in parts:
        runs += [between, part] if runs else [part]
    return line(*runs)


def strong(text: str) -> Run:
    """Text that stands out."""
    return Run(text, Style.STRONG)


def emphasis(text: str) -> Run:
    """Text that is set apart a little: what to do, what a good answer is."""
    return Run(text, Style.EMPHASIS)


def marked(mark: str, text: str) -> Text:
    """Text after the mark of a guess; an empty mark is none."""
    return line(Run(f"{mark} ", Style.GUESS) if mark else "", text)


def room(width: int) -> Run:
    """Room to write by hand, so many characters wide."""
    return Run("_" * width, Style.ROOM)


def trimmed(text: Text) -> Text:
    """The text without blanks at its ends."""
    runs = list(text)
    while runs and (kept := runs[0].text.lstrip()) != runs[0].text:
        runs[:1] = [Run(kept, runs[0].style)] if kept else []
    while runs and (kept := runs[-1].text.rstrip()) != runs[-1].text:
        runs[-1:] = [Run(kept, runs[-1].style)] if kept else []
    return tuple(runs)


def plain(text: Text) -> str:
    """The text alone."""
    return "".join(run.text for run in text)


@dataclass(frozen=True, slots=True)
class Heading:
    """A heading, level 1 to 6."""

    level: int
    text: Text


@dataclass(frozen=True, slots=True)
class Paragraph:
    """A paragraph."""

    text: Text


@dataclass(frozen=True, slots=True)
class Facts:
    """Labels, each with its value; title: what the labels are of."""

    title: Text
    rows: tuple[tuple[Text, Text], ...]


@dataclass(frozen=True, slots=True)
class Table:
    """A table.

    right: numbers of the columns set at the right. keep: on one page, if it can be. write: numbers
    of the columns that are filled in by hand. title: what it is of, once more on each page it goes
    on to.
    """

    header: tuple[Text, ...]
    rows: tuple[tuple[Text, ...], ...]
    right: frozenset[int] = frozenset()
    keep: bool = False
    write: frozenset[int] = frozenset()
    title: Text = ()


@dataclass(frozen=True, slots=True)
class List:
    """A list, with bullets or with numbers."""

    items: tuple[Text, ...]
    numbered: bool = False


@dataclass(frozen=True, slots=True)
class Tick:
    """What is ticked by hand, or is ticked already."""

    text: Text
    ticked: bool = False

    @property
    def box(self) -> str:
        """Its box."""
        return TICKED if self.ticked else BOX


@dataclass(frozen=True, slots=True)
class Ticks:
    """Boxes to tick: a list, or all in one line after a label, if there is one."""

    items: tuple[Tick, ...]
    in_line: bool = False
    label: str = ""


@dataclass(frozen=True, slots=True)
class Signature:
    """Lines to sign: who, each with room for every field (name, date)."""

    who: tuple[str, ...]
    fields: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Drawing:
    """A drawing.

    width: of the drawing in characters, at most; lines: draws it so wide in characters;
    svg: draws it for paper, empty where there is no such drawing; share: of the page's width it
    takes there.
    """

    name: str
    width: int
    lines: Callable[[int], Sequence[str]]
    svg: Callable[[], str]
    share: float = 1.0


@dataclass(frozen=True, slots=True)
class Quote:
    """Blocks set apart from the rest, in a box of their own."""

    blocks: tuple[Block, ...]


@dataclass(frozen=True, slots=True)
class Kept:
    """Blocks that belong together: on one page, where they fit on one.

    page: they are pages of their own among others that are.
    """

    blocks: tuple[Block, ...]
    page: bool = False


@dataclass(frozen=True, slots=True)
class Banner:
    """The state of the whole, at its top. draft: it is not to be acted on yet."""

    blocks: tuple[Block, ...]
    draft: bool


@dataclass(frozen=True, slots=True)
class Annex:
    """What stands behind the sheet for those who want it, under a heading."""

    title: Text
    blocks: tuple[Block, ...]


Block = (
    Heading | Paragraph | Facts | Table | List | Ticks | Signature | Drawing | Quote | Banner
    | Annex | Kept
)


@dataclass(frozen=True, slots=True)
class Sheet:
    """A sheet: the title at its top, and its blocks.

    compact: set close, to fit one page. card: closer still, lists in two columns; roomy: a card
    with room to be set larger. draft: DRAFT stands across it; it is not to be acted on.
    """

    title: str
    blocks: tuple[Block, ...]
    compact: bool = False
    card: bool = False
    roomy: bool = False
    draft: bool = False


@dataclass(frozen=True, slots=True)
class Rows:
    """What of a sheet a spreadsheet reads: a row of names, and rows of numbers and texts."""

    header: tuple[str, ...]
    rows: tuple[tuple[str | int | float, ...], ...]


def heading(level: int, *parts: Inline) -> Heading:
    """A heading."""
    return Heading(level, line(*parts))


def paragraph(*parts: Inline) -> Paragraph:
    """A paragraph."""
    return Paragraph(line(*parts))


def facts(title: str, rows: Iterable[tuple[Inline, Inline]]) -> Facts:
    """Labels and their values."""
    return Facts(line(title), tuple((line(label), line(value)) for label, value in rows))


def table(
    header: Sequence[str], rows: Iterable[Sequence[Inline]], right: Iterable[int] = (),
    keep: bool = False, write: Iterable[int] = (), title: str = "",
) -> Table:
    """A table; columns numbered in `right` stand at the right, those in `write` have room."""
    return Table(
        tuple(line(cell) for cell in header),
        tuple(tuple(line(cell) for cell in row) for row in rows),
        frozenset(right),
        keep,
        frozenset(write),
        line(title),
    )


def bullets(items: Iterable[Inline]) -> List:
    """A list with bullets."""
    return List(tuple(line(item) for item in items))


def numbered(items: Iterable[Inline]) -> List:
    """A list with numbers."""
    return List(tuple(line(item) for item in items), numbered=True)


def ticks(items: Iterable[Inline]) -> Ticks:
    """A list of boxes to tick."""
    return Ticks(tuple(Tick(line(item)) for item in items))


def stacked(*parts: Block | Iterable[Block]) -> tuple[Block, ...]:
    """Blocks one below the other; empty ones fall out."""
    return tuple(block for block in _flat(parts) if not is_empty(block))


def is_empty(block: Block) -> bool:
    """Whether nothing of a block would be seen."""
    match block:
        case Paragraph(text) | Heading(_, text):
            return not text
        case List(items) | Ticks(items):
            return not items
        case Quote(blocks) | Banner(blocks) | Annex(_, blocks) | Kept(blocks):
            return not blocks
        case _:
            return False


def _flat(parts: Iterable[Block | Iterable[Block]]) -> Iterator[Block]:
    for part in parts:
        if isinstance(part, Block):
            yield part
        else:
            yield from part
