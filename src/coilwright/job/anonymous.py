"""A job without who it is for: what somebody else may work on."""

from __future__ import annotations

import dataclasses
import re
from collections.abc import Collection, Iterable, Iterator
from enum import StrEnum
from functools import cache
from typing import TypeVar

from coilwright.job.job import Acceptance, Job
from coilwright.job.life import Life
from coilwright.job.order import Order
from coilwright.job.quotes import QuoteSection
from coilwright.words.glossary import glossary
from coilwright.words.vocabulary import own_words

Part = TypeVar("Part")

_LEFT_OUT = "left out"
_HEAD = Order(buyer="the shop (invented)", ship_to="the yard (invented)",
              freight="prepaid by the supplier (invented)")
"""A job can be ready only with a head to its order."""
_CALLED = {"Plane": "Plane", "TrimPiece": "Piece", "CoilOnHand": "Coil", "color": "Color",
           "color_code": "Code"}
"""What a row, or what a field says, is called once its own name is left out."""
_BY_TAG = "on_hand_planes"
"""What is kept by the tag of a coil; all else is kept by keys, which are no texts of anybody's."""
_BY_FIELD = (_BY_TAG, "color", "color_code")
"""Fields that are told apart by what they are called, whatever they are of."""
_WORD = re.compile(r"[^\W_]+")
_TITLES = ("mr", "mrs", "ms", "miss", "dr")
_TITLED = re.compile(rf"\b(?:{'|'.join(_TITLES)})\b\.? ([^\W_]{{3,}})", re.IGNORECASE)
"""Who is called by a title: of whom a common word is a name as well."""
_OWNER = re.compile(r"\b([^\W_]{3,})['’]s\b")
"""Whose something is."""
_COMMON = frozenset((
    "and", "the", "for", "invented", "demo", "none", "not", "yet", "north", "south", "east", "west",
    "roof", "barn", "house", "porch", "shop", "shed", "garage", "wing", "main", "steel", "metal",
    *_TITLES,
))
"""Words that name nobody, though they may stand in somebody's name."""
_OF_THE_TRADE = frozenset((
    "gutter", "gutters", "seam", "seams", "roofing", "roofs", "roofer", "roofers", "sheet",
    "sheets", "coils", "panels", "flashing", "flashings", "supply", "gravel", "yard", "forklift",
    "drive", "site", "copper", "zinc", "aluminum", "galvanized", "stainless", "timber", "timbers",
    "lumber", "hardware", "siding", "insulation", "windows", "doors",
))
"""Ordinary words of companies and sites that no entry of the glossary is called by."""
_OF_COMPANIES = frozenset((
    "roofing", "roofs", "roofer", "roofers", "supply", "construction", "contractor", "contractors",
    "contracting", "builder", "builders", "building", "sheet", "company", "corp", "inc", "llc",
    "ltd", "sons", "brothers", "bros", "exteriors", "architect", "architects", "architecture",
    "associates", "design", "designs", "drafting", "engineering", "engineers", "enterprises",
    "group", "partners", "services", "studio", "carpentry", "fabrication", "fabricators", "homes",
    "manufacturing", "metalworks", "properties", "remodeling", "restoration", "trucking", "welding",
))
"""Words that tell that what is called so is a company and nobody's own name."""
_OF_ADDRESSES = frozenset((
    "avenue", "county", "court", "creek", "farm", "field", "hill", "lake", "lane", "mill", "park",
    "place", "river", "road", "row", "square", "street", "terrace", "town", "village", "way",
    "big", "great", "high", "little", "long", "low", "lower", "new", "old", "upper",
))
"""Words of many addresses: beside a name they name nothing."""
_OF_BUILDINGS = frozenset((
    "addition", "annex", "arena", "attic", "awning", "bakery", "barns", "bath", "bedroom", "big",
    "boat", "breezeway", "brewery", "bump", "bumpout", "bunkhouse", "bus", "cabin", "cafe",
    "canopy", "car", "carport", "carriage", "center", "chapel", "chicken", "chimney", "church",
    "clerestory", "clinic", "club", "community", "coop", "corn", "cottage", "courtyard", "cow",
    "cupola", "dairy", "depot", "dining", "dog", "dormer", "dormers", "downstairs", "dwelling",
    "entrance", "equipment", "extension", "eyebrow", "facade", "family", "fire", "foyer", "gazebo",
    "goat", "grain", "greenhouse", "guest", "gym", "hall", "hangar", "hay", "home", "horse",
    "hotel", "kennel", "kitchen", "laundry", "library", "living", "lodge", "loft", "mansard",
    "milk", "motel", "mudroom", "museum", "office", "outbuilding", "outhouse", "pantry", "parlor",
    "pavilion", "pergola", "phase", "pig", "pole", "pool", "porches", "pump", "ranch", "restaurant",
    "saltbox", "sauna", "school", "shack", "sheep", "shelter", "shops", "silo", "skirt", "stable",
    "stair", "stairs", "station", "storage", "store", "studio", "sugar", "summer", "sunroom",
    "tack", "tower", "tractor", "tree", "truck", "upstairs", "ventilator", "vestibule", "warehouse",
    "winery", "woodshed", "workshop",
    "black", "blue", "brown", "green", "gray", "red", "white", "winter", "autumn",
    "compact", "dump", "enclosed", "flatbed", "machinery", "mobile", "pickup", "rental", "rented",
    "rig", "rigs", "roller", "spare", "tandem", "utility",
    "bid", "estimate", "five", "model", "reroof", "six", "sketch",
    "class", "copy", "demo", "example", "story", "trainer", "training",
    "monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday",
    "january", "february", "march", "april", "may", "june", "july", "august", "september",
    "october", "november", "december",
))
"""Ordinary words of what jobs, planes and machines are called."""
_OWNING = frozenset((
    "builder", "client", "company", "contractor", "customer", "farmer", "neighbor", "owner",
    "roofer", "tenant", "today", "trainer", "year",
))
"""Whose something is without that anybody were named: “the owner's barn”."""
_INVENTED = "(invented)"
"""What says of itself that it is nobody's."""
_LEFT_OFF = frozenset(("the", "company", "co", "corp", "inc", "llc", "ltd"))
"""Words that a name is said without."""
_JOINING = frozenset(("and", "of"))
"""Small words within a name."""
_PARTED = re.compile(r"[,;:.()/\n]")
"""Between two things that are called something."""
_LEAST_LETTERS = 3


def without_names(job: Job, title: str) -> Job:
    """The job under another title, without client, site, designer, buyer, suppliers, what was
    said by whom and what the machine is called. A text elsewhere that has a word of those names,
    as a plane may, is left out too; the same text by the same words, so that what goes by it still
    does.
    """
    words = frozenset(_private_words(job))
    old = job.job
    section = dataclasses.replace(
        old, name=None, client=old.client and _LEFT_OUT, site=old.site and _LEFT_OUT,
        designer=old.designer and _LEFT_OUT,
    )
    bare = dataclasses.replace(
        job, job=section, order=_HEAD, life=Life(), requests=(), arrived=(), quotes=QuoteSection(),
        typed={}, by_quote={}, before_quote={}, put_in_stock={}, put_back_on=None,
        practice=None,
        about="",
        # By its name an example is found among the machines, with what its plate really says.
        machine=dataclasses.replace(job.machine, name="", about=""),
        on_hand=tuple(dataclasses.replace(coil, supplier="", where="") for coil in job.on_hand),
        questions={key: dataclasses.replace(
            said, text=said.text and _LEFT_OUT, waived=said.waived and _LEFT_OUT)
            for key, said in job.questions.items()},
        accepted={key: Acceptance(by=_LEFT_OUT, reason=_LEFT_OUT, of=said.of)
                  for key, said in job.accepted.items()},
    )
    made = _Scrubber(words).part(bare)
    return dataclasses.replace(made, job=dataclasses.replace(made.job, name=title))


def names_in(job: Job) -> frozenset[str]:
    """What names somebody or some place of the job, in small letters: words, and where words name
    nobody one by one, all of them as they follow each other, as “double lock roofing”, or a common
    one by a title, as “mr hill”. What is a name only as it is written has its capitals.

    Words of the trade in what a company is called name nobody, nor do words of any address beside
    what a place is called; in a person's name they are a name. Of what the job, its planes and its
    machine are called, see `names_in_labels`.
    """
    return frozenset((
        *_naming_client(job.job.client or ""),
        *(word for text in _companies_and_places(job) for word in _naming(text, names_only=True)),
        *names_in_labels(_labels(job))))


def names_in_labels(labels: Iterable[str]) -> Iterator[str]:
    """What names somebody in what jobs, planes, machines and rigs are called, in small letters: a
    job often is called after its client, whom nothing else in it names.

    That is whose it is, as of “Vale's shed”, and what is written with a capital, as of “Fennimore
    barn”, and is no ordinary word of the program's own texts, the trade, addresses or buildings.
    """
    for label in labels:
        if _INVENTED not in label:
            yield from (owner for found in _OWNER.finditer(label)
                        if (owner := found[1].casefold()) not in _OWNING)
            yield from (word for word in _words(label, names_only=True)
                        if word.isalpha() and word not in _ordinary())
            yield from _by_title(found[1].casefold() for found in _TITLED.finditer(label))


def _labels(job: Job) -> tuple[str, ...]:
    """What the job, its planes and its machine are called."""
    return (job.job.name or "", *(plane.name for plane in job.roof.planes), job.machine.name)


@cache
def _ordinary() -> frozenset[str]:
    """Words, in small letters, that name nobody in what something is called."""
    return own_words() | _trade_words() | _OF_ADDRESSES | _OF_BUILDINGS | _OWNING


def _naming_client(text: str) -> Iterator[str]:
    """What tells a client from others: each word of a person's name, and what names a company."""
    if _OF_COMPANIES.isdisjoint(word.casefold() for word in _WORD.findall(text)):
        return _words(text, names_only=False)
    return _naming(text, names_only=False)


def _naming(text: str, *, names_only: bool) -> Iterator[str]:
    """Of what a company or place is called the words that tell it from others: all but those of
    the trade and of an address; where there are no others, as of “Mill Row”, the name as a whole.
    A common word may be a family's name all the same: it is one by a title, and as the one word
    that a company is called besides its trade, as of “Hill Architects”.
    """
    all_words = {*_words(text, names_only=names_only)}
    words = [word for word in _words(text, names_only=names_only) if word not in _trade_words()]
    own = [word for word in words if word not in _OF_ADDRESSES]
    yield from own or [*_whole_names(text, names_only=names_only)] or words
    yield from _by_title(all_words - _OF_COMPANIES - {*own})
    if len(words) == 1 and not own and not all_words.isdisjoint(_OF_COMPANIES):
        yield words[0].capitalize()


def _by_title(words: Iterable[str]) -> Iterator[str]:
    """Common words as names: by each title."""
    return (f"{title} {word}" for word in words for title in _TITLES)


def _whole_names(text: str, *, names_only: bool) -> Iterator[str]:
    """The names of two words and more in a text, in small letters; and, with capitals, as it is to
    be written to be one, a company's without what companies are called: “Double Lock”."""
    for part in _PARTED.split(text):
        for run in _runs(part) if names_only else (_WORD.findall(part),):
            name = [word.casefold() for word in run
                    if word.isalpha() and word.casefold() not in _LEFT_OFF]
            if len(name) > 1:
                yield " ".join(name)
                own = _whole_run([word if word in _JOINING else word.capitalize()
                                  for word in name if word not in _OF_COMPANIES])
                if 1 < len(own) < len(name):
                    yield " ".join(own)


def _runs(text: str) -> Iterator[list[str]]:
    """The words with a capital that follow each other, and what joins them: Hill and Sons."""
    run: list[str] = []
    for word in (*_WORD.findall(text), ""):
        if word and (not word.islower() or (run and word in _JOINING)):
            run.append(word)
            continue
        yield _whole_run(run)
        run = []


def _whole_run(words: list[str]) -> list[str]:
    """The words without small ones at their ends."""
    kept = [at for at, word in enumerate(words) if word not in _JOINING]
    return words[kept[0]:kept[-1] + 1] if kept else []


@cache
def _trade_words() -> frozenset[str]:
    """The words, in small letters, that a class reads in any story: of the glossary, and others."""
    return (_OF_THE_TRADE | _OF_COMPANIES | {word.casefold() for key in glossary().terms
                             for word in _WORD.findall(key.replace("_", " "))}) - _OF_ADDRESSES


def said_of(names: Collection[str], *texts: str) -> tuple[str, ...]:
    """Which of some names stand in some texts, as they are written in the first that has them."""
    of_many = sorted((name.split() for name in names if " " in name), key=len, reverse=True)
    as_written = sorted(name for name in names if " " not in name and not name.islower()
                        and name.isalpha())
    said: dict[str, str] = {}
    for text in texts:
        words = _WORD.findall(text)
        plain = [word.casefold() for word in words]
        for at, word in enumerate(words):
            if (one := _name_of(plain[at], names)) is not None:
                said.setdefault(one, word)
            whole = next((name for name in of_many if name in (
                plain[at:at + len(name)], words[at:at + len(name)])), None)
            if whole is not None:
                said.setdefault(" ".join(whole), " ".join(words[at:at + len(whole)]))
        for one in as_written:
            if _is_written(one, text) and one.casefold() not in {
                    word.casefold() for words in said.values() for word in words.split()}:
                said.setdefault(one, one)
    return tuple(said.values())


def _is_written(name: str, text: str) -> bool:
    """Whether a name that is a common word stands in a text with its capital, and not because a
    sentence begins there."""
    return any(found[0] == name and text[:found.start()].rstrip()[-1:] not in ("", *".!?:")
               for found in _WORD.finditer(text))


def _name_of(word: str, names: Collection[str]) -> str | None:
    """The name that a word in small letters is, or is the family of, as the Vales of Vale."""
    return next((one for one in (word, word.removesuffix("s")) if one in names), None)


def _private_words(job: Job) -> Iterator[str]:
    """The words, in small letters, by which somebody could be known."""
    yield from _names(job)
    yield from names_in_labels(_labels(job))
    order = job.order
    for text in (job.job.name, order.number, order.revision, order.reference, order.phone,
                 order.supplier_phone, order.hours, order.unloading, order.freight, order.terms):
        yield from _words(text or "", names_only=True)


def _names(job: Job) -> Iterator[str]:
    """The words, in small letters, of people, companies and places of a job."""
    yield from _words(job.job.client or "", names_only=False)
    for text in _companies_and_places(job):
        yield from _words(text, names_only=True)


def _companies_and_places(job: Job) -> Iterator[str]:
    """What is named in a job besides its client."""
    order = job.order
    return filter(None, (
        job.job.site, job.job.designer,
        order.buyer, order.contact, order.email, order.bill_to, order.supplier, order.attention,
        order.ship_to,
        *(quote.supplier for quote in job.quotes.received),
        *(quote.supplier for quote in (job.quotes.sold_before,) if quote is not None),
        *(request.supplier for request in job.requests),
        *(coil.supplier for coil in job.on_hand), *job.by_quote.values(),
    ))


def _words(text: str, *, names_only: bool) -> Iterator[str]:
    """Of a text its words that are no common ones; of a description those with a capital."""
    for word in _WORD.findall(text):
        if len(word) >= _LEAST_LETTERS and word.casefold() not in _COMMON and not (
            names_only and word.islower()
        ):
            yield word.casefold()


class _Scrubber:
    """Leaves out each text that has one of some words."""

    def __init__(self, words: Collection[str]) -> None:
        self._words = words
        self._called: dict[str, str] = {}

    def part(self, value: Part, owner: str = "") -> Part:
        """A part of a job without such texts."""
        made: object = value
        if isinstance(value, StrEnum):
            return value
        if isinstance(value, str):
            made = self._text(value, owner)
        elif isinstance(value, tuple):
            made = tuple(self.part(one, owner) for one in value)
        elif isinstance(value, dict):
            made = {self.part(key) if owner == _BY_TAG else key: self.part(one)
                    for key, one in value.items()}
        elif dataclasses.is_dataclass(value) and not isinstance(value, type):
            name = type(value).__name__
            made = dataclasses.replace(value, **{
                field.name: self.part(getattr(value, field.name),
                                      field.name if field.name in _BY_FIELD else name)
                for field in dataclasses.fields(value) if field.name != "format"
            })
        return made  # type: ignore[return-value]

    def _text(self, text: str, owner: str) -> str:
        if all(_name_of(word.casefold(), self._words) is None for word in _WORD.findall(text)):
            return text
        number = len(self._called) + 1
        return self._called.setdefault(text, f"{_CALLED.get(owner, 'Name')} {number}")
