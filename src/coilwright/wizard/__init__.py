"""The wizard: the job's answers on screens, over a `Session` that knows nothing of screens."""

from __future__ import annotations

import gc
import os
from pathlib import Path

_ESCAPE_WAIT = "50"
"""Milliseconds in which a key after Escape is one key with it, as Alt with a letter is.

Textual's own 100 are long for whoever closes a form and types on. ESCDELAY sets it for a line
that is slower than that.
"""


def run(
    store_home: Path, open_path: Path | None = None, at: str | None = None, news: str = ""
) -> int:
    """Open the wizard and return an exit code: 0, or 2 for a job or step that cannot be opened.

    open_path: a job to open, in the data folder or anywhere else. at: a step by its key, title
    or number, or an answer by its key. news: what is to be said once the job is shown.
    """
    os.environ.setdefault("ESCDELAY", _ESCAPE_WAIT)
    # What starting makes stays to the end: looking through it for waste only takes time. The
    # app turns this on again once its first screen is painted.
    gc.disable()
    try:
        from coilwright.wizard.lifetime import run_app

        return run_app(store_home, open_path, at, news)
    finally:
        gc.enable()
