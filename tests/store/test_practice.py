"""A trainer's own practice jobs on disk."""

from __future__ import annotations

import dataclasses
from pathlib import Path

from coilwright.store.practice import (
    bin_practice,
    last_binned,
    practice_path,
    practices,
    save_practice,
    shipped_practices,
    unbin_practice,
)


def test_a_practice_job_goes_to_the_bin_and_comes_back_by_its_own_name(tmp_path: Path) -> None:
    assert last_binned(tmp_path) is None
    one = dataclasses.replace(shipped_practices()["wrong-gauge"], name="barn-2", title="Barn 2")
    path = save_practice(tmp_path, one)
    first = bin_practice(tmp_path, one)
    save_practice(tmp_path, one)
    second = bin_practice(tmp_path, one)
    assert first != second, "not over the one that lay there"
    assert not path.exists()
    assert last_binned(tmp_path) == second
    # Bins of earlier versions numbered the second one so.
    second = second.rename(second.with_name("barn-2-2.practice.json"))
    assert last_binned(tmp_path) == second
    assert unbin_practice(tmp_path, second) == path == practice_path(tmp_path, one)
    assert practices(tmp_path)[0]["barn-2"] == one
    assert last_binned(tmp_path) == first
