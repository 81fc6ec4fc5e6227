"""The haul and lift card, one page: loads against plates, tie-downs, cautions, and who signs."""

from __future__ import annotations

from collections.abc import Iterator

from coilwright.job.answers import ANSWERS, answers_of
from coilwright.job.answers.haul import HaulKey
from coilwright.job.coils import Attitude
from coilwright.plan.haul.loads import LOADS_KEPT_BACK
from coilwright.plan.haul.without_plates import (
    LiftWithoutPlate,
    lifts_without_plates,
    unnamed_lifts,
)
from coilwright.plan.order_limits import SKID_AND_PACKING
from coilwright.plan.result import LoadLine, Plan
from coilwright.sheets.baseline import baseline
from coilwright.sheets.blocks import (
    Banner,
    Block,
    Inline,
    Rows,
    Sheet,
    Signature,
    Text,
    bullets,
    emphasis,
    facts,
    heading,
    line,
    numbered,
    paragraph,
    plain,
    room,
    stacked,
    strong,
    table,
    ticks,
)
from coilwright.sheets.haul_coils import MOST_COILS, haul_coils
from coilwright.sheets.haul_ticks import BEFORE_LIFTING, BEFORE_WHEELS
from coilwright.sheets.machine import EXAMPLE
from coilwright.sheets.names import LEGEND, TO_ASK, answer_text, figure_text, label
from coilwright.sheets.parts import (
    PLATES_DECIDE,
    load_amount,
    load_word,
    site_text,
)
from coilwright.sheets.since_sent import loads_since_sent
from coilwright.sheets.state import state_of
from coilwright.units import Kind, System, show
from coilwright.values.finding import Level, worst_first
from coilwright.values.keys import LiftPlace
from coilwright.words import cautions, words
from coilwright.words.in_units import with_units

_WRITE = line(room(14))
"""Room to write a number or a name."""
_ROAD = ("trailer", "hitch", "tow")
_TIES = (HaulKey.CARGO_COILS, HaulKey.CARGO_ON, HaulKey.GROUPED, HaulKey.EYE, HaulKey.TURNED_BY,
         HaulKey.BLOCKED, HaulKey.MATS, HaulKey.TIES_OVER,
         HaulKey.TIE_OVER_LIMIT, HaulKey.TIES_DIRECT, HaulKey.TIE_DIRECT_LIMIT)  # fmt: skip
_CAUTIONED = frozenset((HaulKey.RACK_COILS, HaulKey.HITCH, HaulKey.TONGUE_WEIGHT,
                        HaulKey.CARGO_COILS, HaulKey.EYE, HaulKey.BLOCKED, HaulKey.TIES_OVER,
                        HaulKey.TIES_DIRECT))
"""Answers of the road whose cautions the card repeats; those of plates say what its table says."""
_LIFTS = ("haul.site_", "haul.shop_")
_ONLY_MEASURED = ("_fork_center", "_coil_center", "_face_to_axle", "site_angle", "shop_angle",
                  "_legs")
"""Ends of answers whose caution is on measuring them, which is over once a load is known."""
_ONCE_HITCHED = (HaulKey.HITCH_RATING, HaulKey.TONGUE_WEIGHT_RATING, HaulKey.TONGUE_WEIGHT,
                 HaulKey.TOW_WEIGHT, HaulKey.TOW_GVWR, HaulKey.TOW_PULL,
                 HaulKey.GCWR)  # fmt: skip
"""What is read off hitch and tow vehicle, whichever the hitch is."""
_NAMED = 6
"""Loads named at the top; of more, their number."""
_SAID_ELSEWHERE = ("_ratings_missing", "_people", ".ratings_missing")
"""Ends of findings that the card says in its table of loads, its rooms or its cautions."""

def haul_sheet(plan: Plan) -> Sheet:
    """The haul and lift card: one page."""
    cautioned = _cautions(plan)
    return Sheet(f"Haul and lift: {plan.job.title}", stacked(
        _state(plan),
        facts("haul and lift", _who(plan)),
        haul_coils(plan),
        _loads(plan, list(cautioned)),
        _gear(plan),
        _to_read(plan),
        _findings(plan),
        heading(2, "Before the wheels turn"),
        ticks(with_units(one, plan.job.units) for one in BEFORE_WHEELS),
        heading(2, "Before a coil is lifted"),
        ticks(with_units(one, plan.job.units) for one in BEFORE_LIFTING),
        heading(2, "Cautions"),
        numbered(with_units(one, plan.job.units) for one in cautioned),
        Signature(("Person in charge", "Driver", "Lifting at the site", "Lifting in the shop"),
                  ("name", "signature", "date")),
    ), card=True, roomy=_is_roomy(plan))


def _is_roomy(plan: Plan) -> bool:
    """Whether all that stands on the card leaves room on its page to write larger."""
    needs = {*(key for load in plan.loads for key in load.needs), *unnamed_lifts(plan)}
    coils = min(len(plan.coils), MOST_COILS) + min(len(plan.from_stock), MOST_COILS)
    lifted = plan.job.haul.site.by is not None or plan.job.haul.shop.by is not None
    return not lifted and not plan.job.haul.cargo_coils and (
        coils + len(plan.loads) + len(needs) <= _ROOMY)


_ROOMY = 21
"""Lines of coils, loads and rooms to write up to which a card is set larger."""


def haul_rows(plan: Plan) -> Rows:
    """The loads for a spreadsheet: what each comes to, its rating, the margin and a word."""
    system = plan.job.units
    return Rows(("load", "comes to", "rating", "margin", "word"), tuple(
        tuple(plain(line(cell)) for cell in (
            load.name, load_amount(load, system), figure_text(load.rating, system),
            figure_text(load.margin, system), load_word(load)))
        for load in plan.loads))


def _state(plan: Plan) -> Banner:
    said: list[Inline] = []
    for word in ("OVER", "TOO FEW"):
        if over := [load for load in plan.loads if load.over and load.word == word]:
            said += [strong(f"{word}: {_names(over)}."), " Do not haul or lift like this. "]
    lifts = list(lifts_without_plates(plan))
    unknown = [load.name for load in plan.loads if not load.known]
    unknown += [_LIFT_NAMES[lift.place] for lift in lifts if lift.told is None]
    if unknown:
        rows = len(plan.loads) + len(lifts)
        said += [strong(f"Not known: {'; '.join(unknown)}." if len(unknown) <= _NAMED else
                        f"Not known: {len(unknown)} of {rows} loads."),
                 " Read the plates; what is not known is not covered. "]
    if not plan.loads:
        said += [strong(f"{LOADS_KEPT_BACK}." if plan.concealed else "No load is worked out yet."),
                 " "]
    said += (others := loads_since_sent(plan, baseline(plan)))
    if not plan.ready:
        said.append(f"The order is {state_of(plan)}; its weights can still change. ")
    # Loads of coils that do not come are no loads to drive by.
    stop = not plan.ready or bool(others) or any(load.over or not load.known for load in plan.loads)
    return Banner((paragraph(*said, PLATES_DECIDE, " ", *LEGEND.text),), draft=stop)


def _names(loads: list[LoadLine]) -> str:
    return "; ".join(load.name for load in loads)


def _who(plan: Plan) -> Iterator[tuple[str, Text]]:
    yield "Site", _or_room(site_text(plan))
    name = plan.job.machine.name or ""
    yield "Trailer and machine", _or_room(line(name, strong(
        "; only an example, read your own plates") if EXAMPLE in name.casefold() else ""))
    yield "Tow vehicle", _WRITE
    if plan.job.coils.eye is Attitude.EYE_UP:
        yield "Coils come eye up; turned by", _or_room(answer_text(plan.job, HaulKey.TURNED_BY))


def _or_room(text: Text) -> Text:
    """The answer, or room to write it."""
    return _WRITE if text in ((), TO_ASK) else text


def _loads(plan: Plan, cautioned: list[str]) -> tuple[Block, ...]:
    """Every load with its rating, or room for it, and the numbers of the cautions on it."""
    system = plan.job.units
    rows: list[tuple[Inline, ...]] = [
        (load.name, load_amount(load, system),
         figure_text(load.rating, system) if load.rating is not None else room(10),
         figure_text(load.margin, system), _word(load), _numbers(load, cautioned))
        for load in plan.loads
    ]
    rows += _lifts(plan)
    header = ("load", "comes to", "rating", "margin", "", "caution")
    return stacked(
        table(header, rows, right=(1, 2, 3), keep=True) if rows else (),
        _nothing_said(plan),
        paragraph(*_notes(plan)),
    )


def _word(load: LoadLine) -> Inline:
    """Over, not known, or inside its rating; that little is left, where little is."""
    said = load_word(load)
    return line(said, "; ", strong("little left")) if load.little_left else said


def _lifts(plan: Plan) -> Iterator[tuple[Inline, ...]]:
    """What is to be lifted where no plate of the gear is entered: by what the site said, or not."""
    system = plan.job.units
    for lift in lifts_without_plates(plan):
        weight = line(figure_text(lift.heaviest, system), " + skid")
        if lift.held and lift.told is not None and not lift.is_over(system):
            weight = line(figure_text(lift.told, system), " gross, by the order")
        yield (_LIFT_NAMES[lift.place], weight,
               room(10) if lift.told is None else figure_text(lift.told, system), "",
               _by_answer(lift, system), "")


def _by_answer(lift: LiftWithoutPlate, system: System) -> Inline:
    """What a lift is by what was answered, and what the order says where it holds it to that."""
    if lift.told is None:
        return strong("not known: read it off the plate")
    if lift.is_over(system):
        return line(strong("OVER, by what was answered"),
                    "; the order lets none come over it: refuse a gross tag that is"
                    if lift.held else "")
    if lift.held:
        return "by what was answered: refuse a gross tag over it, read the plate"
    if lift.is_tight(system):
        return line(strong("OVER, by what was answered, with "
                           f"{show(SKID_AND_PACKING[system], Kind.MASS, system)} of skid and "
                           "packing"), ": weigh it with them")
    return "by what was answered: read the plate"


_LIFT_NAMES: dict[LiftPlace, str] = {"site": "Lifting at the site", "shop": "Lifting in the shop"}


def _nothing_said(plan: Plan) -> Block:
    """What of road, cargo and lifts has no load, and so is held to nothing."""
    places = {load.place for load in plan.loads}
    none = [name for name, own in (
        ("the road", _ROAD), ("coils as cargo", ("cargo",)), ("lifting at the site", ("site",)),
        ("lifting in the shop", ("shop",)),
    ) if not places.intersection(own)]
    if not none or plan.concealed:
        return paragraph("")
    return paragraph(f"No plate is entered for {', '.join(none)}, so nothing there is held to a "
                     "rating.")


def _notes(plan: Plan) -> Iterator[str]:
    """What the loads and ratings say of themselves, each note once."""
    found = (figure.note for load in plan.loads for figure in (load.load, load.rating) if figure)
    for note in dict.fromkeys(found):
        if note:
            yield f"{note[0].upper()}{note[1:]}. "


def _gear(plan: Plan) -> Block | tuple[()]:
    """How coils carried as cargo are set and tied, and what lifts: as entered, or to write."""
    job = plan.job
    ties = _TIES if job.haul.cargo_coils else ()
    rows = [(label(job, key), _or_room(answer_text(job, key)))
            for key in ties if ANSWERS[key].asked(job)]
    rows += [(answer.label, answer_text(job, answer.key)) for answer in answers_of("haul")
             if answer.key.startswith(_LIFTS) and answer.asked(job)
             and answer.value(job) is not None]
    return facts("cargo, tie-downs and gear, as entered", rows) if rows else ()


def _to_read(plan: Plan) -> tuple[Block, ...]:
    """Everything a load waits for, with room to write it by hand."""
    needs = dict.fromkeys(key for load in plan.loads for key in load.needs)
    unnamed = [(label(plan.job, key), _WRITE) for key in unnamed_lifts(plan)]
    by = facts("nobody said by what coils are lifted: write it, read its plates, type both in and "
               "print this card again", unnamed) if unnamed else ()
    if not needs:
        return stacked(by)
    if HaulKey.HITCH in needs:
        # They are asked only once the hitch is known; on paper they are read at once.
        needs |= dict.fromkeys(_ONCE_HITCHED)
    tied = set(_TIES) if plan.job.haul.cargo_coils else set()
    return stacked(
        facts("not known: read it off the plate, type it in and print this card again before "
              "anything is hauled or lifted",
              [(label(plan.job, key), _WRITE) for key in needs if key not in tied]),
        by,
    )


def _findings(plan: Plan) -> Block:
    found = [f for f in plan.findings
             if f.key.startswith("haul.") and not f.key.endswith(_SAID_ELSEWHERE)]
    return bullets(
        line(strong(f.level.value.upper()), f" {f.what} ",
             "" if f.level is Level.NOTE else emphasis(f.do))
        for f in worst_first(found)
    )


def _cautions(plan: Plan) -> dict[str, str]:
    """The step's cautions, and those of what this job says of coils, ties and lifts, each once.

    By caution: the answer it belongs to, empty for those of the step.
    """
    found = {" ".join(one.split()): "" for one in cautions("haul")}
    for answer in answers_of("haul"):
        said = " ".join(words(answer.key).caution.split())
        if said and answer.asked(plan.job) and _is_cautioned(answer.key):
            found.setdefault(said, answer.key)
    return found


def _is_cautioned(key: str) -> bool:
    return key in _CAUTIONED or (key.startswith(_LIFTS) and not key.endswith(_ONLY_MEASURED))


def _numbers(load: LoadLine, cautioned: list[str]) -> str:
    """The numbers of the cautions that belong to a load, by the answers that make it."""
    own = {" ".join(words(key).caution.split()) for key in (*load.needs, *load.answers)}
    return ", ".join(str(number) for number, said in enumerate(cautioned, 1) if said in own)
