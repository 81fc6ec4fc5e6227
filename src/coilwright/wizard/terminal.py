"""The terminal: closed without the program hanging, and Escape not kept from the key after it.

A terminal sends Escape as the first sign of what it sends for an arrow or a function key, so
whoever reads waits a moment for the rest. Textual's driver looks only ten times a second whether
that moment is over, and takes a letter that comes meanwhile for Alt with it: the form that Escape
should close stays open, and the letter goes into its box.
"""

from __future__ import annotations

import os
import selectors
from codecs import getincrementaldecoder
from contextlib import suppress
from typing import IO, Any, cast

from textual import constants
from textual._parser import ParseError
from textual._xterm_parser import XTermParser
from textual.drivers.linux_driver import LinuxDriver
from textual.message import Message

_IDLE = 0.1
"""Seconds between looks at whether to stop, while no key comes."""
_GLANCE = 0.01
"""Seconds between looks at whether the wait after an Escape is over."""


class TerminalClosed(Message):
    """The terminal's window was closed, or the line to it is broken."""


class _Output:
    """Where the screen is written; what is written after the terminal was closed is dropped.

    Else the thread that writes would die of it, and the app wait for it for ever.
    """

    def __init__(self, file: IO[str]) -> None:
        self._file = file

    def write(self, text: str) -> int:
        with suppress(OSError, ValueError):
            self._file.write(text)
        return len(text)

    def flush(self) -> None:
        with suppress(OSError, ValueError):
            self._file.flush()

    def __getattr__(self, name: str) -> Any:
        return getattr(self._file, name)


class Terminal(LinuxDriver):
    """Textual's driver, which looks at the clock as soon as the wait after an Escape is over."""

    def __init__(self, *given: Any, **more: Any) -> None:
        super().__init__(*given, **more)
        if self._file is not None:
            self._file = cast("Any", _Output(self._file))

    def run_input_thread(self) -> None:
        """Wait for keys and pass them on."""
        parser = XTermParser(self._debug)
        decode = getincrementaldecoder("utf-8")().decode
        ends = False
        """Whether what came last ends with an Escape that may be the key or a beginning."""
        with selectors.SelectSelector() as selector:
            selector.register(self.fileno, selectors.EVENT_READ)
            while not self.exit_event.is_set():
                ready = selector.select(min(_GLANCE, constants.ESCAPE_DELAY) if ends else _IDLE)
                # What was waited for too long comes before what is there now.
                for event in parser.tick():
                    ends = False
                    self.process_message(event)
                if not ready:
                    continue
                try:
                    data = os.read(self.fileno, 4096)
                except OSError:
                    data = b""
                if not data:  # nobody types there any more
                    self.process_message(TerminalClosed())
                    break
                text = decode(data)
                ends = text.endswith("\x1b")
                if text:
                    for event in parser.feed(text):
                        self.process_message(event)
        try:
            for event in parser.feed(""):
                self.process_message(event)
        except (EOFError, ParseError):
            pass
