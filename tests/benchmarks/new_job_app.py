"""The wizard on a new job, without the start screen on which a person would choose it."""

from __future__ import annotations

import gc
import sys
from pathlib import Path

if __name__ == "__main__":
    gc.disable()  # as `coilwright.wizard.run` starts it; the app turns it on again

    from coilwright.job.edit import new_job
    from coilwright.store import Store
    from coilwright.wizard.app import CoilwrightApp
    from coilwright.wizard.session import Session

    store = Store(Path(sys.argv[1]))
    CoilwrightApp(store, Session(store, new_job())).run()
