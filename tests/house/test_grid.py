"""The grid: a folder is a layer, and every module lies in one."""

from __future__ import annotations

import tomllib

from tests.house.source import ROOT, SOURCE


def layers() -> list[set[str]]:
    """The layers of the contract, the highest first."""
    with (ROOT / "pyproject.toml").open("rb") as file:
        told = tomllib.load(file)["tool"]["importlinter"]
    (contract,) = [one for one in told["contracts"] if one["type"] == "layers"]
    assert contract["exhaustive"]
    assert not contract.get("ignore_imports")
    assert not contract.get("exhaustive_ignores")
    return [set(line.replace(" ", "").split("|")) for line in contract["layers"]]


def test_nothing_lies_at_the_root_but_the_way_in() -> None:
    files = {path.name for path in SOURCE.iterdir() if path.is_file()}
    assert files == {"__init__.py", "__main__.py"}


def test_every_folder_is_a_layer() -> None:
    folders = {path.parent.name for path in SOURCE.glob("*/__init__.py")}
    assert folders | {"__main__"} == set.union(*layers())
