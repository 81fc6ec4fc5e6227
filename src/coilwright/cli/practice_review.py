"""Attempts reviewed on the command line: a class in one table, or each by itself."""

from __future__ import annotations

import argparse
import sys
from pathlib import Path
from typing import TYPE_CHECKING

from coilwright.cli.commands import text_width
from coilwright.cli.opened_keys import noting_reviews
from coilwright.cli.practice import find_practice, form_of, give, solved_variant
from coilwright.cli.problems import BAD_INPUT, Problem
from coilwright.drawing.safe_text import one_line

if TYPE_CHECKING:
    from coilwright.plan.practice.review import Review


def review(given: argparse.Namespace) -> int:
    """Review attempts: the class in one table, or each by itself."""
    form = given.form or form_of(given.file)
    if form == "csv" and (given.each or given.details):
        raise Problem("csv is a row a person with all of it; leave --each and --details out.")
    reviews, told = [], []
    files, left_out = _attempt_files(given.files)
    for text in left_out:
        print(one_line(text), file=sys.stderr)
    for path in files:
        try:
            reviews.append(_reviewed(path))
        except Problem as error:
            told.append(str(error))
    for text in told:
        print(one_line(text), file=sys.stderr)
    if not reviews:
        raise Problem("there is no attempt to review.")
    from coilwright.sheets import render_as
    from coilwright.sheets.practice_class import class_sheet
    from coilwright.sheets.practice_review import review_sheets, reviews_sheet
    from coilwright.sheets.practice_rows import class_rows
    from coilwright.sheets.render.csv import to_csv

    if form == "csv":
        # In a file the mark in front tells spreadsheets that the text is UTF-8.
        mark = "" if given.file in (None, "-") else "\ufeff"
        text = f"{mark}{to_csv(class_rows(reviews))}"
    elif given.each and form == "html" and len(reviews) > 1:
        # One page of the browser, on as many of paper.
        text = render_as(reviews_sheet(reviews, given.details), form)
    elif given.each:
        text = "\n".join(render_as(one, form, text_width())
                         for one in review_sheets(reviews, given.details))
    else:
        text = render_as(class_sheet(reviews, given.details), form, text_width())
    with noting_reviews([one.attempt for one in reviews]):
        code = give(text, given)
    return BAD_INPUT if told else code


def _attempt_files(names: list[str]) -> tuple[list[Path], list[str]]:
    """The files that are meant, of a folder all attempts in it; and what of it is left out."""
    from coilwright.store.files import named_path
    from coilwright.store.practice import attempt_files

    found: list[Path] = []
    left_out: list[str] = []
    for name in names:
        if not name.strip():
            raise Problem("the name of a file or folder is empty; name one that was handed in.")
        path = named_path(name)
        if not path.is_dir():
            found.append(path)
            continue
        attempts, told = attempt_files(path)
        found += attempts
        left_out += told
    return found, left_out


def _reviewed(path: Path) -> Review:
    """An attempt held to the key of its variant. Raises Problem."""
    from coilwright.plan.practice.review import misfit
    from coilwright.plan.practice.review import review as held
    from coilwright.store import StoreError, home
    from coilwright.store.practice import load_attempt, not_here, practices

    try:
        attempt = load_attempt(path)
        if attempt.practice not in practices(home())[0]:
            raise Problem(f"{path}: left out, for {not_here(attempt.practice)}.")
        solved = solved_variant(find_practice(attempt.practice), attempt.seed)
        if wrong := misfit(solved, attempt):
            raise Problem(f"{path}: {wrong}")
        return held(solved, attempt)
    except (StoreError, Problem) as error:
        said = str(error)
        raise Problem(said if str(path) in said else f"{path}: {said}") from None
