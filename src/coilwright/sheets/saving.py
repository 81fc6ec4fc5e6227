"""Saving a job's sheets into a folder."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from itertools import count
from pathlib import Path

from coilwright.job.job import Job
from coilwright.job.life import Sent
from coilwright.job.requests import Request
from coilwright.plan import Plan
from coilwright.plan.practice.review import Review
from coilwright.plan.practice.solve import Solved
from coilwright.sheets import KINDS, ending, render_as
from coilwright.sheets.asked import asked_before_words, asked_otherwise, files_to_save
from coilwright.sheets.file_names import file_stem, sent_stem, unsent_stems
from coilwright.sheets.practice import combined_sheet, handout, keys_sheet
from coilwright.sheets.practice_class import class_sheet
from coilwright.sheets.practice_review import reviews_sheet
from coilwright.sheets.practice_rows import class_rows
from coilwright.sheets.render.csv import to_csv
from coilwright.sheets.told import is_as_sent
from coilwright.store import StoreError
from coilwright.store.files import read_text, write_new
from coilwright.store.jobs import slug
from coilwright.store.outgoing import write_outgoing


def save_sheets(
    plan: Plan, folder: Path, kinds: tuple[str, ...] = (), unsent: Collection[Request] = ()
) -> tuple[Path, ...]:
    """Write sheets as Markdown and HTML, CSV where they have rows, text for an e-mail; the paths.

    Raises StoreError.

    kinds: which; without any, every sheet. A sheet saved before under the same name is replaced
    by what the job says now; a request that says something else stays as it was asked.
    unsent: requests that were not sent to anybody yet, which are replaced too.
    """
    saved = []
    for name, text in tuple(files_to_save(plan, folder, kinds, unsent)):
        path = folder / name
        write_outgoing(path, text)
        saved.append(path)
    return tuple(saved)


def remove_unsent(plan: Plan, folder: Path) -> tuple[Path, ...]:
    """Take away the files that the order had before it was what it is; those that were there.

    A draft's beside the page that is ready, either beside the one that was sent, would be taken for
    a later one. Raises StoreError.
    """
    own = file_stem(plan, "order")
    there = [path for stem in unsent_stems(plan.job) if stem != own
             for form in KINDS["order"].forms
             if (path := folder / f"{stem}.{ending(form)}").is_file()]
    for path in there:
        try:
            path.unlink()
        except OSError as error:
            raise StoreError(f"{path} is the order as it was and could not be taken away: "
                             f"{(error.strerror or 'unknown').lower()}.") from None
    return tuple(there)


def save_sent(sent: Sent, job: Job, folder: Path) -> tuple[Path, ...]:
    """Write an order as it was sent, byte for byte: text and page to print; the paths.

    Never over a file that says anything else. The job's file of then stays in the job: it names the
    client, and lies in no folder from which papers leave the house. Raises StoreError.
    """
    stem = sent_stem(sent, job)
    try:
        texts = {".txt": sent.sheet, ".html": sent.page}
    except ValueError as error:
        raise StoreError(f"Revision {sent.revision} cannot be written: {error}.") from None
    saved = []
    for end, text in texts.items():
        if not text:
            continue
        path = folder / f"{stem}{end}"
        if write_new(path, text) is None and read_text(path) != text:
            raise StoreError(f"{path} is there already and says something else; move it first.")
        saved.append(path)
    return tuple(saved)


def order_is(plan: Plan) -> str:
    """What an order is, as the name of its files has it."""
    if is_as_sent(plan):
        return "sent"
    if plan.job.life.sent:
        return "not as it was sent"
    return "ready" if plan.ready else "a draft"


def saved_words(
    saved: tuple[Path, ...], folder: Path, plan: Plan, gone: tuple[Path, ...] = ()
) -> str:
    """Where sheets were saved, first; how many files, what to do with them, and which sheets.

    gone: the order's earlier files that were taken away.
    """
    job = plan.job
    stems = {path.stem for path in saved}
    suppliers = ["", *(one.supplier for one in job.requests)]
    kinds = [kind for kind in KINDS
             if not stems.isdisjoint(file_stem(plan, kind, to) for to in suppliers)]
    draft = "" if "order" not in kinds or not file_stem(plan, "order").endswith("-draft") else (
        f" The order's files say draft until it is {'sent' if job.life.sent else 'ready'}.")
    if asked := asked_before_words(job, asked_otherwise(plan, folder)):
        draft += f" {asked}"
    if gone:
        draft += f" The order is {order_is(plan)}, so its earlier files are gone."
    return (f"Sheets saved in {_from_home(folder)}: {len(saved)} files. To print one, open the one "
            "that ends in .html; .txt goes into an e-mail, .csv into a spreadsheet. "
            f"Saved are: {', '.join(kinds)}.{draft}")


def _from_home(folder: Path) -> str:
    """A folder as it is found from the reader's own, where it lies in that: shorter to read."""
    if not folder.is_relative_to(home := Path.home()):
        return str(folder)
    return f"~/{folder.relative_to(home).as_posix()}"


def save_class_papers(variants: Sequence[Solved], folder: Path) -> tuple[Path, ...]:
    """Write the handouts of variants as one page to print, and their keys as another; the paths.

    Raises StoreError.
    """
    name = slug(variants[0].practice.title)  # its own name may tell what there is to be found
    return _save({
        f"{name}-handouts.html": render_as(combined_sheet(variants, handout), "html"),
        f"{name}-keys.html": render_as(keys_sheet(variants), "html"),
    }, folder)


def save_reviews(reviews: Sequence[Review], folder: Path) -> tuple[Path, ...]:
    """Write a class's table as a page and for a spreadsheet, and everyone's own review; the paths.

    Those of another class that lie there stay. Raises StoreError.
    """
    pages = (("class{}.html", render_as(class_sheet(reviews, details=True), "html")),
             # The mark in front tells spreadsheets that the text is UTF-8: names have accents.
             ("class{}.csv", f"\ufeff{to_csv(class_rows(reviews))}"),
             ("class{}-reviews.html", render_as(reviews_sheet(reviews), "html")))
    for number in count(1):
        texts = {name.format("" if number == 1 else f"-{number}"): text for name, text in pages}
        there = {name: folder / name for name in texts if (folder / name).exists()}
        if all(read_text(place) == texts[name] for name, place in there.items()):
            break
    return _save(texts, folder)


def _save(texts: dict[str, str], folder: Path) -> tuple[Path, ...]:
    for name, text in texts.items():
        write_outgoing(folder / name, text)
    return tuple(folder / name for name in texts)
