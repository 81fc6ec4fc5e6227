"""`python -m coilwright` is the `coilwright` command."""

from __future__ import annotations

import sys

from coilwright.cli import main

sys.exit(main())
