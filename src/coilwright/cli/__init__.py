"""The command line: results on standard output, messages on standard error, no tracebacks."""

from __future__ import annotations

import contextlib
import io
import os
import re
import sys
from collections.abc import Iterator, Sequence
from typing import Any, TextIO, cast

from coilwright.cli.arguments import parse
from coilwright.cli.problems import BAD_INPUT, INTERRUPTED, PIPE_CLOSED, Problem
from coilwright.drawing.safe_text import one_line


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one command; its exit code: 0 done (or ready), 1 not ready, 2 bad input.

    130 after Ctrl-C and 141 when the reader of our output has gone, both without a word.
    """
    with _safe_output():
        return _main(sys.argv[1:] if arguments is None else arguments)


def _main(arguments: Sequence[str]) -> int:
    try:
        return _run(arguments)
    except Problem as problem:
        print(f"coilwright: {one_line(str(problem))}", file=sys.stderr)
        return BAD_INPUT
    except KeyboardInterrupt:
        return INTERRUPTED
    except BrokenPipeError:
        _drop_output()
        return PIPE_CLOSED
    except OSError as error:
        _drop_output()
        reason = (error.strerror or str(error)).lower()
        print(f"coilwright: the output could not be written: {reason}.", file=sys.stderr)
        return BAD_INPUT


class _Safe:
    """A stream on which no text controls the terminal, wherever the text came from."""

    def __init__(self, stream: TextIO) -> None:
        self._stream = stream

    def write(self, text: str) -> int:
        self._stream.write(_CONTROL.sub("�", text))
        return len(text)

    def __getattr__(self, name: str) -> Any:
        return getattr(self._stream, name)


_CONTROL = re.compile("[\x00-\x08\x0b-\x1f\x7f-\x9f]")
"""Controls (C0, DEL, C1) but tab and line break."""


@contextlib.contextmanager
def _safe_output() -> Iterator[None]:
    before = sys.stdout, sys.stderr
    # Where nobody hears messages they go nowhere: printed to None, they would be among the results.
    heard = sys.stdout, io.StringIO() if sys.stderr is None else sys.stderr
    safe = [None if stream is None else cast("TextIO", _Safe(stream)) for stream in heard]
    sys.stdout, sys.stderr = safe
    try:
        yield
    finally:
        sys.stdout, sys.stderr = before


def _run(arguments: Sequence[str]) -> int:
    for stream in (sys.stdout, sys.stderr):
        # A terminal that cannot show a sign gets a stand-in, not an error.
        getattr(stream, "reconfigure", lambda **_: None)(errors="replace")
    given = parse(arguments)
    from coilwright.store import StoreError

    try:
        code: int = given.command(given)
    except StoreError as error:
        raise Problem(str(error)) from None
    if sys.stdout is not None:
        sys.stdout.flush()
    return code


def _drop_output() -> None:
    """Send what is still buffered nowhere: it would fail once more at exit."""
    with contextlib.suppress(OSError, ValueError, AttributeError):
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
