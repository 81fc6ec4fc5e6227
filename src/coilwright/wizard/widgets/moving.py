"""Where the focus goes by a key: a row on, or a page of the form."""

from __future__ import annotations

from typing import Any

from textual.screen import Screen
from textual.widget import Widget

from coilwright.wizard.widgets.blocks import BarButton
from coilwright.wizard.widgets.field import field_around
from coilwright.wizard.widgets.rows import Rows


def focus_next_asked(screen: Screen[Any], by: int = 1) -> None:
    """Put the focus on what comes next, or before, past rows that are not asked now."""
    start = screen.focused
    step = screen.focus_next if by > 0 else screen.focus_previous
    step()
    while (field := field_around(screen.focused)) is not None and field.idle:
        if screen.focused is start:
            return
        step()


def move_focus(screen: Screen[Any], by: int) -> None:
    """Put the focus on the row above or below; a row of buttons is passed as one.

    Buttons that had no room on a row stand on one more, which is a row of its own.
    """
    step = screen.focus_next if by > 0 else screen.focus_previous
    begun = screen.focused
    if by < 0 and begun is not None and screen.focus_chain[:1] == [begun]:
        return  # above the first there is nothing; Shift+Tab goes round
    if isinstance(begun, BarButton):
        for _ in screen.focus_chain:
            step()
            here = screen.focused
            if not isinstance(here, BarButton) or here not in _row_of(begun):
                break
    else:
        step()
    here = screen.focused
    if isinstance(here, BarButton):
        _row_of(here)[0].focus()
    elif isinstance(here, Rows):
        here.enter(by)


def _row_of(button: BarButton) -> list[BarButton]:
    """The buttons beside a button, and itself, from the left."""
    around = [] if button.parent is None else button.parent.children
    return [one for one in around if isinstance(one, BarButton) and one.display
            and one.region.y == button.region.y] or [button]


def scroll_with_focus(form: Widget, by: int) -> None:
    """Scroll a page down, or up; the focus goes along to the first line there, so that one key
    undoes the other, and where there is no further page to the last line at that end."""
    before = form.scroll_y
    form.scroll_relative(y=by * form.size.height, animate=False, immediate=True)
    moved = round(form.scroll_y - before)
    top = round(form.scroll_y)
    seen = [line for line in form.screen.focus_chain if form in line.ancestors
            and top <= _line_in(form, line) <= top + form.size.height - line.size.height]
    if seen:
        form.screen.set_focus(seen[-1 if by > 0 and not moved else 0], scroll_visible=False)


def _line_in(form: Widget, line: Widget) -> int:
    """On which line of all that a form holds something begins. Where it stands on the screen is
    known only once that is laid out anew."""
    at, around = 0, line
    while around is not form:
        at += around.virtual_region.y
        assert isinstance(around.parent, Widget)
        around = around.parent
    return at


def focus_end(form: Widget, by: int) -> None:
    """Put the focus on the first row of a form, or on the last."""
    lines = [line for line in form.screen.focus_chain if form in line.ancestors]
    if not lines:
        return
    at = lines[0 if by < 0 else -1]
    if isinstance(at, BarButton):
        at = _row_of(at)[0]
    elif isinstance(at, Rows):
        (at.action_first if by < 0 else at.action_last)()
    form.screen.set_focus(at)
