"""What a controller may ask of the screen it works for. Nothing here knows of a screen.

A screen holds small controllers, one a subject. Each gets this context and no more: it changes the
job through the session, says a word, and asks for what only a screen can do, such as opening
another screen. A test gives it a context of its own.
"""

from __future__ import annotations

from collections.abc import Awaitable, Callable
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, Literal, Protocol

from coilwright.wizard.session import Session

if TYPE_CHECKING:
    from textual.screen import Screen
    from textual.timer import Timer
    from textual.worker import Worker

Closed = Callable[[Any], None] | Callable[[Any], Awaitable[None]]
"""Called with what a screen returned."""
Severity = Literal["information", "warning", "error"]


class Say(Protocol):
    """Shows a notice, its text as it is."""

    def __call__(
        self, message: str, *, title: str = "", severity: Severity = "information",
        timeout: float | None = None,
    ) -> None:
        """Show it for `timeout` seconds, or as long as is usual."""


class Open(Protocol):
    """Opens a screen over the one the controller works for."""

    def __call__(self, screen: Screen[Any], closed: Closed | None = None) -> None:
        """Open it; `closed` is called with what it returns."""


class InThread(Protocol):
    """Runs what takes long beside the keys."""

    def __call__(self, work: Callable[[], None], name: str) -> Worker[None]:
        """Run it in a thread; another of the same name before it is canceled."""


@dataclass(frozen=True, slots=True)
class Context:
    """The session, and what its screen does for a controller.

    changed: the job changed; it is shown, and written soon. show_again: shows the job as it is.
    go: to the step that asks an answer, with the focus on it. later: calls after so many seconds.
    from_thread: calls in the screen's own thread, and waits for it. soon: the same, not waiting.
    """

    session: Session
    say: Say
    open: Open
    changed: Callable[[], None]
    show_again: Callable[[], None]
    go: Callable[[str], Awaitable[None]]
    later: Callable[[float, Callable[[], object]], Timer]
    in_thread: InThread
    from_thread: Callable[..., object]
    soon: Callable[..., object]

    async def go_if(self, key: str | None) -> None:
        """Go to what a screen returned, if it returned something."""
        if key:
            await self.go(key)
