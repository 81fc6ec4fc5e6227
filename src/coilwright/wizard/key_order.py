"""Keys that come faster than they are worked through go where they were meant.

A key goes to what has the focus, and one that moves the focus does so only once it has come back
up through the screen. Typed ahead, `14000 ↓ 2` would put the 2 behind the 14000. So the next key
waits until all that the one before it set off has been passed on. A click waits as well: it would
overtake the keys before it, and what they typed would land where it went, or nowhere.
"""

from __future__ import annotations

import asyncio
from collections import deque
from collections.abc import Mapping
from contextlib import suppress
from functools import cached_property

from textual import events, on
from textual.actions import ActionParseResult
from textual.app import App
from textual.dom import DOMNode
from textual.message import Message
from textual.message_pump import MessagePump
from textual.screen import Screen

from coilwright.wizard.double_clicks import DoubleClicks

_ROUNDS = 4
"""A key comes up, its binding sends word to the box, the box to its field, that to the screen."""
_PATIENCE = 1.0
"""Seconds a key waits at most, whatever became of the one before it."""
_GLANCE = 0.02
"""Seconds between looks at whether the key before went to something that has closed since."""


Ordered = events.Key | events.Paste | events.MouseDown | events.MouseUp


class KeyOrder(App[int]):
    """An app that passes on one key, one pasted text or one half of a click at a time."""

    class Passed(Message):
        """Sent after a key, on the key's own way up: where it arrives, the key has been."""

        def __init__(self, number: int, rounds: int) -> None:
            super().__init__()
            self.number = number
            self.rounds = rounds

    _waiting: deque[Ordered] | None = None
    _passing = 0
    """The number of the key that is not through yet; 0 where there is none."""
    _passed = 0
    _target: MessagePump | None = None
    """What the key that is not through yet was last sent after."""

    @cached_property
    def _double_clicks(self) -> DoubleClicks:
        return DoubleClicks(self.CLICK_CHAIN_TIME_THRESHOLD)

    @property
    def keys_under_way(self) -> bool:
        """Whether a key, a paste or a click is on its way to the job, or waits for one."""
        return bool(self._passing or self._waiting)

    async def on_event(self, event: events.Event) -> None:
        """Pass on a key or a click, or keep it until the one before it is through."""
        if not isinstance(event, Ordered) or event.is_forwarded:
            await super().on_event(event)
        elif self._passing:
            if self._waiting is None:
                self._waiting = deque()
            self._waiting.append(event)
            if len(self._waiting) == 1:
                await self._watch(self._passing, _PATIENCE)
        else:
            await self._pass_on(event)

    async def run_action(
        self, action: str | ActionParseResult, default_namespace: DOMNode | None = None,
        namespaces: Mapping[str, DOMNode] | None = None,
    ) -> bool:
        """Do what a key asks for, once the screen it asks is there.

        A key that was sent to the screen before comes back up when another lies on top, which may
        hold nothing yet that an action could change.
        """
        if isinstance(default_namespace, Screen) and not default_namespace.is_mounted:
            with suppress(TimeoutError):
                await asyncio.wait_for(default_namespace._mounted_event.wait(), _PATIENCE)
        return await super().run_action(action, default_namespace, namespaces)

    def _place(self) -> MessagePump | None:
        """Where a key goes; None where the program ends and all its screens are closed."""
        return (self.focused or self.screen) if self.screen_stack else None

    async def _pass_on(self, event: Ordered) -> None:
        self._target = target = self._place()
        if target is None:
            return
        self._passed += 1
        self._passing = number = self._passed
        if not isinstance(event, events.MouseDown | events.MouseUp) or (
                not self._double_clicks.is_left_over(event, self.screen)):
            await super().on_event(event)
        if not target.post_message(self.Passed(number, _ROUNDS)):
            await self._follow(number, _ROUNDS)

    @on(Passed)
    async def _arrived(self, event: Passed) -> None:
        event.stop()
        await self._follow(event.number, event.rounds)

    async def _follow(self, number: int, rounds: int) -> None:
        """Send after what the key has set off, until that is through as well."""
        if number != self._passing:
            return
        self._target = target = self._place()
        after = None if rounds <= 1 else self.Passed(number, rounds - 1)
        if target is None or after is None or not target.post_message(after):
            await self._go_on(number)

    async def _watch(self, number: int, patience: float) -> None:
        """Go on without the key before where it closed what it was sent to, or took too long.

        What is sent after a key that closes its own screen is lost with that screen.
        """
        if number != self._passing:
            return
        if patience <= 0 or self._target is None or not self._target.is_running:
            await self._go_on(number)
        else:
            self.set_timer(_GLANCE, lambda: self._watch(number, patience - _GLANCE))

    async def _go_on(self, number: int) -> None:
        if number != self._passing:
            return
        self._passing = 0
        if self._waiting:
            await self._pass_on(self._waiting.popleft())
            if self._waiting:
                await self._watch(self._passing, _PATIENCE)
