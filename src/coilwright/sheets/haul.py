"""The haul and lift sheet: loads against plates, tie-downs, slings, cautions, and who signs."""

from __future__ import annotations

from collections.abc import Iterator

from coilwright.job.answers import ANSWERS, answers_of
from coilwright.plan.result import LoadLine, Plan
from coilwright.sheets.loads import PLATES_DECIDE, load_table
from coilwright.sheets.names import answer_text, label
from coilwright.sheets.order import LEGEND
from coilwright.sheets.questions import BOX
from coilwright.sheets.workings import workings
from coilwright.sheets.writing import (
    TO_ASK,
    bullets,
    figure_text,
    heading,
    joined,
    paragraph,
    quote,
    safe,
    table,
)
from coilwright.values.figure import Figure
from coilwright.values.finding import worst_first
from coilwright.words import cautions, words

_WRITE = safe("_" * 22)
"""Room to write a number or a name."""
_ROAD = ("trailer", "hitch", "tow")
_TIES = ("haul.cargo_coils", "haul.cargo_on", "haul.eye", "haul.blocked", "haul.ties_over",
         "haul.tie_over_limit", "haul.ties_direct", "haul.tie_direct_limit")  # fmt: skip
_CAUTIONED = ("haul.rack_coils", "haul.hitch", "haul.tow_weight", "haul.site_", "haul.shop_",
              *_TIES)
"""Beginnings of answers whose cautions the sheet repeats; those of the other plates are alike."""
_ONCE_HITCHED = ("haul.hitch_rating", "haul.hitch_load_rating", "haul.hitch_load",
                 "haul.tow_weight", "haul.tow_rating", "haul.tow_pull",
                 "haul.combination_rating")  # fmt: skip
"""What is read off hitch and towing vehicle, whichever the hitch is."""
_SHARE = ("haul.hitch_share", "haul.share_least", "haul.share_most")
_HELD = ("haul.held_over", "haul.held_direct")
_NOTHING = "Nothing is entered here, so nothing is held to a rating."
_NO_GEAR = "The gear that lifts is not entered here, so nothing is held to its plate."

BEFORE_WHEELS = (
    "The plates of trailer, axles, hitch and towing vehicle are read today, not remembered.",
    "The whole is weighed where there is a scale, and the load on the hitch too.",
    "Coils on the rack are locked on their arbors as the machine's manual says; loose ends are "
    "banded.",
    "The hitch is closed, pinned and of the size it was made for; chains and breakaway cable are "
    "hooked on.",
    "Lights and trailer brakes are tried. Tyres, their load marks and wheel nuts are looked at.",
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


def haul_sheet(plan: Plan) -> str:
    """The haul and lift sheet as Markdown."""
    return joined([
        heading(1, f"Haul and lift: {safe(plan.job.title)}"),
        _state(plan),
        paragraph(LEGEND),
        table(("haul and lift", ""), _who(plan)),
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
        bullets(f"{BOX} {safe(line)}" for line in BEFORE_WHEELS),
        heading(2, "Before a coil is lifted"),
        bullets(f"{BOX} {safe(line)}" for line in BEFORE_LIFTING),
        paragraph("These two lists are common practice, no source; manuals and local rules have "
                  "more."),
        heading(2, "Cautions"),
        bullets(f"**Caution.** {safe(line)}" for line in _cautions(plan)),
        heading(2, "Signed"),
        table(("", "name", "signature", "date"),
              [(who, "", "", "") for who in ("Person in charge", "Driver", "Lifting at the site",
                                             "Lifting in the shop")]),
        _workings(plan),
    ])


def _state(plan: Plan) -> str:
    said = []
    for word in ("OVER", "TOO FEW"):
        if over := [line for line in plan.loads if line.over and line.word == word]:
            said.append(f"**{word}: {_names(over)}.** Do not haul or lift like this.")
    if open_ := [line for line in plan.loads if not line.known]:
        said.append(f"**Not known: {_names(open_)}.** Read the plates; what is not known is not "
                    "covered.")
    if not plan.loads:
        said.append("**No load is worked out yet.**")
    if not plan.ready:
        said.append(f"The order is {safe(plan.state)}; its weights can still change.")
    return quote(joined([paragraph(" ".join((*said, PLATES_DECIDE)))]))


def _names(loads: list[LoadLine]) -> str:
    return "; ".join(safe(line.name) for line in loads)


def _who(plan: Plan) -> Iterator[tuple[str, str]]:
    job = plan.job
    yield "Job", answer_text(job, "job.name")
    yield "Site", _or_room(answer_text(job, "job.site"))
    yield "Trailer and machine", _or_room(safe(job.machine.name or ""))
    for what in ("Towing vehicle", "Date", "Person in charge"):
        yield what, _WRITE


def _or_room(text: str) -> str:
    """The answer, or room to write it."""
    return _WRITE if text in ("", TO_ASK) else text


def _coils(plan: Plan) -> str:
    """Every coil: as ordered, and the heaviest and largest it may come."""
    system = plan.job.units

    def cell(figure: Figure | None) -> str:
        return "" if figure is None else figure_text(figure, system)

    rows = [
        (f"Coil {coil.number}", cell(coil.mass),
         cell(plan.figures.get(f"coil.{coil.number}.heaviest")), cell(coil.outside_diameter),
         cell(plan.figures.get(f"coil.{coil.number}.largest")))
        for coil in plan.coils
    ]
    rows += [(f"On hand {safe(coil.name)}", "", cell(coil.heaviest), "", "")
             for coil in plan.from_stock]
    if not rows:
        return ""
    return joined([
        heading(2, "The coils"),
        table(("coil", "as ordered", "heaviest it may come", "diameter", "largest it may come"),
              rows, right=range(1, 5)),
        paragraph("Loads are worked out from the heaviest. The tag on the coil decides."),
    ])


def _road(plan: Plan) -> str:
    loads = [line for line in plan.loads if line.place in _ROAD]
    rows = _figures(plan, *_SHARE)
    return joined([
        load_table(plan, loads) or paragraph(_NOTHING),
        table(("share on the hitch", ""), rows) if rows else "",
        _notes(loads),
    ])


def _notes(loads: list[LoadLine]) -> str:
    """What the loads and ratings say of themselves, each note once."""
    found = (figure.note for line in loads for figure in (line.load, line.rating) if figure)
    return bullets(safe(note[0].upper() + note[1:]) for note in dict.fromkeys(found) if note)


def _cargo(plan: Plan) -> str:
    if not plan.job.haul.cargo_coils:
        return paragraph("No coil is entered as cargo.")
    rows = [(safe(label(plan.job, key)), answer_text(plan.job, key))
            for key in _TIES if ANSWERS[key].asked(plan.job)]
    rows += _figures(plan, *_HELD)
    loads = [line for line in plan.loads if line.place == "cargo"]
    return joined([table(("tie-downs", ""), rows), load_table(plan, loads), _notes(loads)])


def _lift(plan: Plan, place: str) -> str:
    rows = [(safe(answer.label), answer_text(plan.job, answer.key))
            for answer in answers_of("haul")
            if answer.key.startswith(f"haul.{place}_") and answer.asked(plan.job)
            and answer.value(plan.job) is not None]
    rows += _figures(plan, *(key for key in plan.figures if key.startswith(f"haul.{place}_")))
    loads = [line for line in plan.loads if line.place == place]
    if not rows and not loads:
        known = plan.figures.get("coils.site_lift") if place == "site" else None
        said = "" if known is None else (
            f"The Coils step says the site can lift {figure_text(known, plan.job.units)}, "
            "attachment included; the order is held to that. ")
        return paragraph(f"{said}{_NOTHING if known is None else _NO_GEAR}")
    return joined([load_table(plan, loads), table(("gear", ""), rows), _notes(loads)])


def _figures(plan: Plan, *keys: str) -> list[tuple[str, str]]:
    """Those figures that are there, but answers and what stands in the tables of loads."""
    shown = {f.key for line in plan.loads for f in (line.load, line.rating, line.margin) if f}
    return [(safe(plan.figures[key].label), figure_text(plan.figures[key], plan.job.units))
            for key in keys if key in plan.figures and key not in ANSWERS and key not in shown]


def _to_read(plan: Plan) -> str:
    """Everything a load waits for, with room to write it by hand."""
    needs = dict.fromkeys(key for line in plan.loads for key in line.needs)
    if not needs:
        return ""
    if "haul.hitch" in needs:
        # They are asked only once the hitch is known; on paper they are read in one go.
        needs |= dict.fromkeys(_ONCE_HITCHED)
    return joined([
        heading(2, "Not known: read it off the plate"),
        table(("what", "as read", "read by"),
              [(safe(label(plan.job, key)), _WRITE, _WRITE) for key in needs]),
        paragraph("Type them in and print this sheet again before anything is hauled or lifted."),
    ])


def _findings(plan: Plan) -> str:
    found = [f for f in plan.findings if f.key.startswith("haul.")]
    if not found:
        return ""
    return joined([heading(2, "What was found"), bullets(
        f"**{f.level.value.upper()}** {safe(f.what)} {safe(f.why)} *{safe(f.do)}*"
        + (f" Source: {safe(str(f.source))}." if str(f.source) else "")
        for f in worst_first(found)
    )])


def _cautions(plan: Plan) -> list[str]:
    """The step's cautions, and those of what this job says of coils, ties and lifts, each once."""
    own = (words(answer.key).caution for answer in answers_of("haul")
           if answer.asked(plan.job) and answer.key.startswith(_CAUTIONED))
    return [line for line in dict.fromkeys((*cautions("haul"), *own)) if line]


def _workings(plan: Plan) -> str:
    shown = [f for line in plan.loads for f in (line.load, line.rating, line.margin) if f]
    made = workings(shown, plan.job.units, ("coil.", "on_hand."))
    return joined([heading(2, "How these numbers were made"), made]) if made else ""
