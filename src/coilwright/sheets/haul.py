"""The haul and lift sheet: loads against plates, tie-downs, slings, cautions, and who signs."""

from __future__ import annotations

from collections.abc import Iterator

from coilwright.job.answers import ANSWERS, answers_of
from coilwright.job.answers.coils import CoilsKey
from coilwright.job.answers.haul import HaulKey
from coilwright.job.answers.job import JobKey
from coilwright.plan.result import LoadLine, Plan
from coilwright.sheets.blocks import (
    Banner,
    Block,
    Inline,
    Sheet,
    Signature,
    Text,
    bullets,
    facts,
    heading,
    line,
    paragraph,
    room,
    stacked,
    strong,
    table,
    ticks,
)
from coilwright.sheets.names import LEGEND, TO_ASK, answer_text, figure_text, label
from coilwright.sheets.parts import (
    PLATES_DECIDE,
    caution_line,
    finding_line,
    load_table,
    workings,
)
from coilwright.values.finding import worst_first
from coilwright.values.keys import Key, row_key
from coilwright.words import cautions, words

_WRITE = line(room(22))
"""Room to write a number or a name."""
_ROAD = ("trailer", "hitch", "tow")
_TIES = (HaulKey.CARGO_COILS, HaulKey.CARGO_ON, HaulKey.GROUPED, HaulKey.EYE, HaulKey.TURNED_BY,
         HaulKey.BLOCKED, HaulKey.MATS, HaulKey.TIES_OVER,
         HaulKey.TIE_OVER_LIMIT, HaulKey.TIES_DIRECT, HaulKey.TIE_DIRECT_LIMIT)  # fmt: skip
_CAUTIONED = (HaulKey.RACK_COILS, HaulKey.HITCH, HaulKey.TOW_WEIGHT, "haul.site_", "haul.shop_",
              *_TIES)
"""Beginnings of answers whose cautions the sheet repeats; those of the other plates are alike."""
_ONCE_HITCHED = (HaulKey.HITCH_RATING, HaulKey.TONGUE_WEIGHT_RATING, HaulKey.TONGUE_WEIGHT,
                 HaulKey.TOW_WEIGHT, HaulKey.TOW_GVWR, HaulKey.TOW_PULL,
                 HaulKey.GCWR)  # fmt: skip
"""What is read off hitch and tow vehicle, whichever the hitch is."""
_SHARE = (
    Key.HAUL_HITCH_SHARE,
    Key.HAUL_HITCH_SHARE_WORKED,
    Key.HAUL_SHARE_LEAST,
    Key.HAUL_SHARE_MOST,
)
_HELD = (Key.HAUL_HELD_OVER, Key.HAUL_HELD_DIRECT)
_NOTHING = "Nothing is entered here, so nothing is held to a rating."
_NO_GEAR = "The gear that lifts is not entered here, so nothing is held to its plate."

BEFORE_WHEELS = (
    "The plates of trailer, axles, hitch and tow vehicle are read today, not remembered.",
    "The whole is weighed where there is a scale, and the tongue or pin weight too.",
    "Coils on the rack are locked on their arbors as the machine's manual says; loose ends are "
    "banded.",
    "The hitch is closed, pinned and of the size it was made for; chains and breakaway cable are "
    "hooked on.",
    "Lights and trailer brakes are tried. Tires, their load marks and wheel nuts are looked at.",
    "Jack up, run-out stands and covers locked, tools stowed, chocks taken away last.",
    "Every tie-down is tight, its tag can be read, and it lies on no cut edge without a pad.",
    "Coils carried as cargo cannot roll, slide or tip even with a tie-down loose.",
    "All of it is looked at again after the first few miles, and at every stop.",
)
"""What people go through by hand before the wheels turn: common practice, no source."""
BEFORE_LIFTING = (
    "The coil's own tag is read: what it weighs, not what was ordered.",
    "The plate of the forklift or crane and that of its attachment are read; the lesser counts.",
    "Slings are looked over this shift: each tag can be read, nothing is cut, bent or knotted, "
    "edges are padded.",
    "Ground, path and reach are looked at, and power lines overhead.",
    "One person gives the signs. Nobody is under a lifted coil or beside it; tag lines keep hands "
    "away.",
    "The coil is chocked before it is let go. Whoever cuts bands stands aside of their spring.",
)
"""The same, before a coil is lifted: common practice, no source."""


def haul_sheet(plan: Plan) -> Sheet:
    """The haul and lift sheet."""
    return Sheet(f"Haul and lift: {plan.job.title}", stacked(
        _state(plan),
        LEGEND,
        facts("haul and lift", _who(plan)),
        _coils(plan),
        heading(2, "On the road"),
        _road(plan),
        heading(2, "Coils as cargo, and tie-downs"),
        _cargo(plan),
        heading(2, "Lifting at the site"),
        _lift(plan, "site"),
        heading(2, "Lifting in the shop"),
        _lift(plan, "shop"),
        _to_read(plan),
        _findings(plan),
        heading(2, "Before the wheels turn"),
        ticks(BEFORE_WHEELS),
        heading(2, "Before a coil is lifted"),
        ticks(BEFORE_LIFTING),
        paragraph("These two lists are common practice, no source; manuals and local rules have "
                  "more."),
        heading(2, "Cautions"),
        bullets(map(caution_line, _cautions(plan))),
        heading(2, "Signed"),
        Signature(("Person in charge", "Driver", "Lifting at the site", "Lifting in the shop"),
                  ("name", "signature", "date")),
        _workings(plan),
    ))


def _state(plan: Plan) -> Banner:
    said: list[Inline] = []
    for word in ("OVER", "TOO FEW"):
        if over := [load for load in plan.loads if load.over and load.word == word]:
            said += [strong(f"{word}: {_names(over)}."), " Do not haul or lift like this. "]
    if unknown := [load for load in plan.loads if not load.known]:
        said += [strong(f"Not known: {_names(unknown)}."),
                 " Read the plates; what is not known is not covered. "]
    if not plan.loads:
        said += [strong("No load is worked out yet."), " "]
    if not plan.ready:
        said.append(f"The order is {plan.state}; its weights can still change. ")
    stop = not plan.ready or any(load.over or not load.known for load in plan.loads)
    return Banner((paragraph(*said, PLATES_DECIDE),), draft=stop)


def _names(loads: list[LoadLine]) -> str:
    return "; ".join(load.name for load in loads)


def _who(plan: Plan) -> Iterator[tuple[str, Text]]:
    job = plan.job
    yield "Job", answer_text(job, JobKey.NAME)
    yield "Site", _or_room(answer_text(job, JobKey.SITE))
    yield "Trailer and machine", _or_room(line(job.machine.name or ""))
    for what in ("Tow vehicle", "Date", "Person in charge"):
        yield what, _WRITE


def _or_room(text: Text) -> Text:
    """The answer, or room to write it."""
    return _WRITE if text in ((), TO_ASK) else text


def _coils(plan: Plan) -> tuple[Block, ...]:
    """Every coil: as ordered, and the heaviest and largest it may come."""
    system = plan.job.units
    rows: list[tuple[Inline, ...]] = [
        (f"Coil {coil.number}", figure_text(coil.mass, system),
         figure_text(plan.figures.get(row_key("coil", coil.number, "heaviest")), system),
         figure_text(coil.outside_diameter, system),
         figure_text(plan.figures.get(row_key("coil", coil.number, "largest")), system))
        for coil in plan.coils
    ]
    rows += [(f"On hand {coil.name}", "", figure_text(coil.heaviest, system), "", "")
             for coil in plan.from_stock]
    if not rows:
        return ()
    return (
        heading(2, "The coils"),
        table(("coil", "as ordered", "heaviest it may come", "diameter", "largest it may come"),
              rows, right=range(1, 5)),
        paragraph("Loads are worked out from the heaviest. The tag on the coil decides."),
    )


def _road(plan: Plan) -> tuple[Block, ...]:
    loads = [load for load in plan.loads if load.place in _ROAD]
    rows = _figures(plan, *_SHARE)
    return stacked(
        load_table(plan, loads) or paragraph(_NOTHING),
        facts("share on the hitch", rows) if rows else (),
        _notes(loads),
    )


def _notes(loads: list[LoadLine]) -> Block:
    """What the loads and ratings say of themselves, each note once."""
    found = (figure.note for load in loads for figure in (load.load, load.rating) if figure)
    return bullets(note[0].upper() + note[1:] for note in dict.fromkeys(found) if note)


def _cargo(plan: Plan) -> tuple[Block, ...]:
    if not plan.job.haul.cargo_coils:
        return (paragraph("No coil is entered as cargo."),)
    rows = [(label(plan.job, key), answer_text(plan.job, key))
            for key in _TIES if ANSWERS[key].asked(plan.job)]
    rows += _figures(plan, *_HELD)
    loads = [load for load in plan.loads if load.place == "cargo"]
    return stacked(facts("tie-downs", rows), load_table(plan, loads), _notes(loads))


def _lift(plan: Plan, place: str) -> tuple[Block, ...]:
    rows = [(answer.label, answer_text(plan.job, answer.key))
            for answer in answers_of("haul")
            if answer.key.startswith(f"haul.{place}_") and answer.asked(plan.job)
            and answer.value(plan.job) is not None]
    rows += _figures(plan, *(key for key in plan.figures if key.startswith(f"haul.{place}_")))
    loads = [load for load in plan.loads if load.place == place]
    if not rows and not loads:
        known = plan.figures.get(CoilsKey.SITE_LIFT) if place == "site" else None
        if known is None:
            return (paragraph(_NOTHING),)
        return (paragraph("The Coils step says the site can lift ",
                          figure_text(known, plan.job.units), ", attachment included; the order "
                          f"is held to that. {_NO_GEAR}"),)
    return stacked(load_table(plan, loads), facts("gear", rows), _notes(loads))


def _figures(plan: Plan, *keys: str) -> list[tuple[str, Text]]:
    """Those figures that are there, but answers and what stands in the tables of loads."""
    shown = {f.key for load in plan.loads for f in (load.load, load.rating, load.margin) if f}
    return [(plan.figures[key].label, figure_text(plan.figures[key], plan.job.units))
            for key in keys if key in plan.figures and key not in ANSWERS and key not in shown]


def _to_read(plan: Plan) -> tuple[Block, ...]:
    """Everything a load waits for, with room to write it by hand."""
    needs = dict.fromkeys(key for load in plan.loads for key in load.needs)
    if not needs:
        return ()
    if HaulKey.HITCH in needs:
        # They are asked only once the hitch is known; on paper they are read in one go.
        needs |= dict.fromkeys(_ONCE_HITCHED)
    return (
        heading(2, "Not known: read it off the plate"),
        table(("what", "as read", "read by"),
              [(label(plan.job, key), _WRITE, _WRITE) for key in needs]),
        paragraph("Type them in and print this sheet again before anything is hauled or lifted."),
    )


def _findings(plan: Plan) -> tuple[Block, ...]:
    found = [f for f in plan.findings if f.key.startswith("haul.")]
    if not found:
        return ()
    return (heading(2, "What was found"), bullets(map(finding_line, worst_first(found))))


def _cautions(plan: Plan) -> list[str]:
    """The step's cautions, and those of what this job says of coils, ties and lifts, each once."""
    own = (words(answer.key).caution for answer in answers_of("haul")
           if answer.asked(plan.job) and answer.key.startswith(_CAUTIONED))
    return [one for one in dict.fromkeys((*cautions("haul"), *own)) if one]


def _workings(plan: Plan) -> tuple[Block, ...]:
    shown = [f for load in plan.loads for f in (load.load, load.rating, load.margin) if f]
    return workings(shown, plan.job.units, ("coil.", "on_hand."))
