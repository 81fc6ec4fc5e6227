"""Start-up time is measured, so the heavy packages stay out until they are needed."""

from __future__ import annotations

import subprocess
import sys


def test_importing_units_brings_in_nothing_heavy() -> None:
    code = (
        "import sys; from coilwright.units import Kind, read, show, store;"
        "show(read('42 ft', Kind.LENGTH), Kind.LENGTH); store(6.0, Kind.PITCH);"
        "heavy = {'pint', 'pydantic', 'textual', 'rich', 'dataclasses', 'numpy', 'platformdirs'};"
        "print(sorted(heavy & set(sys.modules)))"
    )
    path = [p for p in sys.path if p]
    run = subprocess.run(
        [sys.executable, "-c", f"import sys; sys.path[:0] = {path!r}; {code}"],
        capture_output=True, text=True, check=True,
    )  # fmt: skip
    assert run.stdout.strip() == "[]"
