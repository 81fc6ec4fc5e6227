"""The command, with an empty data folder: in its own process, or in place."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.cli.commands import Command, InPlace


@pytest.fixture
def process(tmp_path: Path) -> Command:
    """The command in its own process."""
    return Command(tmp_path / "home")


@pytest.fixture
def run(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> Command:
    """The command in place."""
    return InPlace(tmp_path / "home", capsys, monkeypatch)
