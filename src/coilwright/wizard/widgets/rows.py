"""Lists of rows whose marked row carries a sign, never color alone; rows with keys."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from rich.segment import Segment
from textual import events
from textual.binding import Binding
from textual.containers import ScrollableContainer
from textual.geometry import Region
from textual.strip import Strip
from textual.widget import Widget
from textual.widgets import OptionList
from textual.widgets.option_list import Option

from coilwright.wizard.literal import escape_controls


def _option_of(strip: Strip) -> int | None:
    """Which option a line belongs to; the list notes it on its lines for the mouse."""
    style = next((segment.style for segment in strip if segment.style), None)
    found = style.meta.get("option") if style is not None else None
    return found if isinstance(found, int) else None


def with_sign(line: Strip) -> Strip:
    """A line with ▸ in its first cell, which it leaves free."""
    style = next(iter(line)).style
    return Strip.join([Strip([Segment("▸", style)], 1), line.crop(1)])


def shows_rows(rows: OptionList) -> bool:
    """Whether a list has rows, and room for them: pages of none cannot be turned."""
    return (rows.highlighted or 0) in rows._index_to_line


class PagedList(OptionList):
    """A list in which page keys do nothing without room for a row, nor a click on one that went.

    Its mark may stand between two rows (`mark_between`): the next key that moves it marks a row.
    """

    BINDINGS = [
        Binding("ctrl+home", "to_end(-1)", "First row", show=False, id="list.to-first"),
        Binding("ctrl+end", "to_end(1)", "Last row", show=False, id="list.to-last"),
    ]

    _after = ""
    """The id of the row after the mark, while that stands between two."""

    @property
    def mark_id(self) -> str:
        """The id of the marked row; while none is, of the one that the next key marks."""
        option = self.highlighted_option
        return self._after if option is None else option.id or ""

    def mark_between(self) -> None:
        """Put the mark before the row that has it: what a key did to the row before, it does to
        this one only after another key."""
        self._after, self.highlighted = self.mark_id, None

    def set_again(self, options: Sequence[Option], mark: str) -> None:
        """Show other options with one of them marked, in the line of the list that the mark had.

        mark: its id; empty for none.
        """
        was, scrolled = self.highlighted, self.scroll_offset.y
        before = None if was is None else self._index_to_line.get(was)
        self.set_options(options)
        at = next((i for i, option in enumerate(options) if mark and option.id == mark), None)
        self.highlighted = at
        now = None if at is None else self._index_to_line.get(at)
        by = 0 if before is None or now is None else now - before
        self.scroll_to(y=scrolled + by, animate=False, immediate=True)

    def bring_mark(self) -> bool:
        """Have the marked row in sight; whether it was not, so that nobody saw what a key means."""
        line = None if self.highlighted is None else self._index_to_line.get(self.highlighted)
        top = self.scroll_offset.y
        if line is None or top <= line < top + self.size.height:
            return False
        self.scroll_to_highlight()
        return True

    def _from_between(self, by: int) -> bool:
        """Mark the row on that side of the mark, where that stands between two; whether it did."""
        enabled = [at for at, option in enumerate(self.options) if not option.disabled]
        if self.highlighted is not None or not enabled:
            return False
        after = next((n for n, at in enumerate(enabled) if self.options[at].id == self._after), 0)
        self.highlighted = enabled[after if by > 0 else max(0, after - 1)]
        return True

    def action_cursor_up(self) -> None:
        """Mark the row above."""
        if not self._from_between(-1):
            super().action_cursor_up()

    def action_cursor_down(self) -> None:
        """Mark the row below."""
        if not self._from_between(1):
            super().action_cursor_down()

    def on_click(self, event: events.Click) -> None:
        """A row that was clicked may have gone since it was painted: then nothing is opened."""
        option = event.style.meta.get("option")
        if option is not None and option >= self.option_count:
            event.prevent_default()

    def action_first(self) -> None:
        """Mark the first row; what stands above it is seen as well."""
        super().action_first()
        self._in_sight(0)

    def action_last(self) -> None:
        """Mark the last row."""
        super().action_last()
        self._in_sight(-1)

    async def action_to_end(self, by: int) -> None:
        """The first row or the last; among fields it is that end of the form."""
        if hasattr(self.screen, "action_page_end"):
            await self.run_action(f"screen.page_end({by})")
        elif by < 0:
            self.action_first()
        else:
            self.action_last()

    def action_page_up(self) -> None:
        """Mark the row a page above."""
        if not self._from_between(-1) and shows_rows(self):
            super().action_page_up()  # type: ignore[no-untyped-call]
            self._in_sight(0)

    def action_page_down(self) -> None:
        """Mark the row a page below."""
        if not self._from_between(1) and shows_rows(self):
            super().action_page_down()  # type: ignore[no-untyped-call]
            self._in_sight(-1)

    def _in_sight(self, end: int) -> None:
        """See that a row is marked, where a page ends among rows that cannot be; at either end of
        the list those are seen as well."""
        enabled = [at for at, option in enumerate(self.options) if not option.disabled]
        if self.highlighted is None and enabled:
            self.highlighted = enabled[end]
        if enabled and self.highlighted == enabled[end]:
            self.scroll_to(y=0 if end == 0 else self.max_scroll_y, animate=False)


_DELETES = ("d", "delete")


class MarkedList(PagedList):
    """A list that puts ▸ before its marked row, where the row leaves a space for it.

    marks_always: also while the focus is in a search box beside it.
    """

    marks_always = False
    only_marked = False
    """Whether what happened to a row was a click that only marked it."""
    _gone = ""
    """What was said as a row was deleted, until another key or click is made here."""
    _struck = ""
    """The row that was to be deleted last, until another key or click is made here."""

    def is_elsewhere(self, event: events.MouseDown) -> bool:
        """Whether a click is on another row than the marked one."""
        return bool(event.style.meta.get("option") != self.highlighted)

    def row_deleted(self, said: str) -> None:
        """The marked row has come where another was deleted, of which this was said."""
        self._gone = said.removesuffix(".")

    def just_came(self, *, deletes: bool = True) -> str:
        """What is said in place of what is wanted of the marked row, where that has just come to
        stand where one was deleted: a second key or click may have been meant for that one.

        Once, for then its mark is seen; empty where it was. deletes: it is to be deleted too.
        """
        gone, self._gone = self._gone, ""
        return f"{gone}. Again deletes row ▸ too." if gone and deletes else gone and SHOWN_FIRST

    def struck_twice(self, row: str) -> bool:
        """Whether a row is to be deleted that was to be just before: what asks first has asked."""
        before, self._struck = self._struck, row
        return before == row

    def on_key(self, event: events.Key) -> None:
        """Any other key than one that deletes means the row that is marked."""
        if event.key not in _DELETES:
            self._gone = self._struck = ""

    def on_mouse_down(self, _event: events.MouseDown) -> None:
        """A click marks a row itself."""
        self._gone = self._struck = ""

    def render_line(self, y: int) -> Strip:
        """The line, with the sign on the first line of the marked row."""
        line = super().render_line(y)
        if self.highlighted is None or not line.text.startswith(" "):
            return line
        if not (self.has_focus or self.marks_always):
            return line
        if _option_of(line) != self.highlighted:
            return line
        if y > 0 and _option_of(super().render_line(y - 1)) == self.highlighted:
            return line
        return with_sign(line)


_GROWS = 40
"""Lines up to which a list among fields is as high as its rows, so that only the form scrolls."""


class Rows(MarkedList):
    """A list among fields: up at the first row and down at the last go on.

    It may be higher than the form, which then scrolls along with its mark.
    """

    BINDINGS = [
        Binding("home", "far(-1)", "First row", show=False, id="rows.home"),
        Binding("end", "far(1)", "Last row", show=False, id="rows.end"),
    ]

    passed = False
    """Whether it was left by an arrow that went on: what was marked on the way was only passed."""

    def take_key(self, key: str) -> bool:
        """Do to the marked row what a key of the screen does; whether it does anything."""
        del key
        return False

    def take_height(self, tallest: int) -> None:
        """Be as high as all rows; where these are very many, as whole rows in so many lines."""
        heights = [str(option.prompt).count("\n") + 1 for option in self.options]
        whole = sum(heights)
        if whole > _GROWS:
            whole = max(heights) * max(1, tallest // max(heights))
        if self.styles.height is None or self.styles.height.value != max(1, whole):
            self.styles.height = max(1, whole)
            if self.has_focus:
                self.call_after_refresh(self.scroll_visible)

    def scroll_to_highlight(self, top: bool = False) -> None:
        """Have the marked row in sight, in the list and in the form around it."""
        super().scroll_to_highlight(top)
        if self.has_focus:
            self.scroll_visible()

    def scroll_visible(self, *given: Any, **named: Any) -> None:
        """Have the form show the list; where that is too high, its marked row, and with the first
        row what stands above it."""
        holder: Widget = self
        at = 0
        while isinstance(around := holder.parent, Widget):
            at += holder.virtual_region.y
            if isinstance(around, ScrollableContainer):
                around.scroll_to_region(self._to_be_seen(
                    holder.virtual_region.y, at, around.size.height), animate=False)
                return
            holder = around
        super().scroll_visible(*given, **named)

    def _turn_page(self, by: int) -> bool:
        """Mark the row a page of the form up or down, where the list is higher than that; whether
        it is."""
        form = next((around for around in self.ancestors
                     if isinstance(around, ScrollableContainer)), None)
        if form is None or self.size.height <= form.size.height or self.highlighted is None:
            return False
        line = self._index_to_line.get(self.highlighted, 0) + by * form.size.height
        rows = [at for at, option in enumerate(self.options) if not option.disabled]
        passed = [at for at in rows[::-by] if (self._index_to_line.get(at, 0) - line) * by >= 0]
        self.highlighted = passed[-1] if passed else rows[::by][-1]
        return True

    def action_page_up(self) -> None:
        """Mark the row a page above."""
        if not self._turn_page(-1):
            super().action_page_up()

    def action_page_down(self) -> None:
        """Mark the row a page below."""
        if not self._turn_page(1):
            super().action_page_down()

    def _to_be_seen(self, above: int, at: int, room: int) -> Region:
        """The lines of a form that are to be in sight.

        above: its line on which begins what the list stands in. at: that on which the list does.
        room: how many lines it shows.
        """
        marked, scrolled = self.highlighted or 0, self.scroll_offset.y
        first = at - scrolled + self._index_to_line.get(marked, 0)
        end = at - scrolled + self._index_to_line.get(marked + 1, self.virtual_size.height)
        last = at + self.size.height
        if last - above <= room:
            return Region(0, above, 1, last - above)
        if end - above <= room and all(option.disabled for option in self.options[:marked]):
            return Region(0, above, 1, end - above)
        return Region(0, first, 1, end - first)

    def on_focus(self) -> None:
        """Nothing was passed yet."""
        self.passed = False

    def _at_end(self, down: bool) -> bool:
        enabled = [i for i, o in enumerate(self.options) if not o.disabled]
        if self.highlighted is None:
            return not enabled
        return self.highlighted == (enabled[-1] if down else enabled[0])

    def action_cursor_up(self) -> None:
        """Up, or to the field above."""
        if self._at_end(down=False):
            self.passed = True
            if self.screen.focus_chain[:1] != [self]:  # above the first there is nothing
                self.screen.focus_previous()
                self._entered_from(-1)
        else:
            super().action_cursor_up()

    def action_cursor_down(self) -> None:
        """Down, or to the field below."""
        if self._at_end(down=True):
            self.passed = True
            self.screen.focus_next()
            self._entered_from(1)
        else:
            super().action_cursor_down()

    def _entered_from(self, by: int) -> None:
        other = self.screen.focused
        if isinstance(other, Rows) and other is not self:
            other.enter(by)

    def enter(self, by: int) -> None:
        """An arrow came in: down to the first row, up to the last."""
        (self.action_first if by > 0 else self.action_last)()

    async def action_far(self, by: int) -> None:
        """The first row or the last; from there to that end of the form."""
        if self._at_end(down=by > 0) and hasattr(self.screen, "action_page_end"):
            await self.run_action(f"screen.page_end({by})")
        else:
            self.enter(-by)


class KeyedRows(Rows):
    """A click marks a row; a click on the row whose mark is seen opens it, as Enter does."""

    help_line = ""
    """What its keys do, for the help below the form."""
    _entered = False
    """Whether the focus has just come: the mark was not seen before."""
    _stray = ""
    """What was typed here and does nothing: most likely it was meant for a box."""

    def on_mouse_down(self, event: events.MouseDown) -> None:
        """See whether the click hits the row whose mark is seen, and that did not just come."""
        self.only_marked = (self.is_elsewhere(event) or self._entered
                            or bool(self._gone))
        self._entered = False

    def on_focus(self) -> None:
        """A click into the list focuses it first; otherwise the mark is painted before one."""
        self._entered = True
        self.call_after_refresh(setattr, self, "_entered", False)

    def on_blur(self) -> None:
        """Elsewhere what is typed means something."""
        self._stray = ""

    def on_key(self, event: events.Key) -> None:
        """A key means the marked row; what means nothing here is kept until another key does."""
        self.only_marked = self._entered = False
        letter = event.character or ""
        if letter.isprintable() and letter.strip():
            means = event.key in self.screen.active_bindings
            self._stray = "" if means else self._stray + letter
        elif event.key != "enter":
            self._stray = ""

    def action_select(self) -> None:
        """Open the marked row, or add the first; not with what was typed for a box."""
        stray, self._stray = self._stray, ""
        if stray:
            self.notify(f"“{escape_controls(stray)}” means nothing in this list, so nothing was "
                        "opened; Enter again does.", markup=False)
        else:
            super().action_select()


SHOWN_FIRST = "▸ shows which row is meant; the same again does it to that row."
"""What is said where something was wanted of a row whose mark was not seen."""
