"""No test waits for a time, or is held to one: what is waited for is a state."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from pathlib import Path

from tests.house.source import ROOT, name, nodes
from tests.rules import for_each

HERE = ROOT / "tests"
TESTS = sorted(p for p in HERE.rglob("*.py") if "benchmarks" not in p.relative_to(HERE).parts)
CLOCKS = {"sleep", "perf_counter", "process_time", "monotonic", "time_ns"}
LOOKS = {
    "pilot.py": "sleeps between two looks at a state, and gives up after a bound",
    "terminal.py": "sleeps between two looks at a process, and gives up after a bound",
    "test_browser.py": "sleeps between two looks at a page, and gives up after a bound",
    "trials.py": "kills and races at random moments, which is what they try",
    "__main__.py": "says how long the trials took",
    "test_typed_ahead.py": "the same; and a keyboard looked at too late, which is what it tests",
}
"""Files that may look at a clock, and why."""


def waits(path: Path) -> Iterator[str]:
    """Calls that wait for a time, look at a clock, or give up after a time."""
    for node in nodes(path):
        if not isinstance(node, ast.Call):
            continue
        function = node.func
        called = function.attr if isinstance(function, ast.Attribute) else ""
        called = function.id if isinstance(function, ast.Name) else called
        clock = called in CLOCKS and path.name not in LOOKS
        timeout = any(keyword.arg == "timeout" for keyword in node.keywords)
        pause = called == "pause" and node.args
        unsteady = called == "run_test" and path.name != "pilot.py"
        if clock or timeout or pause or unsteady:
            yield f"line {node.lineno}: {ast.unparse(node)}"


@for_each(TESTS, name)
def test_no_test_waits_for_a_time(path: Path) -> None:
    assert list(waits(path)) == [], "wait for a state: `until(pilot, condition)`, `settle(pilot)`"


def test_what_waits_for_a_time_is_found(tmp_path: Path) -> None:
    written = tmp_path / "test_some.py"
    written.write_text(
        "pilot.pause(0.5)\npilot.pause()\ntime.sleep(1)\nrun(command, timeout=60)\n"
        "app.run_test(size=(80, 24))\nbegan = time.perf_counter()\n", "utf-8",
    )  # fmt: skip
    assert [found.split(":")[0] for found in waits(written)] == [
        "line 1", "line 3", "line 4", "line 5", "line 6",
    ]  # fmt: skip
