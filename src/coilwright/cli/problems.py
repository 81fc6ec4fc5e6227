"""What can go wrong on the command line, as one sentence, and the exit codes."""

from __future__ import annotations

NOT_READY = 1
BAD_INPUT = 2
INTERRUPTED = 130
PIPE_CLOSED = 141


class Problem(Exception):
    """Bad input; the message is one sentence for the user."""
