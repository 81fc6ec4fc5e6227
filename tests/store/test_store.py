"""Jobs on disk: whole or not at all, nothing lost, every fault said in one sentence."""

from __future__ import annotations

import dataclasses
import os
from pathlib import Path

import pytest

from coilwright.job.answers.job import JobKey
from coilwright.job.copies import begun_in
from coilwright.job.edit import give, give_text, new_job
from coilwright.job.job import Job
from coilwright.store import (
    SUFFIX,
    Store,
    StoreError,
    home,
    read_model,
    slug,
    to_text,
    write_whole,
)
from coilwright.store.put_elsewhere import SameCoil, put_elsewhere
from coilwright.store.shipped import demo_jobs
from coilwright.store.usual import Usual
from coilwright.store.versions import versions_folder
from coilwright.units import System


@pytest.fixture
def store(tmp_path: Path) -> Store:
    return Store(tmp_path / "data")


@pytest.mark.parametrize("key", sorted(demo_jobs()))
def test_a_job_reads_back_the_same(store: Store, key: str) -> None:
    job = demo_jobs()[key]
    path = store.create(job)
    assert store.load(path) == job


def test_text_is_readable_and_keeps_what_was_typed(store: Store) -> None:
    job, error = give_text(new_job("Barn"), "panel.coverage", "sixteen")
    assert error
    job, _ = give_text(job, "roof.length", "42' 6 1/2\"")
    path = store.create(job)
    text = path.read_text("utf-8")
    assert '"length": "42 ft 6 1/2 in"' in text
    assert store.load(path).typed == {"panel.coverage": "sixteen"}


def test_two_jobs_of_one_name_get_two_files(store: Store) -> None:
    first, second = store.create(new_job("Barn")), store.create(new_job("Barn"))
    assert first != second
    assert [e.title for e in store.jobs()] == ["Barn", "Barn"]


def test_a_job_begins_in_units_and_currency_of_the_last_one_that_is_the_shop_s(
    store: Store
) -> None:
    assert store.usual() == Usual()
    (demo, *_) = demo_jobs().values()
    jobs = [give(give(new_job("Barn"), JobKey.UNITS, System.METRIC), JobKey.CURRENCY, "EUR"),
            new_job("Shed"), demo]
    assert demo.about
    for when, job in ((2, jobs[0]), (1, jobs[1]), (3, demo)):
        os.utime(store.create(job), (when, when))
    usual = store.usual()
    begun = begun_in(usual.units, usual.currency)
    assert (begun.units, begun.currency) == (System.METRIC, "EUR")
    # All else is as in any new job; its guesses are usual in those units.
    assert begun == give(new_job(units=System.METRIC), JobKey.CURRENCY, "EUR")
    assert begun_in(System.US, "") == begun_in(System.US, "nothing") == new_job()
    assert store.usual_units() is System.METRIC
    # One that has only begun says its units too.
    os.utime(store.create(new_job()), (4, 4))
    assert store.usual() == Usual()


def test_save_keeps_the_version_before(store: Store) -> None:
    path = store.create(new_job("Old"))
    before = path.read_text("utf-8")
    store.save(path, new_job("New"))
    assert store.load(path).title == "New"
    (kept,) = store.versions(path)
    assert kept.path.read_text("utf-8") == before


def test_a_failed_write_leaves_the_old_file_and_no_rubbish(
    store: Store, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = store.create(new_job("Barn"))
    before = path.read_text("utf-8")

    def broken(*_: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "replace", broken)
    with pytest.raises(StoreError, match="no space left"):
        write_whole(path, "half")
    assert path.read_text("utf-8") == before
    assert [p.name for p in path.parent.iterdir()] == [path.name]


def test_the_file_keeps_its_mode(store: Store) -> None:
    path = store.create(new_job("Barn"))
    path.chmod(0o600)
    store.save(path, new_job("Other"))
    assert path.stat().st_mode & 0o777 == 0o600


def test_a_change_by_another_window_shows_in_the_stamp(store: Store) -> None:
    path = store.create(new_job("Barn"))
    seen = store.save(path, new_job("Barn 2"))
    assert store.stamp(path) == seen
    Store(store.folder).save(path, new_job("Barn, by another window"))
    assert store.stamp(path) != seen
    assert store.stamp(path.with_name("none")) is None


def test_delete_and_restore(store: Store) -> None:
    path = store.create(new_job("Barn"))
    place = store.delete(path)
    assert store.jobs() == []
    again = store.create(new_job("Barn"))
    assert again == path
    back = store.restore(place)
    assert store.load(back).title == "Barn"
    assert len(store.jobs()) == 2


def test_the_bin_lists_what_was_deleted_last_first(store: Store) -> None:
    assert store.last_binned() is None
    path = store.create(new_job("2 story house"))
    store.delete(path)
    store.create(new_job("2 story house"))
    second = store.delete(path)
    assert [e.title for e in store.binned()] == ["2 story house"] * 2
    last = store.last_binned()
    assert last is not None
    assert last.path == second, "not over the one that lay there"
    # Versions and undo are found by the name of the file: its number is no count of the bin.
    assert store.restore(last.path) == path
    assert len(store.binned()) == 1


def test_no_file_among_the_jobs_that_is_none_stops_a_look_at_all(store: Store) -> None:
    job = dataclasses.replace(new_job("Barn"), put_in_stock={"coil.1": "R-2"})
    path, copy = store.create(job), store.create(job)
    circle = store.jobs_folder / f"a-circle{SUFFIX}"
    circle.symlink_to(circle)
    (store.jobs_folder / f"a-table{SUFFIX}").write_text('{"about": {"put_in_stock": {}}}')
    assert put_elsewhere(store.jobs_folder, path, job, {}) == {
        "coil.1": SameCoil(copy.name, "R-2")}
    # Where this one put nothing back and no tag was read, the number of the order tells it.
    for number, found in (("", {}), ("7", {"coil.1": SameCoil(copy.name, "R-2")})):
        theirs = dataclasses.replace(job, order=dataclasses.replace(job.order, number=number))
        store.save(copy, theirs)
        mine = dataclasses.replace(theirs, put_in_stock={})
        assert put_elsewhere(store.jobs_folder, path, mine, {"coil.1": set()}) == found
    assert store.usual() == Usual()
    assert [entry.damaged for entry in store.jobs()].count(False) == 2


def test_what_is_gone_from_the_bin_or_leads_nowhere_stops_no_list_of_it(
    store: Store, monkeypatch: pytest.MonkeyPatch
) -> None:
    store.delete(store.create(new_job("Barn")))
    link = store.jobs_folder / f"shed{SUFFIX}"
    link.symlink_to(store.folder / "on a stick that is away.job.json")
    store.delete(link)
    seen = [*store.bin_folder.glob("*"), store.bin_folder / f"just-brought-back{SUFFIX}"]
    monkeypatch.setattr(Path, "glob", lambda *_: iter(seen))
    # A link came there when it was moved, whenever its file was written.
    assert [entry.title for entry in store.binned()] == ["shed", "Barn"]
    last = store.last_binned()
    assert last is not None
    # Among the jobs it would be a damaged one: it stays, until its file is there again.
    with pytest.raises(StoreError, match="shed is a link to a file that is not there: it stays in"):
        store.restore(last.path)
    other = store.last_binned({last.path})
    assert other is not None
    assert other.title == "Barn"
    (store.folder / "on a stick that is away.job.json").write_text("{}")
    assert store.restore(last.path) == link
    assert link.is_symlink()


@pytest.mark.parametrize(
    ("content", "words"),
    [
        (b"", "damaged or half written"),
        (b'{"format": "coilwright-job", "ver', "damaged or half written"),
        (b"[1, 2]", "JSON object"),
        (b"{}", "format"),
        (b'{"format": "coilwright-machine", "version": 1}', "is a machine, not a job."),
        (b'{"format": "a-song"}', "its “format” should say “coilwright-job”"),
        (b"<!doctype html><title>The class</title>", "is a page to read or print, not a job."),
        (b'{"format": "coilwright-job", "version": 7}', "newer"),
        (b'{"format": "coilwright-job", "version": "1"}', "version: it must be one of: 2"),
        (b'{"format": "coilwright-job", "version": 0}', "version: it must be one of: 2"),
        (b'{"format": "coilwright-job", "version": -1}', "version: it must be one of: 2"),
        (b'{"format": "coilwright-job", "version": 1, "roof": {"length": "wide"}}', "roof.length"),
        (b'{"format": "coilwright-job", "version": 1, "roof": {"length": NaN}}', "roof.length"),
        (b'{"format": "coilwright-job", "version": 1, "color": "red"}', "color"),
        (b'{"format": "coilwright-job", "version": 1, "metal": {"metal": "tin"}}', "metal.metal"),
        (
            b'{"format": "coilwright-job", "version": 1, "standing": {"panel.takeup": "guess"}}',
            "did you mean panel.take_up?",
        ),
        (b"\xff\xfe\x00", "UTF-8"),
        (b"[" * 100_000, "damaged"),
        (b'{"format": "coilwright-job", "version": 1, "panel": {"coverage": 1'
         + b"0" * 400 + b"}}", "401 digits"),
        (b'{"format": "coilwright-job", "version": 1, "panel": {"coverage": 1'
         + b"0" * 5000 + b"}}", "5001 digits"),
    ],
)
def test_a_bad_file_is_refused_in_one_sentence_and_stays(
    store: Store, content: bytes, words: str
) -> None:
    path = store.jobs_folder / "bad.job.json"
    path.parent.mkdir(parents=True)
    path.write_bytes(content)
    with pytest.raises(StoreError) as caught:
        store.load(path)
    assert words in str(caught.value)
    assert "\n" not in str(caught.value)
    assert path.read_bytes() == content
    (entry,) = store.jobs()
    assert entry.damaged
    assert entry.name == "bad"


def test_a_mark_before_the_text_is_no_damage(store: Store, tmp_path: Path) -> None:
    path = tmp_path / "marked.job.json"
    path.write_bytes(b"\xef\xbb\xbf" + to_text(new_job("Barn")).encode("utf-8"))
    assert store.load(path) == new_job("Barn")


def test_half_a_character_from_a_file_is_kept_and_saved(store: Store) -> None:
    text = '{"format": "coilwright-job", "version": 1, "job": {"name": "a\\ud800"}}'
    job = read_model(text, Job, "it")
    assert job.title.startswith("a")
    path = store.create(job)
    assert store.load(path) == job


def test_what_another_program_left_in_the_file_is_kept(store: Store) -> None:
    path = store.create(new_job("Barn"))
    path.write_bytes(b"\xff\xfe\x00 no text")
    store.save(path, new_job("Barn"))
    (kept,) = versions_folder(store.folder, path).iterdir()
    assert kept.read_bytes() == b"\xff\xfe\x00 no text"
    assert store.load(path).title == "Barn"


def test_a_folder_or_nothing_is_refused(store: Store, tmp_path: Path) -> None:
    with pytest.raises(StoreError, match="folder"):
        store.load(tmp_path)
    with pytest.raises(StoreError, match="could not be read"):
        store.load(tmp_path / "none.json")


def test_find_by_name_title_or_path(store: Store, tmp_path: Path) -> None:
    path = store.create(new_job("Heron Lane"))
    assert store.find("heron-lane") == path
    assert store.find("Heron Lane") == path
    assert store.find(str(path)) == path
    with pytest.raises(StoreError, match="did you mean heron-lane"):
        store.find("heron-lan")
    with pytest.raises(StoreError, match="did you mean heron-lane"):
        store.find("Her")
    with pytest.raises(StoreError, match="no job and no file"):
        store.find(str(tmp_path / "elsewhere.json"))
    renamed = store.create(new_job("Unnamed job"))
    store.save(renamed, new_job("Fern Hollow"))
    assert store.find("fern-hollow") == renamed, "a title as a file would be named"
    store.create(new_job("Heron Lane"))
    with pytest.raises(StoreError, match="say which"):
        store.find("HERON LANE")


def test_home_follows_the_environment(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    monkeypatch.setenv("COILWRIGHT_HOME", str(tmp_path / "x"))
    assert home() == tmp_path / "x"
    monkeypatch.delenv("COILWRIGHT_HOME")
    assert home().name == "coilwright"


@pytest.mark.parametrize(
    ("title", "name"),
    [("Heron Lane barn", "heron-lane-barn"), ("../../etc", "etc"), ("///", "job"),
     ("Łąka 5", "łąka-5"), ("x" * 300, "x" * 60)],
)
def test_slug(title: str, name: str) -> None:
    assert slug(title) == name


def test_text_is_stable() -> None:
    job = demo_jobs()["quarry-house-hip"]
    text = to_text(job)
    assert to_text(read_model(text, Job, "it")) == text
