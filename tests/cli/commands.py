"""Running the command as people do: its own process, its own data folder."""

from __future__ import annotations

import os
import subprocess
import sys
from dataclasses import dataclass
from pathlib import Path

import pytest

from coilwright.cli import main


@dataclass(frozen=True)
class Ran:
    """What a command did."""

    code: int
    out: str
    err: str

    def refused(self) -> str:
        """The one sentence it was refused with; fails for anything else."""
        assert self.code == 2, (self.code, self.out, self.err)
        assert self.out == ""
        assert "Traceback" not in self.err
        lines = self.err.splitlines()
        assert len(lines) == 1, self.err
        assert lines[0].startswith("coilwright: ")
        assert lines[0].isprintable()
        return lines[0].removeprefix("coilwright: ")


class Command:
    """`coilwright` in its own process, with a data folder of its own and no terminal."""

    def __init__(self, home: Path) -> None:
        self.home = home

    def environment(self) -> dict[str, str]:
        return {**os.environ, "COILWRIGHT_HOME": str(self.home), "PYTHONIOENCODING": "utf-8"}

    def __call__(self, *arguments: str | bytes, cwd: Path | None = None) -> Ran:
        done = subprocess.run(
            [sys.executable, "-m", "coilwright", *arguments],
            env=self.environment(), cwd=cwd, capture_output=True, stdin=subprocess.DEVNULL,
            encoding="utf-8", check=False,
        )  # fmt: skip
        return Ran(done.returncode, done.stdout, done.stderr)


class InPlace(Command):
    """The same without a process, which takes a tenth of the time."""

    def __init__(
        self, home: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
    ) -> None:
        super().__init__(home)
        self._capsys = capsys
        self._patch = monkeypatch
        monkeypatch.setenv("COILWRIGHT_HOME", str(home))

    def __call__(self, *arguments: str | bytes, cwd: Path | None = None) -> Ran:
        if cwd is not None:
            self._patch.chdir(cwd)
        self._capsys.readouterr()
        try:
            code = main([str(argument) for argument in arguments])
        except SystemExit as left:  # after --help and --version
            code = int(left.code or 0)
        return Ran(code, *self._capsys.readouterr())
