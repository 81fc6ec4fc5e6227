"""What was acknowledged is on disk, whatever fails and whoever else writes."""

from __future__ import annotations

import errno
import os
import threading
from contextlib import suppress
from pathlib import Path

import pytest

from coilwright.job.edit import new_job
from coilwright.store import Store, StoreError, files, lock, write_whole
from coilwright.store.files import ChangedElsewhere, Seen
from coilwright.store.history import History, KeptStep, keep_history
from coilwright.store.versions import NEWEST, thinned, versions_folder
from tests.endurance.faults import Killed, faulty


@pytest.fixture
def store(tmp_path: Path) -> Store:
    return Store(tmp_path / "data")


def parts(folder: Path) -> list[Path]:
    return list(folder.rglob("*.part"))


def titles(store: Store, path: Path) -> list[str]:
    return [version.title for version in store.versions(path)]


# -- a fault at each system call -----------------------------------------------------------


@pytest.mark.slow
@pytest.mark.parametrize("error", [errno.ENOSPC, errno.EIO, errno.EACCES])
def test_a_save_in_which_a_call_fails_leaves_the_old_job_or_the_new(
    store: Store, error: int
) -> None:
    at, failed, done, sentence = 0, 0, False, ""
    while not done:
        path = store.create(new_job("Old"), "")
        before = path.read_bytes()
        with faulty(at, error=error) as fault:
            try:
                store.save(path, new_job("New"), "")
                acknowledged = True
            except StoreError as said:
                acknowledged = False
                failed += 1
                sentence = str(said)
        assert store.load(path).title == ("New" if acknowledged else "Old")
        if not acknowledged:
            assert "\n" not in sentence
            assert path.read_bytes() == before
        store.sweep()
        assert not parts(store.jobs_folder)
        done, at = fault.over, at + 1
    assert at > 10
    assert failed > 4


@pytest.mark.parametrize("error", [errno.ENOSPC, errno.EIO, errno.EACCES])
def test_a_first_save_in_which_a_call_fails_leaves_no_job_or_a_whole_one(
    tmp_path: Path, error: int
) -> None:
    at, done = 0, False
    while not done:
        store = Store(tmp_path / str(at))
        with faulty(at, error=error) as fault:
            try:
                made = store.create(new_job("New"), "")
            except StoreError:
                made = None
        assert [e.damaged for e in store.jobs()] == [False] * len(store.jobs())
        assert made is None or store.load(made).title == "New"
        store.sweep()
        assert not parts(store.jobs_folder)
        done, at = fault.over, at + 1
    assert at > 8


def test_a_kill_at_any_call_of_a_save_leaves_the_old_job_or_the_new(store: Store) -> None:
    at, done = 0, False
    while not done:
        path = store.create(new_job("Old"), "")
        with faulty(at, kill=True) as fault:
            try:
                store.save(path, new_job("New"), "")
                titles_left = {"New"}
            except Killed:
                titles_left = {"Old", "New"}
        assert store.load(path).title in titles_left
        assert all(not v.damaged for v in store.versions(path))
        Store(store.folder).sweep()
        assert not parts(store.jobs_folder)
        done, at = fault.over, at + 1
    assert at > 10


def test_a_kill_while_the_steps_back_are_kept_leaves_nothing_half_written(store: Store) -> None:
    path, job = store.create(new_job("Old"), ""), new_job("New")
    at, done, left = 0, False, 0
    while not done:
        with faulty(at, kill=True) as fault, suppress(Killed):
            keep_history(store.folder, path, job, History(undo=[KeptStep("a letter", [])]))
        left += len(parts(store.folder))
        store.sweep()
        assert not parts(store.folder)
        done, at = fault.over, at + 1
    assert left


def test_a_kill_at_any_call_of_a_first_save_leaves_no_empty_job(tmp_path: Path) -> None:
    at, done = 0, False
    while not done:
        store = Store(tmp_path / str(at))
        with faulty(at, kill=True) as fault:
            try:
                store.create(new_job("New"), "")
                least = 1
            except Killed:
                least = 0
        jobs = store.jobs()
        assert least <= len(jobs) <= 1
        assert not any(entry.damaged for entry in jobs)
        store.sweep()
        assert not parts(store.folder)
        done, at = fault.over, at + 1
    assert at > 8


def test_a_version_that_cannot_be_kept_does_not_stop_the_save(store: Store) -> None:
    path = store.create(new_job("Old"))
    store.folder.joinpath("versions").write_text("a file where a folder is wanted")
    store.save(path, new_job("New"))
    assert store.load(path).title == "New"


# -- two windows ---------------------------------------------------------------------------


def test_who_saves_over_what_he_has_not_seen_is_told_and_writes_nothing(store: Store) -> None:
    path = store.create(new_job("Old"))
    seen = Seen(store.stamp(path))
    store.save(path, new_job("Theirs"), seen=seen)
    with pytest.raises(ChangedElsewhere):
        store.save(path, new_job("Mine"), seen=seen)
    assert store.load(path).title == "Theirs"
    assert titles(store, path) == ["Old"]


def test_looking_and_replacing_are_one_act(
    store: Store, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The second comes when the first has looked and not yet written: it waits, and is told."""
    path = store.create(new_job("Old"))
    seen = Seen(store.stamp(path))
    told: list[str] = []
    waiting = threading.Event()

    class Waiting(threading.Thread):
        def run(self) -> None:
            try:
                store.save(path, new_job("Second"), seen=seen)
                told.append("saved")
            except ChangedElsewhere:
                told.append("told")

    second = Waiting()
    lock_file, write_part = lock._lock, files._write_part

    def slowly(*given: object) -> Path:
        if threading.current_thread() is threading.main_thread():
            second.start()
            assert waiting.wait(60), "the second one did not come to the lock"
        return write_part(*given)  # type: ignore[arg-type]

    def watched(handle: int) -> None:
        try:
            lock_file(handle)
        finally:
            if threading.current_thread() is second:
                waiting.set()

    monkeypatch.setattr(lock, "_PATIENCE", 60.0)
    monkeypatch.setattr(lock, "_lock", watched)
    monkeypatch.setattr(files, "_write_part", slowly)
    store.save(path, new_job("First"), seen=seen)
    second.join()
    assert told == ["told"]
    assert store.load(path).title == "First"


def test_a_lock_that_another_window_holds_on_to_is_a_sentence(
    store: Store, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(lock, "_PATIENCE", 0.0)
    path = store.create(new_job("Old"))
    with lock.locked(path.parent), pytest.raises(StoreError, match="another window is writing"):
        write_whole(path, "x")
    assert store.load(path).title == "Old"


def test_where_no_lock_can_be_made_it_is_written_without(
    store: Store, monkeypatch: pytest.MonkeyPatch
) -> None:
    def none(*_: object) -> None:
        raise OSError(errno.ENOLCK, "No locks available")

    monkeypatch.setattr(lock, "_lock", none)
    path = store.create(new_job("Old"))
    store.save(path, new_job("New"))
    assert store.load(path).title == "New"


def test_the_lock_leaves_no_file_behind(store: Store) -> None:
    path = store.create(new_job("Old"))
    store.save(path, new_job("New"))
    assert [p.name for p in path.parent.iterdir()] == [path.name]


# -- what a file is ------------------------------------------------------------------------


def test_a_job_that_is_a_link_stays_one(store: Store, tmp_path: Path) -> None:
    real = tmp_path / "shared" / "real.job.json"
    real.parent.mkdir()
    store.create(new_job("Old")).replace(real)
    link = store.jobs_folder / "barn.job.json"
    link.symlink_to(real)
    store.save(link, new_job("New"))
    assert link.is_symlink()
    assert store.load(real).title == "New"
    assert [p.name for p in real.parent.iterdir()] == [real.name]


def test_a_version_has_the_mode_of_its_job(store: Store) -> None:
    path = store.create(new_job("Old"))
    path.chmod(0o600)
    store.save(path, new_job("New"))
    (kept,) = versions_folder(store.folder, path).iterdir()
    assert kept.stat().st_mode & 0o777 == 0o600


def test_a_version_is_copied_where_it_cannot_be_linked(
    store: Store, monkeypatch: pytest.MonkeyPatch
) -> None:
    def none(*_: object) -> None:
        raise OSError(errno.EXDEV, "Invalid cross-device link")

    path = store.create(new_job("Old"))
    path.chmod(0o600)
    saved = path.stat().st_mtime_ns
    monkeypatch.setattr(os, "link", none)
    store.save(path, new_job("New"))
    (kept,) = versions_folder(store.folder, path).iterdir()
    assert kept.stat().st_mode & 0o777 == 0o600
    assert kept.stat().st_mtime_ns == saved
    assert titles(store, path) == ["Old"]


def test_a_read_only_job_is_refused_with_a_sentence(store: Store) -> None:
    path = store.create(new_job("Old"))
    path.chmod(0o444)
    with pytest.raises(StoreError, match="read-only"):
        store.save(path, new_job("New"))
    assert store.load(path).title == "Old"
    assert path.stat().st_mode & 0o777 == 0o444


def test_eleven_jobs_of_one_very_long_name_can_be_saved_again(store: Store) -> None:
    title = "\U00020000" * 60  # four bytes each
    for _ in range(11):
        path = store.create(new_job(title), "")
        store.save(path, new_job(f"{title}!"), "")
        assert len(store.versions(path)) == 1
    assert len(store.jobs()) == 11


def test_a_failed_look_after_a_save_is_no_error(
    store: Store, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = store.create(new_job("Old"))
    monkeypatch.setattr("coilwright.store.jobs.stamp", lambda _path: None)
    assert store.save(path, new_job("New")).size == path.stat().st_size


def test_what_another_window_is_writing_is_not_swept(store: Store) -> None:
    path = store.create(new_job("Old"))
    part = path.parent / ".x.part"
    part.write_text("half")
    with lock.locked(path.parent):
        store.sweep()
        assert part.exists()
    store.sweep()
    assert not part.exists()


def test_what_is_written_can_be_opened(store: Store, monkeypatch: pytest.MonkeyPatch) -> None:
    path = store.create(new_job("Old"))
    monkeypatch.setattr(files, "LARGEST", 1000)
    with pytest.raises(StoreError, match="could not be opened again"):
        store.save(path, new_job("x" * 2000), "")
    assert store.load(path).title == "Old"
    with pytest.raises(StoreError, match="could not be opened again"):
        store.create(new_job("x" * 2000), "")
    assert len(store.jobs()) == 1


# -- earlier versions ----------------------------------------------------------------------


def test_the_last_ten_versions_are_kept_and_each_can_come_back(store: Store) -> None:
    path = store.create(new_job("Version 0"), "")
    for number in range(1, 14):
        store.save(path, new_job(f"Version {number}"), "")
    kept = store.versions(path)
    assert [v.title for v in kept[:NEWEST]] == [f"Version {n}" for n in range(12, 2, -1)]
    store.bring_back(path, kept[9].path)
    assert store.load(path).title == "Version 3"
    assert titles(store, path)[0] == "Version 13", "what was replaced is kept in turn"


def test_what_was_no_job_pushes_out_no_version(store: Store) -> None:
    path = store.create(new_job("Good"), "")
    for number in range(15):
        path.write_text(f"broken {number}")
        store.save(path, new_job(f"Good {number}"), "")
        path.write_text(f"broken again {number}")
        store.save(path, new_job(f"Good {number}"), "")
    folder = versions_folder(store.folder, path)
    assert len(list(folder.glob("*.unread"))) == 10
    assert not any(v.damaged for v in store.versions(path))


def test_the_older_the_fewer() -> None:
    second = 1_000_000_000
    each_second = [n * second for n in range(3 * 86_400, 0, -1)]
    stays = sorted(thinned(each_second), reverse=True)
    assert stays[:10] == each_second[:10]
    ages = [(each_second[0] - when) / second for when in stays]
    assert 11 <= sum(1 for age in ages[10:] if age < 3600) <= 13
    assert 22 <= sum(1 for age in ages if 3600 <= age < 86_400) <= 25
    assert 2 <= sum(1 for age in ages if age >= 86_400) <= 4
    # What was thinned once is thinned no further by thinning it again.
    assert thinned(stays) == set(stays)
