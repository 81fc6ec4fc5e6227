"""A coil on hand as it is typed: what is asked, the coil its texts make, and its form open.

The texts lie in a job of their own, under `on-hand.`, so that boxes show them as they show answers.
No screens here.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace
from typing import TYPE_CHECKING, Any

from coilwright.calc.metal import METALS, name_metals
from coilwright.job.answers import Form, UnreadableAnswer
from coilwright.job.answers.metal import CoatingAnswer
from coilwright.job.job import Job
from coilwright.job.metal import CoatingName, MetalName, MetalSection, ThicknessBasis
from coilwright.job.stock import CoilOnHand, LengthBy
from coilwright.plan import coil_lengths, fitting
from coilwright.plan.coils.stock import job_metal, plain_color
from coilwright.store import StoreError
from coilwright.units import Kind, System, show
from coilwright.values.rounding import show_rounded
from coilwright.wizard.lists.form import CLOSE, EntryView, Outcome
from coilwright.wizard.lists.measure import Asked, Measure, always
from coilwright.wizard.lists.stock_book import NEW, StockBook
from coilwright.wizard.lists.typed import NameAnswer
from coilwright.wizard.literal import escape_controls

if TYPE_CHECKING:
    from coilwright.drawing.line_work import LineWork

_INCHES, _FEET = ("in", "mm"), ("ft", "m")
_KEY = "on-hand"
AS_JOB = "as_job"
"""The action that takes the job's metal."""


def _coated(job: Job, _coil: object, key: str) -> bool:
    typed = job.typed.get(f"{key}.metal")
    return any(metal.word == typed and metal.coatings for metal in METALS.values())


def _no_metal(job: Job, _coil: object, key: str) -> bool:
    return not job.typed.get(f"{key}.metal")


def _no_length(job: Job, _coil: object, key: str) -> bool:
    return not job.typed.get(f"{key}.length")


def _has_length(job: Job, _coil: object, key: str) -> bool:
    return bool(job.typed.get(f"{key}.length"))


def _no_diameters(job: Job, _coil: object, key: str) -> bool:
    typed = job.typed
    return bool(typed.get(f"{key}.length")) or not (
        typed.get(f"{key}.outside") and typed.get(f"{key}.inside"))


def _across(name: str, label: str, help_line: str) -> Measure[CoilOnHand]:
    return Measure(name=name, label=label, help=help_line, kind=Kind.WIDTH, bare=_INCHES, low=1,
                   high=120, applies=_no_length, offered=always,
                   unasked="the length is given; empty it to give the diameters instead")


MEASURES: tuple[Measure[CoilOnHand], ...] = (
    Measure(name="tag", label="Tag", form=Form.TEXT, spec=NameAnswer, needed=True,
            help="What is written on it; no two coils have the same."),
    Measure(name="metal", label="Metal", form=Form.CHOICE, choices=tuple(MetalName), needed=True,
            help="As its tag or its papers say."),
    Measure(name="coating", label="Metallic coating", form=Form.CHOICE, spec=CoatingAnswer,
            choices=tuple(CoatingName), applies=_coated, offered=_no_metal,
            unasked=name_metals("for {coated}; no other metal comes with one"),
            help="A job takes only the coating it asks for; not known means it fits none."),
    Measure(name="thickness", label="Decimal thickness", kind=Kind.THICKNESS, bare=_INCHES,
            low=0.005, high=0.25, needed=True,
            help="Measured or from the tag; a gauge number is no thickness."),
    Measure(name="thickness_basis", label="Thickness includes", form=Form.CHOICE,
            choices=tuple(ThicknessBasis), applies=_coated, offered=always,
            unasked=name_metals("for {coated}; no other metal has a coating to count in"),
            help="With its coating or without; leave it empty where nobody knows."),
    Measure(name="width", label="Width", kind=Kind.WIDTH, bare=_INCHES, low=1, high=100,
            needed=True, help="A wider coil than the strip can be slit."),
    Measure(name="color", label="Color", form=Form.TEXT,
            help="As the tag says; empty for bare metal."),
    Measure(name="color_code", label="Color code", form=Form.TEXT,
            help="The code beside its name on the tag: two codes of one name are two colors."),
    Measure(name="lot", label="Production lot", form=Form.TEXT,
            help="Two production lots of one color can differ in shade."),
    Measure(name="supplier", label="Supplier", form=Form.TEXT,
            help="Who shipped it, and can say what it is."),
    Measure(name="where", label="Where it stands", form=Form.TEXT,
            help="So that it can be found again."),
    Measure(name="remark", label="Remark", form=Form.TEXT,
            help="What whoever takes it must know, such as a scratch on the outer wraps."),
    Measure(name="length", label="Length", kind=Kind.LENGTH, bare=_FEET, low=1, high=240_000,
            applies=_no_diameters, offered=always,
            unasked="the diameters give it; empty one to give the length instead",
            help="How much is on it; empty where only its diameters are known."),
    Measure(name="length_by", label="Length known by", form=Form.CHOICE, choices=tuple(LengthBy),
            applies=_has_length, offered=always,
            unasked="no length yet; asked once the length is given",
            help="1 % of a tag's length is held back, 5 % of an estimate; of a measured one "
                 "none: the cut list then has you check it."),
    _across("outside", "… or outside diameter",
            "Measured across the wound metal; it gives a least and a greatest length."),
    _across("inside", "… and inside diameter", "Measured across the hole."),
)
ASKED: tuple[Asked, ...] = tuple(measure.typed(_KEY) for measure in MEASURES)
"""What is asked about a coil."""
_NAMED = {measure.name: asked.answer for measure, asked in zip(MEASURES, ASKED, strict=True)}


_AS_THE_JOBS = ("As its tag says. F4 takes the job's metal, coating, thickness, width, color and "
                "its code.")


def texts_of(coil: CoilOnHand, system: System) -> dict[str, str]:
    """A coil as its form shows it, by the name of the field."""
    return {name: answer.text(value, system) for name, answer in _NAMED.items()
            if (value := getattr(coil, name)) not in (None, "")}


def _labels(names: Iterable[str]) -> str:
    return ", ".join(_NAMED[name].label.lower() for name in names)


def job_of(texts: Mapping[str, str], system: System, standard: str | None = None) -> Job:
    """A job that holds nothing but the texts, as a form's fields want it.

    standard: of the metal of the job it is opened from, by whose names coatings are picked.
    """
    return Job(units=system, metal=MetalSection(standard=standard),
               typed={f"{_KEY}.{name}": t for name, t in texts.items() if t.strip()})


def tidied(texts: Mapping[str, str], name: str, system: System) -> dict[str, str]:
    """The texts, one of them as it was read; the same where it cannot be."""
    made = dict(texts)
    if texts.get(name, "").strip():
        try:
            made[name] = _NAMED[name].text(_NAMED[name].read(texts[name], system), system)
        except UnreadableAnswer:
            return made
    return made


def coil_of(texts: Mapping[str, str], system: System) -> tuple[CoilOnHand | None, str]:
    """The coil the texts make, or None and why not yet, in one sentence."""
    job = job_of(texts, system)
    found: dict[str, Any] = {}
    missing = []
    for name, answer in _NAMED.items():
        text = texts.get(name, "")
        if not answer.asked(job):
            continue
        if not text.strip():
            if answer.needed:
                missing.append(answer.label.lower())
            continue
        try:
            found[name] = answer.read(text, system)
        except UnreadableAnswer as error:
            return None, str(error)
    if missing:
        return None, f"Still missing: {', '.join(missing)}."
    if not {"length", "outside", "inside"} & set(found):
        return None, "Still missing: its length, or its outside and inside diameter."
    try:
        return CoilOnHand(**found), ""
    except ValueError as error:
        return None, f"{error}."


def length_text(coil: CoilOnHand, system: System) -> str:
    """Its length, or from the least to the greatest by its diameters."""
    least, most = coil_lengths(coil, system)
    if coil.length is not None:
        shown = show if coil.length_by is LengthBy.MEASURED else show_rounded
        return shown(coil.length, Kind.LENGTH, system)
    low = show(max(0.0, least.value), Kind.LENGTH, system)
    return f"{low} to {most.text(system)}"


def about_typed(coil: CoilOnHand, job: Job | None, system: System) -> list[str]:
    """What is said of a coil while it is typed: its length, and whether it fits a job."""
    least, _most = coil_lengths(coil, system)
    lines = [f"Length {length_text(coil, system)}."]
    if coil.length is not None and coil.length_by is not LengthBy.MEASURED:
        # As its box shows it: rounded as in the list it seemed to be another length.
        lines = [f"Length {show(coil.length, Kind.LENGTH, system)}, counted as "
                 f"{least.text(system)}: it is not measured."]
    if coil.length is not None and coil.length_by is LengthBy.MEASURED:
        lines = [f"Length {length_text(coil, system)}. It is measured, so all of it counts."]
    if coil.length is None:
        lines = [f"By its diameters {length_text(coil, system)}; the least counts."]
    if job is not None:
        reasons = fitting(job, coil)
        lines.append(f"Does not fit this job: {' '.join(reasons)}" if reasons
                     else "Fits this job.")
    return lines


class CoilDraft:
    """A coil while its form is open. It comes into the list as the form closes, if it is complete.

    Until then its texts are kept as a draft, which the form begins with when it is opened again.
    """

    done = (CLOSE, "Done")

    def __init__(
        self, view: EntryView, book: StockBook, tag: str, job: Job | None, system: System
    ) -> None:
        self.view = view
        self.book = book
        self.tag = tag
        self.for_job = job
        self.system = system
        old = book.stock.find(tag) if tag else None
        self._old = {} if old is None else texts_of(old, system)
        self.texts = dict(book.drafts.get(tag, self._old))
        self._warned = False
        self.asked: Sequence[Asked] = ASKED
        if self._offers_metal():  # said where the first of those answers is
            self.asked = [replace(one, help=_AS_THE_JOBS)
                          if one.answer is _NAMED["metal"] else one for one in ASKED]

    def job(self) -> Job:
        """A job that holds the texts."""
        return job_of(self.texts, self.system,
                      None if self.for_job is None else self.for_job.metal.standard)

    def there(self) -> bool:
        """It is until its form is closed."""
        return True

    def title(self) -> str:
        """Its tag."""
        name = escape_controls(self.texts.get("tag", "")) or "A coil on hand"
        return f"{name}  (kept from before)" if self.tag in self.book.drafts else name

    def about(self, width: int) -> list[str]:
        """Its length and whether it fits, or what is missing."""
        del width
        coil, error = self.coil()
        return [error] if coil is None else about_typed(coil, self.for_job, self.system)

    def picture(self, width: int, height: int, work: LineWork) -> list[str]:
        """Nothing is drawn."""
        del width, height, work
        return []

    def buttons(self) -> Sequence[tuple[str, str]]:
        """The job's metal for a new coil, where it is opened from a job that says any."""
        return ((AS_JOB, "Metal as the job's"),) if self._offers_metal() else ()

    def _offers_metal(self) -> bool:
        return self.tag == NEW and self.for_job is not None and bool(job_metal(self.for_job))

    def take(self, at: int, text: str) -> bool:
        """Take what was typed."""
        self.texts[MEASURES[at].name] = text
        return False

    def left(self, at: int) -> None:
        """Show how it was read."""
        self.texts = tidied(self.texts, MEASURES[at].name, self.system)

    def do(self, name: str) -> Outcome:
        """Take the job's metal, coating, thickness, color and strip into boxes that are empty; the
        code of its color where that is the coil's."""
        if name != AS_JOB or self.for_job is None or not self._offers_metal():
            return Outcome(say="Only a new coil, opened from a job that says its metal, takes it.")
        wanted = {field: _NAMED[field].text(value, self.system)
                  for field, value in job_metal(self.for_job).items()}
        color = self.texts.get("color", "")
        if color.strip() and plain_color(color) != plain_color(wanted.get("color", "")):
            wanted.pop("color_code", None)  # it is the code of the job's color
        texts = {field: text for field, text in wanted.items()
                 if not self.texts.get(field, "").strip()}
        own = [field for field, text in wanted.items() if field not in texts
               and tidied(self.texts, field, self.system)[field] != text]
        stays = (f" What you gave before stays and is not the job's: {_labels(own)}; empty it, "
                 "and the same again takes the job's." if own else "")
        if not texts:
            return Outcome(say=f"Nothing of it is empty; what you typed stays.{stays}")
        self.texts = {**self.texts, **texts}
        return Outcome(say=f"As the job's: {_labels(texts)}. Hold them to the coil's tag; its lot "
                       f"and length are its own.{stays}")

    def coil(self) -> tuple[CoilOnHand | None, str]:
        """The coil, or None and why not yet."""
        coil, error = coil_of(self.texts, self.system)
        if coil is None:
            return None, error
        same = self.book.stock.find(coil.tag)
        if same is not None and same != (self.book.stock.find(self.tag) if self.tag else None):
            tag = escape_controls(coil.tag)
            return None, f"There is a coil “{tag}” already; give this one its own tag."
        return coil, ""

    def close(self) -> Outcome:
        """Put the coil in the list, or its texts aside."""
        for measure in MEASURES:
            self.texts = tidied(self.texts, measure.name, self.system)
        coil, error = self.coil()
        typed = {name: text for name, text in self.texts.items() if text.strip()}
        said = ""
        try:
            if typed == self._old or not typed:
                self.book.keep_draft(self.tag, None)
            elif coil is None:
                self.book.keep_draft(self.tag, typed)
                if not self._warned:
                    self._warned = True
                    return Outcome(say=f"{error} Escape once more leaves it aside.")
                again = "a" if self.tag == NEW else "Enter on it"
                said = f"Kept aside; {again} brings it back."
            else:
                self._put(coil)
                self.book.keep_draft(self.tag, None)
        except StoreError as trouble:
            self.book.drafts[self.tag] = typed
            return Outcome(failed=str(trouble))
        return Outcome(gone=True, say=said)

    def _put(self, coil: CoilOnHand) -> None:
        stock = self.book.stock
        if self.tag:
            self.book.change(stock.swap(self.tag, coil), f"{coil.tag} changed")
        else:
            self.book.change(stock.put(coil), f"{coil.tag} added")
