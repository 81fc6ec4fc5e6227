"""The trials: kills while typing, races of two savers, hostile inputs. Each says what it lost."""

from __future__ import annotations

import json
import os
import random
import time
from pathlib import Path

from coilwright.job.edit import new_job
from coilwright.job.job import Job
from coilwright.job.steps import STEPS
from coilwright.store import Store, StoreError, read_model, to_text
from coilwright.store.files import ChangedElsewhere, Seen
from coilwright.store.plane_rows import read_rows
from coilwright.store.shipped import demo_jobs
from coilwright.units import Kind, UnreadableQuantity, read
from tests.endurance.result import Result
from tests.endurance.terminal import Window


class Waits:
    """How long each letter took from the key to the disk. there: the title from the start."""

    def __init__(self, there: str) -> None:
        self._there = there
        self._seen = 0
        self.waits: list[float] = []

    def look(self, typed: list[float], title: str) -> None:
        """This title is on disk now; typed: when each of its letters was sent."""
        # The first letter replaces what stood in the box, or is put to it.
        added = "" if title == self._there else title.removeprefix(self._there)
        letters = min(len(typed), len(added))
        now = time.monotonic()
        self.waits += [now - when for when in typed[self._seen:letters]]
        self._seen = max(self._seen, letters)


def kills(folder: Path, count: int, seed: int) -> Result:
    """Kill the wizard at random moments of typing: what was on disk stays, whole and in order."""
    result, draw = Result("kills while typing"), random.Random(seed)
    for number in range(count):
        store = Store(folder / str(number))
        path = store.create(new_job("Zebra")) if number % 2 else None
        with Window(store.folder, path) as window:
            if path is None:
                window.until_shown("New job")
                window.type("n")
                window.until_shown(f"1 of {len(STEPS)}")
            else:
                for _ in range(2):
                    window.until_shown("Zebra")
            seen, typed, waits = "", [], Waits("Zebra" if number % 2 else "")
            end = time.monotonic() + draw.uniform(0.0, 4.0)
            letters = iter("abcdefghijklmnopqrstuvwxyz" * 20)
            while time.monotonic() < end:
                window.type(next(letters))
                typed.append(time.monotonic())
                pause = typed[-1] + draw.uniform(0.0, 0.25)
                while time.monotonic() < pause:
                    window.read(0.01)
                    if (title := _title(store, result)) and title != seen:
                        seen = title
                        waits.look(typed, seen)
            window.kill()
            result.waits += waits.waits
            window.wait()
        _look_after_kill(store, seen, result, number)
        result.made += 1
    return result


def _title(store: Store, result: Result) -> str:
    """The title on disk: acknowledged from now on."""
    paths = list(store.jobs_folder.glob("*.job.json"))
    try:
        return max((store.load(path).title for path in paths), key=len, default="")
    except StoreError as error:
        if any(path.exists() and not path.stat().st_size for path in paths):
            result.faults.append(f"an empty job: {error}")
        return ""  # it was named anew meanwhile


def _look_after_kill(store: Store, seen: str, result: Result, number: int) -> None:
    entries = store.jobs()
    for entry in entries:
        if entry.damaged:
            result.faults.append(f"kill {number}: damaged: {entry.state}")
    titles = [entry.title for entry in entries]
    if seen and not any(title.startswith(seen) for title in titles):
        result.faults.append(f"kill {number}: “{seen}” was on disk, now {titles}")
    result.note("left a job" if entries else "ended before the first save")
    store.sweep()
    if parts := list(store.folder.rglob("*.part")):
        result.faults.append(f"kill {number}: left {parts}")


def _saver(path: Path, title: str, seen: Seen, wait: float, begin: int) -> str:
    """Saves when told to, and says how that went."""
    store = Store(path.parents[1])
    job = new_job(title)
    os.read(begin, 1)
    time.sleep(wait)
    try:
        store.save(path, job, "", seen)
    except ChangedElsewhere:
        return "told"
    except BaseException as error:
        return repr(error)
    return "saved"


def _forked(
    path: Path, title: str, seen: Seen, wait: float, begin: tuple[int, int]
) -> tuple[int, int]:
    """A process that saves; its number, and where it says how that went."""
    answer, say = os.pipe()
    process = os.fork()
    if process:
        os.close(say)
        return process, answer
    try:
        os.close(begin[1])
        os.write(say, _saver(path, title, seen, wait, begin[0]).encode())
    finally:
        os._exit(0)


def races(folder: Path, count: int, seed: int) -> Result:
    """Two windows save at nearly one moment: what was acknowledged is there, the other is told."""
    result, draw = Result("races of two savers"), random.Random(seed)
    for number in range(count):
        store = Store(folder / str(number))
        path = store.create(new_job("Old"), "")
        # Seen before either begins: one that is late to look would see what the other has saved.
        begin, seen = os.pipe(), Seen(store.stamp(path))
        offset = draw.choice((0.0, draw.uniform(0, 0.005), draw.uniform(0, 0.06)))
        both = {
            title: _forked(path, title, seen, wait, begin)
            for title, wait in (("One", 0.0), ("Two", offset))
        }
        os.close(begin[0])
        os.close(begin[1])  # which begins it
        said = {}
        for title, (process, answer) in both.items():
            with os.fdopen(answer, "rb") as file:
                said[title] = file.read().decode()
            os.waitpid(process, 0)
        there = {store.load(path).title, *(v.title for v in store.versions(path))}
        for title, what in said.items():
            if what == "saved" and title not in there:
                result.faults.append(f"race {number}: {title} was acknowledged and is gone")
        if sorted(said.values()) != ["saved", "told"]:
            result.faults.append(f"race {number}: {said}")
        result.made += 1
    return result


def hostile_inputs(_folder: Path, count: int, seed: int) -> Result:
    """Broken and changed files, rows and quantities: a sentence or a value, never a traceback."""
    result, draw = Result("hostile inputs"), random.Random(seed)
    texts = [to_text(job) for job in demo_jobs().values()]
    for _ in range(count):
        kind = draw.choice(("file", "rows", "quantity", "quantity", "quantity"))
        text = _spoiled(draw.choice(texts), draw) if kind == "file" else _line(draw)
        try:
            if kind == "file":
                read_model(text, Job, "it")
            elif kind == "rows":
                read_rows(text)
            else:
                read(text, draw.choice(list(Kind)))
        except (StoreError, UnreadableQuantity) as said:
            if "\n" in str(said) or len(str(said)) > 1000:
                result.faults.append(f"{kind}: no sentence for {text[:200]!r}: {str(said)[:200]!r}")
        except Exception as error:
            result.faults.append(f"{kind}: {error!r:.200} for {text[:200]!r}")
        result.note(f"of {kind}")
        result.made += 1
    return result


_SIGNS = "0123456789 .,/-+'\"″′×%:;=\t\n ftinmlboz€°½⅜٣𝟙\x00\x1b\u202e\u0085"


def _line(draw: random.Random) -> str:
    return "".join(draw.choice(_SIGNS) for _ in range(draw.randrange(40)))


def _spoiled(text: str, draw: random.Random) -> str:
    """The text with a piece cut out, doubled or changed."""
    at = draw.randrange(len(text))
    to = min(len(text), at + draw.randrange(1, 60))
    new = draw.choice(("", text[at:to] * 2, _line(draw), json.dumps(_line(draw)), "[" * 50, "1e999",
                       "9" * 500, "null", '{"a": 1}'))
    return text[:at] + new + text[to:]
