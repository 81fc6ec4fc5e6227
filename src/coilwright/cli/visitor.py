"""What runs for one visitor of a class in a browser: the wizard on a data folder of their own."""

from __future__ import annotations

import os
import sys
from pathlib import Path

from coilwright.store.files import HOME
from coilwright.store.practice import ATTEMPTS_FOLDER


def main() -> int:
    """Run the wizard. Arguments: the visitor's data folder, and where attempts are handed in."""
    home, attempts = sys.argv[1:]
    os.environ[HOME], os.environ[ATTEMPTS_FOLDER] = home, attempts
    from coilwright.wizard import run

    return int(run(Path(home)))


if __name__ == "__main__":
    sys.exit(main())
