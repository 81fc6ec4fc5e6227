"""The commands and their arguments."""

from __future__ import annotations

import argparse
import difflib
import math
from collections.abc import Callable, Sequence
from typing import Any, NoReturn, TypeVar

from coilwright import __version__
from coilwright.cli import commands, papers, practice, practice_review, shop, stock
from coilwright.cli.browser import LOOPBACK, MOST_VISITORS, browser
from coilwright.cli.plain_words import in_plain_words
from coilwright.cli.planes import planes
from coilwright.cli.problems import Problem
from coilwright.cli.quotes import changes, quotes
from coilwright.cli.versions import versions
from coilwright.job.steps import MISTAKES_OFFERED_IN, STEPS

_JOB = ("a saved job's name or title, a job file (- is standard input), or a demo job (its name, "
        "or demo:NAME)")

Read = TypeVar("Read")

SEARCH_SECONDS = 5.0
"""How long the command line searches for less metal where the quick search leaves a gap."""
_LONGEST_SEARCH = 3600

_EPILOG = """\
JOB is a saved job's name or title, a job file (- is standard input), or a demo job (its
name, or demo:NAME).
Results go to standard output, messages to standard error. Exit codes: 0 done or ready,
1 not ready (check), 2 bad input. COILWRIGHT_HOME moves the folder jobs are kept in.
"""


_SOUND = """\
Exit code 0: each order is ready, or on its way as it was sent. 1: one is not ready; or it tells
its supplier something else than was sent; or a coil that came is on HOLD; or it is marked
delivered and a coil is awaited. While an order is under way, coils that have not come are no fault.
"""

_CHOICE_WORDS = {
    "COMMAND": "command", "STEP": "step", "FORM": "form of sheet", "WHAT": "kind of file",
    "PAPER": "paper",
}  # fmt: skip


class _Parser(argparse.ArgumentParser):
    """Says what was wrong in one sentence, and how to get help.

    more: the end of the help, for what is only looked up when help is asked for.
    """

    more: Callable[[], str] | None = None

    def format_help(self) -> str:
        if self.more is not None:
            self.epilog = self.more()
        return super().format_help()

    def error(self, message: str) -> NoReturn:
        message = in_plain_words(message, {
            "/".join(one.option_strings): str(one.metavar or one.dest.upper())
            for one in self._actions})
        stop = "" if message.endswith("?") else "."
        raise Problem(f"{message.rstrip('.')}{stop} See “{self.prog} --help”.")

    def _check_value(self, action: argparse.Action, value: Any) -> None:
        if action.choices is None or value in action.choices:
            return
        choices = [str(choice) for choice in action.choices]
        wanted = _CHOICE_WORDS.get(str(action.metavar), "choice")
        close = difflib.get_close_matches(str(value), choices, 1, 0.5)
        hint = f"did you mean “{close[0]}”?" if close else f"there are: {', '.join(choices)}"
        self.error(f"“{str(value)[:40]}” is not a {wanted}; {hint}")


def _kinds_of_sheet() -> str:
    from coilwright.sheets import KINDS

    kinds = "\n".join(f"  {key:<10} {sheet.about}" for key, sheet in KINDS.items())
    return f"kinds of sheet:\n{kinds}\n  {'all':<10} every one of them, in every form, to a folder"


def parse(arguments: Sequence[str]) -> argparse.Namespace:
    """The arguments, with the function that does the work as `command`. Raises Problem.

    `--help` and `--version` print and leave by SystemExit(0).
    """
    return _parser().parse_args(list(arguments))


def _parser() -> _Parser:
    parser = _Parser(
        prog="coilwright",
        description="From a roof and a roll former to a coil order nobody has to regret.",
        epilog=_EPILOG,
        formatter_class=argparse.RawDescriptionHelpFormatter,
        allow_abbrev=False,
    )
    parser.add_argument("--version", action="version", version=f"coilwright {__version__}")
    parser.set_defaults(command=commands.start)
    adding = parser.add_subparsers(title="commands", metavar="COMMAND", dest="name")

    def command(name: str, does: Any, about: str) -> _Parser:
        one = adding.add_parser(name, help=about, description=f"{about[0].upper()}{about[1:]}.",
                                allow_abbrev=False,
                                formatter_class=argparse.RawDescriptionHelpFormatter)
        one.set_defaults(command=does)
        return one

    one = command("open", commands.open_job, "open a job in the wizard")
    one.add_argument("job", metavar="JOB", help=_JOB)
    _add_at(one)
    one = command("new", commands.new, "start a new job, empty or like another, and open it; "
                  "without a terminal print its file")
    one.add_argument("title", metavar="NAME", nargs="?", help="what the job is called")
    one.add_argument("--like", metavar="JOB",
                     help="begin as a copy of it: measures, machine and rig come along; what was "
                     f"confirmed, quoted or ordered does not. {_JOB}")
    one = command("summary", commands.summary, "print the summary of one job or several")
    one.add_argument("jobs", metavar="JOB", nargs="+", help=_JOB)
    _add_search(one)
    how = one.add_mutually_exclusive_group()
    how.add_argument("--json", action="store_true",
                     help="as JSON, for other programs; of several jobs a list")
    how.add_argument("--working", action="store_true",
                     help="how every figure was made: equation, numbers put in, source")
    one = command("sheet", commands.sheet, "print or save one of a job's sheets")
    one.more = _kinds_of_sheet
    one.add_argument("kind", metavar="KIND", help="the kind of sheet, see below")
    one.add_argument("job", metavar="JOB", help=_JOB)
    one.add_argument("--as", dest="form", metavar="FORM", choices=("md", "html", "text", "csv"),
                     help="md (Markdown), html, text, or csv where the sheet has rows; else by "
                     "the end of FILE's name, else md")
    one.add_argument("--to", dest="file", metavar="FILE",
                     help="save to FILE, whole or not at all; - is standard output. A folder for "
                     "all")
    one.add_argument("--supplier", metavar="NAME", help="with request: whom it is addressed to")
    one.add_argument("--force", action="store_true", help="replace FILE if it is there already")
    _add_search(one)
    one = command("check", commands.check, "say whether each job's order is ready, and why not")
    one.epilog = _SOUND
    one.add_argument("jobs", metavar="JOB", nargs="+", help=_JOB)
    _add_search(one)
    one = command("quotes", quotes, "print a job's quotes on one footing: what each lands at")
    one.add_argument("job", metavar="JOB", help=_JOB)
    how = one.add_mutually_exclusive_group()
    _add_json(how)
    how.add_argument("--csv", action="store_true", help="as rows for a spreadsheet")
    how.add_argument("--working", action="store_true",
                     help="how each amount was made: equation, numbers put in, source")
    one = command("changes", changes, "say what changed since a job's order was sent")
    one.add_argument("job", metavar="JOB", help=_JOB)
    one.add_argument("--sent", metavar="REVISION",
                     help="print the order as it was sent, by its revision, A, B …, or "
                          "by number and revision: 2041-A")
    what = one.add_mutually_exclusive_group()
    what.add_argument("--page", action="store_true",
                      help="with --sent: the page to print (HTML), instead of the text")
    what.add_argument("--file", action="store_true",
                      help="with --sent: the job's file as it was then, instead of the text")
    what.add_argument("--to", metavar="FOLDER",
                      help="with --sent: write text and page into FOLDER, byte for byte, as they "
                           "may leave the house; the job's file names the client")
    one = command("planes", planes, "print a job's planes as rows, or read rows into the job")
    one.add_argument("job", metavar="JOB", help=_JOB)
    one.add_argument("--to", dest="file", metavar="FILE",
                     help="save the rows to FILE; tabs between cells where it ends in .tsv")
    one.add_argument("--force", action="store_true", help="replace FILE if it is there already")
    one.add_argument("--rows", metavar="FILE",
                     help="read rows from FILE into the job, after its own planes; - is standard "
                     "input. Nothing changes while a row is bad")
    one.add_argument("--replace", action="store_true",
                     help="with --rows: instead of the planes measured one by one")
    one.add_argument("--skip-bad", action="store_true", help="with --rows: leave bad rows out")
    one = command("versions", versions, "list a job's earlier versions, or put one back")
    one.add_argument("job", metavar="JOB", help="a saved job's name or title, or a job file")
    one.add_argument("--restore", metavar="N", type=int,
                     help="put version N in the job's place; what is there now becomes a version")
    _add_json(command("jobs", commands.jobs, "list the saved jobs"))
    _add_json(command("machines", commands.machines,
                      "list my machines and the examples: what each holds and forms"))
    one = command("stock", stock.stock, "list the coils on hand, or say which fit a job")
    one.add_argument("job", metavar="JOB", nargs="?",
                     help=f"which fit this job, and why others do not: {_JOB}")
    _add_json(one)
    one = command("order", papers.order, "print the head of a job's order, or set lines of it")
    one.add_argument("job", metavar="JOB", help=_JOB)
    one.add_argument("--set", metavar="NAME=TEXT", action="append",
                     help="number, revision, date, supplier, terms and the others; may be repeated")
    one.add_argument("--from-shop", action="store_true",
                     help="fill the empty lines of buyer and delivery from my shop")
    one = command("settle", papers.settle,
                  "print what holds a job's order by key; take one on by name, or waive one")
    one.add_argument("job", metavar="JOB", help=_JOB)
    how = one.add_mutually_exclusive_group()
    how.add_argument("--accept", metavar="KEY", help="take a finding on, with --by and --reason")
    how.add_argument("--waive", metavar="KEY", help="waive a question, with --reason")
    how.add_argument("--withdraw", metavar="KEY", help="take that back")
    one.add_argument("--by", metavar="NAME", help="who takes it on")
    one.add_argument("--reason", metavar="TEXT", help="why it is acceptable")
    one = command("shop", shop.shop, "print my shop, or share it and the coils on hand in one file")
    how = one.add_mutually_exclusive_group()
    how.add_argument("--json", action="store_true", help="as JSON, for other programs")
    how.add_argument("--export", dest="file", metavar="FILE",
                     help="write shop and coils on hand to FILE; - is standard output")
    how.add_argument("--import", dest="taken", metavar="FILE",
                     help="take in a file that --export wrote; where both have a name mine is kept")
    one.add_argument("--replace", action="store_true",
                     help="with --import: where both have a name the file's is taken")
    one.add_argument("--force", action="store_true",
                     help="with --export: replace FILE if it is there already")
    one = command("demo", commands.demo, "open a demo job; without a terminal print its summary")
    one.add_argument("demo", metavar="NAME", nargs="?", help="which one; the first otherwise")
    one.add_argument("--list", action="store_true", dest="listed", help="list the demo jobs")
    _add_at(one)
    one = command("practice", practice.practice,
                  "list the practice jobs, start one, print its papers, or hand in")
    one.add_argument("practice", metavar="NAME", nargs="?", help="which one; lists them otherwise")
    one.add_argument("--seed", metavar="N", type=_seed,
                     help="which variant: the same lesson, a few sizes others (1 to 999999; 1 "
                     "without it, as on the first handout)")
    one.add_argument("--variants", metavar="N", type=_variants,
                     help="with --print: variants 1 to N in one, each on a page of its own")
    one.add_argument("--teaches", action="store_true",
                     help="list what each teaches and its short name, for the trainer")
    one.add_argument("--by", metavar="NAME", help="who practices")
    one.add_argument("--print", dest="paper", metavar="PAPER", choices=practice.PAPERS,
                     help="handout, key (for the trainer; what is handed in later from "
                     "this data folder says that it was opened), or words")
    _add_details(one, "with --print key: with why, hints, what mistakes cost, and all workings")
    one.add_argument("--answer", dest="answers", metavar="NUMBER=TEXT", action="append",
                     help="hand in an attempt with these answers, picks parted by commas")
    one.add_argument("--hand-in", dest="job", metavar="JOB",
                     help="hand in the attempt of a job that was practiced on")
    one.add_argument("--make", dest="made_from", metavar="JOB",
                     help="make a practice job called NAME: of a job with findings that stop it, "
                     "one to find those; of a job that is ready, one to enter from papers")
    one.add_argument("--title", metavar="TEXT", help="with --make: its title")
    one.add_argument("--story", metavar="TEXT", help="with --make: what it is about")
    one.add_argument("--keep-names", action="store_true",
                     help="with --make or --export: a word that names somebody or a place of the "
                     "job may stay in name, title or story; all of the class reads it")
    one.add_argument("--mistakes", metavar="N", type=_mistakes,
                     help="with --make: put N mistakes into the job, to be found; 0: none, so that "
                     "it is entered from papers")
    one.add_argument("--subjects", metavar="STEP,STEP", type=_subjects,
                     help="with --mistakes: in which steps, of "
                     + ", ".join(MISTAKES_OFFERED_IN)
                     + "; otherwise in all of them")
    one.add_argument("--export", dest="out", metavar="FILE",
                     help="write the practice job to FILE, sealed, for the machines of a class; "
                     "sealed, its key cannot be read at a glance, but whoever runs this program "
                     "can open it")
    one.add_argument("--open", action="store_true",
                     help="with --export: not sealed, to be changed in a text editor")
    one.add_argument("--import", dest="taken", metavar="FILE",
                     help="keep the practice job in FILE here, sealed")
    _add_paper(one)
    one = command("review", practice_review.review, "review attempts: a class in one table")
    one.add_argument("files", metavar="FILE", nargs="+",
                     help="attempts that were handed in, or folders of them")
    one.add_argument("--each", action="store_true", help="each by itself, a line a mistake")
    _add_details(one, "with who made which mistake; with --each, decision by decision, why, and "
                 "how the costs were worked out")
    _add_paper(one)
    one = command("browser", browser, "serve the wizard to a class in browsers, until Ctrl-C")
    one.add_argument("--host", metavar="ADDRESS", default=LOOPBACK,
                     help=f"the one address of this machine to serve at ({LOOPBACK}: nobody else "
                     "reaches it)")
    one.add_argument("--port", metavar="N", type=_port, default=8780, help="the port (8780)")
    one.add_argument("--visitors", metavar="N", type=_visitors, default=12,
                     help=f"places in the class, 1 to {MOST_VISITORS} (12)")
    one.add_argument("--folder", metavar="FOLDER",
                     help="where visitors' jobs and attempts are kept, instead of the data folder")
    one = command("schema", commands.schema, "print the JSON Schema of a kind of file")
    one.add_argument("what", metavar="WHAT", choices=commands.SCHEMAS,
                     help=", ".join(commands.SCHEMAS))
    return parser


def _add_json(one: Any) -> None:
    one.add_argument("--json", action="store_true", help="as JSON, for other programs")


def _add_paper(one: argparse.ArgumentParser) -> None:
    one.add_argument("--as", dest="form", metavar="FORM", choices=("text", "md", "html", "csv"),
                     help="text, md (Markdown), html, or csv for a review; otherwise by the end "
                     "of FILE's name, else text")
    one.add_argument("--to", dest="file", metavar="FILE",
                     help="save to FILE, whole or not at all; an attempt as FILE.json, or "
                     "into a folder, made if need be: else that of attempts in the data folder")
    one.add_argument("--force", action="store_true", help="replace FILE if it is there already")


def _add_details(one: argparse.ArgumentParser, what: str) -> None:
    one.add_argument("--details", action="store_true", help=what)


def _seed(text: str) -> int:
    """The number of a variant. Raises ArgumentTypeError for anything else."""
    if not text.isdecimal() or len(text) > 6 or not int(text):
        raise argparse.ArgumentTypeError(f"“{text[:40]}” is no variant; give 1 to 999999")
    return int(text)


def _variants(text: str) -> int:
    from coilwright.job.variant_draw import MOST_VARIANTS

    return _whole(text, 1, MOST_VARIANTS, "number of variants")


def _mistakes(text: str) -> int:
    from coilwright.plan.practice.plant import read_mistakes

    return _told(lambda typed: read_mistakes(typed, none=True), text)


def _subjects(text: str) -> tuple[str, ...]:
    from coilwright.plan.practice.plant import read_subjects

    return _told(read_subjects, text)


def _told(read: Callable[[str], Read], text: str) -> Read:
    """What was read. Raises ArgumentTypeError with the sentence of a ValueError."""
    try:
        return read(text)
    except ValueError as error:
        raise argparse.ArgumentTypeError(str(error)) from None


def _port(text: str) -> int:
    return _whole(text, 1, 65_535, "port")


def _visitors(text: str) -> int:
    return _whole(text, 1, MOST_VISITORS, "number of visitors")


def _whole(text: str, least: int, most: int, what: str) -> int:
    """A whole number as typed. Raises ArgumentTypeError for any other."""
    if not text.isdecimal() or len(text) > 6 or not least <= int(text) <= most:
        raise argparse.ArgumentTypeError(f"“{text[:40]}” is no {what}; give {least} to {most}")
    return int(text)


def _add_search(one: argparse.ArgumentParser) -> None:
    one.add_argument("--search", metavar="SECONDS", type=_seconds, default=SEARCH_SECONDS,
                     help="how long to search for less metal where the quick search leaves a gap "
                     f"({SEARCH_SECONDS:g} unless said; 0 searches no longer)")


def _seconds(text: str) -> float:
    """Seconds as typed. Raises ArgumentTypeError for anything but 0 to an hour."""
    try:
        seconds = float(text)
    except ValueError:
        seconds = math.nan
    if not 0 <= seconds <= _LONGEST_SEARCH:
        raise argparse.ArgumentTypeError(
            f"“{text[:40]}” is not a time to search; give seconds from 0 to {_LONGEST_SEARCH}"
        )
    return seconds


def _add_at(one: argparse.ArgumentParser) -> None:
    titles = {step.title.casefold(): step.key for step in STEPS}
    titles |= {key.partition(" ")[0]: step for key, step in titles.items()}
    one.add_argument("--at", metavar="STEP", choices=[step.key for step in STEPS],
                     type=lambda text: titles.get(text.strip().casefold(), text),
                     help="the step to open at, also by its name on the screen: "
                          f"{', '.join(step.key for step in STEPS)}")
