"""The keyboard of a terminal, read so that Escape is not kept from the key after it.

A terminal sends Escape as the first sign of what it sends for an arrow or a function key, so
whoever reads waits a moment for the rest. Textual's driver looks only ten times a second whether
that moment is over, and takes a letter that comes meanwhile for Alt with it: the form that Escape
should close stays open, and the letter goes into its box.
"""

from __future__ import annotations

import os
import selectors
from codecs import getincrementaldecoder

from textual import constants
from textual._parser import ParseError
from textual._xterm_parser import XTermParser
from textual.drivers.linux_driver import LinuxDriver

_IDLE = 0.1
"""Seconds between looks at whether to stop, while no key comes."""
_GLANCE = 0.01
"""Seconds between looks at whether the wait after an Escape is over."""


class Terminal(LinuxDriver):
    """Textual's driver, which looks at the clock as soon as the wait after an Escape is over."""

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
                text = decode(os.read(self.fileno, 4096))
                ends = text.endswith("\x1b")
                if text:
                    for event in parser.feed(text):
                        self.process_message(event)
        try:
            for event in parser.feed(""):
                self.process_message(event)
        except (EOFError, ParseError):
            pass
